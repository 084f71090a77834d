"""Homework on paper: everybody's own paper, values filled in; and the key to it."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from kit.basics.units import Units
from kit.classroom.homework.key import Line
from kit.classroom.homework.paper import Homework, Paper, draw
from kit.classroom.paper.book import bind
from kit.classroom.paper.page import HAIR, LIVE, QUIET, Page
from kit.classroom.paper.tables import Table
from kit.classroom.paper.widths import height_of

SIZE = 10
ROOM = 9.0  # mm, to write an answer in
WORDS = 46.0  # mm, for a written answer
DESIGN = 30.0  # mm, for a design


def paper_of(drawn: Paper, paper: str = "A4", units: Units = Units.MM) -> list[Page]:
    """Lay one student's paper out, with lines to write on; two sides at most."""
    task = drawn.homework
    pages = [Page(paper, f"{task.code}  {task.title}")]
    pages[0].write(f"{drawn.student}. Course {drawn.course}.", size=11)
    pages[0].y += 2
    design = f"{task.design.title}. {task.design.ask(drawn.values, units)}"
    written = f"{task.judged.title}. {task.judged.ask(drawn.values, units)}"
    blocks = [
        *((f"{number}. {words}", ROOM, part.options) for number, (words, part) in enumerate(
            zip(drawn.questions(units), task.parts, strict=True), 1)),
        (design, DESIGN, ()),
        (written, WORDS, ()),
    ]  # fmt: skip
    for words, room, options in blocks:
        tall = height_of(words, LIVE[0], SIZE) + room + 4 + 5 * len(options)
        if pages[-1].y + tall > LIVE[1] - 8:
            pages.append(Page(paper, ""))
        _block(pages[-1], words, room, options)
    for page in pages:
        page.foot("Show how you got there. Values are this student's own.")
    return pages


def _block(page: Page, words: str, room: float, options: Sequence[str]) -> None:
    page.write(words, size=SIZE)
    for number, option in enumerate(options, 1):
        page.write(f"   {number}  {option}", size=SIZE)
    y = page.y + room
    page.line((0, y), (LIVE[0], y), width=HAIR, ink=QUIET)
    page.y = y + 4


def write_papers(
    task: Homework,
    course: str,
    students: Sequence[str],
    path: Path,
    *,
    paper: str = "A4",
    units: Units = Units.MM,
) -> Path:
    """Write everybody's paper into one PDF; `KitError` as homework's `draw`."""
    pages = [
        page
        for student in students
        for page in paper_of(draw(task, course, student), paper, units)
    ]
    return bind(pages, path, f"{task.code}, course {course}"[:120])


def write_key(
    task: Homework, course: str, key: Sequence[Line], path: Path, paper: str = "A4"
) -> Path:
    """Write the key as a table: student, part, answer, what each slip gives."""
    table = Table(("Student", "", "Answer", "Given by those who"), (38, 8, 24, 120), size=8)
    table.rows = [_key_row(line) for line in key]
    pages = []
    while table.rows:
        page = Page(paper, f"Key of {task.code}, course {course}"[:60])
        table.rows = table.draw(page)
        page.foot("Keep it apart from the papers.")
        pages.append(page)
    return bind(pages, path, f"Key of {task.code}"[:120])


def _key_row(line: Line) -> tuple[str, ...]:
    """Lay a line of the key out; what has no slips is long, and goes where they would."""
    if not line.slips:
        return line.student, line.part, "one of many:", line.answer
    slips = "; ".join(f"{slip.tag} {slip.shown}: {slip.name}" for slip in line.slips)
    return line.student, line.part, line.answer, slips
