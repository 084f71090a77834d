"""Tasks that a person judges: the question, the rubric, models to compare oneself with."""

import math
from collections.abc import Callable
from dataclasses import dataclass

from kit.basics.errors import KitError
from kit.basics.units import Units
from kit.course.answers import filled
from kit.course.lesson import Given
from kit.course.worded import words_beside
from kit.metal.dangers import LEARN
from kit.shop.plan import example

RUBRIC = (
    "The claim is right.",
    "The reason uses geometry or metallurgy from the kit.",
    "It says what is not known.",
)
LEVELS = ("not there", "partly", "fully")  # 0, 1, 2
MOST_RATED = len(RUBRIC) * (len(LEVELS) - 1)


@dataclass(frozen=True, kw_only=True)
class Claim:
    """A seller's claim, answered twice: whether it is possible, and for which reason.

    Parameters
    ----------
    words : str
    possible : bool
    reasons : tuple of str
        Three to choose from.
    reason : int
        Which of them is right.
    """

    words: str
    possible: bool
    reasons: tuple[str, str, str]
    reason: int

    def right(self, possible: object, reason: object) -> bool:
        """Say whether both tiers are right: the verdict and its reason."""
        return possible is self.possible and reason == self.reason


@dataclass(frozen=True, kw_only=True)
class Judge:
    """A judged task.

    Parameters
    ----------
    title : str
    question : str
        For `kit.course.answers.filled`.
    answers : tuple of str
        Three models, weak to strong, filled as the question is, to be shown only after the
        student's own is written.
    worked : callable
        From a paper's values to those, and more, that question and answers tell.
    words : int
        About how many are asked for.
    claims : tuple of Claim
    """

    title: str
    question: str
    answers: tuple[str, ...]
    worked: Callable[[Given], Given] = dict
    words: int = 60
    claims: tuple[Claim, ...] = ()

    def ask(self, values: Given, units: Units = Units.MM) -> str:
        """Ask, with a paper's values, in units."""
        return filled(self.question, self.worked(values), units)

    def models(self, values: Given, units: Units) -> tuple[str, ...]:
        """Give the three answers, with a paper's values, in units."""
        return tuple(filled(one, self.worked(values), units) for one in self.answers)

    def best(self, values: Given, units: Units) -> str:
        """Give the verdict on each claim, and the strongest model answer: for the key."""
        told = [
            f"{claim.words} {'Possible' if claim.possible else 'Not possible'}."
            for claim in self.claims
        ]
        return " ".join([*told, f"For example: {self.models(values, units)[-1]}"])


def share(ratings: tuple[int, ...]) -> float:
    """Turn three ratings of 0 to 2 into a part of one mark.

    Raises
    ------
    KitError
        If there are not three, or one is out of range.

    Examples
    --------
    >>> share((2, 1, 0))
    0.5
    """
    known = range(len(LEVELS))
    if len(ratings) != len(RUBRIC) or any(rating not in known for rating in ratings):
        msg = f"A judged task has three ratings of 0, 1 or 2. Given: {str(ratings)[:40]}."
        raise KitError(msg)
    return sum(ratings) / MOST_RATED


TOLD = words_beside(__file__)
SHEET = f"{TOLD['SHEET']['words']} {LEARN}"


def _claim(name: str, *, possible: bool, reason: int) -> Claim:
    words, reasons = TOLD[name].values()
    return Claim(words=words, possible=possible, reasons=reasons, reason=reason)


SELLERS = Judge(
    **TOLD["SELLERS"],
    claims=(
        _claim("SELLERS 1", possible=False, reason=1),
        _claim("SELLERS 2", possible=True, reason=0),
        _claim("SELLERS 3", possible=True, reason=2),
    ),
)


def _two_faces(values: Given) -> Given:
    """Give the lean on both faces, degrees: tan = 2 pi h / p; and what one lost more."""
    high, low = heights = values["h_high"], values["h_low"]
    leans = (
        math.degrees(math.atan(2 * math.pi * one / values["p_face"])) for one in heights
    )
    return {**values, **dict(zip("AB", leans, strict=True)), "lost": high - low}


def _bar(_values: Given) -> Given:
    """Give the class's bar: its pieces, layers and thickness, mm."""
    plan = example()
    layers, thick = plan.billet.layers, plan.wanted.thickness
    return {"pieces": plan.pieces, "layers": layers, "thickness": thick}


TWO_FACES = Judge(**TOLD["TWO_FACES"], worked=_two_faces)
THREE_BARS = Judge(**TOLD["THREE_BARS"])
BETTER_STEEL = Judge(**TOLD["BETTER_STEEL"])
HANDOUT = Judge(**TOLD["HANDOUT"], worked=_bar, words=80)
