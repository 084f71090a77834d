"""Ways of thinking about how deep a pattern goes, right and wrong.

Given, in mm: `skin` of the engraving, `ground` off a bar, `thick` of the forged one.
The number of an idea says which face still shows a pattern: `FORGED`, `ENGRAVED` or their
sum.
"""

import math

from kit.basics.units import in_three
from kit.course.check import Check
from kit.course.lesson import Given, Reason, ideas_of

NEITHER, ENGRAVED, FORGED = range(3)
SHOWN = {
    FORGED + ENGRAVED: "both",
    FORGED: "the forged one",
    ENGRAVED: "the engraved one",
    NEITHER: "neither",
}

_idea = ideas_of("06")


def _left(given: Given) -> float:
    forged, engraved = given["ground"] < given["thick"], given["ground"] < given["skin"]
    return FORGED * forged + ENGRAVED * engraved


THROUGH = _idea("RIGHT", "ask how deep each pattern goes", _left)
ALL_SKIN = _idea(
    "ALL_SKIN",
    "take every pattern for a skin that the etch put on",
    lambda _given: NEITHER,
    "Look at the sides of the forged bar: what do you see there, and how deep does it go?",
)
STAYS = _idea(
    "STAYS",
    "take etching again for something that brings any pattern back",
    lambda _given: FORGED + ENGRAVED,
    "An etch bites two steels unlike. How many steels are left in the engraved bar's face?",
)
CUT_IN = _idea(
    "CUT_IN",
    "think a pattern that was cut in goes deeper than one that was hammered",
    lambda _given: ENGRAVED,
    "An engraving ends where its tool stopped. Where do the layers end?",
)

REASONS = (
    Reason(
        "The layers go all the way through; the engraving was thinner than was ground off.",
        True,
        "Yes. Below a forged face lies more of the same bar; below an engraved one, plain "
        "steel.",
    ),
    Reason(
        "The etch goes deeper into forged steel.",
        False,
        "Both were ground bright, and what the first etch did went with it. The second bit "
        "two steels in one bar, and one in the other.",
    ),
    Reason(
        "Forged steel is harder, so the grinder takes less of it.",
        False,
        "The same was taken off both: hard steel takes longer to grind, not less of it.",
    ),
)


def _cleanings(given: Given) -> float:
    return math.ceil(given["skin"] / given["ground"])


CLEANINGS = _idea("RIGHT", "take away until nothing is left", _cleanings)
SOME_LEFT = _idea(
    "SOME_LEFT",
    "stop while a little of the skin is left",
    lambda given: _cleanings(given) - 1,
    "How much of it is left after so many? Is that none?",
)
FIRST_COUNTED = _idea(
    "FIRST_COUNTED",
    "count the new blade as cleaned once",
    lambda given: _cleanings(given) + 1,
    "Before the first cleaning the skin is whole. Take away from there.",
)
POINT_MOVED = _idea(
    "POINT_MOVED",
    "move the decimal point of one of the two by one place",
    lambda given: math.ceil(10 * given["skin"] / given["ground"]),
    "Write both with as many decimals, one below the other.",
)


def _below(given: Given) -> float:
    return given["thick"] - given["ground"]


LEFT = _idea("RIGHT", "take the ground off the bar", _below)
SKIN = _idea(
    "SKIN",
    "take a forged pattern for as deep as an engraved one",
    lambda given: given["skin"],
    "An engraving is so deep. How far down do the layers of a forged bar go?",
)
BOTH_FACES = _idea(
    "BOTH_FACES",
    "grind as much off the other face too",
    lambda given: given["thick"] - 2 * given["ground"],
    "One face was ground. What became of the other?",
)
AS_GROUND = _idea(
    "AS_GROUND",
    "give what is gone, not what is left",
    lambda given: given["ground"],
    "That much lies on the floor. How much is still in the bar?",
)


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


HOW_OFTEN = Check(
    ask=(
        "Say an engraving is 0.05 mm deep, and each cleaning takes 0.02 mm off. After how "
        "many cleanings is none of it left?"
    ),
    given={"skin": 0.05, "ground": 0.02},
    right=CLEANINGS,
    slips=(SOME_LEFT, FIRST_COUNTED, POINT_MOVED),
    kind="count",
    prompt="How much is left after the first cleaning, and after the next?",
    working=_cleanings_working,
    other={"skin": 0.07, "ground": 0.015},
    tips=(
        "Set 0.02 mm ground away in the picture above, then 0.04 mm, until it is gone.",
        "Draw the skin as a strip 50 mm high and cut 20 mm off it, again and again.",
        "The skin over what a cleaning takes, rounded up.",
    ),
)

WHAT_IS_LEFT = Check(
    ask=(
        "A forged bar is 5 mm thick, an engraved one too; the engraving is 0.05 mm deep. "
        "0.5 mm is ground off one face of both. How much of its pattern has the forged one "
        "left below that face?"
    ),
    given={"skin": 0.05, "ground": 0.5, "thick": 5.0},
    right=LEFT,
    slips=(SKIN, BOTH_FACES, AS_GROUND),
    kind="length",
    prompt="How far down do the layers of the forged bar go?",
    working=_left_working,
    other={"skin": 0.05, "ground": 0.3, "thick": 4.0},
    tips=(
        "Set 0.5 mm ground away in the picture above: how much of that bar is left?",
        "Draw the bar from its side, 50 mm high for 5 mm, and cut 5 mm off its top.",
        "What the bar was, less what was ground off it.",
    ),
)
