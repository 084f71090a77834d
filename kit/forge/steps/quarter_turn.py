"""Turn the bar a quarter round on the anvil."""

from typing import ClassVar, Literal

from kit.basics.declare import quantity
from kit.forge.steps.base import Points, Size, Step
from kit.forge.steps.tally import Layers, Tally


class QuarterTurn(Step):
    """Turn the bar about its length by quarters, top towards +y.

    One quarter turn sets a flat stack on edge. Nothing is deformed; the hammer and
    the next steps simply meet another face. Leaves out: nothing.
    """

    step: Literal["quarter turn"] = "quarter turn"
    quarters: int = quantity(
        "Quarter turns", "about the bar's length", low=0, high=3, default=1
    )

    order = 60
    keeps = Layers.TILTED
    takes = ""
    done_at = ()
    nothing: ClassVar[dict] = {"quarters": 0}
    says = " it, {quarters} times"
    makes = "Nothing moves inside: what lay flat stands on edge after an odd quarter."

    def size_after(self, size: Size) -> Size:
        """Width and thickness change places on odd quarters, of an oval too."""
        if self.quarters % 2:
            return type(size)(size.length, size.thickness, size.width)
        return size

    def do(self, points: Points, size: Size) -> Points:
        """Turn forwards."""
        return _turned(points, self.quarters)

    def undo(self, points: Points, size: Size) -> Points:
        """Turn back."""
        return _turned(points, -self.quarters % 4)

    def turns_over(self, before: Tally) -> bool:
        """Half a turn since the layers last lay flat."""
        return before.even and (before.rolled + self.quarters) % 4 == 2

    def tally(self, before: Tally, size: Size) -> Tally:
        """Set the layers on edge, or flat again; count nothing new."""
        if self.turns_over(before):
            return before._replace(rolled=0, pieces=before.pieces.turned_over())
        return before._replace(rolled=(before.rolled + self.quarters) % 4)


def _turned(points: Points, quarters: int) -> Points:
    x, y, z = points
    if quarters == 1:
        return x, z, -y
    if quarters == 2:
        return x, -y, -z
    if quarters == 3:
        return x, -z, y
    return x, y, z
