"""What speaks against welding two steels together, in plain words, each with its source.

A pair without a reason is not thereby safe: the fire, the flux, the press and the grinding
dust are dangerous with every steel. Follow local rules and qualified people.

Nickel is the usual cause of contact allergy. What counts for the skin is how much of it
comes off, which nobody can see in a composition; so every steel is told of that holds more
than gets into any steel by chance.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from enum import Enum

from kit.basics.claim import NO_SOURCE, Claim, Kind
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


OPEN_FIRE = Reason(
    weight=Weight.TAUGHT,
    name="open fire",
    says="Stainless steel does not weld in an open fire: borax does not dissolve the oxide "
    "of chromium. Makers who have learnt it keep all oxygen out: stainless cladding is "
    "ground bright, stacked tight and dry, without flux, and every seam is welded shut. "
    f"{FLUX}",
)
SEALED_CAN = Reason(
    weight=Weight.TAUGHT,
    name="sealed can",
    says=f"{SEALED} A pinhole belongs to a can of that kind, and not to the seams of a "
    "tight stack, which it would let oxygen into.",
)
FUME = _of("fume", dangers.FUME)
EXPANSION = Reason(
    kind=Kind.PUBLISHED,
    weight=Weight.CARE,
    name="expansion",
    says="One shrinks much more than the other, so the weld is pulled at every cooling and "
    "a stack that is not laid evenly bends.",
    source="Callister & Rethwisch, Materials Science and Engineering, Table B.6",
)
NICKEL = _of("nickel", dangers.NICKEL)
CARBON_DRIFTS = Reason(
    kind=Kind.PUBLISHED,
    weight=Weight.CARE,
    name="carbon drifts",
    says="Carbon does not even out but gathers at the chromium: the steel beside the weld "
    "goes soft, the stainless side gets a line of carbide and can rust there.",
    source="Missori, Murdolo & Sili, Metals 10 (2020) 286, doi 10.3390/met10020286; Omichi "
    "et al., Journal of the Japan Institute of Metals (2004)",
)
DIFFERENT_HEATS = Reason(
    weight=Weight.CARE,
    name="heats differ",
    says="No one heat hardens both: what suits the one leaves the other soft or ruins its "
    "grain.",
    source="data sheets of 440C; Andrews 1965 with margins",
)
THICK_LAYERS = Reason(
    weight=Weight.CARE,
    name="thick layers",
    says="In layers of about 1 mm (0.04 in) and more the carbon takes over an hour at "
    "welding heat to even out. Until then hard and soft lie side by side, and the quench "
    "may tear them apart.",
    source="time: Callister, 9th ed., Table 5.2, with Crank, 2nd ed., p. 47; tearing: "
    + NO_SOURCE,
)
TOO_LEAN = Reason(
    weight=Weight.CARE,
    name="no edge",
    says="Once carbon has evened out it is less than the 0.5 % that makers ask of an edge: "
    "expect it to dull soon. As cladding on a thick core the soft one serves, for there "
    "the core keeps its carbon.",
    source="hardness by ASTM A255; how hard an edge must be: " + NO_SOURCE,
)
SOFT_LAYERS = Reason(
    weight=Weight.CARE,
    name="soft layers",
    says="Its layers stay soft in every quench: they make a bright line, not an edge. Keep "
    "them off the cutting edge.",
)
QUENCH = Reason(
    weight=Weight.CARE,
    name="quench",
    says="One needs a fast quench that may crack the other. Use oil, and expect the fast "
    "one to harden only where it is thin.",
    source="ASTM A686 (W: water-hardening), A681 (O: oil-hardening); cracking: "
    + NO_SOURCE,
)
CLINGING_SCALE = Reason(
    weight=Weight.CARE,
    name="scale clings",
    says="With more than about 1.2 % chromium the scale clings: grind bright, stack tight, "
    "leave it no air.",
)
HARDENS_IN_AIR = Reason(
    kind=Kind.PUBLISHED,
    weight=Weight.CARE,
    name="hardens in air",
    says="Thin, L6 hardens as it cools in air: let the billet cool slowly in ash or "
    "vermiculite before it is sawn or drilled.",
    source="Heat Treater's Guide, 2nd ed., ASM International 1995, L6",
)
SLAG = Reason(
    weight=Weight.CARE,
    name="slag",
    says="Wrought iron splits along its slag if it is worked too cold: keep it at a bright "
    "yellow heat.",
)
NO_PATTERN = Reason(
    kind=Kind.OURS,
    weight=Weight.NOTE,
    name="no pattern",
    says="They etch alike once carbon is even: expect little more than the lines of the "
    "welds.",
    source="illustrative: see kit.metal.etch",
)
ALIKE = replace(
    NO_PATTERN,
    says="They etch alike: expect little more than the lines of the welds.",
    told=("They etch alike",),
)
HARDENED_DARK = Reason(
    weight=Weight.NOTE,
    name="contrast by hardening",
    says="By their contents they would etch alike. But hardened, the martensitic one "
    "etches dark beside the austenitic one, and stainless patterns that are sold rest on "
    "it. The kit's tones know nothing of hardening.",
)

# What never goes into a billet, whatever its steel.
FREE_MACHINING = Reason(
    weight=Weight.DO_NOT,
    name="free-machining",
    says="Never free-machining steel, 11xx and 12xx: its sulphur makes it crumble hot "
    "and the weld slaggy.",
)
NEVER = f"{PLATED.says} {LEADED.says} {UNKNOWN} {FREE_MACHINING.says}"


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
        yield replace(THICK_LAYERS, detail=f"The step is {rounded(step, 2)} % carbon.")


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
        f"Cooled from {both(HOTTEST)}, {more} would shrink by "
        f"{rounded(abs(strain) * 1000, 1)} thousandths of its length more."
    )


def _quenches_differ(first: Grade, second: Grade) -> bool:
    quenches = [HANDBOOK[g.name].quench for g in (first, second) if g.name in HANDBOOK]
    return "oil" in quenches and "water or fast oil" in quenches
