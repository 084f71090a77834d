"""What lesson 11 says of a move: what a measurement, a guess or other evidence is worth."""

from __future__ import annotations

from typing import Any

from kit.basics.units import Units, format_length
from kit.course.lessons.reading_drawing import BACK, EVIDENCE

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
