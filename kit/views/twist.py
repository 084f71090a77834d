"""Lesson 04 on the screen."""

from __future__ import annotations

from typing import Any

from kit.lessons import twist
from kit.lessons import twist_questions as asked
from kit.lessons.scene import Scene
from kit.units import MM_PER_INCH
from kit.views.base import State, View
from kit.views.check import CheckYourself
from kit.views.predict import Explain, Predict
from kit.views.settings import Pick, Setting
from kit.views.stations import Stations

EIGHTHS = tuple(MM_PER_INCH * eighth / 8 for eighth in range(1, 65))


class TwistView(View):
    """A twisted bar and a grinder."""

    settings = (
        Setting(
            key="across",
            label="Bar across",
            help="diameter of the round bar",
            kind="length",
            low=8,
            high=30,
            step=1,
            start=16,
            inch_stops=EIGHTHS,
        ),
        Pick(key="stack", label="Stacked from an", options=twist.STACKS),
        Setting(
            key="layer",
            label="Layer thickness",
            help="as near as a whole number of layers allows",
            kind="length",
            low=0.25,
            high=2.0,
            step=0.05,
            start=0.5,
        ),
        Setting(
            key="turn",
            label="Length for one turn",
            help="a short turn is a tight twist",
            kind="length",
            low=20,
            high=200,
            step=1,
            start=50,
            inch_stops=EIGHTHS,
        ),
        Pick(key="hand", label="Hand", options=twist.HANDS),
        Setting(
            key="drawn",
            label="Draw out after twisting",
            help="times as long, at the same width; squared up first",
            kind="factor",
            low=1.0,
            high=2.0,
            step=0.05,
            start=1.0,
        ),
        Pick(key="neighbour", label="Second bar beside it", options=twist.NEIGHBOURS),
        Setting(
            key="ground",
            label="Grind off",
            help="from the top, down to the axis at most",
            kind="length",
            low=0,
            high=15,
            step=0.1,
            start=0,
            inch_stops=tuple(MM_PER_INCH * thirty / 32 for thirty in range(19)),
        ),
    )

    def __init__(self) -> None:
        super().__init__()
        self.stations = Stations(
            self,
            {
                "1 Bar": ("across", "layer", "stack"),
                "2 Twist": ("turn", "hand", "drawn", "neighbour"),
                "3 Grind": ("ground",),
            },
        )

    def scene(self, **state: Any) -> Scene:
        """Draw the twisted and ground bar; its inside only after the prediction."""
        return twist.scene(**state, inside=not self.locked)

    def remark(self, changed: str, state: State) -> str:
        """Point out the stars, the even stack, the chevrons."""
        return twist.remark(changed, state)


def lesson() -> tuple[Predict, TwistView, Explain, CheckYourself]:
    """Give the four parts of the lesson, ready to be shown one below another."""
    view = TwistView()
    predict = Predict(asked.question(), view, asked.FILM)
    checks = CheckYourself(asked.SKIN_ANGLE, asked.GROUND_ANGLE, asked.STAR_COUNT)
    return predict, view, predict.explain, checks
