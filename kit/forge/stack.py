"""The bars before the first heat: what lies on what, and how thick."""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Mapping, Sequence
from functools import cached_property
from itertools import pairwise
from typing import Any, ClassVar, NamedTuple

import numpy as np
from pydantic import Field, field_validator

from kit.basics.declare import Declared, quantity
from kit.basics.errors import KitError
from kit.forge.steels import steel as find_steel
from kit.forge.steps import Pieces, Tally

MOST_PIECES = 1000  # ours


class Bars(NamedTuple):
    """So many bars of one steel, all of one thickness, mm."""

    steel: str
    count: int
    thickness: float


# The demo's stack, told here and nowhere else: eleven bars in turn, the thick ones
# outside. The numbers are the kit's own; 1/8 in and 1/16 in are sizes of bought stock.
DEMO_OUTER = Bars("1084", 6, 3.175)
DEMO_INNER = Bars("15N20", 5, 1.5875)


class Layer(Declared):
    """One bar in the stack."""

    steel: str = Field(
        title="Steel", description="the name of a grade in quotes, like '1084'"
    )
    thickness: float = quantity(
        "Thickness of a bar", "as it lies in the stack", low=0.01, high=100, unit="mm"
    )

    @field_validator("steel")
    @classmethod
    def _known(cls, name: str) -> str:
        return find_steel(name).name


class Source(Declared):
    """What a billet begins with: a Stack of plain bars, or a Bundle of forged ones.

    It has a length, width and thickness (mm), the names of its steels, and a first
    count of layers. A kind of source says by which of its values it is known.
    """

    known_by: ClassVar[str] = ""
    kinds: ClassVar[dict[str, type[Source]]] = {}

    @classmethod
    def __pydantic_init_subclass__(cls, **options: Any) -> None:
        """Enter a kind of source, so that a recipe's values find it."""
        super().__pydantic_init_subclass__(**options)
        if cls.known_by:
            Source.kinds[cls.known_by] = cls

    @classmethod
    def of_values(cls, values: Mapping[str, Any]) -> Source:
        """Make the source that these values, as a recipe holds them, are of."""
        kind = next((cls.kinds[name] for name in values if name in cls.kinds), Stack)
        return kind(**values)

    @property
    @abstractmethod
    def steels(self) -> tuple[str, ...]:
        """The grades in it."""

    @property
    @abstractmethod
    def tally(self) -> Tally:
        """Layers and bands before the first step."""

    def bars_of_it(self) -> tuple:
        """Give the forged bars that it is laid of: none for a stack."""
        return ()


class Stack(Source):
    """Bars lying on each other, bottom first, all of one length and width.

    Examples
    --------
    >>> stack = Stack.alternate("1084", "15N20", pieces=11, thickness=(3.175, 1.5875))
    >>> round(stack.thickness, 4)
    26.9875
    >>> stack.layers[0].steel, stack.layers[1].steel
    ('1084', '15N20')
    >>> stack == demo_stack()
    True
    """

    known_by: ClassVar[str] = "layers"

    layers: tuple[Layer, ...] = Field(title="Layers", description="bars, bottom first")
    length: float = quantity(
        "Length of the stack", "along the bars", low=5, high=5000, unit="mm", default=150,
    )  # fmt: skip
    width: float = quantity(
        "Width of the stack", "across the bars", low=2, high=500, unit="mm", default=38.1,
    )  # fmt: skip

    @field_validator("layers")
    @classmethod
    def _enough(cls, layers: tuple[Layer, ...]) -> tuple[Layer, ...]:
        check_pieces(len(layers))
        return layers

    @classmethod
    def alternate(
        cls,
        first: str,
        second: str,
        *,
        pieces: int,
        thickness: float | Sequence[float],
        length: float = 150,
        width: float = 38.1,
    ) -> Stack:
        """Stack two steels in turn, `first` at the bottom.

        Parameters
        ----------
        first, second : str
            Names of grades.
        pieces : int
            How many bars in all, 2 to 1000.
        thickness : float or (float, float)
            Of every bar, or of the first and the second steel's bars, in mm.
        length, width : float
            Of every bar, in mm.

        Raises
        ------
        KitError
            One bar only, too many bars, a steel or size that does not exist.
        """
        check_pieces(pieces)
        pair = thickness if isinstance(thickness, (tuple, list)) else (thickness,) * 2
        if len(pair) != 2:
            msg = f"Thickness must be one number or two, in mm. Given: {thickness}."
            raise KitError(msg)
        bars = (
            Layer(steel=first, thickness=pair[0]),
            Layer(steel=second, thickness=pair[1]),
        )
        layers = tuple(bars[piece % 2] for piece in range(pieces))
        return cls(layers=layers, length=length, width=width)

    @cached_property
    def thickness(self) -> float:
        """Height of the whole stack, mm."""
        return sum(layer.thickness for layer in self.layers)

    @property  # not cached: arrays in its memory would keep two stacks from comparing
    def edges(self) -> np.ndarray:
        """Where each bar begins and ends, as shares of the height: 0 … 1.

        One more entry than there are bars.
        """
        heights = np.cumsum([0.0, *(layer.thickness for layer in self.layers)])
        return heights / heights[-1]

    @property
    def steels(self) -> tuple[str, ...]:
        """The grade of each bar, bottom first."""
        return tuple(layer.steel for layer in self.layers)

    @property
    def bands(self) -> int:
        """Stripes that can be told apart: like bars lying together count as one."""
        names = self.steels
        return 1 + sum(a != b for a, b in pairwise(names))

    @property
    def tally(self) -> Tally:
        """One layer a bar."""
        bars = [Pieces.one(bar.steel, bar.thickness) for bar in self.layers]
        return Tally(Pieces.piled(bars))


def demo_stack(*, length: float = 150, width: float = 38.1) -> Stack:
    """Stack six bars of 1084, 1/8 in thick, and five of 15N20, 1/16 in, in turn.

    The bar that the kit shows wherever nobody chose another. `length` and `width` of
    every bar in mm.

    Examples
    --------
    >>> stack = demo_stack()
    >>> len(stack.layers), round(stack.thickness, 4)
    (11, 26.9875)
    """
    return Stack.alternate(
        DEMO_OUTER.steel,
        DEMO_INNER.steel,
        pieces=DEMO_OUTER.count + DEMO_INNER.count,
        thickness=(DEMO_OUTER.thickness, DEMO_INNER.thickness),
        length=length,
        width=width,
    )


def check_pieces(pieces: int) -> None:
    """Refuse a stack that is no stack, with one sentence."""
    if not isinstance(pieces, (int, np.integer)) or not 2 <= pieces <= MOST_PIECES:
        msg = (
            f"A stack must have from 2 to {MOST_PIECES} bars, a whole number. "
            f"Given: {str(pieces)[:40]}."
        )
        raise KitError(msg)
