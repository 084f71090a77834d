"""How bright and how different tones and colours look: CIE 1976, sRGB, CIEDE2000.

A tone in the kit is linear light, 0 black to 1 white: how much light comes back. An eye
does not judge evenly: a tone of 0.18 looks halfway. L* puts that right.

Colours are arrays whose last axis has three places: red, green, blue of the sRGB screen
in linear light; or X, Y, Z with Y = 1 for white; or L*, a*, b*. White is daylight, D65.
For the way to the screen there is `kit.section.picture.to_srgb`; it takes any shape.

How far apart two colours look: about 1 is the least that a practised eye tells apart side
by side (common practice, no source); black and white are 100 apart.

Sources: IEC 61966-2-1 (sRGB); CIE 15:2004 (XYZ, L*a*b*); WCAG 2.1 (contrast ratio);
Sharma, Wu & Dalal, The CIEDE2000 color-difference formula, Color Research and Application
30 (2005) 21-30, doi 10.1002/col.20070, whose symbols stand in the comments.
"""

from __future__ import annotations

import numpy as np

from kit.basics.claim import Claim, Kind

COLOURS = Claim(
    says="How light and how different two colours look is reckoned as standards say.",
    kind=Kind.PUBLISHED,
    source="IEC 61966-2-1 (sRGB); CIE 15:2004; WCAG 2.1; Sharma, Wu & Dalal, Color "
    "Research and Application 30 (2005) 21-30, Table 1 read",
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


def reflectance(lightness: np.ndarray) -> np.ndarray:
    """Give the tone, in linear light, that looks so light: L* undone."""
    return _cube((np.asarray(lightness, dtype=float) + 16) / 116)


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


def _cube(root: np.ndarray) -> np.ndarray:
    return np.where(root > _KNEE, root**3, 3 * _KNEE**2 * (root - 4 / 29))


def colour_difference(first: np.ndarray, second: np.ndarray) -> np.ndarray:
    """Give the CIEDE2000 difference of two colours; all three weights are 1.

    Parameters
    ----------
    first, second : array, shape (…, 3)
        L*, a*, b*. Shapes that fit together.

    Returns
    -------
    array, shape (…)
        0 for the same colour. The order of the two makes no difference.

    Examples
    --------
    >>> colour_difference([50, 2.5, 0], [73, 25, -18]).round(4).item()
    27.1492
    """
    first, second = np.broadcast_arrays(
        np.asarray(first, dtype=float), np.asarray(second, dtype=float)
    )
    chroma = (np.hypot(*_plane(first)) + np.hypot(*_plane(second))) / 2
    swell = 1.5 - np.sqrt(_near_grey(chroma)) / 2  # 1 + G
    chroma_1, hue_1 = _polar(first, swell)
    chroma_2, hue_2 = _polar(second, swell)
    grey = chroma_1 * chroma_2 == 0
    turn = np.where(grey, 0, _short_way(hue_2 - hue_1))  # Δh'
    hue = _mean_hue(hue_1, hue_2, grey)  # mean h'
    chroma = (chroma_1 + chroma_2) / 2  # mean C'
    light = ((first[..., 0] + second[..., 0]) / 2 - 50) ** 2

    by_light = (second[..., 0] - first[..., 0]) / (1 + 0.015 * light / np.sqrt(20 + light))
    by_chroma = (chroma_2 - chroma_1) / (1 + 0.045 * chroma)
    apart = 2 * np.sqrt(chroma_1 * chroma_2) * np.sin(np.radians(turn / 2))  # ΔH'
    by_hue = apart / (1 + 0.015 * chroma * _by_hue(hue))
    lean = np.radians(60 * np.exp(-(((hue - 275) / 25) ** 2)))  # 2Δθ
    rotation = -2 * np.sqrt(_near_grey(chroma)) * np.sin(lean)  # R_T
    squares = by_light**2 + by_chroma**2 + by_hue**2 + rotation * by_chroma * by_hue
    return np.sqrt(squares)


def _plane(lab: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    return lab[..., 1], lab[..., 2]


def _near_grey(chroma: np.ndarray) -> np.ndarray:
    return chroma**7 / (chroma**7 + 25.0**7)


def _polar(lab: np.ndarray, swell: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Give C' and h' in degrees, 0 … 360."""
    red, yellow = _plane(lab)
    red = red * swell
    return np.hypot(red, yellow), np.degrees(np.arctan2(yellow, red)) % 360


def _short_way(turn: np.ndarray) -> np.ndarray:
    return np.where(np.abs(turn) > 180, turn - np.copysign(360, turn), turn)


def _mean_hue(first: np.ndarray, second: np.ndarray, grey: np.ndarray) -> np.ndarray:
    """Take the mean of two hues the short way round; grey has no hue of its own."""
    total = first + second
    far = np.abs(first - second) > 180
    mean = np.where(far, total / 2 + np.where(total < 360, 180, -180), total / 2)
    return np.where(grey, total, mean)


def _by_hue(hue: np.ndarray) -> np.ndarray:
    """Give T, how much the eye minds a change of hue there."""
    angle = np.radians(hue)
    return (
        1
        - 0.17 * np.cos(angle - np.radians(30))
        + 0.24 * np.cos(2 * angle)
        + 0.32 * np.cos(3 * angle + np.radians(6))
        - 0.20 * np.cos(4 * angle - np.radians(63))
    )
