"""What lesson 09 asks: the prediction, the checks, and the move that answers."""

from __future__ import annotations

from typing import TYPE_CHECKING

from kit.course.check import Check
from kit.course.lesson import Question, Reason
from kit.course.lessons.etching import Job, far_tile
from kit.course.lessons.eye_ideas import (
    ALL,
    ARM,
    FAR,
    FARTHEST,
    NONE,
    ONLY_WIDE,
    SHARE_OF_90,
    STEEP_COMPLEMENT,
    STEEPEST,
    THE_BEVEL,
    TWO,
    UPSIDE_DOWN,
    farthest_working,
    steepest_working,
)
from kit.metal.eye import EYE

if TYPE_CHECKING:
    from PIL import Image

WORDS = {0: "none", 1: "only 2.0 mm", 2: "0.8 and 2.0 mm", 3: "all three"}


def tile(still: float) -> tuple[Image.Image, str]:
    """Draw what somebody expects of the three blades from afar."""
    words = WORDS[round(still)]
    return far_tile(round(still)).image, f"Three faces from afar; still patterned: {words}."


def question() -> Question:
    """Ask which of three patterns can be seen from across the room."""
    return Question(
        ask=(
            "Three blades, etched alike, with bands 0.3, 0.8 and 2.0 mm wide. Priya stands "
            "3 m away. On which of them does she still see a pattern?"
        ),
        given={"distance": FAR},
        tiles=(NONE, ONLY_WIDE, TWO, ALL),
        right=ONLY_WIDE,
        show=lambda still: WORDS[round(still)],
        draw=tile,
        observed=(
            "Only on the one with bands of 2.0 mm. From 3 m the eye splits 0.87 mm; finer "
            "bands run together to an even grey."
        ),
        reasons=(
            Reason(
                "The eye averages what it can not split: one arc-minute.",
                True,
                "Yes. That is 0.087 mm at 300 mm and ten times as much at ten times the "
                "distance. The steel has not changed.",
            ),
            Reason(
                "The etch is too weak to be seen from afar.",
                False,
                "Etch longer, in the stronger bath. Do the 0.8 mm bands come back?",
            ),
            Reason(
                "There is less light at 3 m.",
                False,
                "The lamp lights the blade, not the way to it. Step nearer: the same lamp.",
            ),
        ),
    )


# The move that answers the question: step back.
FILM = [
    {**Job().model_dump(), "distance": float(round(300 + 2700 * step / 14, -1))}
    for step in range(15)
]

FINE = {"layer": 4.0 / 320, "limit": EYE.finest(300)}
COARSE = {"layer": 4.0 / 80, "limit": EYE.finest(300)}

STEEP = Check(
    ask=(
        "320 layers in a blade 4.0 mm thick, seen from 300 mm, where a good eye splits "
        "0.0873 mm. What is the steepest cut, in degrees to the layers, that still shows "
        "them?"
    ),
    given=FINE,
    right=STEEPEST,
    slips=(THE_BEVEL, STEEP_COMPLEMENT, SHARE_OF_90),
    kind="angle",
    prompt="How thick is a layer, and how wide must the cut make it?",
    working=steepest_working,
    other=COARSE,
    tips=(
        "In lesson 01 a cut at 8° spreads seven times. Is that enough here? Then choose.",
        "Half a degree is near enough.",
        "layer / sin(angle) = 0.0873 mm. Half a degree is near enough.",
    ),
)
WALK = Check(
    ask="Bands of 0.8 mm: from how far away does a good eye still see them?",
    given={"band": 0.8},
    right=FARTHEST,
    slips=(UPSIDE_DOWN, ARM),
    kind="length",
    prompt="0.087 mm is the limit at 300 mm. How many times as wide are these?",
    working=farthest_working,
    other={"band": 0.5},
    tips=(
        "Step back in the picture until 0.8 mm is no longer among the bands seen.",
        "Do the same and read the distance. 5 % is near enough.",
        "distance = band / tan(1/60°). 2 % is near enough. You may answer in m.",
    ),
)
