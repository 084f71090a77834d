"""Bars as they are bought: flat layers, and every pattern that the trade names.

A twist, a ladder and a raindrop are made of as many layers as the seller tells; all other
patterns as `patterns.py` forges them, then forged to the bar's size. Beside them a bar sold
for a forged one, its pattern only skin deep.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property, lru_cache, partial
from typing import ClassVar, NamedTuple

import numpy as np
from pydantic import Field, model_validator

from kit.basics.claim import Claim, Kind
from kit.basics.declare import Declared, quantity
from kit.basics.errors import KitError
from kit.basics.typed import MM_PER_INCH
from kit.basics.units import in_figures
from kit.forge.billet import Billet
from kit.forge.bundle import MOST_BARS, Bundle
from kit.forge.stack import MOST_PIECES, Stack
from kit.forge.steps import (
    CutAndStack,
    Dent,
    DrawOut,
    GrindRound,
    Groove,
    Points,
    Size,
    SquareUp,
    Twist,
)
from kit.section.half import whole
from kit.section.surface import Look, Moved, Plane
from kit.section.trace import Face, Surface, by_bands, see, share_inside
from kit.shop.patterns import PATTERNS, TURNS, Pattern, pattern

# How it is drawn; ours.
LENGTH = 176.0  # mm, or more
THINNEST = 0.01  # mm, of a bar in a stack: finer layers are drawn out
STEELS = ("1084", "15N20")
BOUGHT = ("flat layers", "twist", "ladder", "raindrop")
FLAT, TWIST, LADDER, RAINDROP, OTHER = range(5)
SOLD = (BOUGHT[FLAT], *(known.name for known in PATTERNS))
SQUARE = 16.0  # mm: the side of the bars that `patterns.py` twists
PLAIN = 2.0  # bands on 100 mm of a face: fewer are no pattern; ours
CUTS, ROWS, SEEN = 6, 100, 100.0  # how a bar is followed: cuts, pixels deep, mm long; ours
TALL = 100.0  # mm: a block so high gives a bar in one piece; ours
AS_BOUGHT = Claim(
    says="Bars that are sold were twisted, grooved or dented about so.",
    kind=Kind.PRACTICE,
    unit="mm, parts of the bar, sides",
    holds=("_HOLLOWS", "DEEP", "_THICKER", "_SQUARER", "_TURN"),
    told=(
        "bar is sold",
        "maker may stagger",
        "pattern of hollows fades",
        "bought bars are ours",
        "surface grinding takes",
    ),
)
_HOLLOWS = {
    LADDER: partial(Groove, way="cut and forged", across=8, spacing=14),
    RAINDROP: partial(Dent, way="cut and forged", across=8, spacing=12),
}
DEEP = 0.3  # of the bar that the hollows are cut into
_THICKER = 1.6  # times the finished bar: so thick is that one
_SQUARER = 1.25  # a twisted bar's side against that of a square of the finished section
_TURN = 1.6  # one turn in so many sides


def made_as(name: str) -> int:
    """Say which of `BOUGHT` a bar sold under a name is, or `OTHER`."""
    if name in TURNS:
        return TWIST
    return BOUGHT.index(name) if name in BOUGHT else OTHER


@lru_cache(maxsize=8)
def sold(
    name: str, layers: int, thickness: float, width: float, faces: str = "top"
) -> Billet:
    """Forge a bar as it is sold under one of the names in `SOLD`.

    Parameters
    ----------
    name : str
    layers : int
        As told by the seller; `OTHER` patterns have their own.
    thickness, width : float
        Of the finished bar, mm.
    faces : str
        Into which hollows are cut; see `Hollows`.
    """
    made = made_as(name)
    if made == OTHER:
        return _forged_to(pattern(name), thickness, width)
    turn = MM_PER_INCH / TURNS[name] / SQUARE if name in TURNS else _TURN
    return bar(layers, made, thickness, width, faces, turn)


class Inside(NamedTuple):
    """What is met inside a bar, from its middle plane up to its face.

    Attributes
    ----------
    heights : array
        0 in the middle plane, 1 at the face.
    along : array
        Bands met along the bar, on 100 mm.
    through : array
        Bands met on the way up from the middle plane: the mean of many places.
    """

    heights: np.ndarray
    along: np.ndarray
    through: np.ndarray

    @property
    def plain(self) -> bool:
        """Whether its face shows no pattern."""
        return self.along[-1] < PLAIN

    def met(self, height: float) -> float:
        """How many bands are met up to a height, 0 … 1."""
        return float(np.interp(height, self.heights, self.through))

    def kept(self, height: float) -> float:
        """How many bands are met along the bar there, as a share of the face's."""
        return float(np.interp(height, self.heights, self.along)) / float(self.along[-1])


@lru_cache(maxsize=16)
@whole()
def inside(name: str) -> Inside:
    """Follow the bar of an `OTHER` pattern: as shares, the same in every size."""
    billet = sold(name, 0, 8.0, 30.0)
    length, width, thick = size = billet.size
    steels = dict.fromkeys(billet.source.steels)
    greys = {name: number / len(steels) for number, name in enumerate(steels)}
    pixel, met, up = thick / 2 / ROWS, [], []
    for share in np.linspace(-0.8, 0.8, CUTS):  # cuts lengthwise, each elsewhere
        spare = (length - SEEN) / 2
        centre = (length / 2 + share * spare, share * width / 2, thick / 4)
        plane = Plane.facing(size, "side", centre, (round(SEEN / pixel), ROWS), pixel)
        steel = see(billet, plane, greys, pixels="point").tone[::-1]
        met.append(np.count_nonzero(np.diff(steel, axis=1), axis=1))
        up.append(np.count_nonzero(np.diff(steel, axis=0), axis=1) / steel.shape[1])
    heights = (np.arange(ROWS) + 0.5) / ROWS
    through = np.append(0.0, np.cumsum(np.mean(up, axis=0)))
    return Inside(heights, np.mean(met, axis=0), through)


@lru_cache(maxsize=32)
def _forged(known: Pattern) -> Billet:
    return known.forge()


class Tiles(Bundle):
    """Slices off the end of blocks, laid flat in a row: end grain as a face.

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


def _forged_to(known: Pattern, thickness: float, width: float) -> Billet:
    """Forge a pattern to a bar's size: a tile from its end grain, or bars side by side."""
    made = _forged(known)
    if known.shown in ("end", "split") and not made.tally.flat:
        long, wide = made.size.thickness, made.size.width
        need = LENGTH * width / (long * wide)
        tiles = 1 if long > TALL else min(math.ceil(need), MOST_BARS)
        cut = in_figures(thickness * max(1.0, need / tiles), way="ROUND_UP")
        made = Billet(source=Tiles(bars=(made,) * tiles, slice=cut))
    beside = round(width / made.size.width)
    need = LENGTH * width * thickness / (math.prod(made.size[:3]) * max(beside, 1))
    if need > 1:
        made = _longer(made, math.ceil(need))
    if beside > 1:
        made = Billet(source=Bundle(bars=(made,) * beside))
    return made.then(DrawOut(thickness=thickness, width=width))


def _longer(billet: Billet, times: int) -> Billet:
    """Begin with bars so many times as long."""
    source = billet.source
    if isinstance(source, Bundle):
        bars = tuple(_longer(one, times) for one in source.bars)
        source = Bundle(bars=bars, laid=source.laid)
    else:
        long = times * source.length
        source = Stack(layers=source.layers, length=long, width=source.width)
    return Billet(source=source, steps=billet.steps)


@lru_cache(maxsize=8)
def bar(
    layers: int,
    bought: int,
    thickness: float,
    width: float,
    faces: str = "top",
    turn: float = _TURN,
) -> Billet:
    """Forge a bar of dark and bright layers in turn as it is bought.

    Parameters
    ----------
    layers : int
        Through its thickness, before it was twisted or hollowed.
    bought : int
        Index into `BOUGHT`.
    thickness, width : float
        Of the finished bar, mm.
    faces : str
        Into which hollows are cut; see `Hollows`.
    turn : float
        Of a twist, in sides of the square bar.
    """
    if bought == TWIST:
        side = in_figures(max(_SQUARER * math.sqrt(width * thickness), THINNEST * layers))
        billet = _stack(layers, side, side, LENGTH).then(
            GrindRound(), Twist(turn_length=in_figures(turn * side)), SquareUp()
        )
        return billet.then(DrawOut(thickness=thickness, width=width))
    if bought in _HOLLOWS:
        before = in_figures(max(_THICKER * thickness, THINNEST * layers))
        deep = in_figures(DEEP * before)
        hollows = _HOLLOWS[bought](depth=deep, faces=faces, thickness=thickness)
        return _stack(layers, before, width, LENGTH).then(hollows)
    before = max(thickness, in_figures(THINNEST * layers))
    pieces = layers if layers <= MOST_PIECES else layers // 2
    flat = _stack(pieces, before, width, LENGTH * thickness / before)
    if pieces < layers:
        flat = flat.then(CutAndStack(pieces=2), DrawOut(thickness=before, width=width))
    return flat if before == thickness else flat.then(DrawOut(thickness=thickness))


def _stack(layers: int, thickness: float, width: float, length: float) -> Billet:
    stack = Stack.alternate(
        *STEELS,
        pieces=layers,
        thickness=max(thickness / layers, THINNEST),
        width=width,
        length=in_figures(length),
    )
    return Billet(source=stack)


SLACK = 1e-6  # mm, for roundings; ours


class Engraved(Declared):
    """A plain bar with a pattern engraved, etched or printed on its top face only.

    It looks like the top face of `pattern` down to `depth` under the top of `billet`;
    what lies deeper is the plain bar. The depth is illustrative.

    Raises
    ------
    KitError
        If the face of `pattern` is smaller than the bar's.
    """

    billet: Billet = Field(title="Bar", description="a billet")
    pattern: Billet = Field(title="Pattern", description="a billet")
    depth: float = quantity(
        "Depth", "of the engraving", low=0.001, high=2, unit="mm", default=0.05
    )

    @model_validator(mode="after")
    def _covers(self) -> Engraved:
        bar, face = self.billet.size, self.pattern.size
        if min(face.length - bar.length, face.width - bar.width) < -SLACK:
            msg = (
                f"The pattern must cover the bar's face, {bar.length:.4g} × "
                f"{bar.width:.4g} mm. Given: {face.length:.4g} × {face.width:.4g} mm."
            )
            raise KitError(msg)
        return self

    def see(self, surface: Surface, tones: dict[str, float]) -> Face:
        """See it as `kit.see` sees a forged billet."""
        plain = see(self.billet, surface, tones)
        printed = see(self.pattern, OnTop(surface, self.pattern.size), tones)
        floor = self.billet.size.thickness / 2 - self.depth
        skin = by_bands(surface, lambda points: share_inside(points[2] - floor + SLACK))
        tone = plain.tone + skin * (printed.tone - plain.tone)
        return plain._replace(tone=tone.astype(plain.tone.dtype))


@dataclass(frozen=True)
class OnTop(Moved):
    """A surface laid flat on the top of a bar: what a stamp would print on it."""

    surface: Surface
    size: Size

    def look(self, first: int, last: int, dtype: type) -> Look:
        """Give its points on the bar's top, for rows `first` up to but not `last`."""
        seen = self.surface.look(first, last, dtype)
        x, y, z = seen.points
        return seen._replace(points=(x, y, np.full_like(z, self.size.thickness / 2)))
