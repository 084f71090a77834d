"""Forged bars laid together and welded: a billet of billets."""

from __future__ import annotations

from functools import cached_property
from typing import ClassVar, Literal

import numpy as np
from pydantic import Field, model_validator

from kit.basics.errors import KitError
from kit.forge.billet import Billet
from kit.forge.census import MIXER, Followed
from kit.forge.stack import Source
from kit.forge.steps import Layers, Pieces, Points, Tally

MOST_BARS = 16  # ours: four by four


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
    known_by: ClassVar[str] = "bars"

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
        if self.laid == "side by side":
            most = max(tallies, key=lambda tally: tally.layers)
            return most._replace(lie=Layers.TILTED)
        pieces = [
            tally.pieces.scaled(bar.size.thickness / tally.pieces.height)
            for bar, tally in zip(self.bars, tallies, strict=True)
        ]
        flat = all(tally.flat for tally in tallies)
        wavy = any(tally.lie is Layers.WAVY for tally in tallies)
        lie = (Layers.WAVY if wavy else Layers.FLAT) if flat else Layers.TILTED
        return Tally(Pieces.piled(pieces), lie=lie)

    def bars_of_it(self) -> tuple[Billet, ...]:
        """Give the forged bars that are laid together, in their order."""
        return self.bars

    def which(self, points: Points) -> np.ndarray:
        """Tell in which bar each point lies: 0 the first that was laid."""
        return np.searchsorted(self._edges[1:-1], points[self._axis], side="right")

    def own(self, index: int, points: Points) -> Points:
        """Count points of the bundle in the axes of one of its bars."""
        axis, own = self._axis, list(points)
        middle = (self._edges[index] + self._edges[index + 1]) / 2
        own[axis] = points[axis] - points[axis].dtype.type(middle)
        return tuple(own)

    def follow(self, points: Points) -> Followed:
        """Tell which piece of which bar lies at each point; see Billet.follow."""
        which = self.which(points)
        found = Followed(
            which.astype(np.uint64), np.zeros(which.shape, int), np.zeros(which.shape)
        )
        before = 0  # stacks of the bars before
        for index, bar in enumerate(self.bars):
            mine = which == index
            inner = bar.follow(self.own(index, tuple(part[mine] for part in points)))
            found.piece[mine] += inner.piece * MIXER
            found.source[mine] = inner.source + before
            found.height[mine] = inner.height
            before += len(bar.laid)
        return found

    @property
    def _axis(self) -> int:
        return 1 if self.laid == "side by side" else 2

    @cached_property
    def _edges(self) -> np.ndarray:
        """Where the bars begin and end across the bundle, mm."""
        breadths = [bar.size[self._axis] for bar in self.bars]
        return np.cumsum([0.0, *breadths]) - sum(breadths) / 2
