"""Drawn photographs of known truth: how far off the measuring bench is, and its doubts.

`tests/drawn_photographs.py` draws them and shares nothing with what measures them. Every
second is in the range that the page calls good.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from kit.shop.measuring import Width, band_width
from kit.shop.photograph import opened
from kit.shop.scale import Scale
from tests.bench.clock import table
from tests.drawn_photographs import Taken, taken

COUNT = 400
WRONG = 0.02


class Tried(NamedTuple):
    """A photograph, and what was found on it."""

    shot: Taken
    width: Width

    @property
    def off(self) -> float:
        """How far from the truth, as a share."""
        return self.width.mean / self.shot.width - 1

    @property
    def half(self) -> float:
        """Half of the interval, as a share."""
        return self.width.within / self.width.mean


def tried(seed: int, **size: int) -> Tried:
    """Draw a photograph and measure it."""
    shot = taken(seed, **size)
    scale = Scale(tuple(shot.card or shot.ruler), shot.mm)
    box = tuple(shot.box) or None
    return Tried(shot, band_width(opened(shot.content), *shot.line, scale=scale, box=box))


def report() -> None:
    """Measure them all; print what is promised beside what was found."""
    every = [tried(seed) for seed in range(COUNT)]
    good = [one for one in every if one.shot.good]
    rows = [_row("all", every), _row("good range", good)]
    rows += [
        _row(name, [one for one in every if one.shot.how["scale"] == name])
        for name in ("card", "same line", "elsewhere")
    ]
    head = (
        *("photographs", "drawn", "doubted, %", "of 100 within 2 % or doubted"),
        *("middle interval, ± %", "truth inside, of 100", "worst undoubted, %"),
    )
    table("The measuring bench on drawn photographs", head, rows)


def _row(name: str, some: list[Tried]) -> tuple:
    sure = [one for one in some if not one.width.doubt]
    off = np.abs([one.off for one in sure])
    half = np.array([one.half for one in sure])
    share = 100 / len(some)
    return (
        name,
        len(some),
        share * (len(some) - len(sure)),
        share * (len(some) - int((off > WRONG).sum())),
        100 * float(np.median(half)) if sure else "none",
        100 * float((off <= half).mean()) if sure else "none",
        100 * float(off.max()) if sure else "none",
    )
