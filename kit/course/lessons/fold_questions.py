"""What lesson 02 asks: the prediction, the checks, and the move that answers."""

from __future__ import annotations

from typing import TYPE_CHECKING

from kit.course.check import Check
from kit.course.lesson import Given, Idea, Question, Reason
from kit.course.lessons.fold import BAR, forged
from kit.course.lessons.fold_ideas import (
    BANDS_NOT_PIECES,
    FOLD_ADDS,
    FOLD_PLUS_2N,
    FOLD_PLUS_N,
    FOLD_TIMES_2N,
    LAYERS,
    LINEAR,
    LINES_NOT_BANDS,
    MINUS_ONE_ONCE,
    ONE_FOLD_SHORT,
    PIECES_NOT_BANDS,
    PIECES_TIMES_FOLDS,
    POWER_SWAPPED,
    ROUNDED_DOWN,
    SUBTRACTED,
    bands,
    fewest_folds,
    working,
)
from kit.forge.billet import Billet
from kit.forge.stack import Stack
from kit.metal import etch
from kit.section.picture import Sheet
from kit.section.surface import cut
from kit.section.trace import see

if TYPE_CHECKING:
    from PIL import Image


ASKED = {"n": 7, "k": 4}


def tile(layers: float) -> tuple[Image.Image, str]:
    """Draw the end grain that somebody who expects this many layers expects."""
    if layers == LAYERS.value(ASKED):  # what folding really makes, double bands and all
        billet = forged(pieces=ASKED["n"], folds=ASKED["k"], thickness=6.0)
    else:
        stack = Stack.alternate("1084", "15N20", pieces=int(layers), thickness=BAR)
        billet = Billet(source=stack)
    thick = billet.size.thickness
    wide = billet.size._replace(width=2 * thick)  # fills the tile
    plane = cut(wide, angle=90, columns=200, rows=150, pixel=thick / 150)
    sheet = Sheet(200, 150)
    sheet.steel(see(billet, plane, etch.tones(billet.source.steels)), (0, 0))
    return sheet.image, f"End grain with {int(layers)} flat layers, dark and bright."


def question() -> Question:
    """Ask for the layers of 7 pieces folded 4 times."""
    return Question(
        ask=(
            "Seven bars are stacked and welded. The billet is folded over four times, "
            "drawn out again after each fold. Which end grain do you expect?"
        ),
        given=ASKED,
        tiles=(FOLD_PLUS_N, FOLD_PLUS_2N, FOLD_TIMES_2N, LAYERS),
        right=LAYERS,
        show=lambda layers: f"{layers:.0f} layers",
        draw=tile,
        observed=(
            "Seven pieces folded four times make 112 layers: 7, 14, 28, 56, 112. They "
            "lie in 97 bands, because like met like at 15 places."
        ),
        reasons=(
            Reason(
                "Every fold takes all of the layers and puts them on all of them.",
                True,
                "Yes. Whatever there was, there is twice of it: folding multiplies.",
            ),
            Reason(
                "Every fold adds the same number of layers.",
                False,
                "Look at the chart: 7 more, then 14 more, then 28 more. A fold lays on "
                "top all that is there, and each time that is more.",
            ),
            Reason(
                "The layers split when they are hammered thin.",
                False,
                "No layer splits; hammering makes each thinner and longer. New ones "
                "come only from laying the bar on itself.",
            ),
        ),
    )


LAYER_COUNT = Check(
    ask="Nine pieces are stacked and folded five times. How many layers?",
    given={"n": 9, "k": 5},
    right=LAYERS,
    slips=(
        FOLD_PLUS_N,
        FOLD_PLUS_2N,
        PIECES_TIMES_FOLDS,
        FOLD_TIMES_2N,
        FOLD_ADDS,
        ONE_FOLD_SHORT,
        BANDS_NOT_PIECES,
        POWER_SWAPPED,
    ),
    kind="count",
    prompt="Say the count aloud after every fold, starting with 9.",
    working=working,
    other={"n": 6, "k": 3},
    tips=(
        "Set 9 pieces and 5 folds in the picture above, then choose.",
        "Fold a strip of paper five times, count its thicknesses, and take nine of each.",
        "Start with 9 and do what each fold does, five times.",
    ),
)

# The move that answers the question: the bar is folded, drawn out, folded again.
FILM = [
    {"pieces": 7, "folds": frame // 4, "join": 0, "thickness": 6.0} for frame in range(20)
]


def _bands_working(given: Given) -> list[str]:
    n, k = int(given["n"]), int(given["k"])
    return [
        "after a hinge fold: bands = 2 × bands - 1, because like meets like",
        f"so bands = (pieces - 1) × 2^folds + 1 = ({n} - 1) × 2^{k} + 1",
        f"= {bands({'n': n, 'k': k}):,.0f}",
    ]


BAND_COUNT = Check(
    ask="The same nine pieces, five hinge folds: how many bands are there?",
    given={"n": 9, "k": 5},
    right=Idea(
        code="RIGHT",
        name="count a double layer as one band",
        formula=bands,
        hint="",
        lesson="02",
    ),
    slips=(PIECES_NOT_BANDS, MINUS_ONE_ONCE, LINES_NOT_BANDS),
    kind="count",
    prompt="At each fold the top face meets itself. What happens to those two layers?",
    working=_bands_working,
    other={"n": 5, "k": 3},
    tips=(
        "Set 9 pieces, 5 hinge folds; the wedges mark the double bands. Then choose.",
        "On paper, with 3 pieces and 2 folds: count, find the rule, use it.",
        "Take the layers and think what each weld of like on like costs.",
    ),
)


def _fewest_working(given: Given) -> list[str]:
    n, goal = int(given["n"]), int(given["goal"])
    folds = int(fewest_folds(given))
    counts = ", ".join(str(n * 2**fold) for fold in range(folds + 1))
    return [
        f"double {n} until it is {goal} or more",
        counts,
        f"that took {folds} folds",
    ]


FEWEST_FOLDS = Check(
    ask="What is the fewest folds that bring nine pieces to 300 layers or more?",
    given={"n": 9, "goal": 300},
    right=Idea(
        code="RIGHT",
        name="double until the goal is reached or passed",
        formula=fewest_folds,
        hint="",
        lesson="02",
    ),
    slips=(ROUNDED_DOWN, LINEAR, SUBTRACTED),
    kind="count",
    prompt="Double 9 again and again, and count how often.",
    working=_fewest_working,
    other={"n": 5, "goal": 70},
    tips=(
        "Set 9 pieces and move the fold slider until the count passes 300.",
        "Read it off the chart of layers after each fold.",
        "Double until you pass 300; or take the logarithm of 300/9 to the base 2.",
    ),
)
