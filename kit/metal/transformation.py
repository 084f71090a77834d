"""At what temperatures a steel changes: Ac1, A3, Acm on heating, Ms in the quench.

All of it holds for plain and low-alloy steel, soaked until even. Formulas for stainless
steel are not here, and asking for one is refused. The straight-line formulas, so many
degrees for each per cent of an element, serve for Ac1 and A3; for Ms they stand here to
compare with, and why not to use.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from math import exp
from types import MappingProxyType

from kit.basics.errors import KitError
from kit.metal.contents import checked, low_alloy
from kit.metal.iron_carbon import EUTECTOID_CARBON, MOST_CARBON, upper_line

ANDREWS = "Andrews, Journal of the Iron and Steel Institute 203 (1965) 721-727"
STEVEN_HAYNES = (
    "Steven & Haynes, Journal of the Iron and Steel Institute 183 (1956) 349-359"
)


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


# To compare with only; `WHY_NOT_LINEAR` says why.
MS_COMPARISONS: Mapping[str, Linear] = MappingProxyType(
    {
        "Andrews 1965": Linear(
            start=539,
            slopes={"C": -423, "Mn": -30.4, "Ni": -17.7, "Cr": -12.1, "Mo": -7.5},
            source=ANDREWS,
        ),
        "Steven & Haynes 1956": Linear(
            start=561,
            slopes={"C": -474, "Mn": -33, "Ni": -17, "Cr": -17, "Mo": -21},
            source=STEVEN_HAYNES,
        ),
    }
)
WHY_NOT_LINEAR = (
    "The straight-line formulas of 1956 and 1965 were fitted to steels with less carbon "
    "than a blade: on 37 measured plain steels of 0.7 to 1.1 % carbon they read 79 and "
    "55 °C (142 and 99 °F) too low."
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


MS_SOURCE = "van Bohemen, Materials Science and Technology 28 (2012) 487-495"
MEASURED_SOURCE = (
    "MsDatabase_2022 of Wentzien et al., steel research international (2024), "
    "doi 10.1002/srin.202400210"
)
KOISTINEN_MARBURGER = "Koistinen & Marburger, Acta Metallurgica 7 (1959) 59-60"

# The measurements that Ms was compared with go no farther.
MOST_CARBON_FOR_MS = 1.1  # wt%
MOST_CARBON_FOR_A3 = 0.6  # wt%, says Andrews


@dataclass(frozen=True, kw_only=True)
class Trust:
    """How a formula fared against measured steels, in °C, formula less measurement."""

    steels: str
    count: int
    bias: float
    rms: float


# Computed by us from MEASURED_SOURCE.
MS_TRUST = (
    Trust(steels="plain steel, 0.7 to 1.1 % carbon", count=37, bias=-1.3, rms=17.0),
    Trust(steels="low-alloy steel, 0.6 to 1.1 % carbon", count=130, bias=-4.5, rms=25.5),
    Trust(steels="low-alloy steel below 0.6 % carbon", count=1002, bias=7.0, rms=47.0),
)


def martensite_start(contents: Mapping[str, float]) -> float:
    """Say at what temperature martensite begins to form in the quench (Ms).

    Parameters
    ----------
    contents : mapping
        Weight per cent by element: carbon up to 1.1, the others up to 5 together. All
        carbon counts as dissolved; what stays in carbide leaves Ms higher: see
        `kit.metal.iron_carbon.carbon_in_austenite`.

    Returns
    -------
    float
        °C, by van Bohemen 2012; `MS_TRUST` says how far off it may be.

    Raises
    ------
    KitError
        Outside of those ranges: stainless steel, or more carbon.

    Examples
    --------
    >>> round(martensite_start({"C": 0.84, "Mn": 0.75, "Si": 0.20}))
    207
    """
    read = _for_ms(contents)
    slopes = {"Mn": -31, "Si": -13, "Cr": -10, "Ni": -18, "Mo": -12}
    others = sum(slope * read.get(element, 0.0) for element, slope in slopes.items())
    return 565 - 600 * (1 - exp(-0.96 * read.get("C", 0.0))) + others


def martensite_start_by(name: str, contents: Mapping[str, float]) -> float:
    """Give Ms by one of `MS_COMPARISONS`, in °C: to compare, not to use.

    Raises `KitError` for an unknown name, and where `martensite_start` does.

    Examples
    --------
    >>> round(martensite_start_by("Andrews 1965", {"C": 0.84, "Mn": 0.75}))
    161
    """
    if name not in MS_COMPARISONS:
        msg = f"I do not know a formula called {name[:40]!r}. Known: "
        raise KitError(msg + ", ".join(MS_COMPARISONS) + ".")
    return MS_COMPARISONS[name](_for_ms(contents))


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


def acm(contents: Mapping[str, float]) -> float:
    """Say where the last carbide is gone on slow heating, in °C.

    From the diagram of iron and carbon: real plain steels lie up to 10 °C above it.

    Parameters
    ----------
    contents : mapping
        Weight per cent by element: carbon 0.76 to 1.5; chromium, nickel, molybdenum,
        vanadium and tungsten together up to 0.3, for they move the line far.

    Raises
    ------
    KitError
        Outside of those ranges.

    Examples
    --------
    >>> round(acm({"C": 0.95, "Mn": 0.40, "Si": 0.20}))
    801
    """
    read = checked(contents)
    carbon = read.get("C", 0.0)
    movers = sum(read.get(element, 0.0) for element in ("Cr", "Ni", "Mo", "V", "W"))
    if not EUTECTOID_CARBON <= carbon <= MOST_CARBON or movers > 0.3:
        msg = (
            f"Acm is known for plain steel with {EUTECTOID_CARBON:g} to {MOST_CARBON:g} % "
            "carbon and up to 0.3 % of chromium, nickel, molybdenum, vanadium and "
            f"tungsten together. Given: {carbon:g} % and {movers:g} %."
        )
        raise KitError(msg)
    return upper_line(carbon)


def retained_austenite(start: float, quenched_to: float = 25.0) -> float:
    """Say how much austenite is left unchanged after the quench.

    Parameters
    ----------
    start : float
        Ms in °C.
    quenched_to : float
        The coldest the steel became, in °C, -196 (liquid nitrogen) or above.

    Returns
    -------
    float
        Part of the austenite there was, 0 to 1. Koistinen & Marburger 1959, found on
        iron–carbon alloys and plain steels of 0.37 to 1.1 % carbon.

    Raises
    ------
    KitError
        If the quench is colder than -196 °C.

    Examples
    --------
    >>> round(retained_austenite(207), 3)
    0.135
    """
    if not quenched_to >= -196:
        msg = (
            "A quench goes down to -196 °C (-321 °F), liquid nitrogen, at most. "
            f"Given: {quenched_to:g} °C ({quenched_to * 1.8 + 32:.0f} °F)."
        )
        raise KitError(msg)
    return exp(-0.011 * max(start - quenched_to, 0.0))


def _for_ms(contents: Mapping[str, float]) -> dict[str, float]:
    read = low_alloy(contents)
    carbon = read.get("C", 0.0)
    if carbon > MOST_CARBON_FOR_MS:
        msg = (
            f"Ms was compared with measurements up to {MOST_CARBON_FOR_MS:g} % carbon and "
            f"is not given beyond. Given: {carbon:g} %."
        )
        raise KitError(msg)
    return read
