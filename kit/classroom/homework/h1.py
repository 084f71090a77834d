"""Homework H1: counting and cutting, after lessons 01 and 02.

Given: n pieces, k folds, T, the thickness of the forged bar in mm.
"""

from kit.basics.units import in_three
from kit.classroom.homework.designs import BANDS
from kit.classroom.homework.judged import SELLERS
from kit.classroom.homework.paper import Homework
from kit.classroom.homework.tasks import Carry, Part
from kit.course.lesson import Given, ideas_of
from kit.course.lessons import cut as cutting
from kit.course.lessons import fold_ideas as folding

_idea = ideas_of("02")


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


LAYER = _idea("RIGHT", "share the bar out among its layers", layer)
UNIT_MM = _idea(
    "UNIT_MM",
    "give millimetres where micrometres are asked for",
    lambda given: layer(given) / 1000,
    "How many micrometres are there in a millimetre?",
)
USED_N0 = _idea(
    "USED_N0",
    "share the bar out among the pieces of the first stack",
    lambda given: 1000 * given["T"] / given["n"],
    "How many layers does the bar have when the folding is done?",
)
USED_BANDS = _idea(
    "USED_BANDS",
    "share the bar out among the bands that can be seen",
    lambda given: 1000 * given["T"] / folding.bands(given),
    "Some bands are two pieces thick. Which count is asked for?",
)
MULTIPLIED = _idea(
    "BAR_MULTIPLIED",
    "multiply the bar by its layers",
    lambda given: given["T"] * folding.LAYERS.value(given),
    "Is a layer thicker or thinner than the bar it lies in?",
)
FOLDS_ASKED = _idea(
    "RIGHT", "count doublings until the goal is reached", folding.fewest_folds
)
BANDS_ASKED = _idea("RIGHT", "count one band for two like faces", folding.bands)
# Of our own, for worked examples: mm, °.
OTHER = {"n": 5.0, "k": 4.0, "T": 3.0, "goal": 70.0, "t": 6.0, "a": 15.0}


def _own_layers(given: Given, own: float) -> Given:
    """Take the layers of part 1 as the student has them: as if from other pieces."""
    return {**given, "n": own / 2 ** given["k"]}


PARTS = (
    Part(
        number=1,
        question=(
            "A stack of {n} pieces is folded {k} times, each time doubled over on "
            "itself. The trade counts layers in pieces of steel. How many has it then?"
        ),
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
        prompt="What happens to all the layers there are, each time the bar is folded?",
        shows="an end with {} layers",
        working=folding.working,
        other=OTHER,
    ),
    Part(
        number=2,
        question=(
            "In that stack the two steels lay in turn. Where it is doubled over, like "
            "meets like and looks like one. How many bands can be seen on its end?"
        ),
        kind="count",
        right=BANDS_ASKED,
        slips=(folding.PIECES_NOT_BANDS, folding.MINUS_ONE_ONCE, folding.LINES_NOT_BANDS),
        prompt="At how many places does like lie on like when the last fold is done?",
        shows="an end with {} bands",
        working=bands_working,
        other=OTHER,
        carry=Carry(1, _own_layers),
    ),
    Part(
        number=3,
        question=(
            "The billet is forged to a bar {T:mm} thick. How thick is a layer on "
            "average, counted in pieces, in micrometres (µm)? You may write another "
            "unit behind the number."
        ),
        kind="microns",
        right=LAYER,
        slips=(UNIT_MM, USED_N0, USED_BANDS, MULTIPLIED),
        prompt="Among how many layers is the thickness of the bar shared out?",
        shows="layers of {}",
        working=layer_working,
        other=OTHER,
        carry=Carry(1, _own_layers),
    ),
    Part(
        number=4,
        question=(
            "From {n} pieces at least {goal} layers are wanted. What is the smallest "
            "number of folds?"
        ),
        kind="count",
        right=FOLDS_ASKED,
        slips=(folding.ROUNDED_DOWN, folding.LINEAR, folding.SUBTRACTED),
        prompt="Say the count after each fold aloud. When is it enough for the first time?",
        shows="{} folds",
        working=folds_working,
        other=OTHER,
    ),
    Part(
        number=5,
        question=(
            "Layers {t:mm} thick are cut at {a}° to the layers. How wide is a band on "
            "the cut?"
        ),
        kind="length",
        right=cutting.SPREAD,
        slips=(
            cutting.TAN_FOR_SIN,
            cutting.COS_FOR_SIN,
            cutting.MULTIPLIED,
            cutting.NO_CHANGE,
            cutting.RADIANS,
        ),
        prompt="How far must the saw travel through one layer if it goes in on a slant?",
        shows="a cut with bands {} wide",
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
