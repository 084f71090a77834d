"""The six-item quiz, before and after: right, inside but wrong, or copied from outside.

As geology educators code drawings of the inside of a block: who draws the outside again
has not begun to look in; who looks in and errs is already learning (common practice of
that field; no source at hand). So three fractions are reported, not one score: of each
question, before against after.

How much a class gained, and how sure that is: the same people answer before and after, so
the shares are paired. The interval is the one of R. G. Newcombe, "Improved confidence
intervals for the difference between binomial proportions based on paired data", Statistics
in Medicine 17 (1998), 2635-2650, method 10: two score intervals, joined by how far the
answers go together. It never leaves -1 … 1, and serves a class of ten as well as one of two
hundred.
"""

import json
import os
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import partial
from itertools import product
from math import hypot, sqrt
from pathlib import Path
from statistics import NormalDist
from typing import Literal, NamedTuple

from pydantic import Field, field_validator

from kit.basics import files
from kit.basics.declare import Declared
from kit.basics.errors import KitError
from kit.basics.typed import LONGEST_TEXT
from kit.classroom import kit_version
from kit.classroom.homework import hand_in
from kit.classroom.homework.drafts import made, mark_of, unused
from kit.classroom.homework.hand_in import QUIZ, Course, Student, check_course
from kit.classroom.homework.marking import MOST_FILES, or_why, shown_name
from kit.classroom.homework.paper import normalised
from kit.classroom.homework.quiz_items import INSIDE, ITEMS, OUTSIDE, RIGHT, Item

SURE = 0.95  # of the interval
_Z = NormalDist().inv_cdf((1 + SURE) / 2)


class Gain(NamedTuple):
    """A gain and its interval, as shares: -1 … 1."""

    gain: float
    low: float
    high: float

    @property
    def told(self) -> str:
        """Write it in hundredths: "+41 (+32 to +49)"."""
        shown = [f"{100 * one:+.0f}".replace("-", "−") for one in self]
        return "{} ({} to {})".format(*("0" if one[1:] == "0" else one for one in shown))


def gain(both: int, lost: int, won: int, neither: int) -> Gain:
    """Give the gain of those who answered twice.

    Parameters
    ----------
    both, lost, won, neither : int
        How many were right both times, only before, only after, never; not all 0.
    """
    many = both + lost + won + neither
    before, after = (both + lost) / many, (both + won) / many
    low_before, high_before = score_interval(before, many)
    low_after, high_after = score_interval(after, many)
    together = _together(both, lost, won, neither)
    down = _joined(after - low_after, high_before - before, together)
    up = _joined(high_after - after, before - low_before, together)
    found = after - before
    return Gain(found, max(found - down, -1), min(found + up, 1))  # not a hair outside


def score_interval(share: float, many: int) -> tuple[float, float]:
    """Give E. B. Wilson's score interval (1927) of a share of so many."""
    middle = share + _Z**2 / (2 * many)
    half = _Z * sqrt(share * (1 - share) / many + (_Z / (2 * many)) ** 2)
    whole = 1 + _Z**2 / many
    return (middle - half) / whole, (middle + half) / whole


def _together(both: int, lost: int, won: int, neither: int) -> float:
    """Give how far the answers go together, taken down by a half as Newcombe does."""
    sides = (both + lost) * (won + neither) * (both + won) * (lost + neither)
    if not sides:
        return 0.0
    product = both * neither - lost * won
    if product > 0:
        product = max(product - (both + lost + won + neither) / 2, 0)
    return product / sqrt(sides)


def _joined(one: float, other: float, together: float) -> float:
    """Join two lengths as two sides of a triangle, by what they have in common."""
    return sqrt(max(hypot(one, other) ** 2 - 2 * together * one * other, 0))


WHEN = ("before", "after")
FORMAT, VERSION, WHAT = QUIZ, 1, "a quiz sheet"  # of the file
When = Literal["before", "after"]


class Sheet(Declared):
    """One person's six answers.

    Attributes
    ----------
    course, student : str
    when : str
        "before" or "after".
    answers : tuple of str
        Six: the number of a choice, or a count; "" for none.
    kit : str
        The kit's version.
    """

    course: Course
    student: Student
    when: When = Field(title="When")
    answers: tuple[str, ...] = Field(
        title="Answers", description="six", min_length=len(ITEMS), max_length=len(ITEMS)
    )
    kit: str = Field(
        "", title="The kit's version", description="at most 40 letters", max_length=40
    )

    @field_validator("answers")
    @classmethod
    def _short(cls, answers: tuple[str, ...]) -> tuple[str, ...]:
        if any(len(answer) > LONGEST_TEXT for answer in answers):
            msg = f"An answer has at most {LONGEST_TEXT} signs."
            raise KitError(msg)
        return answers

    @property
    def codes(self) -> tuple[str, ...]:
        """How each answer is coded; "" for none."""
        return tuple(
            item.code(answer) for item, answer in zip(ITEMS, self.answers, strict=True)
        )


def to_json(sheet: Sheet) -> str:
    """Write a sheet as text, always the same for the same sheet."""
    values = {"format": FORMAT, "version": VERSION, **sheet.model_dump(mode="json")}
    values["kit"] = kit_version()
    return json.dumps(values, indent=1, ensure_ascii=False) + "\n"


def write(sheet: Sheet, path: Path) -> Path:
    """Write a sheet: whole, or not at all; `KitError` if it cannot be written."""
    return files.write(path, to_json(sheet))


def read(path: Path, course: str | None = None) -> Sheet:
    """Read a sheet; `KitError` in one sentence, whatever is wrong with it."""
    values = files.values(files.text(path, WHAT), WHAT, FORMAT, VERSION)
    sheet = Sheet.model_validate_json(json.dumps(values), strict=True)
    check_course(sheet.course, course)
    return sheet


def keep(where: Path, sheet: Sheet) -> Path:
    """Write a sheet into a folder; one with other answers stays, under its own name.

    Raises
    ------
    KitError
        If it cannot be written, in one sentence.
    """
    path = made(where) / sheet_name(sheet)
    if os.path.lexists(path):
        if _same(path, sheet):
            return path
        path = unused(path)
    return write(sheet, path)


def sheet_name(sheet: Sheet) -> str:
    """Name a sheet so that a folder of them can be told apart."""
    return f"quiz {sheet.when} {mark_of(sheet.course, sheet.student)}.json"


def _same(path: Path, sheet: Sheet) -> bool:
    try:
        return read(path).model_copy(update={"kit": sheet.kit}) == sheet
    except KitError:
        return False


def read_folder(folder: Path, course: str | None = None) -> tuple[list[Sheet], list[str]]:
    """Read all quiz sheets of a folder, of each student the last before and after.

    Returns
    -------
    sheets, remarks : list of Sheet, list of str
        A remark for each file that is no sheet, and for each that another took the place
        of.
    """
    kept: dict[tuple[str, str], tuple[str, Sheet]] = {}
    remarks, twice = [], []
    for path in files.files(folder, "quiz sheets", MOST_FILES, but=hand_in.FORMAT):
        one = or_why(path, partial(read, course=course))
        if isinstance(one, str):
            remarks.append(one)
            continue
        name, key = shown_name(path.name), (one.when, normalised(one.student))
        if key in kept:
            twice.append((kept[key][0], key))
        kept[key] = name, one
    remarks += [
        f"{name}: not counted. {kept[key][1].student!r} has more than one sheet of "
        f"{key[0]}: {kept[key][0]} counts, the last by its name."
        for name, key in twice
    ]
    return [sheet for _, sheet in kept.values()], remarks


CODES = (RIGHT, INSIDE, OUTSIDE)


class Fractions(NamedTuple):
    """Shares of those who answered, 0 … 1, and how many did."""

    right: float
    inside: float
    outside: float
    answered: int


@dataclass(frozen=True, kw_only=True)
class Report:
    """A class before and after.

    Parameters
    ----------
    items : sequence of Item
    before, after : sequence of Fractions
        Item by item, and of all items together at the end.
    gains : sequence of Gain or None
        Item by item, of those who answered it both times; None where nobody did.
    both : int
        Students of whom there are both sheets.
    """

    items: Sequence[Item]
    before: Sequence[Fractions]
    after: Sequence[Fractions]
    gains: Sequence[Gain | None]
    both: int

    def rows(self) -> list[list[str]]:
        """Give the report as lines of a table: item, three fractions, twice, the gain.

        The six together have no gain: answers of one person are no pairs of their own.
        """
        names = [*(item.name for item in self.items), "all six"]
        gains = [*(one.told if one else "–" for one in self.gains), ""]
        return [
            [name, *_percents(one), *_percents(other), gain]
            for name, one, other, gain in zip(
                names, self.before, self.after, gains, strict=True
            )
        ]

    @property
    def compared(self) -> str:
        """Say of how many students there are both sheets."""
        many = "1 student" if self.both == 1 else f"{self.both} students"
        return f"Both sheets: {many}" + ("; only they are compared." if self.both else ".")


SHORT = ("right", "inside", "outside")  # the codes, where there is little room
MEANT = (
    "inside: looked inside, but wrong; outside: copied from the outside; gain: how many "
    "more in a hundred were right after, and between which numbers the gain of a large "
    "class like this one lies, 19 times of 20."
)


def report(sheets: Iterable[Sheet]) -> Report:
    """Report the three fractions before and after.

    Of a student with two sheets of one kind the last counts (`quiz.read_folder` tells of
    it). Where anybody filled in both, only those are compared: another group would be
    another class.
    """
    kept = {(sheet.when, normalised(sheet.student)): sheet for sheet in sheets}
    known = [{who for when, who in kept if when == one} for one in WHEN]
    counted = known[0] & known[1] or known[0] | known[1]
    before, after = (
        _fractions(
            [
                sheet.codes
                for (when, who), sheet in kept.items()
                if when == one and who in counted
            ]
        )
        for one in WHEN
    )
    both = known[0] & known[1]
    pairs = [[kept[when, who].codes for when in WHEN] for who in both]
    gains = [
        _gain([(one[at], other[at]) for one, other in pairs]) for at in range(len(ITEMS))
    ]
    return Report(items=ITEMS, before=before, after=after, gains=gains, both=len(both))


def _gain(pairs: Iterable[tuple[str, str]]) -> Gain | None:
    """Find the gain of those who answered an item both times."""
    answered = [(one == RIGHT, other == RIGHT) for one, other in pairs if one and other]
    if not answered:
        return None
    return gain(*(answered.count(pair) for pair in product((True, False), repeat=2)))


def _fractions(coded: Sequence[Sequence[str]]) -> list[Fractions]:
    columns = [[codes[at] for codes in coded] for at in range(len(ITEMS))]
    columns.append([code for codes in coded for code in codes])
    return [_shares([code for code in column if code]) for column in columns]


def _shares(codes: Sequence[str]) -> Fractions:
    answered = len(codes)
    shares = (codes.count(code) / answered if answered else 0.0 for code in CODES)
    return Fractions(*shares, answered)


def _percents(one: Fractions) -> list[str]:
    shares = (one.right, one.inside, one.outside)
    return [f"{100 * share:.0f} %" if one.answered else "–" for share in shares]
