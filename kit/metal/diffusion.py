"""How fast elements wander in hot steel: diffusivities, and how far they get.

Carbon sits between the atoms of iron and slips from gap to gap; nickel, chromium,
manganese and molybdenum take the place of an atom of iron and must wait for an empty place
beside them. At welding heat that makes carbon some ten thousand times as fast.

Leaves out: what the elements do to one another (see `activity.py`), quick paths along grain
boundaries, the strain of the hammer, and ferrite and carbide: the figures are for
austenite, dilute in iron. In nickel sheet or stainless steel they are a rough guide only.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from types import MappingProxyType
from typing import NamedTuple, TypeVar

import numpy as np

from kit.basics.errors import KitError
from kit.basics.typed import ABSOLUTE_ZERO
from kit.basics.units import both
from kit.metal.contents import ATOMIC_WEIGHTS
from kit.metal.transformation import EUTECTOID_TEMPERATURE, solidus

GAS = 8.314462618  # J/(mol K), exact: the SI since 2019

# For the screen, beside every picture of nickel, chromium or manganese.
DISAGREE = (
    "Published figures for nickel, chromium, manganese and molybdenum differ by about four "
    "times; carbon is more than a thousand times as fast whichever you take."
)

Number = TypeVar("Number", float, np.ndarray)


class Pair(NamedTuple):
    """Two figures that give a diffusivity: D = first · exp(-barrier / (R T)).

    Attributes
    ----------
    element : str
    first : float
        D0, m²/s.
    barrier : float
        Q, kJ/mol.
    source, status : str
        The work, and "seen in a copy" or "from memory".
    """

    element: str
    first: float
    barrier: float
    source: str
    status: str

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
_MOBILITY = "Jönsson-type assessment, as stored in the package kawin, FECRNI_DB"

# What the kit computes with. The nickel is the lessons': 280 for 280.5 in the table.
TABLE: Mapping[str, Pair] = MappingProxyType(
    {
        pair.element: pair
        for pair in (
            Pair("C", 2.3e-5, 148, _CALLISTER, "seen in a copy"),
            Pair("Ni", 7.7e-5, 280, _STEELS, "from memory"),
            Pair("Cr", 1.755e-4, 286, _MOBILITY, "seen in a copy"),
            Pair("Mn", 1.6e-5, 261.7, _STEELS, "from memory"),
            Pair(
                "Mo",
                3.6e-6,
                239.8,
                "Alberry & Haworth, Metal Science 8 (1974) 407-412",
                "seen in a copy of the abstract",
            ),
        )
    }
)
# What others publish, to show how far figures agree.
OTHERS: tuple[Pair, ...] = (
    Pair("C", 1.5e-5, 135, "teaching page on carburising", "seen in a copy"),
    Pair("Ni", 3.22e-5, 286, _MOBILITY, "seen in a copy"),
    Pair("Cr", 1.08e-3, 291.8, _STEELS, "from memory"),
    Pair(
        "Cr",
        1.0e-4,
        284.2,
        "Růžičková & Million, Materials Science and Engineering 50 (1981) 59-64, at no Cr",
        "seen in a copy of the abstract",
    ),
    Pair("Fe", 5.0e-5, 284, _CALLISTER, "seen in a copy"),
    Pair("Fe", 7.0e-5, 286, _MOBILITY, "seen in a copy"),
)


def diffusivity(
    element: str, celsius: float, *, carbon: float | np.ndarray | None = None
) -> float | np.ndarray:
    """Give how fast an element spreads in austenite, m²/s.

    Parameters
    ----------
    element : str
        One of `TABLE`: "C", "Ni", "Cr", "Mn", "Mo".
    celsius : float
        727 °C up to the solidus.
    carbon : float or array, optional
        Weight per cent, 0 to 2.1. Given, carbon's own diffusivity follows it (see
        `agren`): the advanced way. Left out: the figures of the table. The others
        are taken not to depend on it.

    Raises
    ------
    KitError
        An element without figures; a temperature below austenite, or at which the
        steel would melt; a carbon content that no steel has.

    Examples
    --------
    >>> print(f"{diffusivity('C', 1150):.3g} {diffusivity('Ni', 1150):.3g}")
    8.51e-11 4.07e-15
    """
    if element not in TABLE:
        msg = f"I have no diffusivity of {str(element)[:20]!r}, only of "
        raise KitError(msg + ", ".join(TABLE) + ".")
    richest = 0.0 if carbon is None else float(np.max(carbon))
    _check_austenite(celsius, richest)
    if element == "C" and carbon is not None:
        return agren(celsius, carbon)
    return TABLE[element].at(celsius)


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
    J. Ågren, Scripta Metallurgica 20 (1986) 1507-1510. The coefficients were seen in
    public code; the citation is from memory.
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


def _check_austenite(celsius: float, carbon: float) -> None:
    most = solidus(carbon)
    if not celsius >= EUTECTOID_TEMPERATURE:
        given = both(celsius) if math.isfinite(celsius) else celsius
        msg = (
            f"Below {both(EUTECTOID_TEMPERATURE)} steel is no longer austenite, for which "
            f"the figures are. Given: {given}."
        )
        raise KitError(msg)
    if celsius >= most:
        msg = (
            f"This steel would not stay solid. Calculated: with {carbon:g} % carbon it "
            f"begins to melt at {both(most)}. Given: {both(celsius)}."
        )
        raise KitError(msg)
