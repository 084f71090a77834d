"""The ferric chloride bath: how strong, how to thin it, how fast each bites.

Iron takes up chlorine: Fe + 2 FeCl3 -> 3 FeCl2. Once all is FeCl2 the bath is spent.

Leaves out: free acid, and air that revives a bath. A hydrometer reading for 60 °F is read
at 20 °C, which puts the density less than 0.1 % out.

Sources: Baumé, heavier than water, 60 °F: Perry's Chemical Engineers' Handbook, 8th ed.,
Table 1-13. Density at 20 °C: a published table of ferric chloride solutions. The reaction:
Photo Chemical Machining Institute journal 137, p. 20.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from types import MappingProxyType
from typing import Literal

import numpy as np

from kit.basics.claim import Claim, Kind
from kit.basics.errors import KitError

BAUME = Claim(
    says="Degrees Baumé of a liquid heavier than water tell its weight against water.",
    kind=Kind.PUBLISHED,
    source="Perry's Chemical Engineers' Handbook, 8th ed., Table 1-13",
    seen=True,
    unit="modulus of the scale",
    within="at 60 °F (15.6 °C)",
    holds=("_MODULUS",),
)
DENSITIES = Claim(
    says="The more ferric chloride in water, the denser the bath.",
    kind=Kind.PUBLISHED,
    source="a published table of ferric chloride solutions",
    seen=True,
    unit="per cent by weight, g/mL",
    within="at 20 °C (68 °F), up to 44 per cent",
    holds=("_PERCENT", "_DENSITY"),
)
WATER = Claim(
    says="Water at 20 °C (68 °F) weighs a little less than a gram a millilitre.",
    kind=Kind.MEMORY,
    source="CRC Handbook of Chemistry and Physics",
    unit="g/mL",
    holds=("_WATER",),
)
# Per cent by weight, grams per millilitre at 20 °C.
_WATER = 0.9982
_PERCENT = (0, 1, 4, 8, 12, 16, 20, 24, 28, 30, 32, 36, 40, 44)
_DENSITY = (
    *(_WATER, 1.007, 1.033, 1.068, 1.105, 1.143, 1.183),
    *(1.225, 1.269, 1.292, 1.315, 1.364, 1.415, 1.469),
)
_MODULUS = 145  # of the Baumé scale for liquids heavier than water


def specific_gravity(baume: float) -> float:
    """Turn degrees Baumé (0 … 46) into weight against water, at 60 °F.

    Examples
    --------
    >>> round(specific_gravity(42), 4)
    1.4078
    """
    _check("Degrees Baumé", baume, 0, 46)
    return _MODULUS / (_MODULUS - baume)


@dataclass(frozen=True)
class Bath:
    """A solution of ferric chloride.

    Parameters
    ----------
    percent : float
        Ferric chloride without water of crystallisation, by weight, 0 … 44.

    Raises
    ------
    KitError
        If it is not; the table goes no further.

    Examples
    --------
    >>> round(Bath.of_baume(42).thinned(4).percent)
    10
    """

    percent: float

    def __post_init__(self) -> None:
        _check("Ferric chloride", self.percent, 0, _PERCENT[-1], " per cent by weight")

    @classmethod
    def of_baume(cls, degrees: float) -> Bath:
        """Make the bath in which a hydrometer shows so many degrees Baumé (0 … 46)."""
        density = specific_gravity(degrees) * _WATER
        return cls(float(np.interp(density, _DENSITY, _PERCENT)))

    @property
    def density(self) -> float:
        """Grams a millilitre, at 20 °C."""
        return float(np.interp(self.percent, _PERCENT, _DENSITY))

    def thinned(self, water: float) -> Bath:
        """Mix one part of it with so many parts of water (0 … 100), both by volume.

        Weights add up; volumes need not.
        """
        _check("Water", water, 0, 100, " parts")
        stock = self.density
        return Bath(self.percent * stock / (stock + water * _WATER))


def _check(name: str, value: float, low: float, high: float, unit: str = "") -> None:
    if not (low <= value <= high and math.isfinite(value)):
        to = f"from {low:g} to {high:g}" if math.isfinite(high) else f"{low:g} or more"
        msg = f"{name} must be {to}{unit}. Given: {value:g}{unit}."
        raise KitError(msg)


Strength = Literal["weak", "usual", "strong"]

BITES = Claim(
    says="A stronger bath bites faster; how much, we guess.",
    kind=Kind.OURS,
    source="illustrative",
    unit="times as fast",
    within="thin, cold, still, fresh baths",
    holds=("FRESH",),
)
# How fast each bites against the usual one: illustrative. In strong baths, beyond these,
# steel is bitten more slowly again (abstract of a study of ferric chloride on steel foil).
FRESH = MappingProxyType({"weak": 0.6, "usual": 1.0, "strong": 1.5})
