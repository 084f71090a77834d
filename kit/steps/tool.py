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
    def summed(self, beside: np.ndarray) -> np.ndarray:
        """Sum the chords up from the middle line to `beside`, mm³."""

    @property
    def volume(self) -> float:
        """Volume of the hollow, mm³."""
        return 2 * float(self.summed(np.array(self.radius)))


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

    def summed(self, beside: np.ndarray) -> np.ndarray:
        """Sum the chords; found by parts, see tests/test_press.py."""
        radius = self.radius
        v = np.clip(beside, -radius, radius)
        half = np.sqrt(radius * radius - v * v)
        aside = np.maximum(np.abs(v), 1e-6 * radius)
        total = (2 * radius * half - v * v * np.log((half + radius) / aside)) * v
        total += radius**3 * np.arcsin(v / radius)
        return total * (self.depth / radius / 3)


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

    def summed(self, beside: np.ndarray) -> np.ndarray:
        """Sum (r² - v²)^(3/2)."""
        radius = self.radius
        v = np.clip(beside, -radius, radius)
        total = v * np.sqrt(radius**2 - v * v) * (5 * radius**2 - 2 * v * v)
        total += 3 * radius**4 * np.arcsin(v / radius)
        return total * (self.depth / radius**2 / 6)


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

    def summed(self, beside: np.ndarray) -> np.ndarray:
        """Sum equal chords."""
        return beside * (4 / 3 * self.depth * self.radius)


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
