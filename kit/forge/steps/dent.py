"""Dents: bowls of a ball, in a grid: raindrops."""

from __future__ import annotations

from typing import ClassVar, Literal

import numpy as np

from kit.basics.declare import quantity
from kit.forge.steps.dents import Eased, Line, Mark, Summed
from kit.forge.steps.hollows import NOTHING, SAYS_SHOULDER, Hollows, shoulder


class Dent(Hollows):
    """Sink the bowls of a ball in a triangular grid, and level the faces.

    See Hollows for how the metal moves. Leaves out: what Hollows leaves out. The bowl is
    drawn as a parabola: 6 mm wide and 1.8 mm deep at most 0.17 mm from a true ball.
    """

    step: Literal["dent"] = "dent"
    depth: float = quantity("Depth", "of the hollow", low=0, high=50, unit="mm")
    shoulder: float = shoulder()

    order = 110
    nothing: ClassVar[dict] = {**NOTHING, "depth": 0}
    says = SAYS_SHOULDER

    @property
    def mark(self) -> Mark:
        """A bowl."""
        if self.shoulder:
            return Eased.of(self.across / 2, self.depth, self.shoulder)
        return Cap(self.across / 2, self.depth)


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
