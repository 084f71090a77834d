"""An open weld, followed through the bar and drawn: its end, a loupe, a chart, of glass.

`job` is the lesson as it is set.
"""

from dataclasses import replace
from typing import Any

import numpy as np
from PIL import Image

from kit.basics.units import Units, format_length, format_thin
from kit.course.lessons.scene import Panel
from kit.forge.billet import Billet
from kit.forge.flaw import Flaw, inside_patch, since
from kit.metal import etch
from kit.section.picture import ACCENT, INK, QUIET, Sheet
from kit.section.surface import Plane, cut, told_place
from kit.section.trace import Face
from kit.section.welds import crossings, darkened, hair_lines

TILE = (200, 150)  # pixels
END_AT, END = (20, 52), (240, 300)  # columns and rows of the sawn end
LOUPE_AT, LOUPE = (345, 52), 170
MAGNIFIED = 8
CHART_AT, WIDE, HIGH = (580, 10), 400, 216
WIDEST = 26  # pixels from weld to weld
STRIP_AT, STRIP = (20, 416), (960, 74)
WEDGE = 13  # pixels
MOST_BOLD = 16  # lines in the bar of glass
ASIDE = 3.0  # mm from the axis, where the middle of a short patch lies


def heights(billet: Billet, flaw: Flaw, x: float) -> tuple[float, ...]:
    """Give where the gap is met at a place along the bar, mm from below."""
    half = billet.size.thickness / 2
    return tuple(crossings(billet, flaw, (x, ASIDE, -half), (x, ASIDE, half)))


def lies(
    billet: Billet, flaw: Flaw, copies: tuple[float, ...], along: np.ndarray
) -> np.ndarray:
    """Tell where each copy is open: (copies, places), places mm along the bar."""
    later = since(billet, flaw)
    x, z = np.meshgrid(along, np.array(copies) - billet.size.thickness / 2)
    before = later.undo((x, np.full_like(x, ASIDE), z))
    return np.minimum(*inside_patch(later, flaw, before)) >= 0


def sawn_end(sheet: Sheet, job: Any, units: Units) -> Panel:
    """Draw the sawn end, its hairlines black, a wedge beside each."""
    billet = job.billet
    plane = _end(billet, job.position, END, billet.size.thickness / END[1])
    columns, rows = END
    left, top = END_AT
    thick = format_length(billet.size.thickness, units)
    sheet.above(END_AT, "The sawn end, etched", f"its middle; {thick} high")
    seen = etch.seen(billet, plane)
    sheet.steel(_etched(billet, job.flaw, plane, seen), END_AT, plane)
    sheet.box((left - 1, top - 1), (left + columns, top + rows))
    high = min(5.0, 0.45 * rows / max(len(job.met), 1))
    for height in job.met:
        y = top + rows - height / plane.pixel
        _wedge(sheet, (left + columns + 3, y), high)
    return Panel(billet, plane, END_AT, seen)


def expected_end(billet: Billet, met: tuple[float, ...]) -> Image.Image:
    """Draw a sawn end with black hairlines so high, mm from below, a wedge beside each."""
    thickness = billet.size.thickness
    plane = _end(billet, 50, (TILE[0] - WEDGE - 6, TILE[1]), thickness / TILE[1])
    sheet = Sheet(*TILE)
    sheet.steel(etch.seen(billet, plane), (0, 0))
    for height in met:
        y = TILE[1] - height / plane.pixel
        sheet.line([(0, y), (plane.columns, y)], width=3)
        _wedge(sheet, (plane.columns + 3, y), 5.0)
    return sheet.image


def loupe(sheet: Sheet, job: Any, units: Units) -> Panel:
    """Look closer at the hairline nearest to the middle; without one, at the middle."""
    billet, flaw, thickness = job.billet, job.flaw, job.billet.size.thickness
    pixel = thickness / END[1] / MAGNIFIED
    height = min(job.met, key=lambda one: abs(one - thickness / 2), default=thickness / 2)
    plane = _end(billet, job.position, (LOUPE, LOUPE), pixel)
    across = flaw.y - flaw.wide / 2 if flaw.y else 0.0  # where a short patch begins
    centre = told_place((plane.centre[0], across, height - thickness / 2))
    plane = replace(plane, centre=centre)
    left, top = LOUPE_AT
    words = "a hairline" if job.met else "no hairline here"
    sheet.above(LOUPE_AT, f"{MAGNIFIED} times larger", words)
    seen = etch.seen(billet, plane)
    sheet.steel(_etched(billet, flaw, plane, seen), LOUPE_AT, plane)
    sheet.box((left - 2, top - 2), (left + LOUPE + 1, top + LOUPE + 1), width=2)
    sheet.scale_bar((left, top + LOUPE + 34), pixel, units, most=LOUPE)
    half = LOUPE / MAGNIFIED / 2
    x = END_AT[0] + END[0] / 2 + across * END[1] / thickness
    y = END_AT[1] + END[1] - height * END[1] / thickness
    sheet.box((x - half, y - half), (x + half, y + half), ink=ACCENT, width=2)
    sheet.dashes((x + half, y - half), (left - 2, top), ink=ACCENT)
    sheet.dashes((x + half, y + half), (left - 2, top + LOUPE), ink=ACCENT)
    _legend(sheet, job, units, (left, top + LOUPE + 48))
    return Panel(billet, plane, LOUPE_AT)


def seen_through(sheet: Sheet, job: Any, units: Units) -> None:
    """Draw the whole bar from its side as if of glass, the gap black, and the saw."""
    left, top = STRIP_AT
    columns, rows = STRIP
    length, _, thickness = job.billet.size
    larger = (rows / thickness) / (columns / length)
    words = (
        f"The whole bar as if of glass: where the gap lies. It is "
        f"{format_length(length, units)} long, drawn {larger:.1f} times too thick"
    )
    sheet.above((left, top - 6), words)
    sheet.box((left - 1, top - 1), (left + columns, top + rows), ink=QUIET)
    along = (np.arange(columns) + 0.5) / columns * length
    width = 2 if len(job.copies) <= MOST_BOLD else 1
    found = lies(job.billet, job.flaw, job.copies, along)
    for height, here in zip(job.copies, found, strict=True):
        y = top + rows * (1 - height / thickness)
        steps = np.flatnonzero(np.diff(here, prepend=False, append=False))
        for start, end in steps.reshape(-1, 2):
            sheet.line([(left + start, y), (left + end, y)], width=width)
    saw = left + job.position / 100 * columns
    sheet.line([(saw, top - 9), (saw, top + rows + 9)], ink=ACCENT, width=4)
    where, aside = ("rm", -10) if job.position > 50 else ("lm", 10)
    place = (saw + aside, top + rows + 13)
    sheet.text("the saw", place, size=16, ink=ACCENT, anchor=where)


def _end(billet: Billet, position: float, shape: tuple[int, int], pixel: float) -> Plane:
    columns, rows = shape
    return cut(
        billet.size, angle=90, position=position, columns=columns, rows=rows, pixel=pixel
    )


def _etched(billet: Billet, flaw: Flaw, plane: Plane, face: Face) -> Face:
    return darkened(face, hair_lines(billet, plane, [flaw]))


def _wedge(sheet: Sheet, at: tuple[float, float], high: float) -> None:
    x, y = at
    sheet.shape([(x, y), (x + WEDGE, y - high), (x + WEDGE, y + high)], fill=ACCENT)


def _legend(sheet: Sheet, job: Any, units: Units, at: tuple[float, float]) -> None:
    left, top = at
    if not job.met:
        for line, text in enumerate(("This end is clean.", "Is the bar?")):
            sheet.text(text, (left, top + sheet.row * line))
        return
    _wedge(sheet, (left, top + 10), 5.0)
    many = f"{len(job.met)} hairlines" if len(job.met) > 1 else "1 hairline"
    for line, text in enumerate((many, "on this end")):
        sheet.text(text, (left + 21, top + sheet.row * line), ink=ACCENT)
    gap = format_thin(job.flaw.opening, units)
    for line, text in enumerate((f"gap {gap},", "illustrative"), 2):
        sheet.text(text, (left, top + sheet.row * line + 3), ink=QUIET)


def chart(sheet: Sheet, first: int, folds: int, weld: int, open_: tuple[bool, ...]) -> None:
    """Draw one column a weld, in the order made, one cell for each time it lies in the bar.

    So many as `first` were made in the stack. Cells follow each other as the copies do
    in the bar, from below; open ones are black.
    """
    left, top = CHART_AT
    sheet.text("Every weld, in the order it was made:", (left, top), size=18)
    sheet.text("one cell for each place; black: open", (left, top + sheet.row), size=18)
    count = first + folds
    step, high = min(WIDEST, WIDE / count), HIGH / 2**folds
    base = top + 76 + HIGH
    for made in range(1, count + 1):
        x = left + (made - 1) * step
        sound = (False,) * 2 ** (folds - max(0, made - first))
        bad = made == weld
        _column(sheet, (x, base), step, high, open_ if bad else sound)
        if bad:
            _point(sheet, (x + step / 2, base - len(sound) * high - 4))
    for made in sorted({weld, 1, *range(first, count + 1)}, key=lambda one: one != weld):
        at, ink = (left + (made - 0.5) * step, base + 4), ACCENT if made == weld else INK
        sheet.text(str(made), at, anchor="ma", ink=ink, gives_way=True)
    _kinds(sheet, first, folds, (left, base + 27), step)


def _column(
    sheet: Sheet, at: tuple[float, float], step: float, high: float, cells: tuple[bool, ...]
) -> None:
    x, base = at
    for cell, full in enumerate(cells):
        low = base - cell * high
        fill = INK if full else sheet.page
        sheet.box((x + 2, low - high), (x + step - 2, low), fill=fill, ink=QUIET)


def _point(sheet: Sheet, at: tuple[float, float]) -> None:
    x, y = at
    sheet.shape([(x, y), (x - 6, y - 13), (x + 6, y - 13)], fill=ACCENT)


def _kinds(
    sheet: Sheet, first: int, folds: int, at: tuple[float, float], step: float
) -> None:
    left, y = at
    middle = left + first * step
    sheet.line([(left + 2, y), (middle - 3, y)], ink=QUIET, width=2)
    sheet.text("in the stack", ((left + middle) / 2, y + 5), size=16, anchor="ma")
    if folds:
        end = middle + folds * step
        sheet.line([(middle + 3, y), (end - 2, y)], ink=QUIET, width=2)
        words = "one a fold" if folds > 2 else "fold" if folds == 1 else "folds"
        sheet.text(words, ((middle + end) / 2, y + 5), size=16, anchor="ma")
