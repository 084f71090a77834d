"""Clay in the place of steel: told apart by lightness, and by chisel marks.

Smiths mark bar ends with a cold chisel to know them again: one stroke, two, three. From
the sixth clay on only the strokes tell them apart.
"""

from collections.abc import Iterable
from itertools import cycle
from typing import NamedTuple

from kit.basics.claim import Claim, Kind
from kit.forge.steels import GRADES
from kit.metal import etch

CLAY = Claim(
    says="A layer of clay thinner than 0.35 mm (0.014 in) tears or smears when it is "
    "rolled; a class gets through three folds of eight sheets of 3 mm (0.12 in). Clay "
    "smears along a cut, sticks to tools, flows, bulges and forms no scale; no acid "
    "bites it.",
    kind=Kind.PRACTICE,
    source="its density from memory: weigh a lump of yours; the rest common practice, no "
    "source",
    unit="g/cm³, mm",
    within="soft modelling clay",
    holds=("DENSITY", "THINNEST"),
    told=(
        "clay misleads",
        "then they smear",
        "Clay is not steel",
        "tears easily when it is rolled",
        "weigh a lump",
        "on baking paper",
    ),
)
DENSITY = 1.8
THINNEST = 0.35
# Lightness of each clay in linear light, ours: as far apart as five greys can be.
CLAYS = {
    "black clay": 0.02,
    "white clay": 0.85,
    "grey clay": 0.21,
    "pale clay": 0.5,
    "dark clay": 0.08,
}
# Headings of a list of steels, each up to a tone in linear light: illustrative.
ETCHED = ((0.2, "etch dark"), (0.6, "etch grey"), (1.0, "etch bright"))


def clays(steels: Iterable[str]) -> dict[str, str]:
    """Give each metal its clay, in the order in which they are met.

    Examples
    --------
    >>> clays(["1084", "15N20", "1084"])
    {'1084': 'black clay I', '15N20': 'white clay II'}
    """
    met = zip(dict.fromkeys(steels), cycle(CLAYS))
    return {steel: f"{name} {'I' * at}" for at, (steel, name) in enumerate(met, 1)}


def tones(steels: Iterable[str]) -> dict[str, float]:
    """Give the lightness of each metal as clay, linear, 0 … 1: illustrative."""
    return dict(zip(dict.fromkeys(steels), cycle(CLAYS.values())))


class Material(NamedTuple):
    """What a bar can be of: the name it goes by, and the heading it is listed under."""

    name: str
    heading: str = ""


def to_choose(steels: Iterable[str], *, as_clay: bool) -> dict[str, Material]:
    """Give what a bar of a stack can be of, by metal.

    Steel: from dark to bright, as it etches. As clay: those that are met, and one more.
    """
    if not as_clay:
        tones = etch.tones(GRADES)
        return {
            name: Material(name, next(word for most, word in ETCHED if tones[name] <= most))
            for name in sorted(GRADES, key=tones.__getitem__)
        }
    met = list(dict.fromkeys(steels))
    another = [name for name in GRADES if name not in met]
    shown = [*met, *another][: min(len(met) + 1, len(CLAYS))]
    return {steel: Material(name) for steel, name in clays(shown).items()}
