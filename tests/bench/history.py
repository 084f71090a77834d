"""The reference history: views, growth with its steps, memory of a large print.

Sines of the blows are an eighth of it (numpy takes 0.5 ns for one). As harmonics, by
products of the first, they would cost half: too little to draw all waves anew for.
"""

import sys
from dataclasses import replace
from functools import partial

from kit.section.blade import Blade
from kit.section.block import Block
from kit.section.grind import BladeGrind
from kit.section.outline import Outline
from kit.section.trace import see
from tests import weighing
from tests.bench import pieces
from tests.bench.clock import table, timed

MEGABYTES = 300  # over the picture
BEFORE = """
from kit.section.surface import cut
from kit.section.trace import see
from tests.bench import pieces
billet = pieces.reference()
see(billet, pieces.face(billet, 200), pieces.TONES, pixels={pixels!r})
"""
PRINT = """
plane = cut(billet.size, angle=2, columns={columns}, rows={rows}, pixel=0.003)
face = see(billet, plane, pieces.TONES, pixels={pixels!r})
print(sum(part.nbytes for part in face) / 2**20)
"""


def report() -> None:
    """Time the views, then the history step by step, then weigh a print."""
    billet = pieces.reference()
    rows = [
        (name, *timed(partial(see, billet, surface, pieces.TONES)), target)
        for name, surface, target in _views(billet)
    ]
    head = ("one picture, ms", "median", "best", "p95", "target")
    table(pieces.REFERENCE, head, rows)
    rows = [(*_stage(billet, count), _cost(billet[:count])) for count in _counts(billet)]
    table("growth with steps", ("last step", "steps", "layers", "ms/Mpx"), rows)
    _weigh()


def _views(billet: pieces.Billet) -> list[tuple]:
    outline = Outline(family="drop", length=200, height=22)
    grind = BladeGrind(outline=outline, kind="flat", spine=4, edge=0.4)
    blade = Blade(grind=grind, size=billet.size, columns=640, rows=400, pixel=0.32)
    spot = (blade.heel + 100, 0.0)
    there = tuple(x + (c - x) / 10 for c, x in zip(blade.centre, spot, strict=True))
    near = replace(blade, pixel=blade.pixel / 10, centre=there)
    block = Block.fitted(billet.size, 640, 400, span=(0, 60))
    return [
        ("blade, 640 × 400", blade, 25),
        ("the same through a loupe, × 10", near, 25),
        ("block, 640 × 400", block, 30),
        ("cut, 1000 × 1000", pieces.face(billet), 50),
    ]


def _counts(billet: pieces.Billet) -> range:
    return range(len(billet) + 1)


def _stage(billet: pieces.Billet, count: int) -> tuple[str, int, int]:
    name = billet.steps[count - 1].step if count else "the stack"
    return name, count, billet.tallies[count].layers


def _cost(billet: pieces.Billet) -> float:
    plane = pieces.face(billet)
    return timed(partial(see, billet, plane, pieces.TONES), repeats=5).median


def _weigh() -> None:
    """See 35 megapixels in a fresh process: how high its memory rises, over the result."""
    if not sys.platform.startswith("linux"):
        print("\nPeak memory is read in kB: not on this system.")
        return
    rows = []
    for pixels in ("mean", "fine"):
        risen, held = weighed(pixels, 7000, 5000)
        rows.append((pixels, risen, held, risen - held, MEGABYTES))
    head = ("pixels", "peak", "of it the result", "over it", "target")
    table("memory of a picture of 7000 × 5000 pixels, MB", head, rows)


def weighed(pixels: str, columns: int, rows: int) -> tuple[float, float]:
    """See a picture in a fresh process: MB at its peak, and of the result."""
    size = {"pixels": pixels, "columns": columns, "rows": rows}
    told = weighing.told(BEFORE.format(**size), PRINT.format(**size))
    return told.risen, float(told.words)
