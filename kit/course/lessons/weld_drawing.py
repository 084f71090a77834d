"""Drawings of an open weld: the sawn end, a loupe on it, the bar seen through."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from kit.basics.units import Units, format_length
from kit.course.lessons.scene import Panel
from kit.course.lessons.weld_flaw import ASIDE, WHOLE, WIDE, Job
from kit.course.lessons.written import thin
from kit.metal import etch
from kit.section.finish import lit
from kit.section.picture import ACCENT, QUIET, Sheet
from kit.section.surface import Plane, cut
from kit.section.trace import Face, see
from kit.section.welds import darkened, hair_lines

END_AT, END = (20, 52), (240, 300)  # columns and rows of the sawn end
LOUPE_AT, LOUPE = (345, 52), 170
MAGNIFIED = 8
STRIP_AT, STRIP = (20, 416), (960, 74)
WEDGE = 13  # pixels
MOST_BOLD = 16  # lines in the bar of glass


def sawn_end(sheet: Sheet, job: Job, units: Units) -> Panel:
    """Draw the sawn end, its hair-lines black, a wedge beside each."""
    columns, rows = END
    plane = _end(job, columns, rows, job.billet.size.thickness / rows)
    left, top = END_AT
    sheet.text("The sawn end, etched", (left, 10), size=18)
    thick = format_length(job.billet.size.thickness, units)
    sheet.text(f"the middle of it; {thick} high", (left, 31), size=15, ink=QUIET)
    seen = see(job.billet, plane, etch.tones(job.billet.source.steels))
    sheet.steel(_etched(job, plane, seen), END_AT)
    sheet.box((left - 1, top - 1), (left + columns, top + rows))
    high = min(5.0, 0.45 * rows / max(len(job.met), 1))
    for height in job.met:
        y = top + rows - height / plane.pixel
        _wedge(sheet, (left + columns + 3, y), high)
    return Panel.drawn(job.billet, plane, END_AT, seen)


def loupe(sheet: Sheet, job: Job, units: Units) -> Panel:
    """Look closer at the hair-line nearest to the middle; without one, at the middle."""
    thickness = job.billet.size.thickness
    pixel = thickness / END[1] / MAGNIFIED
    height = min(job.met, key=lambda met: abs(met - thickness / 2), default=thickness / 2)
    plane = _end(job, LOUPE, LOUPE, pixel)
    across = 0.0 if job.patch == WHOLE else ASIDE - WIDE / 2  # where the patch begins
    plane = replace(plane, centre=(plane.centre[0], across, height - thickness / 2))
    left, top = LOUPE_AT
    sheet.text(f"{MAGNIFIED} times larger", (left, 10), size=18)
    words = "a hair-line" if job.met else "no hair-line here"
    sheet.text(words, (left, 31), size=15, ink=QUIET)
    seen = see(job.billet, plane, etch.tones(job.billet.source.steels))
    sheet.steel(_etched(job, plane, seen), LOUPE_AT)
    sheet.box((left - 2, top - 2), (left + LOUPE + 1, top + LOUPE + 1), width=2)
    sheet.scale_bar((left, top + LOUPE + 34), pixel, units, most=LOUPE)
    half = LOUPE / MAGNIFIED / 2
    x = END_AT[0] + END[0] / 2 + across * END[1] / thickness
    y = END_AT[1] + END[1] - height * END[1] / thickness
    sheet.box((x - half, y - half), (x + half, y + half), ink=ACCENT, width=2)
    sheet.dashes((x + half, y - half), (left - 2, top), ink=ACCENT)
    sheet.dashes((x + half, y + half), (left - 2, top + LOUPE), ink=ACCENT)
    _legend(sheet, job, units, (left, top + LOUPE + 66))
    return Panel(job.billet, plane, LOUPE_AT)


def seen_through(sheet: Sheet, job: Job, units: Units) -> None:
    """Draw the whole bar from its side as if of glass, the gap black, and the saw."""
    left, top = STRIP_AT
    columns, rows = STRIP
    length, _, thickness = job.billet.size
    larger = (rows / thickness) / (columns / length)
    words = (
        f"The whole bar, {format_length(length, units)} long, as if of glass: where the "
        f"gap lies in it (thickness drawn {larger:.1f} times too large)"
    )
    sheet.text(words, (left, top - 30), size=16)
    sheet.box((left - 1, top - 1), (left + columns, top + rows), ink=QUIET)
    along = (np.arange(columns) + 0.5) / columns * length
    width = 2 if len(job.copies) <= MOST_BOLD else 1
    for height, here in zip(job.copies, job.lies(along), strict=True):
        y = top + rows * (1 - height / thickness)
        steps = np.flatnonzero(np.diff(here, prepend=False, append=False))
        for start, end in steps.reshape(-1, 2):
            sheet.line([(left + start, y), (left + end, y)], width=width)
    saw = left + job.position / 100 * columns
    sheet.line([(saw, top - 9), (saw, top + rows + 9)], ink=ACCENT, width=4)
    where = "rm" if job.position > 50 else "lm"
    aside = -10 if job.position > 50 else 10
    place = (saw + aside, top + rows + 13)
    sheet.text("the saw", place, size=16, ink=ACCENT, anchor=where)


def _end(job: Job, columns: int, rows: int, pixel: float) -> Plane:
    return cut(
        job.billet.size,
        angle=90,
        position=job.position,
        columns=columns,
        rows=rows,
        pixel=pixel,
    )


def _etched(job: Job, plane: Plane, face: Face) -> Face:
    face = lit(face, pixel=plane.pixel, middle=(0.0, 0.0))
    return darkened(face, hair_lines(job.billet, plane, [job.flaw]))


def _wedge(sheet: Sheet, at: tuple[float, float], high: float) -> None:
    x, y = at
    sheet.shape([(x, y), (x + WEDGE, y - high), (x + WEDGE, y + high)], fill=ACCENT)


def _legend(sheet: Sheet, job: Job, units: Units, at: tuple[float, float]) -> None:
    left, top = at
    if not job.met:
        for line, text in enumerate(("This end is clean.", "Is the bar?")):
            sheet.text(text, (left, top + 22 * line), size=17)
        return
    _wedge(sheet, (left, top + 10), 5.0)
    many = f"{len(job.met)} hair-lines" if len(job.met) > 1 else "1 hair-line"
    for line, text in enumerate((many, "on this end")):
        sheet.text(text, (left + 21, top + 21 * line), size=17, ink=ACCENT)
    gap = thin(job.flaw.opening, units)
    sheet.text(f"gap: {gap} (illustrative)", (left, top + 47), size=15, ink=QUIET)
