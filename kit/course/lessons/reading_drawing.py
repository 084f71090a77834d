"""What lesson 11 draws, and what it says a measurement or a guess is worth."""

import math
from functools import lru_cache
from typing import Any

import numpy as np

from kit.basics.units import Units, format_length
from kit.course.lessons.twist_drawing import from_above
from kit.forge.billet import Billet
from kit.forge.steps import Size
from kit.metal import described, etch
from kit.metal.described import Described
from kit.section.half import whole
from kit.section.picture import ACCENT, QUIET, Sheet
from kit.section.surface import Plane
from kit.section.trace import Face

EVIDENCE = ("the face alone", "its back, not ground", "its end")
FACE, BACK, END = range(3)
DARK = min(etch.tones(("1084", "15N20")).values())  # plain steel: illustrative
SHOWN = 100.0  # mm of a face
COLUMNS, ROWS = 940, 94
PIXEL = SHOWN / COLUMNS
LEFT = 30
TOP, SECOND, THIRD = 36, 218, 366  # tops of the unknown, the guess, the evidence
SIDE = 96  # of an end
FROM_ABOVE = (440, 84)  # columns and rows of a back


def plane(billet: Billet, level: float) -> Plane:
    """Grind a face `level` mm above the axis, from where the twist began, rightwards."""
    return Plane.facing(billet, "face", (SHOWN / 2, 0.0, level), (COLUMNS, ROWS), PIXEL)


@lru_cache(maxsize=8)
@whole()
def face(billet: Billet, level: float) -> Face:
    """See that face."""
    return etch.seen(billet, plane(billet, level))


def overlaid(there: Face, ours: Face, share: float) -> Face:
    """Lay one face over the other, as thinly as a share of 0 … 1 says."""
    return there._replace(
        tone=there.tone + np.float32(share) * ours.cover * (ours.tone - there.tone)
    )


def unknown(sheet: Sheet, shown: Face, ground: Plane, deeper: str) -> Described:
    """Draw the face on the bench; give what it shows."""
    words = "The face on the bench, from where its twist began"
    sheet.above((LEFT, TOP), words)
    if deeper:
        place = (LEFT + COLUMNS, TOP - 6)
        sheet.text(f"ground {deeper} deeper", place, anchor="rs", ink=QUIET)
    sheet.steel(shown, (LEFT, TOP), ground)
    return described.of(shown, PIXEL)


def ruler(sheet: Sheet, start: float, end: float, lean: float, units: Units) -> None:
    """Draw the ruler, from start to end, mm, and the protractor's line, lean in degrees."""
    low, high = (LEFT + part / PIXEL for part in (start, end))
    foot = TOP + ROWS
    for place in (low, high):
        sheet.line([(place, TOP - 4), (place, foot + 16)], ink="#FFFFFF", width=5)
        sheet.line([(place, TOP - 4), (place, foot + 16)], ink=ACCENT, width=3)
    sheet.line([(low, foot + 12), (high, foot + 12)], ink=ACCENT, width=3)
    words = format_length(end - start, units)
    sheet.text(words, ((low + high) / 2, foot + 17), size=17, anchor="ma", ink=ACCENT)
    middle, angle = (low + high) / 2, math.radians(lean)
    away = 60 * math.cos(angle), 60 * math.sin(angle)
    axis = TOP + ROWS / 2
    ends = [(middle - away[0], axis - away[1]), (middle + away[0], axis + away[1])]
    for ink, width in (("#FFFFFF", 7), (ACCENT, 4)):
        sheet.line(ends, ink=ink, width=width)
    ends = [(middle - 74, axis), (middle + 74, axis)]
    sheet.dashes(*ends, ink="#FFFFFF", width=4)
    sheet.dashes(*ends, ink=ACCENT, width=2)
    right = (low + high) / 2 < LEFT + 0.7 * COLUMNS  # else the length stands there
    place = (LEFT + COLUMNS * right, foot + 17)
    sheet.text(f"line at {lean:g}°", place, anchor="ra" if right else "la", ink=ACCENT)


def guess(sheet: Sheet, face: Face, ground: Plane, words: str, match: float) -> Described:
    """Draw the face that the guess gives, alike on a share of 0 … 1; tell what it shows."""
    sheet.above((LEFT, SECOND), words)
    sheet.steel(face, (LEFT, SECOND), ground)
    same = f"same steel on {100 * match:.0f} % of it (half is chance)"
    sheet.text(same, (LEFT + COLUMNS, SECOND - 6), anchor="rs")
    return described.of(face, PIXEL)


def evidence(
    sheet: Sheet, which: int, bars: tuple[tuple[Billet, float], ...], *, printed: bool
) -> None:
    """Draw what the chosen evidence shows of both bars, side by side.

    Parameters
    ----------
    sheet : Sheet
    which : int
        Index into `EVIDENCE`.
    bars : tuple
        Of each the bar, and how high above its axis its face lies, mm.
    printed : bool
        Whether the second is plain steel below its face.
    """
    if which == FACE:
        words = "Only the face may be looked at. Choose other evidence below."
        sheet.text(words, (LEFT, THIRD), size=16, ink=QUIET)
        return
    widest = max(billet.size.width for billet, _ in bars)
    for index, words in enumerate(("The bar on the bench", "The other")):
        (billet, level), left = bars[index], LEFT + 480 * index
        sheet.above((left, THIRD), f"{words}: {EVIDENCE[which]}")
        surface = _end(billet.size, widest)
        if which == BACK:
            skin = billet.size.thickness / 2
            surface = from_above(billet, skin, *FROM_ABOVE, PIXEL * 2.2)
        seen = etch.seen(billet, surface)
        if which == END:
            seen = _ground(seen, surface, level)
        seen = seen.plain(DARK) if index and printed else seen
        sheet.steel(seen, (left, THIRD), surface)


def _end(size: Size, widest: float) -> Plane:
    """Look at the end of a bar; both to one scale, the wider fills the height."""
    shape, pixel = (FROM_ABOVE[0], SIDE), 1.04 * widest / SIDE
    return Plane.facing(size, "end", (1.0, 0.0, 0.0), shape, pixel)


def _ground(seen: Face, surface: Plane, level: float) -> Face:
    """Leave out what was ground off the top and trimmed off the sides."""
    up = ((surface.rows - 1) / 2 - np.arange(surface.rows)) * surface.pixel
    kept = (up <= level)[:, None]
    return seen._replace(cover=seen.cover * kept)


ALIKE, NEAR = 0.93, 0.85  # of two faces that are the same steel; ours
GUESS, THICK, PRINT = range(3)
TURN, LEAN = 44.0, 38.0  # of the bar on the bench, mm and degrees
STAR = 0.6  # mm: so near the ruler lies on a star


def agreed(lesson: Any) -> str:
    """Say how much of the two faces is the same steel."""
    return f"{100 * lesson.match:.0f} % of the faces agree, where half is chance"


def moved(lesson: Any, changed: str, units: Units) -> str:
    """Say what a measurement, a guess or the evidence is worth.

    Parameters
    ----------
    lesson : ReadingLesson
        After the move.
    changed : str
        The control.
    units : Units
    """
    if changed in ("making", "evidence", "deeper"):
        return _doubted(lesson)
    if changed == "lean":
        off = lesson.lean - LEAN
        if abs(off) < 1.5:
            return "The line lies along the steel's own lines."
        way = "flatter" if off < 0 else "steeper"
        return f"At {lesson.lean:g}° the line lies {way} than the steel's own lines."
    if changed in ("start", "end"):
        return _ruled(lesson, units)
    return _guessed(lesson, changed, units)


def _ruled(lesson: Any, units: Units) -> str:
    turn = TURN
    if abs(lesson.ruled - turn / 2) < STAR:
        return "From one star to the next. How often does a star come in one turn?"
    if abs(lesson.ruled - turn) < STAR:
        return "Over two stars: a star, the next, and back to where it began."
    return f"The ruler says {format_length(lesson.ruled, units)}. Lay it from star to star."


def _guessed(lesson: Any, changed: str, units: Units) -> str:
    if changed == "turn" and abs(lesson.turn - TURN / 2) < 1:
        return "One turn from star to star gives twice as many stars. Compare the faces."
    if changed == "overlay":
        return f"Your bar lies over the unknown by {lesson.overlay:g} %. {agreed(lesson)}."
    if lesson.match > ALIKE:
        return "They agree nearly everywhere. Now ask: could anything else make this face?"
    if changed == "across" and lesson.match > NEAR:
        return "Only the height above the axis shows, not the bar's size by itself."
    size = format_length(getattr(lesson, changed), units)
    return f"{type(lesson).model_fields[changed].title} {size}: {agreed(lesson)}."


def _doubted(lesson: Any) -> str:
    """Say which makings the evidence separates."""
    what = EVIDENCE[lesson.evidence]
    what = f"{what[0].upper()}{what[1:]}"
    if lesson.making == THICK:
        if lesson.evidence:
            return f"{what} tells them apart: the bars differ in size."
        return (
            "The same face, to the last line: it shows how high above the axis it lies, "
            "never how thick the bar was. Its back would tell."
        )
    if lesson.making == PRINT:
        return _printed(lesson)
    if lesson.deeper:
        return "Ground deeper, a right guess stays right. That is the third measurement."
    if lesson.evidence == BACK:
        return "The back was never ground: its lines lean as the whole bar's size says."
    return f"{what}: {agreed(lesson)}."


def _printed(lesson: Any) -> str:
    if lesson.printed_through:
        return "Ground through: the print is gone, the twisted bar has a pattern still."
    if lesson.evidence:
        return "Under the print is plain steel: back and end show no lines."
    return "The same face again. Grind both deeper, or look at the back."
