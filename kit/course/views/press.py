"""Lesson 05 on the screen."""

from __future__ import annotations

from typing import Any

from kit.basics.typed import MM_PER_INCH
from kit.course.lessons import press, press_scene
from kit.course.lessons import press_questions as asked
from kit.course.lessons.scene import Scene
from kit.course.views.base import State, View
from kit.course.views.check import CheckYourself
from kit.course.views.predict import Explain, Predict
from kit.course.views.settings import declared, picked
from kit.course.views.stations import Stations

SIXTEENTHS = tuple(MM_PER_INCH * sixteenth / 16 for sixteenth in range(1, 32))
THIRTY_SECONDS = tuple(MM_PER_INCH * part / 32 for part in range(13))
HUNDREDTHS = tuple(MM_PER_INCH * part / 500 for part in range(1, 20))

STATIONS = {
    "1 Bar": ("before", "layer"),
    "2 Tool": ("tool", "across", "depth"),
    "3 Lay out": ("way", "spacing", "faces"),
    "4 Level and look": ("after", "ground", "line"),
}


class PressView(View):
    """A bar with hollows, made level both ways, and ground."""

    job = press.Job
    settings = (
        declared(job, "before", "length", 0.5, inch_stops=SIXTEENTHS),
        declared(job, "layer", "length", 0.05, inch_stops=HUNDREDTHS),
        picked(job, "tool"),
        declared(job, "across", "length", 0.5, inch_stops=SIXTEENTHS),
        declared(job, "depth", "length", 0.1, inch_stops=THIRTY_SECONDS),
        picked(job, "way"),
        declared(job, "spacing", "length", 1, inch_stops=SIXTEENTHS),
        picked(job, "faces"),
        declared(job, "after", "length", 0.5, inch_stops=SIXTEENTHS),
        declared(job, "ground", "length", 0.1, inch_stops=THIRTY_SECONDS),
        declared(job, "line", "percent", 5),
    )

    def __init__(self) -> None:
        super().__init__()
        self.stations = Stations(self, STATIONS)

    def scene(self, **state: Any) -> Scene:
        """Draw the bar both ways."""
        return press_scene.scene(**state)

    def remark(self, changed: str, state: State) -> str:
        """Point out the order of the layers, the plain face, what grinding leaves."""
        return press_scene.remark(changed, state)


def lesson() -> tuple[Predict, PressView, Explain, CheckYourself]:
    """Give the four parts of the lesson, ready to be shown one below another."""
    view = PressView()
    predict = Predict(asked.question(), view, asked.FILM)
    checks = CheckYourself(
        asked.RING_COUNT, asked.RING_SPACING, asked.RELIEF_LEFT, asked.HALF_LEFT
    )
    return predict, view, predict.explain, checks
