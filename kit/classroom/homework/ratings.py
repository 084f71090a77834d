"""What a person reads of hand-ins; and the marks for it, a CSV file, a line an answer."""

from collections.abc import Iterable
from pathlib import Path

from kit.basics import files
from kit.basics.errors import KitError
from kit.classroom.homework.judged import RUBRIC
from kit.classroom.homework.marking import Marks, Ratings
from kit.classroom.homework.paper import checked_name, normalised
from kit.classroom.homework.sets import homework


def to_read(marks: Iterable[Marks], code: str) -> list[tuple[str, str, tuple[int, ...]]]:
    """Lay what students wrote side by side.

    Returns
    -------
    list of (student, text, own ratings)
        By student, what was ticked of sellers' claims before the text; each to be
        rated 0, 1 or 2 for each line of `RUBRIC`.
    """
    return [
        (one.done.student, "\n".join([*claims(one), one.done.words]), one.done.ratings)
        for one in marks
        if one.done.set == code and one.done.written
    ]


def claims(one: Marks, *, told: bool = True) -> list[str]:
    """Say what was ticked of each seller's claim, and, if `told`, whether it is right."""
    lines = []
    asked = one.paper.homework.judged.claims
    for claim, tier in zip(asked, one.done.claims, strict=False):
        verdict = {True: "Possible", False: "Not possible", None: "(not ticked)"}
        reason = "(not ticked)" if tier.reason is None else claim.reasons[tier.reason]
        sign = "✓" if claim.right(tier.possible, tier.reason) else "✗"
        line = f"{claim.words} {verdict[tier.possible]}: {reason}"
        lines.append(f"{line} ({sign})" if told and tier.whole else line)
    return lines


def rated(keys: str) -> tuple[int, ...]:
    """Read the teacher's keystrokes for one answer: three figures of 0, 1 or 2.

    Raises
    ------
    KitError
        If they are something else.

    Examples
    --------
    >>> rated("210")
    (2, 1, 0)
    """
    plain = str(keys).strip()
    if len(plain) != len(RUBRIC) or any(key not in "012" for key in plain):
        msg = f"Three keys of 0, 1 or 2, one for each question. Given: {plain[:20]!r}."
        raise KitError(msg)
    return tuple(int(key) for key in plain)


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
    return files.write(path, files.to_csv(HEAD, rows))
