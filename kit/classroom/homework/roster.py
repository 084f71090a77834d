"""A roster of a class: who is to hand in, from a CSV file or plain lines."""

from collections.abc import Iterable
from pathlib import Path

from kit.basics import files
from kit.basics.errors import KitError
from kit.classroom.homework.paper import checked_name, normalised

WHAT = "a roster"
MOST_BYTES, MOST_STUDENTS = 1024 * 1024, 5000  # ours
COLUMNS = ("student", "name", "names", "number", "id")
FIRST = ("first", "first name", "given name", "forename")
LAST = ("last", "last name", "surname", "family name")


def roster(text: str) -> list[str]:
    """Read a roster: CSV with a column "student" (or name, number, id), or one a line.

    A first and a last name in two columns make one name.

    Raises
    ------
    KitError
        If it is too long, names nobody, names somebody twice, or a line lacks a name;
        it says on which line.
    """
    delimiter = ";" if text.count(";") > text.count(",") else ","
    plain = text.lstrip("\ufeff")
    if plain.lstrip().startswith(("{", "[")):  # a hand-in, say, chosen by mistake
        msg = f"That cannot be read as {WHAT}: it must be a table (CSV) or plain lines."
        raise KitError(msg)
    rows = list(files.rows(plain, WHAT, delimiter))
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


def roster_csv(names: Iterable[str]) -> str:
    """Write names as the CSV that `roster` reads."""
    return files.to_csv(("student",), [(name,) for name in names])


def read_roster(path: Path) -> list[str]:
    """Read a roster's file; as `roster`."""
    return roster(files.text(path, WHAT, MOST_BYTES))


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
