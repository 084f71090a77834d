"""Grooves: rungs right across the bar: a ladder."""

from typing import Literal

import numpy as np

from kit.forge.steps.hollows import Rimmed
from kit.forge.steps.marks import Eased, Line, Mark, Rung, bowl


class Groove(Rimmed):
    """Sink grooves right across the bar, in a ladder, and level the faces.

    See Hollows for how the metal moves. Leaves out: what Hollows leaves out.
    """

    step: Literal["groove"] = "groove"

    order = 112

    def struck(self, share: float) -> Mark:
        """Leave a trough."""
        return self._left_by(Trough, EasedTrough, share)


class Trough(Rung):
    """What a round file or a bar laid across leaves."""

    def line(self, beside: np.ndarray) -> Line:
        """Sum a parabola."""
        return bowl(self.radius**2, self.depth / self.radius**2)


class EasedTrough(Rung, Eased):
    """A trough whose rims are rounded over."""

    def line(self, beside: np.ndarray) -> Line:
        """Sum the bells: the same on every line."""
        return self._line(self.radius**2, self.flank**2)
