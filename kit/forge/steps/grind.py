"""Grind and crop: the only steps that take steel away and move none."""

from typing import ClassVar, Literal

from kit.basics.declare import quantity
from kit.basics.errors import KitError
from kit.forge.steps.base import Place, Points, RoundSize, Size, Step
from kit.forge.steps.tally import Layers, Tally

LEAST = 0.2  # mm that must be left


class Grind(Step):
    """Grind the faces and crop the ends; what is left stays where it was.

    The bar's axes run through the middle of what is left, so points change their
    numbers but not their steel.

    Leaves out: heat, and the width of the saw cut (see the plan of a billet).
    """

    step: Literal["grind"] = "grind"
    top: float = quantity("Off the top", "", low=0, high=100, unit="mm", default=0)
    bottom: float = quantity("Off the bottom", "", low=0, high=100, unit="mm", default=0)
    sides: float = quantity("Off each side", "", low=0, high=100, unit="mm", default=0)
    ends: float = quantity("Off each end", "", low=0, high=1000, unit="mm", default=0)

    order = 150
    keeps = Layers.GROUND
    takes = "ground or cropped off"
    done_at = (Place.GRINDER,)
    nothing: ClassVar[dict] = {}
    usual: ClassVar[dict] = {"top": lambda size: size.thickness / 8}
    says = ": off the top {top}, the bottom {bottom}, each side {sides}, each end {ends}"

    def size_after(self, size: Size) -> Size:
        """Make the bar smaller; refuse to grind it away."""
        self.refuse_round(size)
        left = Size(
            size.length - 2 * self.ends,
            size.width - 2 * self.sides,
            size.thickness - self.top - self.bottom,
        )
        if min(left) < LEAST:
            msg = (
                f"At least {LEAST:g} mm of a bar must be left each way. Given: a bar "
                f"{size.length:.4g} × {size.width:.4g} × {size.thickness:.4g} mm, of which "
                f"{left.length:.4g} × {left.width:.4g} × {left.thickness:.4g} mm would be."
            )
            raise KitError(msg)
        return left

    def do(self, points: Points, size: Size) -> Points:
        """Count from the middle of what is left."""
        x, y, z = points
        return x - self.ends, y, z + (self.top - self.bottom) / 2

    def undo(self, points: Points, size: Size) -> Points:
        """Count from the old middle."""
        x, y, z = points
        return x + self.ends, y, z - (self.top - self.bottom) / 2

    def tally(self, before: Tally, size: Size) -> Tally:
        """Take off the layers that lay under the faces; ends take none."""
        if before.rolled:  # on edge: the sides are the faces along the layers
            return before.ground(self.sides / size.width, self.sides / size.width)
        return before.ground(self.bottom / size.thickness, self.top / size.thickness)


class GrindRound(Step):
    """Grind or turn a square bar round, without moving its layers.

    Unlike RoundUp, which forges the corners in, this takes them off: 21.5 % of a true
    square (1 - pi/4). Leaves out: nothing.
    """

    step: Literal["grind round"] = "grind round"

    order = 140
    keeps = Layers.GROUND
    takes = "corners ground off"
    done_at = (Place.GRINDER,)
    nothing = None
    says = ", only the corners go"

    def size_after(self, size: Size) -> Size:
        """Give the largest round bar that is in it."""
        across = min(size.width, size.thickness)
        return RoundSize(size.length, across, across)

    def do(self, points: Points, size: Size) -> Points:
        """Leave the metal where it is."""
        return points

    def undo(self, points: Points, size: Size) -> Points:
        """Leave the metal where it is."""
        return points

    def tally(self, before: Tally, size: Size) -> Tally:
        """Count through the axis: a bar wider than thick keeps all its flat layers."""
        through = size.width if before.rolled else size.thickness
        off = (1 - min(size.width, size.thickness) / through) / 2
        return before.ground(off, off)
