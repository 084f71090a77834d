"""The six-item quiz, before and after: right, inside but wrong, or copied from outside.

As geology educators code drawings of the inside of a block: who draws the outside again
has not begun to look in; who looks in and errs is already learning (common practice of
that field; no source at hand). So three fractions are reported, not one score.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Literal, NamedTuple

from pydantic import Field, field_validator

from kit import bounded
from kit.declare import Declared
from kit.errors import KitError
from kit.homework.drawing import MOST_LETTERS, checked_course, checked_name, normalised
from kit.homework.hand_in import check_course, kit_version
from kit.homework.marking import MOST_FILES, shown_name
from kit.homework.quiz_items import INSIDE, ITEMS, OUTSIDE, RIGHT, Item
from kit.typed import LONGEST_TEXT
from kit.whole import whole

CODES = (RIGHT, INSIDE, OUTSIDE)
FORMAT, VERSION, WHAT = "pattern-welding quiz", 1, "a quiz sheet"
When = Literal["before", "after"]


def _text(title: str, most: int, default: str = "") -> str:
    said = f"text of at most {most} letters"
    return Field(default or ..., title=title, description=said, max_length=most)


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

    course: str = _text("The course", MOST_LETTERS)
    student: str = _text("The student's name", MOST_LETTERS)
    when: When = Field(title="When")
    answers: tuple[str, ...] = Field(
        title="Answers",
        description="six",
        min_length=len(ITEMS),
        max_length=len(ITEMS),
    )
    kit: str = _text("The kit's version", 40, "unknown")

    @field_validator("course")
    @classmethod
    def _course(cls, course: str) -> str:
        return checked_course(course)

    @field_validator("student")
    @classmethod
    def _student(cls, student: str) -> str:
        return checked_name("The student's name", student)

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
    both : int
        Students of whom there are both sheets.
    """

    items: Sequence[Item]
    before: Sequence[Fractions]
    after: Sequence[Fractions]
    both: int

    def rows(self) -> list[list[str]]:
        """Give the report as lines of a table: item, then three fractions, twice."""
        names = [*(item.name for item in self.items), "all six"]
        return [
            [name, *_percents(one), *_percents(other)]
            for name, one, other in zip(names, self.before, self.after, strict=True)
        ]


HEAD = (
    "Item",
    *(f"{code}, {when}" for when in ("before", "after") for code in CODES),
)


def report(sheets: Iterable[Sheet]) -> Report:
    """Report the three fractions before and after.

    Of a student with two sheets of one kind the last counts. Where anybody filled in
    both, only those are compared: another group would be another class.
    """
    kept = {(sheet.when, normalised(sheet.student)): sheet for sheet in sheets}
    known = [{who for when, who in kept if when == one} for one in ("before", "after")]
    counted = known[0] & known[1] or known[0] | known[1]
    before, after = (
        _fractions(
            [
                sheet.codes
                for (when, who), sheet in kept.items()
                if when == one and who in counted
            ]
        )
        for one in ("before", "after")
    )
    return Report(items=ITEMS, before=before, after=after, both=len(known[0] & known[1]))


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


def to_json(sheet: Sheet) -> str:
    """Write a sheet as text, always the same for the same sheet."""
    values = {"format": FORMAT, "version": VERSION, **sheet.model_dump(mode="json")}
    values["kit"] = kit_version()
    return json.dumps(values, indent=1, ensure_ascii=False) + "\n"


def write(sheet: Sheet, path: Path) -> Path:
    """Write a sheet: whole, or not at all; `KitError` if it can not be written."""
    with whole(path) as part:
        part.write_text(to_json(sheet), "utf-8")
    return path


def read(path: Path, course: str | None = None) -> Sheet:
    """Read a sheet; `KitError` in one sentence, whatever is wrong with it."""
    values = bounded.values(bounded.text(path, WHAT), WHAT, FORMAT, VERSION)
    sheet = Sheet.model_validate_json(json.dumps(values), strict=True)
    check_course(sheet.course, course)
    return sheet


def read_folder(folder: Path, course: str | None = None) -> tuple[list[Sheet], list[str]]:
    """Read all quiz sheets of a folder; with a line for each file that is none."""
    sheets, remarks = [], []
    for path in bounded.files(folder, "quiz sheets", MOST_FILES):
        one = _sheet_or_why(path, course)
        (sheets if isinstance(one, Sheet) else remarks).append(one)
    return sheets, remarks


def _sheet_or_why(path: Path, course: str | None) -> Sheet | str:
    try:
        return read(path, course)
    except KitError as refused:
        return f"{shown_name(path.name)}: not counted. {refused}"
