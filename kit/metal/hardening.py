"""How hot to make a steel before the quench, how hard it can get, and the temper after.

As-quenched martensite is as hard as its carbon makes it, whatever else is in the steel:
Grange, Hribal & Porter, Metallurgical Transactions A 8 (1977) 1775-1785. Other elements
decide how slow the quench may be. In thin layers that were long hot the carbon that counts
is the mean of the stack.

Too cold and ferrite is left, or too little carbide dissolves: soft. Too hot and the grains
grow: brittle. Between lies the window. Its margins are ours, laid so that the hardening
heats of the handbook in `HANDBOOK` fall inside: common practice, no source. The data sheet
of your own bar, and of the oil, goes first, by local rules, learnt from somebody qualified.

Leaves out: what tempering takes of the hardness; a quench too slow for the section.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import NamedTuple

from kit.basics.claim import Claim, Kind
from kit.basics.errors import KitError
from kit.basics.units import both
from kit.forge.steels import Grade
from kit.metal.contents import STAINLESS
from kit.metal.dangers import UNTEMPERED
from kit.metal.transformation import MOST_CARBON_FOR_A3, a3, ac1

HARDNESS_SOURCE = "ASTM A255, initial hardness against carbon, 0.10 to 0.70 %"

LEAST_CARBON, MOST_CARBON = 0.10, 0.70  # wt%, the range of ASTM A255

QUENCHED = Claim(
    says="How hard a steel is straight from the quench depends on its carbon alone.",
    kind=Kind.PUBLISHED,
    source=f"{HARDNESS_SOURCE}; its coefficients were read in public code",
    unit="HRC for each power of wt% carbon",
    within="0.10 to 0.70 % carbon in austenite; more counts as 0.70",
    holds=("_ALL_MARTENSITE", "LEAST_CARBON", "MOST_CARBON"),
    told=(
        "Straight from the quench",
        "at most from the quench",
        "counts as 0\\.70",
        "known from … to 2 % carbon",
        "HRC (at most|before)",
    ),
)
# HRC for powers 0 to 5 of the carbon content, as in HARDNESS_SOURCE.
_ALL_MARTENSITE = (35.395, 6.990, 312.330, -821.744, 1015.479, -538.346)

HARDENABLE = Claim(
    says="Below about 0.3 % of carbon an iron is not counted as steel that a quench "
    "hardens: wrought iron and mild steel stay soft.",
    kind=Kind.PUBLISHED,
    source="a glossary of historical metallurgy, 'steel': a practical lower limit of about "
    "0.3 %; Callister & Rethwisch, on low-carbon steels, as quoted: below about 0.25 % "
    "unresponsive to heat treatments that are to form martensite",
    seen=True,
    unit="wt% carbon",
    within="plain and low-alloy steel, in a smith's quench",
    holds=("HARDENABLE_CARBON",),
    told=("too little, for it takes", "too little carbon", "does not harden"),
)
HARDENABLE_CARBON = 0.3

EDGE = Claim(
    says="From half a per cent of carbon, where it reaches 60 HRC, a quenched steel holds "
    "an edge.",
    kind=Kind.PRACTICE,
    unit="wt% carbon",
    holds=("EDGE_CARBON",),
    told=("too soft to stay sharp",),
)
EDGE_CARBON = 0.5


def as_quenched(carbon: float) -> float:
    """Say how hard a steel can be straight from the quench, all martensite, HRC.

    Parameters
    ----------
    carbon : float
        Weight per cent in the austenite, 0.10 to 2. Above 0.70 it counts as 0.70:
        what is more stays in carbide, or keeps soft austenite from turning.

    Returns
    -------
    float
        By ASTM A255. Its curve is highest at 0.66 % carbon, by 0.3 HRC: that means nothing.

    Raises
    ------
    KitError
        Below 0.10 % the standard gives nothing; above 2 % it is cast iron.

    Examples
    --------
    >>> as_quenched(0.4)
    56.1
    """
    if not LEAST_CARBON <= carbon <= 2:
        msg = (
            f"Hardness from the quench is known from {LEAST_CARBON:.2f} to 2 % carbon. "
            f"Given: {carbon:g} %."
        )
        raise KitError(msg)
    counts = min(carbon, MOST_CARBON)
    return sum(factor * counts**power for power, factor in enumerate(_ALL_MARTENSITE))


SOURCE = (
    "Ac1 and A3 by Andrews 1965; margins ours (common practice, no source), laid to hold a "
    "handbook's heats"
)

WINDOW = Claim(
    says="A plain or low-alloy steel is quenched hard from a little above where it turns "
    "to austenite, and below where its grains grow.",
    kind=Kind.OURS,
    source=f"{SOURCE}: so the handbook is no check of it",
    unit="°C",
    within="plain and low-alloy steel; the data sheet goes first",
    holds=("_ABOVE_AC1", "_ABOVE_A3", "_WIDTH", "_GRAINS_GROW", "_GRAINS_GROW_LEAN"),
    told=(
        "hardening of a simple pair",
        "it would stay soft",
        "grains grow",
        "hardening window",
        "one heat hardens both",
        "hardens?(,| at)",
    ),
)
_ABOVE_AC1 = 60.0  # until carbide dissolves within minutes
_ABOVE_A3 = 30.0
_WIDTH = 50.0
# Where grains begin to grow; no window ends below. With little carbon later: ASTM A255,
# Table 1, heats steels of 0.37 % and more to 845 °C and calls that right.
_GRAINS_GROW, _GRAINS_GROW_LEAN = 830.0, 850.0

NEVER_TURNS = Claim(
    says="Nickel, and stainless steel with 18 % chromium and 8 % nickel, never turn to "
    "martensite in a quench.",
    kind=Kind.PUBLISHED,
    source="ASTM A276 groups 304 and 316 as austenitic, 420 and 440C as martensitic",
    unit="per cent of nickel from which it is counted so; the bounds are ours",
    holds=("_NICKEL", "_AUSTENITIC"),
    told=(
        "stays soft in every quench",
        "heat treatment of their own",
        "never turns to martensite",
        "stays austenite in the quench",
    ),
)
_NICKEL, _AUSTENITIC = 50.0, 6.0  # per cent of nickel: no steel; with STAINLESS, 18-8


class Window(NamedTuple):
    """The heats, low to high in °C, from which a steel can be quenched hard."""

    low: float
    high: float


@dataclass(frozen=True, kw_only=True)
class Handbook(Claim):
    """A hardening heat as published, low to high in °C, the quench and the source."""

    says: str = "From this heat, and in this quench, the steel is hardened."
    kind: Kind = Kind.PUBLISHED
    unit: str = "°C"
    low: float
    high: float
    quench: str

    @property
    def figures(self) -> str:
        """The heats in both scales, and the quench."""
        return f"{span(self)}, {self.quench}"


_GUIDE = "Heat Treater's Guide, 2nd ed., ASM International 1995"
_TOOLS = "ASM Handbook 4, Heat Treating, 1991, table of tool steels; group letter of ASTM "


def _handbook(
    low: float, high: float, quench: str, source: str, *, seen: bool = False
) -> Handbook:
    return Handbook(low=low, high=high, quench=quench, source=source, seen=seen)


HANDBOOK: Mapping[str, Handbook] = MappingProxyType(
    {
        "1080": _handbook(815, 815, "fast oil", _GUIDE),
        "1095": _handbook(800, 800, "water or fast oil", _GUIDE),
        "5160": _handbook(830, 830, "oil", _GUIDE),
        "52100": _handbook(
            815, 855, "oil", "ASM International, bearing steel, 2019", seen=True
        ),
        "L6": _handbook(790, 845, "oil", _TOOLS + "A681"),
        "O1": _handbook(790, 815, "oil", _TOOLS + "A681"),
        "W1": _handbook(760, 845, "water or fast oil", _TOOLS + "A686"),
        "W2": _handbook(760, 845, "water or fast oil", _TOOLS + "A686"),
        "420": _handbook(
            1010, 1065, "oil or air", "data sheets of 420, seen in copies", seen=True
        ),
        "440C": _handbook(1010, 1040, "oil or air", "data sheets of 440C"),
    }
)


def hardening_window(contents: Mapping[str, float]) -> Window:
    """Say between what heats a plain or low-alloy steel is quenched hard.

    Parameters
    ----------
    contents : mapping
        Weight per cent by element, up to 5 beside carbon. Phosphorus is left out: its
        term in A3 was found on steels with next to none.

    Returns
    -------
    Window
        From 60 °C above Ac1 (up to 0.6 % carbon also 30 °C above A3) over at least
        50 °C, and at least to 830 °C (up to 0.6 % carbon 850): grains grow by heat, not
        by distance from Ac1.

    Raises
    ------
    KitError
        For stainless steel and nickel: see `grade_window`.

    Examples
    --------
    >>> window = hardening_window({"C": 0.84, "Mn": 0.75, "Si": 0.20})
    >>> round(window.low), round(window.high)
    (781, 831)
    """
    counted = {element: part for element, part in contents.items() if element != "P"}
    carbon = counted.get("C", 0.0)
    low, least_ceiling = ac1(counted) + _ABOVE_AC1, _GRAINS_GROW
    if carbon <= MOST_CARBON_FOR_A3:
        low = max(low, a3(counted) + _ABOVE_A3)
        least_ceiling = _GRAINS_GROW_LEAN
    return Window(low, max(low + _WIDTH, least_ceiling))


def hardens(grade: Grade) -> bool:
    """Say whether a quench makes a grade hard enough for an edge.

    Not nickel, not 18-8 stainless, which have no martensite to turn to; not iron and mild
    steel, below 0.5 % carbon. Of stainless steel less is enough: its data sheets tell.

    Examples
    --------
    >>> from kit.forge.steels import steel
    >>> [hardens(steel(name)) for name in ("1084", "mild", "304", "420", "nickel")]
    [True, False, False, True, False]
    """
    told = grade.name in HANDBOOK or grade.nominal["C"] >= EDGE_CARBON
    return never_turns(grade) is None and told


def never_turns(grade: Grade) -> str | None:
    """Say why no amount of carbon would make a grade harden, or None if it would."""
    if nickel(grade):
        return "nickel never turns to martensite"
    if stainless(grade) and grade.nominal.get("Ni", 0.0) >= _AUSTENITIC:
        return "austenitic stainless steel stays austenite in the quench"
    return None


def stainless(grade: Grade) -> bool:
    """Say whether a grade has the 10.5 % chromium that makes it stainless (EN 10088-1)."""
    return grade.nominal.get("Cr", 0.0) >= STAINLESS


def nickel(grade: Grade) -> bool:
    """Say whether a grade is nickel rather than steel: half of it or more."""
    return grade.nominal.get("Ni", 0.0) >= _NICKEL


def grade_window(grade: Grade) -> Window:
    """Give the hardening window of a grade on the rack: published for stainless steel.

    Raises `KitError` for a grade without one: 18-8 stainless and nickel.

    Examples
    --------
    >>> from kit.forge.steels import steel
    >>> grade_window(steel("440C")).low
    1010
    """
    published = HANDBOOK.get(grade.name)
    if stainless(grade) and published is not None:
        return Window(published.low, published.high)
    return hardening_window(grade.nominal)


def overlap(first: Window, second: Window) -> tuple[float, float] | None:
    """Give the heats, low to high in °C, that lie in both windows, or None.

    Examples
    --------
    >>> from kit.forge.steels import steel
    >>> one, other = (grade_window(steel(name)) for name in ("O1", "15N20"))
    >>> [round(heat) for heat in overlap(one, other)]
    [791, 830]
    """
    low, high = max(first.low, second.low), min(first.high, second.high)
    return (low, high) if low <= high else None


def span(heats: tuple[float, float] | Window | Handbook) -> str:
    """Write two heats in °C and °F, or one if they are the same."""
    low, high = (heats.low, heats.high) if not isinstance(heats, tuple) else heats
    if round(low) == round(high):
        return both(low)
    return f"{low:.0f}–{high:.0f} °C ({low * 1.8 + 32:.0f}–{high * 1.8 + 32:.0f} °F)"


TEMPERED = Claim(
    says="A hardened blade is tempered without delay, as hot as its data sheet says.",
    kind=Kind.PUBLISHED,
    source="a data sheet of O1, 176.7 to 232.2 °C (350 to 450 °F); one of 1095 goes on to "
    "260 °C (500 °F)",
    seen=True,
    unit="°C",
    within="simple steels; stainless steels and tools of high alloy have others",
    holds=("TEMPERING",),
    told=("below the coolest tempering", "temper at once"),
)
TEMPERING = (176.7, 232.2)
TEMPER_SOURCE = (
    "tempering: a data sheet of O1; how often and how long: common practice, no source"
)

THEN = "Then temper at once."
TEMPER = (
    f"{UNTEMPERED} Simple steels about {span(TEMPERING)}, an hour or two, twice; the "
    "data sheet goes first."
)


def sources() -> str:
    """Say where the heats of a hardening come from, in one sentence."""
    return f"Sources: {SOURCE}; {TEMPER_SOURCE}."
