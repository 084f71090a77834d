"""Split a tall stack with a blunt wedge: the feather."""

from __future__ import annotations

from typing import ClassVar, Literal

import numpy as np

from kit.declare import quantity
from kit.errors import KitError
from kit.steps.base import Points, Size, Step

MOST = 0.8  # of the thickness


class Split(Step):
    """Drive a blunt wedge down through the layers, weld the halves together, grind true.

    The wedge drags the layers down with it, most in the split and ever less beside it:
    by ``drag * exp(-|y| / reach)``. Seen at the end of the bar, layers hang down from
    both sides of the split like the barbs of a feather from its shaft. Each upright
    line is only moved along itself, so volume is kept. Then the notch on top and the
    ridge below are ground off.

    Leaves out: the way metal really flows round a wedge (the exponential is a toy shape,
    illustrative; no angle of a barb should be read off it), what the wedge cuts away, the
    scale in the split. The trade then draws the feather out along its shaft.

    Examples
    --------
    >>> Split(drag=20, reach=8).size_after(Size(30, 60, 100))
    Size(length=30, width=60, thickness=80.0)
    """

    step: Literal["split"] = "split"
    drag: float = quantity(
        "Drag", "how far the wedge takes a layer down with it", low=0, high=200, unit="mm"
    )
    reach: float = quantity(
        "Reach",
        "beside the split, where about a third of the drag is left",
        low=0.5,
        high=100,
        unit="mm",
    )

    wastes: ClassVar[bool] = True

    def size_after(self, size: Size) -> Size:
        """Give what is left between the notch and the ridge."""
        self.refuse_round(size)
        most = MOST * size.thickness
        if self.drag > most:
            msg = (
                f"Drag must be from 0 to {most:.2f} mm in a bar {size.thickness:.2f} mm "
                f"thick, or nothing is left of it. Given: {self.drag:g}."
            )
            raise KitError(msg)
        return size._replace(thickness=size.thickness - self.drag)

    def do(self, points: Points, size: Size) -> Points:
        """Drag the metal down; count from the middle of what is left."""
        del size
        x, y, z = points
        return x, y, z + (self.drag / 2 - self._dragged(y))

    def undo(self, points: Points, size: Size) -> Points:
        """Put the metal up again."""
        del size
        x, y, z = points
        return x, y, z + (self._dragged(y) - self.drag / 2)

    def _dragged(self, y: np.ndarray) -> np.ndarray:
        return self.drag * np.exp(np.abs(y) * (-1 / self.reach))
