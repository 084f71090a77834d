"""Ways of counting layers, right and wrong, and the checks of lesson 02.

Given: n pieces, k folds, a goal.
"""

import math

from kit.course.check import Check
from kit.course.lesson import Given, ideas_of


def bands(given: Given) -> float:
    """Count the stripes after hinge folds: (n - 1) × 2^k + 1."""
    return (given["n"] - 1) * 2 ** given["k"] + 1


def fewest_folds(given: Given) -> float:
    """Count doublings of n until the goal is reached."""
    return math.ceil(math.log2(given["goal"] / given["n"]) - 1e-12)


_idea = ideas_of("02")


def working(given: Given) -> list[str]:
    """Work the layer count out, line by line."""
    n, k, m = int(given["n"]), int(given["k"]), int(given.get("m", 2))
    return [
        f"layers = pieces × {m} for every fold",
        f"= {n} × {m}^{k}",
        f"= {n} × {m**k:,}",
        f"= {n * m**k:,}",
    ]


LAYERS = _idea(
    "RIGHT", "double the count at every fold", lambda given: given["n"] * 2 ** given["k"]
)
FOLD_PLUS_N = _idea(
    "FOLD_PLUS_N",
    "add one layer for each fold",
    lambda given: given["n"] + given["k"],
    "Fold a strip of paper twice and count its thicknesses.",
)
FOLD_PLUS_2N = _idea(
    "FOLD_PLUS_2N",
    "add two layers for each fold",
    lambda given: given["n"] + 2 * given["k"],
    "Fold a strip of paper three times and count its thicknesses.",
)
PIECES_TIMES_FOLDS = _idea(
    "PIECES_TIMES_FOLDS",
    "multiply the pieces by the folds",
    lambda given: given["n"] * given["k"],
    "What would that give for no fold at all, and for one?",
)
FOLD_ADDS = _idea(
    "FOLD_ADDS",
    "add one whole stack at each fold",
    lambda given: given["n"] * (given["k"] + 1),
    "Right for the first fold. What does the second fold lay on top?",
)
FOLD_TIMES_2N = _idea(
    "FOLD_TIMES_2N",
    "multiply by two once for each fold and then add up, as 2 × folds",
    lambda given: given["n"] * 2 * given["k"],
    "Say the count after the first, second and third fold aloud.",
)
ONE_FOLD_SHORT = _idea(
    "ONE_FOLD_SHORT",
    "leave out the last fold",
    lambda given: given["n"] * 2 ** (given["k"] - 1),
    "Count the folds on your fingers as you double.",
)
BANDS_NOT_PIECES = _idea(
    "BANDS_NOT_PIECES",
    "count the bands that can be seen",
    bands,
    "The trade counts pieces of steel, also where two alike lie together.",
)
POWER_SWAPPED = _idea(
    "POWER_SWAPPED",
    "raise the pieces to the power of the folds",
    lambda given: given["n"] ** given["k"],
    "What is multiplied at each fold: by two, or by the number of pieces?",
)
PIECES_NOT_BANDS = _idea(
    "PIECES_NOT_BANDS",
    "count the pieces of steel",
    lambda given: given["n"] * 2 ** given["k"],
    "That is how the trade counts. Where like meets like, how many stripes do you see?",
)
MINUS_ONE_ONCE = _idea(
    "MINUS_ONE_ONCE",
    "take off one band in all",
    lambda given: given["n"] * 2 ** given["k"] - 1,
    "Like meets like at every fold, and the next fold doubles those places too.",
)
LINES_NOT_BANDS = _idea(
    "LINES_NOT_BANDS",
    "count the lines between the bands",
    lambda given: bands(given) - 1,
    "A fence has one post more than it has gaps.",
)
ROUNDED_DOWN = _idea(
    "ROUNDED_DOWN",
    "stop one fold before the goal",
    lambda given: fewest_folds(given) - 1,
    "How many layers are there after that fold? Is it enough?",
)
LINEAR = _idea(
    "LINEAR",
    "divide the goal by twice the pieces, as if each fold added the same",
    lambda given: round(given["goal"] / (2 * given["n"])),
    "Each fold doubles what is there; it does not add the same again.",
)
SUBTRACTED = _idea(
    "SUBTRACTED",
    "share out the missing layers two a fold",
    lambda given: math.floor((given["goal"] - given["n"]) / 2 + 0.5),
    "Each fold doubles what is there; it does not add two.",
)
BANDS = _idea("RIGHT", "count a double layer as one band", bands)
FEWEST = _idea("RIGHT", "double until the goal is reached or passed", fewest_folds)


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
    right=BANDS,
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
    return [f"double {n} until it is {goal} or more", counts, f"that took {folds} folds"]


FEWEST_FOLDS = Check(
    ask="What is the fewest folds that bring nine pieces to 300 layers or more?",
    given={"n": 9, "goal": 300},
    right=FEWEST,
    slips=(ROUNDED_DOWN, LINEAR, SUBTRACTED),
    kind="count",
    prompt="Double 9 again and again, and count how often.",
    working=_fewest_working,
    other={"n": 5, "goal": 70},
    tips=(
        "Set 9 pieces and move the fold slider until the count passes 300.",
        "Set 9 pieces and read it off the chart of layers after each fold.",
        "Double until you pass 300; or take the logarithm of 300/9 to the base 2.",
    ),
)
