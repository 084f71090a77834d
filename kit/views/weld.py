"""Lesson 02, a weld that did not take, on the screen."""

from __future__ import annotations

from typing import Any

from kit.lessons import weld_questions as asked
from kit.lessons import weld_scene
from kit.lessons.scene import Scene
from kit.lessons.weld_flaw import FIRST, MOST_FOLDS, PATCHES, Job
from kit.views.base import State, View
from kit.views.check import CheckYourself
from kit.views.settings import Pick, Setting

START = Job()


class WeldView(View):
    """A folded bar with one bad weld, and a saw."""

    settings = (
        Setting(
            key="folds",
            label="Times folded",
            help="each fold: lay the bar on itself, weld, draw out again",
            kind="count",
            low=0,
            high=MOST_FOLDS,
            step=1,
            start=START.folds,
        ),
        Setting(
            key="weld",
            label="The bad weld, in the order made",
            help=f"1 to {FIRST} in the stack, from the bottom; then one a fold",
            kind="count",
            low=1,
            high=FIRST + MOST_FOLDS,
            step=1,
            start=START.weld,
        ),
        Pick(key="patch", label="It stayed open", options=PATCHES),
        Setting(
            key="position",
            label="Where the bar is sawn",
            help="share of its length",
            kind="percent",
            low=0,
            high=100,
            step=1,
            start=START.position,
        ),
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
