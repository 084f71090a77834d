"""How fast a bath bites, against the usual one: fresh, still and at 20 °C.

ILLUSTRATIVE: published are only directions. Where fresh liquid must reach the steel, the
rate rises with the root of a disc's turning (a Japanese corrosion journal, vol. 54,
p. 526: hot, strong baths). It goes down with what is left of the chloride, pseudo-first
order (abstract of a study of ferric chloride on steel foil). Nickel dissolves faster
warm, 15 to 50 °C (abstract, doi 10.1007/BF00728908).
"""

from math import exp
from types import MappingProxyType
from typing import Literal

Strength = Literal["weak", "usual", "strong"]

# 42 °Bé to water by volume, as makers mix it (common practice, no source) and how fast
# each bites against the usual one (illustrative). In strong baths, beyond these, steel is
# bitten more slowly again (abstract of the same study of foil).
WATER = MappingProxyType({"weak": 8, "usual": 4, "strong": 2})
FRESH = MappingProxyType({"weak": 0.6, "usual": 1.0, "strong": 1.5})

_STIRRED = 1.5  # times as fast as still
_ENERGY = 30_000.0  # joules a mole, activation
_WARM = 20.0  # °C at which the speeds hold
_GAS = 8.314462618  # J/(mol K), CODATA 2018
_KELVIN = 273.15


def speed(strength: Strength, *, celsius: float, spent: float, stirred: bool) -> float:
    """Give the speed of a bath: 1 for the usual one, fresh, still, at 20 °C.

    Parameters
    ----------
    strength : str
        "weak", "usual" or "strong".
    celsius : float
        Warmth, by Arrhenius' law.
    spent : float
        Share used up, 0 … 1; see `kit.metal.etch.bath.Bath.spent`.
    stirred : bool
        Kept moving about the steel.

    Examples
    --------
    >>> round(speed("usual", celsius=20, spent=0.2, stirred=False), 2)
    0.8
    """
    cold = 1 / (_WARM + _KELVIN) - 1 / (celsius + _KELVIN)
    moved = _STIRRED if stirred else 1.0
    return FRESH[strength] * moved * (1 - spent) * exp(_ENERGY / _GAS * cold)
