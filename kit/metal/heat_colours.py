"""What smiths call the colours of hot steel, and a scale of heats that shows them.

The two published lists do not agree. Who judged, and in what light, they do not say.
"""

from __future__ import annotations

import math
from itertools import pairwise
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from kit.basics.errors import KitError
from kit.basics.units import format_temperature, in_fahrenheit
from kit.metal.frame import Frame
from kit.metal.glow import seen
from kit.section.picture import GHOST, INK, PAGE, Sheet, to_srgb

if TYPE_CHECKING:
    from PIL import Image

ROOM_LIGHT = (
    "The names depend on the light of the room: the same heat looks duller in a bright "
    "shop and brighter in a dark one. These lists were not made in your shop, and they "
    "are up to 110 °C apart for one name."
)
NO_GLOW = "no glow"
HOTTEST = 1600  # °C: by then steel is molten

CHAPMAN = "Chapman, Workshop Technology, part 1, 5th ed. (1972)"
STIRLING = "A Book of Steam for Engineers, Stirling (1905), p. 50"
DOOLEY = "Dooley, Applied Science for Metal Workers, table of temper colours"


class HeatColour(NamedTuple):
    """A name and the temperatures it stands for, °C: from `low` up to below `high`."""

    name: str
    low: float
    high: float


def _until_next(*starts: tuple[str, float]) -> tuple[HeatColour, ...]:
    ends = [*(low for _, low in starts[1:]), math.inf]
    return tuple(
        HeatColour(name, low, high) for (name, low), high in zip(starts, ends, strict=True)
    )


def _halfway(*points: tuple[str, float]) -> tuple[HeatColour, ...]:
    between = [(low + high) / 2 for (_, low), (_, high) in pairwise(points)]
    lows = [points[0][1], *between]
    return _until_next(*zip((name for name, _ in points), lows, strict=True))


# Ranges. The book has 426-593, 594-704 …: each is run on here up to the next.
BY_CHAPMAN = _until_next(
    ("black red", 426),  # "when viewed in dull light"
    ("very dark red", 594),
    ("dark red", 705),
    ("cherry red", 815),
    ("light cherry red", 871),
    ("orange", 982),
    ("yellow", 1093),
    ("yellow white", 1259),
    ("white", 1315),
)
STIRLING_POINTS = (
    ("just visible red", 525),
    ("dull red", 699),
    ("dull cherry red", 800),
    ("full cherry red", 900),
    ("clear cherry red", 1000),
    ("deep orange", 1100),
    ("clear orange", 1200),
    ("white", 1300),
    ("bright white", 1400),
    ("dazzling white", 1500),
)
# Single temperatures in the book; that each name reaches halfway to the next is ours.
BY_STIRLING = _halfway(*STIRLING_POINTS)

# The film of oxide on bright steel, slowly heated in air; °F in the book. Longer times
# and other steels shift them.
TEMPER_COLOURS = tuple(
    (name, (fahrenheit - 32) / 1.8)
    for name, fahrenheit in (
        ("very pale yellow", 430),
        ("straw yellow", 460),
        ("dark straw", 480),
        ("brownish yellow", 500),
        ("yellow tinged with purple", 520),
        ("light purple", 530),
        ("dark purple", 550),
        ("dark blue", 570),
        ("pale blue", 610),
        ("blue tinged with green", 630),
    )
)


class Names(NamedTuple):
    """What each of the two lists calls a heat."""

    chapman: str
    stirling: str


def colour_names(celsius: float) -> Names:
    """Say what both lists call steel at a temperature, 0 to 1600 °C.

    Examples
    --------
    >>> colour_names(850)
    Names(chapman='cherry red', stirling='full cherry red')
    """
    if not 0 <= celsius <= HOTTEST:
        msg = f"Heat colours are named from 0 to {HOTTEST} °C. Given: {celsius:g} °C."
        raise KitError(msg)
    return Names(_named(BY_CHAPMAN, celsius), _named(BY_STIRLING, celsius))


def in_words(celsius: float, unit: str = "C") -> str:
    """Write what both lists call a heat, and why that is not the last word.

    `unit` is "C" or "F".

    Examples
    --------
    >>> print(in_words(1200, "F"))
    2192 °F: yellow in one list, clear orange in another. The names depend on the light
    of the room: the same heat looks duller in a bright shop and brighter in a dark one.
    These lists were not made in your shop, and they are up to 110 °C apart for one name.
    """
    first, second = colour_names(celsius)
    both = f"{first} in one list, {second} in another" if first != second else first
    return f"{format_temperature(celsius, unit)}: {both}. {ROOM_LIGHT}"


def _named(colours: tuple[HeatColour, ...], celsius: float) -> str:
    return next(
        (colour.name for colour in reversed(colours) if celsius >= colour.low), NO_GLOW
    )


COLUMNS, ROWS = 900, 760
COLDEST_DRAWN, HOTTEST_DRAWN = 400, 1500

_DARK = 26  # round the strip of glow: beside white paper an orange glow looks brown
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
        Light of the room: see `kit.metal.glow.seen`.
    low, high : float
        Where the scale ends, 400 to 1500 °C and at least 100 °C apart.
    sunlit : bool
        White paper.

    Raises
    ------
    KitError
        For a scale or a heat outside that.
    """
    if not (low >= COLDEST_DRAWN and high <= HOTTEST_DRAWN and high - low >= 100):
        msg = (
            f"The scale must lie within {COLDEST_DRAWN} and {HOTTEST_DRAWN} °C and span "
            f"100 °C or more. Given: {low:g} to {high:g} °C."
        )
        raise KitError(msg)
    if at is not None and not low <= at <= high:
        msg = f"This scale goes from {low:g} to {high:g} °C. Given: {at:g} °C."
        raise KitError(msg)
    sheet = Sheet(COLUMNS, ROWS, sunlit=sunlit)
    frame = Frame(
        sheet=sheet, corner=(116, 62), opposite=(226, 700), across=(0, 1), up=(low, high)
    )
    _glow(frame, lux)
    _degrees(frame)
    _names(frame)
    words = "Names depend on the light of the room. Colours on a screen are illustrative."
    sheet.text(words, (frame.corner[0] - _DARK, ROWS - 18), anchor="ls")
    if at is not None:
        _point(frame, at)
    return HeatScale(sheet.image, _alt(low, high, at, lux))


def _glow(frame: Frame, lux: float) -> None:
    from PIL import Image  # noqa: PLC0415  (keeps the core's import quick)

    (left, top), (right, low) = frame.corner, frame.opposite
    row = to_srgb(seen(np.linspace(*reversed(frame.up), low - top), lux))[:, None, :]
    strip = np.repeat(row, right - left, axis=1)
    corner, opposite = (left - _DARK, top - 12), (right + _DARK, low + 12)
    frame.sheet.box(corner, opposite, fill="black")
    frame.sheet.image.paste(Image.fromarray(np.ascontiguousarray(strip)), frame.corner)


def _degrees(frame: Frame) -> None:
    sheet, (low, high) = frame.sheet, frame.up
    left, right = frame.corner[0] - _DARK, frame.opposite[0] + _DARK
    sheet.text("°C", (left - 8, 40), size=18, anchor="rs")
    sheet.text("°F", (right + 8, 40), size=18, anchor="ls")
    for celsius in range(int(-(-low // 100)) * 100, int(high) + 1, 100):
        y = frame.y(celsius)
        sheet.line([(left + 8, y), (frame.corner[0] - 2, y)], ink=PAGE, width=2)
        sheet.text(f"{celsius}", (left - 8, y), size=18, anchor="rm")
    least, most = in_fahrenheit(low), in_fahrenheit(high)
    for fahrenheit in range(int(-(-least // 200)) * 200, int(most) + 1, 200):
        y = frame.y((fahrenheit - 32) / 1.8)
        sheet.line([(frame.opposite[0] + 2, y), (right - 8, y)], ink=PAGE, width=2)
        sheet.text(f"{fahrenheit}", (right + 8, y), size=18, anchor="lm")


def _names(frame: Frame) -> None:
    """Write one list as ranges between lines, the other as points."""
    sheet, (low, high) = frame.sheet, frame.up
    sheet.text("Chapman (1972)", (_CHAPMAN, 40), size=18, anchor="ls")
    sheet.text("Stirling (1905)", (_STIRLING, 40), size=18, anchor="ls")
    for colour in BY_CHAPMAN:
        first, last = max(colour.low, low), min(colour.high, high)
        if first >= last:
            continue
        if first > low:
            y = frame.y(first)
            sheet.line([(_CHAPMAN - 10, y), (_STIRLING - 50, y)], ink=GHOST, width=2)
        middle = frame.y((first + last) / 2)
        sheet.text(colour.name, (_CHAPMAN, middle), size=18, anchor="lm")
    for name, celsius in STIRLING_POINTS:
        if low <= celsius <= high:
            y = frame.y(celsius)
            sheet.line([(_STIRLING - 22, y), (_STIRLING - 8, y)], width=2)
            sheet.text(name, (_STIRLING, y), size=18, anchor="lm")


def _point(frame: Frame, at: float) -> None:
    """Point at a heat from both sides, and say it on a dark plate that any glow bears."""
    sheet, y = frame.sheet, frame.y(at)
    left, right = frame.corner[0], frame.opposite[0]
    for edge, back in ((left, -12), (right, 12)):
        arrow = [(edge, y), (edge + back, y - 8), (edge + back, y + 8)]
        sheet.shape(arrow, fill=PAGE)
    middle = (left + right) / 2
    plate = y + 16 if y < frame.corner[1] + 60 else y - 56
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
