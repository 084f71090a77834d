"""What students wrote, one text at a time beside its criteria, to be marked by a person."""

import html
from collections.abc import Callable, Iterable, Sequence
from typing import Any

import ipywidgets as widgets

from kit.basics.units import Units
from kit.classroom.homework.judged import LEVELS, RUBRIC
from kit.classroom.homework.marking import Marks
from kit.classroom.homework.ratings import claims
from kit.course.views.controls import Choice, button, in_a_row
from kit.course.views.said import Says, Text

Keep = Callable[[Sequence[Marks], tuple[int, ...]], None]


class Reader(widgets.VBox):
    """One text, three criteria, *Keep and next*; the same text of several comes once.

    Parameters
    ----------
    keep : callable
        Keeps the marks of those who wrote a text; `KitError` if it cannot.
    """

    def __init__(self, keep: Keep) -> None:
        super().__init__()
        self.add_class("kit-check")
        self._keep, self.units, self.at = keep, Units.MM, 0
        self.texts: list[list[Marks]] = []
        self.words, self.says = Text(), Says()
        self.criteria = [Choice(line, list(LEVELS)) for line in RUBRIC]
        self.keep_button = button("Keep and next", self.keep, "kit-main")
        row = in_a_row(
            self.keep_button,
            button("Back", lambda _button: self.turn(-1)),
            button("Next", lambda _button: self.turn(1)),
        )
        beside = widgets.VBox([*self.criteria, row, self.says])
        both = widgets.Box([self.words, beside])
        both.add_class("kit-side-by-side")
        self._both, self._nothing = both, Text("<p>Nothing is written here.</p>")
        self.children = [self._nothing]

    def take(self, marks: Iterable[Marks]) -> None:
        """Take what was written in a set; begin with what is not marked yet."""
        same: dict[tuple[str, str], list[Marks]] = {}
        for one in marks:
            if one.done.written:
                same.setdefault((one.done.set, one.done.written), []).append(one)
        self.texts = list(same.values())
        self.at = self._unread(0)
        self.children = [self._both if self.texts else self._nothing]
        self.show()

    def _unread(self, first: int) -> int:
        """Find the next text without marks, from `first` on and round again."""
        many = len(self.texts)
        places = (at % many for at in range(first, first + many))
        return next(
            (at for at in places if not self.texts[at][0].read), first % max(many, 1)
        )

    @property
    def read(self) -> int:
        """How many texts have their marks."""
        return sum(bool(text[0].read) for text in self.texts)

    def turn(self, step: int) -> None:
        """Show the next text, or the one before."""
        if self.texts:
            self.at = (self.at + step) % len(self.texts)
            self.show()

    def show(self) -> None:
        """Write a text with its question, in the units of the page, and its marks."""
        if not self.texts:
            return
        here = self.texts[self.at]
        self.words.value = _written(here, self.units)
        marks = here[0].read or (-1,) * len(RUBRIC)
        for choice, mark in zip(self.criteria, marks, strict=True):
            choice.value = mark
        place = f"Text {self.at + 1} of {len(self.texts)}, {self.read} marked."
        own = here[0].done.ratings
        if own:
            told = ", ".join("–" if one is None else LEVELS[one] for one in own)
            place += f" The writer rates it: {told}."
        self.says.tell(place)

    def keep(self, _button: Any = None) -> None:
        """Keep the three marks, and go on to the next text without any."""
        if not self.texts:
            return
        keys = tuple(choice.value for choice in self.criteria)
        if min(keys) < 0:
            words = "Choose one of three for each criterion."
            self.says.tell(words, refused=True)
            return
        self.says.tried(lambda: self._keep(self.texts[self.at], keys))

    def kept(self, marked: Sequence[Marks]) -> None:
        """Put those who were just marked in their place, and show the next text."""
        self.texts[self.at] = list(marked)
        self.at = self._unread(self.at + 1)
        self.show()


def _written(here: Sequence[Marks], units: Units) -> str:
    """Write the question, what was ticked, the words, and the best answer to open."""
    one, task = here[0], here[0].paper.homework.judged
    who = html.escape(", ".join(other.done.student for other in here))
    ticked = "".join(f"<li>{html.escape(line)}</li>" for line in claims(one))
    best = html.escape(task.best(one.paper.values, units))
    words = html.escape(one.done.words).replace("\n", "<br>")
    return (
        f"<p><b>{who}</b></p><p>{html.escape(task.ask(one.paper.values, units))}</p>"
        f'<ul>{ticked}</ul><p class="kit-words">{words}</p>'
        f"<details><summary>A good answer</summary><p>{best}</p></details>"
    )
