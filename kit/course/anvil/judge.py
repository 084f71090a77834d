"""What a bar really gives, measured on the bar itself: bands, slants, stars and seams.

Nobody's answer is looked up: lines are counted by census, and how they run is read from
the steel, followed back to its stack. So every way to the same steel measures alike.
"""

import math
from typing import NamedTuple

import numpy as np

from kit.basics.errors import KitError
from kit.forge.billet import Billet
from kit.forge.steps import Points
from kit.metal.described import way_of
from kit.section.surface import face_depth

STRIPS, COARSE = 49, 100  # across a face, and along it, to find where its lines slant
PLACES = 400  # along the one line on which they are then measured
MOST_UNDONE = 40  # steps: with the most leaves some two seconds on two cores, measured
MOST_LEAVES = 256  # more need more places on a line than a census begins with
STEP = 1e-4  # mm: so far apart are two points whose heights are compared
INSET = 0.02  # share of a bar, at its ends and edges, that is not looked at
SKIN = 1e-3  # mm below a face
# Ours, tried on twisted, dented, folded and plain bars, as in `kit.metal.described`.
STRAIGHT = 0.85  # how alike the directions on a strip are, 0 … 1, if it has lines
SIDED = 0.15  # how much a strip slants, 0 … 1, if it slants at all
LEAST_SHOWN = 1e-4  # of the layers' change that lies in the face: less shows no lines


class Side(NamedTuple):
    """A part of a face, from edge or weld to the next, on which the lines slant one way.

    Attributes
    ----------
    slant : float
        Of its lines to the bar's length, on its own middle line, degrees; more than 0
        rises to the right.
    aside : float
        How far that middle line lies from the bar's, mm.
    """

    slant: float
    aside: float


class Bands(NamedTuple):
    """The bands on a line: how many, and how thick each is there on average, mm."""

    number: int
    each: float


def refuse_long(bar: Billet) -> None:
    """Refuse a bar whose measuring would take too long, before it is begun.

    Raises
    ------
    KitError
        Too many steps, or leaves, since its layers no longer lie flat and even.
    """
    undone, leaves = _undone(bar), bar.leaves
    if undone > MOST_UNDONE:
        msg = (
            f"A bar can be judged that had at most {MOST_UNDONE} steps since its layers "
            f"lay flat. Given: {undone}. Make it in fewer."
        )
        raise KitError(msg)
    if leaves > MOST_LEAVES:
        msg = (
            f"A bar can be judged that was doubled into at most {MOST_LEAVES} leaves "
            f"since its layers lay flat. Given: {leaves}. Fold it less."
        )
        raise KitError(msg)


def _undone(bar: Billet) -> int:
    """Count the steps that a point is followed back through, one by one."""
    bars = bar.source.bars_of_it()
    return len(bar) + max(map(_undone, bars)) if bars else len(bar) - bar.level


def face_height(bar: Billet) -> float:
    """Say how high above the axis the bar's face lies, a hair inside the steel, mm."""
    thick = bar.size.thickness
    return thick / 2 - max(face_depth(bar), min(SKIN, thick / 100))


def sides(bar: Billet, height: float) -> tuple[Side, ...]:
    """Find how the lines run on a face along the bar, from one edge to the other.

    Parameters
    ----------
    bar : Billet
    height : float
        Of the face above the axis, mm.

    Returns
    -------
    tuple of Side
        None where the face shows no straight lines.
    """
    wide = _half_width(bar, height) * (1 - INSET)
    aside = wide * np.linspace(-1, 1, STRIPS)
    turned = _turned(bar, height, aside, COARSE)
    way = np.where(np.abs(turned.imag) > SIDED, np.sign(turned.imag), 0)
    middle_length = np.full_like(aside, bar.size.length / 2)
    piece = bar.follow((middle_length, aside, np.full_like(aside, height)))
    found = []
    for run in _runs(way, piece.source, piece.piece):
        middle = float(aside[run[len(run) // 2]])
        lean = slant(bar, height, middle)
        if lean is not None:
            found.append(Side(lean, middle))
    return tuple(found)


def slant(bar: Billet, height: float, aside: float = 0.0) -> float | None:
    """Measure how the lines run along one line of a face, degrees; None without lines.

    Parameters
    ----------
    bar : Billet
    height, aside : float
        Of the line, above the axis and beside the middle, mm.
    """
    turned = _turned(bar, height, np.array([aside]), PLACES)[0]
    return way_of(turned) if abs(turned) >= STRAIGHT else None


def stars_apart(bar: Billet, height: float, aside: float = 0.0) -> float | None:
    """Measure from star to star along a line of a face; None where there are not two.

    Stars are where the layers lie along the face: where the steel, followed back to the
    stack, is highest or lowest.

    Parameters
    ----------
    bar : Billet
    height, aside : float
        Of the line, above the axis and beside the middle, mm.
    """
    x = np.linspace(0, bar.size.length, 4001)
    seen = bar.follow((x, np.full_like(x, aside), np.full_like(x, height)))
    change, one = np.diff(seen.height), (np.diff(seen.piece) == 0)
    one &= np.diff(seen.source) == 0
    bends = np.flatnonzero((change[:-1] * change[1:] <= 0) & one[:-1] & one[1:]) + 1
    if len(bends) < 2:
        return None
    # on the skin of a squared bar a star has a hollow in its middle: it is one star
    level = seen.height[bends]
    low = level < (level.min() + level.max()) / 2
    stars = np.split(x[bends], np.flatnonzero(np.diff(low)) + 1)
    return float(np.diff([star.mean() for star in stars]).mean()) if stars[1:] else None


def line_every(bar: Billet, height: float, aside: float) -> float | None:
    """Measure how far a band reaches on average along a line of a face, mm.

    Parameters
    ----------
    bar : Billet
    height, aside : float
        Of the line, above the axis and beside the middle, mm.
    """
    found = _bands(bar, *((x, aside, height) for x in (0.0, bar.size.length)))
    return found and found.each


def bands_across(bar: Billet, height: float) -> float | None:
    """Count the bands from edge to edge of a face: the mean of nine lines square to it.

    Parameters
    ----------
    bar : Billet
    height : float
        Of the face above the axis, mm.
    """
    wide = bar.size.width / 2
    places = bar.size.length * (np.arange(9) + 0.5) / 9
    counted = [_bands(bar, (x, -wide, height), (x, wide, height)) for x in places]
    return None if None in counted else sum(one.number for one in counted) / 9


def through(bar: Billet) -> Bands | None:
    """Count the bands on the bar's end, through the middle, from below to the top."""
    x, half = min(SKIN, bar.size.length / 100), bar.size.thickness / 2
    return _bands(bar, (x, 0.0, -half), (x, 0.0, half))


def lean_on_end(bar: Billet) -> float:
    """Measure how much the layers lean from lying flat, as the end shows them, degrees.

    The mean of sections all along the bar; 90 is on edge.
    """
    share = np.linspace(-1 + INSET, 1 - INSET, 25)
    if bar.size.round:
        share = share * math.sqrt(0.5)  # the square within the circle
    x = bar.size.length * np.linspace(INSET, 1 - INSET, 9)
    wide, thick = bar.size.width / 2, bar.size.thickness / 2
    points = tuple(np.meshgrid(x, wide * share, thick * share, indexing="ij"))
    _, across, up = _changes(bar, points)
    there = across**2 + up**2 > 0
    if not there.any():
        return 0.0
    return float(np.degrees(np.arctan2(np.abs(across), np.abs(up)))[there].mean())


def _bands(bar: Billet, start: tuple, end: tuple) -> Bands | None:
    try:
        found = bar.census(start, end)
    except KitError:  # too fine to be followed
        return None
    return Bands(found.bands, float(found.borders[-1]) / found.bands)


def _half_width(bar: Billet, height: float) -> float:
    wide, thick = bar.size.width / 2, bar.size.thickness / 2
    return wide * math.sqrt(max(1 - (height / thick) ** 2, 0)) if bar.size.round else wide


def _turned(bar: Billet, height: float, aside: np.ndarray, places: int) -> np.ndarray:
    """Give twice the direction across the lines, of strips along a face.

    How long it is says how alike it is along a strip, 0 … 1; 0 where no lines show.
    """
    along = bar.size.length * np.linspace(INSET, 1 - INSET, places)
    y, x = np.meshgrid(aside, along, indexing="ij")
    right, across, deep = _changes(bar, (x, y, np.full_like(x, height)))
    strength = (right**2 + across**2).sum(axis=1)
    shown = strength.sum() > LEAST_SHOWN * (strength.sum() + (deep**2).sum())
    turned = ((right + 1j * across) ** 2).sum(axis=1)
    return turned / np.maximum(strength, 1e-30) if shown else np.zeros_like(turned)


def _changes(bar: Billet, points: Points) -> list[np.ndarray]:
    """Give how the height in the pile changes along x, y and z; 0 across a weld."""
    aside = STEP / 2 * np.vstack([-np.eye(3), np.eye(3)])  # all followed at once
    shape = (6, *[1] * points[0].ndim)
    moved = (p + aside[:, axis].reshape(shape) for axis, p in enumerate(points))
    seen = bar.follow(tuple(moved))
    piece, source, height = (part.reshape(2, 3, *points[0].shape) for part in seen)
    same = (piece[0] == piece[1]) & (source[0] == source[1])
    return list(np.where(same, height[1] - height[0], 0))


def _runs(way: np.ndarray, *pieces: np.ndarray) -> list[np.ndarray]:
    """Group strips of one piece that slant one way; those that do not, if none does."""
    strips = np.flatnonzero(way) if way.any() else np.arange(len(way))
    changed = [np.diff(part[strips]) != 0 for part in (way, *pieces)]
    return np.split(strips, np.flatnonzero(np.any(changed, axis=0)) + 1)
