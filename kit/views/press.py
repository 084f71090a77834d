"""Lesson 05 on the screen."""

from __future__ import annotations

from typing import Any

from kit.lessons import press, press_scene
from kit.lessons import press_questions as asked
from kit.lessons.scene import Scene
from kit.units import MM_PER_INCH
from kit.views.base import State, View
from kit.views.check import CheckYourself
from kit.views.predict import Explain, Predict
from kit.views.settings import Pick, Setting
from kit.views.stations import Stations

SIXTEENTHS = tuple(MM_PER_INCH * sixteenth / 16 for sixteenth in range(1, 32))
THIRTY_SECONDS = tuple(MM_PER_INCH * part / 32 for part in range(13))
HUNDREDTHS = tuple(MM_PER_INCH * part / 500 for part in range(1, 20))

STATIONS = {
    "1 Bar": ("before", "layer"),
    "2 Tool": ("tool", "across", "depth"),
    "3 Lay out": ("way", "spacing", "faces"),
    "4 Level and look": ("after", "ground", "line"),
}


def _length(  # noqa: PLR0913, PLR0917  (one argument a number)
    key: str,
    label: str,
    note: str,
    low: float,
    high: float,
    step: float,
    start: float,
    inch_stops: tuple[float, ...] = SIXTEENTHS,
) -> Setting:
    return Setting(
        key=key,
        label=label,
        help=note,
        kind="length",
        low=low,
        high=high,
        step=step,
        start=start,
        inch_stops=inch_stops,
    )


class PressView(View):
    """A bar with hollows, made level both ways, and ground."""

    settings = (
        _length("before", "Bar before", "thickness of the welded bar", 4, 20, 0.5, 8),
        _length(
            "layer", "Layer thickness", "of every layer", 0.05, 1, 0.05, 0.3, HUNDREDTHS
        ),
        Pick(key="tool", label="Tool", options=press.TOOLS),
        _length("across", "Tool across", "width of the hollow at the face", 3, 20, 0.5, 6),
        _length(
            "depth",
            "Depth",
            "of ball, groove and wedge; a drill point's follows from its width",
            0, 10, 0.1, 1.8, THIRTY_SECONDS,
        ),
        Pick(key="way", label="Way", options=press.WAYS),
        _length(
            "spacing", "Spacing", "from hollow to hollow along the bar", 6, 40, 1, 12
        ),
        Pick(key="faces", label="Faces", options=press.FACES),
        _length("after", "Bar afterwards", "level, forged to this", 3, 15, 0.5, 6),
        _length(
            "ground", "Grind off afterwards", "from the top", 0, 4, 0.1, 0, THIRTY_SECONDS
        ),
        Setting(
            key="line",
            label="Section line",
            help="0 runs through the middle of the hollows, 100 half a spacing beside",
            kind="percent",
            low=0,
            high=100,
            step=5,
            start=0,
        ),
    )  # fmt: skip

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
