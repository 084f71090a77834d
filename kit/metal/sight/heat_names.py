"""What smiths call the colours of hot steel: two published lists, and temper colours.

The lists do not agree. Who judged, and in what light, they do not say.
"""

from __future__ import annotations

import math
from itertools import pairwise
from typing import NamedTuple

from kit.basics.errors import KitError
from kit.basics.units import format_temperature

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
# Single temperatures in the book; that each name reaches half-way to the next is ours.
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
