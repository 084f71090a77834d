"""Lesson 06 on the screen."""

from __future__ import annotations

from typing import Any

from kit.basics.typed import MM_PER_INCH
from kit.course.lessons import bevels, bevels_scene
from kit.course.lessons import bevels_questions as asked
from kit.course.lessons.scene import Scene
from kit.course.views.base import State, View
from kit.course.views.check import CheckYourself
from kit.course.views.predict import Explain, Predict
from kit.course.views.settings import declared, picked
from kit.course.views.stations import Stations

HUNDREDTHS = tuple(MM_PER_INCH * part / 100 for part in range(4))
SIXTY_FOURTHS = tuple(MM_PER_INCH * part / 64 for part in range(1, 12))
EIGHTHS = tuple(MM_PER_INCH * part / 8 for part in range(1, 20))

STATIONS = {
    "1 Bar": ("layers", "bought", "shown"),
    "2 Forge": ("forged", "cleaned"),
    "3 Blade": ("spine", "edge", "height"),
    "4 Grind": ("kind", "bevel", "wheel", "taper"),
}


INCHES = tuple(MM_PER_INCH * part for part in range(2, 12))


class BevelsView(View):
    """A bar, the blade ground from it, and four loupes: four stations."""

    job = bevels.Job
    settings = (
        declared(job, "edge", "length", 0.1, inch_stops=SIXTY_FOURTHS),
        declared(job, "spine", "length", 0.1),
        declared(job, "height", "length", 1, inch_stops=EIGHTHS),
        picked(job, "kind"),
        declared(job, "bevel", "length", 1, inch_stops=EIGHTHS),
        declared(job, "wheel", "length", 10, inch_stops=INCHES),
        declared(job, "taper", "percent", 5),
        declared(job, "layers", "count", 10),
        picked(job, "bought"),
        picked(job, "shown"),
        declared(job, "forged", "percent", 10),
        declared(job, "cleaned", "length", 0.1, inch_stops=HUNDREDTHS),
    )

    def __init__(self) -> None:
        super().__init__()
        self.stations = Stations(self, STATIONS)
        self.stations.value = 2  # the bar is there: the next thing is the blade

    def scene(self, **state: Any) -> Scene:
        """Draw the blade; sawn and in loupes only after the prediction."""
        return bevels_scene.scene(**state, inside=not self.locked)

    def remark(self, changed: str, state: State) -> str:
        """Point out the plain face, the grey bevel, what a bought bar becomes."""
        return bevels_scene.remark(changed, state)


def lesson() -> tuple[Predict, BevelsView, Explain, CheckYourself]:
    """Give the four parts of the lesson, ready to be shown one below another."""
    view = BevelsView()
    predict = Predict(asked.question(), view, asked.FILM)
    checks = CheckYourself(asked.LINE_COUNT, asked.LINE_SPACING)
    return predict, view, predict.explain, checks
