"""How fast elements wander in hot steel: diffusivities, and how far they get.

Carbon sits between the atoms of iron and slips from gap to gap; nickel, chromium,
manganese and molybdenum take the place of an atom of iron and must wait for an empty place
beside them. At welding heat that makes carbon some ten thousand times as fast.

Leaves out: what the elements do to one another (see `activity.py`), quick paths along grain
boundaries, the strain of the hammer, and ferrite and carbide: the figures are for
austenite, dilute in iron. In nickel sheet or stainless steel they are a rough guide only.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import TypeVar

import numpy as np

from kit.basics.claim import Claim, Kind
from kit.basics.errors import KitError
from kit.basics.typed import ABSOLUTE_ZERO
from kit.basics.units import both
from kit.metal.contents import ATOMIC_WEIGHTS
from kit.metal.transformation import EUTECTOID_TEMPERATURE, solidus

GAS_CONSTANT = Claim(
    says="The gas constant is exact since the units were laid anew.",
    kind=Kind.PUBLISHED,
    source="the SI brochure, 9th ed., 2019: the product of its exact k and N_A",
    unit="J/(mol K)",
    holds=("GAS",),
)
GAS = 8.314462618

# For the screen, beside every picture of nickel, chromium or manganese.
DISAGREE = (
    "Published figures for nickel, chromium, manganese and molybdenum differ by up to six "
    "times; carbon is more than a thousand times as fast whichever you take."
)

Number = TypeVar("Number", float, np.ndarray)


@dataclass(frozen=True, kw_only=True)
class Pair(Claim):
    """Two figures that give a diffusivity: D = first · exp(-barrier / (R T)).

    Attributes
    ----------
    element : str
    first : float
        D0, m²/s.
    barrier : float
        Q, kJ/mol.
    """

    says: str = (
        "How fast the element wanders in hot steel rises with heat by Arrhenius' law."
    )
    unit: str = "m²/s, kJ/mol"
    within: str = "dilute in austenite"
    element: str
    first: float
    barrier: float

    @property
    def figures(self) -> str:
        """The two figures of its element."""
        return f"{self.element}: {self.first:.3g} m²/s, {self.barrier:g} kJ/mol"

    def at(self, celsius: float) -> float:
        """Give the diffusivity at a temperature in °C, m²/s."""
        return self.first * math.exp(
            -self.barrier * 1e3 / (GAS * (celsius - ABSOLUTE_ZERO))
        )


_CALLISTER = (
    "Callister & Rethwisch, Materials Science and Engineering: An Introduction, 9th ed., "
    "Table 5.2, p. 150"
)
_STEELS = "Honeycombe & Bhadeshia, Steels, table of diffusion in iron (after Smithells)"
_ALBERRY = "Alberry & Haworth, Metal Science 8 (1974) 407-412, abstract"
_RUZICKOVA = "Růžičková & Million, Materials Science and Engineering 50 (1981) 59, abstract"
_MOBILITY = "Jönsson-type assessment, the list FECRNI_DB that the package kawin carries"


def _pair(
    element: str,
    first: float,
    barrier: float,
    source: str,
    spread: tuple[float, float] = (1.0, 1.0),
) -> Pair:
    """Declare a pair; what is from a work that we could not read is from memory."""
    seen = source is not _STEELS
    return Pair(
        element=element, first=first, barrier=barrier, source=source, spread=spread,
        kind=Kind.PUBLISHED if seen else Kind.MEMORY, seen=seen,
    )  # fmt: skip


# What the kit computes with. The nickel is the lessons': 280 for 280.5 in the table. How
# far others are from it, at 1150 °C, is its spread.
TABLE: Mapping[str, Pair] = MappingProxyType(
    {
        pair.element: pair
        for pair in (
            _pair("C", 2.3e-5, 148, _CALLISTER, (1.0, 2.0)),
            _pair("Ni", 7.7e-5, 280, _STEELS, (0.25, 1.0)),
            _pair("Cr", 1.755e-4, 286, _MOBILITY, (0.65, 3.8)),
            _pair("Mn", 1.6e-5, 261.7, _STEELS),
            _pair("Mo", 3.6e-6, 239.8, _ALBERRY),
        )
    }
)
# What others publish, to show how far figures agree.
OTHERS = (
    _pair("C", 1.5e-5, 135, "a college's teaching page on carburising"),
    _pair("Ni", 3.22e-5, 286, _MOBILITY),
    _pair("Cr", 1.08e-3, 291.8, _STEELS),
    _pair("Cr", 1.0e-4, 284.2, _RUZICKOVA),
    _pair("Fe", 5.0e-5, 284, _CALLISTER),
    _pair("Fe", 7.0e-5, 286, _MOBILITY),
)


def diffusivity(element: str, celsius: float) -> float:
    """Give how fast an element spreads in austenite, m²/s.

    Parameters
    ----------
    element : str
        One of `TABLE`: "C", "Ni", "Cr", "Mn", "Mo".
    celsius : float
        727 °C up to the solidus.

    Raises
    ------
    KitError
        An element without figures; a temperature below austenite, or at which pure iron
        would melt.

    Examples
    --------
    >>> print(f"{diffusivity('C', 1150):.3g} {diffusivity('Ni', 1150):.3g}")
    8.51e-11 4.07e-15
    """
    if element not in TABLE:
        msg = f"I have no diffusivity of {str(element)[:20]!r}, only of "
        raise KitError(msg + ", ".join(TABLE) + ".")
    _check_austenite(celsius)
    return TABLE[element].at(celsius)


CROWDED = Claim(
    says="The more carbon in austenite, the faster carbon spreads: twice as fast at 0.8 %.",
    kind=Kind.MEMORY,
    source="J. Ågren, Scripta Metallurgica 20 (1986) 1507-1510; its coefficients were read "
    "in public code",
    within="austenite, 0 to 2.1 % carbon",
)


def agren(celsius: float, carbon: Number) -> Number:
    """Give carbon's diffusivity in austenite that holds carbon, m²/s.

    The more carbon, the faster it spreads: about twice as fast at 0.8 % as at none.

    Parameters
    ----------
    celsius : float
    carbon : float or array
        Weight per cent.

    Notes
    -----
    See `CROWDED`.
    """
    kelvin = celsius - ABSOLUTE_ZERO
    iron = (100 - carbon) / ATOMIC_WEIGHTS["Fe"]
    sites = carbon / ATOMIC_WEIGHTS["C"] / iron  # atoms of carbon to one of iron
    crowding = 1 + sites * (1 - sites) * 8339.9 / kelvin
    barrier = (1 / kelvin - 2.221e-4) * (17767 - 26436 * sites)
    return 4.53e-7 * crowding * np.exp(-barrier)


def spread(element: str, celsius: float, minutes: float) -> float:
    """Give how far an element gets, √(D t), mm: the scale of its blur.

    Raises
    ------
    KitError
        As `diffusivity`; less than no time.

    Examples
    --------
    >>> round(spread("C", 1150, 10), 3), round(1000 * spread("Ni", 1150, 10), 2)
    (0.226, 1.56)
    """
    check_minutes(minutes)
    return 1e3 * math.sqrt(float(diffusivity(element, celsius)) * 60 * minutes)


def check_minutes(minutes: float) -> None:
    """Refuse minutes below 0 or without end, with one sentence."""
    if not (math.isfinite(minutes) and minutes >= 0):
        msg = f"Minutes in the fire must be 0 or more. Given: {minutes}."
        raise KitError(msg)


def _check_austenite(celsius: float) -> None:
    most = solidus(0.0)
    if not celsius >= EUTECTOID_TEMPERATURE:
        given = both(celsius) if math.isfinite(celsius) else celsius
        msg = (
            f"Below {both(EUTECTOID_TEMPERATURE)} steel is no longer austenite, for which "
            f"the figures are. Given: {given}."
        )
        raise KitError(msg)
    if celsius >= most:
        msg = (
            f"This steel would not stay solid. Calculated: with 0 % carbon it "
            f"begins to melt at {both(most)}. Given: {both(celsius)}."
        )
        raise KitError(msg)
