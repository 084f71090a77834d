"""The six-item quiz on the screen: once before the lessons, once after."""

from __future__ import annotations

import tempfile
from pathlib import Path
from typing import Any

import ipywidgets as widgets

from kit.errors import KitError
from kit.homework import drafts, quiz
from kit.homework.quiz_items import ITEMS
from kit.views.answering import asked
from kit.views.bar import Bar
from kit.views.controls import Choice
from kit.views.parts import button, download, in_a_row, spoken

WHEN = ("before", "after")


class QuizPage(widgets.VBox):
    """Six questions, no marks on the page, and one small file to hand in.

    Parameters
    ----------
    folder : Path, optional
        Where the sheet is kept; see `kit.homework.drafts`.
    """

    def __init__(self, folder: Path | None = None) -> None:
        super().__init__()
        self.add_class("kit-view")
        self.folder = folder or drafts.folder()
        wide = {"style": {"description_width": "11em"}, "layout": {"width": "26em"}}
        self.course = widgets.Text(description="Course code", **wide)
        self.student = widgets.Text(description="Your name or number", **wide)
        self.when = Choice("Is it", ["before the lessons", "after them"], value=0)
        self.answers = [
            widgets.Text(description="Your count:", continuous_update=False)
            if item.given
            else Choice("Choose one", [option.words for option in item.options])
            for item in ITEMS
        ]
        self.save_button = button("Make my sheet", self.make, "kit-main")
        row = in_a_row(self.save_button)
        self.says, self.done = widgets.HTML(), widgets.HTML()
        self.bar = Bar(self._new_look)
        items = []
        for number, (item, answer) in enumerate(zip(ITEMS, self.answers, strict=True), 1):
            box = widgets.VBox([asked(f"{number}. {item.ask}"), answer])
            box.add_class("kit-check")
            items.append(box)
        head = [self.course, self.student, self.when]
        self.children = [*head, *items, row, self.says, self.done, self.bar]
        self.say("Answer as you think it is. Nothing is marked here.")

    def say(self, words: str, *, refused: bool = False) -> None:
        """Write one sentence, which screen readers read out."""
        self.says.value = spoken(words, refused=refused)

    def make(self, _button: Any = None) -> None:
        """Write the sheet, offer it, and say where it lies."""
        try:
            sheet = quiz.Sheet(
                course=self.course.value,
                student=self.student.value,
                when=WHEN[self.when.value],
                answers=tuple(map(_typed, self.answers)),
            )
            _check(sheet)
        except KitError as refused:
            self.say(str(refused), refused=True)
            return
        name = f"quiz {sheet.when} {drafts.mark_of(sheet.course, sheet.student)}.json"
        data = quiz.to_json(sheet).encode()
        self.done.value = download(f"Save {name}", name, "application/json", data)
        left = sheet.answers.count("")
        told = f"{left} left out. " if left else ""
        self.say(told + self._kept(sheet, name))

    def _kept(self, sheet: quiz.Sheet, name: str) -> str:
        try:
            path = drafts.made(self.folder) / name
            quiz.write(sheet, path)
        except KitError as refused:
            return str(refused)
        return f"Your sheet is {path}. Give it to your instructor."

    def _new_look(self) -> None:
        self.bar.dress(self)

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
            for when in (1, 0):
                self.when.value = when
                self.make()
        self.folder = kept
        self.course.value = self.student.value = ""


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
