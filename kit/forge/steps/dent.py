"""Dents: bowls of a ball, in a grid: raindrops."""

from typing import Literal

import numpy as np

from kit.forge.steps.hollows import Rimmed
from kit.forge.steps.marks import Eased, Line, Mark, Summed, bowl


class Dent(Rimmed):
    """Sink the bowls of a ball in a triangular grid, and level the faces.

    See Hollows for how the metal moves. Leaves out: what Hollows leaves out. The bowl is
    drawn as a parabola: 6 mm wide and 1.8 mm deep at most 0.17 mm from a true ball.
    """

    step: Literal["dent"] = "dent"

    order = 110

    def struck(self, share: float) -> Mark:
        """Leave a bowl."""
        return self._left_by(Cap, Eased, share)


class Cap(Mark):
    """What a ball leaves: a bowl, its section a parabola."""

    def line(self, beside: np.ndarray) -> Line:
        """Sum a parabola."""
        square = np.maximum(self.radius**2 - beside * beside, 0)
        return bowl(square, self.depth / self.radius**2)

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
