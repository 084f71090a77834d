"""Where a line of light goes from dark to bright: half-way, whatever the lamp does."""

from __future__ import annotations

import numpy as np

HYSTERESIS = 0.15  # of the way to dark or bright: less than this up and down is no band
FOR_SURE = 0.35  # the same, before the width of the bands is known
SMOOTH = 0.12  # of a pair of bands is averaged against grain
MOST_SMOOTH = 13  # places; more would blur the edges of few bands
LEAST_HALF = 0.25  # of the usual from half-way to dark or bright: less is no contrast
WIDEST = 1.3  # usual pairs of bands: within so much there is a dark and a bright one


def edges(light: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Find the edges of bands along a line.

    Parameters
    ----------
    light : array
        Linear light at places along the line.

    Returns
    -------
    edges : array
        Where one band gives way to the next, counted in places.
    level : array
        Below 0 where the line is dark, above where it is bright.
    """
    level = _levelled(light)
    return _crossings(level, HYSTERESIS), level


def _levelled(light: np.ndarray) -> np.ndarray:
    """Take out uneven light: -1 where it is dark, 1 where bright.

    An edge is half-way between the dark and the bright beside it, however wide they are:
    not at the mean of the light, which lies nearer to the wider band.
    """
    # a lamp that doubles the light moves the dark as far as the bright, or nearly
    profile = np.sqrt(np.maximum(light, 0))
    period = _period(profile)
    smooth = min(round(SMOOTH * period), MOST_SMOOTH) | 1
    aside, half = _sides(_running_mean(profile, smooth), period)
    return aside / np.maximum(half, 1e-12)


def _sides(profile: np.ndarray, period: float) -> tuple[np.ndarray, np.ndarray]:
    """Give how far the light is from half-way between dark and bright, and that half."""
    window = min(max(3, round(WIDEST * period)), profile.size)
    bright, dark = _filled(profile, window), -_filled(-profile, window)
    half = (bright - dark) / 2
    # within a very wide band there is no other: there goes what holds beside it
    places, clear = np.arange(profile.size), half >= LEAST_HALF * half.max()
    middle, half = (
        np.interp(places, places[clear], part[clear])
        for part in ((bright + dark) / 2, half)
    )
    return profile - middle, half


def _filled(values: np.ndarray, window: int) -> np.ndarray:
    """Fill up all valleys that are narrower than a window; the rest stays as it is.

    The lowest of the maxima of all windows that hold a place and lie within the line
    (closing: Serra, Image Analysis and Mathematical Morphology, 1982).
    """
    beyond = np.full(window - 1, np.inf)
    tops = np.concatenate([beyond, _highest(values, window), beyond])
    return -_highest(-tops, window)


def _highest(values: np.ndarray, window: int) -> np.ndarray:
    """Give the maximum of every window, as fast for wide ones as for narrow ones.

    From maxima that run from both ends of blocks as long as the window (van Herk, Pattern
    Recognition Letters 13 (1992) 517).
    """
    size = values.size
    blocks = np.full((-(-size // window), window), -np.inf)
    blocks.flat[:size] = values
    ahead = np.maximum.accumulate(blocks, axis=1).ravel()
    back = np.maximum.accumulate(blocks[:, ::-1], axis=1)[:, ::-1].ravel()
    return np.maximum(back[: size - window + 1], ahead[window - 1 : size])


def _period(profile: np.ndarray) -> float:
    """Find the usual distance from bright band to bright band, in places.

    From how often the light goes from dark to bright: tried with wide and narrow windows
    until the window fits what it finds.
    """
    period = len(profile) / 2
    for _ in range(12):
        aside, half = _sides(profile, period)
        count = len(_crossings(aside, FOR_SURE * float(half.max())))
        found = 2 * len(profile) / max(count, 1)
        if found > 0.8 * period:
            break
        period = max(found, 3.0)
    return min(period, len(profile) / 2)


def _running_mean(values: np.ndarray, window: int) -> np.ndarray:
    """Mean over a window; towards the ends over what there is of it."""
    half = window // 2
    sums = np.concatenate([[0.0], np.cumsum(values, dtype=float)])
    first = np.maximum(np.arange(values.size) - half, 0)
    last = np.minimum(np.arange(values.size) + half + 1, values.size)
    return (sums[last] - sums[first]) / (last - first)


def _crossings(level: np.ndarray, reach: float) -> np.ndarray:
    """Find where the level changes sides for good: beyond `reach` on the other side."""
    sure = np.where(level > reach, 1, np.where(level < -reach, -1, 0))
    places = np.flatnonzero(sure)
    if places.size < 2:
        return np.empty(0)
    sides = sure[places]
    edges = []
    for turn in np.flatnonzero(sides[1:] != sides[:-1]):
        first, last = places[turn], places[turn + 1]
        part = level[first : last + 1] * sides[turn]
        step = int(np.flatnonzero((part[:-1] > 0) & (part[1:] <= 0))[0])
        edges.append(first + step + part[step] / (part[step] - part[step + 1]))
    return np.array(edges)
