"""The instructor's page: a folder of hand-ins marked, words read, keys and papers made."""

from __future__ import annotations

import html
import tempfile
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

import ipywidgets as widgets

from kit.basics import files
from kit.basics.errors import KitError
from kit.basics.units import Units
from kit.classroom.homework import drafts, quiz, ratings
from kit.classroom.homework.class_table import LEGEND, class_table
from kit.classroom.homework.judged import RUBRIC
from kit.classroom.homework.key import answer_key, key_csv
from kit.classroom.homework.marking import Marked, Marks, Ratings, mark_folder
from kit.classroom.homework.marks_csv import marks_csv
from kit.classroom.homework.ratings import RATINGS, claims, rated
from kit.classroom.homework.roster import MOST_BYTES, WHAT, roster
from kit.classroom.homework.sets import SETS, homework
from kit.classroom.homework.talk import talk
from kit.classroom.paper import homework_papers
from kit.classroom.views.quiz import report_table
from kit.course.views.controls import Choice, Looks, button, in_a_row
from kit.course.views.said import Says, Text, download, small_print, spoken
from kit.course.views.upload import Upload

WIDE = {"style": {"description_width": "11em"}, "layout": {"width": "100%"}}


class WrittenRow(widgets.VBox):
    """What one student wrote, and three keys for its marks."""

    def __init__(self, one: Marks, rate: Callable[[Marks, tuple[int, ...]], str]) -> None:
        super().__init__()
        self.add_class("kit-check")
        self.one, self._rate = one, rate
        head = f"{one.done.set}, {one.done.student}"
        own = "".join("–" if key is None else str(key) for key in one.done.ratings)
        text = html.escape(one.done.words).replace("\n", "<br>")
        task = one.paper.homework.judged
        ticked = "".join(f"<li>{html.escape(line)}</li>" for line in claims(one))
        question = html.escape(task.ask(one.paper.values, Units.MM))
        words = Text(
            f"<p><b>{html.escape(head)}</b> <i>{question}</i></p>"
            f"<ul>{ticked}</ul><p>{text}</p>"
        )
        self.three = widgets.Text(
            value="".join(map(str, one.read)),
            description="Three marks",
            placeholder=f"0, 1 or 2 each; rated by the writer: {own or 'not'}",
            continuous_update=False,
            **WIDE,
        )
        self.three.observe(self.rate, names="value")
        self.says = Says(value=spoken(" ".join(RUBRIC)))
        self.children = [words, self.three, self.says]

    def rate(self, _change: Any = None) -> None:
        """Keep the three keys."""
        try:
            self.says.value = spoken(self._rate(self.one, rated(self.three.value)))
        except KitError as refused:
            self.says.value = spoken(str(refused), refused=True)


MADE = ("key as a table (CSV)", "key to print (PDF)", "everybody's paper (PDF)")


class MarkingPage(widgets.VBox):
    """Mark a folder; read what was written; make keys and papers for a roster.

    Files are read, checked and counted; nothing in them is ever run.
    """

    def __init__(self, folder: Path | None = None) -> None:
        super().__init__()
        self.add_class("kit-view")
        self.folder = widgets.Text(
            value=str(folder or drafts.folder()), description="Folder of hand-ins", **WIDE
        )
        self.course = widgets.Text(description="Course code", **WIDE)
        self.says, self.tables, self.files = Says(), Text(), Text()
        self.reading = widgets.VBox([])
        self.looks = Looks(self._new_look)
        row = in_a_row(
            button("Mark the folder", self.mark, "kit-main"),
            button("Report the quiz", self.report),
        )
        self.children = [
            self.folder, self.course, row, self.says, self.tables, self.reading,
            *self._for_roster(), self.files, self.looks,
        ]  # fmt: skip
        self.say("Put the hand-ins of your class into one folder, and name it here.")

    def _for_roster(self) -> list[widgets.Widget]:
        self.upload = Upload("Roster (CSV)", ".csv,.txt", MOST_BYTES, self._uploaded)
        self.set = Choice("Set", list(SETS), value=0)
        self.made = Choice("Make", list(MADE), value=0)
        row = in_a_row(self.upload, button("Make it for the roster", self.make))
        return [self.set, self.made, row]

    def say(self, words: str, *, refused: bool = False) -> None:
        """Write one sentence, which screen readers read out."""
        self.says.value = spoken(words, refused=refused)

    def mark(self, _button: Any = None) -> None:
        """Mark the folder and show the class."""
        self._try(self._mark)

    def report(self, _button: Any = None) -> None:
        """Show the quiz, before against after."""
        self._try(self._report)

    def make(self, _button: Any = None) -> None:
        """Make a key, or papers, for the roster."""
        self._try(self._make)

    def _try(self, work: Callable[[], str]) -> None:
        try:
            self.say(work())
        except KitError as refused:
            self.say(str(refused), refused=True)

    @property
    def _place(self) -> Path:
        return Path(self.folder.value.strip()).expanduser()

    @property
    def _course(self) -> str | None:
        return self.course.value.strip() or None

    def _mark(self) -> str:
        marked = self._marked(self._ratings())
        texts = [one for one in marked.marks if one.done.written]
        self.reading.children = [WrittenRow(one, self._rate) for one in texts]
        count = len(marked.marks)
        many = "hand-in" if count == 1 else "hand-ins"
        return f"{count} {many} marked, {len(marked.remarks)} remarks."

    def _rate(self, one: Marks, keys: tuple[int, ...]) -> str:
        """Keep a rating in a file beside the hand-ins."""
        known = self._ratings()
        known[one.done.set, one.done.who, one.done.written] = keys
        ratings.save(known, self._place / RATINGS)
        self._marked(known)
        return f"{sum(keys)} of {2 * len(RUBRIC)}, kept in {RATINGS}."

    def _ratings(self) -> dict[tuple[str, str, str], tuple[int, ...]]:
        kept = self._place / RATINGS
        return ratings.load(kept) if kept.is_file() else {}

    def _marked(self, known: Ratings) -> Marked:
        """Mark the folder and show the tables."""
        marked = mark_folder(self._place, self._course, known)
        shown = [_table(marked, code) for code in marked.codes]
        told = _listed("To talk about", talk(marked))
        looked = _listed("To look at", marked.remarks)
        self.tables.value = "".join([told, *shown, looked])
        return marked

    def _report(self) -> str:
        sheets, remarks = quiz.read_folder(self._place, self._course)
        self.reading.children = []
        shown = report_table(quiz.report(sheets))
        self.tables.value = shown + _listed("To look at", remarks)
        return "Three fractions of each item: right, looked inside, copied the outside."

    def _uploaded(self) -> None:
        self._try(lambda: f"{self.upload.given().name} is here. Press Make it.")

    def _make(self) -> str:
        missing = "Choose a roster first: a CSV file with one student a line."
        content = self.upload.given(missing).content
        if self._course is None:
            msg = "Type the course code first: the values follow from it."
            raise KitError(msg)
        students = roster(files.decoded(content, WHAT, MOST_BYTES))
        task = homework(list(SETS)[self.set.value])
        name, kind, data = _made(task, self._course, students, self.made.value)
        self.files.value = download(f"Save {name}", name, kind, data)
        return f"{name} is made, for {len(students)} students."

    def _new_look(self) -> None:
        self.looks.dress(self)

    def rehearse(self) -> None:
        """Mark a folder that is not there, an empty one, and press everything once."""
        with tempfile.TemporaryDirectory() as place:
            for folder in (str(Path(place) / "none"), place):
                self.folder.value = folder
                self.mark()
                self.report()
            self.make()
        for choice in (self.set, self.made):
            for option in reversed(range(len(choice.options))):
                choice.value = option


def _table(marked: Marked, code: str) -> str:
    table = class_table(marked.marks, code, marked.aside)
    title = f"{code} {homework(code).title}"
    head = "".join(f'<th scope="col">{html.escape(cell)}</th>' for cell in table.head)
    body = "".join(
        f'<tr><th scope="row">{html.escape(row[0])}</th>'
        + "".join(f"<td>{html.escape(cell)}</td>" for cell in row[1:])
        + "</tr>"
        for row in table.rows
    )
    data = marks_csv(marked.marks).encode("utf-8-sig")
    name = "marks.csv"
    return (
        f'<div class="kit-table"><table><caption>{html.escape(title)}</caption>'
        f"<thead><tr>{head}</tr></thead><tbody>{body}</tbody></table></div>"
        + small_print(LEGEND)
        + download(f"Save {name}", name, "text/csv", data)
        + _listed("What to teach again", table.reteach)
        + _listed("Other slips in the table", table.named)
        + _listed("Wrong answers that no slip explains", table.clusters)
    )


def _listed(head: str, lines: Sequence[str]) -> str:
    items = "".join(f"<li>{html.escape(line)}</li>" for line in lines)
    return f"<p><b>{head}</b></p><ul>{items}</ul>" if lines else ""


def _made(
    task: Any, course: str, students: Sequence[str], what: int
) -> tuple[str, str, bytes]:
    with tempfile.TemporaryDirectory() as place:
        if what == 2:
            path = Path(place) / f"{task.code} papers.pdf"
            homework_papers.write_papers(task, course, students, path)
            return path.name, "application/pdf", path.read_bytes()
        key = answer_key(task, course, students)
        if what == 0:
            return (
                f"{task.code} key.csv",
                "text/csv",
                key_csv(task, key).encode("utf-8-sig"),
            )
        path = Path(place) / f"{task.code} key.pdf"
        homework_papers.write_key(task, course, key, path)
        return path.name, "application/pdf", path.read_bytes()
