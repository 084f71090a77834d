"""What tests share: samples of every forging step, and bars to do them to."""

import re
from importlib import import_module
from pathlib import Path
from typing import NamedTuple

import numpy as np

from kit.forge.billet import Billet, fold_and_draw
from kit.forge.stack import Stack
from kit.forge.steps import (
    Crop,
    CutAndStack,
    Dent,
    DrawOut,
    Drill,
    Fold,
    FourWay,
    Grind,
    GrindRound,
    Groove,
    Hammer,
    Points,
    QuarterTurn,
    RoundSize,
    RoundUp,
    SetOnTheBias,
    Size,
    Split,
    SquareUp,
    Step,
    Twist,
    Upset,
)
from kit.section.surface import Plane

STACKED = Size(150.0, 38.1, 31.75)
DRAWN = Size(400.0, 38.0, 12.0)
STOUT = Size(90.0, 25.0, 26.0)
SQUARE = Size(200.0, 16.0, 16.0)
ROUND = RoundSize(200.0, 16.0, 16.0)
FINE = 16  # samples across a pixel


class Sample(NamedTuple):
    """A step and the size, in mm, of the bar before it."""

    step: Step
    size: Size


SAMPLES: dict[str, Sample] = {
    "draw out thinner": Sample(DrawOut(thickness=12), STACKED),
    "draw out to a section": Sample(DrawOut(thickness=6, width=30), STACKED),
    "draw out thicker": Sample(DrawOut(thickness=40, width=45), DRAWN),
    "fold": Sample(Fold(), STACKED),
    "fold a thin bar": Sample(Fold(), DRAWN),
    "cut and stack in 2": Sample(CutAndStack(pieces=2), STACKED),
    "cut and stack in 3": Sample(CutAndStack(pieces=3), DRAWN),
    "cut and stack in 10": Sample(CutAndStack(pieces=10), DRAWN),
    "light blows": Sample(Hammer(depth=0.5, spacing=15, seed=1), DRAWN),
    "deepest blows": Sample(Hammer(depth=2.7, spacing=12, seed=2), DRAWN),
    "blows on a stack": Sample(Hammer(depth=4, spacing=40, seed=7), STACKED),
    "blows of many waves": Sample(Hammer(depth=2.5, spacing=20, seed=3, waves=8), DRAWN),
    "a quarter turn": Sample(QuarterTurn(), STACKED),
    "two quarter turns": Sample(QuarterTurn(quarters=2), STOUT),
    "three quarter turns": Sample(QuarterTurn(quarters=3), DRAWN),
    "round up": Sample(RoundUp(), SQUARE),
    "draw out a round bar": Sample(DrawOut(thickness=12), ROUND),
    "twist": Sample(Twist(turn_length=50), ROUND),
    "twist tight, left": Sample(Twist(turn_length=12, hand="left"), ROUND),
    "twist by hand": Sample(Twist(turn_length=40, uneven=30, seed=5), ROUND),
    "set on the bias": Sample(SetOnTheBias(degrees=45), ROUND),
    "square up": Sample(SquareUp(), ROUND),
    "grind": Sample(Grind(top=1, bottom=0.5, sides=2, ends=10), DRAWN),
    "crop": Sample(Crop(near=30, far=12), DRAWN),
    "grind round": Sample(GrindRound(), SQUARE),
    "cut bowls, stagger": Sample(
        Dent(way="cut and forged", across=8, depth=3, spacing=10, thickness=8), DRAWN
    ),
    "cut bowls with round rims, by hand": Sample(
        Dent(
            way="cut and forged",
            across=8,
            depth=3,
            spacing=12,
            faces="staggered",
            shoulder=2,
            wander=1.5,
            differ=25,
            seed=4,
        ),
        DRAWN,
    ),
    "press grooves with round rims, by hand": Sample(
        Groove(
            way="pressed and ground",
            across=8,
            depth=3,
            spacing=14,
            faces="top",
            shoulder=4,
            wander=2,
            differ=15,
            seed=5,
            thickness=6,
        ),
        DRAWN,
    ),
    "cut drill points": Sample(
        Drill(way="cut and forged", across=6, spacing=10, faces="top", differ=40), DRAWN
    ),
    "press drill points": Sample(
        Drill(way="pressed and ground", across=14, spacing=17), STACKED
    ),
    "press bowls above bowls": Sample(
        Dent(way="pressed and ground", across=9, depth=4, spacing=12, faces="opposite"),
        DRAWN,
    ),
    "cut a ladder": Sample(
        Groove(way="cut and forged", across=6, depth=4, spacing=7.5, thickness=7), DRAWN
    ),
    "press a ladder from below": Sample(
        Groove(way="pressed and ground", across=5, depth=6, spacing=12, faces="bottom"),
        DRAWN,
    ),
    "four-way, turned": Sample(FourWay(), SQUARE),
    "four-way, mirrored": Sample(FourWay(way="mirrored"), SQUARE),
    "upset": Sample(Upset(length=100), STACKED),
    "upset a round bar": Sample(Upset(length=100), ROUND),
    "split": Sample(Split(drag=12, reach=5), STACKED),
    "split by hand": Sample(
        Split(drag=12, reach=5, uneven=25, wander=1.5, seed=3), STACKED
    ),
}


def samples() -> dict[str, Sample]:
    """Give all samples: those above, and `STEP_SAMPLES` of tests of a single step."""
    found = dict(SAMPLES)
    for path in sorted(Path(__file__).parent.glob("test_*.py")):
        if re.search(r"^STEP_SAMPLES\b", path.read_text("utf-8"), re.MULTILINE):
            found |= import_module(path.stem).STEP_SAMPLES
    return found


def stack(
    pieces: int, thickness: float | tuple[float, float] = 3.0, **sizes: float
) -> Stack:
    """Lay bars of 1084 and 15N20 in turn."""
    return Stack.alternate("1084", "15N20", pieces=pieces, thickness=thickness, **sizes)


def bar_of(size: Size, pieces: int = 8, second: str = "15N20") -> Billet:
    """Lay bars that fill a size, of two steels in turn; ground round for a round one."""
    source = Stack.alternate(
        "1084", second, pieces=pieces, thickness=size.thickness / pieces,
        length=size.length, width=size.width,
    )  # fmt: skip
    bar = Billet(source=source)
    return bar.then(GrindRound()) if size.round else bar


def from_above(
    size: Size, x: float, z: float, columns: int, rows: int, pixel: float
) -> Plane:
    """Look down on a face along the bar at a height, about a place of its middle line."""
    return Plane(
        size=size, centre=(x, 0.0, z), right=(1.0, 0.0, 0.0), up=(0.0, 1.0, 0.0),
        columns=columns, rows=rows, pixel=pixel,
    )  # fmt: skip


def forged(
    pieces: int, folds: int, restack: int | None = None, thickness: float | None = None
) -> Billet:
    """Stack bars of 3 mm, fold or restack them, draw them out."""
    billet = Billet(source=stack(pieces))
    return fold_and_draw(billet, folds=folds, pieces=restack, thickness=thickness)


def inside(size, count=500, seed=11):
    """Points strewn through a bar."""
    share = np.random.default_rng(seed).random((3, count))
    x, y, z = share
    return x * size.length, (y - 0.5) * size.width, (z - 0.5) * size.thickness


def undone(billet: Billet, points: Points) -> tuple[np.ndarray, Points]:
    """Look up, point by point, which bar of the stack is there, and where in it.

    The plain way: undo every step, then search the heights of the bars. Nothing of
    the engine in kit/section/trace.py is used.
    """
    before = billet.undo(points)
    heights = np.cumsum([bar.thickness for bar in billet.source.layers])
    return np.searchsorted(heights, before[2] + heights[-1] / 2), before


def sampled(billet, plane):
    """Mean of 16 × 16 points in every pixel, looked up the plain way."""
    place = (np.arange(plane.columns * FINE) + 0.5) / FINE - plane.columns / 2
    down = (np.arange(plane.rows * FINE) + 0.5) / FINE - plane.rows / 2
    across, down = np.meshgrid(place * plane.pixel, -down * plane.pixel)
    points = tuple(
        middle + across * right + down * up
        for middle, right, up in zip(plane.centre, plane.right, plane.up, strict=True)
    )
    bright = undone(billet, points)[0] % 2  # every other bar is 15N20
    return bright.reshape(plane.rows, FINE, plane.columns, FINE).mean(axis=(1, 3))
