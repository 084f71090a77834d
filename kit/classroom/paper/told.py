"""What several pages tell: sizes, hardening, etching, and what to wear at each work.

What to wear is common practice, no source. It is a reminder, not a training: the rules of
the place and somebody qualified come first, and every page that uses it says so.
"""

from collections.abc import Callable, Iterable
from itertools import combinations
from typing import NamedTuple

from kit.basics.claim import Claim, Kind
from kit.basics.told import one_way
from kit.basics.units import Units, format_measured, format_stock
from kit.course.lessons.scene import FORGED
from kit.forge.billet import Billet
from kit.forge.stack import Stack
from kit.forge.steels import steel
from kit.forge.steps import Place
from kit.metal.bath import Bath
from kit.metal.cautions import Weight, cautions
from kit.metal.dangers import (
    DUST,
    ETCHANT,
    FIRE,
    FLUX,
    FUME,
    GRINDER,
    LEARN,
    MONOXIDE,
    OIL,
    PLATED,
    PRESS,
    SCALE,
    SEALED,
    SOLVENT,
    SPENT,
    UNTEMPERED,
    Danger,
)
from kit.metal.hardening import TEMPER, grade_window, hardens, sources, span
from kit.metal.pairs import pair


def stacks(billet: Billet) -> dict[Stack, int]:
    """Give every unlike stack a billet began with, and how many there are of it."""
    if isinstance(billet.source, Stack):
        return {billet.source: 1}
    counts: dict[Stack, int] = {}
    for bar in billet.source.bars:
        for stack, times in stacks(bar).items():
            counts[stack] = counts.get(stack, 0) + times
    return counts


def shares_of(billet: Billet) -> dict[str, float]:
    """Give each steel of a billet once, and how thick all its bars are together, mm."""
    thick: dict[str, float] = {}
    for stack, times in stacks(billet).items():
        for layer in stack.layers:
            thick[layer.steel] = thick.get(layer.steel, 0.0) + times * layer.thickness
    return thick


QUENCH = "Quench as its data sheet says; the last sheet, rows Q, comes first."


def hardening(billet: Billet) -> str:
    """Say from how hot the steels of a billet harden, what to mind, and the temper.

    The reasons of all its pairs are told once, a line each under how much they weigh; what
    depends on mean carbon, of two only.
    """
    shares = shares_of(billet)
    grades = [steel(name) for name in shares]
    if len(shares) == 2:
        two = pair(*shares, tuple(shares.values()))
        told, reasons = two.hardening.sentence, two.reasons
    else:
        each = (
            f"{grade}: {span(grade_window(grade)) if hardens(grade) else 'does not harden'}"
            for grade in grades
        )
        told = "; ".join(each) + "."
        couples = [*combinations(grades, 2)] or [(grades[0], grades[0])]
        reasons = dict.fromkeys(why for couple in couples for why in cautions(*couple))
    lines = [told]
    for weight in Weight:
        ones = [one for one in reasons if one.weight is weight]
        words = [f"{one.name}: {one.says} {one.detail}".strip() for one in ones]
        if len(words) == 1:
            lines.append(f"{weight.value}, {words[0]}")
        elif words:
            lines += [f"{weight.value}:", *(f"– {one}" for one in words)]
    after = (f"{QUENCH} {TEMPER}", sources()) if any(map(hardens, grades)) else ()
    return "\n".join([*lines, *after])


ETCHING = Claim(
    says="Etched in short spells in ferric chloride thinned one to four, or in coffee or "
    "vinegar.",
    kind=Kind.PRACTICE,
    source="the strength by Baumé and a published table of densities; the rest common "
    "practice, no source",
    told=("short spells, look between",),
)


def etching() -> str:
    """Say how it is etched, and point to what to wear."""
    percent = Bath.of_baume(42).thinned(4).percent
    return (
        "Sand, degrease. Ferric chloride of 42 °Bé, one part poured into four of water "
        f"(about {percent:.0f} % by weight); short spells, look between; neutralise, "
        "rinse, oil. Or coffee or vinegar, looked at every half hour (common practice, "
        "no source). The last sheet, rows A, comes first."
    )


def size_in_words(thickness: float, width: float, length: float, units: Units) -> str:
    """Write T × W × L, the unit once.

    Examples
    --------
    >>> size_in_words(5, 38.1, 254, Units.MM)
    '5.0 × 38.1 × 254 mm'
    """
    return _times(lambda to: format_measured(thickness, to), width, length, units)


def bought_in_words(thickness: float, width: float, length: float, units: Units) -> str:
    """Write T × W × L, in mm, of a bought bar, its thickness as it is sold."""
    return _times(lambda to: format_stock(thickness, to), width, length, units)


def _times(thick: Callable[[Units], str], width: float, length: float, units: Units) -> str:
    """Write T × W × L, the sides in mm, the unit once if they share it."""

    def size(units: Units) -> str:
        parts = [thick(units), *(format_measured(side, units) for side in (width, length))]
        units_of = {part.split()[-1] for part in parts}
        if len(units_of) == 1:
            unit = units_of.pop()
            return " × ".join(part.removesuffix(f" {unit}") for part in parts) + f" {unit}"
        return " × ".join(parts)

    return one_way(size, units)


def bars_in_words(stack: Stack, units: Units) -> list[str]:
    """Name every bar of a stack, from the bottom up, and say how thick it is."""
    return [f"{bar.steel}, {format_stock(bar.thickness, units)}" for bar in stack.layers]


def weighed(billet: Billet) -> tuple[Claim, ...]:
    """Give what the sizes, counts and weights of a billet rest on."""
    return FORGED, *map(steel, shares_of(billet))


class Work(NamedTuple):
    """A kind of work: its letter on the card, what it is, what can hurt there."""

    letter: str
    name: str
    dangers: tuple[Danger, ...]


KINDS = (
    Work(
        "F",
        "fire, hammer, press",
        (FIRE, SCALE, MONOXIDE, PRESS, FLUX, SOLVENT, PLATED, SEALED),
    ),
    Work("S", "saw, cut-off", (GRINDER,)),
    Work("G", "grinder", (GRINDER, DUST, FUME)),
    Work("Q", "quench, then temper", (OIL, UNTEMPERED)),
    Work("A", "acid", (ETCHANT, SPENT)),
)
LOCAL = f"A reminder (common practice, no source). {LEARN}"


def letters(places: Iterable[Place]) -> str:
    """Give the letters of `KINDS` that work done at some places asks for; "–" for none.

    Examples
    --------
    >>> letters([Place.FIRE, Place.SAW]), letters([])
    ('F S', '–')
    """
    return " ".join(place.value for place in places) or "–"
