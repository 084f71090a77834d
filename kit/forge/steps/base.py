"""What every forging step is: two formulas, one the exact undoing of the other.

Axes, for every step and surface:

    x  along the bar, from 0 at the left end to the length
    y  across the bar, 0 on its axis, from -width/2 to +width/2
    z  through the thickness, 0 on its axis, from -thickness/2 to +thickness/2

Points are three arrays ``x, y, z`` of one shape, in mm. A step never changes the
arrays it was given.
"""

import math
from abc import abstractmethod
from enum import Enum
from inspect import isabstract
from typing import Any, ClassVar, NamedTuple

import numpy as np
from pydantic import Field

from kit.basics.declare import Declared, quantity
from kit.basics.errors import KitError
from kit.forge.steps.tally import Layers, Tally

Points = tuple[np.ndarray, np.ndarray, np.ndarray]
UPSET = "upset"


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


class Place(Enum):
    """Where in the shop a step is done, by its letter on a card: what to wear there."""

    FIRE = "F"
    SAW = "S"
    GRINDER = "G"


class Heat(Declared):
    """Time in the fire before a step; for a weld, with the pieces laid together.

    Leaves out: heating up and cooling down, and that the middle of a bar is behind its
    faces. The minutes are those at the full temperature.

    Examples
    --------
    >>> Heat(celsius=1150, minutes=5).minutes
    5.0
    """

    celsius: float = quantity(
        "Temperature", "of the whole bar", low=700, high=1500, unit="°C"
    )
    minutes: float = quantity(
        "Minutes hot", "at that temperature", low=0, high=10_000, unit="min"
    )


class Step(Declared):
    """One thing done to a bar, frozen.

    A new step gives `do` and `undo` (and `size_after` if the size changes) and
    declares what stands below; the checks that every step must pass are in
    tests/test_laws.py.

    Attributes
    ----------
    order : int
        Its place in the order in which a shop works; among the steps it may be shared.
    keeps : Layers
        What it does to layers that lay flat.
    takes : str
        How steel is ground or cut away by it; no letter where none is.
    done_at : tuple of Place
        What a smith must be protected from.
    nothing : dict or None
        The values with which it leaves a bar as it was, each a value or what gives it
        from the bar's size; None where there are none: a hinge is open or shut.
    says : str
        How a sentence goes on after the step's name, each value in brackets:
        " it, one turn in {turn_length}"; left out, it is made of the values' titles.
    makes : str
        What it does to the layers, one sentence, where `keeps` says too little.
    usual : dict
        What a smith would begin with where no default is declared, each a value or what
        gives it from the bar's size.
    """

    step: str = Field(title="Step", description="its name in a recipe")
    heat: Heat | None = Field(
        default=None, title="Heat", description="a Heat: how hot, how many minutes"
    )

    order: ClassVar[int]
    keeps: ClassVar[Layers]
    takes: ClassVar[str]
    done_at: ClassVar[tuple[Place, ...]]
    nothing: ClassVar[dict[str, Any] | None]
    folds_over: ClassVar[bool] = False  # lays part of the bar on itself, upside down
    # Its values are what a smith works to; not if the bar's size says them, or chance does.
    to_measure: ClassVar[bool] = True
    says: ClassVar[str] = ""
    makes: ClassVar[str] = ""
    usual: ClassVar[dict[str, Any]] = {}

    @classmethod
    def __pydantic_init_subclass__(cls, **options: Any) -> None:
        """Refuse a step that does not declare all that is told of steps."""
        super().__pydantic_init_subclass__(**options)
        names = ("order", "keeps", "takes", "done_at", "nothing")
        missing = [name for name in names if not hasattr(cls, name)]
        if missing and not isabstract(cls):
            msg = f"{cls.__name__} must declare {', '.join(missing)}: see Step."
            raise TypeError(msg)

    @property
    def said(self) -> dict[str, Any]:
        """What must be said of it: ways and sides always, numbers if they are not usual."""
        unusual = self.model_dump(exclude_defaults=True)
        return {
            name: value
            for name, value in self
            if name not in ("step", "heat") and (name in unusual or isinstance(value, str))
        }

    def named(self, _before: Size) -> str:
        """Give the trade's word for what it does to a bar of this size."""
        return self.step

    @property
    def leaves(self) -> int:
        """How many times the old bar lies on itself afterwards."""
        return 1

    def size_after(self, size: Size) -> Size:
        """Give the bar's size after this step, from its size before (mm).

        Raises
        ------
        KitError
            When a bar of this size cannot take the step.
        """
        return size

    @property
    def joins(self) -> bool:
        """Whether it welds pieces together: it can tell them apart, with `piece`."""
        return type(self).piece is not Step.piece

    def refuse_round(self, size: Size) -> None:
        """Refuse a round bar, for steps that need flat faces."""
        if size.round:
            msg = f"A round bar cannot take the step '{self.step}': square it up first."
            raise KitError(msg)

    def refuse_flat(self, size: Size) -> None:
        """Refuse all but a round bar, for steps that turn about the axis."""
        if not (size.round and size.even):
            msg = (
                f"In this kit a bar must be round for '{self.step}': round it up first. "
                f"Given: a bar {size.width:.1f} × {size.thickness:.1f} mm."
            )
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
        return False

    def tally(self, before: Tally, size: Size) -> Tally:
        """Count layers and bands after the step, from those before and the size before."""
        return before.bent(self.keeps)

    def piece(self, points: Points, size: Size) -> np.ndarray | int:
        """Tell which of the pieces that the step welds together each point lies in.

        `points` are those of the bar after the step. Whole numbers from 0; one number
        for all where the step lays nothing together.
        """
        return 0


def side_of(height: np.ndarray) -> np.ndarray:
    """Give 1 where a height is zero or above and -1 below it; quicker than np.sign."""
    side = (height >= 0).astype(height.dtype)
    side *= 2
    side -= 1
    return side
