"""A roster of a class: who is to hand in, from a CSV file or plain lines."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator
from pathlib import Path

from kit.errors import KitError
from kit.homework.drawing import checked_name, normalised

MOST_BYTES, MOST_STUDENTS = 1_000_000, 5000
COLUMNS = ("student", "name", "names", "number", "id")
FIRST = ("first", "first name", "given name", "forename")
LAST = ("last", "last name", "surname", "family name")
Row = tuple[int, list[str]]  # the line it ends on, its cells


def roster(text: str) -> list[str]:
    """Read a roster: CSV with a column "student" (or name, number, id), or one a line.

    A first and a last name in two columns make one name.

    Raises
    ------
    KitError
        If it is too long, names nobody, names somebody twice, or a line lacks a name;
        it says on which line.
    """
    if len(text) > MOST_BYTES:
        msg = f"A roster has at most {MOST_BYTES // 1000} kilobytes."
        raise KitError(msg)
    try:
        rows = list(_rows(text))
    except csv.Error:
        msg = "That can not be read as a roster: it must be CSV, one student a line."
        raise KitError(msg) from None
    head = [cell.casefold() for cell in rows[0][1]] if rows else []
    first, last, whole = (
        next((head.index(name) for name in known if name in head), None)
        for known in (FIRST, LAST, COLUMNS)
    )
    if first is not None and last is not None:
        columns, rows = (first, last), rows[1:]
    else:
        columns, rows = (whole or 0,), rows[whole is not None :]
    return _checked([(line, _name(line, cells, columns)) for line, cells in rows])


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


def _rows(text: str) -> Iterator[Row]:
    """Give every line that has something in it."""
    delimiter = ";" if text.count(";") > text.count(",") else ","
    reader = csv.reader(io.StringIO(text.lstrip("\ufeff")), delimiter=delimiter)
    for row in reader:
        cells = [cell.strip() for cell in row]
        if any(cells):
            yield reader.line_num, cells


def _name(line: int, cells: list[str], columns: tuple[int, ...]) -> str:
    """Put a name together from its columns; nobody is passed over in silence."""
    parts = [cells[column] for column in columns if column < len(cells)]
    if len(parts) < len(columns) or not any(parts):
        msg = f"Line {line} of the roster has no name where the others have it."
        raise KitError(msg)
    return " ".join(filter(None, parts))


def _checked(names: list[tuple[int, str]]) -> list[str]:
    if not 0 < len(names) <= MOST_STUDENTS:
        msg = f"A roster names 1 to {MOST_STUDENTS} students. Given: {len(names)}."
        raise KitError(msg)
    seen: dict[str, int] = {}
    for line, name in names:
        one = normalised(checked_name(f"The name on line {line} of the roster", name))
        if one in seen:
            msg = (
                f"The roster names somebody twice, on lines {seen[one]} and {line}. "
                f"Given: {name[:40]!r}."
            )
            raise KitError(msg)
        seen[one] = line
    return [name for _, name in names]
