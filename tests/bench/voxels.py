"""The other way to do it: a grid of 256³ voxels, forged step by step with scipy.

The grid is stretched with the bar, so drawing out costs it nothing; every other step
is one resampling. Then the cut is read from it.
"""

import numpy as np
from scipy.ndimage import map_coordinates

from kit.forge.billet import Billet
from kit.forge.steps import DrawOut, Size, Step
from kit.section.trace import see
from tests.bench import pieces
from tests.bench.clock import once, table, timed

SIDE = 256
SLAB = 16  # voxels forged at a time, so that their places fit in memory


def report() -> None:
    """Time forging and cutting a grid, and count the pixels it gets wrong."""
    rows = [
        _row(f"{name}, order {order}", billet, order)
        for name, billet in pieces.HISTORIES.items()
        for order in (0, 1)
    ]
    head = ("history", "forge, ms", "cut, ms/Mpx", "all ÷ mean", "cut ÷ mean", "% wrong")
    table("scipy.ndimage.map_coordinates on 256³ voxels", head, rows)


def _row(name: str, billet: Billet, order: int) -> tuple:
    plane = pieces.face(billet)
    places = pieces.points(plane)
    grids = []
    forging = once(lambda: grids.append(forged(billet, order)))
    cutting = timed(lambda: cut(grids[0], places, billet.size, order), repeats=3).median
    mean = timed(lambda: see(billet, plane, pieces.TONES)).median
    bright = cut(grids[0], places, billet.size, order) > 0.5
    wrong = float(np.mean(bright != (pieces.plain(billet, places) > 0.5)))
    return (
        name,
        forging,
        cutting,
        (forging + cutting) / mean,
        cutting / mean,
        100 * wrong,
    )


def cut(
    grid: np.ndarray, places: tuple[np.ndarray, ...], size: Size, order: int
) -> np.ndarray:
    """Read the grid at points of the bar."""
    index = np.array([a.ravel() for a in indices(places, size)])
    tone = map_coordinates(grid, index, order=order, mode="nearest", prefilter=False)
    return tone.reshape(places[0].shape)


def indices(places: tuple[np.ndarray, ...], size: Size) -> list[np.ndarray]:
    """Turn mm into voxels."""
    starts = 0.0, size.width / 2, size.thickness / 2
    return [
        (axis + start) * (SIDE / whole) - 0.5
        for axis, start, whole in zip(places, starts, size, strict=True)
    ]


def forged(billet: Billet, order: int) -> np.ndarray:
    """Fill a grid with the stack and take it through the history."""
    grid = np.empty((SIDE,) * 3, np.float32)
    grid[:] = pieces.plain(billet[:0], middles(billet.sizes[0], 0, 1))
    for step, before, after in zip(
        billet.steps, billet.sizes, billet.sizes[1:], strict=False
    ):
        if not isinstance(step, DrawOut):
            grid = resampled(grid, step, before, after, order)
    return grid


def resampled(
    grid: np.ndarray, step: Step, before: Size, after: Size, order: int
) -> np.ndarray:
    """Give the grid after a step: each voxel asks where it came from."""
    new = np.empty_like(grid)
    for first in range(0, SIDE, SLAB):
        places = step.undo(middles(after, first, first + SLAB), before)
        new[first : first + SLAB] = cut(grid, places, before, order)
    return new


def middles(size: Size, first: int, last: int) -> tuple[np.ndarray, ...]:
    """Give the middles of some slices of voxels, mm."""
    share = (np.arange(SIDE) + 0.5) / SIDE
    x = (np.arange(first, last) + 0.5) / SIDE * size.length
    y, z = (share - 0.5) * size.width, (share - 0.5) * size.thickness
    return tuple(np.meshgrid(x, y, z, indexing="ij"))
