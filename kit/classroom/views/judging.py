"""Tasks that a person reads, on the screen: one's own words first, then models."""

import html
from collections.abc import Callable
from typing import Any

import ipywidgets as widgets

from kit.classroom.homework.hand_in import MOST_WORDS, HandIn, Row, Tier
from kit.classroom.homework.judged import LEVELS, RUBRIC
from kit.classroom.homework.sitting import Sitting
from kit.classroom.views.answering import asked
from kit.course.views.controls import Choice, blank, button, in_a_row
from kit.course.views.said import Says, Text

OWN_WORDS = 15  # of one's own, handed in before the model answers are shown
MOST = (40, 40, 600)  # letters: predicted, measured, why
MEASURED = ("length of a piece", "weight of the bar", "line angle", "line spacing")


class JudgedBox(widgets.VBox):
    """A task that a person reads: one's own words first, then models to compare with.

    Parameters
    ----------
    sitting : Sitting
    told : callable
        Called after every change.
    handed : callable
        Gives what was handed in of the student's own paper.
    """

    def __init__(
        self, sitting: Sitting, told: Callable[[], None], handed: Callable[[], list[HandIn]]
    ) -> None:
        super().__init__()
        self.add_class("kit-check")
        self.sitting, self._told, self._handed = sitting, told, handed
        self._fixed: dict[str, Any] = {}
        task = sitting.paper.homework.judged
        self.ask, self.says, self.models = asked(""), Says(), Text()
        self.claims = [
            (
                Choice(claim.words, ["not possible", "possible"]),
                Choice("because", list(claim.reasons)),
            )
            for claim in task.claims
        ]
        self.words = widgets.Textarea(
            description="Your words:",
            placeholder=f"about {task.words} words",
            continuous_update=False,
            layout={"width": "100%", "height": "8em"},
        )
        self.ratings = [Choice(line, list(LEVELS)) for line in RUBRIC]
        self.compare_button = button("Compare with three answers", self.compare)
        row = in_a_row(self.compare_button)
        self._below = widgets.VBox([])
        choices = [part for pair in self.claims for part in pair]
        for _, why in self.claims:
            why.add_class("kit-column")
        for part in (*choices, *self.ratings):
            part.observe(lambda _change: self._told(), names="value")
        self.words.observe(lambda _change: self._told(), names="value")
        self.children = [self.ask, *choices, self.words, row, self.says, self._below]
        self.show()

    def show(self) -> None:
        """Write the question, and the models if they are open, in the units of the page."""
        paper = self.sitting.paper
        task = paper.homework.judged
        words = task.ask(paper.values, self.sitting.units)
        self.ask.value = asked(f"{task.title}. {words}").value
        if self.opened:
            models = task.models(paper.values, self.sitting.units)
            items = "".join(f"<li>{html.escape(model)}</li>" for model in models)
            told = "Three answers, from weak to strong:"
            self.models.value = f"<p>{told}</p><ol>{items}</ol>"

    def compare(self, _button: Any = None) -> None:
        """Show three answers and the rubric, once one's own is handed in."""
        shut = self._shut()
        if shut and not self.opened:
            self.says.tell(shut, refused=True)
            return
        self.open_models()
        self.says.tell(
            "Compare, rate your own, and make your hand-in again. Your words stay as they "
            "were handed in."
        )
        self._told()

    def _shut(self) -> str:
        """Say why the three answers may not be shown yet, or nothing."""
        written = len(self.words.value.split())
        if written < OWN_WORDS:
            return (
                f"Write your own answer first, {OWN_WORDS} words or more, and hand it in. "
                f"So far: {written}. Press Make my hand-in, then compare."
            )
        handed = self._handed()
        if self.sitting.paper.redraw:
            open_now = any(len(one.words.split()) >= OWN_WORDS for one in handed)
        else:
            done = self.sitting.hand_in(**self.written)
            open_now = any(one.written == done.written for one in handed)
        if open_now:
            return ""
        if handed and not self.sitting.paper.redraw:
            return (
                "What you wrote is not what you handed in. Press Make my hand-in again, "
                "then compare."
            )
        return (
            "Three answers open when your paper, not a practice paper, is handed in with "
            "your own words. Press Make my hand-in, then compare."
        )

    def open_models(self) -> None:
        """Show three answers and the rubric; from now on the own answer stays as it is."""
        self._fixed = {key: self.written[key] for key in ("words", "claims")}
        for part in (self.words, *(part for pair in self.claims for part in pair)):
            part.disabled = True
        self._below.children = [self.models, *self.ratings]
        self.show()

    @property
    def opened(self) -> bool:
        """Whether three answers were shown, and the own one is fixed."""
        return bool(self._fixed)

    @property
    def written(self) -> dict[str, Any]:
        """What goes into the hand-in; ratings, if only of None, say that it is fixed."""
        tiers = [(_ticked(one), _ticked(why)) for one, why in self.claims]
        rated = tuple(_ticked(rating) for rating in self.ratings)
        claims = tuple(
            Tier(possible=None if one is None else bool(one), reason=why)
            for one, why in tiers
        )
        ticked = any(one is not None for one in rated)
        return {
            "words": self.words.value[:MOST_WORDS],
            "claims": claims if any(claim != Tier() for claim in claims) else (),
            "ratings": rated if ticked or self.opened else (),
            **self._fixed,
        }

    @property
    def cut_off(self) -> str:
        """Say that the words are longer than what is kept of them, or nothing."""
        many = len(self.words.value)
        if many <= MOST_WORDS:
            return ""
        return f"Of your words {MOST_WORDS} letters are kept. You have {many}."

    def restore(self, words: str, claims: tuple[Tier, ...], ratings: tuple) -> None:
        """Show what a draft had."""
        for (one, why), tier in zip(self.claims, claims, strict=False):
            one.value = -1 if tier.possible is None else int(tier.possible)
            why.value = -1 if tier.reason is None else tier.reason
        self.words.value = words
        for choice, rating in zip(self.ratings, ratings, strict=False):
            choice.value = -1 if rating is None else rating
        if ratings:
            self.open_models()


def _ticked(choice: Choice) -> int | None:
    """Give what was chosen, or None: a choice's own -1 stands for that."""
    return None if choice.value < 0 else choice.value


class SheetBox(widgets.VBox):
    """The capstone's sheet, for those who forged it or made it in clay."""

    def __init__(self, told: Callable[[], None]) -> None:
        super().__init__()
        self.add_class("kit-check")
        ask = (
            "If you made it, in steel or in clay: what you predicted, what you measured, "
            "and why they differ. Marks are for explaining the difference, not for none."
        )
        self.rows = [
            tuple(
                blank(f"{what}, {part}:", named="15em", continuous_update=False)
                for part in ("predicted", "measured", "why")
            )
            for what in MEASURED
        ]
        for box in (one for row in self.rows for one in row):
            box.observe(lambda _change: told(), names="value")
        self.children = [asked(ask), *(one for row in self.rows for one in row)]

    @property
    def written(self) -> tuple[Row, ...]:
        """The rows that have anything in them."""
        found = []
        for what, row in zip(MEASURED, self.rows, strict=True):
            texts = [one.value.strip()[:most] for one, most in zip(row, MOST, strict=True)]
            if any(texts):
                predicted, measured, why = texts
                found.append(
                    Row(what=what, predicted=predicted, measured=measured, why=why)
                )
        return tuple(found)

    @property
    def cut_off(self) -> str:
        """Say which box has more than what is kept of it, or nothing."""
        for row in self.rows:
            for box, most in zip(row, MOST, strict=True):
                many = len(box.value.strip())
                if many > most:
                    name = box.description.rstrip(":")
                    return f"Of '{name}' {most} letters are kept. You have {many}."
        return ""

    def restore(self, sheet: tuple[Row, ...]) -> None:
        """Show what a draft had."""
        known = dict(zip(MEASURED, self.rows, strict=True))
        for row in sheet:
            if row.what in known:
                boxes, values = known[row.what], (row.predicted, row.measured, row.why)
                for box, value in zip(boxes, values, strict=True):
                    box.value = value
