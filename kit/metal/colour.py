"""How bright and how different tones and colours look: CIE 1976, sRGB.

A tone in the kit is linear light, 0 black to 1 white: how much light comes back. An eye
does not judge evenly: a tone of 0.18 looks halfway. L* puts that right.

Colours are arrays whose last axis has three places: red, green, blue of the sRGB screen
in linear light; or X, Y, Z with Y = 1 for white. White is daylight, D65.
For the way to the screen there is `kit.section.picture.to_srgb`; it takes any shape.

Sources: IEC 61966-2-1 (sRGB); CIE 15:2004 (XYZ, L*); WCAG 2.1 (contrast ratio).
"""

import numpy as np

from kit.basics.claim import Claim, Kind

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
