"""Mark a folder of hand-ins: files are read, checked and counted, and never run."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path
from types import MappingProxyType
from typing import NamedTuple

from kit import bounded
from kit.errors import KitError
from kit.homework import hand_in
from kit.homework.judged import RUBRIC, share
from kit.homework.paper import Paper, draw
from kit.homework.part import Found
from kit.homework.record import HandIn, Row
from kit.homework.roll import alike
from kit.homework.sets import homework
from kit.homework.sitting import Progress, Result
from kit.lessons.briefs import Judged

MOST_FILES = 5000

Ratings = Mapping[tuple[str, str], tuple[int, ...]]  # by set and student in one spelling
UNRATED: Ratings = MappingProxyType({})


@dataclass(frozen=True, kw_only=True)
class Marks:
    """One hand-in, marked.

    Parameters
    ----------
    file : str
        Its name.
    done : HandIn
    paper : Paper
    results : mapping of int to Result
        By part; parts not answered are missing.
    design : Judged
    wrong : mapping of int to list of Found
        By part, every answer that earned nothing.
    unread : int
        Answers that could not be read as what they should be.
    read : tuple of int
        The teacher's ratings of the written answer, or () while it is to read.
    """

    file: str
    done: HandIn
    paper: Paper
    results: Mapping[int, Result]
    design: Judged
    wrong: Mapping[int, list[Found]]
    unread: int = 0
    read: tuple[int, ...] = ()

    @property
    def score(self) -> float:
        """Marks earned; what is still to read counts nothing yet."""
        parts = sum(result.mark for result in self.results.values())
        return parts + int(self.design.passed) + (share(self.read) if self.read else 0)

    @property
    def most(self) -> int:
        """The most that can be earned."""
        return self.paper.homework.marks


class Marked(NamedTuple):
    """A folder, marked.

    Attributes
    ----------
    marks : list of Marks
        By set and student; of a student who handed in twice, the file with more answers.
    remarks : list of str
        One line for each file that was not counted, and for each pair to talk about.
    """

    marks: list[Marks]
    remarks: list[str]

    @property
    def codes(self) -> list[str]:
        """The sets that were handed in, in order."""
        return sorted({one.done.set for one in self.marks})


def mark(done: HandIn, file: str = "", ratings: Ratings = UNRATED) -> Marks:
    """Mark one hand-in: its paper is drawn again and its answers judged again.

    Parameters
    ----------
    done : HandIn
    file : str
        Where it is from, for the table.
    ratings : mapping
        From (set, student in one spelling) to the teacher's three ratings.

    Raises
    ------
    KitError
        If there is no such set.
    """
    paper = draw(homework(done.set), done.course, done.student, done.redraw)
    progress, unread = Progress(paper), 0
    wrong: dict[int, list[Found]] = {}
    for one in done.answers:
        try:
            taken = progress.take(
                one.part, one.text, units=one.units, measured=one.measured
            )
        except KitError:
            unread += 1
            continue
        if not taken.found.earns:
            wrong.setdefault(one.part, []).append(taken.found)
    return Marks(
        file=file,
        done=done,
        paper=paper,
        results=progress.results,
        design=paper.homework.design.judge(paper.values, done.design),
        wrong=wrong,
        unread=unread,
        read=tuple(ratings.get((done.set, done.who), ())),
    )


def mark_folder(
    folder: Path,
    course: str | None = None,
    ratings: Ratings = UNRATED,
) -> Marked:
    """Mark all hand-ins in a folder, not in folders within it.

    Parameters
    ----------
    folder : Path
    course : str, optional
        Given, those of other courses are told of and not counted.
    ratings : mapping
        See `mark`.

    Raises
    ------
    KitError
        If it is no folder, or has more than 5,000 files.
    """
    files = bounded.files(folder, "hand-ins", MOST_FILES)
    marks, remarks = [], []
    for file in files:
        one = _marked_or_why(file, course, ratings)
        (marks if isinstance(one, Marks) else remarks).append(one)
    kept, twice = _once_each(marks)
    return Marked(kept, [*remarks, *twice, *alike(kept)])


def _marked_or_why(file: Path, course: str | None, ratings: Ratings) -> Marks | str:
    """Mark a file, or say in one line why it is not counted."""
    try:
        return mark(hand_in.read(file, course), file.name, ratings)
    except KitError as refused:
        return f"{shown_name(file.name)}: not counted. {refused}"


def shown_name(name: str) -> str:
    """Write a file's name on one line, whatever signs it has."""
    plain = "".join(sign if sign.isprintable() else "?" for sign in name)
    return plain if len(plain) <= 60 else plain[:60] + "…"


def _once_each(marks: Iterable[Marks]) -> tuple[list[Marks], list[str]]:
    """Keep the fullest hand-in of each student and set; tell of the others."""
    kept: dict[tuple[str, str], Marks] = {}
    twice = []
    for one in marks:
        key = one.done.set, one.done.who
        full = max(kept.get(key, one), one, key=lambda each: len(each.done.answers))
        if key in kept:
            other = kept[key] if full is one else one
            twice.append(
                f"{shown_name(other.file)}: not counted. {one.done.student!r} handed in "
                f"{one.done.set} twice: {shown_name(full.file)} has as many answers "
                "or more."
            )
        kept[key] = full
    return [kept[key] for key in sorted(kept)], twice


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
        if one.done.set == code and one.done.words.strip()
    ]


def claims(one: Marks) -> list[str]:
    """Say what was ticked of each seller's claim, and whether both ticks are right."""
    return [
        f"{claim.words} {'Possible' if tier.possible else 'Not possible'}: "
        f"{claim.reasons[tier.reason]} "
        f"({'✓' if claim.right(tier.possible, tier.reason) else '✗'})"
        for claim, tier in zip(
            one.paper.homework.judged.claims, one.done.claims, strict=False
        )
    ]


def sheets(marks: Iterable[Marks]) -> list[tuple[str, Row]]:
    """Lay the capstone's sheets side by side; a person judges the reasons in them."""
    return [(one.done.student, row) for one in marks for row in one.done.sheet]


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
