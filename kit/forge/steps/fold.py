"""Fold the bar over on itself, as a hinge closes."""

from typing import Literal

import numpy as np

from kit.forge.steps.base import Place, Points, Size, Step, side_of
from kit.forge.steps.tally import Layers, Tally


class Fold(Step):
    """Cut half through in the middle, fold the far half back on top, weld.

        before                       after
         ____________________         __________   far half, upside down
        |_________|__________|  ->   |__________|  weld: the top face meets itself
                                     |__________|  near half

    Length halves, thickness doubles, layers double. Because the top face meets
    itself, like steel meets like there: bands = 2 x bands - 1.

    Leaves out: the bend itself (a smith cuts it off), scale in the weld.
    """

    step: Literal["fold"] = "fold"

    order = 30
    keeps = Layers.FLAT
    takes = ""
    done_at = (Place.FIRE,)
    nothing = None
    says = " it"
    folds_over = True

    @property
    def leaves(self) -> int:
        """Two: the near half and the far half."""
        return 2

    def size_after(self, size: Size) -> Size:
        """Half as long, twice as thick."""
        self.refuse_round(size)
        return Size(size.length / 2, size.width, size.thickness * 2)

    def do(self, points: Points, size: Size) -> Points:
        """Lay the far half back over the near half."""
        x, y, z = points
        far = x > size.length / 2
        half = size.thickness / 2
        return np.where(far, size.length - x, x), y, np.where(far, half - z, z - half)

    def undo(self, points: Points, size: Size) -> Points:
        """Open the fold."""
        x, y, z = points
        middle = size.length / 2
        # near half: x; far half: length - x
        x = middle + (middle - x) * side_of(z)
        return x, y, size.thickness / 2 - np.abs(z)

    def leaf(
        self, points: Points, size: Size, copies: int
    ) -> tuple[np.ndarray, np.ndarray]:
        """Count the upper leaf from the top down, since it lies upside down."""
        side = side_of(points[2])
        return -side, copies + copies * side

    def piece(self, points: Points, size: Size) -> np.ndarray:
        """0 for the near half, 1 for the far half on top of it."""
        return points[2] >= 0

    def tally(self, before: Tally, size: Size) -> Tally:
        """Double the layers; the two middle ones are one band."""
        if not before.flat:
            return before
        return before.piled((before.pieces, before.pieces.turned_over()))
