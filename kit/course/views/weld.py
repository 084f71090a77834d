"""Lesson 02, a weld that did not take, on the screen."""

from __future__ import annotations

from typing import Any

from kit.course.lessons import weld_questions as asked
from kit.course.lessons import weld_scene
from kit.course.lessons.scene import Scene
from kit.course.lessons.weld_flaw import Job
from kit.course.views.base import State, View
from kit.course.views.check import CheckYourself
from kit.course.views.settings import declared, picked


class WeldView(View):
    """A folded bar with one bad weld, and a saw."""

    job = Job
    settings = (
        declared(job, "folds", "count", 1),
        declared(job, "weld", "count", 1),
        picked(job, "patch"),
        declared(job, "position", "percent", 1),
    )

    def scene(self, **state: Any) -> Scene:
        """Draw the sawn end, the welds, and where the gap lies."""
        return weld_scene.scene(**state)

    def remark(self, changed: str, state: State) -> str:
        """Say what doubled, what did not, and what one clean end proves."""
        return weld_scene.remark(changed, state)


def lesson(beside: View | None = None) -> tuple[WeldView, CheckYourself]:
    """Give the view and its checks; units and light go with a view above it."""
    view = WeldView()
    if beside is not None:
        view.bar.follow(beside.bar)
    return view, CheckYourself(asked.HAIR_LINES, asked.WELDS_MADE)
