"""Grooves: rungs right across the bar: a ladder."""

from __future__ import annotations

from typing import Literal

import numpy as np

from kit.forge.steps.dents import Eased, Line, Mark, Summed
from kit.forge.steps.hollows import Rimmed


class Groove(Rimmed):
    """Sink grooves right across the bar, in a ladder, and level the faces.

    See Hollows for how the metal moves. Leaves out: what Hollows leaves out.
    """

    step: Literal["groove"] = "groove"

    order = 112

    @property
    def mark(self) -> Mark:
        """A trough."""
        return self._left_by(Trough, EasedTrough)


class Trough(Mark):
    """What a round file or a bar laid across leaves: the same on every line."""

    rows = False

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
        """Sum equal chords up from the middle line to `beside`, mm³; and the chord, mm²."""
        chord = 4 / 3 * self.depth * self.radius
        return beside * chord, chord


class EasedTrough(Eased):
    """A trough whose rims are rounded over."""

    rows = False

    def line(self, beside: np.ndarray) -> Line:
        """Sum the bells: the same on every line."""
        del beside
        return self._line(self.radius**2, self.flank**2)

    def across(self, beside: np.ndarray) -> tuple[np.ndarray, float]:
        """Sum equal chords up from the middle line to `beside`, mm³; and the chord, mm²."""
        chord = self._line(self.radius**2, self.flank**2).chord
        return beside * chord, chord
