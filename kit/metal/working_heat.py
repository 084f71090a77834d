"""How hot each steel may be worked, what twist and upsetting it bears, what becomes scale.

One limit a grade, for every heat the kit advises. These are forging heats of data sheets,
not the start of melting (`kit.metal.transformation`, calculated for iron and carbon alone):
real steel burns earlier, at dirt, segregations and corners. Each limit has its source
beside it. Sheets differ: another of 1095 forges it at 1010 to 1093 °C. Makers report
welding plain steel at 1232 to 1288 °C; the kit advises none of it. The data sheet of your
own bar is better.

Scale grows with the square root of time, for iron must pass through what is there already.
It falls off under the hammer, so each heat starts anew. Left out: flux and a reducing fire
(less scale, often far less), steam and draught (more), what the alloy does (chromium holds
scale back), and that scale starts before the bar is at heat. Weigh your own billet.
"""

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace
from types import MappingProxyType

from kit.basics.claim import NO_SOURCE, Claim, Kind
from kit.basics.declare import Declared
from kit.basics.errors import KitError
from kit.basics.typed import ABSOLUTE_ZERO
from kit.basics.units import both
from kit.forge.billet import Billet
from kit.forge.stack import Stack
from kit.forge.steels import Grade, steel
from kit.forge.steps import Size, Step, Twist
from kit.forge.steps.base import UPSET
from kit.metal.contents import ATOMIC_WEIGHTS
from kit.metal.diffusion import GAS, check_minutes

TOO_HOT = Claim(
    says="Sparks are already too hot: every limit here lies below them, and below where "
    "melting is calculated to start.",
    kind=Kind.PRACTICE,
    holds=("SPARKS",),
    told=("[Ss]parks (are|from).*too hot", "not to be worked above"),
)
SPARKS = "Sparks: already too hot."


@dataclass(frozen=True, kw_only=True)
class Limit(Claim):
    """The hottest a grade is to be worked, °C, and where that comes from."""

    says: str = (
        "So hot may the steel be worked, and no hotter: a forging heat, not the start of "
        "melting."
    )
    celsius: float

    @property
    def figures(self) -> str:
        """The limit, in both scales."""
        return f"Up to {both(self.celsius)}"


def _limit(celsius: float, source: str, kind: Kind = Kind.PUBLISHED) -> Limit:
    """Declare a limit; what is published was seen."""
    seen = kind is Kind.PUBLISHED
    return Limit(celsius=celsius, kind=kind, source=source, seen=seen)


_LISTED = "list of forging temperatures in an encyclopaedia, seen in copies: "
_NICKEL_MAKERS = "no maker's sheet was read; one, from memory, goes on to 1230 °C (2246 °F)"
_PLAIN = _limit(1150.0, "data sheet of 1095, seen in two copies: heat to 1150 °C (2100 °F)")
_AS_PLAIN = _limit(
    1150.0,
    f"as 1095, which has as much carbon or more, so on its safe side: {NO_SOURCE}",
    Kind.PRACTICE,
)
_LEAN = _limit(
    1250.0, "table of forging heats of steels with 0.15 to 0.25 % C, seen in a copy"
)
_WATER = _limit(
    1066.0, "as O1; ASM Handbook 14, water-hardening tool steels, from memory", Kind.MEMORY
)
_BEARING = _limit(
    1150.0, f"as 1095, whose carbon is about the same: {NO_SOURCE}", Kind.PRACTICE
)
LIMITS = MappingProxyType(
    {
        "1018": _LEAN,
        "1075": _AS_PLAIN,
        "1080": _AS_PLAIN,
        "1084": _AS_PLAIN,
        "1095": _PLAIN,
        "5160": _AS_PLAIN,
        "52100": _BEARING,  # a smiths' society sheet goes to 1205 °C
        "15N20": _AS_PLAIN,
        "80CrV2": _AS_PLAIN,
        "L6": _limit(1095.0, "smiths' society sheet of L6, seen in a copy: 980 to 1095 °C"),
        "O1": _limit(1066.0, "data sheets of O1, seen in copies: 1010 to 1066 °C"),
        **dict.fromkeys(("W1", "W2"), _WATER),
        **dict.fromkeys(
            ("304", "316"), _limit(1260.0, "data sheets, seen in copies: 1149 to 1260 °C")
        ),
        **dict.fromkeys(  # a seller's sheet goes to 1205
            ("420", "440C"), _limit(1095.0, f"{_LISTED}stainless steel, magnetic")
        ),
        "nickel": replace(
            _limit(1095.0, f"{_LISTED}nickel; {_NICKEL_MAKERS}"),
            told=("working limit of nickel",),
        ),
        "wrought iron": _limit(1250.0, f"as 1018: {NO_SOURCE}", Kind.PRACTICE),
    }
)


def limit_of(grade: Grade) -> Limit:
    """Give the working limit of a grade on the rack.

    Raises
    ------
    KitError
        If the grade is not on it.
    """
    if grade.name not in LIMITS:
        msg = f"I know no working limit of {grade.name[:40]!r}, only of "
        raise KitError(msg + ", ".join(LIMITS) + ".")
    return LIMITS[grade.name]


def hottest(names: Iterable[object]) -> float:
    """Give the hottest that steels may be worked together, °C: the least of their limits.

    Parameters
    ----------
    names : iterable of str
        One name at least, as for `kit.forge.steels.steel`.

    Examples
    --------
    >>> hottest(["1084", "15N20"]), hottest(["15N20", "O1"])
    (1150.0, 1066.0)
    """
    return min(limit_of(steel(name)).celsius for name in names)


def too_hot(celsius: float, names: Iterable[object]) -> str:
    """Say that a heat, °C, is above the working limit of one of some steels, or nothing.

    Examples
    --------
    >>> too_hot(1150, ["1084", "15N20"])
    ''
    >>> too_hot(1200, ["1084", "O1"])[:43]
    'Too hot for O1, which is not to be worked a'
    """
    first = min((steel(name) for name in names), key=lambda one: limit_of(one).celsius)
    most = limit_of(first).celsius
    if celsius <= most:
        return ""
    return f"Too hot for {first}, which is not to be worked above {both(most)}. {SPARKS}"


def check_advised(billet: Billet) -> None:
    """Refuse a forging of which a step is hotter than one of its steels may be worked.

    Raises
    ------
    KitError
        One sentence that names the step and the steel.
    """
    names = dict.fromkeys(billet.source.steels)
    if not isinstance(billet.source, Stack):
        for bar in billet.source.bars:
            check_advised(bar)
    for step in billet.steps:
        told = too_hot(step.heat.celsius, names) if step.heat else ""
        if told:
            msg = f"The heat of the step {step.step!r} is {both(step.heat.celsius)}: "
            raise KitError(msg + told[0].lower() + told[1:].removesuffix(f" {SPARKS}"))


SCALE = Claim(
    says="Iron in air takes up oxygen with the square root of time, and most of the scale "
    "is wüstite: 0.95 of iron to one of oxygen.",
    kind=Kind.MEMORY,
    source="Païdassi 1958 after Chen & Yuen, Oxidation of Metals 59 (2003)",
    unit="g² cm⁻⁴ s⁻¹, J/mol; °C; parts; g/cm³",
    within="iron in air without flux, 700 to 1250 °C (1292 to 2282 °F)",
    holds=("KP", "BARRIER", "COLDEST", "HOTTEST", "IRON_TO_OXYGEN", "DENSITY"),
    told=(
        "Scale is steel burnt away",
        "Its scale takes",
        "fire would eat the edge",
        "scale of the hardening heat",
        "law of scale in air",
        "Scale is known from",
    ),
)
KP, BARRIER = 6.1, 169.5e3
COLDEST, HOTTEST = 700.0, 1250.0  # °C
# Fe0.95O. Oxygen: IUPAC 2021, as kit.metal.contents.
IRON_TO_OXYGEN = 0.95 * ATOMIC_WEIGHTS["Fe"] / 15.999
DENSITY = 7.85  # g/cm³, see kit.forge.steel_table


def scale_loss(celsius: float, minutes: float) -> float:
    """Give the steel that turns to scale in one heat, mm off a face.

    Parameters
    ----------
    celsius : float
        700 to 1250 °C.
    minutes : float
        In air, without flux.

    Raises
    ------
    KitError
        A temperature that the law is not for; less than no time.

    Examples
    --------
    >>> round(scale_loss(1200, 5), 3)
    0.179
    """
    check_minutes(minutes)
    if not COLDEST <= celsius <= HOTTEST:
        msg = f"Scale is known from {both(COLDEST)} to {both(HOTTEST)}. "
        raise KitError(
            msg + f"Given: {both(celsius) if math.isfinite(celsius) else celsius}."
        )
    speed = KP * math.exp(-BARRIER / (GAS * (celsius - ABSOLUTE_ZERO)))
    oxygen = math.sqrt(speed * 60 * minutes)  # g/cm²
    return 10 * oxygen * IRON_TO_OXYGEN / DENSITY


TORN = Claim(
    says="Hot torsion tests report steel to fail at an equivalent strain, shear over root "
    "3, of about 3. A warning only: forging is not a torsion test.",
    kind=Kind.PUBLISHED,
    source="Metals 15(2) 219 (2025), abstract",
    seen=True,
    unit="strain",
    holds=("MOST_STRAIN",),
    told=("may tear the bar", "torsion tests .*report steel to fail"),
)
MOST_STRAIN = 3.0
BENT = Claim(
    says="A bar longer than about three times its thickness bends instead of being upset.",
    kind=Kind.PRACTICE,
    unit="times its thickness",
    holds=("MOST_SLENDER",),
    told=("rather bends than",),
)
MOST_SLENDER = 3.0


def too_tight(across: float, turn_length: float) -> str:
    """Say that a twist strains a round bar's skin more than steel is reported to bear.

    The equivalent strain is shear over root 3, pi · across / turn length / √3.

    Parameters
    ----------
    across, turn_length : float
        How thick the bar is, and the length of one turn, mm.

    Returns
    -------
    str
        Two short sentences, or nothing.
    """
    strain = math.pi * across / turn_length / math.sqrt(3)
    if strain <= MOST_STRAIN:
        return ""
    return (
        "Take care: so tight a twist may tear the bar. It strains the skin by "
        f"{strain:.1f}; hot torsion tests (Metals 15, 219) report steel to fail at about "
        f"{MOST_STRAIN:g}."
    )


def warned(act: Declared, before: Size) -> str:
    """Warn of what is done to a bar of this size: of a twist, of upsetting, or nothing."""
    if isinstance(act, Twist):
        return too_tight(before.thickness, act.turn_length)
    slender = before.length > MOST_SLENDER * min(before.width, before.thickness)
    if not slender or not isinstance(act, Step) or act.named(before) != UPSET:
        return ""
    return (
        f"Take care: a bar longer than about {MOST_SLENDER:g} times its thickness rather "
        "bends than gets thicker."
    )
