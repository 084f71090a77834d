"""The first forging on the screen: four stations in the anvil's working order."""

from __future__ import annotations

from typing import Any

from kit.basics.typed import MM_PER_INCH
from kit.basics.units import STOCK_THICKNESSES_INCH
from kit.course.lessons import bench
from kit.course.lessons.scene import Scene
from kit.course.views.base import View
from kit.course.views.settings import declared, picked
from kit.course.views.stations import Stations

STATIONS = {
    "1 Rack": ("first", "first_bar", "second", "second_bar"),
    "2 Stack": ("pieces",),
    "3 Forge": ("folds", "join", "hammer", "thickness"),
    "4 Cut": ("trued", "angle", "position", "magnified"),
}


EIGHTHS = tuple(MM_PER_INCH * eighth / 8 for eighth in range(1, 13))
SIXTY_FOURTHS = tuple(MM_PER_INCH * part / 64 for part in range(6))


class BenchView(View):
    """Choose steels, stack, fold, cut; the picture answers at every station."""

    cued = False  # the lesson's text says what to do next
    job = bench.Job
    settings = (
        picked(job, "first"),
        declared(job, "first_bar", "length", 0.1, inch_stops=STOCK_THICKNESSES_INCH),
        picked(job, "second"),
        declared(job, "second_bar", "length", 0.1, inch_stops=STOCK_THICKNESSES_INCH),
        declared(job, "pieces", "count", 1),
        declared(job, "folds", "count", 1),
        picked(job, "join"),
        declared(job, "hammer", "percent", 5),
        declared(job, "thickness", "length", 0.5, inch_stops=EIGHTHS),
        declared(job, "trued", "length", 0.1, inch_stops=SIXTY_FOURTHS),
        declared(job, "angle", "angle", 0.5),
        declared(job, "position", "percent", 1),
        declared(job, "magnified", "count", 1),
    )

    def __init__(self) -> None:
        super().__init__()
        self.station = Stations(self, STATIONS)

    def scene(self, **state: Any) -> Scene:
        """Draw the forged and sawn bar."""
        return bench.scene(**state)
