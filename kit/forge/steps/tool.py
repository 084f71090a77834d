"""The mark of one tool: its depth at every place, and what that sums up to.

Lengths in mm. A mark is looked at line by line: a line runs along the bar, `beside`
mm from the mark's middle; u is measured along it, 0 at the middle. Every sum is the
exact integral of the depth, so that metal moved by it keeps its volume exactly.
"""

from __future__ import annotations

import math
from abc import ABC, abstractmethod
from collections.abc import Callable
from dataclasses import dataclass
from typing import NamedTuple

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


class Cone(Mark):
    """What a drill's point leaves."""

    def line(self, beside: np.ndarray) -> Line:
        """Sum √(u² + v²) with the inverse hyperbolic sine, written as a logarithm."""
        radius, steep = self.radius, self.depth / self.radius
        aside = np.clip(np.abs(beside), 1e-6 * radius, radius)
        square = aside * aside
        half = np.sqrt(np.maximum(radius * radius - square, 0))
        chord = steep * (radius * half - square * np.log((half + radius) / aside))

        def at(u: np.ndarray) -> Summed:
            near = np.minimum(np.abs(u), half)
            far = np.sqrt(near * near + square)
            total = (near + far) / aside
            np.log(total, out=total)
            total *= square
            total += near * far
            total *= -0.5 * steep
            total += near * (steep * radius)
            return steep * (radius - np.minimum(far, radius)), np.copysign(total, u)

        return Line(at, chord)

    def across(self, beside: np.ndarray) -> Summed:
        """Sum the chords; found by parts, see tests/test_press.py."""
        share = np.clip(beside / self.radius, -1, 1)
        half = np.sqrt(1 - share * share)
        aside = np.maximum(np.abs(share), 1e-6)
        bent = share * share * np.log((half + 1) / aside)
        total = (2 * half - bent) * share + np.arcsin(share)
        size = self.depth * self.radius
        return total * (size * self.radius / 3), (half - bent) * size


class Cap(Mark):
    """What a ball leaves: a bowl, its section a parabola."""

    def line(self, beside: np.ndarray) -> Line:
        """Sum a parabola."""
        bend = self.depth / self.radius**2
        square = np.maximum(self.radius**2 - beside * beside, 0)
        half = np.sqrt(square)

        def at(u: np.ndarray) -> Summed:
            near = np.clip(u, -half, half)
            bowl = near * near
            total = (square - bowl / 3) * near
            return (square - bowl) * bend, total * bend

        return Line(at, square * half * (4 / 3 * bend))

    def across(self, beside: np.ndarray) -> Summed:
        """Sum (r² - v²)^(3/2)."""
        share = np.clip(beside * (1 / self.radius), -1, 1)
        rest = 1 - share * share
        half = np.sqrt(rest)
        chord = half * rest
        total = half * 3 + 2 * chord
        total *= share
        total += 3 * np.arcsin(share)
        size = self.depth * self.radius
        total *= size * self.radius / 6
        chord *= 4 / 3 * size
        return total, chord


class Groove(Mark):
    """What a round file or a bar laid across leaves: the same on every line."""

    def line(self, beside: np.ndarray) -> Line:
        """Sum a parabola."""
        del beside
        radius, bend = self.radius, self.depth / self.radius**2

        def at(u: np.ndarray) -> Summed:
            near = np.clip(u, -radius, radius)
            bowl = near * near
            total = (radius**2 - bowl / 3) * near
            return (radius**2 - bowl) * bend, total * bend

        return Line(at, 4 / 3 * self.depth * radius)

    def across(self, beside: np.ndarray) -> tuple[np.ndarray, float]:
        """Sum equal chords."""
        chord = 4 / 3 * self.depth * self.radius
        return beside * chord, chord


def drill_depth(across: float, point: float = 118.0) -> float:
    """Say how deep a drill's point goes until its lips are level with the face, mm.

    Parameters
    ----------
    across : float
        Diameter of the drill, mm.
    point : float
        Angle of its point, degrees; 118 is that of a common twist drill.
    """
    return across / 2 / math.tan(math.radians(point / 2))
