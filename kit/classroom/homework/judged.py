"""Tasks that a person judges: the question, the rubric, models to compare oneself with."""

import math
from collections.abc import Callable
from dataclasses import dataclass

from kit.basics.errors import KitError
from kit.basics.told import said
from kit.basics.units import Units
from kit.course.answers import Words, filled
from kit.course.lesson import Given
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
    question : str or callable
        For `kit.course.answers.filled`.
    models : callable
        From the same to three model answers, weak to strong, to be shown only after the
        student's own is written.
    words : int
        About how many are asked for.
    claims : tuple of Claim
    """

    title: str
    question: Words
    models: Callable[[Given, Units], tuple[str, str, str]]
    words: int = 60
    claims: tuple[Claim, ...] = ()

    def ask(self, values: Given, units: Units = Units.MM) -> str:
        """Ask, with a paper's values, in units."""
        return filled(self.question, values, units)

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


def _plain(*texts: str) -> Callable[[Given, Units], tuple[str, str, str]]:
    one, two, three = texts
    return lambda _values, _units: (one, two, three)


SHEET = (
    "If you have a forge, or else in clay: make the bar, photograph it, and fill in what "
    "you predicted, what you measured, and why the two differ. Marks are for explaining "
    "the difference, not for matching. Forge, press and acid only under somebody who is "
    "qualified and by the rules of your place, with eyes, ears and lungs protected; clay "
    "will do as well."
)

SELLERS = Judge(
    title="Three sellers' claims",
    question=(
        "Three sellers claim: “folded 2000 times”; “2000 layers from 8 pieces”; “97 bands "
        "from 7 pieces”. Which are possible, and why? Say also what you cannot know."
    ),
    models=_plain(
        "All of them are just advertising.",
        "2000 folds cannot be: layers double each time. The other two are possible.",
        "2000 folds are not possible: after 30 the layers of any bar are thinner than an "
        "atom. 8 pieces give 2048 layers with 8 folds, which a seller may round, or 2000 "
        "if it is also cut in fives (8 × 2 × 5 × 5 × 5). 7 pieces give 97 bands with 4 "
        "folds: 6 × 16 + 1. Whether he did so I cannot know: I would count a square cut.",
    ),
    claims=(
        Claim(
            words="“Folded 2000 times.”",
            possible=False,
            reasons=(
                "Nobody has so much time.",
                "30 doublings give layers thinner than an atom; scale eats the bar sooner.",
                "Steel gets too hard to fold after some twenty times.",
            ),
            reason=1,
        ),
        Claim(
            words="“2000 layers from 8 pieces.”",
            possible=True,
            reasons=(
                "8 folds give 2048, and cutting in fives gives 2000 exactly.",
                "250 folds give 8 × 250.",
                "8 doubled is always 2000 in the end.",
            ),
            reason=0,
        ),
        Claim(
            words="“97 bands from 7 pieces.”",
            possible=True,
            reasons=(
                "7 × 14 is nearly 97.",
                "97 is odd, and bands come in pairs.",
                "Four folds: 6 × 16 + 1, as like meets like at each weld.",
            ),
            reason=2,
        ),
    ),
)


def _two_faces(values: Given, units: Units) -> str:
    one, other = _leans(values)
    return (
        "Two faces were ground on bars from one twist, one turn in "
        f"{said(values['p_face'], units)}. On the middle of A the lines lie at {one:.1f}°, "
        f"on B at {other:.1f}°. Which was ground deeper, by how much, and what cannot be "
        "known from the faces alone?"
    )


def _leans(values: Given) -> tuple[float, float]:
    """Give the lean on both faces, degrees: tan = 2 pi h / p."""
    heights = values["h_high"], values["h_low"]
    one, other = (
        math.degrees(math.atan(2 * math.pi * height / values["p_face"]))
        for height in heights
    )
    return one, other


def _face_models(values: Given, units: Units) -> tuple[str, str, str]:
    high, low = values["h_high"], values["h_low"]
    best = (
        "B was ground deeper. Height is turn × tan(angle) / 2 pi: "
        f"{said(high, units)} for A and {said(low, units)} for B, so B lost "
        f"{said(high - low, units)} more, if both bars were equally thick. How thick they "
        "were, and so how much came off either, the faces do not say: a thicker bar ground "
        "deeper looks the same."
    )
    return (
        "B looks flatter, so B.",
        "B was ground deeper, since lines lean less nearer to the axis.",
        best,
    )


TWO_FACES = Judge(title="Two faces", question=_two_faces, models=_face_models)
THREE_BARS = Judge(
    title="Three bars for sale",
    question=(
        "For one kitchen blade you may buy a twisted bar, a ladder bar, or flat layers, "
        "all the same two steels. Which do you buy, and what will the buyer be surprised "
        "by?"
    ),
    models=_plain(
        "The ladder, because it looks best.",
        "The twist goes all through. The ladder's rungs fade towards the edge.",
        "It depends on what is wanted. A ladder's depth falls, by the kit's rule evenly to "
        "the far face, so near the edge the rungs fade. The twist changes from stripes to "
        "stars as it is ground. Flat layers show nothing on the ricasso and lines only on "
        "the bevel: that will surprise a buyer. The picture of a bar's face is not the "
        "blade's. How deep the seller pressed, and how the bar will be ground, I do not "
        "know: I would ask for a ground sample.",
    ),
)
BETTER_STEEL = Judge(
    title="“Is it better steel?”",
    question=(
        "A customer asks: “Is it better steel?” Answer in about 60 words, with three facts "
        "and one limit of what you know."
    ),
    models=_plain(
        "Yes, pattern-welded steel is both hard and tough.",
        "No. At welding heat carbon evens out between the layers, so it is about as hard "
        "all through as one steel of the mean carbon.",
        "Not better, not worse if well welded. Carbon crosses a thin layer in minutes at "
        "welding heat, so all layers harden nearly alike. Nickel hardly moves: it makes "
        "the pattern. A good bar of one steel, hardened and tempered, cuts as well. What I "
        "cannot see is whether every weld is sound; that needs a test, not a look.",
    ),
)
_BAR = example()
HANDOUT = Judge(
    title="A customer's handout",
    question=(
        "Write a handout of about 80 words for somebody who buys your bar: how it was "
        "made, what the pattern shows and does not show, and how to care for it."
    ),
    models=_plain(
        "This unique bar was made in fire by hand. Enjoy it!",
        f"Made of {_BAR.pieces} pieces of two steels, welded and stacked three times: "
        f"{_BAR.billet.layers} layers. Oil it.",
        f"This bar was made of {_BAR.pieces} pieces of {_BAR.outer.steel} and "
        f"{_BAR.inner.steel}, welded and stacked three times: {_BAR.billet.layers} layers "
        f"in {_BAR.wanted.thickness:g} mm. The bright lines hold nickel: mind it if you "
        "are allergic. Where lines lie close, the surface cuts steeply across the layers; "
        "where they lie wide, it runs nearly along them. They say nothing of hardness: "
        "carbon is even, so both are nearly as hard. Ground again, it will look different, "
        "and etched again it comes back. I looked for open welds and found none; I cannot "
        "see inside. It rusts: keep it dry and oiled.",
    ),
    words=80,
)
