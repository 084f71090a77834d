"""Edges on a surface that run smoothly through its pixels.

How much a number changes from pixel to pixel says how wide a pixel is, as in trace.py.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from kit.forge.steps import Points
from kit.section.average import smaller_steps
from kit.section.half import filled_up, thinned
from kit.section.trace import Surface, bands_of

LEAST = 1e-12  # mm a pixel: flatter than this, an edge is sharp
FINE = 1e-3  # mm: smaller pixels ask for double precision


def by_bands(surface: Surface, work: Callable[[Points], np.ndarray]) -> np.ndarray:
    """Work out something for every pixel, a band of rows at a time."""
    dtype = np.float32 if surface.pixel > FINE else np.float64
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
    return np.clip(inside[1:-1, 1:-1] / np.maximum(slope, LEAST) + 0.5, 0, 1)
