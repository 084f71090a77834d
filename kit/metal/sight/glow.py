"""How hot steel looks on the screen.

Red, orange, yellow, white: hardly any of that is in the light itself. From 1100 to
1200 °C the light of a black body gets only a little yellower, but 3.3 times as bright.
No screen goes from 1 to a million as steel does from 550 to 1300 °C. So three things are
done to the light of `kit.metal.sight.blackbody`:

* The eye adapts: brightness counts by a power of it, against what it is used to.
* Each kind of cone in the eye tires of bright light: Naka & Rushton (1966), J. Physiol.
  185, response = light / (light + half). The red cones tire first: bright red looks
  orange, bright orange looks yellow, then white.
* The steel also throws back some of the light of the room. So the brighter the room,
  the darker and greyer the same heat looks.

What the eye is used to, and the power, are ours and illustrative; the light is not.
"""

from __future__ import annotations

import math

import numpy as np

from kit.basics.errors import KitError
from kit.metal.sight.blackbody import light
from kit.metal.sight.lightness import WHITE, from_xyz

ILLUSTRATIVE = (
    "Illustrative heat colours: the light is that of a black body, but how bright it looks "
    "beside the light of the room is our guess, and no screen glows. "
    "Judge heat by your own steel in your own light, or by a thermometer."
)
BRIGHTEST = 100_000  # lux: full sun

# cd/m² that an eye is used to that looks into a forge: a bar at 1050 °C. White paper in
# the light of the room comes on top.
_FIRE = 900
_POWER = 0.6  # how brightness counts
_SCALE = 0.15  # share of the room's light that scale throws back; it glows with the rest

# Cones for long, middle and short waves, from X, Y, Z: Hunt-Pointer-Estevez, as in
# Fairchild, Color Appearance Models; each 1 for white.
_CONES = np.array(
    [[0.38971, 0.68898, -0.07868], [-0.22981, 1.18340, 0.04641], [0.0, 0.0, 1.0]]
)
_CONES = _CONES / (_CONES @ WHITE)[:, None]
_XYZ_OF_CONES = np.linalg.inv(_CONES)


def seen(celsius: np.ndarray, lux: float = 20) -> np.ndarray:
    """Give the colour that steel with scale on it seems to have at a heat.

    Parameters
    ----------
    celsius : array or float
        Of any shape, 0 to 3000 °C.
    lux : float
        Light of the room: 0 night, 20 a darkened shop, 500 a well-lit one, 100 000 full
        sun (from memory).

    Returns
    -------
    array
        Linear red, green, blue, 0 … 1, on a last axis of three. Illustrative: see
        `ILLUSTRATIVE`, which belongs beside every such picture.
    """
    if not 0 <= lux <= BRIGHTEST:
        msg = f"The light of a room must be from 0 to {BRIGHTEST} lux. Given: {lux:g} lux."
        raise KitError(msg)
    paper = lux / math.pi  # cd/m² of white paper in that room
    xyz = (1 - _SCALE) * light(celsius) + _SCALE * paper * WHITE
    bright = xyz[..., 1:2]
    used_to = _FIRE + paper
    adapted = xyz / bright * (bright / used_to) ** _POWER
    cones = np.maximum(adapted @ _CONES.T, 0)
    return _on_screen((cones / (cones + 1)) @ _XYZ_OF_CONES.T)


def _on_screen(xyz: np.ndarray) -> np.ndarray:
    """Find the nearest colour that a screen has: less deep, then less bright."""
    linear = from_xyz(xyz)
    bright = xyz[..., 1:2]
    least = np.minimum(linear.min(axis=-1, keepdims=True), 0)
    paler = bright + (linear - bright) * bright / (bright - least)
    return np.clip(paler / np.maximum(paler.max(axis=-1, keepdims=True), 1), 0, 1)
