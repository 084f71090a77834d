"""Drawings of a forged and an engraved bar: the bar, its face, a slice through the top."""

from __future__ import annotations

import numpy as np

from kit.basics.units import Units
from kit.course.lessons.scene import Panel
from kit.course.lessons.skin_deep import DEPTH, Job
from kit.course.lessons.written import thin
from kit.section.block import Block
from kit.section.finish import lit
from kit.section.picture import ACCENT, INK, QUIET, Sheet
from kit.section.surface import Plane
from kit.section.trace import Face

WIDE = 480
BAR, BAR_AT = 168, 34  # rows and top
FACE, FACE_AT = 120, 232
FACE_PIXEL = 40 / WIDE  # mm: 40 mm of the bar
SLICE, SLICE_AT = 96, 398
SLICE_LONG, SLICE_DEEP = 12.0, 0.6  # mm
SHOWN = 60.0  # mm of the bar
GHOST = 0.3  # what is ground away, faint


def column(
    sheet: Sheet, job: Job, made: str, left: int, units: Units
) -> tuple[Panel, Panel]:
    """Draw one of the two bars, three ways, one below another.

    Give the bar and its face; only steel of the forged one can be asked about.
    """
    names = {
        "forged": "Forged: layers all the way through",
        "engraved": "Engraved or printed: a skin on plain steel",
    }
    sheet.text(names[made], (left, 8), size=19)
    block = _bar(sheet, job, made, left)
    face = _face(sheet, job, made, left, units)
    _slice(sheet, job, made, left, units)
    return Panel(job.bar, block, (left, BAR_AT)), face


def _bar(sheet: Sheet, job: Job, made: str, left: int) -> Block:
    middle = job.size.length / 2
    ground = ((0.0, 0.0, 1.0), (0.0, 0.0, job.level)) if job.ground else None
    block = Block.fitted(
        job.size,
        WIDE,
        BAR,
        cut=ground,
        span=(middle - SHOWN / 2, middle + SHOWN / 2),
    )
    sheet.steel(job.seen(block, made), (left, BAR_AT))
    return block


def _face(sheet: Sheet, job: Job, made: str, left: int, units: Units) -> Panel:
    plane = job.face(WIDE, FACE, FACE_PIXEL)
    sheet.text("From above, larger", (left, FACE_AT - 22), size=16)
    seen = job.seen(plane, made)
    sheet.steel(lit(seen, pixel=FACE_PIXEL), (left, FACE_AT))
    sheet.scale_bar((left + WIDE - 130, FACE_AT - 8), FACE_PIXEL, units, most=125)
    return Panel.drawn(job.bar, plane, (left, FACE_AT), seen)


def _slice(sheet: Sheet, job: Job, made: str, left: int, units: Units) -> None:
    """Draw a slice along the bar, down through its top; what is ground away is faint."""
    deep, along = SLICE_DEEP / SLICE, SLICE_LONG / WIDE
    top, times = job.size.thickness / 2, round(along / deep)
    plane = Plane(
        size=job.size,
        centre=(job.size.length / 2, 0.0, top - SLICE_DEEP / 2),
        right=(1.0, 0.0, 0.0),
        up=(0.0, 0.0, 1.0),
        columns=WIDE * times,
        rows=SLICE,
        pixel=deep,
    )
    words = (
        f"A slice through its top, {thin(SLICE_DEEP, units)} deep "
        f"(drawn {times} times too deep)"
    )
    sheet.text(words, (left, SLICE_AT - 24), size=16)
    # depth is drawn too large: what lies side by side is averaged
    fine = Job(pattern=job.pattern).seen(plane, made)
    inside = Face(
        *(
            np.broadcast_to(part, fine.tone.shape).reshape(SLICE, WIDE, times).mean(axis=2)
            for part in fine
        )
    )
    gone = round(job.ground / deep)
    inside.cover[:gone] *= GHOST
    sheet.steel(inside, (left, SLICE_AT))
    sheet.box((left - 1, SLICE_AT - 1), (left + WIDE, SLICE_AT + SLICE), ink=QUIET)
    level = SLICE_AT + job.ground / deep
    sheet.line([(left - 6, level), (left + WIDE + 6, level)], ink=ACCENT, width=4)
    sheet.text("ground to this line", (left, SLICE_AT + SLICE + 5), size=16, ink=ACCENT)
    if made == "engraved":
        words = f"the skin is {thin(DEPTH, units)} thick (illustrative)"
        place = (left + WIDE, SLICE_AT + SLICE + 5)
        sheet.text(words, place, size=16, ink=INK, anchor="ra")
