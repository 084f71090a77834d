"""The six-item quiz on the screen: once before the lessons, once after."""

import tempfile
from pathlib import Path
from typing import Any

import ipywidgets as widgets

from kit.basics.errors import KitError
from kit.basics.told import in_units
from kit.classroom.homework import drafts, quiz
from kit.classroom.homework.quiz import MEANT, SHORT, WHEN, Report
from kit.classroom.homework.quiz_items import ITEMS
from kit.classroom.views.answering import asked
from kit.course.views.controls import Choice, Looks, blank, button, in_a_row
from kit.course.views.said import Says, Text, download, table_rows


class QuizPage(widgets.VBox):
    """Six questions, no marks on the page, and one small file to hand in.

    Parameters
    ----------
    folder : Path, optional
        Where the sheet is kept; see `kit.classroom.homework.drafts`.
    """

    def __init__(self, folder: Path | None = None) -> None:
        super().__init__()
        self.add_class("kit-view")
        self.folder = folder or drafts.folder()
        self.course = blank("Course code", wide="26em", named="11em")
        self.student = blank("Your name or number", wide="26em", named="11em")
        self.when = Choice("Is it", ["before the lessons", "after them"])
        self.answers = [
            widgets.Text(description="Your count:", continuous_update=False)
            if item.given
            else Choice("Choose one", [])
            for item in ITEMS
        ]
        self.save_button = button("Make my sheet", self.make, "kit-main")
        row = in_a_row(self.save_button)
        self.says, self.done = Says(), Text()
        self.looks = Looks(self._new_look)
        self.asks, items = [asked("") for _ in ITEMS], []
        for ask, answer in zip(self.asks, self.answers, strict=True):
            box = widgets.VBox([ask, answer])
            box.add_class("kit-check")
            items.append(box)
        head = [self.course, self.student, self.when]
        self.children = [*head, *items, row, self.says, self.done, self.looks]
        self._tell()
        self.says.tell("Answer as you think it is. Nothing is marked here.")

    def make(self, _button: Any = None) -> None:
        """Write the sheet, offer it, and say where it lies."""
        try:
            if self.when.value < 0:
                msg = "Say first, above, whether it is before the lessons or after them."
                raise KitError(msg)
            sheet = quiz.Sheet(
                course=self.course.value,
                student=self.student.value,
                when=WHEN[self.when.value],
                answers=tuple(map(_typed, self.answers)),
            )
            _check(sheet)
        except KitError as refused:
            self.says.tell(str(refused), refused=True)
            return
        name, told = self._kept(sheet)
        data = quiz.to_json(sheet).encode()
        self.done.value = download(f"Save {name}", name, "application/json", data)
        left = sheet.answers.count("")
        self.says.tell(f"{left} left out. {told}" if left else told)

    def _kept(self, sheet: quiz.Sheet) -> tuple[str, str]:
        """Keep a sheet; give its name, and what to say about it."""
        name = quiz.sheet_name(sheet)
        try:
            path = quiz.keep(self.folder, sheet)
        except KitError as refused:
            return name, str(refused)
        told = f"Your sheet is {path}. Give it to your instructor."
        if path.name != name:
            told += f" An earlier one, {sheet.when} the lessons, stays as {name}."
        return path.name, told

    def _new_look(self) -> None:
        self.looks.dress(self)
        self._tell()

    def _tell(self) -> None:
        """Ask in the page's units."""
        units, rows = self.looks.units, zip(self.asks, self.answers, ITEMS, strict=True)
        for number, (ask, answer, item) in enumerate(rows, 1):
            ask.value = asked(f"{number}. {in_units(item.ask, units)}").value
            if isinstance(answer, Choice):
                answer.options = [in_units(one.words, units) for one in item.options]

    def rehearse(self) -> None:
        """Answer nothing, nonsense and everything once, in a folder of its own."""
        kept = self.folder
        with tempfile.TemporaryDirectory() as place:
            self.folder = Path(place)
            self.make()  # refused: no name
            self.course.value, self.student.value = "REHEARSAL", "Nobody"
            for answer in self.answers:
                if isinstance(answer, Choice):
                    answer.value = 0
                else:
                    answer.value = "abc"
            self.make()  # refused: before, or after?
            for when in (1, 0):
                self.when.value = when
                self.make()
        self.folder, self.when.value = kept, -1
        self.course.value = self.student.value = ""


def report_table(found: Report) -> str:
    """Write a report as an HTML table: three fractions before, three after, the gain."""
    over = "".join(f'<th scope="colgroup" colspan="3">{when}</th>' for when in WHEN)
    under = "".join(f'<th scope="col">{code}</th>' for code in SHORT * len(WHEN))
    return (
        '<div class="kit-table"><table><caption>The quiz, before and after</caption>'
        f'<thead><tr><th scope="col" rowspan="2">Question</th>{over}'
        '<th scope="col" rowspan="2">gain</th></tr>'
        f"<tr>{under}</tr></thead><tbody>{table_rows(found.rows())}</tbody></table></div>"
        f'<p class="kit-fine">{MEANT} {found.compared}</p>'
    )


def _check(sheet: quiz.Sheet) -> None:
    for number, (item, answer) in enumerate(zip(ITEMS, sheet.answers, strict=True), 1):
        if answer and not item.code(answer):
            msg = f"Question {number} asks for a count, such as 7. Given: {answer!r}."
            raise KitError(msg)


def _typed(answer: Choice | widgets.Text) -> str:
    """Give an answer as a sheet has it: a choice's number, a count, or nothing."""
    if isinstance(answer, Choice):
        return "" if answer.value < 0 else str(answer.value + 1)
    return answer.value.strip()[:40]
