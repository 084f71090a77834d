"""A bar with hollows and a feather, drawn and measured; all lengths in mm."""

import math
from functools import lru_cache
from typing import NamedTuple

import numpy as np
from PIL import Image

from kit.basics.units import Units, in_figures
from kit.course.lessons.scene import Panel
from kit.forge.billet import Billet
from kit.forge.stack import Layer, Stack
from kit.forge.steps import Drill, Points
from kit.forge.steps.drill import drill_depth
from kit.metal import etch
from kit.section.half import apart
from kit.section.picture import ACCENT, QUIET, Sheet
from kit.section.surface import Plane
from kit.section.trace import Face

COLUMNS, ROWS = 1000, 508  # pixels, as all below
FACE, SECTION = 200, 184
ALONE, WIDE = 976, 470  # columns of one bar, and of each of two
LEFTS = (12, 518)
FACE_TOP, SECTION_TOP = 50, 276
FOOT = "Numbers: only wide layers, 1 on top. Across: section; down: rim."
FOOT_GROUND = FOOT[:-1] + "; grey: ground off."
WIDTH = 40.0  # of the bar before
DIGIT, CLEAR = 0.6, 2  # width of a figure to its letters' height; pixels around a number


@lru_cache(maxsize=8)  # one stack for all moves, and those of four tiles
def layered(thickness: float, layer: float, length: float) -> Stack:
    """Lay thin bars of 1084 and 15N20 in turn, the face ground through half of one; mm.

    On a joint there would be no telling which of two layers is seen.
    """
    heights = [layer / 2, *[layer] * math.floor((thickness - layer) / layer + 1e-9)]
    rest = thickness - sum(heights)
    if rest > 1e-6:
        heights.append(in_figures(max(rest, 0.01)))
    bars = [
        Layer(steel=("1084", "15N20")[number % 2], thickness=height)
        for number, height in enumerate(heights)
    ]
    return Stack(layers=bars[::-1], length=length, width=WIDTH)


def tile(rings: float) -> tuple[Image.Image, str]:
    """Draw the face that somebody who expects this many rings of a 6 mm drill expects."""
    count, across, spacing = round(rings), 6.0, 12.0
    stack = layered(8.0, drill_depth(across) / count, 2 * spacing)
    drill = Drill(way="cut and forged", across=across, spacing=spacing, faces="top")
    billet = Billet(source=stack).then(drill)
    centre = (spacing / 2, 0.0, billet.size.thickness / 2)
    face = Plane.facing(billet, "face", centre, (200, 150), 0.052)
    sheet = Sheet(200, 150)
    sheet.steel(etch.seen(billet, face), (0, 0))
    ring = "one ring" if count == 1 else f"{count} rings, dark and bright in turn"
    return sheet.image, f"A face with a round figure in its middle: {ring}."


def spread(billet: Billet) -> float:
    """Say how much wider all became when the bar was forged to thickness."""
    return billet.size.width / WIDTH


@lru_cache(maxsize=8)  # whoever grinds moves no rim
def rim(billet: Billet) -> float:
    """Measure a hollow on the solid: from its middle to its rim on the face."""
    (step,), before, half = billet.steps, billet.sizes[0], billet.steps[0].across / 2
    if not step.cut:
        return half * spread(billet)
    x = np.array([0.0, half]) + 0.5 * step.spacing
    z = np.array([before.thickness / 2 - step.deep, before.thickness / 2])
    moved, *_ = step.do((x, np.zeros(2), z), before)
    return float(np.ptp(moved))


@lru_cache(maxsize=8)  # alt text, numbers and remark tell the same
def pattern_depth(billet: Billet, ground: float) -> float:
    """Measure the pattern's depth on the solid: a hollow's middle against its rim."""
    return float(np.ptp(billet.undo(_rim_and_middle(billet, ground))[2]))


@lru_cache(maxsize=8)
def crossed(billet: Billet, layer: float, depth: float) -> int:
    """Count the rings of a hollow that a flat face shows so deep, mm, below the top.

    Each is the edge of a layer between the hollow's rim and its middle.
    """
    return int(np.ptp(_layers(billet, layer, _rim_and_middle(billet, depth))))


def _rim_and_middle(billet: Billet, depth: float) -> Points:
    x = np.array([0.0, rim(billet)]) + 0.5 * billet.steps[0].spacing * spread(billet)
    return x, np.zeros(2), np.full(2, billet.size.thickness / 2 - depth)


def _layers(billet: Billet, layer: float, points: Points) -> np.ndarray:
    """Say which layer, from the top of the bar as it was welded, is at each point."""
    depth = billet.source.thickness / 2 - billet.undo(points)[2]
    return np.floor((depth + layer / 2) / layer + 1e-9).astype(int)


class Cut(NamedTuple):
    """What both ways are looked at alike: mm, and the line as a share of half a spacing."""

    pixel: float
    layer: float
    ground: float
    line: float
    wide: int


def one_way(sheet: Sheet, billet: Billet, looked: Cut, left: int) -> tuple[Panel, Panel]:
    """Draw the face as a map, the section under it, and dashes that link the two."""
    pixel, wide = looked.pixel, looked.wide
    each = billet.steps[0].spacing * spread(billet)
    middle = (math.floor(billet.size.length / 2 / each) + 0.5) * each
    beside = looked.line * each / 2
    top = billet.size.thickness / 2 - looked.ground
    face = Plane.facing(billet, "face", (middle, 0.0, top), (wide, FACE), pixel)
    centre = (middle, beside, 0.0)
    section = Plane.facing(billet, "side", centre, (wide, SECTION), pixel)
    above = Panel.laid(sheet, billet, face, (left, FACE_TOP))
    sheet.box((left - 1, FACE_TOP - 1), (left + wide, FACE_TOP + FACE))
    step = apart(section.rows, section.columns)
    sheet.steel(_sawn(billet, section, step), (left, SECTION_TOP), section)
    across = Panel(billet, section, (left, SECTION_TOP))
    level = SECTION_TOP + SECTION / 2 - billet.size.thickness / 2 / pixel
    floor = level + looked.ground / pixel
    _outline(
        sheet, (left, left + wide), level, floor, level + billet.size.thickness / pixel
    )
    x, out = left + wide / 2, rim(billet) / pixel
    for place in (x - out, x + out):
        if left < place < left + wide:
            sheet.dashes((place, FACE_TOP + FACE + 1), (place, floor), ink=ACCENT)
    y = FACE_TOP + FACE / 2 - beside / pixel
    if y > FACE_TOP:
        _cut_line(sheet, (left, left + wide), y)
        _number_rings(sheet, billet, looked, (middle, beside, top), (left, out))
    return above, across


@lru_cache(maxsize=4)  # two ways, whole and half as fine: who grinds the face moves none
def _sawn(billet: Billet, section: Plane, _step: int) -> Face:
    return etch.seen(billet, section)


def _cut_line(sheet: Sheet, ends: tuple[int, int], row: float) -> None:
    """Mark where the section was taken, so thinly that the rings stay in sight."""
    left, right = ends
    for place, point in ((left - 4, left + 9), (right + 3, right - 10)):
        sheet.shape([(place, row - 8), (place, row + 8), (point, row)], fill=ACCENT)
    # light around dark: seen on any steel
    for ink, width in ((sheet.page, 3), (ACCENT, 1)):
        sheet.dashes((left + 12, row), (right - 12, row), ink=ink, width=width, dash=12)


def impossible(sheet: Sheet, why: str, left: int) -> None:
    """Say, where the bar would be, why it cannot be made this way."""
    sheet.text("This way the bar cannot be made.", (left, FACE_TOP + 20))
    sheet.lines(why, (left, FACE_TOP + 20 + sheet.row), WIDE)


def chosen(sheet: Sheet, left: int) -> None:
    """Frame the bar the way that was chosen."""
    corner, opposite = (
        (left - 5, FACE_TOP - 5),
        (left + WIDE + 4, SECTION_TOP + SECTION + 5),
    )
    sheet.box(corner, opposite, ink=ACCENT, width=3)
    sheet.text("your bar", (left + WIDE, FACE_TOP - 9), anchor="rs", ink=ACCENT)


def foot(sheet: Sheet, words: str, pixel: float, units: Units) -> None:
    """Draw a scale bar at the foot (pixel in mm), and say what is to be seen above."""
    sheet.scale_bar((LEFTS[0] + 6, ROWS - 14), pixel, units)
    sheet.text(words, (LEFTS[0] + 170, ROWS - 12), size=16, ink=QUIET, anchor="ls")


def _outline(
    sheet: Sheet, ends: tuple[int, int], level: float, floor: float, bottom: float
) -> None:
    """Frame the section; what is ground off is only dashed."""
    left, right = ends
    if floor > level:
        sheet.box((left, level - 2), (right, floor), fill=sheet.page, ink=None)
        for place in ends:
            sheet.dashes((place, level), (place, floor))
        sheet.dashes((left, level), (right, level))
    sheet.box((left - 1, floor - 1), (right, bottom))


def _number_rings(
    sheet: Sheet,
    billet: Billet,
    looked: Cut,
    start: tuple[float, float, float],
    at: tuple[float, float],
) -> None:
    """Write numbers below the layers that the line crosses at the middle hollow.

    The highest is 1. A number stands under its own ring only if that is wider than the
    number, or the middle one; and on no dash of the rim, so many pixels from the middle.
    """
    wide, (left, out) = looked.wide, at
    x = start[0] + (np.arange(wide) - (wide - 1) / 2) * looked.pixel
    points = (x, np.full(wide, start[1]), np.full(wide, start[2]))
    layers = _layers(billet, looked.layer, points)
    ends = np.flatnonzero(np.diff(layers)) + 1
    rings = zip((0, *ends), (*ends, wide), strict=True)
    half = billet.steps[0].spacing * spread(billet) / 2 / looked.pixel
    for first, last in sorted(rings, key=lambda ring: abs(sum(ring) - wide)):
        words = str(int(layers[first] - layers.min()) + 1)
        beside = (first + last - wide) / 2  # of the middle
        room = DIGIT * sheet.letters * len(words) / 2 + CLEAR
        middle = first <= wide / 2 <= last
        on_rim = abs(abs(beside) - out) < room + CLEAR
        if abs(beside) < half + 1 and not on_rim and (middle or last - first > 2 * room):
            place = left + wide / 2 + beside, (FACE_TOP + FACE + SECTION_TOP) / 2
            sheet.text(words, place, anchor="mm", ink=ACCENT, gives_way=True)
