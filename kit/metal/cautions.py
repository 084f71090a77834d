"""What speaks against welding two steels together: the reasons, and when each holds.

Their words stand in `cautions.json`, each with its source.

A pair without a reason is not thereby safe: the fire, the flux, the press and the grinding
dust are dangerous with every steel. Follow local rules and qualified people.

Nickel is the usual cause of contact allergy. What counts for the skin is how much of it
comes off, which nobody can see in a composition; so every steel is told of that holds more
than gets into any steel by chance.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from enum import Enum

from kit.basics.claim import Claim, Kind, beside
from kit.basics.units import both, rounded
from kit.forge.steels import Grade
from kit.metal import dangers
from kit.metal.dangers import FLUX, LEADED, PLATED, SEALED, UNKNOWN
from kit.metal.hardening import (
    EDGE_CARBON,
    HANDBOOK,
    LEAST_CARBON,
    never_turns,
    nickel,
    stainless,
)
from kit.metal.properties import HOTTEST, cooling_strain, mismatch


class Weight(Enum):
    """How much a reason weighs; the value is what stands before it."""

    DO_NOT = "Do not weld these"
    TAUGHT = "Only taught by somebody qualified"
    CARE = "Only with care"
    NOTE = "Know this"


@dataclass(frozen=True, kw_only=True)
class Reason(Claim):
    """One reason: its weight, a name of a word or two, a sentence, the pair's own figures.

    ``detail`` may be empty.
    """

    kind: Kind = Kind.PRACTICE
    weight: Weight
    name: str
    detail: str = ""

    def __str__(self) -> str:
        return f"{self.weight.value}: {self.says} {self.detail}".strip()


def _of(name: str, danger: dangers.Danger) -> Reason:
    """Give a danger as a reason for care."""
    return Reason(
        kind=danger.kind, weight=Weight.CARE, name=name,
        says=str(danger), source=danger.source,
    )  # fmt: skip


REASONS = beside(__file__, Reason, flux=str(FLUX), sealed=str(SEALED))
FUME, NICKEL = _of("fume", dangers.FUME), _of("nickel", dangers.NICKEL)
# What never goes into a billet, whatever its steel.
NEVER = f"{PLATED.says} {LEADED.says} {UNKNOWN} {REASONS['free machining'].says}"


BY_CHANCE = Claim(
    says="Up to 0.25 % of nickel is nobody's wish but comes with the scrap.",
    kind=Kind.MEMORY,
    source="ASTM A29/A29M, on residual elements; the same figure is the limit of 52100 in "
    "ASTM A295-98, Table 1",
    unit="per cent",
    holds=("RESIDUAL",),
)
RESIDUAL = 0.25


def holds_nickel(grade: Grade) -> bool:
    """Say whether a grade's standard lets it hold more nickel than comes by chance.

    Examples
    --------
    >>> from kit.forge.steels import steel
    >>> [holds_nickel(steel(name)) for name in ("15N20", "52100", "1084")]
    [True, False, False]
    """
    return grade.ranges.get("Ni", (0.0, 0.0))[1] > RESIDUAL


def to_the_owner(grades: Iterable[Grade]) -> str:
    """Say that a piece holds nickel, or nothing if it does not.

    Examples
    --------
    >>> from kit.forge.steels import steel
    >>> to_the_owner([steel("1084"), steel("L6")])[:19]
    'It holds nickel (L6'
    """
    names = " and ".join(
        "nickel sheet" if grade.name.startswith("nickel") else grade.name
        for grade in dict.fromkeys(grades)
        if holds_nickel(grade)
    )
    if not names:
        return ""
    return (
        f"It holds nickel ({names}): not to be worn on the skin by anybody allergic to it; "
        "say so when you pass it on."
    )


# How much is worth a warning; ours.
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
        yield REASONS["open fire"]
        yield REASONS["sealed can"]
        if any(_gives_carbon(grade) for grade in grades):
            yield REASONS["carbon drifts"]
    if abs(mismatch(first, second)) >= _MUCH_EXPANSION:
        yield replace(REASONS["expansion"], detail=_shrinking(first, second))
    if any(stainless(grade) or nickel(grade) for grade in grades):
        yield FUME
    if any(holds_nickel(grade) for grade in grades):
        yield NICKEL
    whys = [f"{grade}: {why}." for grade in grades if (why := never_turns(grade))]
    if whys:
        yield replace(REASONS["soft layers"], detail=" ".join(whys))
    if _quenches_differ(first, second):
        yield REASONS["quench"]
    yield from _of_one(grades)


def heaviest(first: Grade, second: Grade) -> str:
    """Name what weighs most of it, for a line that has no room for more, or nothing.

    Examples
    --------
    >>> from kit.forge.steels import steel
    >>> heaviest(steel("1084"), steel("304"))
    'Only taught by somebody qualified: open fire, sealed can; see lesson 08.'
    """
    found = list(cautions(first, second))
    if not found:
        return ""
    weight = min((reason.weight for reason in found), key=list(Weight).index)
    names = ", ".join(reason.name for reason in found if reason.weight is weight)
    return f"{weight.value}: {names}; see lesson 08."


def carbon_apart(first: Grade, second: Grade) -> Iterator[Reason]:
    """Warn of a step in carbon that thick layers would keep, hard beside soft."""
    low, high = sorted(grade.nominal["C"] for grade in (first, second))
    step = high - low
    if step >= _MUCH_CARBON and low < EDGE_CARBON:
        yield replace(
            REASONS["thick layers"], detail=f"The step is {rounded(step, 2)} % carbon."
        )


def _of_one(grades: Iterable[Grade]) -> Iterator[Reason]:
    """List what a grade asks for, whatever lies beside it."""
    for grade in grades:
        if grade.nominal.get("Cr", 0.0) >= _MUCH_CHROMIUM and not stainless(grade):
            yield REASONS["clinging scale"]
        if grade.name == "L6":
            yield REASONS["air hardening"]
        if grade.name == "wrought iron":
            yield REASONS["slag"]


def _gives_carbon(grade: Grade) -> bool:
    """Whether it is a steel with carbon to lose to a stainless one."""
    return not stainless(grade) and not nickel(grade) and grade.nominal["C"] >= LEAST_CARBON


def _shrinking(first: Grade, second: Grade) -> str:
    strain = cooling_strain(first, second, HOTTEST)
    more = second if strain > 0 else first
    return (
        f"Cooled from {both(HOTTEST)}, {more} would shrink by "
        f"{rounded(abs(strain) * 1000, 1)} thousandths of its length more."
    )


def _quenches_differ(first: Grade, second: Grade) -> bool:
    quenches = [HANDBOOK[g.name].quench for g in (first, second) if g.name in HANDBOOK]
    return "oil" in quenches and "water or fast oil" in quenches
