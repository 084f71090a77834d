"""Lesson 04 on the screen."""

from __future__ import annotations

from typing import Any

from kit.basics.units import MM_PER_INCH
from kit.course.lessons import twist
from kit.course.lessons import twist_questions as asked
from kit.course.lessons.scene import Scene
from kit.course.views.base import State, View
from kit.course.views.check import CheckYourself
from kit.course.views.predict import Explain, Predict
from kit.course.views.settings import declared, picked
from kit.course.views.stations import Stations

EIGHTHS = tuple(MM_PER_INCH * eighth / 8 for eighth in range(1, 65))
THIRTY_SECONDS = tuple(MM_PER_INCH * thirty / 32 for thirty in range(19))


class TwistView(View):
    """A twisted bar and a grinder."""

    job = twist.Job
    settings = (
        declared(job, "across", "length", 1, inch_stops=EIGHTHS),
        picked(job, "stack"),
        declared(job, "layer", "length", 0.05),
        declared(job, "turn", "length", 1, inch_stops=EIGHTHS),
        picked(job, "hand"),
        declared(job, "drawn", "factor", 0.05),
        picked(job, "neighbour"),
        declared(job, "ground", "length", 0.1, inch_stops=THIRTY_SECONDS),
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
