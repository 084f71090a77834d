"""Crop: saw something off the two ends."""

from typing import ClassVar, Literal

from kit.basics.declare import quantity
from kit.basics.errors import KitError
from kit.forge.steps.base import Place, Points, Size, Step
from kit.forge.steps.tally import Layers, Tally

LEAST = 1.0  # mm that must be left


class Crop(Step):
    """Saw the bar's ends off; what is left stays where it was, and is counted from 0.

    So pieces of one bar can be told apart: each is the bar with the others sawn off.
    Leaves out: the width of the saw cut (see the plan of a billet).
    """

    step: Literal["crop"] = "crop"
    near: float = quantity("Off the near end", "", low=0, high=1e5, unit="mm", default=0)
    far: float = quantity("Off the far end", "", low=0, high=1e5, unit="mm", default=0)

    order = 145
    keeps = Layers.FLAT
    takes = "cropped"
    done_at = (Place.SAW,)
    nothing: ClassVar[dict] = {}
    says = ": {near} off the near end, {far} off the far end"
    usual: ClassVar[dict] = {"far": lambda size: size.length / 4}

    def size_after(self, size: Size) -> Size:
        """Make it shorter; refuse to saw it all away."""
        left = size.length - self.near - self.far
        if left < LEAST:
            msg = (
                f"At least {LEAST:g} mm of a bar must be left. Given: {self.near:g} and "
                f"{self.far:g} mm off a bar {size.length:.4g} mm long."
            )
            raise KitError(msg)
        return size._replace(length=left)

    def do(self, points: Points, size: Size) -> Points:
        """Count from the new near end."""
        return points[0] - self.near, *points[1:]

    def undo(self, points: Points, size: Size) -> Points:
        """Count from the old near end."""
        return points[0] + self.near, *points[1:]

    def tally(self, before: Tally, size: Size) -> Tally:
        """Leave the layers: the ends take none."""
        return before
