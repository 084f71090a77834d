"""How tones and colours look, and those of hot steel: CIE 1976, sRGB, a black body.

A tone in the kit is linear light, 0 black to 1 white: how much light comes back. An eye
does not judge evenly: a tone of 0.18 looks halfway. L* puts that right.

Colours are arrays whose last axis has three places: red, green, blue of the sRGB screen
in linear light; or X, Y, Z with Y = 1 for white. White is daylight, D65.
For the way to the screen there is `kit.section.picture.to_srgb`; it takes any shape.

Steel with scale on it glows nearly like a black body: one that mirrors nothing. Red,
orange, yellow, white: hardly any of that is in the light itself. From 1100 to 1200 °C it
gets only a little yellower, but 3.3 times as bright. No screen goes from 1 to a million as
steel does from 550 to 1300 °C. So three things are done to that light:

* The eye adapts: brightness counts by a power of it, against what it is used to.
* Each kind of cone in the eye tires of bright light: Naka & Rushton (1966), J. Physiol.
  185, response = light / (light + half). The red cones tire first: bright red looks
  orange, bright orange looks yellow, then white.
* The steel also throws back some of the light of the room. So the brighter the room,
  the darker and greyer the same heat looks.

What the eye is used to, and the power, are ours and illustrative; the light is not.

Sources: IEC 61966-2-1 (sRGB); CIE 15:2004 (XYZ, L*); WCAG 2.1 (contrast ratio); Planck's
law with the constants of the SI (2019); the CIE 1931 standard observer (2°), CIE 15:2004
table T.4, every 10 nm; 683.002 lm/W at 555 nm.
"""

import math

import numpy as np

from kit.basics.claim import Claim, Kind
from kit.basics.errors import KitError
from kit.basics.typed import ABSOLUTE_ZERO

COLOURS = Claim(
    says="How light a tone looks, and its contrast, is reckoned as standards say.",
    kind=Kind.PUBLISHED,
    source="IEC 61966-2-1 (sRGB); CIE 15:2004; WCAG 2.1",
    unit="parts of the light",
    holds=("_XYZ_OF_RGB", "_KNEE", "_FLARE"),
)
_XYZ_OF_RGB = np.array(
    [[0.4124, 0.3576, 0.1805], [0.2126, 0.7152, 0.0722], [0.0193, 0.1192, 0.9505]]
)
_RGB_OF_XYZ = np.linalg.inv(_XYZ_OF_RGB)
WHITE = _XYZ_OF_RGB.sum(axis=1)
WHITE.setflags(write=False)

_KNEE = 6 / 29  # below its cube the cube root gives way to a straight line
_FLARE = 0.05  # stray light that WCAG reckons with on every screen


def from_srgb(levels: np.ndarray) -> np.ndarray:
    """Give the linear light, 0 … 1, of 8-bit screen levels, 0 … 255, of any shape.

    Examples
    --------
    >>> from_srgb(np.array([0, 118, 255]))
    array([0.   , 0.181, 1.   ])
    """
    share = np.asarray(levels, dtype=float) / 255
    return np.where(share <= 0.04045, share / 12.92, ((share + 0.055) / 1.055) ** 2.4)


def from_xyz(xyz: np.ndarray) -> np.ndarray:
    """Turn X, Y, Z (…, 3) into linear red, green, blue.

    Below 0 or above 1 where no screen can show the colour.
    """
    return np.asarray(xyz) @ _RGB_OF_XYZ.T


def lightness(reflectance: np.ndarray) -> np.ndarray:
    """Give L*, how light a tone looks: 0 black to 100 white.

    Examples
    --------
    >>> lightness(np.array([0.01, 0.18, 0.5])).round(2)
    array([ 8.99, 49.5 , 76.07])
    """
    return 116 * _root(np.asarray(reflectance, dtype=float)) - 16


def contrast_ratio(first: np.ndarray, second: np.ndarray) -> np.ndarray:
    """Give the contrast of two tones as WCAG 2.1 has it: 1 none to 21 black and white.

    Parameters
    ----------
    first, second : array or float
        Linear light, in any order. Of colours, their `luminance`.

    Examples
    --------
    >>> contrast_ratio(1.0, 0.0).item()
    21.0
    """
    return (np.maximum(first, second) + _FLARE) / (np.minimum(first, second) + _FLARE)


def michelson(first: np.ndarray, second: np.ndarray) -> np.ndarray:
    """Give the contrast of stripes: half their difference against their mean, 0 … 1.

    Two tones of 0 have no contrast. Source: National Research Council (1985),
    Emergent Techniques for Assessment of Visual Performance, appendix A.
    """
    both = np.add(first, second)
    return np.abs(np.subtract(first, second)) / np.where(both > 0, both, 1)


def _root(share: np.ndarray) -> np.ndarray:
    line = share / (3 * _KNEE**2) + 4 / 29
    return np.where(share > _KNEE**3, np.cbrt(share), line)


BLACK_BODY = Claim(
    says="How bright a black body is, and of what colour, follows from its heat.",
    kind=Kind.PUBLISHED,
    source="Planck's law with the constants of the SI brochure, 9th ed., 2019; the "
    "standard observer of CIE 15:2004, table T.4; typed from the package colour-science",
    unit="SI",
    within="a black body up to 3000 °C (5432 °F); scale glows nearly like one",
    holds=(
        *("HOTTEST", "_PLANCK", "_LIGHT", "_BOLTZMANN", "_LUMENS", "_STEP", "_WAVES"),
        "_OBSERVER",
    ),
)
AS_IT_LOOKS = Claim(
    says="An eye that looks into a forge gets used to its light, and its cones tire; how "
    "much is our guess.",
    kind=Kind.OURS,
    source="illustrative; cones: Hunt-Pointer-Estevez as in Fairchild, Color Appearance "
    "Models; tiring: Naka & Rushton, Journal of Physiology 185 (1966), from memory",
    unit="lux, cd/m², parts of the light",
    holds=("BRIGHTEST", "_FIRE", "_POWER", "_SCALE", "_CONES"),
    told=(
        "glows in a darkened shop",
        "black below red heat",
        "Glow is reckoned from",
        "Colours on a screen",
    ),
)
HOTTEST = 3000  # °C
_PLANCK = 6.62607015e-34  # J s
_LIGHT = 299792458.0  # m/s
_BOLTZMANN = 1.380649e-23  # J/K
_LUMENS = 683.002  # lm/W
_STEP = 10e-9  # m

_WAVES = np.arange(380, 781, 10) * 1e-9  # m
# fmt: off
_OBSERVER = np.array(
    [
        (0.001368, 3.9e-05, 0.00645), (0.004243, 0.00012, 0.02005),
        (0.01431, 0.000396, 0.06785), (0.04351, 0.00121, 0.2074),
        (0.13438, 0.004, 0.6456), (0.2839, 0.0116, 1.3856),
        (0.34828, 0.023, 1.74706), (0.3362, 0.038, 1.77211),
        (0.2908, 0.06, 1.6692), (0.19536, 0.09098, 1.28764),
        (0.09564, 0.13902, 0.81295), (0.03201, 0.20802, 0.46518),
        (0.0049, 0.323, 0.272), (0.0093, 0.503, 0.1582),
        (0.06327, 0.71, 0.07825), (0.1655, 0.862, 0.04216),
        (0.2904, 0.954, 0.0203), (0.43345, 0.99495, 0.00875),
        (0.5945, 0.995, 0.0039), (0.7621, 0.952, 0.0021),
        (0.9163, 0.87, 0.00165), (1.0263, 0.757, 0.0011),
        (1.0622, 0.631, 0.0008), (1.0026, 0.503, 0.00034),
        (0.85445, 0.381, 0.00019), (0.6424, 0.265, 5e-05),
        (0.4479, 0.175, 2e-05), (0.2835, 0.107, 0.0),
        (0.1649, 0.061, 0.0), (0.0874, 0.032, 0.0),
        (0.04677, 0.017, 0.0), (0.0227, 0.00821, 0.0),
        (0.011359, 0.004102, 0.0), (0.00579, 0.002091, 0.0),
        (0.002899, 0.001047, 0.0), (0.00144, 0.00052, 0.0),
        (0.00069, 0.000249, 0.0), (0.000332, 0.00012, 0.0),
        (0.000166, 6e-05, 0.0), (8.3e-05, 3e-05, 0.0),
        (4.2e-05, 1.5e-05, 0.0),
    ]
)
# fmt: on


def light(celsius: np.ndarray) -> np.ndarray:
    """Give the light of a black body, as the standard observer has it.

    Parameters
    ----------
    celsius : array or float
        Temperature, 0 to 3000 °C, of any shape.

    Returns
    -------
    array
        X, Y, Z on a last axis of three; Y is the luminance in cd/m².
    """
    warm = np.asarray(celsius, dtype=float)
    if not ((warm >= 0) & (warm <= HOTTEST)).all():
        worst = warm[~((warm >= 0) & (warm <= HOTTEST))].flat[0]
        msg = f"Glow is reckoned from 0 to {HOTTEST} °C. Given: {worst:g} °C."
        raise KitError(msg)
    energy = _PLANCK * _LIGHT / (_BOLTZMANN * _WAVES)  # of a photon, in kelvin
    with np.errstate(over="ignore"):
        crowd = np.expm1(energy / (warm[..., None] - ABSOLUTE_ZERO))
    radiance = 2 * _PLANCK * _LIGHT**2 / (_WAVES**5 * crowd)  # W/m² per steradian and m
    return radiance @ _OBSERVER * (_LUMENS * _STEP)


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
        Light of the room: 0 night, 20 a darkened shop, 500 a well-lit one, 100,000 full
        sun (from memory).

    Returns
    -------
    array
        Linear red, green, blue, 0 … 1, on a last axis of three. Illustrative: say so
        beside every such picture.
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
