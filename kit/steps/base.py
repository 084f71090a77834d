"""What every forging step is: two formulas, one the exact undoing of the other.

Axes, for every step and surface:

    x  along the bar, from 0 at the left end to the length
    y  across the bar, 0 on its axis, from -width/2 to +width/2
    z  through the thickness, 0 on its axis, from -thickness/2 to +thickness/2

Points are three arrays ``x, y, z`` of one shape, in mm. A step never changes the
arrays it was given.
"""

from __future__ import annotations

import math
from abc import abstractmethod
from enum import Enum
from typing import ClassVar, NamedTuple

import numpy as np
from pydantic import Field

from kit.declare import Declared
from kit.errors import KitError
from kit.steps.heat import Heat

Points = tuple[np.ndarray, np.ndarray, np.ndarray]


class Size(NamedTuple):
    """A bar's length, width and thickness, mm."""

    length: float
    width: float
    thickness: float

    @property
    def round(self) -> bool:
        """Whether the section is a circle or an oval (see RoundSize)."""
        return False

    @property
    def even(self) -> bool:
        """Whether width and thickness are the same, within 2 %."""
        return abs(self.width - self.thickness) <= 0.02 * self.thickness

    @property
    def volume(self) -> float:
        """Volume, mm³."""
        return self.length * self.width * self.thickness


class RoundSize(Size):
    """The size of a round bar; forged flat, an oval one as wide and thick as it says."""

    __slots__ = ()

    @property
    def round(self) -> bool:
        """A circle, or an oval."""
        return True

    @property
    def volume(self) -> float:
        """Volume, mm³."""
        return math.pi / 4 * self.width * self.thickness * self.length


class Layers(Enum):
    """What a step does to layers that lay flat before it."""

    FLAT = "stay flat, parallel to the faces"
    WAVY = "wave inside, but the two faces stay layer faces"
    TILTED = "no longer lie along the faces"


class Tally(NamedTuple):
    """Layers counted both ways, through the thickness.

    Attributes
    ----------
    layers : int
        As the trade counts: pieces of steel, folds multiplied in.
    bands : int
        Stripes that exist: like steel that met like steel is one band.
    bottom, top : str
        The steel on the two faces.
    rolled : int
        Quarter turns since the layers last lay flat: 0, or 1 or 3 while on edge.
    even : bool
        False once the layers can no longer be counted straight through the bar.
    """

    layers: int
    bands: int
    bottom: str
    top: str
    rolled: int = 0
    even: bool = True

    @property
    def flat(self) -> bool:
        """Whether the layers lie along the faces, so that a fold multiplies them."""
        return self.even and self.rolled == 0


class Step(Declared):
    """One thing done to a bar, frozen.

    A new step gives `do` and `undo` (and `size_after` if the size changes); the
    checks that every step must pass are in tests/test_laws.py.
    """

    step: str = Field(title="Step", description="its name in a recipe")
    heat: Heat | None = Field(
        default=None, title="Heat", description="a Heat: how hot, how many minutes"
    )

    keeps: ClassVar[Layers] = Layers.TILTED
    folds_over: ClassVar[bool] = False  # lays part of the bar on itself, upside down
    keeps_volume: ClassVar[bool] = True  # wherever metal is moved
    wastes: ClassVar[bool] = False  # some of it is ground or cut off afterwards

    @property
    def leaves(self) -> int:
        """How many times the old bar lies on itself afterwards."""
        return 1

    def size_after(self, size: Size) -> Size:
        """Give the bar's size after this step, from its size before (mm).

        Raises
        ------
        KitError
            When a bar of this size can not take the step.
        """
        return size

    def refuse_round(self, size: Size) -> None:
        """Refuse a round bar, for steps that need flat faces."""
        if size.round:
            doing = type(self).__name__.lower()
            msg = f"A round bar can not take the step '{doing}': square it up first."
            raise KitError(msg)

    @abstractmethod
    def do(self, points: Points, size: Size) -> Points:
        """Move points of the bar as the step moves the metal.

        `size` is the bar's size *before* the step.
        """

    @abstractmethod
    def undo(self, points: Points, size: Size) -> Points:
        """Give back where the metal at these points was before the step.

        `size` is the bar's size *before* the step, as in `do`.
        """

    def leaf(
        self, points: Points, size: Size, copies: int
    ) -> tuple[np.ndarray | int, np.ndarray | int]:
        """Tell which leaf of a folded bar each point lies in, and which way up.

        Only for steps with more than one leaf; see trace.py. Gives (sign, shift):
        height counted through the whole new pile, in old piles of `copies` stacks,
        is ``sign * (height in the old bar) + shift``.
        """
        raise NotImplementedError

    def turns_over(self, before: Tally) -> bool:
        """Tell whether flat layers lie upside down after the step."""
        del before
        return False

    def tally(self, before: Tally) -> Tally:
        """Count layers and bands after the step."""
        spoilt = self.keeps is Layers.TILTED or (
            self.keeps is Layers.WAVY and before.rolled != 0
        )
        return before._replace(even=before.even and not spoilt)


def side_of(height: np.ndarray) -> np.ndarray:
    """Give 1 where a height is zero or above and -1 below it; quicker than np.sign."""
    side = (height >= 0).astype(height.dtype)
    side *= 2
    side -= 1
    return side
