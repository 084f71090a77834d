"""Predict, observe, explain: the question before every lesson's picture."""

import html
from typing import Any

import ipywidgets as widgets

from kit.basics.errors import KitError
from kit.basics.told import in_units
from kit.basics.units import Units
from kit.course.lesson import SURENESS, Prediction, Question
from kit.course.views.base import State, View
from kit.course.views.controls import Choice, button, in_a_row
from kit.course.views.said import Says, Text, spoken
from kit.section.picture import encode

FIRST = "Choose a picture above and press Observe: that opens the controls."
NEXT = (
    "All is clear for the next person: choose a picture. What was set before comes back: "
    "Observe, then press Undo step twice."
)
SHUT = "First predict and observe, above."


class Predict(widgets.VBox):
    """Four tiles, how sure, and Observe, which refuses until a tile is chosen.

    After it the next person may predict, and sees nothing of the last one.

    Parameters
    ----------
    question : Question
    view : View
        Its controls stay shut until the observation.
    film : list of dict
        The states that the view plays as the observation. Until then it shows the
        first, so that it does not give the answer away.

    Attributes
    ----------
    explain : Explain
        The three reasons, to stand below the view.
    """

    def __init__(self, question: Question, view: View, film: list[State]) -> None:
        super().__init__()
        self.add_class("kit-view")
        self.prediction = Prediction(question)
        self.explain = Explain(self.prediction)
        self.view, self._film = view, film
        self.ask = Text()
        view.lock(True)
        view.begin(film[0])
        view.say(FIRST)
        tiles = [question.draw(value) for value in question.values()]
        self._alts = [alt for _, alt in tiles]
        self.tiles = Choice(
            "What do you expect? Choose one:",
            [],
            pictures=[encode(image) for image, _ in tiles],
        )
        self.sure = Choice("How sure are you?", list(SURENESS))
        self.observe_button = button("Observe", self.observe_now, "kit-main")
        self.next_button = button("Next person", self.next_person)
        self.says = Says()
        self.tiles.observe(self._chosen, names="value")
        self.sure.observe(self._chosen, names="value")
        self._row = in_a_row(self.observe_button)
        self.children = [self.ask, self.tiles, self.sure, self._row, self.says]
        view.looks.unit_choice.observe(self._tell, "value")
        self._tell()

    def _tell(self, _change: Any = None) -> None:
        """Ask, name the tiles and give the reasons in the page's units."""
        question, units = self.prediction.question, self.view.units
        ask = html.escape(in_units(question.ask, units))
        self.ask.value = f'<p class="kit-ask">{ask}</p>'
        shown = [question.show(value) for value in question.values()]
        self.tiles.options = [in_units(words, units) for words in shown]
        self.tiles.alts = [in_units(alt, units) for alt in self._alts]
        self.explain.tell(units)

    def observe_now(self, _button: Any = None) -> None:
        """Show what happens, if something was predicted."""
        try:
            words = self.prediction.observe()
        except KitError as error:
            self.says.tell(str(error), refused=True)
            return
        self.tiles.disabled = self.sure.disabled = True
        self.view.lock(False)
        self.view.play(self._film)
        self.view.say(in_units(words, self.view.units))
        self.says.tell("Look at the picture below, then say why it is so.")
        self.observe_button.description = "Observe again"
        self._row.children = [self.observe_button, self.next_button]
        self.explain.unlock()
        if self.view.checks:  # whoever went all the way down is not sent up again for it
            self.view.checks[-1].end_with(button("Next person", self.next_person))

    def next_person(self, _button: Any = None) -> None:
        """Open the tiles and shut the rest, all as at first, and say how to get back."""
        self.prediction = Prediction(self.prediction.question)
        self.tiles.value = self.sure.value = -1
        self.tiles.disabled = self.sure.disabled = False
        self.observe_button.description = "Observe"
        self._row.children = [self.observe_button]
        self.view.afresh(self._film[0])
        self.view.say(FIRST)
        self.explain.afresh(self.prediction)
        for checks in self.view.checks:
            checks.afresh()
        self.says.tell(NEXT)
        self.tiles.send({"focus": True})  # the button that had it is gone

    def _chosen(self, _change: Any) -> None:
        if self.tiles.value >= 0:
            self.prediction.choose(self.tiles.value)
        self.prediction.sure = None if self.sure.value < 0 else self.sure.value


class Explain(widgets.VBox):
    """Three reasons to choose from; open after the observation."""

    def __init__(self, prediction: Prediction) -> None:
        super().__init__()
        self.add_class("kit-view")
        self.prediction, self.units = prediction, Units.MM
        why = "Why is it so? Choose a reason:"
        self.reasons = Choice(why, [], disabled=True, weighed=True)
        self.reasons.add_class("kit-column")
        self.reasons.observe(self._explained, names="value")
        self.says = Says(value=spoken(SHUT))
        self.children = [self.reasons, self.says]

    def afresh(self, prediction: Prediction) -> None:
        """Shut the reasons until this prediction was observed."""
        self.prediction = prediction
        self.reasons.value, self.reasons.disabled = -1, True
        self.says.tell(SHUT)

    def tell(self, units: Units) -> None:
        """Give the reasons, and the answer to the chosen one, in these units."""
        self.units = units
        reasons = self.prediction.question.reasons
        self.reasons.options = [in_units(reason.words, units) for reason in reasons]
        self._explained({"new": self.reasons.value})

    def unlock(self) -> None:
        """Let a reason be chosen."""
        self.reasons.disabled = False
        if self.reasons.value < 0:
            self.says.tell("What made the picture so?")

    def _explained(self, change: dict) -> None:
        if change["new"] >= 0:
            answer = self.prediction.explain(change["new"])
            self.says.tell(in_units(answer, self.units))
