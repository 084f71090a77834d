"""The first forging on the screen: four stations in the anvil's working order."""

from __future__ import annotations

from typing import Any

from kit.lessons import bench
from kit.lessons.fold import JOINS
from kit.lessons.scene import Scene
from kit.stack import DEMO_INNER, DEMO_OUTER, demo_stack
from kit.units import MM_PER_INCH, STOCK_THICKNESSES_INCH
from kit.views.base import View
from kit.views.cut import ANGLE, POSITION
from kit.views.settings import Pick, Setting
from kit.views.stations import Stations

STATIONS = {
    "1 Rack": ("first", "first_bar", "second", "second_bar"),
    "2 Stack": ("pieces",),
    "3 Forge": ("folds", "join", "hammer", "thickness"),
    "4 Cut": ("trued", "angle", "position", "magnified"),
}


def _bar(key: str, label: str, start: float) -> Setting:
    return Setting(
        key=key,
        label=label,
        help="stock as it lies on the rack",
        kind="length",
        low=0.5,
        high=12.7,
        step=0.1,
        start=start,
        inch_stops=STOCK_THICKNESSES_INCH,
    )


class BenchView(View):
    """Choose steels, stack, fold, cut; the picture answers at every station."""

    cued = False  # the lesson's text says what to do next
    settings = (
        Pick(key="first", label="First steel", options=bench.RACK, start=bench.FIRST),
        _bar("first_bar", "Its bars", DEMO_OUTER.thickness),
        Pick(key="second", label="Second steel", options=bench.RACK, start=bench.SECOND),
        _bar("second_bar", "Its bars ", DEMO_INNER.thickness),
        Setting(
            key="pieces",
            label="Pieces in the stack",
            help="the two steels in turn",
            kind="count",
            low=2,
            high=25,
            step=1,
            start=len(demo_stack().layers),
        ),
        Setting(
            key="folds",
            label="Folds",
            help="lay the bar on itself, weld, draw out again",
            kind="count",
            low=0,
            high=8,
            step=1,
            start=0,
        ),
        Pick(key="join", label="Way of joining", options=JOINS),
        Setting(
            key="hammer",
            label="Uneven hammering",
            help="how far the layers wave, of what the kit allows; illustrative",
            kind="percent",
            low=0,
            high=100,
            step=5,
            start=0,
        ),
        Setting(
            key="thickness",
            label="Draw out to a thickness of",
            help="thickness of the finished bar",
            kind="length",
            low=3,
            high=40,
            step=0.5,
            start=demo_stack().thickness,
            inch_stops=tuple(MM_PER_INCH * eighth / 8 for eighth in range(1, 13)),
        ),
        Setting(
            key="trued",
            label="Crop and grind true",
            help="taken off all six sides of the forged bar",
            kind="length",
            low=0,
            high=2,
            step=0.1,
            start=0,
            inch_stops=tuple(MM_PER_INCH * part / 64 for part in range(6)),
        ),
        ANGLE,
        POSITION,
        Setting(
            key="magnified",
            label="Look closer",
            help="times true size",
            kind="count",
            low=1,
            high=40,
            step=1,
            start=2,
        ),
    )

    def __init__(self) -> None:
        super().__init__()
        self.station = Stations(self, STATIONS)

    def scene(self, **state: Any) -> Scene:
        """Draw the forged and sawn bar."""
        return bench.scene(**state)
