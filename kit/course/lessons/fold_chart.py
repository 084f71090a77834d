"""Layers after each fold, beside what adding would give."""

from __future__ import annotations

from kit.course.lessons.eye import EYE_300
from kit.section.picture import ACCENT, INK, PAGE, QUIET, Sheet

WIDE, HIGH = 380, 258


def draw(
    sheet: Sheet,
    at: tuple[int, int],
    pieces: int,
    folds: int,
    leaves: int,
    thickness: float,
) -> None:
    """Draw one column a fold, to scale, and the straight line of "each fold adds".

    Columns whose layers are finer than a good eye splits at 300 mm, cut square, are
    left open; the others are solid.
    """
    left, top = at
    sheet.text("Layers after each fold", (left, top), size=18)
    sheet.dashes((left, top + 38), (left + 50, top + 38), ink=ACCENT, width=3, dash=9)
    words = "if each fold only added a stack"
    sheet.text(words, (left + 60, top + 38), size=16, ink=ACCENT, anchor="lm")
    counts = [pieces * leaves**fold for fold in range(folds + 1)]
    base, highest = top + 77 + HIGH, counts[-1]
    step = WIDE / (folds + 1)
    places = [
        (left + (fold + 0.5) * step, base - HIGH * count / highest)
        for fold, count in enumerate(counts)
    ]
    for fold, (count, (x, y)) in enumerate(zip(counts, places, strict=True)):
        fine = thickness / count < EYE_300
        half = min(18, step * 0.36)
        sheet.box(
            (x - half, min(y, base - 2)),
            (x + half, base),
            fill=PAGE if fine else INK,
            ink=INK,
            width=2,
        )
        if folds <= 12 or fold % 2 == 0:
            sheet.text(str(fold), (x, base + 5), size=16, anchor="ma")
    sheet.text(f"{highest:,}", (places[-1][0], places[-1][1] - 5), anchor="mb")
    if folds:
        _adding_line(sheet, pieces, folds, places[0][0], step, base, highest)
    _legend(sheet, (left, base + 26))


def _adding_line(
    sheet: Sheet,
    pieces: int,
    folds: int,
    start: float,
    step: float,
    base: float,
    highest: int,
) -> None:
    ends = [
        (start + step * fold, base - HIGH * pieces * (fold + 1) / highest)
        for fold in (0, folds)
    ]
    sheet.dashes(*ends, ink=ACCENT, width=3, dash=9)


def _legend(sheet: Sheet, at: tuple[float, float]) -> None:
    x, y = at
    sheet.text(
        "folds. Solid: layers an eye can split at 300 mm;", (x, y), size=15, ink=QUIET
    )
    sheet.text("open: too fine for it (cut square)", (x, y + 17), size=15, ink=QUIET)
