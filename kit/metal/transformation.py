"""At what temperatures a steel changes: Ac1 and A3, all austenite, the first melt.

Ac1 and A3 are by straight-line formulas for plain and low-alloy steel, soaked until even;
asking for stainless steel is refused. The lines of the diagram are calculated, at rest and
for iron and carbon alone. Below the upper one part of a steel is ferrite or carbide, and
figures for austenite do not hold; above the solidus its grain boundaries melt. That is how
far the models reach, and never advice on how hot to go (see `kit.metal.working_heat`).

Leaves out: what other elements do to the diagram. Two per cent of nickel lower the start of
austenite by some 55 °C (computed with an open database of steels); most alloying lowers the
solidus by some tens of degrees (from memory). Real steel burns earlier, at dirt and
segregations.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np

from kit.basics.claim import Claim, Kind
from kit.basics.errors import KitError
from kit.basics.units import both
from kit.forge.steels import Grade
from kit.metal.contents import low_alloy

ANDREWS = "Andrews, Journal of the Iron and Steel Institute 203 (1965) 721-727"


@dataclass(frozen=True, kw_only=True)
class Linear:
    """A formula that adds so many degrees for each per cent of an element."""

    start: float
    slopes: Mapping[str, float]
    source: str

    def __call__(self, contents: Mapping[str, float]) -> float:
        """Give the temperature in °C for weight per cent by element."""
        return self.start + sum(
            slope * contents.get(element, 0.0) for element, slope in self.slopes.items()
        )


AC1 = Linear(
    start=723,
    slopes={"Mn": -10.7, "Ni": -16.9, "Si": 29.1, "Cr": 16.9, "As": 290, "W": 6.38},
    source=ANDREWS,
)
# Without the root of carbon. Reprints lose a bracket's minus and print the signs of Cr,
# Cu, P, Al and Ti the wrong way round; pycalphad with an open steel file gives these.
A3 = Linear(
    start=910,
    slopes={"Ni": -15.2, "Si": 44.7, "V": 104, "Mo": 31.5, "W": 13.1}
    | {"Mn": -30, "Cr": -11, "Cu": -20, "P": 700, "Al": 400, "Ti": 400, "As": 120},
    source=ANDREWS,
)
MOST_CARBON_FOR_A3 = 0.6  # wt%, says Andrews

STARTS = Claim(
    says="Where a steel begins to turn to austenite moves in a straight line with each "
    "element.",
    kind=Kind.PUBLISHED,
    source=f"{ANDREWS}; read as a handbook reprints it",
    seen=True,
    unit="°C, and °C for each weight per cent",
    within="plain and low-alloy steel on slow heating, soaked until even",
    holds=("AC1",),
)
ALL_AUSTENITE = Claim(
    says="Where the last ferrite is gone falls with the root of carbon, and moves in a "
    "straight line with each other element.",
    kind=Kind.PUBLISHED,
    source=f"{ANDREWS}; read as a handbook reprints it, the lost signs of its minor terms "
    "put right by a computed diagram",
    seen=True,
    unit="°C, and °C for each weight per cent",
    within="plain and low-alloy steel up to 0.6 % carbon",
    holds=("A3", "MOST_CARBON_FOR_A3"),
    told=("formula for A3", "is it all austenite"),
)


def ac1(contents: Mapping[str, float]) -> float:
    """Say where the steel begins to turn to austenite on slow heating, in °C.

    Andrews 1965; weight per cent by element, up to 5 beside carbon. Raises `KitError`
    for stainless steel.

    Examples
    --------
    >>> round(ac1({"C": 0.75, "Mn": 0.40, "Si": 0.25, "Ni": 2.0}))
    692
    """
    return AC1(low_alloy(contents))


def a3(contents: Mapping[str, float]) -> float:
    """Say where the last ferrite is gone on slow heating, in °C.

    Andrews 1965, the signs of its minor terms put right; weight per cent by element,
    carbon up to 0.6, the others up to 5 together. Raises `KitError` outside of that.

    Examples
    --------
    >>> round(a3({"C": 0.40, "Mn": 0.75, "Si": 0.20}))
    768
    """
    read = low_alloy(contents)
    carbon = read.get("C", 0.0)
    if carbon > MOST_CARBON_FOR_A3:
        msg = (
            f"The formula for A3 holds up to {MOST_CARBON_FOR_A3:g} % carbon; a steel "
            f"with more is judged by Ac1, and by Acm. Given: {carbon:g} %."
        )
        raise KitError(msg)
    return A3(read) - 203 * carbon**0.5


EUTECTOID = Claim(
    says="Iron with 0.76 % carbon is all austenite down to 727 °C (1341 °F), lower than "
    "with any more or less.",
    kind=Kind.PUBLISHED,
    source="Callister & Rethwisch, Materials Science and Engineering, 9th ed., ch. 9, "
    "diagram of iron and carbon",
    seen=True,
    unit="wt%, °C",
    within="iron and carbon alone, at rest",
    holds=("EUTECTOID_CARBON", "EUTECTOID_TEMPERATURE"),
)
EUTECTOID_CARBON = 0.76  # wt%
EUTECTOID_TEMPERATURE = 727.0  # °C

MELTING = Claim(
    says="Where iron and carbon begin to melt, and above what heat they are all austenite, "
    "is calculated. It is never advice on how hot to go: real steel burns earlier, and "
    "sparks are already too hot.",
    kind=Kind.DERIVED,
    source="the description cfe_broshe.tdb that the package pycalphad carries, computed "
    "again in the kit's own tests",
    unit="wt% carbon, °C",
    within="iron and carbon alone, at rest, up to 2.1 % carbon",
    holds=("_UPPER_LINE", "SOLIDUS", "MOST_CARBON"),
    told=(
        "begins to melt",
        "room to use: real steel burns",
        "melting is calculated",
        "calculated to begin to melt",
        "lower the start of melting",
    ),
)
# Weight per cent of carbon and °C. All is austenite above A3 up to the eutectoid, above
# Acm after it. Between 0 and 0.2 % the first figure of the solidus is kept: the true one
# is higher.
_UPPER_LINE = np.array(
    [
        (0.02, 902.0),
        (0.05, 888.6),
        (0.10, 869.0),
        (0.20, 836.4),
        (0.30, 809.8),
        (0.40, 787.1),
        (0.50, 767.5),
        (0.60, 750.5),
        (0.70, 735.2),
        (EUTECTOID_CARBON, EUTECTOID_TEMPERATURE),
        (0.80, 742.1),
        (0.84, 758.1),
        (0.90, 781.5),
        (0.95, 800.6),
        (1.00, 819.4),
        (1.10, 855.7),
        (1.20, 890.8),
        (1.30, 924.7),
        (1.50, 989.3),
    ]
)
SOLIDUS = (  # as above
    (0.20, 1489.0),
    (0.60, 1418.0),
    (0.75, 1392.0),
    (0.84, 1376.0),
    (0.95, 1356.0),
    (1.00, 1348.0),
    (1.20, 1312.0),
    (1.50, 1257.0),
)
MOST_CARBON = 2.1  # weight per cent: above, it is cast iron
OTHERS_MELT = Claim(
    says="Nickel and 18-8 stainless steel begin to melt where their data sheets say.",
    kind=Kind.MEMORY,
    source="data sheets",
    unit="°C",
    holds=("OTHERS",),
)
# Grades that carbon alone says nothing of.
OTHERS = MappingProxyType({"nickel": 1435.0, "304": 1400.0, "316": 1375.0})


def solidus(carbon: float) -> float:
    """Give the temperature at which a plain carbon steel is calculated to start melting.

    Parameters
    ----------
    carbon : float
        Weight per cent, 0 to 2.1. Below 0.2 the value at 0.2 is given, which is safe;
        above 1.5 the last stretch of the table is drawn on.

    Returns
    -------
    float
        °C.

    Raises
    ------
    KitError
        For a content that no steel has.

    Examples
    --------
    >>> solidus(0.95)
    1356.0
    """
    _check(carbon)
    contents, lines = zip(*SOLIDUS, strict=True)
    if carbon <= contents[-1]:
        return float(np.interp(carbon, contents, lines))
    slope = (lines[-1] - lines[-2]) / (contents[-1] - contents[-2])
    return lines[-1] + slope * (carbon - contents[-1])


def austenite_from(carbon: float) -> float:
    """Give the temperature above which a plain carbon steel is all austenite, °C.

    Parameters and errors as for `solidus`. Between 0.02 and 1.5 % within 2 °C of the
    computed diagram; outside, its value at the nearer end.

    Examples
    --------
    >>> austenite_from(0.76), austenite_from(0.95)
    (727.0, 800.6)
    """
    _check(carbon)
    return float(np.interp(carbon, *_UPPER_LINE.T))


def check_heat(celsius: float, grade: Grade) -> None:
    """Refuse °C at which a steel would melt, or is not all austenite.

    That is how far the models reach; how hot a steel may be worked is another thing.

    Raises
    ------
    KitError
        One sentence that names the steel.
    """
    carbon = grade.nominal.get("C", 0.0)
    most = OTHERS.get(grade.name, solidus(carbon))
    if not celsius < most:
        msg = f"{grade} would not stay solid. Calculated: begins to melt at {both(most)}. "
        raise KitError(msg + f"Given: {both(celsius)}.")
    least = austenite_from(carbon)
    if grade.name not in OTHERS and celsius < least:
        msg = (
            f"{grade} is too cold for this: only from {both(least)} up is it all "
            f"austenite, in which the figures hold. Given: {both(celsius)}."
        )
        raise KitError(msg)


def _check(carbon: float) -> None:
    if not (math.isfinite(carbon) and 0 <= carbon <= MOST_CARBON):
        msg = f"Carbon in steel must be from 0 to {MOST_CARBON} %. Given: {carbon}."
        raise KitError(msg)
