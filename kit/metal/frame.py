"""A frame for charts: numbers become places on a sheet, and nobody maps them by hand.

A chart says once where its field lies and what its sides stand for. What is drawn in it
is then told in its own numbers, per cent and °C and mm, never in pixels.
"""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Any

from kit.section.picture import Sheet

Pair = tuple[float, float]


@dataclass(frozen=True, kw_only=True)
class Frame:
    """A field of a sheet.

    Parameters
    ----------
    sheet : Sheet
    corner, opposite : (float, float)
        Its upper left and lower right, pixels.
    across, up : (float, float)
        What its left and its right side stand for, and its foot and its top, in any unit.
        The first may be the larger, where numbers run the other way.

    Examples
    --------
    >>> from kit.section.picture import Sheet
    >>> frame = Frame(
    ...     sheet=Sheet(200, 100), corner=(0, 0), opposite=(200, 100), across=(0, 2)
    ... )
    >>> frame.at(1, 0.25)
    (100.0, 75.0)
    """

    sheet: Sheet
    corner: Pair
    opposite: Pair
    across: Pair = (0.0, 1.0)
    up: Pair = (0.0, 1.0)

    def x(self, value: float) -> float:
        """Give the column of a number on the side that runs to the right."""
        start, end = self.across
        left, right = self.corner[0], self.opposite[0]
        return left + (right - left) * (value - start) / (end - start)

    def y(self, value: float) -> float:
        """Give the row of a number on the side that runs up."""
        least, most = self.up
        top, low = self.corner[1], self.opposite[1]
        return low - (low - top) * (value - least) / (most - least)

    def at(self, across: float, up: float) -> Pair:
        """Give the pixels of a point, which is in the chart's own units."""
        return self.x(across), self.y(up)

    def curve(self, across: Iterable[float], up: Iterable[float], **look: Any) -> None:
        """Draw a line through points in the chart's own units; `look` as `Sheet.line`."""
        places = [self.at(float(x), float(y)) for x, y in zip(across, up, strict=True)]
        self.sheet.line(places, **look)

    def box(self, across: Pair | None = None, up: Pair | None = None, **look: Any) -> None:
        """Draw a box between numbers to the right and up; round the field, if left out."""
        left, right = across or self.across
        low, top = up or self.up
        self.sheet.box(self.at(left, top), self.at(right, low), **look)

    def scale_below(
        self, values: Iterable[float], write: Callable[[float], str] = "{:g}".format
    ) -> None:
        """Mark numbers under the foot and write them there."""
        foot = self.opposite[1]
        for value in values:
            x = self.x(value)
            self.sheet.line([(x, foot), (x, foot + 6)], width=2)
            self.sheet.text(write(value), (x, foot + 12), size=18, anchor="ma")

    def scale_left(
        self, values: Iterable[float], write: Callable[[float], str] = "{:g}".format
    ) -> None:
        """Mark numbers beside the left side and write them there."""
        left = self.corner[0]
        for value in values:
            y = self.y(value)
            self.sheet.line([(left - 6, y), (left, y)], width=2)
            self.sheet.text(write(value), (left - 12, y), size=18, anchor="rm")
