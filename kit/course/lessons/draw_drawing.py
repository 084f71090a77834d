"""Lesson 03's picture: a bar from the side, before and after, and marks that move along."""

import math
from dataclasses import replace
from typing import NamedTuple

import numpy as np
from PIL import Image, ImageDraw

from kit.basics.typed import MM_PER_INCH
from kit.basics.units import Units, format_length
from kit.course.lesson import Given
from kit.course.lessons.draw_ideas import full_length, growth, kept_length, longer, thinner
from kit.course.lessons.scene import Panel, keep
from kit.forge.billet import Billet
from kit.forge.steps import Points, Size
from kit.metal import etch
from kit.section.half import apart
from kit.section.picture import ACCENT, INK, QUIET, Sheet
from kit.section.surface import Plane, cut, fitting, told_place

DOT = 5.0  # mm across
LEAN = 45.0  # degrees
DOTS_AT = ((0.42, 0.0), (0.54, 0.22))  # shares of length and thickness, from the axis
LINE_AT = 0.2
HALO = "#FFFFFF"  # around the ink, so that it stands out from dark layers
HALO_WIDE, INK_WIDE = 5.5, 2.5  # pixels
SMOOTH = 4  # samples a pixel, each way
LEFT, WIDE = 20, 940
HIGH = 76  # rows of the thicker of the two bars, at most
BEFORE_TOP, AFTER_TOP = 31, 143
CLOSE_TOP, CLOSE_ROWS = 294, 112
DOT_PIXELS = 60  # a dot before, from close by
WINDOWS = ((20, 200), (245, 460), (745, 225))  # left edge, columns
FAINT, FAINT_INK = 0.45, 0.7


class Marks(NamedTuple):
    """Outlines of dots, and a line: points of the bar, mm."""

    dots: tuple[Points, ...]
    line: Points | None = None


def marks(size: Size) -> Marks:
    """Put two round dots and a line at 45° on the side of a billet of this size.

    They lie where even the largest loss, taken off the right end, leaves them.
    """
    around = np.linspace(0, 2 * math.pi, 73)
    side = np.full_like(around, -size.width / 2)
    dots = tuple(
        (
            along * size.length + DOT / 2 * np.cos(around),
            side,
            up * size.thickness + DOT / 2 * np.sin(around),
        )
        for along, up in DOTS_AT
    )
    reach = min(size.thickness, 0.3 * size.length)
    run = np.linspace(-0.5, 0.5, len(around)) * reach
    rise = run * math.tan(math.radians(LEAN))
    return Marks(dots, (LINE_AT * size.length + run, side, rise))


def moved(billet: Billet, made: Marks) -> Marks:
    """Follow marks on the stack through the billet's steps."""
    line = None if made.line is None else billet.do(made.line)
    return Marks(tuple(billet.do(dot) for dot in made.dots), line)


def ink(
    sheet: Sheet, plane: Plane, corner: tuple[int, int], made: Marks, strength: float = 1
) -> None:
    """Draw marks on a side view whose top left corner lies at `corner`."""
    dots = [_places(plane, dot) for dot in made.dots]
    line = [] if made.line is None else _places(plane, made.line)
    for colour, edge, stroke in (
        (HALO, HALO_WIDE - INK_WIDE, HALO_WIDE),
        (ACCENT, 0, INK_WIDE),
    ):
        mask = _mask(plane, dots, line, edge, stroke)
        if box := mask.getbbox():  # often a small part
            inked = mask.crop(box)
            if strength < 1:
                inked = inked.point(lambda share: int(share * strength))
            sheet.image.paste(colour, (corner[0] + box[0], corner[1] + box[1]), inked)


def _places(plane: Plane, points: Points) -> list[tuple[float, float]]:
    """Give pixel places, finer than pixels, as samples of the mask."""
    x, _, z = points
    column = plane.columns / 2 + (x - plane.centre[0]) / plane.pixel
    row = plane.rows / 2 - (z - plane.centre[2]) / plane.pixel
    smooth = _smooth(plane)
    return list(zip(column * smooth, row * smooth, strict=True))


def _smooth(plane: Plane) -> int:
    """Give how many samples a pixel has each way: fewer while the picture moves."""
    return SMOOTH // apart(plane.rows, plane.columns)


def _mask(plane: Plane, dots: list, line: list, edge: float, stroke: float) -> Image.Image:
    """Draw in black and white at several samples a pixel, then take the mean."""
    smooth = _smooth(plane)
    columns, rows = plane.columns * smooth, plane.rows * smooth
    joint = "curve" if smooth == SMOOTH else None  # what moves may have corners
    mask = Image.new("L", (columns, rows))
    brush = ImageDraw.Draw(mask)
    brush.line(line, fill=255, width=round(stroke * smooth))
    for dot in dots:
        brush.polygon(dot, fill=255)
        if edge:
            brush.line(dot, fill=255, width=round(edge * smooth), joint=joint)
    return mask.reduce(smooth)


def before_and_after(
    sheet: Sheet, billet: Billet, given: Given, units: Units
) -> tuple[Panel, ...]:
    """Draw the bar from the side, before and after, a dot from close by, and the end."""
    stack, made = billet[:0], marks(billet.sizes[0])
    pixel = _pixel(given)
    before, after = bar_words(given, units)
    sheet.above((LEFT, AFTER_TOP), f"After: {after}{_lost_words(given, units)}")
    wide = math.ceil(LEFT + given["L"] / pixel) + 4
    keep(sheet, (0, BEFORE_TOP - 2), (wide, HIGH + 4), _before, stack, pixel)
    sheet.above((LEFT, BEFORE_TOP), f"Before, faint: {before}")
    side = _side(stack, pixel, math.ceil(given["L"] / pixel) + 2, HIGH)
    whole = (
        Panel(stack, side, (LEFT - 1, BEFORE_TOP)),
        _whole(sheet, billet, made, AFTER_TOP, pixel, kept_length(given)),
    )
    _lost_end(sheet, given, pixel)
    _ends(sheet, given, pixel, units)
    _ruler(sheet, (LEFT, AFTER_TOP + HIGH + 7), pixel, units)
    return (*whole, *_close_ups(sheet, billet, made, given, units), _end(sheet, billet))


def pair(one: float, other: float, units: Units) -> str:
    """Write two lengths as 13.3 by 1.88 mm (the picture's font has no ×)."""
    words = [format_length(length, units) for length in (one, other)]
    name = words[1].rpartition(" ")[2]
    return f"{words[0].removesuffix(' ' + name)} by {words[1]}"


def bar_words(given: Given, units: Units) -> tuple[str, str]:
    """Write the bar's size before, and after if nothing were lost."""
    before = format_length(given["L"], units), given["W"], given["T"]
    after = format_length(full_length(given), units), given["w"], given["t"]
    return tuple(
        f"{length} long, {pair(width, thick, units)}"
        for length, width, thick in (before, after)
    )


def _lost_words(given: Given, units: Units) -> str:
    if not given["loss"]:
        return ""
    kept = format_length(kept_length(given), units)
    return f"; less {given['loss']:g} %: {kept}"


def _pixel(given: Given) -> float:
    """Choose mm a pixel: both bars fit, and the scale keeps still while one is drawn."""
    longest = max(full_length(given), 2.75 * given["L"])
    return fitting(longest / WIDE, given["T"] / HIGH, given["t"] / HIGH)


def _side(billet: Billet, pixel: float, columns: int, rows: int) -> Plane:
    """Look at the bar's side, its left end one pixel inside the picture."""
    centre = (((columns - 1) / 2 - 0.5) * pixel, -billet.size.width / 2, 0.0)
    return Plane.facing(billet, "side", centre, (columns, rows), pixel)


def _before(sheet: Sheet, stack: Billet, pixel: float) -> None:
    """Draw the bar as it was; most moves leave it so."""
    _whole(sheet, stack, marks(stack.size), 2, pixel, stack.size.length)


def _whole(
    sheet: Sheet, billet: Billet, made: Marks, top: int, pixel: float, kept: float
) -> Panel:
    """Draw a bar from its left end as far as it is kept; one without steps, faint."""
    ghost = not billet.steps
    wide = kept / pixel
    side = _side(billet, pixel, math.ceil(wide) + 2, HIGH)
    corner = (LEFT - 1, top)
    face = etch.seen(billet, side)
    inside = np.clip(wide + 1 - np.arange(side.columns), 0, 1)
    face = face._replace(cover=face.cover * inside * (FAINT if ghost else 1))
    sheet.steel(face, corner, side)
    ink(sheet, side, corner, moved(billet, made), FAINT_INK if ghost else 1)
    middle, half = top + HIGH / 2, billet.size.thickness / pixel / 2
    edge = (LEFT - 1, middle - half - 1), (LEFT + wide, middle + half)
    sheet.box(*edge, ink=QUIET if ghost else INK)
    return Panel(billet, side, corner)


def _lost_end(sheet: Sheet, given: Given, pixel: float) -> None:
    """Outline what is lost in dashes, all of it at the right end, and cross it out."""
    if not given["loss"]:
        return
    left, right = (LEFT + end / pixel for end in (kept_length(given), full_length(given)))
    middle, half = AFTER_TOP + HIGH / 2, given["t"] / pixel / 2
    top, bottom = middle - half, middle + half
    for start, end in (
        ((left, top), (right, top)),
        ((left, bottom), (right, bottom)),
        ((right, top), (right, bottom)),
        ((left, top), (right, bottom)),
        ((left, bottom), (right, top)),
    ):
        sheet.dashes(start, end, ink=QUIET)


def _close_ups(
    sheet: Sheet, billet: Billet, made: Marks, given: Given, units: Units
) -> tuple[Panel, ...]:
    """Look at the first dot from close by, before and after, both alike."""
    along, through = longer(given), thinner(given)
    pixel = fitting(
        DOT / DOT_PIXELS,
        DOT * along / (WINDOWS[1][1] - 20),
        DOT * through / (CLOSE_ROWS - 12),
    )
    shape = pair(DOT * along, DOT * through, units)
    names = (f"Dot before: {format_length(DOT, units)}", f"after: {shape}")
    stack, (left, columns) = billet[:0], WINDOWS[0]
    around = (left - 1, CLOSE_TOP - 1), (columns + 2, CLOSE_ROWS + 2)  # its frame, too
    keep(sheet, *around, _close_before, stack, pixel)
    before = Panel(stack, _beside(stack, made.dots[0], columns, pixel), (left, CLOSE_TOP))
    after = _close_up(sheet, billet, made, (*WINDOWS[1], CLOSE_TOP), pixel)
    for name, window in zip(names, WINDOWS, strict=False):
        sheet.above((window[0], CLOSE_TOP), name)
    left, columns = WINDOWS[1]
    bar = left + columns - 90, CLOSE_TOP - 6
    sheet.scale_bar(bar, pixel, units, most=80)
    return before, after


def _close_before(sheet: Sheet, stack: Billet, pixel: float) -> None:
    """Draw the dot as it was; most moves leave it so."""
    _close_up(sheet, stack, marks(stack.size), (1, WINDOWS[0][1], 1), pixel)


def _beside(billet: Billet, dot: Points, columns: int, pixel: float) -> Plane:
    """Look at the bar's side where a dot is."""
    plane = _side(billet, pixel, columns, CLOSE_ROWS)
    middle = (dot[0].min() + dot[0].max()) / 2
    return replace(plane, centre=told_place((middle, *plane.centre[1:])))


def _close_up(
    sheet: Sheet, billet: Billet, made: Marks, window: tuple[int, int, int], pixel: float
) -> Panel:
    left, columns, top = window
    corner = (left, top)
    dot = billet.do(made.dots[0])
    plane = _beside(billet, dot, columns, pixel)
    face = etch.seen(billet, plane)
    ghost = not billet.steps
    faint = face._replace(cover=face.cover * (FAINT if ghost else 1))
    sheet.steel(faint, corner, plane)
    ink(sheet, plane, corner, Marks((dot,)), FAINT_INK if ghost else 1)
    sheet.box((left - 1, top - 1), (left + columns, top + CLOSE_ROWS), ink=QUIET)
    return Panel(billet, plane, corner, face)


def _end(sheet: Sheet, billet: Billet) -> Panel:
    """Draw the bar's end, and the outline that it had before in dashes."""
    left, columns = WINDOWS[2]
    before, after = billet.sizes[0], billet.size
    widest, thickest = (max(sides) for sides in zip(before[1:], after[1:], strict=True))
    pixel = fitting(widest / (columns - 4), thickest / (CLOSE_ROWS - 2))
    plane = cut(after, angle=90, columns=columns, rows=CLOSE_ROWS, pixel=pixel)
    sheet.above((left - 40, CLOSE_TOP), "The end; dashes: before")
    panel = Panel.laid(sheet, billet, plane, (left, CLOSE_TOP))
    middle = left + columns / 2 - 0.5, CLOSE_TOP + CLOSE_ROWS / 2 - 0.5
    half = before.width / pixel / 2, before.thickness / pixel / 2
    corners = [
        (middle[0] + right * half[0], middle[1] + down * half[1])
        for right, down in ((-1, -1), (1, -1), (1, 1), (-1, 1))
    ]
    for start, end in zip(corners, corners[1:] + corners[:1], strict=True):
        sheet.line([start, end], ink="#FFFFFF")  # dashes that show on dark steel as well
        sheet.dashes(start, end, ink=QUIET)
    return panel


def _ends(sheet: Sheet, given: Given, pixel: float, units: Units) -> None:
    """Mark on the ruler where the bar's end was at every step of its thickness."""
    grown = growth(given, units)
    if not grown:
        return
    low = AFTER_TOP + HIGH + 6
    for long in grown.long:
        x = LEFT + long / pixel
        sheet.line([(x, low - 6), (x, low)], ink=ACCENT, width=2)
    lines = (
        f"Marks on the ruler: its end, each {grown.step} thinner,",
        f"nothing lost. The first here gave {grown.first},",
        f"the last {grown.last}.",
    )
    for row, words in enumerate(lines):
        place = LEFT + WIDE, BEFORE_TOP + 4 + row * sheet.row
        sheet.text(words, place, anchor="ra", ink=ACCENT)


def _ruler(sheet: Sheet, at: tuple[int, int], pixel: float, units: Units) -> None:
    """Draw a ruler along the bar, 0 at its left end."""
    unit, label, parts = _divisions(pixel, units)
    left, top = at
    right = left + WIDE
    sheet.line([(left, top), (right, top)])
    step = label / parts
    for tick in range(int(WIDE * pixel / (step * unit)) + 1):
        x = left + tick * step * unit / pixel
        long = 12 if tick % parts == 0 else 8 if 2 * tick % parts == 0 else 5
        sheet.line([(x, top), (x, top + long)])
        if tick % parts == 0:
            sheet.text(f"{tick * step:g}", (x, top + 10), size=15, anchor="ma")
    sheet.text(units.unit, (right + 6, top), size=15, anchor="lm")


def _divisions(pixel: float, units: Units) -> tuple[float, float, int]:
    """Choose a ruler's unit, mm; what it is numbered in; and the parts of that."""
    if units is Units.MM:
        labels = [(step * 10.0**power, 10) for power in (0, 1, 2) for step in (1, 2, 5)]
        unit = 1.0
    else:
        labels = [(0.25, 4), (0.5, 8), (1, 8), (2, 8), (3, 12), (6, 12), (12, 12), (24, 12)]
        unit = MM_PER_INCH
    wide = [choice for choice in labels if choice[0] * unit / pixel >= 58]
    return (unit, *(wide or labels[-1:])[0])
