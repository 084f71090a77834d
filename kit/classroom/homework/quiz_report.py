"""The quiz of a class, before against after: three fractions of each question."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from kit.classroom.homework.drawing import normalised
from kit.classroom.homework.quiz import WHEN, Sheet
from kit.classroom.homework.quiz_items import INSIDE, ITEMS, OUTSIDE, RIGHT, Item

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

    @property
    def compared(self) -> str:
        """Say of how many students there are both sheets."""
        many = "1 student" if self.both == 1 else f"{self.both} students"
        return f"Both sheets: {many}" + ("; only they are compared." if self.both else ".")


HEAD = ("Item", *(f"{code}, {when}" for when in WHEN for code in CODES))
SHORT = ("right", "inside", "outside")  # the codes, where there is little room
MEANT = "inside: looked inside, but wrong; outside: copied from the outside."


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
