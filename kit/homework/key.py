"""The answer key: for each student of a roster the values, answers, and slips' numbers."""

from __future__ import annotations

import csv
import io
import math
from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import NamedTuple

from kit.errors import KitError
from kit.homework.drawing import checked_name, normalised
from kit.homework.paper import Homework, Paper, draw
from kit.homework.safe_csv import to_csv
from kit.units import Units

MOST_BYTES, MOST_STUDENTS = 1_000_000, 5000
COLUMNS = ("student", "name", "names", "number", "id")
FIRST = ("first", "first name", "given name", "forename")
LAST = ("last", "last name", "surname", "family name")
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


def roster(text: str) -> list[str]:
    """Read a roster: CSV with a column "student" (or name, number, id), or one a line.

    Raises
    ------
    KitError
        If it is too long, names nobody, or names somebody twice.
    """
    if len(text) > MOST_BYTES:
        msg = f"A roster has at most {MOST_BYTES // 1000} kilobytes."
        raise KitError(msg)
    try:
        delimiter = ";" if text.count(";") > text.count(",") else ","
        rows = list(csv.reader(io.StringIO(text.lstrip("\ufeff")), delimiter=delimiter))
    except csv.Error:
        msg = "That can not be read as a roster: it must be CSV, one student a line."
        raise KitError(msg) from None
    rows = [row for row in rows if any(cell.strip() for cell in row)]
    head = [cell.strip().casefold() for cell in rows[0]] if rows else []
    first, last = (
        next((head.index(name) for name in known if name in head), None)
        for known in (FIRST, LAST)
    )
    if first is not None and last is not None:
        return _checked(
            [
                f"{row[first].strip()} {row[last].strip()}"
                for row in rows[1:]
                if len(row) > max(first, last)
            ]
        )
    column = next((head.index(name) for name in COLUMNS if name in head), None)
    names = [
        row[column or 0].strip()
        for row in rows[column is not None :]
        if len(row) > (column or 0) and row[column or 0].strip()
    ]
    return _checked(names)


def read_roster(path: Path) -> list[str]:
    """Read a roster's file; as `roster`."""
    if not path.is_file():
        msg = f"There is no file '{path.name[:60]}'."
        raise KitError(msg)
    try:
        if path.stat().st_size > MOST_BYTES:
            msg = f"A roster has at most {MOST_BYTES // 1000} kilobytes."
            raise KitError(msg)
        return roster(path.read_text("utf-8-sig"))
    except (OSError, UnicodeDecodeError):
        msg = f"'{path.name[:60]}' can not be read as a roster."
        raise KitError(msg) from None


def _checked(names: list[str]) -> list[str]:
    if not 0 < len(names) <= MOST_STUDENTS:
        msg = f"A roster names 1 to {MOST_STUDENTS} students. Given: {len(names)}."
        raise KitError(msg)
    seen: set[str] = set()
    for name in names:
        one = normalised(checked_name("A student's name", name))
        if one in seen:
            msg = f"The roster names somebody twice. Given: {name[:40]!r}."
            raise KitError(msg)
        seen.add(one)
    return names


def lines(paper: Paper, units: Units = Units.MM) -> list[Line]:
    """Give the key of one paper, part by part."""
    key = []
    for part in paper.homework.parts:
        slips = tuple(
            (code, part.kind.written(value, units) if math.isfinite(value) else "–")
            for code, value in part.slip_values(paper.values).items()
        )
        answer = part.kind.written(part.answer(paper.values), units)
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
