"""Split a tall stack with a blunt wedge: the feather."""

import math
from typing import ClassVar, Literal

import numpy as np

from kit.basics.declare import quantity
from kit.basics.errors import KitError
from kit.forge.steps.base import Place, Points, Size, Step
from kit.forge.steps.by_hand import chance, seed, wander
from kit.forge.steps.tally import Layers

MOST = 0.8  # of the thickness
WIDEST = 0.24  # of the width: at a quarter the barbs would be straight
STRAY = 0.1  # of the width: ours
WAVES = ((1.3, 0.6), (0.5, 0.25), (0.2, 0.15))  # ours: in thicknesses, ± 20 %; shares


class Split(Step):
    r"""Drive a blunt wedge down through the layers, weld the halves together, grind true.

        |-----|-----|       |-._ | _.-|      layers that lay level sweep in from both
        |-----|-----|  ->   |-._\|/_.-|      sides, ever steeper, and run down along
        |-----|-----|       |   \|/   |      the split like barbs along a quill

    The wedge takes the layers in the split with it by the whole `drag`, those at the
    sides not at all, and those at `reach` beside the split by half. Between, the drag
    falls as ``log(1 / (|y| + core))``: as a fluid in a pipe is dragged along by a rod
    drawn through its middle (Bird, Stewart & Lightfoot, *Transport Phenomena*, annular
    flow with an inner cylinder moving along its axis; from memory), with the rod as thin
    as `reach` asks for. Each upright line is only moved along itself, so volume is kept.
    Then the notch on top and the ridge below are ground off. The trade next draws the
    block out along the split, which becomes the blade's length.

    Leaves out: steel is no such fluid and the wedge no rod, so the curve is illustrative,
    and no angle of a barb should be read off it; what the wedge cuts away; the scale in
    the split; the fan of the first and the last layers, which are ground off; that a split
    which strays by hand makes the sides bulge.

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
        "Reach", "beside the split, where half of the drag is left",
        low=0.5, high=100, unit="mm",
    )  # fmt: skip
    uneven: float = quantity(
        "Uneven", "how much wider one side is dragged along than the other",
        low=0, high=60, unit="%", default=0,
    )  # fmt: skip
    wander: float = wander("how far the split strays from its line", high=20)
    seed: int = seed("hand")

    order = 120
    keeps = Layers.TILTED
    takes = "notch and ridge of the split"
    done_at = (Place.FIRE, Place.GRINDER)
    makes = "From both sides the layers sweep down along the split, like barbs on a quill."
    nothing: ClassVar[dict] = {"drag": 0, "reach": 2}
    says = (
        " it, layers dragged {drag} down, half that {reach} beside the split, one side "
        "{uneven} wider, {wander} off (dice throw {seed})"
    )
    usual: ClassVar[dict] = {
        "drag": lambda size: size.thickness / 3,
        "reach": lambda size: size.width / 8,
    }

    def size_after(self, size: Size) -> Size:
        """Give what is left between the notch and the ridge."""
        self.refuse_round(size)
        most = MOST * size.thickness
        if self.drag > most:
            msg = (
                f"Drag must be from 0 to {most:.2f} mm in a bar {size.thickness:.2f} mm "
                f"thick, or nothing is left of it. Given: {self.drag:g} mm."
            )
            raise KitError(msg)
        widest = WIDEST * size.width
        reach, stray = self.reach * (1 + self.uneven / 100), STRAY * size.width
        if self.wander > stray:
            msg = (
                f"A split can stray at most {stray:.2f} mm in a bar {size.width:.2f} mm "
                f"wide. Given: {self.wander:g} mm."
            )
            raise KitError(msg)
        if reach > widest:
            msg = (
                f"Reach can be at most {widest:.2f} mm in a bar {size.width:.2f} mm wide, "
                f"just under a quarter of it. Given: {reach:g} mm."
            )
            raise KitError(msg)
        return size._replace(thickness=size.thickness - self.drag)

    def do(self, points: Points, size: Size) -> Points:
        """Drag the metal down; count from the middle of what is left."""
        return self._moved(points, size, 1)

    def undo(self, points: Points, size: Size) -> Points:
        """Put the metal up again."""
        return self._moved(points, size, -1)

    def _moved(self, points: Points, size: Size, way: int) -> Points:
        """Move the metal down (1) or up (-1) beside the split, wherever that strays."""
        x, y, z = points
        y = y + self._strayed(x, z, size)
        z = z + (self.drag / 2 - self._dragged(y, size)) * way
        return x, y - self._strayed(x, z, size), z

    def piece(self, points: Points, size: Size) -> np.ndarray:
        """Tell the two halves apart, welded again along the split."""
        x, y, z = points
        return y + self._strayed(x, z, size) >= 0

    def _strayed(self, x: np.ndarray, z: np.ndarray, size: Size) -> np.ndarray | float:
        """Say how far the split lies off its line, mm: long waves and short ones."""
        if not self.wander:
            return 0.0
        off = np.zeros_like(z)
        for share, number, aside, phase in self._waves(size.thickness):
            off += share * self.wander * np.sin(number * z + aside * x + phase)
        return off

    def _waves(self, thickness: float) -> list[tuple[float, float, float, float]]:
        """Draw each wave: its share, its number down and along the bar, its phase."""
        draw = chance(self.seed)
        waves = []
        for long, share in WAVES:
            number = 2 * math.pi / (long * thickness * (0.8 + 0.4 * draw()))
            waves.append((share, number, number * (draw() - 0.5), 2 * math.pi * draw()))
        return waves

    def _dragged(self, y: np.ndarray, size: Size) -> np.ndarray:
        wide = 1 + self.uneven / 100
        left = self._dragged_within(y, size, self.reach * wide)
        if wide == 1:
            return left
        return np.where(y < 0, left, self._dragged_within(y, size, self.reach / wide))

    def _dragged_within(self, y: np.ndarray, size: Size, reach: float) -> np.ndarray:
        half = size.width / 2
        # of this thickness the rod leaves half of the drag at `reach`:
        # (half + core) / (reach + core) = (reach + core) / core
        core = reach**2 / (half - 2 * reach)
        share = np.log((np.abs(y) + core) * (1 / (half + core)))
        return share * (self.drag / math.log(core / (half + core)))
