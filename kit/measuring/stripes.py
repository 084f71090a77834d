"""Count bands along lines drawn across a face."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from kit.errors import KitError
from kit.measuring.photograph import Photograph, Point, sampled

STRIP = 9  # lines side by side that are averaged into one, a pixel apart
FINE = 0.5  # pixels between the places on a line
LEAST_BAND = 3.0  # pixels: narrower, dark and bright run into each other
HYSTERESIS = 0.35  # of the usual swing: less than this up and down is no band
LEAST_SWING = 4.0  # times the noise: below, bands can not be told from grain
SMOOTH = 0.12  # of a pair of bands is averaged against grain
SLOWEST = 1.6  # pairs of bands: light that changes slower than this is the lamp's


@dataclass(frozen=True)
class Bands:
    """What a line across a face met.

    Parameters
    ----------
    edges : array
        Where one band gives way to the next, pixels along the line.
    length : float
        Of the line, pixels.
    swing : float
        From dark to bright, linear light, once the uneven light is taken out.
    noise : float
        Grain of the picture, linear light.
    pixel : float or None
        mm a pixel.
    """

    edges: np.ndarray
    length: float
    swing: float
    noise: float
    pixel: float | None = None

    @property
    def count(self) -> int:
        """Bands met, those at the ends counted in."""
        return len(self.edges) + 1 if len(self.edges) else 0

    @property
    def width(self) -> float:
        """Mean width of a whole band along the line, pixels; nan if there is none."""
        if len(self.edges) < 2:
            return math.nan
        return float(self.edges[-1] - self.edges[0]) / (len(self.edges) - 1)

    @property
    def spacing(self) -> float:
        """The same in mm; nan without a scale."""
        return self.width * (self.pixel or math.nan)

    @property
    def doubt(self) -> str:
        """Why the count can not be trusted, in a sentence; empty if it can."""
        if self.swing < LEAST_SWING * self.noise:
            return (
                "I can not decide: dark and bright differ no more than the grain of the "
                "picture does. Etch deeper, or photograph in softer light."
            )
        if not math.isnan(self.width) and self.width < LEAST_BAND:
            return (
                f"I can not decide: a band is about {self.width:.1f} pixels wide, and it "
                f"takes {LEAST_BAND:g}. Photograph from nearer."
            )
        if len(self.edges) < 2:
            return "I can not decide: the line crosses fewer than two edges."
        return ""


def along(photo: Photograph, start: Point, end: Point) -> Bands:
    """Count the bands along a line between two places (column, row).

    Nine lines side by side are averaged against grain; light that changes more slowly
    than the bands is taken out; an edge counts where the light crosses its middle and
    goes on by a third of the usual swing.

    Raises
    ------
    KitError
        If the line is shorter than 20 pixels, or leaves the picture.
    """
    profile = _profile(photo, start, end)
    length = math.dist(start, end)
    noise = _grain(photo, start, end)
    level = _levelled(profile)
    swing = 2 * float(np.sqrt(2) * level.std())
    edges = _crossings(level, HYSTERESIS * swing / 2) * FINE
    return Bands(edges, length, swing, noise, photo.pixel)


def across(photo: Photograph, start: Point, end: Point, lines: int = 5) -> list[Bands]:
    """Count along several lines, side by side over the height of the picture.

    Parameters
    ----------
    photo : Photograph
    start, end : (column, row)
        The middle line.
    lines : int
        How many, 2 … 30; spread over three quarters of what lies beside the line.
    """
    rows, columns = photo.light.shape
    length = math.dist(start, end)
    if length < 1:
        msg = "A line needs two different ends."
        raise KitError(msg)
    side = (-(end[1] - start[1]) / length, (end[0] - start[0]) / length)
    reach = []
    for sign in (-1, 1):
        room = min(
            _room(place[axis], sign * side[axis], (columns, rows)[axis] - 1)
            for place in (start, end)
            for axis in (0, 1)
        )
        reach.append(sign * 0.75 * room)
    found = []
    for aside in np.linspace(reach[0], reach[1], lines):
        moved = [(x + aside * side[0], y + aside * side[1]) for x, y in (start, end)]
        found.append(along(photo, *moved))
    return found


def _room(place: float, step: float, last: float) -> float:
    """Say how far a place can move before it leaves 0 … last."""
    if abs(step) < 1e-9:
        return math.inf
    return (last - place) / step if step > 0 else place / -step


def _profile(photo: Photograph, start: Point, end: Point) -> np.ndarray:
    rows, columns = photo.light.shape
    length = math.dist(start, end)
    inside = all(-1 <= x <= columns and -1 <= y <= rows for x, y in (start, end))
    if length < 20 or not inside:
        msg = (
            "A line to count along must be at least 20 pixels long and lie in the picture "
            f"of {columns} × {rows}. Given: from {_shown(start)} to {_shown(end)}."
        )
        raise KitError(msg)
    x, y = _strip(start, end, length)
    return sampled(photo.light, x, y).mean(axis=0)


def _strip(start: Point, end: Point, length: float) -> tuple[np.ndarray, np.ndarray]:
    """Give the places of STRIP lines side by side, FINE pixels apart along them."""
    run = np.linspace(0, 1, round(length / FINE) + 1)
    aside = (np.arange(STRIP) - STRIP // 2)[:, None] / length
    dx, dy = end[0] - start[0], end[1] - start[1]
    return start[0] + run * dx - aside * dy, start[1] + run * dy + aside * dx


def _shown(point: Point) -> str:
    return f"({point[0]:.0f}, {point[1]:.0f})"


def _grain(photo: Photograph, start: Point, end: Point) -> float:
    """Grain left in the mean profile, from what neighbouring lines do not share.

    The median of absolute differences over 0.6745 is the standard deviation of normal
    noise (Rousseeuw & Croux, J. Am. Stat. Assoc. 88 (1993) 1273).
    """
    x, y = _strip(start, end, math.dist(start, end))
    lines = sampled(photo.light, x, y)
    bent = lines[:-2] - 2 * lines[1:-1] + lines[2:]  # straight edges fall out
    single = float(np.median(np.abs(bent))) / 0.6745 / math.sqrt(6)
    return single / math.sqrt(STRIP)


def _levelled(profile: np.ndarray) -> np.ndarray:
    """Take out what changes more slowly than the bands, and even out the swing."""
    period = _period(profile)
    profile = _running_mean(profile, round(SMOOTH * period) | 1)
    window = max(3, round(SLOWEST * period) | 1)
    level = profile - _running_mean(profile, window)
    # an edge is half-way between dark and bright, not at the mean of unequal bands
    level -= (np.percentile(level, 5) + np.percentile(level, 95)) / 2
    loud = np.sqrt(_running_mean(level**2, 2 * window + 1))
    floor = 0.25 * float(loud.max(initial=0)) + 1e-12
    return level * (float(np.sqrt(np.mean(level**2))) / np.maximum(loud, floor))


def _period(profile: np.ndarray) -> float:
    """Find the usual distance from bright band to bright band, in places.

    From how often the light, freed from slow change, crosses its middle: tried with
    wide and narrow windows until the window fits what it finds.
    """
    period = len(profile) / 2
    for _ in range(12):
        window = max(3, round(SLOWEST * period) | 1)
        level = profile - _running_mean(profile, window)
        count = len(_crossings(level, HYSTERESIS * math.sqrt(2) * float(level.std())))
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
