"""Drawings of a folded bar: its end grain, a loupe on it, and layers after each fold."""

from typing import Any

from kit.basics.units import Units, format_length, in_figures
from kit.course.lessons.scene import Panel
from kit.forge.billet import Billet
from kit.metal.eye import EYE_300
from kit.section.picture import ACCENT, INK, QUIET, Sheet
from kit.section.surface import cut

GRAIN = 348  # rows of the end grain: always as high, however thick the bar
GRAIN_AT = (20, 52)
GRAIN_WIDE = 240
LOUPE = 150
LOUPE_AT = (345, 52)
MAGNIFIED = 20
MOST_MARKS = 64
WIDE, HIGH = 380, 248  # of the chart


def doubled(billet: Billet) -> int:
    """Count the places where like steel met like, so that two layers are one band."""
    return billet.layers - billet.bands


def end_grain(sheet: Sheet, billet: Billet, units: Units) -> Panel:
    """Draw the end grain, always as high, however thick the bar."""
    plane = cut(
        billet.size,
        angle=90,
        columns=GRAIN_WIDE,
        rows=GRAIN,
        pixel=in_figures(billet.size.thickness / GRAIN),
    )
    thick = format_length(billet.size.thickness, units)
    sheet.above(GRAIN_AT, "End grain of the bar", f"always this high: {thick}")
    panel = Panel.laid(sheet, billet, plane, GRAIN_AT)
    _mark_doubles(sheet, billet)
    sheet.box(
        (GRAIN_AT[0] - 1, GRAIN_AT[1] - 1), (GRAIN_AT[0] + GRAIN_WIDE, GRAIN_AT[1] + GRAIN)
    )
    return panel


def _mark_doubles(sheet: Sheet, billet: Billet) -> None:
    """Point at every band where like met like at a weld."""
    count = doubled(billet)
    stacks = billet.layers // len(billet.source.layers)
    right = GRAIN_AT[0] + GRAIN_WIDE + 3
    if not 0 < count <= MOST_MARKS:
        return
    for weld in range(1, stacks):
        y = GRAIN_AT[1] + GRAIN * (1 - weld / stacks)
        sheet.shape([(right, y), (right + 11, y - 3), (right + 11, y + 3)], fill=ACCENT)


def loupe(sheet: Sheet, billet: Billet, units: Units) -> Panel:
    """Look at a small square in the middle of the end grain, 20 times larger."""
    pixel = in_figures(billet.size.thickness / GRAIN / MAGNIFIED)
    plane = cut(billet.size, angle=90, columns=LOUPE, rows=LOUPE, pixel=pixel)
    left, top = LOUPE_AT
    sheet.text(f"Its middle, {MAGNIFIED} times", (left, 5), size=18)
    panel = Panel.laid(sheet, billet, plane, LOUPE_AT)
    sheet.box((left - 2, top - 2), (left + LOUPE + 1, top + LOUPE + 1), width=2)
    sheet.scale_bar((left, top + LOUPE + 34), pixel, units, most=LOUPE)
    half = LOUPE / MAGNIFIED / 2
    x = GRAIN_AT[0] + GRAIN_WIDE / 2
    y = GRAIN_AT[1] + GRAIN / 2
    sheet.box((x - half, y - half), (x + half, y + half), ink=ACCENT, width=2)
    sheet.dashes((x + half, y - half), (left - 2, top), ink=ACCENT)
    sheet.dashes((x + half, y + half), (left - 2, top + LOUPE), ink=ACCENT)
    marks = doubled(billet)
    if marks:
        y = top + LOUPE + 79
        sheet.shape([(left, y), (left + 11, y - 3), (left + 11, y + 3)], fill=ACCENT)
        words = ["like met like here:", "one double band", f"({marks:,} in all)"]
        for line, text in enumerate(words):
            at = (left + 17, y - 9 + sheet.row * line)
            sheet.text(text, at, ink=ACCENT)
    return panel


def chart(sheet: Sheet, at: tuple[int, int], job: Any) -> None:
    """Draw one column a fold, to scale, and the straight line of "each fold adds".

    `job` is the lesson as it is set.

    Columns whose layers are finer than a good eye resolves at 300 mm, cut square, are
    left open; the others are solid.
    """
    left, top = at
    sheet.text("Layers after each fold", (left, top), size=18)
    sheet.dashes((left, top + 38), (left + 50, top + 38), ink=ACCENT, width=3, dash=9)
    words = "if each fold only added a stack"
    sheet.text(words, (left + 60, top + 38), size=16, ink=ACCENT, anchor="lm")
    counts = [job.pieces * job.leaves**fold for fold in range(job.folds + 1)]
    base, highest = top + 77 + HIGH, counts[-1]
    step = WIDE / len(counts)
    places = [
        (left + (fold + 0.5) * step, base - HIGH * count / highest)
        for fold, count in enumerate(counts)
    ]
    for fold, (count, (x, y)) in enumerate(zip(counts, places, strict=True)):
        fine = job.thickness / count < EYE_300
        half = min(18, step * 0.36)
        sheet.box(
            (x - half, min(y, base - 2)),
            (x + half, base),
            fill=sheet.page if fine else INK,
            ink=INK,
            width=2,
        )
        sheet.text(str(fold), (x, base + 5), anchor="ma", gives_way=True)
    sheet.text(f"{highest:,}", (places[-1][0], places[-1][1] - 5), anchor="mb")
    if job.folds:
        added = base - HIGH * job.pieces * len(counts) / highest
        sheet.dashes(places[0], (places[-1][0], added), ink=ACCENT, width=3, dash=9)
    words = "folds. Open: layers too fine for a good eye, cut square"
    sheet.lines(words, (left, base + 26), WIDE, ink=QUIET)
