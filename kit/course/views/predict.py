"""Predict, observe, explain: the question before every lesson's picture."""

from __future__ import annotations

import html
from typing import Any

import ipywidgets as widgets

from kit.basics.errors import KitError
from kit.course.lesson import SURENESS, Prediction, Question
from kit.course.views.base import State, View
from kit.course.views.controls import Choice, button, in_a_row, spoken
from kit.section.picture import encode


class Predict(widgets.VBox):
    """Four tiles, how sure, and Observe, which is shut until a tile is chosen.

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
        view.lock(True)
        view.begin(film[0])
        view.say("Choose a picture above and press Observe: that opens the controls.")
        tiles = [
            (question.show(value), *question.draw(value)) for value in question.values()
        ]
        self.tiles = Choice(
            "What do you expect? Choose one:",
            [words for words, _, _ in tiles],
            pictures=[encode(image) for _, image, _ in tiles],
            alts=[alt for _, _, alt in tiles],
        )
        self.sure = Choice("How sure are you?", list(SURENESS), value=0)
        self.observe_button = button("Observe", self.observe_now, "kit-main")
        self.says = widgets.HTML()
        self.tiles.observe(self._chosen, names="value")
        self.sure.observe(self._chosen, names="value")
        ask = widgets.HTML(f'<p class="kit-ask">{html.escape(question.ask)}</p>')
        row = in_a_row(self.observe_button)
        self.children = [ask, self.tiles, self.sure, row, self.says]

    def observe_now(self, _button: Any = None) -> None:
        """Show what happens, if something was predicted."""
        try:
            words = self.prediction.observe()
        except KitError as error:
            self.says.value = spoken(str(error), refused=True)
            return
        self.tiles.disabled = self.sure.disabled = True
        self.view.lock(False)
        self.view.play(self._film)
        self.view.say(words)
        self.says.value = spoken("Look at the picture below, then say why it is so.")
        self.observe_button.description = "Observe again"
        self.explain.unlock()

    def _chosen(self, _change: Any) -> None:
        if self.tiles.value >= 0:
            self.prediction.choose(self.tiles.value)
        self.prediction.sure = self.sure.value


class Explain(widgets.VBox):
    """Three reasons to choose from; open after the observation."""

    def __init__(self, prediction: Prediction) -> None:
        super().__init__()
        self.add_class("kit-view")
        self.prediction = prediction
        reasons = [reason.words for reason in prediction.question.reasons]
        self.reasons = Choice("Why is it so? Choose a reason:", reasons, disabled=True)
        self.reasons.add_class("kit-column")
        self.reasons.observe(self._explained, names="value")
        self.says = widgets.HTML(spoken("First predict and observe, above."))
        self.children = [self.reasons, self.says]

    def unlock(self) -> None:
        """Let a reason be chosen."""
        self.reasons.disabled = False
        if self.reasons.value < 0:
            self.says.value = spoken("What made the picture so?")

    def _explained(self, change: dict) -> None:
        if change["new"] >= 0:
            self.says.value = spoken(self.prediction.explain(change["new"]))
