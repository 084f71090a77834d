"""Mark a folder of hand-ins: files are read, checked and counted, and never run.

A spreadsheet of marks has a row a student, a column a mark. Nothing in it looks like a date
or a formula: marks are numbers, the most that could be earned has its own column, and what
was not handed in is empty.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from types import MappingProxyType
from typing import NamedTuple, TypeVar

from kit.basics import files
from kit.basics.errors import KitError
from kit.basics.files import to_csv
from kit.classroom.homework import hand_in
from kit.classroom.homework.hand_in import HandIn
from kit.classroom.homework.judged import share
from kit.classroom.homework.paper import Paper, draw, normalised
from kit.classroom.homework.sets import homework
from kit.classroom.homework.sitting import Progress, Result
from kit.course.check import Found
from kit.course.lessons.briefs import Judged

MOST_FILES = 5000  # ours
Read = TypeVar("Read")

# By set, student in one spelling, and check sum of what was read ("": whatever it is).
Ratings = Mapping[tuple[str, str, str], tuple[int, ...]]
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

    @property
    def stands(self) -> str:
        """Marks of the most, and on which paper: "5/7", "practice 1: 5/7"."""
        practice = f"practice {self.done.redraw}: " if self.done.practice else ""
        return f"{practice}{self.score:.3g}/{self.most}"


class Marked(NamedTuple):
    """A folder, marked.

    Attributes
    ----------
    marks : list of Marks
        By set and student; of a student who handed in twice, the better one.
    remarks : list of str
        One line for each file that was not counted.
    aside : list of Marks
        What was marked and does not count: practice, and the worse of two.
    """

    marks: list[Marks]
    remarks: list[str]
    aside: list[Marks]

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
        The teacher's three ratings; see `Ratings`.

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
        read=_read(done, ratings),
    )


def _read(done: HandIn, ratings: Ratings) -> tuple[int, ...]:
    """Find the ratings of what was written: of these very words, or of any."""
    if not done.written:
        return ()
    key = done.set, done.who
    return tuple(ratings.get((*key, done.written), ratings.get((*key, ""), ())))


def mark_folder(
    folder: Path,
    course: str | None = None,
    ratings: Ratings = UNRATED,
    progress: Callable[[float], object] = lambda _share: None,
) -> Marked:
    """Mark all hand-ins in a folder, not in folders within it; quiz sheets may lie there.

    Parameters
    ----------
    folder : Path
    course : str, optional
        Given, those of other courses are told of and not counted.
    ratings : mapping
        See `mark`.
    progress : callable
        Gets the share that is done, after each file.

    Raises
    ------
    KitError
        If it is no folder, or has more than 5,000 files.
    """

    def marked(file: Path) -> Marks:
        return mark(hand_in.read(file, course), file.name, ratings)

    marks, remarks = [], []
    found = files.files(folder, "hand-ins", MOST_FILES, but=hand_in.QUIZ)
    for number, file in enumerate(found, 1):
        progress(number / len(found))
        one = or_why(file, marked)
        (marks if isinstance(one, Marks) else remarks).append(one)
    practised = [one for one in marks if one.done.practice]
    kept, worse, twice = _once_each(one for one in marks if not one.done.practice)
    return Marked(kept, [*remarks, *twice], [*worse, *practised])


def or_why(file: Path, read: Callable[[Path], Read]) -> Read | str:
    """Read a file, or say in one line why it is not counted."""
    try:
        return read(file)
    except KitError as refused:
        return f"{shown_name(file.name)}: not counted. {refused}"


def shown_name(name: str) -> str:
    """Write a file's name on one line, whatever signs it has."""
    plain = "".join(sign if sign.isprintable() else "?" for sign in name)
    return plain if len(plain) <= 60 else plain[:60] + "…"


def _once_each(marks: Iterable[Marks]) -> tuple[list[Marks], list[Marks], list[str]]:
    """Keep the best hand-in of each student and set; give the others, and tell of them."""
    kept: dict[tuple[str, str], Marks] = {}
    worse, twice = [], []
    for one in marks:
        key = one.done.set, one.done.who
        best = max(kept.get(key, one), one, key=_worth)
        if key in kept:
            other = kept[key] if best is one else one
            worse.append(other)
            twice.append(
                f"{shown_name(other.file)}: not counted, {other.stands}. "
                f"{one.done.student!r} handed in {one.done.set} twice: "
                f"{shown_name(best.file)} counts, {best.stands}."
            )
        kept[key] = best
    return [kept[key] for key in sorted(kept)], worse, twice


def _worth(one: Marks) -> tuple[float, bool, int]:
    """Rank a hand-in: by its marks, then by whether there is something to read."""
    return one.score, bool(one.done.written), len(one.done.answers)


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
        *((f"part {number}", partial(_mark_of, number)) for number in numbers),
        ("design", lambda one: int(one.design.passed)),
        ("words", _words),
        ("score", lambda one: round(one.score, 2)),
        ("tries", lambda one: len(one.done.answers)),
        ("slips", _slips),
    ]


def _mark_of(number: int, one: Marks) -> int:
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
