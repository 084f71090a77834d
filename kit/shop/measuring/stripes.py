"""Count bands along lines drawn across a face."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from kit.basics.errors import KitError
from kit.metal.colour import from_srgb
from kit.section.picture import to_srgb
from kit.shop.measuring.levels import edges
from kit.shop.measuring.photograph import Photograph, Point, sampled

STRIP = 9  # lines side by side that are averaged into one, a pixel apart
FINE = 0.5  # pixels between the places on a line
LEAST_BAND = 3.0  # pixels: narrower, dark and bright run into each other
LEAST_SWING = 3.0  # times the noise: below, bands can not be told from grain


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
        Grain of the picture, linear light; at least one of the 255 shades it can have.
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
        """Mean width of a band along the line, pixels; nan without a whole pair.

        A dark and a bright band may be of unequal width: only pairs of them are measured.
        """
        inner = len(self.edges) - 1
        if inner < 2:
            return math.nan
        whole = inner - inner % 2  # whole pairs: as many dark bands as bright ones
        return float(np.mean(self.edges[whole:] - self.edges[: inner + 1 - whole])) / whole

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
                "picture, or a shade of grey. Etch deeper, or photograph in softer light."
            )
        if not math.isnan(self.width) and self.width < LEAST_BAND:
            return (
                f"I can not decide: a band is about {self.width:.1f} pixels wide, and it "
                f"takes {LEAST_BAND:g}. Photograph from nearer."
            )
        if math.isnan(self.width):
            return "I can not decide: the line crosses no dark and bright band as a whole."
        return ""


def along(photo: Photograph, start: Point, end: Point) -> Bands:
    """Count the bands along a line between two places (column, row).

    Nine lines side by side are averaged against grain; an edge counts where the light
    passes half-way between the dark and the bright beside it, and goes on by a seventh of
    the way. Bands cut off by an end of the line to less than 3 pixels may be missed, and
    a lamp that changes within a band or two is taken for bands.

    Raises
    ------
    KitError
        If the line is shorter than 20 pixels, or leaves the picture.
    """
    profile = _profile(photo, start, end)
    length = math.dist(start, end)
    noise = max(_grain(photo, start, end), _shade(float(profile.mean())))
    places, level = edges(profile)
    swing = _mean(profile[level > 0]) - _mean(profile[level < 0])
    return Bands(places * FINE, length, swing, noise, photo.pixel)


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


def _mean(values: np.ndarray) -> float:
    return float(values.mean()) if values.size else 0.0


def _shade(light: float) -> float:
    """Give how far two neighbouring greys of a picture are apart, linear light."""
    grey = min(int(to_srgb(np.array(light))), 254)
    darker, brighter = from_srgb(np.array([grey, grey + 1]))
    return float(brighter - darker)
