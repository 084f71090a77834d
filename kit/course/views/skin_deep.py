"""Lesson 06, painted on or all the way through, on the screen."""

from __future__ import annotations

from typing import Any

from kit.basics.typed import MM_PER_INCH
from kit.course.lessons import skin_deep_scene
from kit.course.lessons.scene import Scene
from kit.course.lessons.skin_deep import Job
from kit.course.views.base import State, View
from kit.course.views.settings import declared, picked

THOUSANDTHS = tuple(MM_PER_INCH * part / 1000 for part in range(20))


class SkinDeepView(View):
    """A forged bar, an engraved one, and a grinder that takes the same off both."""

    job = Job
    settings = (
        declared(job, "ground", "length", 0.01, inch_stops=THOUSANDTHS),
        picked(job, "etched"),
        picked(job, "pattern"),
    )

    def scene(self, **state: Any) -> Scene:
        """Draw both bars."""
        return skin_deep_scene.scene(**state)

    def remark(self, changed: str, state: State) -> str:
        """Say what grinding took and what etching brings back."""
        return skin_deep_scene.remark(changed, state)


def lesson(beside: View | None = None) -> tuple[SkinDeepView]:
    """Give the view; units and light go with a view above it."""
    view = SkinDeepView()
    if beside is not None:
        view.bar.follow(beside.bar)
    return (view,)
