"""A clad blade drawn, sawn and opened out, with the line of its core."""

from collections.abc import Sequence
from functools import lru_cache

import numpy as np
from PIL import Image

from kit.basics.units import Units, format_length, in_figures
from kit.course.lessons.drawing import TRUE_SIZE, Still
from kit.course.lessons.san_mai_line import CORE, LENGTH, LOST, SPARE, Clad, Traced
from kit.course.lessons.scene import Panel, keep
from kit.metal import etch
from kit.section.blade import Section, Turned
from kit.section.half import filled_up, thinned
from kit.section.picture import ACCENT, INK, QUIET, Sheet, to_srgb

CLADDING, NICKEL = "wrought iron", "nickel"
SAWN = 60.0  # mm from the heel: where the section is
SIDES = ("left", "right")

COLUMNS, ROWS = 1000, 566  # pixels
SECTION = (640, 116)  # columns and rows at most
MIDDLE = 98  # row of the section's middle line
LARGER = 5
LEFT = 20
EDGE = 382  # row of the edge that both sides meet at
SIDE_ROWS = 138  # at most, of each side
HATCHED = 6.0  # mm above the edge: so high is the hatch; it marks a place, not an area
BAND = "#DDD3BF"
TILE = (200, 150)
TILE_PIXEL = 0.23  # mm: both sides up to 17 mm above the edge


def length(mm: float, units: Units) -> str:
    """Write a line's height: tenths of a millimetre are what a ruler tells."""
    return f"{mm:.1f} mm" if units is Units.MM else format_length(mm, units)


def hundredths(mm: float, units: Units) -> str:
    """Write a thickness: hundredths are what a calliper tells."""
    return f"{mm:.2f} mm" if units is Units.MM else format_length(round(mm, 4), units)


def section(sheet: Sheet, clad: Clad, lines: dict[str, Traced]) -> Panel:
    """Draw the blade sawn across, lying on its right side."""
    wide, high = SECTION
    thick = clad.billet.size.thickness
    fit = min(wide * TRUE_SIZE / clad.height, high * TRUE_SIZE / thick)
    larger = min(LARGER, int(fit))
    pixel = in_figures(TRUE_SIZE / larger)
    view = Section(
        grind=clad.grind, size=clad.billet.size, heel=SPARE, at=SAWN,
        columns=round(thick / pixel) + 4, rows=round(clad.height / pixel) + 4,
        pixel=pixel,
    )  # fmt: skip
    lying = Still(Turned(view, -1))
    at = (LEFT, MIDDLE - lying.rows // 2)
    size = f"about {larger} times true size at full width"
    sheet.text(f"Across the blade, {size}: edge to the left", (LEFT, 6), size=18)
    sheet.steel(etch.seen(clad.billet, lying), at, lying)
    shape, thin = (lying.rows, lying.columns), thinned(lying)
    look = thin.look(0, thin.rows, float)
    inside = look.cover[:, 1:-1] > 0.5
    up = look.points[1][:, 1:-1] + clad.height / 2
    depth = clad.billet.undo(look.points)[2][:, 1:-1]
    low, high = clad.faces
    core = filled_up(inside & (depth > low) & (depth < high), *shape)
    mark(sheet, core & dots(shape), at, sheet.page)
    for name, cladding in (("left", depth < low), ("right", depth > high)):
        if at_section(lines[name].near, lines[name]) <= LOST:
            lost = filled_up(inside & cladding & (up < HATCHED), *shape)
            share = at_section(lines[name].lost, lines[name]) / clad.grind.edge
            mark(sheet, lost & hatch(shape, share), at, INK)
    mark(sheet, _rim(thin, shape), at, INK)
    sheet.text("left", (LEFT, MIDDLE - SECTION[1] // 2), size=18, anchor="lt")
    sheet.text("right", (LEFT, MIDDLE + SECTION[1] // 2), size=18, anchor="lb")
    return Panel(clad.billet, lying.surface, at)


def at_section(values: np.ndarray, line: Traced) -> float:
    """Give what is true of the column in which the blade is sawn."""
    return float(values[np.argmin(np.abs(line.along - SAWN))])


def sides(
    sheet: Sheet, clad: Clad, lines: dict[str, Traced], units: Units
) -> tuple[tuple[Panel, ...], float]:
    """Draw both sides, opened out at the edge, with the core's line; give mm a pixel."""
    pixel = in_figures(max(TRUE_SIZE, clad.height / (SIDE_ROWS - 4)))
    columns, rows = round(LENGTH / pixel) + 8, round(clad.height / pixel) + 4
    larger = TRUE_SIZE / pixel
    size = "true size" if larger > 0.99 else f"{larger:.2f} times true size"
    words = f"Both sides, opened out at the edge (about {size} at full width)"
    sheet.text(words, (LEFT, EDGE - SIDE_ROWS - 36), size=18)
    panels, laid = [], []
    for name, quarters, row in (("left", 0, EDGE - rows), ("right", 2, EDGE)):
        view = Still(Turned(clad.side(name, pixel, columns, rows), quarters))
        face = etch.seen(clad.billet, view)
        laid.append(sheet.blade(face, (LEFT, row), view))
        panels.append(Panel(clad.billet, view.surface, (LEFT, row), face))
    sheet.image.paste(*laid[0])  # over the other's shadow
    for name, way, anchor in (("left", -1, "lt"), ("right", 1, "lb")):
        sheet.text(name, (LEFT, EDGE + way * SIDE_ROWS), size=18, anchor=anchor)
    for name, panel in zip(lines, panels, strict=True):
        _line(sheet, clad, lines[name], panel)
    sheet.scale_bar((LEFT, ROWS - 8), pixel, units)
    return tuple(panels), pixel


def _line(sheet: Sheet, clad: Clad, line: Traced, panel: Panel) -> None:
    """Draw the traced line, and hatch where the cladding has become the edge."""
    at, shape = panel.corner, (panel.surface.rows, panel.surface.columns)
    view = Still(thinned(panel.surface))
    look = view.look(0, view.rows, float)
    inside = look.cover[:, 1:-1] > 0.5
    along = look.points[0][0, 1:-1] - SPARE
    order = np.argsort(line.along)
    near, far, share = (
        np.interp(along, line.along[order], values[order])
        for values in (line.near, line.far, line.lost / clad.grind.edge)
    )
    up = look.points[1][:, 1:-1] + clad.height / 2 - clad.grind.outline.edge(along).above
    hatched = inside & (up < np.maximum(np.where(near <= LOST, HATCHED, 0), far))
    if hatched.any():  # the core has left the edge, or comes out on this side, too
        depth = clad.billet.undo(look.points)[2][:, 1:-1]
        low, high = clad.faces
        lost = filled_up(hatched & ((depth < low) | (depth > high)), *shape)
        mark(sheet, lost & hatch(shape, filled_up(share[None], 1, shape[1])), at, INK)
    for values in (line.near, line.far):
        shown = (values > LOST) & (values < line.high * 0.999)
        for piece in np.split(np.arange(len(shown)), np.flatnonzero(np.diff(shown)) + 1):
            if shown[piece[0]] and len(piece) > 1:
                sheet.line(_places(clad, line, values, piece, panel), ink=ACCENT, width=2)


def _places(
    clad: Clad, line: Traced, values: np.ndarray, piece: np.ndarray, panel: Panel
) -> list[tuple[float, float]]:
    """Give the places on the sheet of a piece of a traced line."""
    view, (left, top) = panel.surface, panel.corner
    along = line.along[piece]
    across = clad.grind.outline.edge(along).above + values[piece] - clad.height / 2
    middle, right, up = _axes(view)
    places = np.outer(along + SPARE, right - middle) + np.outer(across, up - middle)
    return list(map(tuple, (places + middle + (left, top)).tolist()))


@lru_cache(maxsize=4)
def _axes(view: Turned) -> tuple[np.ndarray, ...]:
    """Give the places in a view of the bar's beginning, and of 1 mm along it and up."""
    return tuple(np.array(view.place(point)) for point in ((0, 0, 0), (1, 0, 0), (0, 1, 0)))


def band(
    sheet: Sheet,
    clad: Clad,
    lines: dict[str, Traced],
    pixel: float,
    reach: float,
    units: Units,
) -> None:
    """Draw beside the heel where both lines may lie, and where they do.

    `reach` is how far from the middle the core may come, mm; 0, if it cannot be moved.
    """
    left = LEFT + round(LENGTH / pixel) + 18
    up = np.linspace(0, clad.height, 800)
    half = clad.grind.half(np.full_like(up, SAWN), up)
    most = float(np.interp(reach, half, up))
    for name, line in lines.items():
        way = -1 if name == "left" else 1
        row = EDGE + way * 96
        at, words = (left + 36, row), heights(line, clad.height, units)
        sheet.text(f"{name.capitalize()} side", at, size=18, anchor="ls")
        sheet.text(words, (at[0], row + sheet.row), size=18, anchor="ls", ink=ACCENT)
        if not reach:
            continue
        ends = sorted((EDGE, EDGE + way * most / pixel))
        sheet.box((left, ends[0]), (left + 16, ends[1]), fill=BAND, ink=QUIET)
        low, high = (min(max(height, 0), clad.height) for height in line.heights)
        rows = sorted(EDGE + way * height / pixel for height in (low, high))
        sheet.box((left - 4, rows[0] - 2), (left + 20, rows[1] + 2), fill=ACCENT, ink=None)
    if not reach:
        return
    words = f"Band: lines up to {length(round(most, 4), units)} leave the edge all core."
    sheet.lines(words, (left + 36, EDGE - sheet.row), COLUMNS - left - 36, ink=QUIET)


def height(line: Traced, high: float, units: Units) -> str:
    """Write where the line is on one side of a blade so high, mm; or "none", or "lost"."""
    lowest, highest = line.heights
    if lowest >= high * 0.999:
        return "none"
    if highest < -LOST:
        return "lost"
    lowest, highest = (up if up > LOST else 0.0 for up in (lowest, highest))
    if highest - lowest < 0.05:
        return length(highest, units)
    return f"{length(lowest, units)} to {length(highest, units)}"


def heights(line: Traced, high: float, units: Units) -> str:
    """Say where the line is on one side of a blade so high, mm."""
    found = height(line, high, units)
    cladding = hundredths(float(line.lost[line.straight].max()), units)
    missing = {"none": "core up to the spine: no line"}
    missing["lost"] = f"{cladding} of the edge is cladding"
    above = "" if " to " in found else " above the edge"
    return missing.get(found, f"line {found}{above}")


def tolerance(
    sheet: Sheet, panel: Panel, permissible: float, offset: float, units: Units
) -> None:
    """Draw at the spine how far the middle of the core may wander, and where it is; mm."""
    pixel = panel.surface.pixel
    left = LEFT + panel.surface.columns + 16
    reach, off = max(permissible, 0.0) / pixel, offset / pixel  # or none at all
    box = (left, MIDDLE - reach), (left + 14, MIDDLE + reach)
    sheet.box(*box, fill=BAND, ink=QUIET)
    sheet.line([(left - 6, MIDDLE), (left + 20, MIDDLE)], ink=QUIET)
    row = MIDDLE - off
    sheet.box((left - 3, row - 2), (left + 17, row + 2), fill=ACCENT, ink=None)
    share = hundredths(permissible, units)
    at = (left + 30, MIDDLE - sheet.row)
    sheet.lines(f"Band: ± {share} for the middle of the core", at, 240, ink=QUIET)


def legend(sheet: Sheet, clad: Clad) -> None:
    """Say what the greys, the dots and the hatch mean, below the section."""
    at = 0, MIDDLE + SECTION[1] // 2
    keep(sheet, at, (COLUMNS, 40), _legend, NICKEL in clad.billet.source.steels)


def _legend(sheet: Sheet, nickel: bool) -> None:
    tones = etch.tones([CORE, CLADDING, NICKEL])
    row = 20
    entries = [(CORE, f"core, {CORE}"), (CLADDING, f"cladding, {CLADDING}")]
    entries += [(NICKEL, "nickel")] if nickel else []
    left = LEFT
    for name, words in entries:
        grey = "#{0:02x}{0:02x}{0:02x}".format(int(to_srgb(np.array(tones[name]))))
        sheet.box((left, row - 8), (left + 26, row + 8), fill=grey)
        if name == CORE:
            mark(sheet, dots((15, 25)), (left + 1, row - 7), sheet.page)
        sheet.text(words, (left + 34, row), anchor="lm")
        left = sheet.words[-1][2] + 26
    sheet.box((left, row - 8), (left + 26, row + 8))
    mark(sheet, hatch((15, 25), 0.2), (left + 1, row - 7), INK)
    sheet.text("cladding has become the edge", (left + 34, row), anchor="lm")


def mark(sheet: Sheet, mask: np.ndarray, at: tuple[int, int], ink: str) -> None:
    """Paint some pixels."""
    painted = Image.fromarray(mask)
    if box := painted.getbbox():  # often a small part
        sheet.image.paste(ink, (at[0] + box[0], at[1] + box[1]), painted.crop(box))


@lru_cache(maxsize=2)
def dots(shape: tuple[int, int]) -> np.ndarray:
    """Make a pattern of dots, in rows set off against each other."""
    row, column = np.ogrid[: shape[0], : shape[1]]
    return (row % 6 < 2) & ((column + row // 6 % 2 * 5) % 10 < 2)


def hatch(shape: tuple[int, int], share: float | np.ndarray) -> np.ndarray:
    """Make slanting lines, the wider the larger a share, 0 … 1; the ground stays seen."""
    wide = np.round(1 + 4 * share, 3)  # a last bit makes no line wider
    return sum(np.ogrid[: shape[0], : shape[1]]) % 9 < wide


@lru_cache(maxsize=2)
def _rim(seen: Still, shape: tuple[int, int]) -> np.ndarray:
    """Give the pixels of steel that have none on one of their four sides."""
    inside = seen.look(0, seen.rows, float).cover[:, 1:-1] > 0.5
    inside = filled_up(inside, *shape)
    padded = np.pad(inside, 1)
    core = padded[:-2, 1:-1] & padded[2:, 1:-1] & padded[1:-1, :-2] & padded[1:-1, 2:]
    return inside & ~core


def tile(clad: Clad, words: Sequence[str]) -> Image.Image:
    """Draw both sides of a blade, opened out at the edge; `words` name left and right."""
    sheet = Sheet(*TILE)
    edge, rows = TILE[1] // 2, round(clad.height / TILE_PIXEL) + 4
    columns = round(LENGTH / TILE_PIXEL) + 8
    for name, quarters in (("left", 0), ("right", 2)):
        view = Turned(clad.side(name, TILE_PIXEL, columns, rows), quarters)
        heel, _ = view.place((SPARE, 0.0, 0.0))
        row = edge - rows + 2 if name == "left" else edge - 2
        at = (TILE[0] + 8 - round(heel), row)  # the heel lies outside
        sheet.steel(etch.seen(clad.billet, view), at)
    sheet.line([(0, edge), (TILE[0], edge)], ink=INK)
    for said, row in zip(words, (4, TILE[1] - 25), strict=True):
        middle = TILE[0] / 2  # tiles are cropped at both ends on a narrow page
        sheet.box((middle - 76, row - 1), (middle + 76, row + 22), fill=sheet.page)
        sheet.text(said, (middle, row + 10), size=15, anchor="mm")
    return sheet.image
