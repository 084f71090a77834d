"""Lesson 02 on the screen."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from kit.basics.typed import MM_PER_INCH
from kit.course.lessons import fold
from kit.course.lessons import fold_questions as asked
from kit.course.lessons.scene import Scene
from kit.course.views.base import State, View
from kit.course.views.check import CheckYourself
from kit.course.views.parts import button
from kit.course.views.predict import Explain, Predict
from kit.course.views.settings import declared, picked

LEGEND = declared(fold.Job, "folds", "count", 1)
FOLDS = replace(LEGEND, high=12)
SIXTEENTHS = tuple(MM_PER_INCH * sixteenth / 16 for sixteenth in range(2, 19))


class FoldView(View):
    """A stack that is folded again and again, seen at its end."""

    job = fold.Job
    settings = (
        declared(job, "pieces", "count", 1),
        FOLDS,
        picked(job, "join"),
        declared(job, "thickness", "length", 0.5, inch_stops=SIXTEENTHS),
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
