"""How far apart two colours look: CIEDE2000.

About 1 is the least that a practised eye tells apart side by side (common practice, no
source); black and white are 100 apart.

Source: Sharma, Wu & Dalal, The CIEDE2000 color-difference formula, Color Research and
Application 30 (2005) 21-30, doi 10.1002/col.20070, whose symbols stand in the comments.
"""

from __future__ import annotations

import numpy as np


def colour_difference(first: np.ndarray, second: np.ndarray) -> np.ndarray:
    """Give the CIEDE2000 difference of two colours; all three weights are 1.

    Parameters
    ----------
    first, second : array, shape (…, 3)
        L*, a*, b* from `kit.metal.sight.lightness.to_lab`. Shapes that fit together.

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
