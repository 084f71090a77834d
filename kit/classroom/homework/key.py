"""The answer key: for each student of a roster the values, answers, and slips' numbers."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from kit.basics.units import Units
from kit.classroom.homework.paper import Homework, Paper, draw
from kit.classroom.homework.safe_csv import to_csv

HEAD = ("Set", "Student", "Part", "Given", "Answer", "Slips")


class Line(NamedTuple):
    """One part of one student's paper.

    Attributes
    ----------
    student : str
    part : int
    question, answer : str
        With the student's values, and what is right.
    slips : tuple of (str, str)
        Code, and the number it gives.
    """

    student: str
    part: int
    question: str
    answer: str
    slips: tuple[tuple[str, str], ...]


def lines(paper: Paper, units: Units = Units.MM) -> list[Line]:
    """Give the key of one paper, part by part."""
    key = []
    for part in paper.homework.parts:
        slips = tuple(
            (code, part.written(value, units) if math.isfinite(value) else "–")
            for code, value in part.slip_values(paper.values).items()
        )
        answer = part.written(part.answer(paper.values), units)
        asked = part.ask(paper.values, units)
        key.append(Line(paper.student, part.number, asked, answer, slips))
    return key


def answer_key(
    homework: Homework,
    course: str,
    students: Iterable[str],
    units: Units = Units.MM,
) -> list[Line]:
    """Give the key for a roster, student by student; `KitError` as `draw`."""
    return [
        line
        for student in students
        for line in lines(draw(homework, course, student), units)
    ]


def key_csv(homework: Homework, key: Sequence[Line]) -> str:
    """Write a key as CSV: a line for each part, slips one after another."""
    rows = (
        (
            homework.code,
            line.student,
            line.part,
            line.question,
            line.answer,
            "; ".join(f"{code} {shown}" for code, shown in line.slips),
        )
        for line in key
    )
    return to_csv(HEAD, rows)
