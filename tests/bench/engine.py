"""The engine against plain numpy: milliseconds for a million pixels."""

from collections.abc import Callable
from functools import partial

import numpy as np

from kit.section.trace import see
from tests.bench import pieces
from tests.bench.clock import table, timed

MEAN = "mean, for the screen"
TARGETS = {pieces.REFERENCE: 50}  # ms a megapixel, averaged
TARGET = 45  # for the simpler histories
SIDE = 1000
SMALL = 120  # side of the picture that is held against 16 × 16 samples


def report() -> None:
    """Time every way to see a face, and how far it is from the truth."""
    for name, billet in pieces.HISTORIES.items():
        ways = _ways(billet)
        plane, small = pieces.face(billet, SIDE), pieces.face(billet, SMALL)
        truth = pieces.sampled(billet, small)
        times = {
            way: timed(partial(seen, plane), repeats=3 if "plain" in way else 9)
            for way, seen in ways.items()
        }
        rows = [
            (
                way,
                times[way].median,
                times[way].best,
                times[way].median / times[MEAN].median,
                pieces.rms(seen(small), truth),
            )
            for way, seen in ways.items()
        ]
        target = TARGETS.get(name, TARGET)
        table(
            f"{name}: {SIDE} × {SIDE} pixels (target: mean ≤ {target} ms/Mpx)",
            ("way", "ms/Mpx", "best", "÷ mean", "rms to 16 × 16"),
            rows,
        )


def _ways(billet: pieces.Billet) -> dict[str, Callable[[pieces.Plane], np.ndarray]]:
    def engine(pixels: str) -> Callable[[pieces.Plane], np.ndarray]:
        return lambda plane: see(billet, plane, pieces.TONES, pixels=pixels).tone

    return {
        "point": engine("point"),
        MEAN: engine("mean"),
        "fine, for print": engine("fine"),
        "plain numpy, float64, point": lambda plane: pieces.plain(
            billet, pieces.points(plane)
        ),
        "plain numpy, 4 × 4 samples": lambda plane: pieces.sampled(billet, plane, 4),
    }
