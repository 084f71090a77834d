"""Ways of thinking about how deep a pattern goes, right and wrong.

Given, in mm: `skin` of the engraving, `ground` off both bars, `thick` of the forged one.
The number of an idea says which face still shows a pattern: `FORGED`, `ENGRAVED` or their
sum.
"""

from __future__ import annotations

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


THROUGH = _idea("RIGHT", "ask how deep each pattern goes", _left, "")
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
