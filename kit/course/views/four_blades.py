"""Lesson 11 on the screen: four blades on a table."""

from __future__ import annotations

from typing import Any

from kit.basics.typed import MM_PER_INCH
from kit.course.lessons import four_blades_scene as four
from kit.course.lessons.four_blades import Job
from kit.course.lessons.scene import Scene
from kit.course.views.base import State, View
from kit.course.views.settings import declared, picked

INCHES = tuple(MM_PER_INCH * inch for inch in range(4, 24))


class FourBladesView(View):
    """Four blades that look alike, and one test at a time."""

    job = Job
    settings = (
        picked(Job, "test"),
        declared(Job, "distance", "length", 10, inch_stops=INCHES),
    )

    def scene(self, **state: Any) -> Scene:
        """Do the test on all four."""
        return four.scene(**state)

    def remark(self, changed: str, state: State) -> str:
        """Say what the test is worth."""
        return four.remark(changed, state)


def lesson(beside: View | None = None) -> tuple[FourBladesView]:
    """Give the view; units and light go with a view above it."""
    view = FourBladesView()
    if beside is not None:
        view.bar.follow(beside.bar)
    return (view,)
