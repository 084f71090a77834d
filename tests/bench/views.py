"""From a slider to a picture: all that happens in Python, encoding included."""

import itertools
import math

from kit.block import Block
from kit.etch import tones
from kit.picture import Sheet, encode
from kit.surface import cut_normal
from kit.trace import see
from tests.bench import pieces
from tests.bench.clock import Times, once, summed, table

TARGET = 40  # ms
CHANGES = 60


def report() -> None:
    """Move one slider at a time, 60 times."""
    rows = [
        ("a block, 640 × 400, cut, to JPEG", *_block()),
        *(
            (f"{view.__name__}: {key}", *_moved(view, key, values))
            for view, key, values in _sliders()
        ),
        *((f"{view.__name__}: at rest, PNG", *_rested(view)) for view in _views()),
    ]
    table(
        f"slider to picture, ms, {CHANGES} changes (target: ≤ {TARGET} ms)",
        ("what", "median", "best", "p95"),
        rows,
    )


def _views() -> list[type]:
    from kit.views.bench import BenchView
    from kit.views.cut import CutView
    from kit.views.fold import FoldView

    return [CutView, FoldView, BenchView]


def _sliders() -> list[tuple[type, str, list[float]]]:
    cut, fold, bench = _views()
    angles = [46 + 44 * math.cos(change / 5) for change in range(CHANGES)]
    angles = [round(angle * 2) / 2 for angle in angles]
    folds = list(itertools.islice(itertools.cycle(range(13)), CHANGES))
    return [
        (cut, "angle", angles),
        (cut, "layers", [3 + change % 23 for change in range(CHANGES)]),
        (fold, "folds", folds),
        (fold, "thickness", [3 + 0.5 * (change % 55) for change in range(CHANGES)]),
        (bench, "angle", angles),
        (bench, "folds", [folds % 9 for folds in folds]),
    ]


def _moved(kind: type, key: str, values: list[float]) -> Times:
    view = kind()
    times = []
    for value in values:
        before, start = view.picture.frame, view.controls[key].value
        times.append(once(lambda value=value: setattr(view.controls[key], "value", value)))
        if value != start and view.picture.frame == before:
            msg = f"{kind.__name__} did not answer {key} = {value}: {view.says.value}"
            raise RuntimeError(msg)
    return summed(times)


def _rested(kind: type) -> Times:
    view = kind()
    return summed([once(view.rest) for _ in range(CHANGES)])


def _block() -> Times:
    billet = pieces.rack()
    etched = tones(billet.source.steels)

    def draw(angle: float) -> bytes:
        saw = cut_normal(angle), (75.0, 0.0, 0.0)
        block = Block.fitted(billet.size, 640, 400, cut=saw)
        sheet = Sheet(640, 400)
        sheet.steel(see(billet, block, etched), (0, 0))
        return encode(sheet.image, moving=True)

    draw(50)
    return summed([once(lambda a=10 + change: draw(a)) for change in range(CHANGES)])
