"""The marks of the last sanding, and the grain of a bitten surface: quiet, never twice.

Illustrative: drawn to look like fine paper pulled along the blade, not measured.
"""

from __future__ import annotations

import math
from functools import lru_cache

import numpy as np

_SCRATCH = 0.12  # how strongly the sanding shows
_WIDTHS = tuple(2.0**power for power in range(-6, 0))  # of scratches, mm
_STRIPES = 4  # for each width
_LONG = 60  # a scratch is so many times longer than wide
_GRIT = 0.07  # how strongly the bitten surface is mottled, pixel by pixel
_PIECE = 1024  # pixels of a solid, until its scratches run back
_TILE = 256  # pixels, until the mottling comes round again


@lru_cache(maxsize=4)  # as much as stays where it is
def scratches(
    rows: int, columns: int, pixel: float, middle: tuple[float, float]
) -> np.ndarray:
    """Scratch the steel from left to right: brighter (+) and darker (-) streaks.

    Widths double from one set of scratches to the next; those finer than a pixel do
    not show. Each set is a sum of a few stripes, strong here and weak there.
    """
    across = _lines(rows, -pixel, float(middle[1]), along=False)
    return across.T @ _lines(columns, pixel, float(middle[0]), along=True)


def scratches_at(along: np.ndarray, across: np.ndarray, pixel: float) -> np.ndarray:
    """Scratch the faces of a solid: mm along the sanding and across it at every pixel."""
    columns, rows = (np.rint(part / pixel).astype(np.int32) for part in (along, across))
    # there and back over one piece of steel: so it ends nowhere
    columns, rows = (np.abs(part % (2 * _PIECE) - _PIECE) for part in (columns, rows))
    return scratches(_PIECE + 1, _PIECE + 1, pixel, (0.0, 0.0))[rows, columns]


@lru_cache(maxsize=64)  # most of a picture that moves stays where it is
def _lines(count: int, pixel: float, middle: float, *, along: bool) -> np.ndarray:
    """Draw the sets' random lines on one side of a picture, along or across the streaks."""
    place = middle + pixel * (np.arange(count) - (count - 1) / 2)
    lines = [np.zeros((1, count))]
    for number, width in enumerate(_WIDTHS):
        strength = min(1.0, 2 * width / abs(pixel) - 1)
        if strength > 0 and along:
            lines.append(_noise(place / (_LONG * width), number + len(_WIDTHS)))
        elif strength > 0:
            lines.append(strength * _noise(place / width, number))
    every = np.concatenate(lines)
    if not along:
        every *= _SCRATCH / math.sqrt(max(len(every) - 1, 1))
    return every.astype(np.float32)


def _noise(place: np.ndarray, number: int) -> np.ndarray:
    """Draw a few smooth random lines, -1 … 1, that turn at every whole number."""
    before = np.floor(place)
    share = place - before
    share *= share * (3 - 2 * share)
    first = before.astype(np.int64) + 997 * number
    first = first + 89 * np.arange(_STRIPES)[:, None]
    chance = _chances()
    here, next_ = chance[first % len(chance)], chance[(first + 1) % len(chance)]
    return here + share * (next_ - here)


def grit(rows: int, columns: int, first: int = 0) -> np.ndarray:
    """Give the bitten surface a grain of a few pixels, the same in every picture."""
    start = first % _TILE
    again = -(-(start + rows) // _TILE), -(-columns // _TILE)
    return np.tile(_grit_tile()[:, :columns], again)[start : start + rows, :columns]


@lru_cache(maxsize=1)
def _grit_tile() -> np.ndarray:
    fine = _chances()[: _TILE**2].reshape(_TILE, _TILE)
    coarse = fine
    for axis in (0, 1):
        coarse = sum(np.roll(coarse, shift, axis) for shift in (-1, 0, 1))
    tile = fine + coarse
    return (tile * (_GRIT / tile.std())).astype(np.float32)


@lru_cache(maxsize=1)
def _chances() -> np.ndarray:
    """Draw numbers from -1 to 1, the same on every machine.

    By mixing the bits of 0, 1, 2 …: Wellons, Prospecting for Hash Functions (2018),
    lowbias32.
    """
    mixed = np.arange(_TILE**2, dtype=np.uint32)
    for shift, factor in ((16, 0x7FEB352D), (15, 0x846CA68B)):
        mixed = (mixed ^ (mixed >> np.uint32(shift))) * np.uint32(factor)
    return (mixed ^ (mixed >> np.uint32(16))) / 2.0**31 - 1
