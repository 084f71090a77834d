"""What a straight line through flat layers meets, counted and never listed one by one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from enum import Enum
from itertools import pairwise
from typing import NamedTuple

NOTHING = 1e-9  # share of the height: a sliver thinner than that is a rounding


class Layers(Enum):
    """What a step does to layers that lay flat before it."""

    FLAT = "stay flat, parallel to the faces"
    GROUND = "stay where they are, but faces may be taken off"
    WAVY = "wave inside, but the two faces stay layer faces"
    TILTED = "no longer lie along the faces"


@dataclass(frozen=True)
class Pieces:
    """Pieces of steel lying on each other, bottom first.

    A folded bar is made of its halves and these of theirs, so a pile of a million
    layers is twenty small objects.

    Attributes
    ----------
    height : float
        Of all together, in any unit: mm of the stack as it was laid.
    layers, bands : int
        Pieces of steel, and stripes that exist: like steel on like is one.
    bottom, top : str
        The steel of the lowest and of the highest piece.
    thinnest : float
        The thinnest piece, in the unit of the height.
    """

    height: float
    layers: int
    bands: int
    bottom: str
    top: str
    thinnest: float
    parts: tuple[Pieces, ...] = field(default=(), compare=False, repr=False)
    upside_down: bool = field(default=False, compare=False)  # parts the other way round

    @classmethod
    def one(cls, steel: str, height: float) -> Pieces:
        """Begin with a single bar, so high in mm: one layer, one band."""
        return cls(height, 1, 1, steel, steel, height)

    @classmethod
    def piled(cls, parts: Sequence[Pieces]) -> Pieces:
        """Lay pieces on each other, bottom first; where like meets like a band is lost."""
        if len(parts) == 1:
            return parts[0]
        joints = sum(one.top == other.bottom for one, other in pairwise(parts))
        return cls(
            height=sum(part.height for part in parts),
            layers=sum(part.layers for part in parts),
            bands=sum(part.bands for part in parts) - joints,
            bottom=parts[0].bottom,
            top=parts[-1].top,
            thinnest=min(part.thinnest for part in parts),
            parts=tuple(parts),
        )

    def turned_over(self) -> Pieces:
        """Lay the top at the bottom."""
        return replace(
            self, bottom=self.top, top=self.bottom, upside_down=not self.upside_down
        )

    def scaled(self, by: float) -> Pieces:
        """Make all pieces thicker alike, by a factor."""
        return replace(self, height=self.height * by, thinnest=self.thinnest * by)

    def ground(self, bottom: float, top: float) -> Pieces:
        """Grind shares of the height, 0 … 1, off the bottom and off the top."""
        if self.upside_down:
            return self.turned_over().ground(top, bottom).turned_over()
        if not self.parts:
            left = self.height * (1 - bottom - top)
            return replace(self, height=left, thinnest=left)
        whole = sum(part.height for part in self.parts)
        low, high = bottom * whole, (1 - top) * whole
        left, base = [], 0.0
        for part in self.parts:
            above = base + part.height
            if min(above, high) - max(base, low) > NOTHING * whole:
                off = max(low - base, 0) / part.height, max(above - high, 0) / part.height
                left.append(part.ground(*off) if any(off) else part)
            base = above
        return Pieces.piled(left).scaled(self.height / whole)


class Tally(NamedTuple):
    """Layers counted both ways, through the thickness.

    Attributes
    ----------
    pieces : Pieces
        What lies through the bar; once the layers are tilted, what last did.
    lie : Layers
        FLAT, WAVY, or TILTED: then they can no longer be counted straight through.
    whole : bool
        Whether the faces along the layers are still those of the unfolded pile: nothing
        was ground off them. Only then do later folds go on with one pile (trace.py).
    stacks : int
        How many stacks lie in that pile.
    rolled : int
        Quarter turns since the layers last lay flat: 0, or 1 or 3 while on edge.
    """

    pieces: Pieces
    lie: Layers = Layers.FLAT
    whole: bool = True
    stacks: int = 1
    rolled: int = 0

    @property
    def layers(self) -> int:
        """As the trade counts: pieces of steel, folds multiplied in."""
        return self.pieces.layers

    @property
    def bands(self) -> int:
        """Stripes that exist: like steel that met like steel is one band."""
        return self.pieces.bands

    @property
    def even(self) -> bool:
        """False once the layers can no longer be counted straight through the bar."""
        return self.lie is not Layers.TILTED

    @property
    def flat(self) -> bool:
        """Whether the layers lie along the faces, so that a fold multiplies them."""
        return self.even and self.rolled == 0

    @property
    def opens(self) -> bool:
        """Whether leaves laid on each other now go on with the unfolded pile."""
        return self.flat and self.whole

    def piled(self, leaves: Sequence[Pieces]) -> Tally:
        """Lay leaves of the bar on each other."""
        stacks = self.stacks * len(leaves) if self.opens else self.stacks
        return self._replace(pieces=Pieces.piled(leaves), stacks=stacks)

    def ground(self, bottom: float, top: float) -> Tally:
        """Grind shares of the thickness off the faces along the layers."""
        if not self.even or not (bottom or top):
            return self
        left = self._replace(whole=False, pieces=self.pieces.ground(bottom, top))
        return left._replace(lie=Layers.TILTED) if self.lie is Layers.WAVY else left

    def bent(self, how: Layers) -> Tally:
        """Do to the layers what a step does that keeps them so."""
        if how is Layers.WAVY and self.even:
            return self._replace(lie=Layers.TILTED if self.rolled else Layers.WAVY)
        return self._replace(lie=how) if how is Layers.TILTED else self
