"""A part of a homework paper on the screen: the question, the answer, what helps."""

from __future__ import annotations

import html
from collections.abc import Callable
from typing import Any

import ipywidgets as widgets

from kit.basics.errors import KitError
from kit.classroom.homework.sitting import Sitting
from kit.classroom.homework.tasks import Part
from kit.course.views.controls import Choice, as_inches, button, in_a_row, spoken


def asked(words: str) -> widgets.HTML:
    """Write a question."""
    return widgets.HTML(f'<p class="kit-ask">{html.escape(words)}</p>')


class PartRow(widgets.VBox):
    """One part: the question, a box or choices for the answer, what the kit says to it.

    Parameters
    ----------
    sitting : Sitting
    part : Part
    told : callable
        Called after every answer that counted.
    """

    def __init__(self, sitting: Sitting, part: Part, told: Callable[[], None]) -> None:
        super().__init__()
        self.add_class("kit-check")
        self.sitting, self.part, self._told = sitting, part, told
        self.ask, self.says = asked(""), widgets.HTML()
        self.answer = widgets.Text(
            description=f"Answer {part.number}:", continuous_update=False
        )
        self.answer.observe(self.mark, names="value")
        self.send_button = button("Check my answer", self.mark, "kit-main")
        self.ruler = Choice("How did you get it?", ["worked out", "read off a ruler"])
        self.ruler.value = 0
        self.ruler.observe(self._unsure, names="value")
        self.offered = Choice(f"Answer {part.number}", list(part.options))
        self.offered.add_class("kit-answer")
        self.offered.observe(self._picked, names="value")
        self._marked: tuple[str, int] | None = None
        self._verdict = ""
        row = in_a_row(self.answer, self.send_button)
        lanes = [self.ruler] if part.is_length else []
        middle = [self.offered] if part.options else [*lanes, row]
        self.children = [self.ask, *middle, self.says]
        self.show()

    def show(self) -> None:
        """Write the question in the units of the page."""
        words = self.part.ask(self.sitting.paper.values, self.sitting.units)
        self.ask.value = asked(f"{self.part.number}. {words}").value

    def mark(self, _change: Any = None) -> None:
        """Mark what was typed; the same answer twice is one try."""
        typed = self.answer.value, self.ruler.value
        if not typed[0].strip():
            self.says.value = spoken("Nothing is typed yet.", refused=True)
        elif typed != self._marked:
            self._marked = typed
            self._mark(typed[0], measured=typed[1] == 1)
        else:
            self._say(self._verdict)

    def _picked(self, change: dict) -> None:
        if change["new"] >= 0:
            self._mark(str(change["new"] + 1))

    def _mark(self, text: str, *, measured: bool = False) -> None:
        try:
            marked = self.sitting.answer(self.part.number, text, measured=measured)
        except KitError as refused:
            self._say(spoken(str(refused), refused=True))
            return
        sign = "✓ " if marked.right else "✗ "
        note = ""
        if self.part.is_length:
            note = f" {as_inches(text, self.sitting.units)}".rstrip()
        self._say(spoken(sign + marked.words + note))
        self._told()

    def _say(self, words: str) -> None:
        """Write a verdict, anew also if it is the same: the page may have taken it back."""
        self._verdict = words
        self.says.value = ""
        self.says.value = words

    def _unsure(self, _change: Any) -> None:
        """Take back a verdict on an answer that was got in another way."""
        if self._marked is not None and self._marked[1] != self.ruler.value:
            self.says.value = spoken("Not checked yet. Press Check my answer.")

    def restore(self) -> None:
        """Show how the part stands in a draft that was opened again."""
        found = self.sitting.results.get(self.part.number)
        if found is None:
            return
        if not self.part.options:
            self._marked = found.text, self.ruler.value  # to show it is no new try
            self.answer.value = found.text
        sign = "✓ Answered right" if found.mark else "✗ Not yet right"
        self._say(spoken(f"{sign}, from your draft."))
