"""Lesson 01 on the screen."""

from __future__ import annotations

from typing import Any

from kit.lessons import cut
from kit.lessons import cut_questions as asked
from kit.lessons.scene import Scene
from kit.units import STOCK_THICKNESSES_INCH
from kit.views.base import State, View
from kit.views.check import CheckYourself
from kit.views.predict import Explain, Predict
from kit.views.settings import Setting

ANGLE = Setting(
    key="angle",
    label="Cut angle to the layers",
    help="90° is straight across; near 0° the saw runs along the layers",
    kind="angle",
    low=2,
    high=90,
    step=0.5,
    start=90,
)
POSITION = Setting(
    key="position",
    label="Cut position along the bar",
    help="where the cut crosses the bar's middle",
    kind="percent",
    low=0,
    high=100,
    step=1,
    start=50,
)


class CutView(View):
    """A block of flat layers and a saw that cuts at any angle."""

    settings = (
        ANGLE,
        POSITION,
        Setting(
            key="layers",
            label="Layers in the stack",
            help="dark and bright in turn",
            kind="count",
            low=3,
            high=25,
            step=1,
            start=9,
        ),
        Setting(
            key="thickness",
            label="Layer thickness",
            help="of every layer",
            kind="length",
            low=0.5,
            high=6.0,
            step=0.1,
            start=4.0,
            inch_stops=STOCK_THICKNESSES_INCH,
        ),
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
