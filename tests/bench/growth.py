"""How the cost grows with folds and with pixels: straight lines, or nearly."""

from kit.section.trace import see
from tests.bench import pieces
from tests.bench.clock import table, timed


def report() -> None:
    """Time the screen's mean."""
    rows = [
        (folds, pieces.flat(folds).layers, *(_cost(make(folds), 1000) for make in _MAKERS))
        for folds in range(1, 13)
    ]
    head = ("folds", "layers", "folds and cut, ms/Mpx", "with blows, ms/Mpx")
    table("growth with folds", head, rows)
    sides = (125, 250, 500, 1000, 2000)
    rows = [
        (f"{side} × {side}", cost, cost / side**2 * 1e6)
        for side in sides
        for cost in [_cost(pieces.flat(), side)]
    ]
    table("growth with pixels, 352 layers", ("pixels", "ms", "ms/Mpx"), rows)


_MAKERS = (pieces.flat, pieces.wavy)


def _cost(billet: pieces.Billet, side: int) -> float:
    plane = pieces.face(billet, side)
    return timed(lambda: see(billet, plane, pieces.TONES), repeats=5).median
