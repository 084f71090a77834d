"""One page of a student's hand-in: the questions, the last answers, how they stand."""

from __future__ import annotations

from pathlib import Path

from kit.basics.units import Units
from kit.classroom.homework.judged import LEVELS, RUBRIC
from kit.classroom.homework.marking import Marks, mark
from kit.classroom.homework.reading import claims
from kit.classroom.homework.record import HandIn
from kit.classroom.paper.book import bind
from kit.classroom.paper.page import LIVE, QUIET, Page
from kit.classroom.paper.tables import Table
from kit.classroom.paper.widths import lines_of
from kit.course.check import Found

MOST_LINES = 26  # of what was written; all of it is in the file
SIZE = 9


def page(done: HandIn, paper: str = "A4") -> Page:
    """Lay a hand-in out on one page."""
    marks = mark(done)
    made = Page(paper, f"{marks.paper.homework.code}  {marks.paper.homework.title}")
    fresh = f". Fresh paper {done.redraw}: practice, never counted" if done.practice else ""
    made.write(f"{done.student}. Course {done.course}{fresh}.", size=11)
    score = f"Marks so far: {marks.score:.3g} of {marks.most}, before the words are read."
    made.write(score, size=11, bold=True)
    made.y += 2
    headings = ("", "Asked", "Answer", "Tries", "Stands")
    table = Table(headings, (8, 96, 34, 14, 38), size=SIZE)
    table.rows = [_row(marks, number) for number in _numbers(marks)]
    table.draw(made)
    made.y += 3
    design = marks.paper.homework.design
    stands = "meets it" if marks.design.passed else "not yet"
    made.write(f"{design.title}: {stands}. {marks.design.reason}", size=SIZE)
    made.y += 2
    _written(made, marks)
    made.foot(
        "Made by the kit from the hand-in's file. Marks are worked out from the file."
    )
    return made


def write(done: HandIn, path: Path, paper: str = "A4") -> Path:
    """Write the page as PDF: whole, or not at all."""
    return bind([page(done, paper)], path, f"{done.set}, {done.student}"[:120])


def _numbers(marks: Marks) -> list[int]:
    return [part.number for part in marks.paper.homework.parts]


def _row(marks: Marks, number: int) -> tuple[str, ...]:
    asked = marks.paper.homework.part(number).ask(marks.paper.values, Units.MM)
    given = [one for one in marks.done.answers if one.part == number]
    result = marks.results.get(number)
    if not given:
        return str(number), asked, "-", "0", "not answered"
    last = result.text if result else given[-1].text
    stands = "not read" if result is None else _stands(result.found)
    return str(number), asked, last, str(len(given)), stands


def _stands(found: Found) -> str:
    """Say how an answer stands: its outcome, or the cause in words."""
    causes = ["the unit is not right"] if found.unit else [one.name for one in found.ideas]
    return found.outcome if found.earns else ": ".join(["not yet", *causes])


def _written(made: Page, marks: Marks) -> None:
    done = marks.done
    if done.claims:
        made.write("\n".join(claims(marks, told=False)), size=SIZE)
        made.y += 1
    made.write("In own words:", size=SIZE, bold=True)
    lines = lines_of(done.words or "-", LIVE[0], SIZE)
    if len(lines) > MOST_LINES:
        lines = [*lines[:MOST_LINES], "… (all of it is in the file)"]
    made.write("\n".join(lines), size=SIZE)
    if done.ratings:
        told = "; ".join(
            f"{line} {'–' if rating is None else LEVELS[rating]}"
            for line, rating in zip(RUBRIC, done.ratings, strict=True)
        )
        made.y += 1
        made.write(f"Rated by the writer: {told}.", size=SIZE - 1, ink=QUIET)
    for row in done.sheet[:6]:
        told = f"{row.what}: {row.predicted} predicted, {row.measured} measured. {row.why}"
        made.write(told[:240], size=SIZE - 1)
