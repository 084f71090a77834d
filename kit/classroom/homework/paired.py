"""How much a class gained on a question, and how sure that is.

The same people answer before and after, so the shares are paired. The interval is the one
of R. G. Newcombe, "Improved confidence intervals for the difference between binomial
proportions based on paired data", Statistics in Medicine 17 (1998), 2635-2650, method 10:
two score intervals, joined by how far the answers go together. It never leaves -1 … 1, and
serves a class of ten as well as one of two hundred.
"""

from math import hypot, sqrt
from statistics import NormalDist
from typing import NamedTuple

SURE = 0.95  # of the interval
_Z = NormalDist().inv_cdf((1 + SURE) / 2)


class Gain(NamedTuple):
    """A gain and its interval, as shares: -1 … 1."""

    gain: float
    low: float
    high: float

    @property
    def told(self) -> str:
        """Write it in hundredths: "+41 (+32 to +49)"."""
        shown = [f"{100 * one:+.0f}".replace("-", "−") for one in self]
        return "{} ({} to {})".format(*("0" if one[1:] == "0" else one for one in shown))


def gain(both: int, lost: int, won: int, neither: int) -> Gain:
    """Give the gain of those who answered twice.

    Parameters
    ----------
    both, lost, won, neither : int
        How many were right both times, only before, only after, never; not all 0.
    """
    many = both + lost + won + neither
    before, after = (both + lost) / many, (both + won) / many
    low_before, high_before = score_interval(before, many)
    low_after, high_after = score_interval(after, many)
    together = _together(both, lost, won, neither)
    down = _joined(after - low_after, high_before - before, together)
    up = _joined(high_after - after, before - low_before, together)
    found = after - before
    return Gain(found, max(found - down, -1), min(found + up, 1))  # not a hair outside


def score_interval(share: float, many: int) -> tuple[float, float]:
    """Give E. B. Wilson's score interval (1927) of a share of so many."""
    middle = share + _Z**2 / (2 * many)
    half = _Z * sqrt(share * (1 - share) / many + (_Z / (2 * many)) ** 2)
    whole = 1 + _Z**2 / many
    return (middle - half) / whole, (middle + half) / whole


def _together(both: int, lost: int, won: int, neither: int) -> float:
    """Give how far the answers go together, taken down by a half as Newcombe does."""
    sides = (both + lost) * (won + neither) * (both + won) * (lost + neither)
    if not sides:
        return 0.0
    product = both * neither - lost * won
    if product > 0:
        product = max(product - (both + lost + won + neither) / 2, 0)
    return product / sqrt(sides)


def _joined(one: float, other: float, together: float) -> float:
    """Join two lengths as two sides of a triangle, by what they have in common."""
    return sqrt(max(hypot(one, other) ** 2 - 2 * together * one * other, 0))
