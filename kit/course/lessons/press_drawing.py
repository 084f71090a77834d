"""A bar with hollows and a feather, drawn and measured; all lengths in mm."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from kit.basics.units import Units, format_length
from kit.course.lessons.scene import Panel
from kit.forge.billet import Billet
from kit.forge.stack import Layer, Stack
from kit.forge.steps import Drill
from kit.forge.steps.drill import drill_depth
from kit.metal import etch
from kit.section.picture import ACCENT, PAGE, QUIET, Sheet
from kit.section.surface import Plane
from kit.section.trace import see

if TYPE_CHECKING:
    from PIL import Image

COLUMNS, ROWS = 1000, 508  # pixels, as all below
WIDE, FACE, SECTION = 470, 200, 184
LEFTS = (12, 518)
FACE_TOP, SECTION_TOP = 50, 276
FEATHER_ROWS = 394
WIDTH = 40.0  # of the bar before


def layered(thickness: float, layer: float, length: float) -> Stack:
    """Lay thin bars of 1084 and 15N20 in turn, the face ground through half of one; mm.

    On a joint there would be no telling which of two layers is seen.
    """
    heights = [layer / 2, *[layer] * math.floor((thickness - layer) / layer + 1e-9)]
    rest = thickness - sum(heights)
    if rest > 1e-6:
        heights.append(round(max(rest, 0.01), 9))
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
    face = Plane(
        size=billet.size, centre=(spacing / 2, 0.0, billet.size.thickness / 2),
        right=(1.0, 0.0, 0.0), up=(0.0, 1.0, 0.0), columns=200, rows=150, pixel=0.052,
    )  # fmt: skip
    sheet = Sheet(200, 150)
    sheet.steel(see(billet, face, etch.tones(stack.steels)), (0, 0))
    ring = "one ring" if count == 1 else f"{count} rings, dark and bright in turn"
    return sheet.image, f"A face with a round figure in its middle: {ring}."


def spread(billet: Billet) -> float:
    """Say how much wider all became when the bar was forged to thickness."""
    return billet.size.width / WIDTH


def rim(billet: Billet) -> float:
    """Measure a hollow on the solid: from its middle to its rim on the face."""
    (step,), before, half = billet.steps, billet.sizes[0], billet.steps[0].across / 2
    if not step.cut:
        return half * spread(billet)
    x = np.array([0.0, half]) + 0.5 * step.spacing
    z = np.array([before.thickness / 2 - step.deep, before.thickness / 2])
    moved, *_ = step.do((x, np.zeros(2), z), before)
    return float(np.ptp(moved))


def pattern_depth(billet: Billet, ground: float) -> float:
    """Measure the pattern's depth on the solid: a hollow's middle against its rim."""
    x = np.array([0.0, rim(billet)]) + 0.5 * billet.steps[0].spacing * spread(billet)
    z = np.full(2, billet.size.thickness / 2 - ground)
    return float(np.ptp(billet.undo((x, np.zeros(2), z))[2]))


class Cut(NamedTuple):
    """What both ways are looked at alike: mm, and the line as a share of half a spacing."""

    pixel: float
    layer: float
    ground: float
    line: float


def one_way(sheet: Sheet, billet: Billet, looked: Cut, left: int) -> tuple[Panel, Panel]:
    """Draw the face as a map, the section under it, and lines that link the two."""
    pixel = looked.pixel
    each = billet.steps[0].spacing * spread(billet)
    middle = (math.floor(billet.size.length / 2 / each) + 0.5) * each
    beside = looked.line * each / 2
    top = billet.size.thickness / 2 - looked.ground
    tones = etch.tones(billet.source.steels)

    def plane(centre: tuple[float, float, float], up: tuple, rows: int) -> Plane:
        return Plane(
            size=billet.size, centre=centre, right=(1.0, 0.0, 0.0), up=up,
            columns=WIDE, rows=rows, pixel=pixel,
        )  # fmt: skip

    face = plane((middle, 0.0, top), (0.0, 1.0, 0.0), FACE)
    section = plane((middle, beside, 0.0), (0.0, 0.0, 1.0), SECTION)
    seen = see(billet, face, tones)
    sheet.steel(seen, (left, FACE_TOP), face)
    sheet.box((left - 1, FACE_TOP - 1), (left + WIDE, FACE_TOP + FACE))
    sheet.steel(see(billet, section, tones), (left, SECTION_TOP), section)
    level = SECTION_TOP + SECTION / 2 - billet.size.thickness / 2 / pixel
    floor = level + looked.ground / pixel
    _outline(sheet, left, level, floor, level + billet.size.thickness / pixel)
    x, out = left + WIDE / 2, rim(billet) / pixel
    for place in (x - out, x, x + out):
        sheet.dashes((place, FACE_TOP + FACE / 2), (place, floor), ink=ACCENT)
    y = FACE_TOP + FACE / 2 - beside / pixel
    if y > FACE_TOP:
        _number_rings(sheet, billet, looked, (middle, beside, top), (left, y))
    above = Panel.drawn(billet, face, (left, FACE_TOP), seen)
    return above, Panel(billet, section, (left, SECTION_TOP))


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


def _outline(sheet: Sheet, left: int, level: float, floor: float, bottom: float) -> None:
    """Frame the section; what is ground off is only dashed."""
    if floor > level:
        sheet.box((left, level - 2), (left + WIDE, floor), fill=PAGE, ink=None)
        for place in (left, left + WIDE):
            sheet.dashes((place, level), (place, floor))
        sheet.dashes((left, level), (left + WIDE, level))
    sheet.box((left - 1, floor - 1), (left + WIDE, bottom))


def _number_rings(
    sheet: Sheet,
    billet: Billet,
    looked: Cut,
    start: tuple[float, float, float],
    at: tuple[float, float],
) -> None:
    """Draw the line along which the section was taken; number what it crosses, below."""
    left, row = at
    for place, point in ((left - 4, left + 9), (left + WIDE + 3, left + WIDE - 10)):
        sheet.shape([(place, row - 8), (place, row + 8), (point, row)], fill=ACCENT)
    sheet.line([(left, row), (left + WIDE, row)], ink=ACCENT, width=2)
    x = start[0] + (np.arange(WIDE) - (WIDE - 1) / 2) * looked.pixel
    points = (x, np.full(WIDE, start[1]), np.full(WIDE, start[2]))
    depth = billet.source.thickness / 2 - billet.undo(points)[2]
    layers = np.floor((depth + looked.layer / 2) / looked.layer + 1e-9).astype(int) + 1
    ends = np.flatnonzero(np.diff(layers)) + 1
    rings = list(zip((0, *ends), (*ends, WIDE), strict=True))
    below = (FACE_TOP + FACE + SECTION_TOP) / 2
    # from the middle outwards: where there is no room for every number, on both sides alike
    for first, last in sorted(rings, key=lambda ring: abs(sum(ring) - WIDE)):
        place = left + (first + last) / 2, below
        words = str(int(layers[first]))
        sheet.text(words, place, anchor="mm", ink=ACCENT, gives_way=True)


def feather(
    sheet: Sheet, split: Billet, drawn: Billet, layer: float, units: Units
) -> tuple[Panel, ...]:
    """Draw the end of a tall block, split, ground true and drawn out; layers in mm."""
    block = split[:0]
    pixel = max(block.size.thickness / FEATHER_ROWS, block.size.width / 300)
    panels = []
    for billet, left, name in (
        (block, 12, "The end of a tall block"),
        (split, 350, "Split, welded again, ground true"),
        (drawn, 740, "Drawn out: the blade's face"),
    ):
        size = billet.size
        columns = round(size.width / pixel)
        half = min(size.thickness / 2 / pixel, FEATHER_ROWS / 2)
        end = Plane(
            # a quarter pixel aside: see surface.shown_at
            size=size, centre=(size.length / 2, pixel / 4, 0.0), right=(0.0, 1.0, 0.0),
            up=(0.0, 0.0, 1.0), columns=columns, rows=FEATHER_ROWS, pixel=pixel,
        )  # fmt: skip
        top = 56
        sheet.text(name, (left, 6), size=18)
        seen = see(billet, end, etch.tones(billet.source.steels))
        sheet.steel(seen, (left, top), end)
        middle = top + FEATHER_ROWS / 2
        sheet.box((left - 1, middle - half - 1), (left + columns, middle + half))
        panels.append(Panel.drawn(billet, end, (left, top), seen))
        if billet is not block:
            place = left + columns / 2
            for edge, out in ((middle - half - 3, -18), (middle + half + 3, 18)):
                sheet.line([(place, edge), (place, edge + out)], ink=ACCENT, width=3)
    words = f"The layers of the block are {format_length(layer, units)} thick."
    foot(sheet, f"{words} Right: a piece. Marks: the quill.", pixel, units)
    return tuple(panels)
