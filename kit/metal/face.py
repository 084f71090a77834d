"""Carbon at a face: how deep it is lost in the fire, or taken up.

From a face held at one content, an element's way into thick steel is the error function:
(C - C0) / (Cs - C0) = 1 - erf(x / 2√(D t)) (Callister & Rethwisch, Materials Science and
Engineering, 9th ed., eq. 5.5).

Leaves out: scale that eats the poor layer while it grows (so the true depth is less), the
skin of ferrite on a face that lost all its carbon, thin bars poor from both sides, and a
fire that is not purely oxidising. Measured depths are set out in ASTM E1077.
"""

from __future__ import annotations

import math
from statistics import NormalDist

from kit.basics.errors import KitError
from kit.metal.diffusion import check_minutes, diffusivity

_NORMAL = NormalDist()


def share_reached(depth: float, minutes: float, speed: float) -> float:
    """Say how far the content at a depth has gone towards that of the face, 0 … 1.

    Parameters
    ----------
    depth : float
        Below the face, mm.
    minutes : float
    speed : float
        Diffusivity, m²/s.

    Examples
    --------
    >>> round(share_reached(0.5, 422.8, 1.6e-11), 3)
    0.579
    """
    check_minutes(minutes)
    blur = 2e3 * math.sqrt(speed * 60 * minutes)
    return math.erfc(depth / blur) if blur else float(depth <= 0)


def depth_reached(share: float, minutes: float, speed: float) -> float:
    """Give the depth at which the content has gone so far towards that of the face, mm."""
    check_minutes(minutes)
    return 2e3 * _inverse(share) * math.sqrt(speed * 60 * minutes)


def minutes_to_reach(share: float, depth: float, speed: float) -> float:
    """Give the time after which a depth (mm) has gone so far towards the face, minutes."""
    return (depth * 1e-3 / (2 * _inverse(share))) ** 2 / speed / 60


def decarburised(celsius: float, minutes: float, *, kept: float = 0.9) -> float:
    """Give the depth down to which less than some of the carbon is left, mm.

    Parameters
    ----------
    celsius, minutes : float
        Of one heat, the face bare in the fire and all its carbon burnt off.
    kept : float
        Share of the carbon that counts as enough, above 0 and below 1.

    Raises
    ------
    KitError
        As `diffusivity`; less than no time; a share out of range.

    Examples
    --------
    >>> round(decarburised(1150, 5), 2)
    0.37
    """
    return depth_reached(1 - kept, minutes, float(diffusivity("C", celsius)))


def _inverse(share: float) -> float:
    """Give the z whose 1 - erf(z) is a share: erf and the normal curve are one."""
    if not 0 < share < 1:
        msg = f"A share of the way must be between 0 and 1. Given: {share}."
        raise KitError(msg)
    return _NORMAL.inv_cdf(1 - share / 2) / math.sqrt(2)
