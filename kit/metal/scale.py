"""What the fire takes off a face: scale, heat by heat.

Scale grows with the square root of time, for iron must pass through what is there already.
It falls off under the hammer, so each heat starts anew. Left out: flux and a reducing fire
(less scale, often far less), steam and draught (more), what the alloy does (chromium holds
scale back), and that scale starts before the bar is at heat. Weigh your own billet.
"""

from __future__ import annotations

import math

from kit.basics.errors import KitError
from kit.metal.contents import ATOMIC_WEIGHTS
from kit.metal.diffusion import GAS, ZERO, check_minutes
from kit.metal.solidus import both

# Oxygen taken up: kp = 6.1 exp(-169.5 kJ / R T) g² cm⁻⁴ s⁻¹.
# Iron in air, 700 to 1250 °C: Païdassi 1958 after Chen & Yuen, Oxidation of Metals 59
# (2003): from memory.
KP, BARRIER = 6.1, 169.5e3
COLDEST, HOTTEST = 700.0, 1300.0  # °C
# Most scale is wüstite, Fe0.95O. Oxygen: IUPAC 2021, as kit.forge.steels.
IRON_TO_OXYGEN = 0.95 * ATOMIC_WEIGHTS["Fe"] / 15.999
DENSITY = 7.85  # g/cm³, see kit.forge.steel_table


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
