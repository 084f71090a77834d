"""Take times on a machine that others use too, and set them in a table."""

import statistics
import time
from collections.abc import Callable, Sequence
from typing import NamedTuple


class Times(NamedTuple):
    """Milliseconds."""

    median: float
    best: float
    p95: float


def timed(work: Callable[[], object], repeats: int = 9) -> Times:
    """Run once to warm up, then several times."""
    work()
    return summed([once(work) for _ in range(repeats)])


def once(work: Callable[[], object]) -> float:
    """Run a piece of work; give its milliseconds."""
    start = time.perf_counter()
    work()
    return (time.perf_counter() - start) * 1e3


def summed(times: Sequence[float]) -> Times:
    """Give the median, the best and the 95th percentile."""
    ranked = sorted(times)
    return Times(
        statistics.median(ranked), ranked[0], ranked[round(0.95 * (len(ranked) - 1))]
    )


def table(title: str, head: Sequence[str], rows: Sequence[Sequence[object]]) -> None:
    """Print rows under a title; the first column to the left, numbers to the right."""
    cells = [list(head), *([_written(cell) for cell in row] for row in rows)]
    wide = [max(len(row[place]) for row in cells) for place in range(len(head))]
    print(f"\n{title}")
    for number, row in enumerate(cells):
        first = row[0].ljust(wide[0])
        rest = (cell.rjust(width) for cell, width in zip(row[1:], wide[1:], strict=True))
        print("  ".join([first, *rest]))
        if number == 0:
            print("  ".join("-" * width for width in wide))


def _written(cell: object) -> str:
    if not isinstance(cell, float):
        return str(cell)
    if abs(cell) >= 100:
        return f"{cell:,.0f}"
    return f"{cell:.1f}" if abs(cell) >= 10 else f"{cell:.3g}"
