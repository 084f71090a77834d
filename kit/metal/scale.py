"""Scale: what the fire takes off every face, heat by heat.

Scale grows with the square root of time, for iron must pass through what is there already.
It falls off under the hammer, so each heat starts anew.

Leaves out: flux and a reducing fire (less scale, often far less), steam and draught (more),
what the alloy does (chromium holds scale back), and that scale starts before the bar is at
heat. The constant is from memory: see `KP_SOURCE`. Weigh your own billet.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from kit.basics.errors import KitError
from kit.forge.billet import Billet
from kit.forge.steels import ATOMIC_WEIGHTS
from kit.forge.steps import Size
from kit.metal.diffusion import GAS, ZERO, check_minutes
from kit.metal.solidus import both

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
    billet with `kit.shop.planning` for that).

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
