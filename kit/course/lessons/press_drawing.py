"""Both ways side by side: the face as a map, the section under it, linked by lines."""

from __future__ import annotations

import math
import textwrap

import numpy as np

from kit.basics.errors import KitError
from kit.basics.units import Units, format_length
from kit.course.lessons.press import BLOCK, GROOVE, TALL, WAYS, WIDTH, Job
from kit.course.lessons.scene import Panel
from kit.forge.billet import Billet
from kit.metal import etch
from kit.section.picture import ACCENT, PAGE, QUIET, Sheet
from kit.section.surface import Plane
from kit.section.trace import see

COLUMNS, ROWS = 1000, 508
WIDE, FACE, SECTION = 470, 206, 184
LEFTS = (12, 518)
FACE_TOP, SECTION_TOP = 50, 276
FEATHER_ROWS = 394


def both(sheet: Sheet, job: Job, units: Units) -> tuple[Panel, ...]:
    """Draw the two ways beside each other; the chosen one is framed."""
    shown = 2.5 * job.spacing if job.tool == GROOVE else 1.9 * job.across
    pixel = max(shown * job.spread / WIDE, job.after / (SECTION - 4))
    panels = []
    for way, left in enumerate(LEFTS):
        sheet.text(WAYS[way].capitalize(), (left, 6), size=18)
        try:
            panels += _one(sheet, job, job.bar(way), way, left, pixel)
        except KitError as error:  # the other way can be impossible where this one is not
            if way == job.way:
                raise
            lines = ["This way the bar can not be made.", *textwrap.wrap(str(error), 54)]
            for number, words in enumerate(lines):
                sheet.text(words, (left, FACE_TOP + 20 + 22 * number), size=16)
        if way == job.way:
            corner = (left - 5, FACE_TOP - 5)
            opposite = (left + WIDE + 4, SECTION_TOP + SECTION + 5)
            sheet.box(corner, opposite, ink=ACCENT, width=3)
            sheet.text("your bar", (left + WIDE, 8), size=16, anchor="ra", ink=ACCENT)
    sheet.scale_bar((LEFTS[0] + 6, ROWS - 14), pixel, units)
    words = (
        "Numbers: the layer, counted from the top. Dashes: rim and middle of the hollow."
    )
    sheet.text(words, (LEFTS[0] + 170, ROWS - 12), size=16, ink=QUIET, anchor="ls")
    return tuple(panels)


def _one(
    sheet: Sheet, job: Job, billet: Billet, way: int, left: int, pixel: float
) -> tuple[Panel, Panel]:
    wider = billet.size.width / WIDTH
    each = job.spacing * wider
    middle = (math.floor(billet.size.length / 2 / each) + 0.5) * each
    beside = job.line / 100 * each / 2
    top = billet.size.thickness / 2 - job.ground
    tones = etch.tones(billet.source.steels)

    def plane(centre: tuple[float, float, float], up: tuple, rows: int) -> Plane:
        return Plane(
            size=billet.size, centre=centre, right=(1.0, 0.0, 0.0), up=up,
            columns=WIDE, rows=rows, pixel=pixel,
        )  # fmt: skip

    face = plane((middle, 0.0, top), (0.0, 1.0, 0.0), FACE)
    section = plane((middle, beside, 0.0), (0.0, 0.0, 1.0), SECTION)
    sheet.text("the face, from above", (left, 28), size=15, ink=QUIET)
    seen = see(billet, face, tones)
    sheet.steel(seen, (left, FACE_TOP))
    sheet.box((left - 1, FACE_TOP - 1), (left + WIDE, FACE_TOP + FACE))
    sheet.steel(see(billet, section, tones), (left, SECTION_TOP))
    level = SECTION_TOP + SECTION / 2 - billet.size.thickness / 2 / pixel
    _outline(sheet, job, left, level, billet.size.thickness / pixel, pixel)
    x = left + WIDE / 2
    rim = job.rim(way) / pixel
    floor = level + job.ground / pixel
    for place in (x - rim, x, x + rim):
        sheet.dashes((place, FACE_TOP + FACE / 2), (place, floor), ink=ACCENT)
    y = FACE_TOP + FACE / 2 - beside / pixel
    if y > FACE_TOP:
        _number_rings(sheet, job, billet, (middle, beside, top), (left, y), pixel)
    above = Panel.drawn(billet, face, (left, FACE_TOP), seen)
    return above, Panel(billet, section, (left, SECTION_TOP))


def _outline(
    sheet: Sheet, job: Job, left: int, level: float, height: float, pixel: float
) -> None:
    """Frame the section; what is ground off is only dashed."""
    ground = job.ground / pixel
    if ground:
        sheet.box((left, level - 2), (left + WIDE, level + ground), fill=PAGE, ink=None)
        for place in (left, left + WIDE):
            sheet.dashes((place, level), (place, level + ground))
        sheet.dashes((left, level), (left + WIDE, level))
    sheet.box((left - 1, level + ground - 1), (left + WIDE, level + height))


def _number_rings(
    sheet: Sheet,
    job: Job,
    billet: Billet,
    start: tuple[float, float, float],
    at: tuple[float, float],
    pixel: float,
) -> None:
    """Draw the line along which the section was taken, and number what it crosses."""
    left, row = at
    for place, point in ((left - 4, left + 9), (left + WIDE + 3, left + WIDE - 10)):
        sheet.shape([(place, row - 8), (place, row + 8), (point, row)], fill=ACCENT)
    sheet.line([(left, row), (left + WIDE, row)], ink=ACCENT, width=2)
    x = start[0] + (np.arange(WIDE) - (WIDE - 1) / 2) * pixel
    points = (x, np.full(WIDE, start[1]), np.full(WIDE, start[2]))
    depth = billet.source.thickness / 2 - billet.undo(points)[2]
    layers = np.floor((depth + job.layer / 2) / job.layer + 1e-9).astype(int) + 1
    ends = np.flatnonzero(np.diff(layers)) + 1
    for first, last in zip((0, *ends), (*ends, WIDE), strict=True):
        layer = int(layers[first])
        wide = 6 if layer < 10 else 10 if layer < 100 else 15
        if last - first >= 2 * wide:
            place = left + (first + last) / 2
            corner, opposite = (place - wide + 1, row - 8), (place + wide - 1, row + 8)
            sheet.box(corner, opposite, fill=PAGE, ink=None)
            sheet.text(str(layer), (place, row), size=15, anchor="mm")


def feather(sheet: Sheet, job: Job, units: Units) -> tuple[Panel, ...]:
    """Draw the end of a tall block, split and ground true, and drawn out; one scale."""
    block, split, drawn = job.split[:0], job.split, job.feather
    pixel = max(block.size.thickness / FEATHER_ROWS, BLOCK / 300)
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
        sheet.steel(seen, (left, top))
        middle = top + FEATHER_ROWS / 2
        sheet.box((left - 1, middle - half - 1), (left + columns, middle + half))
        panels.append(Panel.drawn(billet, end, (left, top), seen))
        if billet is not block:
            place = left + columns / 2
            for edge, out in ((middle - half - 3, -18), (middle + half + 3, 18)):
                sheet.line([(place, edge), (place, edge + out)], ink=ACCENT, width=3)
    sheet.scale_bar((LEFTS[0] + 6, ROWS - 14), pixel, units)
    layer = format_length(job.layer * TALL, units)
    text = f"The layers of the block are {layer} thick. Right: a piece. Marks: the quill."
    sheet.text(text, (LEFTS[0] + 170, ROWS - 12), size=16, ink=QUIET, anchor="ls")
    return tuple(panels)
