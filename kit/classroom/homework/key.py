"""The answer key: for each student of a roster the values, answers, and slips' numbers."""

import math
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from kit.basics.files import to_csv
from kit.basics.units import Units
from kit.classroom.homework.paper import Homework, Paper, draw

HEAD = ("Set", "Student", "Part", "Given", "Answer", "Slips")
ALL = "all"  # students: most written answers have one model for a whole class


class Slip(NamedTuple):
    """What a wrong idea leads to on one paper.

    Attributes
    ----------
    tag : str
        As in the class table: "2c".
    shown : str
        Its number, or what it chooses; "–" where it leads nowhere.
    name : str
        "use tan for sin"
    """

    tag: str
    shown: str
    name: str


class Line(NamedTuple):
    """One part of one student's paper.

    Attributes
    ----------
    student, part : str
        The part's number, or its title: as on the paper.
    question, answer : str
        With the student's values, and what is right; one right answer of many where
        there are many.
    slips : tuple of Slip
    """

    student: str
    part: str
    question: str
    answer: str
    slips: tuple[Slip, ...] = ()


def lines(paper: Paper, units: Units = Units.MM) -> list[Line]:
    """Give the key of one paper: part by part, then the design and what is written."""
    key = []
    for part in paper.homework.parts:
        found = part.slip_values(paper.values).values()
        slips = tuple(
            Slip(
                part.tag(idea),
                part.written(value, units) if math.isfinite(value) else "–",
                idea.name,
            )
            for idea, value in zip(part.slips, found, strict=True)
        )
        answer = part.written(part.answer(paper.values), units)
        asked = part.ask(paper.values, units)
        key.append(Line(paper.student, str(part.number), asked, answer, slips))
    design, judged = paper.homework.design, paper.homework.judged
    for task, answer in (
        (design, f"For example: {design.one(paper.values, units)}."),
        (judged, judged.best(paper.values, units)),
    ):
        asked = task.ask(paper.values, units)
        key.append(Line(paper.student, task.title, asked, answer))
    return key


def answer_key(
    homework: Homework, course: str, students: Iterable[str], units: Units = Units.MM
) -> list[Line]:
    """Give the key for a roster, student by student; `KitError` as `draw`.

    What is the same for everybody, as most written answers are, comes once, at the end.
    """
    key = [
        line
        for student in students
        for line in lines(draw(homework, course, student), units)
    ]
    for part in (homework.design.title, homework.judged.title):
        told = [line for line in key if line.part == part]
        if len({line.answer for line in told}) == 1:
            key = [line for line in key if line.part != part]
            key.append(told[0]._replace(student=ALL))
    return key


def key_csv(homework: Homework, key: Sequence[Line]) -> str:
    """Write a key as CSV: a line for each part, slips one after another."""
    rows = (
        (
            homework.code,
            line.student,
            line.part,
            line.question,
            line.answer,
            "; ".join(f"{slip.tag} {slip.shown}: {slip.name}" for slip in line.slips),
        )
        for line in key
    )
    return to_csv(HEAD, rows)
