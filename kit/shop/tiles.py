"""Slices off the end of a block, laid flat in a row and welded: end grain as a face."""

from __future__ import annotations

from functools import cached_property
from typing import ClassVar

import numpy as np
from pydantic import Field, model_validator

from kit.basics.errors import KitError
from kit.forge.bundle import MOST_BARS, Bundle
from kit.forge.steps import Points


class Tiles(Bundle):
    """A bar whose face is the end of its blocks, one after another along it.

    Parameters
    ----------
    bars : tuple of Billet
        1 to 16 blocks; each gives a slice of its middle, its height along the bar.
    slice : float
        How thick the slices are sawn, mm; the width of the saw is left out.

    Raises
    ------
    KitError
        Too many blocks, a round one, or one that is not so long as the slice.
    """

    known_by: ClassVar[str] = ""  # no recipe holds one

    slice: float = Field(gt=0, title="Slice", description="how thick it is sawn off, mm")

    @model_validator(mode="after")
    def _fits(self) -> Tiles:
        if not 1 <= len(self.bars) <= MOST_BARS:
            msg = f"There must be from 1 to {MOST_BARS} tiles. Given: {len(self.bars)}."
            raise KitError(msg)
        short = min(bar.size.length for bar in self.bars)
        if short < self.slice or any(bar.size.round for bar in self.bars):
            msg = (
                f"Tiles are sawn off square blocks at least {self.slice:g} mm long. "
                f"Given: one of {short:.4g} mm."
            )
            raise KitError(msg)
        return self

    @property
    def length(self) -> float:
        """Of all tiles together, mm."""
        return sum(bar.size.thickness for bar in self.bars)

    @property
    def width(self) -> float:
        """Of the narrowest block, mm."""
        return min(bar.size.width for bar in self.bars)

    @property
    def thickness(self) -> float:
        """Of a slice, mm."""
        return self.slice

    def which(self, points: Points) -> np.ndarray:
        """Tell in which tile each point lies: 0 the first."""
        return np.searchsorted(self._edges[1:-1], points[0], side="right")

    def own(self, index: int, points: Points) -> Points:
        """Count points of the bar in the axes of one of its blocks, laid down."""
        x, y, z = points
        block = self.bars[index].size
        along = self._edges[index] + block.thickness / 2
        return x.dtype.type(block.length / 2) - z, y, x - x.dtype.type(along)

    @cached_property
    def _edges(self) -> np.ndarray:
        """Where tiles begin and end along the bar, mm."""
        return np.cumsum([0.0, *(bar.size.thickness for bar in self.bars)])
