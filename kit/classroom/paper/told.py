"""Sentences that several pages share: sizes, hardening, etching."""

from __future__ import annotations

from itertools import combinations

from kit.basics.units import Units, format_length
from kit.forge.billet import Billet
from kit.forge.stack import Stack
from kit.forge.steels import steel
from kit.metal.bath import Bath
from kit.metal.cautions import cautions
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


QUENCH = "Quench as its data sheet says; row Q overleaf comes first."


def hardening(billet: Billet) -> str:
    """Say from how hot the steels of a billet harden, what to mind, and the temper.

    The reasons of all its pairs are told once; what depends on mean carbon, of two only.
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
    after = (QUENCH, TEMPER, sources()) if any(map(hardens, grades)) else ()
    return " ".join([told, *map(str, reasons), *after])


def etching() -> str:
    """Say how it is etched, and point to what to wear."""
    percent = Bath.of_baume(42).thinned(4).percent
    return (
        "Sand, degrease. Ferric chloride of 42 °Bé, one part poured into four of water "
        f"(about {percent:.0f} % by weight); short spells, look between; neutralise, "
        "rinse, oil. Or coffee or vinegar, looked at every half hour (common practice, "
        "no source). Row A overleaf comes first."
    )


def size_in_words(thickness: float, width: float, length: float, units: Units) -> str:
    """Write T × W × L, the unit once.

    Examples
    --------
    >>> size_in_words(5, 38.1, 254, Units.MM)
    '5.0 × 38.1 × 254 mm'
    """
    parts = [format_length(side, units) for side in (thickness, width, length)]
    units_of = {part.split()[-1] for part in parts}
    if len(units_of) == 1:
        unit = units_of.pop()
        return " × ".join(part.removesuffix(f" {unit}") for part in parts) + f" {unit}"
    return " × ".join(parts)
