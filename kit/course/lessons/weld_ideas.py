"""Ways of thinking about a weld that did not take, right and wrong, and its checks.

Given: n pieces in the stack, or n bad welds; k folds.
"""

from kit.course.lesson import Given
from kit.course.lessons.fold_ideas import LAYERS, ONE_FOLD_SHORT
from kit.course.worded import Worded
from kit.forge.stack import demo_stack

PIECES = len(demo_stack().layers)

TOLD = Worded(__file__, "02", pieces=PIECES)

STAYS_ONE = TOLD.idea("STAYS_ONE", lambda given: given["n"])
ONE_A_FOLD = TOLD.idea("ONE_A_FOLD", lambda given: given["n"] + given["k"])
TWO_A_FOLD = TOLD.idea("TWO_A_FOLD", lambda given: 2 * given["k"])
OF_THE_FOLDS = TOLD.idea("OF_THE_FOLDS", lambda given: 2 ** given["k"] - 1)

MADE = TOLD.idea("MADE", lambda given: given["n"] - 1 + given["k"])
PIECES_COUNTED = TOLD.idea("PIECES_COUNTED", lambda given: given["n"] + given["k"])
FOLDS_LEFT_OUT = TOLD.idea("FOLDS_LEFT_OUT", lambda given: given["n"] - 1)
PLANES_COUNTED = TOLD.idea("PLANES_COUNTED", lambda given: given["n"] * 2 ** given["k"] - 1)


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


HAIR_LINES = TOLD.check(
    "HAIR_LINES",
    given={"n": 1, "k": 5},
    right=LAYERS,
    slips=(STAYS_ONE, ONE_A_FOLD, TWO_A_FOLD, ONE_FOLD_SHORT, OF_THE_FOLDS),
    kind="count",
    working=_lines_working,
    other={"n": 1, "k": 3},
)

WELDS_MADE = TOLD.check(
    "WELDS_MADE",
    given={"n": 9, "k": 4},
    right=MADE,
    slips=(PIECES_COUNTED, FOLDS_LEFT_OUT, PLANES_COUNTED),
    kind="count",
    working=made_working,
    other={"n": 5, "k": 2},
)
