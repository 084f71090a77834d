"""Lesson 01 on the screen."""

from __future__ import annotations

from typing import Any

from kit.basics.units import STOCK_THICKNESSES_INCH
from kit.course.lessons import cut
from kit.course.lessons import cut_questions as asked
from kit.course.lessons.scene import Scene
from kit.course.views.base import State, View
from kit.course.views.check import CheckYourself
from kit.course.views.predict import Explain, Predict
from kit.course.views.settings import declared


class CutView(View):
    """A block of flat layers and a saw that cuts at any angle."""

    job = cut.Job
    settings = (
        declared(job, "angle", "angle", 0.5),
        declared(job, "position", "percent", 1),
        declared(job, "layers", "count", 1),
        declared(job, "thickness", "length", 0.1, inch_stops=STOCK_THICKNESSES_INCH),
    )

    def scene(self, **state: Any) -> Scene:
        """Draw the sawn block."""
        return cut.scene(**state)

    def remark(self, changed: str, state: State) -> str:
        """Point out what did not change, and the square cut."""
        return cut.remark(changed, state)


def lesson() -> tuple[Predict, CutView, Explain, CheckYourself]:
    """Give the four parts of the lesson, ready to be shown one below another."""
    view = CutView()
    predict = Predict(asked.question(), view, asked.FILM)
    return (
        predict,
        view,
        predict.explain,
        CheckYourself(asked.BAND_WIDTH, asked.THREE_TIMES),
    )
