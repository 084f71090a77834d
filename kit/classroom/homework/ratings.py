"""The teacher's marks for written answers: a CSV file, one line an answer."""

from __future__ import annotations

from pathlib import Path

from kit.basics import files
from kit.basics.errors import KitError
from kit.basics.files import to_csv, whole
from kit.classroom.homework.drawing import checked_name, normalised
from kit.classroom.homework.marking import Ratings
from kit.classroom.homework.reading import rated
from kit.classroom.homework.sets import homework

WHAT = "a file of ratings"
RATINGS = "ratings.csv"  # beside the hand-ins
HEAD = ("set", "student", "ratings", "of")
LEAST = 3  # columns: a teacher who types them leaves the check sum out


def load(path: Path) -> dict[tuple[str, str, str], tuple[int, ...]]:
    """Read ratings: set, student, three figures of 0 to 2, such as ``H1,Student One,210``.

    A fourth cell is the check sum of what was read; without it they are for any words.

    Raises
    ------
    KitError
        In one sentence, with the line that is wrong.
    """
    found = {}
    for number, row in files.rows(files.text(path, WHAT), WHAT):
        if number == 1 and row[0].casefold() == HEAD[0]:
            continue
        if not LEAST <= len(row) <= len(HEAD):
            msg = f"Line {number} of the ratings must be set, student, three figures."
            raise KitError(msg)
        code, student, keys, *of = (cell.removeprefix("'") for cell in row)
        name = normalised(checked_name("A student's name", student))
        try:
            found[homework(code).code, name, "".join(of)] = rated(keys)
        except KitError as refused:
            msg = f"Line {number} of the ratings: {refused}"
            raise KitError(msg) from None
    return found


def save(ratings: Ratings, path: Path) -> Path:
    """Write ratings: whole, or not at all."""
    rows = [
        (code, student, "".join(map(str, keys)), of)
        for (code, student, of), keys in sorted(ratings.items())
    ]
    with whole(path) as part:
        part.write_text(to_csv(HEAD, rows), "utf-8")
    return path
