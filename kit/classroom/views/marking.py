"""The instructor's page: a class on one screen, words read, and all that is made for it."""

import html
import tempfile
from collections.abc import Callable, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

import ipywidgets as widgets

from kit.basics import files
from kit.basics.errors import KitError
from kit.basics.told import counted
from kit.classroom.homework import drafts, quiz, ratings
from kit.classroom.homework.class_table import LEGEND, Table, class_table, missing
from kit.classroom.homework.marking import Marked, Marks, mark_folder
from kit.classroom.homework.ratings import RATINGS
from kit.classroom.homework.roster import MOST_BYTES, WHAT, roster, roster_csv
from kit.classroom.homework.sets import homework
from kit.classroom.homework.talk import NO_PROOF, talk
from kit.classroom.views.answering import on_enter
from kit.classroom.views.for_class import Class, for_class
from kit.classroom.views.quiz import report_table
from kit.classroom.views.reading import Reader
from kit.course.views.controls import Choice, Folding, Looks, button, every_option, in_a_row
from kit.course.views.said import Says, Text, small_print, table_rows
from kit.course.views.upload import Upload

AGAIN = 3  # things to teach again that are seen at once, ours
SEEN = 5  # other lines that are seen at once, ours


def class_screen(
    marked: Marked, code: str, students: Sequence[str], talk: Sequence[str]
) -> str:
    """Write one set of a marked class as HTML.

    Parameters
    ----------
    marked : Marked
    code : str
        "H1" …
    students : sequence of str
        The roster; () where there is none.
    talk : sequence of str
        What to talk about, of all sets: see `kit.classroom.homework.talk`.
    """
    table = class_table(marked.marks, code, marked.aside)
    own = [line.removeprefix(f"{code}: ") for line in talk if line.startswith(f"{code}: ")]
    again = _listed(table.reteach, AGAIN, "more") or "<p>No slip was given twice.</p>"
    reasons = (
        _listed(own, SEEN, "more") + small_print(NO_PROOF) if own else "<p>Nobody.</p>"
    )
    parts = (
        ("Handed in", _handed_in(marked, code, students)),
        ("Teach again", again),
        ("Talk with", reasons),
    )
    boxes = "".join(
        f"<section><p><b>{head}</b></p>{told}</section>" for head, told in parts
    )
    return (
        f'<div class="kit-class">{boxes}</div>{_table(table, code)}{small_print(LEGEND)}'
        + _folded("Other slips in the table", table.named)
        + _folded("Designs that do not meet their brief", table.designs)
        + _folded("Wrong answers that no slip explains", table.clusters)
    )


def not_counted(remarks: Sequence[str]) -> str:
    """Write as HTML which files were not counted, and why; folded, for it may be many."""
    return _folded(f"Not counted: {counted(len(remarks), 'file')}", remarks)


def _handed_in(marked: Marked, code: str, students: Sequence[str]) -> str:
    many = sum(one.done.set == code for one in marked.marks)
    if not students:
        told = f"<p>{counted(many, 'student')}.</p>"
        return told + small_print("With a roster, here stands who is missing.")
    gone, strange = missing(marked.marks, code, students)
    told = f"<p>{len(students) - len(gone)} of {counted(len(students), 'student')}.</p>"
    for words, names in (("Missing", gone), ("Not on the roster", strange)):
        if names:
            told += f"<p>{words} ({len(names)}): {html.escape(', '.join(names))}.</p>"
    return told


def _table(table: Table, code: str) -> str:
    """Write the table, the class's own rows above the students': it may be long."""
    name = html.escape(f"{code} {homework(code).title}")
    head = "".join(f'<th scope="col">{html.escape(cell)}</th>' for cell in table.head)
    whole, students = table.rows[-2:], table.rows[:-2]
    return (
        f'<div class="kit-table kit-long" role="region" tabindex="0" aria-label="{name}">'
        f"<table><caption>{name}</caption><thead><tr>{head}</tr></thead>"
        f"<tbody>{table_rows(whole)}</tbody><tbody>{table_rows(students)}</tbody></table></div>"
    )


def _listed(lines: Sequence[str], seen: int, more: str) -> str:
    """Write lines as a list, the first of them seen at once."""
    shown, rest = lines[:seen], lines[seen:]
    items = "".join(f"<li>{html.escape(line)}</li>" for line in shown)
    return (f"<ul>{items}</ul>" if items else "") + _folded(f"{len(rest)} {more}", rest)


def _folded(head: str, lines: Sequence[str]) -> str:
    """Write lines below words that open them; nothing if there are none."""
    if not lines:
        return ""
    items = "".join(f"<li>{html.escape(line)}</li>" for line in lines)
    return f"<details><summary>{html.escape(head)}</summary><ul>{items}</ul></details>"


ROSTER = "roster.csv"  # beside the hand-ins
QUIZ = "quiz"  # among the sets that can be shown
STICK = "stick"  # beside the hand-ins
NOBODY = Marked([], [], [])


class RosterBox(widgets.VBox):
    """The names of a class: written here, opened from a file, and kept beside hand-ins.

    Parameters
    ----------
    tell : callable
        Runs some work and says what it gives, or why it was refused.
    place : callable
        Gives the folder.
    """

    def __init__(
        self, tell: Callable[[Callable[[], str]], None], place: Callable[[], Path]
    ) -> None:
        super().__init__()
        self._place, self._kept = place, ""
        self.names = widgets.Textarea(
            description="Names",
            placeholder="one student a line; or open a file",
            continuous_update=False,
            layout={"width": "100%", "height": "8em"},
        )
        self.upload = Upload(
            "Open a roster (CSV)", ".csv,.txt", MOST_BYTES, lambda: tell(self._opened)
        )
        self.keep_button = button(f"Keep it as {ROSTER}", lambda _button: tell(self.keep))
        self.children = [self.names, in_a_row(self.upload, self.keep_button)]

    @property
    def students(self) -> list[str]:
        """The names; none if nothing is written. `KitError` if a line is no name."""
        return roster(self.names.value) if self.names.value.strip() else []

    def find(self) -> None:
        """Open what is kept beside the hand-ins, unless names stand here already."""
        path = self._place() / ROSTER
        if not self.names.value.strip() and path.is_file():
            self._kept = files.text(path, WHAT, MOST_BYTES)
            self._write(roster(self._kept))

    def keep(self) -> str:
        """Write the names beside the hand-ins; over nobody else's list."""
        names = self.students
        if not names:
            msg = "There is no name yet: write one a line."
            raise KitError(msg)
        path = drafts.made(self._place()) / ROSTER
        if path.is_file() and files.text(path, WHAT, MOST_BYTES) != self._kept:
            msg = f"There is another {ROSTER} already. Empty the names, and mark the class."
            raise KitError(msg)
        self._kept = roster_csv(names)
        files.write(path, self._kept, "utf-8-sig")
        return f"{counted(len(names), 'student')}, kept as {path}."

    def _opened(self) -> str:
        given = self.upload.given()
        names = roster(files.decoded(given.content, WHAT, MOST_BYTES))
        self._write(names)
        return f"{given.name}: {counted(len(names), 'student')}. Now mark the class."

    def _write(self, names: Sequence[str]) -> None:
        """Write names so that they are read again as they are, commas and all."""
        first, *others = names
        self.names.value = files.to_csv((first,), [(name,) for name in others])


NONE_YET = (
    "Nobody has handed in yet on this computer: give the folder where the files of your "
    "students lie, or make papers and keys first, under Make."
)


class MarkingPage(widgets.VBox):
    """Mark a folder, see the class, read what was written, make what a class needs.

    Files are read, checked and counted; nothing in them is ever run.
    """

    def __init__(self, folder: Path | None = None) -> None:
        super().__init__()
        self.add_class("kit-view")
        self.folder = widgets.Text(
            value=str(folder or drafts.folder()),
            description="Folder of hand-ins",
            layout={"flex": "3 1 26em"},
        )
        self.course = widgets.Text(description="Course code", layout={"flex": "1 1 16em"})
        self.roster = RosterBox(self._try, lambda: self._place)
        self.upload = self.roster.upload
        for box in (self.folder, self.course):
            on_enter(box, self.mark)
        self.bar = widgets.FloatProgress(min=0, max=1, layout={"width": "10em"})
        self.bar.layout.visibility = "hidden"  # but while it marks
        self.says, self.set = Says(), Choice("Show", [])
        self.screen, self.files = Text(), Text()
        self.reading = Reader(self._rate)
        self.looks = Looks(self._new_look)
        self.making = for_class(
            self._class, self.course, self.roster.names, self.looks.unit_choice
        )
        self.marked, self._talk, self._sheets = NOBODY, [], []
        self.children = [
            in_a_row(self.folder, self.course),
            in_a_row(button("Mark the class", self.mark, "kit-main"), self.bar),
            self.says, self.set, self.screen, self.files,
            Folding("Read what they wrote", [self.reading]),
            Folding("Roster", [self.roster]),
            Folding("Make: papers, keys, marks, roster, pages, a stick", [self.making]),
            self.looks,
        ]  # fmt: skip
        self.set.observe(self._chosen, names="value")
        self.roster.names.observe(lambda _change: self._try(self._named), names="value")
        self._shown()
        self.says.tell("Put the hand-ins of your class into one folder, and name it here.")

    def mark(self, _button: Any = None) -> None:
        """Mark the folder and show the class."""
        self._try(self._mark)

    def _try(self, work: Callable[[], str]) -> None:
        self.says.tried(lambda: self.says.tell(work()))

    @property
    def _place(self) -> Path:
        return Path(self.folder.value.strip()).expanduser()

    def _class(self) -> Class:
        marks, course = self.marked.marks, self.course.value.strip()
        units, place = self.looks.units, self._place / STICK
        return Class(course, self.roster.students, marks, units, place)

    def _mark(self) -> str:
        if self._place == drafts.folder() and not self._place.exists():
            return NONE_YET
        self.roster.find()
        students = len(self.roster.students)  # a bad roster is refused before the work
        course = self.course.value.strip() or None
        self.bar.value = 0
        self.marked = mark_folder(self._place, course, self._ratings(), self._progress)
        self._sheets, remarks = quiz.read_folder(self._place, course)
        self._talk = talk(self.marked)
        told = {remark.partition(":")[0] for remark in self.marked.remarks}
        others = [one for one in remarks if one.partition(":")[0] not in told]
        self.files.value = not_counted([*self.marked.remarks, *others])
        many = len(self.marked.marks), len(self._sheets)
        self._show_again([*self.marked.codes, *([QUIZ] if self._sheets else [])])
        if not any(many):
            return (
                "There is no hand-in and no quiz sheet in that folder: they end in .json; "
                "give the folder where they lie, or make papers first, under Make."
            )
        of = f", of {counted(students, 'student')}" if students else ""
        sheets = counted(many[1], "quiz sheet")
        return f"{counted(many[0], 'hand-in')} and {sheets} read{of}."

    def _progress(self, share: float) -> None:
        """Fill the bar, in a hundred steps at most."""
        if share >= self.bar.value + 0.01 or share == 1:
            self.bar.value = share
            self.bar.layout.visibility = "hidden" if share == 1 else "visible"

    def _show_again(self, codes: list[str]) -> None:
        """Offer these sets, and show the one that was shown, or else the first."""
        before = self.set.options[self.set.value] if self.set.value >= 0 else ""
        with self.set.hold_trait_notifications():
            self.set.options = codes
            self.set.value = (
                codes.index(before) if before in codes else min(len(codes), 1) - 1
            )
        self._chosen()

    @property
    def code(self) -> str:
        """Which set is shown, `QUIZ`, or "" for none."""
        return self.set.options[self.set.value] if self.set.value >= 0 else ""

    def _chosen(self, _change: Any = None) -> None:
        """Show a set from its beginning."""
        self.reading.take(one for one in self.marked.marks if one.done.set == self.code)
        self._shown()

    def _shown(self) -> None:
        """Write the chosen set, or the quiz."""
        self.set.layout.display = None if len(self.set.options) > 1 else "none"
        if self.code == QUIZ:
            self.screen.value = report_table(quiz.report(self._sheets))
        elif self.code:
            students = self.roster.students
            self.screen.value = class_screen(self.marked, self.code, students, self._talk)
        else:
            self.screen.value = ""

    def _named(self) -> str:
        """Show who is missing by the names as they are now."""
        self._shown()
        return f"{counted(len(self.roster.students), 'student')} on the roster."

    def _rate(self, some: Sequence[Marks], keys: tuple[int, ...]) -> None:
        """Keep the marks of a text in a file beside the hand-ins, and count them."""
        known = self._ratings()
        for one in some:
            known[one.done.set, one.done.who, one.done.written] = keys
        ratings.save(known, self._place / RATINGS)
        rated = {id(one): replace(one, read=keys) for one in some}
        marks = [rated.get(id(one), one) for one in self.marked.marks]
        self.marked = self.marked._replace(marks=marks)
        self.reading.kept([rated[id(one)] for one in some])
        self._shown()

    def _ratings(self) -> dict[tuple[str, str, str], tuple[int, ...]]:
        kept = self._place / RATINGS
        return ratings.load(kept) if kept.is_file() else {}

    def _new_look(self) -> None:
        self.looks.dress(self)
        self.reading.units = self.looks.units
        self.reading.show()

    def rehearse(self) -> None:
        """Mark a folder that is not there, an empty one, and press everything once."""
        with tempfile.TemporaryDirectory() as place:
            for folder in (str(Path(place) / "none"), place):
                self.folder.value = folder
                self.mark()
            self._try(self.roster.keep)  # refused: no name
            self.reading.keep()
        every_option((*self.making.choices[:2], self.looks.unit_choice))
        self.making.begin()  # refused: no roster
        self.making.wait(60)
