"""Every weld in the order it was made, and how often it lies in the finished bar."""

from __future__ import annotations

from kit.course.lessons.weld_flaw import FIRST, Job
from kit.section.picture import ACCENT, INK, PAGE, QUIET, Sheet

AT, WIDE, HIGH = (580, 10), 400, 216
WIDEST = 26  # pixels from weld to weld


def draw(sheet: Sheet, job: Job) -> None:
    """Draw one column a weld, one cell for each time it lies in the bar.

    Cells follow each other as the copies do in the bar, from below; open ones are black.
    """
    left, top = AT
    sheet.text("Every weld, in the order it was made:", (left, top), size=18)
    sheet.text("one cell for each time it lies in the bar", (left, top + 21), size=18)
    sheet.text("black: open", (left + WIDE, top + 23), anchor="ra", ink=ACCENT)
    count = FIRST + job.folds
    step, high = min(WIDEST, WIDE / count), HIGH / 2**job.folds
    base = top + 76 + HIGH
    named = {job.weld, *range(FIRST + 1, count + 1)}
    named |= {end for end in (1, FIRST) if abs(end - job.weld) != 1}
    for weld in range(1, count + 1):
        x = left + (weld - 1) * step
        sound = (False,) * 2 ** (job.folds - max(0, weld - FIRST))
        bad = weld == job.weld
        _column(sheet, (x, base), step, high, job.open if bad else sound)
        if bad:
            _point(sheet, (x + step / 2, base - len(sound) * high - 4))
        if weld in named:
            ink, size = (ACCENT, 17) if bad else (INK, 15)
            sheet.text(str(weld), (x + step / 2, base + 4), size=size, anchor="ma", ink=ink)
    _kinds(sheet, job.folds, (left, base + 27), step)


def _column(
    sheet: Sheet,
    at: tuple[float, float],
    step: float,
    high: float,
    cells: tuple[bool, ...],
) -> None:
    x, base = at
    for cell, full in enumerate(cells):
        low = base - cell * high
        fill = INK if full else PAGE
        sheet.box((x + 2, low - high), (x + step - 2, low), fill=fill, ink=QUIET)


def _point(sheet: Sheet, at: tuple[float, float]) -> None:
    x, y = at
    sheet.shape([(x, y), (x - 6, y - 13), (x + 6, y - 13)], fill=ACCENT)


def _kinds(sheet: Sheet, folds: int, at: tuple[float, float], step: float) -> None:
    left, y = at
    middle = left + FIRST * step
    sheet.line([(left + 2, y), (middle - 3, y)], ink=QUIET, width=2)
    sheet.text("in the first stack", ((left + middle) / 2, y + 5), size=16, anchor="ma")
    if folds:
        end = middle + folds * step
        sheet.line([(middle + 3, y), (end - 2, y)], ink=QUIET, width=2)
        words = "one a fold" if folds > 2 else "fold" if folds == 1 else "folds"
        sheet.text(words, ((middle + end) / 2, y + 5), size=16, anchor="ma")
