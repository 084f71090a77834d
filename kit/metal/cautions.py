"""Which reasons speak against welding two grades together."""

from collections.abc import Iterable, Iterator
from dataclasses import replace

from kit.forge.steels import Grade
from kit.metal.hardening import HANDBOOK, never_turns, nickel, stainless
from kit.metal.hardness import EDGE_CARBON, LEAST_CARBON
from kit.metal.nickel import holds_nickel
from kit.metal.properties import HOTTEST, cooling_strain, mismatch
from kit.metal.reasons import (
    CARBON_DRIFTS,
    CLINGING_SCALE,
    EXPANSION,
    FUME,
    HARDENS_IN_AIR,
    NICKEL,
    OPEN_FIRE,
    QUENCH,
    SEALED_CAN,
    SLAG,
    SOFT_LAYERS,
    THICK_LAYERS,
    Reason,
)
from kit.metal.solidus import both

_MUCH_EXPANSION = 3.0  # millionths per °C; twice what data sheets of one steel differ by
_MUCH_CARBON = 0.3  # per cent
_MUCH_CHROMIUM = 1.2  # per cent


def cautions(first: Grade, second: Grade) -> Iterator[Reason]:
    """List what two grades bring with them, before carbon and hardening are looked at.

    What depends on the thickness of the layers is added by `kit.metal.pairs`.

    Examples
    --------
    >>> from kit.forge.steels import steel
    >>> [reason.name for reason in cautions(steel("1084"), steel("440C"))]
    ['open fire', 'sealed can', 'carbon drifts', 'fume']
    >>> [reason.name for reason in cautions(steel("1084"), steel("15N20"))]
    ['nickel']
    """
    grades = tuple(dict.fromkeys((first, second)))
    if any(stainless(grade) for grade in grades):
        yield OPEN_FIRE
        yield SEALED_CAN
        if any(_gives_carbon(grade) for grade in grades):
            yield CARBON_DRIFTS
    if abs(mismatch(first, second)) >= _MUCH_EXPANSION:
        yield replace(EXPANSION, detail=_shrinking(first, second))
    if any(stainless(grade) or nickel(grade) for grade in grades):
        yield FUME
    if any(holds_nickel(grade) for grade in grades):
        yield NICKEL
    whys = [f"{grade}: {why}." for grade in grades if (why := never_turns(grade))]
    if whys:
        yield replace(SOFT_LAYERS, detail=" ".join(whys))
    if _quenches_differ(first, second):
        yield QUENCH
    yield from _of_one(grades)


def carbon_apart(first: Grade, second: Grade) -> Iterator[Reason]:
    """Warn of a step in carbon that thick layers would keep, hard beside soft."""
    low, high = sorted(grade.nominal["C"] for grade in (first, second))
    step = high - low
    if step >= _MUCH_CARBON and low < EDGE_CARBON:
        yield replace(THICK_LAYERS, detail=f"The step is {step:.2f} % carbon.")


def _of_one(grades: Iterable[Grade]) -> Iterator[Reason]:
    """List what a grade asks for, whatever lies beside it."""
    for grade in grades:
        if grade.nominal.get("Cr", 0.0) >= _MUCH_CHROMIUM and not stainless(grade):
            yield CLINGING_SCALE
        if grade.name == "L6":
            yield HARDENS_IN_AIR
        if grade.name == "wrought iron":
            yield SLAG


def _gives_carbon(grade: Grade) -> bool:
    """Whether it is a steel with carbon to lose to a stainless one."""
    return not stainless(grade) and not nickel(grade) and grade.nominal["C"] >= LEAST_CARBON


def _shrinking(first: Grade, second: Grade) -> str:
    strain = cooling_strain(first, second, HOTTEST)
    more = second if strain > 0 else first
    return (
        f"Cooled from {both(HOTTEST)}, {more} would shrink by {abs(strain) * 1000:.1f} "
        "thousandths of its length more."
    )


def _quenches_differ(first: Grade, second: Grade) -> bool:
    quenches = [HANDBOOK[g.name].quench for g in (first, second) if g.name in HANDBOOK]
    return "oil" in quenches and "water or fast oil" in quenches
