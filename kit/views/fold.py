"""Lesson 02 on the screen."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from kit.lessons import fold
from kit.lessons import fold_questions as asked
from kit.lessons.scene import Scene
from kit.units import MM_PER_INCH
from kit.views.base import State, View
from kit.views.check import CheckYourself
from kit.views.parts import button
from kit.views.predict import Explain, Predict
from kit.views.settings import Pick, Setting

FOLDS = Setting(
    key="folds",
    label="Folds",
    help="each fold: lay the bar on itself, weld, draw out again",
    kind="count",
    low=0,
    high=12,
    step=1,
    start=4,
)
LEGEND = replace(FOLDS, high=20)


class FoldView(View):
    """A stack that is folded again and again, seen at its end."""

    settings = (
        Setting(
            key="pieces",
            label="Pieces in the stack",
            help="bars of 1/8 in, 1084 and 15N20 in turn",
            kind="count",
            low=2,
            high=25,
            step=1,
            start=7,
        ),
        FOLDS,
        Pick(key="join", label="Way of joining", options=fold.JOINS),
        Setting(
            key="thickness",
            label="Bar thickness afterwards",
            help="the finished bar",
            kind="length",
            low=3,
            high=30,
            step=0.5,
            start=6.0,
            inch_stops=tuple(MM_PER_INCH * sixteenth / 16 for sixteenth in range(2, 19)),
        ),
    )

    def __init__(self) -> None:
        super().__init__()
        self.legend_button = button("As the legends tell: up to 20 folds", self.legend)
        self.buttons.children = [*self.buttons.children, self.legend_button]

    def scene(self, **state: Any) -> Scene:
        """Draw the end grain and the count."""
        return fold.scene(**state)

    def remark(self, changed: str, state: State) -> str:
        """Say what no fold, and what restacking, does."""
        return fold.remark(changed, state)

    def legend(self, _button: Any = None) -> None:
        """Let the fold slider go on to 20, where layers are a few atoms thick."""
        self.settings = tuple(
            LEGEND if setting.key == "folds" else setting for setting in self.settings
        )
        self.controls["folds"].stops = LEGEND.stops(self.units)
        self.say("The fold slider now goes to 20. Watch the thickness of one layer.")


def lesson() -> tuple[Predict, FoldView, Explain, CheckYourself]:
    """Give the four parts of the lesson, ready to be shown one below another."""
    view = FoldView()
    predict = Predict(asked.question(), view, asked.FILM)
    checks = CheckYourself(asked.LAYER_COUNT, asked.BAND_COUNT, asked.FEWEST_FOLDS)
    return predict, view, predict.explain, checks
