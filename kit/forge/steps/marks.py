"""What one blow of a tool leaves in a face, looked at line by line.

A line runs along the bar, `beside` mm from the mark's middle; u is measured along it, 0
at the middle; lengths in mm. Every sum is the exact integral of the depth, so that metal
moved by it keeps its volume exactly.
"""

from __future__ import annotations

import math
from abc import ABC, abstractmethod
from collections.abc import Callable
from dataclasses import dataclass
from typing import ClassVar, NamedTuple

import numpy as np

Summed = tuple[np.ndarray, np.ndarray]


class Line(NamedTuple):
    """One line through a mark.

    Attributes
    ----------
    at : callable
        From u to the depth there and the depth summed up from 0 to u (mm, mm²).
    chord : array or float
        The depth summed up over the whole line, mm².
    """

    at: Callable[[np.ndarray], Summed]
    chord: np.ndarray | float


@dataclass(frozen=True)
class Mark(ABC):
    """A hollow with a rim.

    Parameters
    ----------
    radius : float
        Half the width at the rim, mm.
    depth : float
        In the middle, mm.
    """

    radius: float
    depth: float
    rows: ClassVar[bool] = True  # many lie beside each other across the bar

    @abstractmethod
    def line(self, beside: np.ndarray) -> Line:
        """Give the line that runs `beside` mm from the middle."""

    @abstractmethod
    def across(self, beside: np.ndarray) -> tuple[np.ndarray, np.ndarray | float]:
        """Sum the chords up from the middle line to `beside`, mm³; and the chord there."""

    @property
    def volume(self) -> float:
        """Volume of the hollow, mm³."""
        return 2 * float(self.across(np.array(self.radius))[0])


def bowl(square: np.ndarray | float, bend: float) -> Line:
    """Sum a parabola that is 0 where u² is `square`, and `bend` mm deeper for each mm²."""
    half = square**0.5

    def at(u: np.ndarray) -> Summed:
        near = np.clip(u, -half, half)
        out = near * near
        total = (square - out / 3) * near
        return (square - out) * bend, total * bend

    return Line(at, square * half * (4 / 3 * bend))


class Rung(Mark):
    """A mark right across the bar, the same on every line."""

    rows = False

    def across(self, beside: np.ndarray) -> tuple[np.ndarray, float]:
        """Sum equal chords up from the middle line to `beside`, mm³; and the chord, mm²."""
        chord = self.line(np.zeros(())).chord
        return beside * chord, chord


@dataclass(frozen=True)
class Eased(Mark):
    """A bowl whose rim is rounded over, as wheel, die and ball leave it.

    Its section is a parabola in the middle and falls off without an edge outside. It is
    the difference of two bells, (R² - r²)² inside of R: both a parabola's height where
    they overlap, and both flat at their rims.

    Parameters
    ----------
    flank : float
        Half the width of the parabola, mm: there the rounding begins.
    """

    flank: float

    @classmethod
    def of(cls, radius: float, depth: float, shoulder: float) -> Eased:
        """Round the rim of a bowl over.

        Parameters
        ----------
        radius, depth : float
            Of the bowl, its rim sharp, mm.
        shoulder : float
            How wide the rounding is, mm; at most the radius.
        """
        share = min(shoulder / radius, 1 - 1e-6)  # some parabola is left, for the sums
        outer, inner = (radius * math.sqrt(1 + sign * share) for sign in (1, -1))
        return cls(radius=outer, depth=depth, flank=inner)

    @property
    def steep(self) -> float:
        """What the bells are multiplied by, 1/mm³."""
        return self.depth / (self.radius**4 - self.flank**4)

    def line(self, beside: np.ndarray) -> Line:
        """Sum the difference of two bells."""
        square = beside * beside
        return self._line(
            *(np.maximum(rim * rim - square, 0) for rim in (self.radius, self.flank))
        )

    def _line(self, outer: np.ndarray | float, inner: np.ndarray | float) -> Line:
        """Sum them up where their rims are so far from the middle of the line, mm²."""
        (wide, all_of_it), (narrow, all_inside) = map(_bell, (outer, inner))
        steep = self.steep

        def at(u: np.ndarray) -> Summed:
            both = zip(wide(u), narrow(u), strict=True)
            return tuple((more - less) * steep for more, less in both)

        return Line(at, (all_of_it - all_inside) * steep)

    def across(self, beside: np.ndarray) -> Summed:
        """Sum the chords of both bells."""
        (more, high), (less, low) = (
            _bell_across(part, beside) for part in (self.radius, self.flank)
        )
        return (more - less) * self.steep, (high - low) * self.steep


def _bell(square: np.ndarray | float) -> tuple[Callable, np.ndarray | float]:
    """Give (s - u²)² inside of u² = s, and what it sums to from 0; and all of its sum."""
    half, more, most = square**0.5, square * (2 / 3), square * square

    def at(u: np.ndarray) -> Summed:
        near = np.clip(u, -half, half)
        out = near * near
        high = square - out
        high *= high
        summed = out * -0.2
        summed += more
        summed *= out
        np.subtract(most, summed, out=summed)
        summed *= near
        return high, summed

    return at, most * half * (16 / 15)


def _bell_across(radius: float, beside: np.ndarray) -> Summed:
    """Sum (R² - v²)^(5/2), by the table integral of the sixth power of a cosine."""
    share = np.clip(beside * (1 / radius), -1, 1)
    rest = 1 - share * share
    half = np.sqrt(rest)
    total = (half * (15 + rest * (10 + 8 * rest))) * share + 15 * np.arcsin(share)
    chord = half * rest * rest * (16 / 15 * radius**5)
    return total * (radius**6 / 45), chord
