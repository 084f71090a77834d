"""Ways of counting layers, right and wrong, and the checks of lesson 02.

Given: n pieces, k folds, a goal.
"""

import math

from kit.course.lesson import Given
from kit.course.worded import Worded


def bands(given: Given) -> float:
    """Count the stripes after hinge folds: (n - 1) × 2^k + 1."""
    return (given["n"] - 1) * 2 ** given["k"] + 1


def fewest_folds(given: Given) -> float:
    """Count doublings of n until the goal is reached."""
    return math.ceil(math.log2(given["goal"] / given["n"]) - 1e-12)


TOLD = Worded(__file__, "02")


def working(given: Given) -> list[str]:
    """Work the layer count out, line by line."""
    n, k, m = int(given["n"]), int(given["k"]), int(given.get("m", 2))
    return [
        f"layers = pieces × {m} for every fold",
        f"= {n} × {m}^{k}",
        f"= {n} × {m**k:,}",
        f"= {n * m**k:,}",
    ]


LAYERS = TOLD.idea("LAYERS", lambda given: given["n"] * 2 ** given["k"])
FOLD_PLUS_N = TOLD.idea("FOLD_PLUS_N", lambda given: given["n"] + given["k"])
FOLD_PLUS_2N = TOLD.idea("FOLD_PLUS_2N", lambda given: given["n"] + 2 * given["k"])
PIECES_TIMES_FOLDS = TOLD.idea("PIECES_TIMES_FOLDS", lambda given: given["n"] * given["k"])
FOLD_ADDS = TOLD.idea("FOLD_ADDS", lambda given: given["n"] * (given["k"] + 1))
FOLD_TIMES_2N = TOLD.idea("FOLD_TIMES_2N", lambda given: given["n"] * 2 * given["k"])
ONE_FOLD_SHORT = TOLD.idea(
    "ONE_FOLD_SHORT", lambda given: given["n"] * 2 ** (given["k"] - 1)
)
BANDS_NOT_PIECES = TOLD.idea("BANDS_NOT_PIECES", bands)
POWER_SWAPPED = TOLD.idea("POWER_SWAPPED", lambda given: given["n"] ** given["k"])
PIECES_NOT_BANDS = TOLD.idea("PIECES_NOT_BANDS", lambda given: given["n"] * 2 ** given["k"])
MINUS_ONE_ONCE = TOLD.idea("MINUS_ONE_ONCE", lambda given: given["n"] * 2 ** given["k"] - 1)
LINES_NOT_BANDS = TOLD.idea("LINES_NOT_BANDS", lambda given: bands(given) - 1)
ROUNDED_DOWN = TOLD.idea("ROUNDED_DOWN", lambda given: fewest_folds(given) - 1)
LINEAR = TOLD.idea("LINEAR", lambda given: round(given["goal"] / (2 * given["n"])))
SUBTRACTED = TOLD.idea(
    "SUBTRACTED", lambda given: math.floor((given["goal"] - given["n"]) / 2 + 0.5)
)
BANDS = TOLD.idea("BANDS", bands)
FEWEST = TOLD.idea("FEWEST", fewest_folds)


LAYER_COUNT = TOLD.check(
    "LAYER_COUNT",
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
    working=working,
    other={"n": 6, "k": 3},
)


def _bands_working(given: Given) -> list[str]:
    n, k = int(given["n"]), int(given["k"])
    return [
        "after a hinge fold: bands = 2 × bands - 1, because like meets like",
        f"so bands = (pieces - 1) × 2^folds + 1 = ({n} - 1) × 2^{k} + 1",
        f"= {bands({'n': n, 'k': k}):,.0f}",
    ]


BAND_COUNT = TOLD.check(
    "BAND_COUNT",
    given={"n": 9, "k": 5},
    right=BANDS,
    slips=(PIECES_NOT_BANDS, MINUS_ONE_ONCE, LINES_NOT_BANDS),
    kind="count",
    working=_bands_working,
    other={"n": 5, "k": 3},
)


def _fewest_working(given: Given) -> list[str]:
    n, goal = int(given["n"]), int(given["goal"])
    folds = int(fewest_folds(given))
    counts = ", ".join(str(n * 2**fold) for fold in range(folds + 1))
    return [f"double {n} until it is {goal} or more", counts, f"that took {folds} folds"]


FEWEST_FOLDS = TOLD.check(
    "FEWEST_FOLDS",
    given={"n": 9, "goal": 300},
    right=FEWEST,
    slips=(ROUNDED_DOWN, LINEAR, SUBTRACTED),
    kind="count",
    working=_fewest_working,
    other={"n": 5, "goal": 70},
)
