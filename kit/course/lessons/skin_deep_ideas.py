"""Ways of thinking about how deep a pattern goes, right and wrong.

Given, in mm: `skin` of the engraving, `ground` off a bar, `thick` of the forged one.
The number of an idea says which face still shows a pattern: `FORGED`, `ENGRAVED` or their
sum.
"""

import math

from kit.basics.units import in_three
from kit.course.lesson import Given
from kit.course.worded import Worded

NEITHER, ENGRAVED, FORGED = range(3)
SHOWN = {
    FORGED + ENGRAVED: "both",
    FORGED: "the forged one",
    ENGRAVED: "the engraved one",
    NEITHER: "neither",
}

TOLD = Worded(__file__, "06")


def _left(given: Given) -> float:
    forged, engraved = given["ground"] < given["thick"], given["ground"] < given["skin"]
    return FORGED * forged + ENGRAVED * engraved


THROUGH = TOLD.idea("THROUGH", _left)
ALL_SKIN = TOLD.idea("ALL_SKIN", lambda _given: NEITHER)
STAYS = TOLD.idea("STAYS", lambda _given: FORGED + ENGRAVED)
CUT_IN = TOLD.idea("CUT_IN", lambda _given: ENGRAVED)


def _cleanings(given: Given) -> float:
    return math.ceil(given["skin"] / given["ground"])


CLEANINGS = TOLD.idea("CLEANINGS", _cleanings)
SOME_LEFT = TOLD.idea("SOME_LEFT", lambda given: _cleanings(given) - 1)
FIRST_COUNTED = TOLD.idea("FIRST_COUNTED", lambda given: _cleanings(given) + 1)
POINT_MOVED = TOLD.idea(
    "POINT_MOVED", lambda given: math.ceil(10 * given["skin"] / given["ground"])
)


def _below(given: Given) -> float:
    return given["thick"] - given["ground"]


LEFT = TOLD.idea("LEFT", _below)
SKIN = TOLD.idea("SKIN", lambda given: given["skin"])
BOTH_FACES = TOLD.idea("BOTH_FACES", lambda given: given["thick"] - 2 * given["ground"])
AS_GROUND = TOLD.idea("AS_GROUND", lambda given: given["ground"])


def _cleanings_working(given: Given) -> list[str]:
    skin, ground, count = given["skin"], given["ground"], int(_cleanings(given))
    left = [f"{in_three(max(skin - at * ground, 0))} mm" for at in range(count + 1)]
    return ["left before the first, after the first …", ", ".join(left), f"= {count}"]


def _left_working(given: Given) -> list[str]:
    return [
        "layers go all the way through: left = bar - ground away",
        f"= {given['thick']:g} mm - {given['ground']:g} mm",
        f"= {_below(given):.2f} mm",
    ]


HOW_OFTEN = TOLD.check(
    "HOW_OFTEN",
    given={"skin": 0.05, "ground": 0.02},
    right=CLEANINGS,
    slips=(SOME_LEFT, FIRST_COUNTED, POINT_MOVED),
    kind="count",
    working=_cleanings_working,
    other={"skin": 0.07, "ground": 0.015},
)

WHAT_IS_LEFT = TOLD.check(
    "WHAT_IS_LEFT",
    given={"skin": 0.05, "ground": 0.5, "thick": 5.0},
    right=LEFT,
    slips=(SKIN, BOTH_FACES, AS_GROUND),
    kind="length",
    working=_left_working,
    other={"skin": 0.05, "ground": 0.3, "thick": 4.0},
)
