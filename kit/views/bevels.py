"""Lesson 06 on the screen."""

from __future__ import annotations

from typing import Any

from kit.grind import KINDS
from kit.lessons import bevels, bevels_scene
from kit.lessons import bevels_questions as asked
from kit.lessons.scene import Scene
from kit.units import MM_PER_INCH
from kit.views.base import State, View
from kit.views.check import CheckYourself
from kit.views.predict import Explain, Predict
from kit.views.settings import Pick, Setting
from kit.views.stations import Stations

HUNDREDTHS = tuple(MM_PER_INCH * part / 100 for part in range(4))
SIXTY_FOURTHS = tuple(MM_PER_INCH * part / 64 for part in range(1, 12))
EIGHTHS = tuple(MM_PER_INCH * part / 8 for part in range(1, 20))

STATIONS = {
    "1 Bar": ("layers", "bought", "shown"),
    "2 Forge": ("forged", "cleaned"),
    "3 Blade": ("spine", "edge", "height"),
    "4 Grind": ("kind", "bevel", "wheel", "taper"),
}


def _setting(  # noqa: PLR0913, PLR0917  (one argument a number)
    key: str,
    kind: str,
    label: str,
    note: str,
    low: float,
    high: float,
    step: float,
    inch_stops: tuple[float, ...] = (),
) -> Setting:
    """Make a control that starts where the lesson's own blade does."""
    return Setting(
        key=key,
        label=label,
        help=note,
        kind=kind,
        low=low,
        high=high,
        step=step,
        start=getattr(bevels.Job(), key),
        inch_stops=inch_stops,
    )


class BevelsView(View):
    """A bar, the blade ground from it, and four loupes: four stations."""

    settings = (
        _setting("edge", "length", "Edge before sharpening",
                 "as thick as the spine: no bevel", 0.1, 4, 0.1, SIXTY_FOURTHS),
        _setting("spine", "length", "Spine", "thickness of bar and blade", 2, 8, 0.1),
        _setting("height", "length", "Blade height", "from edge to spine",
                 15, 60, 1, EIGHTHS),
        Pick(key="kind", label="Grind", options=KINDS),
        _setting("bevel", "length", "Bevel height",
                 "of part-height, hollow and convex grinds; flat goes up to the spine",
                 5, 60, 1, EIGHTHS),
        _setting("wheel", "length", "Wheel radius", "of a hollow grind",
                 50, 300, 10, tuple(MM_PER_INCH * part for part in range(2, 12))),
        _setting("taper", "percent", "Taper to the tip",
                 "how much of the spine's thickness is gone there", 0, 60, 5),
        _setting("layers", "count", "Layers through the thickness",
                 "dark and bright in turn, as many as show", 10, 1000, 10),
        Pick(key="bought", label="Bar", options=bevels.BOUGHT),
        Pick(key="shown", label="Show", options=bevels.SHOWN),
        _setting("forged", "percent", "Bevel forged in",
                 "the rest of it is ground", 0, 100, 10),
        _setting("cleaned", "length", "Clean-up after forging",
                 "of each side, counted in the bar's thickness before it was forged",
                 0, 1, 0.1, HUNDREDTHS),
    )  # fmt: skip

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
