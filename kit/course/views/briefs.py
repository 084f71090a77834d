"""Lesson 11 on the screen: made to order."""

from __future__ import annotations

from typing import Any

from kit.basics.typed import MM_PER_INCH
from kit.course.lessons import briefs_scene
from kit.course.lessons.briefs import NAMES, Job
from kit.course.lessons.reading import BARS
from kit.course.lessons.scene import Scene
from kit.course.views.base import View
from kit.course.views.settings import Setting, declared
from kit.course.views.stations import Stations

KEYS = {
    NAMES[0]: ("across", "turn", "ground"),
    NAMES[1]: ("layers", "spine", "height"),
    NAMES[2]: ("core", "forged", "blade"),
    NAMES[3]: ("cycles", "crop", "scale"),
}
SIXTEENTHS = tuple(MM_PER_INCH * part / 16 for part in range(64))
THOUSANDTHS = tuple(MM_PER_INCH * part / 1000 for part in range(20))
# kind, step, and where the slider stops
MADE: dict[str, tuple] = {
    "across": ("length", 2, {"all_stops": BARS}),
    "turn": ("length", 1, {}),
    "ground": ("length", 0.1, {"inch_stops": SIXTEENTHS[:9]}),
    "layers": ("count", 10, {}),
    "spine": ("length", 0.1, {"inch_stops": SIXTEENTHS}),
    "height": ("length", 1, {}),
    "core": ("length", 0.1, {"inch_stops": SIXTEENTHS}),
    "forged": ("length", 0.1, {"inch_stops": SIXTEENTHS}),
    "blade": ("length", 1, {}),
    "cycles": ("count", 1, {}),
    "crop": ("length", 1, {"inch_stops": SIXTEENTHS}),
    "scale": ("length", 0.01, {"inch_stops": THOUSANDTHS}),
}


def _setting(key: str) -> Setting:
    kind, step, more = MADE[key]
    return declared(Job, key, kind, step, **more)


class BriefsView(View):
    """Four briefs, judged by what the design really gives; many right answers."""

    job = Job
    settings = tuple(map(_setting, MADE))

    def __init__(self) -> None:
        super().__init__()
        self.stations = Stations(self, KEYS)

    def scene(self, **state: Any) -> Scene:
        """Draw and judge all four designs."""
        return briefs_scene.scene(**state)


def lesson(beside: View | None = None) -> tuple[BriefsView]:
    """Give the view; units and light go with a view above it."""
    view = BriefsView()
    if beside is not None:
        view.bar.follow(beside.bar)
    return (view,)
