"""Forged bars laid together and welded: a billet of billets."""

from __future__ import annotations

from itertools import pairwise
from typing import ClassVar, Literal

import numpy as np
from pydantic import Field, model_validator

from kit.billet import Billet
from kit.errors import KitError
from kit.stack import Source
from kit.steps import Points, Tally

MOST_BARS = 16


class Bundle(Source):
    """Bars side by side or stacked, each with its own steels, history and twist.

    It takes the place of a stack: ``Billet(source=Bundle(bars=(one, other)))``.

    Parameters
    ----------
    bars : tuple of Billet
        2 to 16, side by side from -y to +y, or stacked from the bottom up.
    laid : str
        "side by side" or "stacked".

    Raises
    ------
    KitError
        If the bars do not fit together: round ones, or unequal lengths, or unequal
        thickness side by side, or unequal width stacked (more than 1 %).
    """

    SLACK: ClassVar[float] = 0.01

    bars: tuple[Billet, ...] = Field(title="Bars", description="a tuple of billets")
    laid: Literal["side by side", "stacked"] = "side by side"

    @model_validator(mode="after")
    def _fits(self) -> Bundle:
        if not 2 <= len(self.bars) <= MOST_BARS:
            msg = f"A bundle must have from 2 to {MOST_BARS} bars. Given: {len(self.bars)}."
            raise KitError(msg)
        if any(bar.size.round for bar in self.bars):
            msg = "Round bars do not fit together: square them up first."
            raise KitError(msg)
        across = "thickness" if self.laid == "side by side" else "width"
        for name in ("length", across):
            sizes = [getattr(bar.size, name) for bar in self.bars]
            if max(sizes) > (1 + self.SLACK) * min(sizes):
                given = ", ".join(f"{size:.4g}" for size in sizes)
                msg = (
                    f"Bars must have one {name} to be laid {self.laid}. Given: {given} mm."
                )
                raise KitError(msg)
        return self

    @property
    def length(self) -> float:
        """Of the shortest bar, mm."""
        return min(bar.size.length for bar in self.bars)

    @property
    def width(self) -> float:
        """Of all together, mm."""
        widths = [bar.size.width for bar in self.bars]
        return sum(widths) if self.laid == "side by side" else min(widths)

    @property
    def thickness(self) -> float:
        """Of all together, mm."""
        heights = [bar.size.thickness for bar in self.bars]
        return min(heights) if self.laid == "side by side" else sum(heights)

    @property
    def steels(self) -> tuple[str, ...]:
        """All grades, bar after bar."""
        return tuple(name for bar in self.bars for name in bar.source.steels)

    @property
    def tally(self) -> Tally:
        """Layers of all bars if they lie stacked; bars side by side add none."""
        tallies = [bar.tally for bar in self.bars]
        even = self.laid == "stacked" and all(tally.flat for tally in tallies)
        if self.laid == "side by side":
            return max(tallies)._replace(even=False)
        joints = sum(one.top == other.bottom for one, other in pairwise(tallies))
        return Tally(
            sum(tally.layers for tally in tallies),
            sum(tally.bands for tally in tallies) - joints,
            tallies[0].bottom,
            tallies[-1].top,
            even=even,
        )

    @property
    def thinnest(self) -> float:
        """The thinnest layer of any bar, as a share of the thickness."""
        return min(bar.thinnest_layer for bar in self.bars) / self.thickness

    def places(self, points: Points) -> list[tuple[Billet, Points, np.ndarray]]:
        """Tell, for each bar: the points counted in its own axes, and which are its own."""
        axis = 1 if self.laid == "side by side" else 2
        breadths = [bar.size[axis] for bar in self.bars]
        edges = np.cumsum([0.0, *breadths]) - sum(breadths) / 2
        found = []
        for index, bar in enumerate(self.bars):
            own = list(points)
            own[axis] = points[axis] - (edges[index] + edges[index + 1]) / 2
            mine = np.ones(points[axis].shape, bool)
            if index:
                mine &= points[axis] >= edges[index]
            if index < len(self.bars) - 1:
                mine &= points[axis] < edges[index + 1]
            found.append((bar, tuple(own), mine))
        return found
