"""Photographs of bands with known truth, drawn by areas: nothing here is the kit's.

The light of a pixel is the mean over its width, from the running total of the bands; the
grey levels follow IEC 61966-2-1, written out here once more.
"""

import io
from typing import NamedTuple

import numpy as np
from PIL import Image

DARK, BRIGHT = 0.06, 0.6  # linear light


class Drawn(NamedTuple):
    """A photograph as a PNG, and what is true of it.

    Attributes
    ----------
    png : bytes
    count : int
        Bands met from end to end.
    pair : float
        Of a dark and a bright band, pixels.
    columns, rows : int
    slivers : int
        Bands that an edge of the picture leaves less than three pixels of.
    """

    png: bytes
    count: int
    pair: float
    columns: int
    rows: int
    slivers: int


def drawn(count: int, narrow: float, pair: float, start: float = 0.5, **spoilt) -> Drawn:
    """Draw bands from left to right.

    Parameters
    ----------
    count : int
        Bands, the first and last cut off by the edge of the picture.
    narrow : float
        Share of the dark band in a pair, 0 … 1.
    pair : float
        Pixels.
    start : float
        Share of the first band that is in the picture; the same of the last.
    dark_first, noise, lamp, rows
        See `_light`.
    """
    dark_first = spoilt.pop("dark_first", True)
    shares = [narrow, 1 - narrow] if dark_first else [1 - narrow, narrow]
    widths = pair * np.array([shares[number % 2] for number in range(count)])
    widths[[0, -1]] *= start
    columns = int(np.floor(widths.sum()))
    light = _light(widths, dark_first, columns, **spoilt)
    stream = io.BytesIO()
    Image.fromarray(_grey(light)).save(stream, "png")
    slivers = int((widths[[0, -1]] < 3).sum())
    return Drawn(stream.getvalue(), count, pair, columns, light.shape[0], slivers)


def _light(widths, dark_first, columns, noise=0.0, lamp=0.0, rows=60):
    """Average the bands over each pixel; add uneven light and grain."""
    edges = np.concatenate([[0], np.cumsum(widths)])
    bright = (np.arange(len(widths)) + (not dark_first)) % 2
    tones = np.where(bright, BRIGHT, DARK)
    total = np.concatenate([[0], np.cumsum(widths * tones)])
    places = np.minimum(np.arange(columns + 1), edges[-1])
    line = np.diff(np.interp(places, edges, total))
    line = line * (1 + lamp * np.linspace(-1, 1, columns))
    grain = np.random.default_rng(3).standard_normal((rows, columns))
    return np.clip(np.tile(line, (rows, 1)) + noise * grain, 0, 1)


def _grey(light):
    root = np.where(light <= 0.0031308, 12.92 * light, 1.055 * light ** (1 / 2.4) - 0.055)
    return np.rint(255 * root).astype(np.uint8)
