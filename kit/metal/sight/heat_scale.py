"""A scale of heats: the glow, °C and °F, and what two lists call it."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from kit.basics.errors import KitError
from kit.basics.units import format_temperature, in_fahrenheit
from kit.metal.sight.glow import seen
from kit.metal.sight.heat_names import BY_CHAPMAN, STIRLING_POINTS, colour_names, in_words
from kit.section.picture import GHOST, INK, PAGE, Sheet, to_srgb

if TYPE_CHECKING:
    from PIL import Image

COLUMNS, ROWS = 900, 760
COLDEST, HOTTEST = 400, 1500

_TOP, _BOTTOM = 62, 700  # of the strip
_STRIP = 116, 226
_DARK = 26  # round the strip: beside white paper an orange glow looks brown
_CHAPMAN, _STIRLING = 350, 620


class HeatScale(NamedTuple):
    """A picture and what it shows."""

    image: Image.Image
    alt: str


def heat_scale(
    *,
    at: float | None = None,
    lux: float = 20,
    low: float = 500,
    high: float = 1350,
    sunlit: bool = False,
) -> HeatScale:
    """Draw the scale, hottest above.

    Parameters
    ----------
    at : float, optional
        A heat to point at, °C.
    lux : float
        Light of the room: see `kit.metal.sight.glow.seen`.
    low, high : float
        Where the scale ends, 400 to 1500 °C and at least 100 °C apart.
    sunlit : bool
        White paper.

    Raises
    ------
    KitError
        For a scale or a heat outside that.
    """
    if not (low >= COLDEST and high <= HOTTEST and high - low >= 100):
        msg = (
            f"The scale must lie within {COLDEST} and {HOTTEST} °C and span 100 °C or "
            f"more. Given: {low:g} to {high:g} °C."
        )
        raise KitError(msg)
    if at is not None and not low <= at <= high:
        msg = f"This scale goes from {low:g} to {high:g} °C. Given: {at:g} °C."
        raise KitError(msg)
    sheet = Sheet(COLUMNS, ROWS, sunlit=sunlit)
    _glow(sheet, low, high, lux)
    _degrees(sheet, low, high)
    _names(sheet, low, high)
    words = "Names depend on the light of the room. Colours on a screen are illustrative."
    sheet.text(words, (_STRIP[0] - _DARK, ROWS - 18), anchor="ls")
    if at is not None:
        _point(sheet, at, _height(at, low, high))
    return HeatScale(sheet.image, _alt(low, high, at, lux))


def _height(celsius: float, low: float, high: float) -> float:
    return _BOTTOM - (celsius - low) / (high - low) * (_BOTTOM - _TOP)


def _glow(sheet: Sheet, low: float, high: float, lux: float) -> None:
    from PIL import Image  # noqa: PLC0415  (keeps the core's import quick)

    left, right = _STRIP
    heats = np.linspace(high, low, _BOTTOM - _TOP)
    row = to_srgb(seen(heats, lux))[:, None, :]
    strip = np.repeat(row, right - left, axis=1)
    corner, opposite = (left - _DARK, _TOP - 12), (right + _DARK, _BOTTOM + 12)
    sheet.box(corner, opposite, fill="black")
    sheet.image.paste(Image.fromarray(np.ascontiguousarray(strip)), (left, _TOP))


def _degrees(sheet: Sheet, low: float, high: float) -> None:
    left, right = _STRIP[0] - _DARK, _STRIP[1] + _DARK
    sheet.text("°C", (left - 8, 40), size=18, anchor="rs")
    sheet.text("°F", (right + 8, 40), size=18, anchor="ls")
    for celsius in range(int(-(-low // 100)) * 100, int(high) + 1, 100):
        y = _height(celsius, low, high)
        sheet.line([(left + 8, y), (_STRIP[0] - 2, y)], ink=PAGE, width=2)
        sheet.text(f"{celsius}", (left - 8, y), size=18, anchor="rm")
    least, most = in_fahrenheit(low), in_fahrenheit(high)
    for fahrenheit in range(int(-(-least // 200)) * 200, int(most) + 1, 200):
        y = _height((fahrenheit - 32) / 1.8, low, high)
        sheet.line([(_STRIP[1] + 2, y), (right - 8, y)], ink=PAGE, width=2)
        sheet.text(f"{fahrenheit}", (right + 8, y), size=18, anchor="lm")


def _names(sheet: Sheet, low: float, high: float) -> None:
    """Write one list as ranges between lines, the other as points."""
    sheet.text("Chapman (1972)", (_CHAPMAN, 40), size=18, anchor="ls")
    sheet.text("Stirling (1905)", (_STIRLING, 40), size=18, anchor="ls")
    for colour in BY_CHAPMAN:
        first, last = max(colour.low, low), min(colour.high, high)
        if first >= last:
            continue
        if first > low:
            y = _height(first, low, high)
            sheet.line([(_CHAPMAN - 10, y), (_STIRLING - 50, y)], ink=GHOST, width=2)
        middle = _height((first + last) / 2, low, high)
        sheet.text(colour.name, (_CHAPMAN, middle), size=18, anchor="lm")
    for name, celsius in STIRLING_POINTS:
        if low <= celsius <= high:
            y = _height(celsius, low, high)
            sheet.line([(_STIRLING - 22, y), (_STIRLING - 8, y)], width=2)
            sheet.text(name, (_STIRLING, y), size=18, anchor="lm")


def _point(sheet: Sheet, at: float, y: float) -> None:
    """Point at a heat from both sides, and say it on a dark plate that any glow bears."""
    left, right = _STRIP
    for edge, back in ((left, -12), (right, 12)):
        arrow = [(edge, y), (edge + back, y - 8), (edge + back, y + 8)]
        sheet.shape(arrow, fill=PAGE)
    middle = (left + right) / 2
    plate = y + 16 if y < _TOP + 60 else y - 56
    sheet.box((left + 6, plate), (right - 6, plate + 42), fill="black", ink=None)
    for line, unit in enumerate("CF"):
        said = format_temperature(at, unit)
        sheet.text(said, (middle, plate + 11 + 20 * line), anchor="mm", ink=PAGE)
    sheet.line([(left, y), (right, y)], ink=INK, width=2)


def _alt(low: float, high: float, at: float | None, lux: float) -> str:
    words = (
        f"A scale of heats from {format_temperature(low)} ({format_temperature(low, 'F')}) "
        f"to {format_temperature(high)} ({format_temperature(high, 'F')}), in a room of "
        f"{lux:g} lux, with the names of two lists: {'; '.join(_steps(low, high))}."
    )
    return words if at is None else f"{words} It points at {in_words(at)}"


def _steps(low: float, high: float) -> list[str]:
    heats = range(int(-(-low // 100)) * 100, int(high) + 1, 100)
    return [f"{heat} °C {' or '.join(dict.fromkeys(colour_names(heat)))}" for heat in heats]
