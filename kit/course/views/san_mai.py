"""Lesson 07 on the screen."""

from __future__ import annotations

from typing import Any

from kit.basics.typed import MM_PER_INCH
from kit.course.lessons import san_mai
from kit.course.lessons import san_mai_questions as asked
from kit.course.lessons.san_mai_blade import Job
from kit.course.lessons.scene import Scene
from kit.course.views.base import State, View
from kit.course.views.check import CheckYourself
from kit.course.views.predict import Explain, Predict
from kit.course.views.settings import Pick, Setting, declared
from kit.course.views.stations import Stations
from kit.section.grind import KINDS

THIRTY_SECONDS = tuple(MM_PER_INCH * part / 32 for part in range(26))
THOUSANDTHS = tuple(MM_PER_INCH * part / 500 for part in range(-20, 31))

STATIONS = {
    "1 Stack": ("left", "core", "right", "nickel"),
    "2 Forge": ("thickness", "off"),
    "3 Dies": ("wave", "spacing"),
    "4 Grind": ("edge", "height", "kind"),
}


def _setting(key: str, step: float, inch_stops: tuple[float, ...] = ()) -> Setting:
    return declared(Job, key, "length", step, inch_stops=inch_stops)


class SanMaiView(View):
    """A clad blade: four stations."""

    job = Job
    settings = (
        _setting("off", 0.05, THOUSANDTHS),
        _setting("thickness", 0.1, THIRTY_SECONDS),
        _setting("edge", 0.1, THOUSANDTHS),
        _setting("height", 1),
        Pick(key="kind", label="Grind", options=KINDS),
        _setting("left", 0.1, THIRTY_SECONDS),
        _setting("core", 0.1, THIRTY_SECONDS),
        _setting("right", 0.1, THIRTY_SECONDS),
        _setting("nickel", 0.05, THOUSANDTHS),
        _setting("wave", 0.05, THOUSANDTHS),
        _setting("spacing", 1),
    )

    def __init__(self) -> None:
        super().__init__()
        self.stations = Stations(self, STATIONS)
        self.stations.value = 1  # the stack is there: the next thing is the offset

    def scene(self, **state: Any) -> Scene:
        """Draw the blade; how far off the core may be only after the prediction."""
        return san_mai.scene(**state, inside=not self.locked)

    def remark(self, changed: str, state: State) -> str:
        """Point out the nickel, the dies, the other grinds."""
        return san_mai.remark(changed, state)


def lesson() -> tuple[Predict, SanMaiView, Explain, CheckYourself]:
    """Give the four parts of the lesson, ready to be shown one below another."""
    view = SanMaiView()
    predict = Predict(asked.question(), view, asked.FILM)
    checks = CheckYourself(asked.LINE_HEIGHT, asked.OFF_CENTRE, asked.HIGHER_LINE)
    return predict, view, predict.explain, checks
