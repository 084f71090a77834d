"""Lesson 11 on one sheet: picture, words and numbers."""

from __future__ import annotations

from typing import Any

from kit.basics.units import Units, format_length
from kit.course.lessons import reading_drawing as drawn
from kit.course.lessons.reading import (
    BACK,
    EVIDENCE,
    LEAN,
    PRINT,
    THICK,
    TURN,
    Job,
)
from kit.course.lessons.reading_ideas import height, height_working, turn_working
from kit.course.lessons.scene import Number, Scene
from kit.section.described import Described
from kit.section.picture import Sheet

COLUMNS, ROWS = 1000, 474


def scene(
    *,
    units: Units = Units.MM,
    sunlit: bool = False,
    told: bool = True,
    **settings: float,
) -> Scene:
    """Measure the unknown face, lay a guess beside it, look at other evidence.

    Unless `told`, what follows from the measurements is left out.

    Raises
    ------
    KitError
        If the ruler runs backwards, or more than half the guessed bar is ground off.
    """
    job = Job.asked(settings, units)
    sheet = Sheet(COLUMNS, ROWS, sunlit=sunlit)
    shows = drawn.unknown(sheet, job, units), drawn.guess(sheet, job)
    drawn.evidence(sheet, job)
    numbers = _numbers(job, units)
    return Scene(
        image=sheet.image,
        alt=_alt(job, shows, units),
        numbers=numbers if told else numbers[:1],
    )


def _numbers(job: Job, units: Units) -> tuple[Number, ...]:
    given = {"s": job.ruled, "a": job.lean, "q": 0.0}
    read = height(job.ruled, job.lean)
    return (
        Number(
            "Ruler and protractor",
            f"{format_length(job.ruled, units)}, {job.lean:g}°",
            [
                "ruler = right end - left end",
                f"= {job.end:g} - {job.start:g} = {job.ruled:g} mm",
            ],
        ),
        Number(
            "If that is one star to the next, one turn is",
            format_length(2 * job.ruled, units),
            turn_working(given),
        ),
        Number(
            "and the face lies above the axis",
            format_length(read, units),
            height_working(given),
        ),
        Number(
            "The bar compared: above its axis",
            format_length(job.level, units),
            _level_working(job),
        ),
        Number(
            "Same steel",
            f"{100 * job.match:.0f} %",
            [
                "compare place by place: how much of both faces is the same steel",
                "two faces that have nothing in common agree on half",
                f"= {100 * job.match:.1f} %",
            ],
        ),
    )


def _level_working(job: Job) -> list[str]:
    off = job.size[0] / 2 - job.level - job.deeper
    return [
        "height = half the bar - all that was ground off",
        f"= {job.size[0] / 2:g} - {off:.2f} - {job.deeper:g}",
        f"= {job.level:.2f} mm",
    ]


def _alt(job: Job, shows: tuple[Described, Described], units: Units) -> str:
    deeper = f", ground {format_length(job.deeper, units)} deeper" if job.deeper else ""
    over = f", the other laid over it by {job.overlay:g} percent" if job.overlay else ""
    other = {
        0: f"your guess, a bar {format_length(job.across, units)} across, one turn in "
        f"{format_length(job.turn, units)}, {format_length(job.ground, units)} ground off",
        THICK: "a thicker bar, ground deeper",
        PRINT: "a print on plain steel",
    }[job.making]
    looked = f" Below, for both: {EVIDENCE[job.evidence]}." if job.evidence else ""
    return (
        f"A long face with a row of stars{deeper}{over}: it shows {shows[0]}. A ruler on "
        f"it runs over {format_length(job.ruled, units)}, a line leans {job.lean:g} "
        f"degrees. Under it the face of {other}: it shows {shows[1]}, and "
        f"{100 * job.match:.0f} percent is the same steel.{looked}"
    )


def remark(changed: str, state: dict[str, Any]) -> str:
    """Say what a change of one control did, where that is the point of it."""
    job = Job(**state)
    if changed in ("making", "evidence", "deeper"):
        return _told(job)
    if changed in ("start", "end", "lean"):
        return _measured(job, changed)
    return _guessed(job, changed)


def _measured(job: Job, changed: str) -> str:
    """Say what ruler and protractor lie on."""
    if changed == "lean":
        along = abs(job.lean - LEAN) < 1.5
        return "The line lies along the steel's own lines." if along else ""
    if abs(job.ruled - TURN / 2) < 0.6:
        return "From one star to the next. How often does a star come in one turn?"
    if abs(job.ruled - TURN) < 0.6:
        return "Over two stars: a star, the next, and back to where it began."
    return ""


def _guessed(job: Job, changed: str) -> str:
    """Say what a guess gives."""
    if changed == "turn" and abs(job.turn - TURN / 2) < 1:
        return "One turn from star to star gives twice as many stars. Compare the faces."
    if job.match > 0.93:
        return "They agree nearly everywhere. Now ask: could anything else make this face?"
    if changed == "across" and job.match > 0.85:
        return "Only the height above the axis shows, not the bar's size by itself."
    return ""


def _told(job: Job) -> str:
    """Say which makings the evidence separates."""
    if job.making == THICK:
        return _told_of_thick(job)
    if job.making == PRINT:
        return _told_of_print(job)
    if job.deeper:
        return "Ground deeper, a right guess stays right. That is the third measurement."
    if job.evidence == BACK:
        return "The back was never ground: its lines lean as the whole bar's size says."
    return ""


def _told_of_thick(job: Job) -> str:
    if job.evidence:
        what = EVIDENCE[job.evidence]
        return f"{what[0].upper()}{what[1:]} tells them apart: the bars differ in size."
    return (
        "The same face, to the last line. A face shows how high above the axis it "
        "lies, never how thick the bar was. Its back would tell."
    )


def _told_of_print(job: Job) -> str:
    if job.printed_through:
        return "Ground through: the print is gone, the twisted bar has a pattern still."
    if job.evidence:
        return "Under the print is plain steel: back and end show no lines."
    return "The same face again. Grind both deeper, or look at the back."
