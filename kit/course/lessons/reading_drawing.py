"""Drawings of lesson 11: the unknown face with its ruler, the guess, other evidence."""

from __future__ import annotations

import math

import numpy as np

from kit.basics.units import Units, format_length
from kit.course.lessons.reading import (
    BACK,
    COLUMNS,
    DARK,
    END,
    EVIDENCE,
    FACE,
    HEIGHT,
    MAKINGS,
    PRINT,
    ROWS,
    SHOWN,
    Job,
)
from kit.course.lessons.twist_drawing import from_above
from kit.forge.steps import Size
from kit.metal import etch
from kit.section import described
from kit.section.described import Described
from kit.section.picture import ACCENT, INK, QUIET, Sheet
from kit.section.surface import Plane
from kit.section.trace import Face, see

LEFT = 30
TOP, SECOND, THIRD = 36, 218, 366  # tops of the unknown, the guess, the evidence
PIXEL = SHOWN / COLUMNS
SIDE = 96  # of an end
FROM_ABOVE = (440, 84)  # columns and rows of a back


def unknown(sheet: Sheet, job: Job, units: Units) -> Described:
    """Draw the unknown face, the other laid over it as thinly as wished, and its ruler.

    Give what it shows.
    """
    there, ours = job.faces
    share = job.overlay / 100
    mixed = there._replace(
        tone=there.tone + np.float32(share) * ours.cover * (ours.tone - there.tone)
    )
    words = "The face on the bench, from where its twist began"
    sheet.text(words, (LEFT, 8), size=18)
    if job.deeper:
        off = f"ground {format_length(job.deeper, units)} deeper"
        sheet.text(off, (LEFT + COLUMNS, 10), size=16, anchor="ra", ink=QUIET)
    sheet.steel(mixed, (LEFT, TOP))
    _ruler(sheet, job, units)
    return described.of(mixed, PIXEL)


def _ruler(sheet: Sheet, job: Job, units: Units) -> None:
    """Draw the ruler below the face and the protractor's line across it."""
    low, high = (LEFT + part / PIXEL for part in (job.start, job.end))
    foot = TOP + ROWS
    for place in (low, high):
        sheet.line([(place, TOP - 4), (place, foot + 16)], ink="#FFFFFF", width=5)
        sheet.line([(place, TOP - 4), (place, foot + 16)], ink=ACCENT, width=3)
    sheet.line([(low, foot + 12), (high, foot + 12)], ink=ACCENT, width=3)
    words = f"{format_length(job.ruled, units)}"
    sheet.text(words, ((low + high) / 2, foot + 17), size=17, anchor="ma", ink=ACCENT)
    middle, lean = (low + high) / 2, math.radians(job.lean)
    away = 60 * math.cos(lean), 60 * math.sin(lean)
    axis = TOP + ROWS / 2
    ends = [
        (middle - away[0], axis - away[1]),
        (middle + away[0], axis + away[1]),
    ]
    for ink, width in (("#FFFFFF", 7), (ACCENT, 4)):
        sheet.line(ends, ink=ink, width=width)
    ends = [(middle - 74, axis), (middle + 74, axis)]
    sheet.dashes(*ends, ink="#FFFFFF", width=4)
    sheet.dashes(*ends, ink=ACCENT, width=2)
    place = (LEFT + COLUMNS, foot + 17)
    sheet.text(f"line at {job.lean:g}°", place, size=17, anchor="ra", ink=ACCENT)


def guess(sheet: Sheet, job: Job) -> Described:
    """Draw the face that the guess, or another making, gives; give what it shows."""
    words = {
        "my guess": "What your guess gives",
        "a thicker bar, ground deeper": "What a thicker bar gives, ground deeper",
        "a print, skin deep": "What a print on plain steel gives",
    }[MAKINGS[job.making]]
    sheet.text(words, (LEFT, SECOND - 26), size=18)
    sheet.steel(job.faces[1], (LEFT, SECOND))
    match = f"same steel on {100 * job.match:.0f} % of it (half is chance)"
    sheet.text(match, (LEFT + COLUMNS, SECOND - 24), size=16, anchor="ra", ink=INK)
    return described.of(job.faces[1], PIXEL)


def evidence(sheet: Sheet, job: Job) -> None:
    """Draw what the chosen evidence shows of both bars, side by side."""
    sides = ("The bar on the bench", "The other")
    if job.evidence == FACE:
        words = "Only the face may be looked at. Choose other evidence below."
        sheet.text(words, (LEFT, THIRD), size=16, ink=QUIET)
        return
    widest = max(one.size.width for one in (job.unknown, job.bar))
    for index, words in enumerate(sides):
        name = f"{words}: {EVIDENCE[job.evidence]}"
        left = LEFT + 480 * index
        sheet.text(name, (left, THIRD - 24), size=16)
        at = (left, THIRD)
        bars = ((job.unknown, HEIGHT - job.deeper), (job.bar, job.level))
        billet, level = bars[index]
        if job.evidence == BACK:
            surface = from_above(
                billet, billet.size.thickness / 2, *FROM_ABOVE, PIXEL * 2.2
            )
        else:
            surface = _end(billet.size, widest)
        seen = see(billet, surface, etch.tones(billet.source.steels))
        if job.evidence == END:
            seen = _ground(seen, surface, level)
        if index and job.making == PRINT:
            seen = seen.plain(DARK)
        sheet.steel(seen, at)


def _end(size: Size, widest: float) -> Plane:
    """Look at the end of a bar; both to one scale, the wider fills the height."""
    return Plane(
        size=size,
        centre=(1.0, 0.0, 0.0),
        right=(0.0, 1.0, 0.0),
        up=(0.0, 0.0, 1.0),
        columns=FROM_ABOVE[0],
        rows=SIDE,
        pixel=1.04 * widest / SIDE,
    )


def _ground(seen: Face, surface: Plane, level: float) -> Face:
    """Leave out what was ground off the top and trimmed off the sides."""
    up = ((surface.rows - 1) / 2 - np.arange(surface.rows)) * surface.pixel
    kept = (up <= level)[:, None]
    return seen._replace(cover=seen.cover * kept)
