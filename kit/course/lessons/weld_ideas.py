"""Ways of thinking about a weld that did not take, right and wrong, and its checks.

Given: n pieces in the stack, or n bad welds; k folds.
"""

from kit.course.check import Check
from kit.course.lesson import Given, ideas_of
from kit.course.lessons.fold_ideas import LAYERS, ONE_FOLD_SHORT
from kit.forge.stack import demo_stack

PIECES = len(demo_stack().layers)

_idea = ideas_of("02")

STAYS_ONE = _idea(
    "STAYS_ONE",
    "think of it as one place in the bar",
    lambda given: given["n"],
    "Made once, yes. But what does a fold do with a layer, and with the gap above it?",
)
ONE_A_FOLD = _idea(
    "ONE_A_FOLD",
    "add one line for each fold",
    lambda given: given["n"] + given["k"],
    "Draw a line on a strip of paper and fold it twice. How many thicknesses have it?",
)
TWO_A_FOLD = _idea(
    "TWO_A_FOLD",
    "add two lines for each fold",
    lambda given: 2 * given["k"],
    "Say the count after the first, second and third fold aloud: 2, 4 …",
)
OF_THE_FOLDS = _idea(
    "OF_THE_FOLDS",
    "count the planes that the folds themselves made",
    lambda given: 2 ** given["k"] - 1,
    "Those are welds of their own. The bad one was there before the first fold.",
)

MADE = _idea(
    "RIGHT",
    "count each weld once, when it is made",
    lambda given: given["n"] - 1 + given["k"],
)
PIECES_COUNTED = _idea(
    "PIECES_COUNTED",
    "count the pieces and not the welds between them",
    lambda given: given["n"] + given["k"],
    "Two pieces have one weld between them. And three?",
)
FOLDS_LEFT_OUT = _idea(
    "FOLDS_LEFT_OUT",
    "leave out the welds of the folds",
    lambda given: given["n"] - 1,
    "A fold that is not welded falls open again.",
)
PLANES_COUNTED = _idea(
    "PLANES_COUNTED",
    "count all the planes that lie in the finished bar",
    lambda given: given["n"] * 2 ** given["k"] - 1,
    "So many lie in the bar. How often did somebody have to get a weld right?",
)


def _lines_working(given: Given) -> list[str]:
    k = int(given["k"])
    counts = ", ".join(str(2**fold) for fold in range(k + 1))
    return [f"one line; after each fold twice as many: {counts}", f"= 2^{k} = {2**k}"]


def made_working(given: Given) -> list[str]:
    """Work out the welds that a smith makes."""
    n, k = int(given["n"]), int(given["k"])
    return [
        "welds = (pieces - 1) in the stack, and one a fold",
        f"= ({n} - 1) + {k}",
        f"= {n - 1 + k}",
    ]


HAIR_LINES = Check(
    ask=(
        "A weld of the first stack stayed open from end to end. The bar is folded five "
        "times. How many hairlines does its sawn end show?"
    ),
    given={"n": 1, "k": 5},
    right=LAYERS,
    slips=(STAYS_ONE, ONE_A_FOLD, TWO_A_FOLD, ONE_FOLD_SHORT, OF_THE_FOLDS),
    kind="count",
    prompt="What does each fold do with all that lies in the bar?",
    working=_lines_working,
    other={"n": 1, "k": 3},
    tips=(
        "Set 5 folds in the picture above, open from end to end; then choose.",
        "Draw a line along a strip of paper, fold it five times, count the lines.",
        "Start with one line and do what each fold does, five times.",
    ),
)

WELDS_MADE = Check(
    ask="Nine pieces, four folds: how many welds must take at the anvil?",
    given={"n": 9, "k": 4},
    right=MADE,
    slips=(PIECES_COUNTED, FOLDS_LEFT_OUT, PLANES_COUNTED),
    kind="count",
    prompt="Count them in the order they are made: first the stack, then fold by fold.",
    working=made_working,
    other={"n": 5, "k": 2},
    tips=(
        f"Look at the chart above: a column is a weld. It has {PIECES} pieces; you, 9.",
        "Stack nine cards and count the gaps; then add one for each fold.",
        "Pieces less one, and one for each fold.",
    ),
)
