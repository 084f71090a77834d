"""Four pieces of one bar, laid two by two, so that their ends make one picture."""

from typing import Literal

import numpy as np

from kit.basics.errors import KitError
from kit.forge.steps.base import Place, Points, Size, Step, side_of
from kit.forge.steps.tally import Layers


class FourWay(Step):
    """Cut a square bar in four, lay the pieces two by two, weld: a four-way mosaic.

        end grain        "turned": each piece a quarter further round the middle
         _______          "mirrored": pieces flipped end for end, so that each seam
        |_2_|_3_|         is a mirror
        |_0_|_1_|

    Pieces keep their metal: flipping end for end is a half turn, not a reflection, and
    shows the mirror image on the end. Leaves out: saw kerf, ground faces, scale.
    """

    step: Literal["four-way"] = "four-way"
    way: Literal["turned", "mirrored"] = "turned"

    order = 130
    keeps = Layers.TILTED
    takes = ""
    done_at = (Place.FIRE, Place.SAW)
    nothing = None
    says = ", the four pieces {way}"
    makes = "The end shows the old end four times, around one middle."

    def size_after(self, size: Size) -> Size:
        """Give a bar a quarter as long, twice as wide; refuse one that is not square."""
        self.refuse_round(size)
        if not size.even:
            msg = (
                "A bar must be square to be tiled. Given: a bar "
                f"{size.width:.4g} × {size.thickness:.4g} mm."
            )
            raise KitError(msg)
        return Size(size.length / 4, 2 * size.width, 2 * size.thickness)

    def do(self, points: Points, size: Size) -> Points:
        """Lay the four pieces together."""
        x, y, z = points
        each = size.length / 4
        piece = np.clip(np.floor(x / each), 0, 3)
        x = x - piece * each
        right, up = piece % 2, np.floor(piece / 2)
        x, y, z = self._placed(x, y, z, right, up, each, forwards=True)
        return x, y + (right - 0.5) * size.width, z + (up - 0.5) * size.thickness

    def undo(self, points: Points, size: Size) -> Points:
        """Take the pieces apart and lay them end to end."""
        x, y, z = points
        each = size.length / 4
        right, up = (0.5 * (1 + side_of(part)) for part in (y, z))
        y, z = y - (right - 0.5) * size.width, z - (up - 0.5) * size.thickness
        x, y, z = self._placed(x, y, z, right, up, each, forwards=False)
        return x + (right + 2 * up) * each, y, z

    def piece(self, points: Points, size: Size) -> np.ndarray:
        """Tell the quarters apart, numbered as they are drawn above."""
        return (points[1] >= 0) + 2 * (points[2] >= 0)

    def _placed(
        self,
        x: np.ndarray,
        y: np.ndarray,
        z: np.ndarray,
        right: np.ndarray,
        up: np.ndarray,
        each: float,
        *,
        forwards: bool,
    ) -> Points:
        """Turn or flip each piece in its own place; `right` and `up` are 0 or 1."""
        across, through = 2 * right - 1, 2 * up - 1
        if self.way == "mirrored":
            # flipped end for end where exactly one of the two mirrors is crossed
            flipped = 0.5 - 0.5 * across * through
            return x + flipped * (each - 2 * x), y * across, z * through
        # by 0, 90, 180, 270 degrees for lower right, upper right, upper left, lower left
        cosine = 0.5 * (across - through)
        sine = 0.5 * (across + through) * (1 if forwards else -1)
        return x, y * cosine - z * sine, y * sine + z * cosine
