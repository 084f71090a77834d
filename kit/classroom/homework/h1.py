"""Homework H1: counting and cutting, after lessons 01 and 02.

Given: n pieces, k folds, T, the thickness of the forged bar in mm.
"""

from kit.basics.units import in_three
from kit.classroom.homework.designs import BANDS
from kit.classroom.homework.judged import SELLERS
from kit.classroom.homework.paper import Homework
from kit.classroom.homework.tasks import Carry, Told
from kit.course.lesson import Given
from kit.course.lessons import cut as cutting
from kit.course.lessons import fold_ideas as folding

TOLD = Told(__file__, "02")


def layer(given: Given) -> float:
    """Give the mean layer of the bar, counted in pieces, µm."""
    return 1000 * given["T"] / folding.LAYERS.value(given)


def bands_working(given: Given) -> list[str]:
    """Work the bands out: at every fold one pair of like faces becomes one band."""
    n, k = int(given["n"]), int(given["k"])
    welds = 2**k - 1
    return [
        f"pieces = {n} × 2^{k} = {n * 2**k:,}",
        f"places where like meets like: 1 + 2 + 4 … = 2^{k} - 1 = {welds:,}",
        f"bands = {n * 2**k:,} - {welds:,}",
        f"= {folding.bands(given):,.0f}",
    ]


def layer_working(given: Given) -> list[str]:
    """Work the mean layer out, in µm."""
    count = folding.LAYERS.value(given)
    return [
        "layer = thickness of the bar / layers",
        f"= {given['T']:g} mm × 1000 / {count:,.0f}",
        f"= {in_three(layer(given))} µm",
    ]


def folds_working(given: Given) -> list[str]:
    """Double until the goal is reached."""
    n, goal = int(given["n"]), int(given["goal"])
    counts = [n * 2**k for k in range(int(folding.fewest_folds(given)) + 1)]
    return [
        f"double {n} until there are at least {goal}",
        " → ".join(f"{count:,}" for count in counts),
        f"folds: {len(counts) - 1}",
    ]


LAYER = TOLD.idea("LAYER", layer)
UNIT_MM = TOLD.idea("UNIT_MM", lambda given: layer(given) / 1000)
USED_N0 = TOLD.idea("USED_N0", lambda given: 1000 * given["T"] / given["n"])
USED_BANDS = TOLD.idea("USED_BANDS", lambda given: 1000 * given["T"] / folding.bands(given))
MULTIPLIED = TOLD.idea("MULTIPLIED", lambda given: given["T"] * folding.LAYERS.value(given))
FOLDS_ASKED = TOLD.idea("FOLDS_ASKED", folding.fewest_folds)
BANDS_ASKED = TOLD.idea("BANDS_ASKED", folding.bands)
# Of our own, for worked examples: mm, °.
OTHER = {"n": 5.0, "k": 4.0, "T": 3.0, "goal": 70.0, "t": 6.0, "a": 15.0}


def _own_layers(given: Given, own: float) -> Given:
    """Take the layers of part 1 as the student has them: as if from other pieces."""
    return {**given, "n": own / 2 ** given["k"]}


PARTS = (
    TOLD.part(
        1,
        kind="count",
        right=folding.LAYERS,
        slips=(
            folding.FOLD_PLUS_N,
            folding.FOLD_PLUS_2N,
            folding.FOLD_ADDS,
            folding.FOLD_TIMES_2N,
            folding.ONE_FOLD_SHORT,
            folding.BANDS_NOT_PIECES,
            folding.POWER_SWAPPED,
        ),
        working=folding.working,
        other=OTHER,
    ),
    TOLD.part(
        2,
        kind="count",
        right=BANDS_ASKED,
        slips=(folding.PIECES_NOT_BANDS, folding.MINUS_ONE_ONCE, folding.LINES_NOT_BANDS),
        working=bands_working,
        other=OTHER,
        carry=Carry(1, _own_layers),
    ),
    TOLD.part(
        3,
        kind="microns",
        right=LAYER,
        slips=(UNIT_MM, USED_N0, USED_BANDS, MULTIPLIED),
        working=layer_working,
        other=OTHER,
        carry=Carry(1, _own_layers),
    ),
    TOLD.part(
        4,
        kind="count",
        right=FOLDS_ASKED,
        slips=(folding.ROUNDED_DOWN, folding.LINEAR, folding.SUBTRACTED),
        working=folds_working,
        other=OTHER,
    ),
    TOLD.part(
        5,
        kind="length",
        right=cutting.SPREAD,
        slips=(
            cutting.TAN_FOR_SIN,
            cutting.COS_FOR_SIN,
            cutting.MULTIPLIED,
            cutting.NO_CHANGE,
            cutting.RADIANS,
        ),
        working=cutting.working,
        other=OTHER,
        # sin(30 rad) is nearly -1, so both give the layer's own thickness
        joint=(frozenset(("RADIANS", "NO_CHANGE")),),
    ),
)

H1 = Homework(
    code="H1",
    title="Counting and cutting",
    lessons=("01", "02"),
    sizes={
        "n": (7, 9, 11, 13, 15, 17),
        "k": (5, 6, 7),
        "T": (3.5, 4.0, 4.5, 5.0, 6.0),
        "goal": (150, 200, 250, 300, 400, 500),
        "t": (1.5, 2.5, 3.0, 3.5, 4.0, 5.0),
        "a": (18, 22, 25, 30, 35, 50),
        "bar": (5.0, 6.0, 7.0, 8.0),
    },
    parts=PARTS,
    design=BANDS,
    judged=SELLERS,
)
