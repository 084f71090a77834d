"""Predict, observe, explain; and wrong ideas as objects.

A wrong idea is not a typing error: it is a picture in somebody's head that gives its
own number. Each is written down once, as an `Idea`, and the tiles of a prediction, the
hints of a check and (later) homework and class tables all use that one object.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import NamedTuple

from PIL import Image

from kit.basics.claim import Claim, Kind
from kit.basics.errors import KitError

PREDICTED = Claim(
    says="Who predicts before looking sees and keeps more, whether the prediction was "
    "right or not.",
    kind=Kind.PUBLISHED,
    source="'Classroom demonstrations: learning tools or entertainment?', American Journal "
    "of Physics 72 (2004) 835; 'Role of physics lecture demonstrations in conceptual "
    "learning', Physical Review Special Topics, Physics Education Research 9(2) (2013)",
    seen=True,
    told=("Predicting first",),
)
VOTED = Claim(
    says="Talk in pairs and a second vote help where 35 to 70 % were right at first.",
    kind=Kind.PUBLISHED,
    source="a university's guidance on peer instruction, a page",
    seen=True,
    told=("vote again",),
)
DOUBLINGS = Claim(
    says="Growth is judged better told in doublings.",
    kind=Kind.PUBLISHED,
    source="'Intuition and exponential growth', an article of 2021",
    seen=True,
    told=("Speak of doublings",),
)
Given = Mapping[str, float]

SURENESS = ("guess", "fairly sure", "sure")
NOT_SAID = "how sure: not said"
BY_TRYING = "Found by trying one after another: now say why."
MANY = 2  # wrong choices before the right one: it was not thought out, but tried


@dataclass(frozen=True, kw_only=True)
class Idea:
    """One way of thinking, right or wrong, and the number it leads to.

    Parameters
    ----------
    code : str
        Short capitals, the same everywhere in the kit: "TAN_FOR_SIN".
    name : str
        In plain words, to finish the sentence "That is what you get if you …".
    formula : callable
        From the given values (by name) to the number.
    hint : str
        What to think about next. About the idea, never about the person.
    lesson : str
        Where it is taught: "01".
    """

    code: str
    name: str
    formula: Callable[[Given], float]
    hint: str
    lesson: str

    def value(self, given: Given) -> float:
        """Work out the number that this idea leads to."""
        return float(self.formula(given))


def ideas_of(lesson: str) -> Callable[..., Idea]:
    """Give a short way to write down the ideas of one lesson; a right one needs no hint."""

    def idea(
        code: str, name: str, formula: Callable[[Given], float], hint: str = ""
    ) -> Idea:
        return Idea(code=code, name=name, formula=formula, hint=hint, lesson=lesson)

    return idea


class Reason(NamedTuple):
    """One of three explanations offered after the observation."""

    words: str
    right: bool
    answer: str


@dataclass(frozen=True, kw_only=True)
class Question:
    """A prediction: four tiles, each drawn from an idea, one of them right.

    Parameters
    ----------
    ask : str
    given : mapping
        The values asked about.
    tiles : tuple of Idea
        In the order shown.
    right : Idea
        One of `tiles`.
    show : callable
        From a number to the words under its tile.
    draw : callable
        From a number to a picture and its alt text, by the kit's own engine.
    reasons : tuple of Reason
    observed : str
        What was seen, said after the observation.
    """

    ask: str
    given: Given
    tiles: tuple[Idea, ...]
    right: Idea
    show: Callable[[float], str]
    draw: Callable[[float], tuple[Image.Image, str]]
    reasons: tuple[Reason, ...]
    observed: str

    def values(self) -> list[float]:
        """Give the number on each tile."""
        return [idea.value(self.given) for idea in self.tiles]


@dataclass
class Prediction:
    """One person's way through a question: choose, then observe, then explain.

    Attributes
    ----------
    chosen : int or None
        Which tile.
    sure : int or None
        Index into `SURENESS`; None if it was not said.
    observed : bool
        Once true, the choice is kept as it was.
    """

    question: Question
    chosen: int | None = None
    sure: int | None = None
    observed: bool = field(default=False, init=False)
    _wrong: set[int] = field(default_factory=set, init=False)  # reasons that were tried

    def choose(self, tile: int) -> None:
        """Take one tile; until the observation it may be changed."""
        if not self.observed:
            self.chosen = tile

    def observe(self) -> str:
        """Unlock the observation and say what it means for the choice.

        Raises
        ------
        KitError
            If nothing was chosen: a prediction comes first.
        """
        if self.chosen is None:
            msg = "Choose one first: which picture do you expect? Then press Observe."
            raise KitError(msg)
        self.observed = True
        question = self.question
        idea = question.tiles[self.chosen]
        if idea is question.right:
            sure = NOT_SAID if self.sure is None else SURENESS[self.sure]
            return f"{question.observed} You predicted it ({sure})."
        return (
            f"{question.observed} The picture you chose is what you get if you "
            f"{idea.name}. {idea.hint}"
        )

    def explain(self, reason: int) -> str:
        """Answer one of the reasons offered, after the observation."""
        chosen = self.question.reasons[reason]
        if not chosen.right:
            self._wrong.add(reason)
        elif len(self._wrong) >= MANY:
            return f"{BY_TRYING} {chosen.answer}"
        return chosen.answer
