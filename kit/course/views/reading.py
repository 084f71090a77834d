"""Lesson 11 on the screen: the face on the bench."""

from __future__ import annotations

from typing import Any

from kit.basics.typed import MM_PER_INCH
from kit.course.lessons import reading_questions as asked
from kit.course.lessons import reading_scene
from kit.course.lessons.reading import Job
from kit.course.lessons.scene import Scene
from kit.course.views.base import State, View
from kit.course.views.check import CheckYourself
from kit.course.views.predict import Explain, Predict
from kit.course.views.settings import declared, picked
from kit.course.views.stations import Stations

SIXTEENTHS = tuple(MM_PER_INCH * part / 16 for part in range(64))
THIRTY_SECONDS = tuple(MM_PER_INCH * part / 32 for part in range(20))
BARS = tuple(8.5 + 2 * part for part in range(11))  # a dark layer on the axis


class ReadingView(View):
    """An unknown face, a ruler and a protractor, and a bar that is guessed."""

    job = Job
    settings = (
        declared(Job, "start", "length", 0.5, inch_stops=SIXTEENTHS),
        declared(Job, "end", "length", 0.5, inch_stops=SIXTEENTHS[1:]),
        declared(Job, "lean", "angle", 0.5),
        declared(Job, "turn", "length", 1, inch_stops=SIXTEENTHS),
        declared(Job, "across", "length", 2, all_stops=BARS),
        declared(Job, "ground", "length", 0.1, inch_stops=SIXTEENTHS[:9]),
        declared(Job, "overlay", "percent", 5),
        picked(Job, "making"),
        declared(Job, "deeper", "length", 0.1, inch_stops=THIRTY_SECONDS),
        picked(Job, "evidence"),
    )

    def __init__(self) -> None:
        super().__init__()
        self.stations = Stations(
            self,
            {
                "1 Measure": ("start", "end", "lean"),
                "2 Guess": ("turn", "across", "ground", "overlay"),
                "3 Doubt": ("making", "deeper", "evidence"),
            },
        )

    def scene(self, **state: Any) -> Scene:
        """Draw both faces and the evidence; what they tell, only after the prediction."""
        return reading_scene.scene(**state, told=not self.locked)

    def remark(self, changed: str, state: State) -> str:
        """Say what the measurement, or the evidence, is worth."""
        return reading_scene.remark(changed, state)


def lesson() -> tuple[Predict, ReadingView, Explain, CheckYourself]:
    """Give the four parts of the lesson, ready to be shown one below another."""
    view = ReadingView()
    predict = Predict(asked.question(), view, asked.FILM)
    checks = CheckYourself(asked.HEIGHT_CHECK, asked.DEEPER_CHECK, asked.SHADE_CHECK)
    return predict, view, predict.explain, checks
