"""Draw out: the same metal in a new section."""

from operator import attrgetter
from typing import ClassVar, Literal

from kit.basics.declare import quantity
from kit.forge.steps.base import UPSET, Place, Points, Size, Step
from kit.forge.steps.tally import Layers


class DrawOut(Step):
    """Forge the bar to a new thickness (and width); its length follows.

    Every part of the bar is stretched alike: x, y and z are each multiplied by one
    number, and the three numbers multiply to 1. A section larger than before is
    upsetting; the arithmetic is the same.

    Leaves out: bulging sides, fish-mouthed ends, scale. Volume constancy is
    common to every text on forging (Groover, *Fundamentals of Modern
    Manufacturing*, bulk forming).

    Examples
    --------
    >>> DrawOut(thickness=12).size_after(Size(150, 38, 32))
    Size(length=400.0, width=38, thickness=12.0)
    """

    step: Literal["draw out"] = "draw out"
    thickness: float = quantity(
        "Draw to thickness", "of the bar afterwards", low=0.5, high=200, unit="mm"
    )
    width: float | None = quantity(
        "Draw to width", "of the bar afterwards; left out, the width is held", low=1,
        high=500, unit="mm", default=None,
    )  # fmt: skip

    order = 10
    to_measure = False
    keeps = Layers.FLAT
    takes = ""
    done_at = (Place.FIRE,)
    nothing: ClassVar[dict] = {
        "thickness": attrgetter("thickness"),
        "width": attrgetter("width"),
    }
    says = " the bar to {thickness} thick, width {width}"
    usual: ClassVar[dict] = {"thickness": lambda size: size.thickness / 2}

    def named(self, before: Size) -> str:
        """Draw out, upset, spread: by what becomes longer."""
        after = self.size_after(before)
        if after.length >= before.length * (1 - 1e-9):
            return self.step
        if after.thickness <= before.thickness:
            return "spread"
        stands = after.thickness > max(after.length, after.width)
        return "draw out on end" if stands else UPSET

    def size_after(self, size: Size) -> Size:
        """Keep the volume: length follows from the new section. Round becomes oval."""
        width = size.width if self.width is None else self.width
        length = size.length * size.width * size.thickness / (width * self.thickness)
        return type(size)(length, width, self.thickness)

    def do(self, points: Points, size: Size) -> Points:
        """Stretch and squeeze."""
        along, across, through = self._stretch(size)
        x, y, z = points
        return x * along, y * across, z * through

    def undo(self, points: Points, size: Size) -> Points:
        """Squeeze and stretch back."""
        along, across, through = self._stretch(size)
        x, y, z = points
        return x / along, y / across, z / through

    def _stretch(self, size: Size) -> Size:
        after = self.size_after(size)
        return Size(*(new / old for new, old in zip(after, size, strict=True)))
