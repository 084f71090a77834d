"""The page of questions: type a word, choose a question, read the card out."""

import html
from collections.abc import Callable
from typing import Any

import ipywidgets as widgets

from kit.basics.units import Units
from kit.course.map import lesson_of
from kit.course.questions import CARDS, Card, Measures, drawn, find, nearest, said, suggest
from kit.course.views.controls import (
    HERE,
    Choice,
    Folding,
    Looks,
    Picture,
    button,
    every_option,
)
from kit.course.views.rehearse import NONSENSE
from kit.course.views.said import Says, Text, how_known, mark_of
from kit.section.picture import STEEL

ENOUGH = 3  # letters: before that, typing changes the list and leaves the card
DEGREES = ("C", "F")


class Found(Choice):
    """The questions that were found, as a radio group in a box that scrolls."""

    _css = HERE / "questions.css"


class QuestionLooks(Looks):
    """The bar of all views, with a switch for temperatures."""

    def __init__(self, changed: Callable[[], None]) -> None:
        super().__init__(changed, STEEL)
        self.degree_choice = Choice("Temperatures in", ["°C", "°F"], value=0)
        self.degree_choice.observe(lambda _change: changed(), names="value")
        self.choices = (self.choices[0], self.degree_choice, *self.choices[1:])
        self.hold(self.choices)

    @property
    def measures(self) -> Measures:
        """In which units and on which paper a card is shown."""
        degrees = DEGREES[self.degree_choice.value]
        return Measures(self.units, degrees, self.sunlit, self.letters, self.look)


class QuestionsView(widgets.VBox):
    """A search box, the questions found, and one card.

    Attributes
    ----------
    found : list of Card
        What the list shows, best first.
    card : Card
        What is open.
    """

    def __init__(self) -> None:
        super().__init__()
        self.add_class("kit-view")
        self.add_class("kit-questions")
        self.found: list[Card] = list(CARDS)
        self.card = CARDS[0]
        self._busy = False
        self.search = widgets.Text(
            description="Find a question:", placeholder="a word: rust, fake, layers …"
        )
        self.search.observe(self._searched, names="value")
        self.clear_button = button("Show all", self.show_all)
        self.says = Says()
        self.choice = Found("Questions", _lines(self.found), value=0)
        self.choice.add_class("kit-found")
        self.choice.observe(self._chosen, names="value")
        self.listed = Folding("The list of questions", [self.choice])
        self.head, self.rest = Text(), Text()
        self.picture = Picture()
        self.picture.on_msg(self._heard)
        self.looks = QuestionLooks(self._new_look)
        self.children = [
            _row([self.search], "kit-search"),
            self.listed,
            _row([self.says, self.clear_button, *self._steps()], "kit-search"),
            self.head,
            self.picture,
            self.rest,
            self.looks,
        ]
        self._show()
        self.says.tell(f"{len(CARDS)} questions. Type a word, or choose one from the list.")

    @property
    def units(self) -> Units:
        """How lengths are shown."""
        return self.looks.units

    def show_card(self, card: Card) -> None:
        """Show a card; if the list does not hold it, the list shows all again."""
        if card not in self.found:
            self._list(list(CARDS))
        self.card = card
        self._show()
        self._mark()

    def step(self, by: int) -> None:
        """Open the next card of the list, or the one before; the ends meet."""
        cards = self.found or list(CARDS)
        place = cards.index(self.card) if self.card in cards else -1
        self.show_card(cards[(place + by) % len(cards)])
        self.says.tell(f"Question {self.card.number}: {self.card.question}")

    def show_all(self, _button: Any = None) -> None:
        """Empty the search box and list all questions."""
        self.search.value = ""
        self._searched()

    def rehearse(self) -> None:
        """Search for sense and nonsense, open every card, change units, light and type."""
        for words in (*NONSENSE, "FAKE", "rust", "zzz"):
            self.search.value = words
        self.show_all()
        for place in range(len(self.found)):
            self.choice.value = place
        every_option(self.looks.choices)
        self.step(1)
        self.step(-1)

    def _steps(self) -> tuple[widgets.Button, widgets.Button]:
        before = button("◀ Previous question", lambda _button: self.step(-1))
        after = button("Next question ▶", lambda _button: self.step(1), "kit-main")
        return before, after

    def _searched(self, _change: Any = None) -> None:
        words = self.search.value
        found = find(words)
        self._list(found or nearest(words))
        if not found:
            if self.found and len(words.strip()) >= ENOUGH:
                self.listed.fold.opened = True  # what comes near is only named there
            self._put_away()
            self.says.tell(suggest(words))
            return
        if len(words.strip()) >= ENOUGH:
            self.show_card(found[0])
        shown = said(words)
        if not shown:
            self._show()
        near = "The nearest card" if len(found) == 1 else f"The {len(found)} nearest cards"
        self.says.tell(f"{near} to “{shown}”." if shown else f"{len(found)} questions.")

    def _list(self, cards: list[Card]) -> None:
        self.found = cards
        self._busy = True
        with self.choice.hold_sync():
            self.choice.value = -1
            self.choice.options = _lines(cards)
        self._busy = False
        self._mark()

    def _mark(self) -> None:
        """Mark the open card in the list."""
        self._busy = True
        here = self.card in self.found
        self.choice.value = self.found.index(self.card) if here else -1
        self._busy = False

    def _chosen(self, change: dict) -> None:
        if not self._busy and 0 <= change["new"] < len(self.found):
            self.card = self.found[change["new"]]
            self._show()
            self.says.tell(f"Question {self.card.number} is open, below.")

    def _show(self) -> None:
        measures = self.looks.measures
        told, self.scene = self.card.told(measures), drawn(self.card, measures)
        self.head.value = _head(told.question, told.breath)
        self.picture.lay(self.scene)
        put = self.picture.remove_class if self.scene.panels else self.picture.add_class
        put("kit-plain")
        self.rest.value = _rest(self.card, measures)
        self.picture.layout.display = None

    def _put_away(self) -> None:
        """Show no card: the last one would stand there like an answer."""
        self.head.value = self.rest.value = ""
        self.picture.layout.display = "none"

    def _heard(self, _widget: Any, message: dict, _buffers: Any) -> None:
        if message.get("event") == "point" and self.scene.panels:
            place = float(message["x"]), float(message["y"])
            self.says.tell(self.scene.at(*place, self.units))

    def _new_look(self) -> None:
        self.looks.dress(self)
        self._show()


def _lines(cards: list[Card]) -> list[str]:
    return [f"{card.number}  {card.question}" for card in cards]


def _row(parts: list[widgets.Widget], name: str) -> widgets.Box:
    row = widgets.Box(parts)
    row.add_class(name)
    return row


def _head(question: str, breath: str) -> str:
    return (
        f'<div class="kit-card-head"><h3>{html.escape(question)}</h3>'
        f'<p class="kit-breath"><small>In one breath</small>“{html.escape(breath)}”</p>'
        "</div>"
    )


def _rest(card: Card, measures: Measures) -> str:
    """Write what stands below the picture."""
    told = card.told(measures)
    lines = "".join(f"<li>{html.escape(line)}</li>" for line in told.number.working)
    mark = mark_of(card.claims)
    parts = [
        f"<h4>{html.escape(told.number.name)}</h4>",
        f'<p class="kit-value">{html.escape(told.number.value)} {mark}</p><ol>{lines}</ol>',
        f'<p class="kit-mark">{html.escape(told.mark)}</p>{how_known(card.claims)}',
        f"<h4>What many think</h4><p>{html.escape(told.belief)}</p>",
        f"<h4>What is true</h4><p>{html.escape(told.answer)}</p>",
    ]
    parts += [
        f'<p class="kit-care"><b>{html.escape(name)}.</b> {html.escape(words)}</p>'
        for name, words in card.cautions
    ]
    lesson = f"{card.lesson} {lesson_of(card.lesson).title}"
    parts.append(f"<h4>Find out more</h4><p>Lesson {html.escape(lesson)}</p>")
    return f'<div class="kit-card">{"".join(parts)}</div>'
