"""Edges on a surface that run smoothly through its pixels.

How much a number changes from pixel to pixel says how wide a pixel is, as in trace.py.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from kit.steps import Points
from kit.trace import BAND_PIXELS, Surface

LEAST = 1e-12  # mm a pixel: flatter than this, an edge is sharp
FINE = 1e-3  # mm: smaller pixels ask for double precision


def by_bands(surface: Surface, work: Callable[[Points], np.ndarray]) -> np.ndarray:
    """Work out something for every pixel, a band of rows at a time."""
    dtype = np.float32 if surface.pixel > FINE else np.float64
    found = np.empty((surface.rows, surface.columns), np.float32)
    band = max(8, BAND_PIXELS // surface.columns)
    for first in range(0, surface.rows, band):
        last = min(first + band, surface.rows)
        found[first:last] = work(surface.look(first - 1, last + 1, dtype).points)
    return found


def share_inside(inside: np.ndarray) -> np.ndarray:
    """Fill pixels by the distance inside an edge and its change from pixel to pixel.

    The margin pixels are dropped. Of the steps to the two neighbours the smaller counts.
    """
    across = np.abs(np.diff(inside[1:-1], axis=1))
    down = np.abs(np.diff(inside[:, 1:-1], axis=0))
    slope = np.hypot(
        np.minimum(across[:, 1:], across[:, :-1]), np.minimum(down[1:], down[:-1])
    )
    return np.clip(inside[1:-1, 1:-1] / np.maximum(slope, LEAST) + 0.5, 0, 1)
