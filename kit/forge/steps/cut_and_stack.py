"""Cut the bar in pieces and stack them, all the same way up."""

from typing import ClassVar, Literal

import numpy as np

from kit.basics.declare import quantity
from kit.forge.steps.base import Place, Points, Size, Step
from kit.forge.steps.tally import Layers, Tally


class CutAndStack(Step):
    """Cut across into equal pieces, lay each on the last, weld.

        before                        after
         _______________________       _______
        |___1___|___2___|___3___|  ->  |___3___|
                                       |___2___|
                                       |___1___|

    The bottom of one piece meets the top of the one below: if those are different
    steels (an even stack), no band is lost.

    Leaves out: saw kerf, grinding, scale (see plan.py).
    """

    step: Literal["cut and stack"] = "cut and stack"
    pieces: int = quantity(
        "Pieces", "equal lengths cut from the bar", low=1, high=10, default=2,
    )  # fmt: skip

    order = 40
    keeps = Layers.FLAT
    takes = ""
    done_at = (Place.FIRE, Place.SAW)
    nothing: ClassVar[dict] = {"pieces": 1}
    says = " it, {pieces} pieces"

    @property
    def leaves(self) -> int:
        """One a piece."""
        return self.pieces

    def size_after(self, size: Size) -> Size:
        """Shorter and thicker by the number of pieces."""
        self.refuse_round(size)
        return Size(size.length / self.pieces, size.width, size.thickness * self.pieces)

    def do(self, points: Points, size: Size) -> Points:
        """Move each piece back to the start and up onto the pile."""
        x, y, z = points
        each = size.length / self.pieces
        piece = np.clip(np.floor(x / each), 0, self.pieces - 1)
        lift = (piece - (self.pieces - 1) / 2) * size.thickness
        return x - piece * each, y, z + lift

    def undo(self, points: Points, size: Size) -> Points:
        """Lay the pieces end to end again."""
        x, y, z = points
        piece = self.piece(points, size)
        drop = (piece - (self.pieces - 1) / 2) * size.thickness
        return x + piece * (size.length / self.pieces), y, z - drop

    def leaf(self, points: Points, size: Size, copies: int) -> tuple[int, np.ndarray]:
        """Count every piece from the bottom up."""
        return 1, self.piece(points, size) * copies

    def piece(self, points: Points, size: Size) -> np.ndarray:
        """Count the pieces from the bottom up."""
        level = np.floor(points[2] / size.thickness + self.pieces / 2)
        return np.clip(level, 0, self.pieces - 1)

    def tally(self, before: Tally, size: Size) -> Tally:
        """Multiply; a joint of like steels loses one band."""
        return before.piled((before.pieces,) * self.pieces) if before.flat else before
