"""The engine: from a surface back through the history to the tone of every pixel.

Looking at single points would show moiré that no blade has. So each point carries
its *height through the unfolded pile*: the billet counted in whole stacks, as if every
fold were opened into one long pile. That number runs on without a jump through a weld,
so its change from pixel to pixel says how much steel the pixel covers, and the mean
tone over that stretch is a difference of two values of one table (an antiderivative).
Layers too fine for a pixel turn into their true mean grey, which is also what the eye
makes of them.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping
from functools import lru_cache
from typing import Any, NamedTuple, Protocol

import numpy as np

from kit.forge.billet import Billet
from kit.forge.bundle import Bundle
from kit.forge.census import MIXER, scattered
from kit.forge.stack import Stack
from kit.forge.steps import Points
from kit.section.half import filled_up, thinned, whole
from kit.section.pile import ROUNDINGS, TABLE, Pile, fine, mean, point, smaller_steps
from kit.section.surface import LEAST_ANGLE, Look

BAND_PIXELS = 65536  # one band of rows at a time stays in the processor's cache
MOST_SINGLE = 512  # stacks in a pile, for single precision
PARTS = 4  # of a pixel on a weld, each way: ours
ALIKE = 0.02  # of full light: pixels of two pieces that show no tooth; ours
LEAST_ENTRIES = 8  # of a table, that a pixel must cover to be read from it
FINE_PIXEL = 5e-7  # of the bar's length: below, single precision is too coarse
FINE_EDGE = 1e-3  # mm: the same, of pixels on an edge
SHARP = 1e-12  # mm a pixel: flatter than this, an edge is sharp


# The engine makes and drops many arrays of a quarter of a megabyte. glibc gives such
# memory back and must fetch it again each time, which costs as much as the sums; a
# larger block, made and dropped once, teaches it to keep them. Elsewhere it is nothing.
np.empty(2**24, np.uint8)


class Surface(Protocol):
    """What can be looked at; see surface.py."""

    columns: int
    rows: int
    pixel: float
    middle: Any
    grain: str

    def look(self, first: int, last: int, dtype: type) -> Look:
        """See some rows of pixels, with a margin of one pixel left and right."""

    def leans(self) -> tuple[np.ndarray | float, np.ndarray | float]:
        """Say how steeply the steel rises towards the eye, right and up, mm a mm."""


class Shades(Protocol):
    """Tones that change within a bar, as after hours in the fire; see kit/metal/etch.py."""

    def cells(self, billet: Billet) -> tuple[np.ndarray, np.ndarray]:
        """Give edges (cells + 1,), 0 … 1 through one stack, and the tone of each cell."""


Tones = Mapping[str, float] | Shades


class Face(NamedTuple):
    """A picture before it is one: arrays (rows, columns), float, 0 … 1.

    Attributes
    ----------
    tone : array
        Reflectance of the steel, linear light.
    cover : array
        Share of the pixel that is steel.
    light : array
        Light falling there.
    """

    tone: np.ndarray
    cover: np.ndarray
    light: np.ndarray

    def as_large_as(self, surface: Surface) -> Face:
        """Fill up what was seen of a surface half as fine; see half.py."""
        return Face(*(filled_up(part, surface.rows, surface.columns) for part in self))

    def plain(self, tone: float) -> Face:
        """Give the same face as one plain steel of a tone."""
        return self._replace(tone=np.full_like(self.tone, tone))


def bands_of(surface: Surface) -> Iterator[tuple[int, int]]:
    """Give bands of rows that fit the cache: the first row, and one past the last."""
    band = max(8, BAND_PIXELS // surface.columns)
    for first in range(0, surface.rows, band):
        yield first, min(first + band, surface.rows)


def see(
    billet: Billet,
    surface: Surface,
    tones: Tones,
    *,
    pixels: str = "mean",
    double: bool | None = None,
) -> Face:
    """See a surface of a billet, each pixel the true mean of what it covers.

    Parameters
    ----------
    billet : Billet
    surface : Plane or Block
    tones : mapping, or Shades
        Reflectance of each steel by name, linear, 0 … 1 (see kit/metal/etch.py).
    pixels : str
        "mean": the mean over the pixel's stretch, for the screen; "fine": the mean
        over its square, for print; "point": the steel at its middle, for comparison.
    double : bool, optional
        Compute in double precision. Left out, the kit decides by the zoom.
    """
    thin = thinned(surface) if pixels == "mean" else surface
    if thin is not surface:
        with whole():
            return see(billet, thin, tones, double=double).as_large_as(surface)
    every: Face | None = None
    for first, part in see_in_bands(billet, surface, tones, pixels=pixels, double=double):
        if every is None:
            shape = surface.rows, surface.columns
            every = Face(*(np.empty(shape, part.tone.dtype) for _ in part))
        for all_rows, some in zip(every, part, strict=True):
            all_rows[first : first + len(some)] = some
    return every


def see_in_bands(
    billet: Billet,
    surface: Surface,
    tones: Tones,
    *,
    pixels: str = "mean",
    double: bool | None = None,
    progress: Callable[[float], None] | None = None,
) -> Iterator[tuple[int, Face]]:
    """See the same band by band, for pictures too large to be held: first row, face."""
    average = {"mean": mean, "fine": fine, "point": point}[pixels]
    if after := getattr(tones, "after", None):  # what the fire has made of the steels
        tones = after(billet)
    piles = _piles(billet, tones, surface.pixel)
    if double is None:
        double = pixels == "fine" or _too_fine(billet, piles, surface.pixel)
    dtype = np.float64 if double else np.float32
    for first, last in bands_of(surface):
        look = surface.look(first - 1, last + 1, dtype)
        tone, piece = _read(billet, piles, look.points, average)
        if average is not point and (piece != piece[0, 0]).any():  # or there is no weld
            torn = _torn(piece, tone) & (look.cover[1:-1, 1:-1] > 0)
            if torn.any():
                near = _patches(look.points, torn)
                tone[torn] = _read(billet, piles, near, average)[0].mean(axis=(0, 1))
        light = look.light[1:-1, 1:-1] if look.light.ndim else look.light
        yield first, Face(tone, look.cover[1:-1, 1:-1], np.broadcast_to(light, tone.shape))
        if progress:
            progress(last / surface.rows)


def _piles(billet: Billet, tones: Tones, pixel: float) -> Pile | list:
    """Make the table of a stack, or a list of the tables of a bundle's bars."""
    if isinstance(billet.source, Bundle):
        return [_piles(bar, tones, pixel) for bar in billet.source.bars]
    entry = billet.size.thickness / billet.unfolded.stacks / TABLE  # mm
    return pile_of(billet, tones, exact=pixel < LEAST_ENTRIES * entry)


def _too_fine(billet: Billet, piles: Pile | list, pixel: float) -> bool:
    """Tell whether single precision would wash out what the pixels can show."""
    if isinstance(piles, list):
        bars = zip(billet.source.bars, piles, strict=True)
        return any(_too_fine(bar, pile, pixel) for bar, pile in bars)
    length, _, thickness = billet.size
    roundings = ROUNDINGS * float(np.finfo(np.float32).eps)  # in the height of the pile
    # on a slant a pixel covers less; that matters where bars are as thin as a rounding
    thin = roundings * piles.stacks > float(np.diff(piles.edges).min()) / 8
    slant = math.sin(math.radians(LEAST_ANGLE)) if thin else 1.0
    fine = pixel < max(FINE_PIXEL * length, 2 * roundings * thickness / slant)
    return piles.exact or fine or piles.stacks > MOST_SINGLE


def _torn(piece: np.ndarray, tone: np.ndarray) -> np.ndarray:
    """Mark pixels that have another piece of steel beside them, of another tone.

    Pieces come with a margin; what lies there may be of any tone.
    """
    across, down = piece[1:-1, 1:] != piece[1:-1, :-1], piece[1:, 1:-1] != piece[:-1, 1:-1]
    across[:, 1:-1] &= np.abs(np.diff(tone, axis=1)) > ALIKE
    down[1:-1] &= np.abs(np.diff(tone, axis=0)) > ALIKE
    return across[:, 1:] | across[:, :-1] | down[1:] | down[:-1]


def _patches(points: Points, marked: np.ndarray) -> Points:
    """Look closer at the pixels that are marked: 4 × 4 places of each, and a margin.

    Across a weld that is no longer parallel to the layers their heights jump: there is no
    mean of a stretch, and a pixel that took one side of it would be a tooth.
    """
    row, column = np.nonzero(marked)
    row, column = row + 1, column + 1  # there is a margin
    aside = ((np.arange(PARTS + 2) - (PARTS + 1) / 2) / PARTS).astype(points[0].dtype)
    return tuple(
        axis[row, column]
        + aside[:, None, None] * ((axis[row + 1, column] - axis[row - 1, column]) / 2)
        + aside[:, None] * ((axis[row, column + 1] - axis[row, column - 1]) / 2)
        for axis in points
    )


def _read(
    billet: Billet, piles: Pile | list, points: Points, average: Any
) -> tuple[np.ndarray, np.ndarray]:
    """Look the tones up, and with the margin which piece of steel is seen.

    Of a bundle, each bar only where it is seen.
    """
    if not isinstance(billet.source, Bundle):
        found = billet.follow(points)
        return average(piles, found.height), found.piece
    bundle, (before, code, *_) = billet.source, billet.taken_apart(points)
    which = bundle.which(before)
    piece = which.astype(np.uint64) + scattered(code)
    tone = np.zeros(piece[1:-1, 1:-1].shape, points[0].dtype)
    for index, (bar, pile) in enumerate(zip(bundle.bars, piles, strict=True)):
        there = which == index
        mine = there[1:-1, 1:-1]
        if mine.any():
            more = tuple(range(2, mine.ndim))
            rows, columns = (_span(mine.any(axis=(axis, *more))) for axis in (1, 0))
            patches = (np.flatnonzero(mine.any(axis=(0, 1))),) if more else ()
            here = (rows, columns, *patches)
            # with a margin of one pixel all round
            wider = (*(slice(part.start, part.stop + 2) for part in here[:2]), *patches)
            own = bundle.own(index, tuple(part[wider] for part in before))
            found, inner = _read(bar, pile, own, average)
            tone[here] = np.where(mine[here], found, tone[here])
            piece[wider] += np.where(there[wider], inner, 0) * MIXER
    return tone, piece


def _span(marked: np.ndarray) -> slice:
    """Give the stretch in which all that is marked lies."""
    places = np.flatnonzero(marked)
    return slice(places[0], places[-1] + 1)


def bar_at(billet: Billet, point: tuple[float, float, float]) -> tuple[Stack, int]:
    """Find the stack and the bar in it, 0 at the bottom, of a point of the finished bar.

    Parameters
    ----------
    billet : Billet
    point : (x, y, z)
        In the finished bar, mm.
    """
    found = billet.follow(tuple(np.array([part], float) for part in point))
    laid = billet.laid[int(found.source[0])]
    return laid.stack, int(laid.pile.bar_at(found.height)[0])


def pile_of(billet: Billet, tones: Tones, *, exact: bool = False) -> Pile:
    """Make the table of tones for a billet; or, exact, what is worked out without it."""
    unfolded = billet.unfolded
    if isinstance(tones, Mapping):
        edges = unfolded.edges
        bars = np.array([tones[name] for name in billet.source.steels])
    else:
        edges, bars = tones.cells(billet)
    return _pile(
        *(np.asarray(part, float).tobytes() for part in (edges, bars)),
        stacks=unfolded.stacks,
        before_fold=unfolded.before_fold,
        upside_down=unfolded.upside_down,
        exact=exact,
    )


@lru_cache(maxsize=16)  # its tables cost as much as a small picture
def _pile(edges: bytes, tones: bytes, **how: Any) -> Pile:
    return Pile(edges=np.frombuffer(edges), tones=np.frombuffer(tones), **how)


def by_bands(surface: Surface, work: Callable[[Points], np.ndarray]) -> np.ndarray:
    """Work out something for every pixel, a band of rows at a time."""
    dtype = np.float32 if surface.pixel > FINE_EDGE else np.float64
    thin = thinned(surface)
    found = np.empty((thin.rows, thin.columns), np.float32)
    for first, last in bands_of(thin):
        found[first:last] = work(thin.look(first - 1, last + 1, dtype).points)
    return filled_up(found, surface.rows, surface.columns)


def share_inside(inside: np.ndarray) -> np.ndarray:
    """Fill pixels by the distance inside an edge and its change from pixel to pixel.

    The margin pixels are dropped. Of the steps to the two neighbours the smaller counts.
    """
    slope = np.hypot(*smaller_steps(inside))
    return np.clip(inside[1:-1, 1:-1] / np.maximum(slope, SHARP) + 0.5, 0, 1)
