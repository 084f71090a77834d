"""A blade in the bar it is ground from: from its side, from above, and sawn across."""

from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

import numpy as np

from kit.basics.errors import KitError
from kit.forge.steps import Points
from kit.section.blade_view import BladeView, Frame, filled
from kit.section.surface import Look, Moved

FINE = 1e-3  # mm: smaller pixels ask for double precision to know which way they lean


@dataclass(frozen=True, kw_only=True)
class Blade(BladeView):
    """One side of a blade, seen square on; the other numbers as in `BladeView`.

    Parameters
    ----------
    side : str
        "right" or "left" as the hand holds it, edge down: the tip points to the right
        or to the left.
    centre : (x, y), optional
    """

    side: Literal["right", "left"] = "right"

    @property
    def frame(self) -> Frame:
        """How the picture stands in the bar."""
        hand, (along, across) = self._hand, self.centre
        through = hand * self.size.thickness / 2
        return Frame((along, across, through), (hand, 0.0, 0.0), (0.0, 1.0, 0.0))

    def leans(self) -> tuple[np.ndarray, np.ndarray]:
        """Say how steeply the steel rises towards the eye, to the right and up, mm a mm.

        From the heights of the neighbours, so that the top line of a bevel is as soft
        as the picture is coarse.
        """
        dtype = np.float32 if self.pixel > FINE else np.float64
        height = self._height(-1, self.rows + 1, dtype)
        right = height[1:-1, 2:] - height[1:-1, :-2]
        up = height[:-2, 1:-1] - height[2:, 1:-1]
        return right / dtype(2 * self.pixel), up / dtype(2 * self.pixel)

    @property
    def _hand(self) -> float:
        return {"right": 1.0, "left": -1.0}[self.side]

    @property
    def _extent(self) -> tuple[float, float]:
        return self.grind.outline.length, self.grind.outline.height

    @lru_cache(maxsize=3)  # noqa: B019  (blades are seen, and then how they lean)
    def _height(self, first: int, last: int, dtype: type) -> np.ndarray:
        right, up = self._grid(first, last)
        above = (up + self.grind.outline.height / 2).astype(dtype)
        return self.grind.half(self._hand * right - self.heel, above)

    def _points(self, first: int, last: int, dtype: type) -> Points:
        right, up = self._grid(first, last)
        z = self._height(first, last, dtype) * dtype(self._hand)
        x = np.broadcast_to((self._hand * right).astype(dtype), z.shape)
        return x, np.broadcast_to(up.astype(dtype), z.shape), z

    def _cover(self, right: np.ndarray, up: np.ndarray, dtype: type) -> np.ndarray:
        outline = self.grind.outline
        along, above = self._hand * right - self.heel, up + outline.height / 2
        edge, spine = outline.edge(along), outline.spine(along)
        square = (1 / np.hypot(1, line.slope) for line in (edge, spine))
        low, high = (part.astype(dtype) for part in square)
        above = above.astype(dtype)
        low = (above - edge.above.astype(dtype)) * low
        high = (spine.above.astype(dtype) - above) * high
        ends = filled(along, outline.length - along, self.pixel).astype(dtype)
        return filled(low, high, self.pixel) * ends


@dataclass(frozen=True, kw_only=True)
class Spine(BladeView):
    """The back of a blade from straight above; the other numbers as in `BladeView`.

    The tip points to the right, the blade's left side is up.

    Parameters
    ----------
    centre : (x, z), optional
    """

    @property
    def frame(self) -> Frame:
        """How the picture stands in the bar."""
        along, through = self.centre
        back = self.size.width / 2
        return Frame((along, back, through), (1.0, 0.0, 0.0), (0.0, 0.0, -1.0))

    def leans(self) -> tuple[np.ndarray, float]:
        """Say how steeply the back rises towards the eye, to the right and up, mm a mm."""
        right, _ = self._grid(0, 1)
        slope = self.grind.outline.spine(right[1:-1] - self.heel).slope
        return slope[None].astype(np.float32), 0.0

    @property
    def _extent(self) -> tuple[float, float]:
        return self.grind.outline.length, self.grind.spine

    def _points(self, first: int, last: int, dtype: type) -> Points:
        (right, up), outline = self._grid(first, last), self.grind.outline
        y = outline.spine(right - self.heel).above - outline.height / 2
        shape = len(up), len(right)
        return tuple(np.broadcast_to(part.astype(dtype), shape) for part in (right, y, -up))

    def _cover(self, right: np.ndarray, up: np.ndarray, dtype: type) -> np.ndarray:
        outline, along = self.grind.outline, right - self.heel
        half = self.grind.half(along, outline.spine(along).above)
        ends = filled(along, outline.length - along, self.pixel)
        return (filled(half + up, half - up, self.pixel) * ends).astype(dtype)


@dataclass(frozen=True, kw_only=True)
class Section(BladeView):
    """A blade sawn square across, edge down; the other numbers as in `BladeView`.

    The eye looks from the heel to the tip: the blade's right side is to the right.

    Parameters
    ----------
    at : float
        Where it is sawn, mm from the heel.
    centre : (z, y), optional
    """

    at: float

    def __post_init__(self) -> None:
        length = self.grind.outline.length
        if not 0 <= self.at <= length:
            msg = f"The section must lie from 0 to {length:g} mm. Given: {self.at:g} mm."
            raise KitError(msg)
        super().__post_init__()

    @property
    def frame(self) -> Frame:
        """How the picture stands in the bar."""
        through, across = self.centre
        centre = (self.heel + self.at, across, through)
        return Frame(centre, (0.0, 0.0, 1.0), (0.0, 1.0, 0.0))

    @property
    def _home(self) -> tuple[float, float]:
        return 0.0, 0.0

    @property
    def _extent(self) -> tuple[float, float]:
        return self.grind.spine, self.grind.outline.height

    def _points(self, first: int, last: int, dtype: type) -> Points:
        right, up = self._grid(first, last)
        shape, x = (len(up), len(right)), np.full(1, self.heel + self.at)
        return tuple(np.broadcast_to(part.astype(dtype), shape) for part in (x, up, right))

    def _cover(self, right: np.ndarray, up: np.ndarray, dtype: type) -> np.ndarray:
        outline, above = self.grind.outline, up + self.grind.outline.height / 2
        half = self.grind.half(np.full(1, self.at), above)
        low = above - outline.edge(self.at).above
        high = outline.spine(self.at).above - above
        inside = filled(half + right, half - right, self.pixel)
        return (inside * filled(low, high, self.pixel)).astype(dtype)


@dataclass(frozen=True)
class Turned(Moved):
    """A view of a blade, turned on the sheet by quarter turns to the left."""

    surface: BladeView
    quarters: int

    @property
    def columns(self) -> int:
        """Pixels across."""
        return self.surface.rows if self.quarters % 2 else self.surface.columns

    @property
    def rows(self) -> int:
        """Pixels down."""
        return self.surface.columns if self.quarters % 2 else self.surface.rows

    def look(self, first: int, last: int, dtype: type = np.float32) -> Look:
        """See some rows, with a margin, of the turned picture."""
        whole = self.surface.look(-1, self.surface.rows + 1, dtype)
        shape = whole.cover.shape
        rows = slice(first + 1, last + 1)
        x, y, z, cover = (
            np.rot90(np.broadcast_to(part, shape), self.quarters)[rows]
            for part in (*whole.points, whole.cover)
        )
        return Look((x, y, z), cover, whole.light)

    def leans(self) -> tuple[np.ndarray | float, np.ndarray | float]:
        """Give how steeply the steel rises to the right and up, mm a mm; a sawn face: 0."""
        right, up = self.surface.leans()
        if self.quarters != 2:
            return 0.0, 0.0
        return -np.rot90(right, 2), -np.rot90(up, 2)

    def place(self, point: tuple[float, float, float]) -> tuple[float, float]:
        """Give the picture's column and row of a point of the bar."""
        column, row = self.surface.place(point)
        width, height = self.surface.columns, self.surface.rows
        for _ in range(self.quarters % 4):
            column, row, width, height = row, width - 1 - column, height, width
        return column, row
