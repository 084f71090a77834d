"""Marks for a spreadsheet: a row a student, a column a mark, plain numbers and totals.

Nothing in it looks like a date or a formula: marks are numbers, the most that could be
earned has its own column, and what was not handed in is empty.
"""

from collections.abc import Callable, Iterable, Sequence
from functools import partial

from kit.basics.files import to_csv
from kit.classroom.homework.drawing import normalised
from kit.classroom.homework.judged import share
from kit.classroom.homework.marking import Marks
from kit.classroom.homework.sets import homework

HEAD = ("Student", "Sets handed in", "Total", "Of")
SIGNS = {",": ".", ";": ","}  # between cells, and the decimal sign that goes with it


def marks_csv(
    marks: Iterable[Marks], roster: Sequence[str] = (), between: str = ","
) -> str:
    """Write marks as CSV.

    Parameters
    ----------
    marks : iterable of Marks
        As `marking.mark_folder` gives them: of each student and set one.
    roster : sequence of str
        Who has a row whether anything was handed in or not; others follow.
    between : str
        What stands between cells: "," or, where a comma is the decimal sign, ";".
    """
    names: dict[str, str] = {normalised(name): name for name in roster}
    found: dict[tuple[str, str], Marks] = {}
    for one in marks:
        names.setdefault(one.done.who, one.done.student)
        found[one.done.who, one.done.set] = one
    codes = sorted({code for _, code in found})
    columns = [(code, *column) for code in codes for column in _columns(code)]
    most = sum(homework(code).marks for code in codes)
    rows = []
    for who, name in names.items():
        here = [found[who, code] for code in codes if (who, code) in found]
        total = round(sum(one.score for one in here), 2)
        cells = [
            cell(found[who, code]) if (who, code) in found else ""
            for code, _, cell in columns
        ]
        rows.append([name, len(here), total, most, *cells])
    head = [*HEAD, *(f"{code} {title}" for code, title, _ in columns)]
    return to_csv(head, rows, between, SIGNS[between])


def _columns(code: str) -> list[tuple[str, Callable[[Marks], object]]]:
    """Give the columns of a set: a title, and how it is filled from a hand-in."""
    numbers = [part.number for part in homework(code).parts]
    return [
        *((f"part {number}", partial(_part, number)) for number in numbers),
        ("design", lambda one: int(one.design.passed)),
        ("words", _words),
        ("score", lambda one: round(one.score, 2)),
        ("tries", lambda one: len(one.done.answers)),
        ("slips", _slips),
    ]


def _part(number: int, one: Marks) -> int:
    return one.results[number].mark if number in one.results else 0


def _words(one: Marks) -> object:
    """Give the mark of the written answer; empty while it is to read."""
    if one.read:
        return round(share(one.read), 2)
    return "" if one.done.written else 0


def _slips(one: Marks) -> str:
    """Name the slips of the answers as they stand, part by part, in words."""
    told = []
    for number, result in sorted(one.results.items()):
        if result.found.unit:
            told.append(f"part {number}: mistake the unit")
        told += [f"part {number}: {idea.name}" for idea in result.found.ideas]
    return ". ".join(told)
