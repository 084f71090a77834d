"""Homework on paper: everybody's own paper, the key to it, and a hand-in on one page."""

from collections.abc import Callable, Sequence
from pathlib import Path

from kit.basics.claim import with_marks
from kit.basics.units import Units
from kit.classroom.homework.hand_in import HandIn
from kit.classroom.homework.judged import LEVELS, RUBRIC
from kit.classroom.homework.key import Line
from kit.classroom.homework.marking import Marks, mark
from kit.classroom.homework.paper import Homework, Paper, draw
from kit.classroom.homework.ratings import claims
from kit.classroom.paper.handout import lesson, rests
from kit.classroom.paper.kinds import numbered
from kit.classroom.paper.page import HAIR, LIVE, QUIET, Page, bind, lines_of
from kit.classroom.paper.table import Table
from kit.course.check import Found

MOST_LINES = 26  # of what was written; all of it is in the file
SMALL = 9


def hand_in_page(done: HandIn, units: Units = Units.MM) -> Page:
    """Lay a hand-in out: the questions, the last answers, how they stand."""
    marks = mark(done)
    task, values = marks.paper.homework, marks.paper.values
    made = Page(title=f"{task.code}  {task.title}", units=units)
    practice = f". Practice paper {done.redraw}: never counted" if done.practice else ""
    made.write(f"{done.student}. Course {done.course}{practice}.", size=11)
    score = f"Marks so far: {marks.score:.3g} of {marks.most}, before the words are read."
    made.write(score, size=11, bold=True)
    made.y += 2
    headings = ("", "Asked", "Answer", "Tries", "Stands")
    table = Table(headings, (8, 96, 34, 14, 38), size=SMALL)
    table.rows = [_row(marks, part.number, units) for part in task.parts]
    table.draw(made)
    made.y += 3
    judged = task.design.judge(values, done.design, units)
    stands = "meets it" if judged.passed else "not yet"
    made.write(f"{task.design.title}: {stands}. {judged.reason}", size=SMALL)
    made.y += 2
    _written(made, marks)
    made.foot(
        "Made by the kit from the hand-in's file. Marks are worked out from the file."
    )
    return made


def write_hand_in(done: HandIn, path: Path, units: Units = Units.MM) -> Path:
    """Write the hand_in_page as PDF: whole, or not at all."""
    return bind([hand_in_page(done, units)], path, f"{done.set}, {done.student}"[:120])


def _row(marks: Marks, number: int, units: Units) -> tuple[str, ...]:
    asked = with_marks(marks.paper.homework.part(number).ask(marks.paper.values, units))
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
        made.write("\n".join(claims(marks, told=False)), size=SMALL)
        made.y += 1
    made.write("In own words:", size=SMALL, bold=True)
    lines = lines_of(done.words or "-", LIVE[0], SMALL)
    if len(lines) > MOST_LINES:
        lines = [*lines[:MOST_LINES], "… (all of it is in the file)"]
    made.write("\n".join(lines), size=SMALL)
    if done.ratings:
        told = "; ".join(
            f"{line} {'–' if rating is None else LEVELS[rating]}"
            for line, rating in zip(RUBRIC, done.ratings, strict=True)
        )
        made.y += 1
        made.write(f"Rated by the writer: {told}.", size=SMALL - 1, ink=QUIET)
    for row in done.sheet[:6]:
        told = f"{row.what}: {row.predicted} predicted, {row.measured} measured. {row.why}"
        made.write(told[:240], size=SMALL - 1)


SIZE = 10  # points
ROOM = 9.0  # mm, to write an answer in
WORDS = 46.0  # mm, for a written answer
DESIGN = 30.0  # mm, for a design
WIDE = (30, 25, 25, 110)  # mm, columns of a key


def paper_of(drawn: Paper, units: Units) -> list[Page]:
    """Lay one student's paper out, with lines to write on; two sides at most."""
    task = drawn.homework
    pages = [Page()]
    pages[0].head(f"{task.code}  {task.title}", ruled=units)
    pages[0].write(f"{drawn.student}. Course {drawn.course}.", size=11)
    pages[0].write(rests(*map(lesson, task.lessons)), size=9)
    pages[0].y += 2
    design = f"{task.design.title}. {task.design.ask(drawn.values, units)}"
    written = f"{task.judged.title}. {task.judged.ask(drawn.values, units)}"
    blocks = [
        *((f"{number}. {words}", ROOM, part.options) for number, (words, part) in enumerate(
            zip(drawn.questions(units), task.parts, strict=True), 1)),
        (design, DESIGN, ()),
        (written, WORDS, ()),
    ]  # fmt: skip
    for asked, room, options in blocks:
        words = with_marks(asked)
        tall = pages[-1].tall(words, size=SIZE) + room + 4 + 5 * len(options)
        if pages[-1].y + tall > LIVE[1] - 8:
            pages.append(Page())
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
    units: Units = Units.MM,
    progress: Callable[[float], None] = lambda _share: None,
) -> Path:
    """Write everybody's paper into one PDF; `KitError` as homework's `draw`."""
    pages = []
    for number, student in enumerate(students, 1):
        pages += paper_of(draw(task, course, student), units)
        progress(number / len(students) / 2)
    title = f"{task.code}, course {course}"[:120]
    return bind(pages, path, title, lambda share: progress((1 + share) / 2))


def write_key(
    task: Homework,
    course: str,
    key: Sequence[Line],
    path: Path,
    units: Units = Units.MM,
    progress: Callable[[float], None] | None = None,
) -> Path:
    """Write the key_pages as PDF: whole, or not at all."""
    pages = key_pages(task, course, key, units)
    return bind(pages, path, f"Key of {task.code}"[:120], progress)


def key_pages(
    task: Homework, course: str, key: Sequence[Line], units: Units = Units.MM
) -> list[Page]:
    """Lay the key out as a table: student, part, answer, what each slip gives."""
    table = Table(("Student", "Part", "Answer", "Given by those who"), WIDE, size=8)
    table.rows = [_key_row(line) for line in key]
    title = f"Key of {task.code}, course {course}"[:60]

    def turn() -> Page:
        page = Page(title=title, units=units)
        page.write(rests(*map(lesson, task.lessons)), size=9)
        return page

    pages = table.run([], turn)
    for page in pages:
        page.foot("Keep it apart from the papers.")
    return numbered(pages)


def _key_row(line: Line) -> tuple[str, ...]:
    """Lay a line of the key out; what has no slips is long, and goes where they would."""
    if not line.slips:
        return line.student, line.part, "", with_marks(line.answer)
    slips = "\n".join(f"{slip.tag}  {slip.shown}: {slip.name}" for slip in line.slips)
    return line.student, line.part, line.answer, slips
