"""What the fire takes off a face: scale, heat by heat, and carbon below it.

Scale grows with the square root of time, for iron must pass through what is there already.
It falls off under the hammer, so each heat starts anew. Left out: flux and a reducing fire
(less scale, often far less), steam and draught (more), what the alloy does (chromium holds
scale back), and that scale starts before the bar is at heat. The constant is from memory:
see `KP_SOURCE`. Weigh your own billet.

Carbon: from a face held at one content, an element's way into thick steel is the error
function, (C - C0) / (Cs - C0) = 1 - erf(x / 2√(D t)) (Callister & Rethwisch, Materials
Science and Engineering, 9th ed., eq. 5.5). Left out: scale that eats the poor layer while
it grows (so the true depth is less), the skin of ferrite on a face that lost all its
carbon, thin bars poor from both sides, and a fire that is not purely oxidising. Measured
depths are set out in ASTM E1077.
"""

from __future__ import annotations

import math
from statistics import NormalDist
from typing import NamedTuple

from kit.basics.errors import KitError
from kit.forge.billet import Billet
from kit.forge.steps import Size
from kit.metal.contents import ATOMIC_WEIGHTS
from kit.metal.diffusion import GAS, ZERO, check_minutes, diffusivity
from kit.metal.solidus import both

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


# Oxygen taken up: kp = 6.1 exp(-169.5 kJ / R T) g² cm⁻⁴ s⁻¹.
KP, BARRIER = 6.1, 169.5e3
KP_SOURCE = (
    "iron in air, 700 to 1250 °C: Païdassi 1958 after Chen & Yuen, Oxidation of Metals 59 "
    "(2003): from memory"
)
COLDEST, HOTTEST = 700.0, 1300.0  # °C
# Most scale is wüstite, Fe0.95O. Oxygen: IUPAC 2021, as kit.forge.steels.
IRON_TO_OXYGEN = 0.95 * ATOMIC_WEIGHTS["Fe"] / 15.999
DENSITY = 7.85  # g/cm³, see kit.forge.steel_table

# For a plan without minutes: what five minutes at 1200 °C take of a billet 30 × 36 × 100 mm
# without flux, by the law above.
USUAL_PERCENT = 2.5


class Loss(NamedTuple):
    """What one heat takes: mm off each face, per cent of the bar; steps count from 0."""

    step: int
    thickness: float
    percent: float


def scale_loss(celsius: float, minutes: float) -> float:
    """Give the steel that turns to scale in one heat, mm off a face.

    Parameters
    ----------
    celsius : float
        700 to 1300 °C.
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
    speed = KP * math.exp(-BARRIER / (GAS * (celsius + ZERO)))
    oxygen = math.sqrt(speed * 60 * minutes)  # g/cm²
    return 10 * oxygen * IRON_TO_OXYGEN / DENSITY


def percent_lost(size: Size, thickness: float) -> float:
    """Give the share of a bar that a layer off all its faces is, per cent; at most 100."""
    left = math.prod(max(0.0, 1 - 2 * thickness / side) for side in size)
    return 100 * (1 - left)


def losses_of(billet: Billet) -> tuple[Loss, ...]:
    """List what each heat of a billet takes off the bar as it is in that heat.

    The sizes are the billet's own: what earlier heats took is not taken off them (plan a
    billet with `kit.shop.plan` for that).

    Raises
    ------
    KitError
        As `scale_loss`.
    """
    found = []
    for number, (step, size) in enumerate(zip(billet.steps, billet.sizes, strict=False)):
        if step.heat:
            off = scale_loss(step.heat.celsius, step.heat.minutes)
            met = step.size_after(size) if step.leaves > 1 else size
            found.append(Loss(number, off, percent_lost(met, off)))
    return tuple(found)
