"""Drawings of a clad blade: sawn across, and both sides opened out at the edge."""

from __future__ import annotations

import numpy as np

from kit.basics.units import Units, format_length
from kit.course.lessons.san_mai_blade import (
    CLADDING,
    CORE,
    LENGTH,
    NICKEL,
    SAWN,
    SPARE,
    Job,
)
from kit.course.lessons.san_mai_lines import LOST, Traced, Turned, side, traced
from kit.course.lessons.scene import Panel
from kit.metal import etch
from kit.section.blade import Section
from kit.section.finish import finished, lay
from kit.section.picture import ACCENT, INK, PAGE, QUIET, Sheet, to_srgb

COLUMNS, ROWS = 1000, 566
TRUE_SIZE = 25.4 / 96  # mm a pixel, by the CSS definition: about true on most screens
SECTION = (640, 116)  # columns and rows at most
MIDDLE = 98  # row of the section's middle line
LARGER = 5
LEFT = 20
EDGE = 382  # row of the edge that both sides meet at
SIDE_ROWS = 138  # at most, of each side
HATCHED = 6.0  # mm above the edge: so high is the hatch; it marks a place, not an area
BAND = "#DDD3BF"


def length(mm: float, units: Units) -> str:
    """Write a line's height: tenths of a millimetre are what a ruler tells."""
    return f"{mm:.1f} mm" if units is Units.MM else format_length(mm, units)


def section(sheet: Sheet, job: Job, lines: dict[str, Traced]) -> tuple[Panel, float]:
    """Draw the blade sawn across, lying on its right side; give mm a pixel, too."""
    wide, high = SECTION
    fit = min(wide * TRUE_SIZE / job.height, high * TRUE_SIZE / job.thickness)
    larger = min(LARGER, int(fit))
    pixel = TRUE_SIZE / larger
    view = Section(
        grind=job.grind, size=job.billet.size, heel=SPARE, at=SAWN,
        columns=round(job.thickness / pixel) + 4, rows=round(job.height / pixel) + 4,
        pixel=pixel,
    )  # fmt: skip
    lying = Turned(view, -1)
    at = (LEFT, MIDDLE - lying.rows // 2)
    size = f"about {larger} times true size at full width"
    words = f"Across the blade, {size}: edge to the left, left side above"
    sheet.text(words, (LEFT, 6), size=18)
    steel = finished(job.billet, lying, etch.tones(job.billet.source.steels))
    sheet.steel(steel, at)
    look = lying.look(0, lying.rows, float)
    inside = look.cover[:, 1:-1] > 0.5
    up = look.points[1][:, 1:-1] + job.height / 2
    depth = job.billet.undo(look.points)[2][:, 1:-1]
    low, high = job.faces
    mark(sheet, inside & (depth > low) & (depth < high) & dots(inside.shape), at, PAGE)
    beside = {"left": depth < low, "right": depth > high}
    for name, cladding in beside.items():
        if at_section(lines[name].near, lines[name]) <= LOST:
            mark(sheet, inside & cladding & (up < HATCHED) & hatch(inside.shape), at, INK)
    mark(sheet, inside & ~_core_of(inside), at, INK)
    return Panel(job.billet, lying, at), pixel


def at_section(values: np.ndarray, line: Traced) -> float:
    """Give what is true of the column in which the blade is sawn."""
    return float(values[np.argmin(np.abs(line.along - SAWN))])


def sides(
    sheet: Sheet, job: Job, lines: dict[str, Traced], units: Units
) -> tuple[tuple[Panel, ...], float]:
    """Draw both sides, opened out at the edge, with the core's line; give mm a pixel."""
    pixel = max(TRUE_SIZE, job.height / (SIDE_ROWS - 4))
    columns, rows = round(LENGTH / pixel) + 8, round(job.height / pixel) + 4
    tones = etch.tones(job.billet.source.steels)
    larger = TRUE_SIZE / pixel
    size = "true size" if larger > 0.99 else f"{larger:.2f} times true size"
    top = EDGE - SIDE_ROWS - 36
    words = f"Both sides, opened out at the edge (about {size} at full width)"
    sheet.text(words, (LEFT, top), size=18)
    panels, faces = [], []
    for name, quarters, row in (("left", 0, EDGE - rows), ("right", 2, EDGE)):
        view = Turned(side(job, name, pixel, columns, rows), quarters)
        face = finished(job.billet, view, tones)
        lay(sheet, face, (LEFT, row))
        panels.append(Panel(job.billet, view, (LEFT, row)))
        faces.append(face)
    sheet.steel(faces[0], (LEFT, EDGE - rows))  # over the shadow of the other
    for name, panel in zip(lines, panels, strict=True):
        _line(sheet, job, lines[name], panel)
    sheet.scale_bar((LEFT, ROWS - 8), pixel, units)
    return tuple(panels), pixel


def _line(sheet: Sheet, job: Job, line: Traced, panel: Panel) -> None:
    """Draw the traced line, and hatch where the cladding has become the edge."""
    view, at = panel.surface, panel.corner
    look = view.look(0, view.rows, float)
    inside = look.cover[:, 1:-1] > 0.5
    along = look.points[0][0, 1:-1] - SPARE
    order = np.argsort(line.along)
    near, far = (
        np.interp(along, line.along[order], values[order])
        for values in (line.near, line.far)
    )
    up = look.points[1][:, 1:-1] + job.height / 2 - job.grind.outline.edge(along).above
    hatched = np.maximum(np.where(near <= LOST, HATCHED, 0), far)
    depth = job.billet.undo(look.points)[2][:, 1:-1]
    low, high = job.faces
    cladding = (depth < low) | (depth > high)
    mark(sheet, inside & cladding & (up < hatched) & hatch(inside.shape), at, INK)
    for values in (line.near, line.far):
        shown = (values > LOST) & (values < line.high * 0.999)
        for piece in np.split(np.arange(len(shown)), np.flatnonzero(np.diff(shown)) + 1):
            if shown[piece[0]] and len(piece) > 1:
                sheet.line(_places(job, line, values, piece, panel), ink=ACCENT, width=2)


def _places(
    job: Job, line: Traced, values: np.ndarray, piece: np.ndarray, panel: Panel
) -> list[tuple[float, float]]:
    """Give the places on the sheet of a piece of a traced line."""
    view, (left, top) = panel.surface, panel.corner
    along = line.along[piece]
    across = job.grind.outline.edge(along).above + values[piece] - job.height / 2
    middle, right, up = (
        np.array(view.place(point)) for point in ((0, 0, 0), (1, 0, 0), (0, 1, 0))
    )
    places = np.outer(along + SPARE, right - middle) + np.outer(across, up - middle)
    return [tuple(place) for place in places + middle + (left, top)]


def band(
    sheet: Sheet, job: Job, lines: dict[str, Traced], pixel: float, units: Units
) -> None:
    """Draw beside the heel where both lines may lie, and where they do."""
    left = LEFT + round(LENGTH / pixel) + 18
    up = np.linspace(0, job.height, 800)
    half = job.grind.half(np.full_like(up, SAWN), up)
    most = float(np.interp(job.reach, half, up))
    for name, line in lines.items():
        way = -1 if name == "left" else 1
        row = EDGE + way * 96
        sheet.text(f"{name.capitalize()} side", (left + 36, row - 12), size=18, anchor="lm")
        words = heights(line, job, units)
        sheet.text(words, (left + 36, row + 12), size=18, anchor="lm", ink=ACCENT)
        if not job.clad:
            continue
        ends = sorted((EDGE, EDGE + way * most / pixel))
        sheet.box((left, ends[0]), (left + 16, ends[1]), fill=BAND, ink=QUIET)
        low, high = (min(max(height, 0), job.height) for height in line.heights)
        rows = sorted(EDGE + way * height / pixel for height in (low, high))
        sheet.box((left - 4, rows[0] - 2), (left + 20, rows[1] + 2), fill=ACCENT, ink=None)
    if not job.clad:
        return
    words = f"Band: the line may lie from 0 to {length(most, units)};"
    sheet.text(words, (left + 36, EDGE - 12), anchor="lm", ink=QUIET)
    words = "then all of the edge is core."
    sheet.text(words, (left + 36, EDGE + 10), anchor="lm", ink=QUIET)


def heights(line: Traced, job: Job, units: Units) -> str:
    """Say where the line is on one side."""
    low, high = line.heights
    if low >= job.height * 0.999:
        return "core up to the spine: no line"
    if high < -LOST:
        return "no core at the edge"
    low, high = (height if height > LOST else 0.0 for height in (low, high))
    if high - low < 0.05:
        return f"line {length(high, units)} above the edge"
    return f"line {length(low, units)} to {length(high, units)}"


def tolerance(sheet: Sheet, job: Job, pixel: float, units: Units) -> None:
    """Draw at the spine how far the middle of the core may wander, and where it is."""
    left = LEFT + round(job.height / pixel) + 20
    reach, off = max(job.permissible, 0.0) / pixel, job.offset / pixel  # or none at all
    box = (left, MIDDLE - reach), (left + 14, MIDDLE + reach)
    sheet.box(*box, fill=BAND, ink=QUIET)
    sheet.line([(left - 6, MIDDLE), (left + 20, MIDDLE)], ink=QUIET)
    row = MIDDLE - off
    sheet.box((left - 3, row - 2), (left + 17, row + 2), fill=ACCENT, ink=None)
    share = (
        f"{job.permissible:.2f} mm"
        if units is Units.MM
        else format_length(job.permissible, units)
    )
    sheet.text(f"Band: ± {share} for", (left + 30, MIDDLE - 12), anchor="lm", ink=QUIET)
    sheet.text("the middle of the core", (left + 30, MIDDLE + 10), anchor="lm", ink=QUIET)


def legend(sheet: Sheet, job: Job) -> None:
    """Say what the greys, the dots and the hatch mean, below the section."""
    tones = etch.tones([CORE, CLADDING, NICKEL])
    row = MIDDLE + SECTION[1] // 2 + 20
    entries = [(CORE, f"core, {CORE}"), (CLADDING, f"cladding, {CLADDING}")]
    entries += [(NICKEL, "nickel")] if job.nickel else []
    left = LEFT
    for name, words in entries:
        grey = "#{0:02x}{0:02x}{0:02x}".format(int(to_srgb(np.array(tones[name]))))
        sheet.box((left, row - 8), (left + 26, row + 8), fill=grey)
        if name == CORE:
            mark(sheet, dots((15, 25)), (left + 1, row - 7), PAGE)
        sheet.text(words, (left + 34, row), anchor="lm")
        left += 60 + 9 * len(words)
    sheet.box((left, row - 8), (left + 26, row + 8))
    mark(sheet, hatch((15, 25)), (left + 1, row - 7), INK)
    sheet.text("cladding has become the edge", (left + 34, row), anchor="lm")


def mark(sheet: Sheet, mask: np.ndarray, at: tuple[int, int], ink: str) -> None:
    """Paint some pixels."""
    from PIL import Image  # noqa: PLC0415  (keeps the core's import quick)

    sheet.image.paste(ink, at, Image.fromarray(mask.astype(np.uint8) * 255))


def dots(shape: tuple[int, int]) -> np.ndarray:
    """Make a pattern of dots, in rows set off against each other."""
    row, column = np.indices(shape)
    column = column + (row // 6 % 2) * 5
    return (row % 6 < 2) & (column % 10 < 2)


def hatch(shape: tuple[int, int]) -> np.ndarray:
    """Make a pattern of slanting lines."""
    row, column = np.indices(shape)
    return (row + column) % 7 < 2


def _core_of(inside: np.ndarray) -> np.ndarray:
    """Give the pixels that have steel on all four sides."""
    padded = np.pad(inside, 1)
    return padded[:-2, 1:-1] & padded[2:, 1:-1] & padded[1:-1, :-2] & padded[1:-1, 2:]


def both(job: Job) -> dict[str, Traced]:
    """Trace the core's line on both sides."""
    return {name: traced(job, name) for name in ("left", "right")}
