"""Upset: shorter and thicker, by blows on the end."""

import math
from operator import attrgetter
from typing import ClassVar, Literal

from kit.basics.declare import quantity
from kit.basics.errors import KitError
from kit.forge.steps.base import UPSET, Place, Points, Size, Step
from kit.forge.steps.tally import Layers


class Upset(Step):
    """Drive the bar together along its length; its section grows alike all round.

    Volume is kept (Groover, *Fundamentals of Modern Manufacturing*, upset forging).
    Leaves out: barrelling, buckling (a bar longer than about three times its
    thickness bends instead; common practice, no source).
    """

    step: Literal["upset"] = UPSET
    length: float = quantity("Upset to", "length afterwards", low=1, high=5000, unit="mm")

    order = 20
    to_measure = False
    keeps = Layers.FLAT
    takes = ""
    done_at = (Place.FIRE,)
    nothing: ClassVar[dict] = {"length": attrgetter("length")}
    says = " it to a length of {length}"
    usual: ClassVar[dict] = {"length": lambda size: size.length / 1.5}

    def size_after(self, size: Size) -> Size:
        """Give the shorter, thicker bar; refuse to make it longer."""
        if self.length > size.length * (1 + 1e-9):
            msg = (
                f"Upsetting makes a bar shorter: at most {size.length:.4g} mm. "
                f"Given: {self.length:g} mm. To make it longer, draw it out."
            )
            raise KitError(msg)
        more = math.sqrt(size.length / self.length)
        return type(size)(self.length, size.width * more, size.thickness * more)

    def do(self, points: Points, size: Size) -> Points:
        """Squeeze along, swell across."""
        shrink = self.length / size.length
        x, y, z = points
        return x * shrink, y / math.sqrt(shrink), z / math.sqrt(shrink)

    def undo(self, points: Points, size: Size) -> Points:
        """Stretch along, shrink across."""
        shrink = self.length / size.length
        x, y, z = points
        return x / shrink, y * math.sqrt(shrink), z * math.sqrt(shrink)
