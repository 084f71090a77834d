"""Ways of thinking about a spine that is looked at, right and wrong; and two checks.

Given, in mm: `layer`, as thick as a line of the spine; `far` and `near`, from where it is
looked at. A prediction says which spines show lines: `A`, `C` or their sum. Or `layers` of
a spine `thick`; or how many blades show lines, `lined`, and how many none, `bare`.
"""

from kit.basics.units import format_away, rounded
from kit.course.lesson import Given
from kit.course.worded import Worded
from kit.metal.eye import EYE

_, A, C = range(3)  # the sum is both
# Without letters: the tiles have their own.
SHOWN = {A + C: "both", A: "the polished one", C: "the fine one", 0: "neither"}

TOLD = Worded(__file__, "11")


def shown(lined: float) -> tuple[bool, bool]:
    """Say of A and of C whether a prediction has lines on it."""
    return bool(round(lined) & A), bool(round(lined) & C)


def _resolved(given: Given, distance: str) -> int:
    return C * (EYE.finest(given[distance]) <= given["layer"])


NEAR_ENOUGH = TOLD.idea("NEAR_ENOUGH", lambda given: _resolved(given, "near"))
BOTH = TOLD.idea("BOTH", lambda given: A + _resolved(given, "near"))
NEITHER = TOLD.idea("NEITHER", lambda given: _resolved(given, "far"))
WIDE_LINES = TOLD.idea("WIDE_LINES", lambda _given: A)


def _layer(given: Given) -> float:
    return given["thick"] / given["layers"]


def _nearest(given: Given) -> float:
    return EYE.farthest(_layer(given))


NEAREST = TOLD.idea("NEAREST", _nearest)
WHOLE_SPINE = TOLD.idea("WHOLE_SPINE", lambda given: EYE.farthest(given["thick"]))
TWO_LAYERS = TOLD.idea("TWO_LAYERS", lambda given: EYE.farthest(2 * _layer(given)))
HALF_THE_LAYERS = TOLD.idea(
    "HALF_THE_LAYERS", lambda given: EYE.farthest(_layer(given) / 2)
)


def _nearest_working(given: Given) -> list[str]:
    thick, layers, layer = given["thick"], given["layers"], _layer(given)
    return [
        f"a layer is {thick:g} mm / {layers:g} = {layer:g} mm thick",
        "one arc-minute is 0.087 mm at 300 mm, and grows with the distance",
        f"distance = 300 mm × {layer:g} mm / 0.08727 mm",
        f"= {rounded(_nearest(given))} mm = {format_away(_nearest(given))}",
    ]


def _pairs(given: Given) -> float:
    return given["lined"] * given["bare"]


def _of(count: float) -> float:
    return count * (count - 1) / 2


PAIRS = TOLD.idea("PAIRS", _pairs)
ALL_PAIRS = TOLD.idea("ALL_PAIRS", lambda given: _of(given["lined"] + given["bare"]))
ALIKE = TOLD.idea("ALIKE", lambda given: _of(given["lined"]) + _of(given["bare"]))
BLADES = TOLD.idea("BLADES", lambda given: given["lined"] + given["bare"])
ONE_EACH = TOLD.idea("ONE_EACH", lambda given: min(given["lined"], given["bare"]))


def _pairs_working(given: Given) -> list[str]:
    lined, bare = int(given["lined"]), int(given["bare"])
    return [
        "told apart is each blade with lines from each without",
        f"= {lined} × {bare}",
        f"= {lined * bare}",
    ]


HOW_NEAR = TOLD.check(
    "HOW_NEAR",
    given={"thick": 4.0, "layers": 50.0},
    right=NEAREST,
    slips=(WHOLE_SPINE, TWO_LAYERS, HALF_THE_LAYERS),
    kind="length, away",
    working=_nearest_working,
    other={"thick": 5.0, "layers": 40.0},
)

HOW_MANY_PAIRS = TOLD.check(
    "HOW_MANY_PAIRS",
    given={"lined": 3.0, "bare": 2.0},
    right=PAIRS,
    slips=(ALL_PAIRS, ALIKE, BLADES, ONE_EACH),
    kind="count",
    working=_pairs_working,
    other={"lined": 4.0, "bare": 3.0},
)
