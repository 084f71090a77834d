"""What lesson 04 asks: the prediction, the checks, and the move that answers."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

from kit.course.check import Check
from kit.course.lesson import Given, Question, Reason
from kit.course.lessons import twist
from kit.course.lessons.twist_drawing import from_above
from kit.course.lessons.twist_ideas import (
    ANGLE,
    COMPLEMENT,
    DIAMETER_FOR_RADIUS,
    FOUR_PER_TURN,
    NO_PI,
    ONE_PER_TURN,
    RADIUS_FOR_DIAMETER,
    SAME,
    STARS,
    STARS_ALREADY,
    STEEPER,
    angle,
)
from kit.metal import etch
from kit.section.picture import Sheet
from kit.section.trace import see

if TYPE_CHECKING:
    from PIL import Image

ASKED: dict[str, Any] = {
    "across": 16.0,
    "layer": 0.5,
    "stack": 0,
    "turn": 50.0,
    "hand": 0,
    "drawn": 1.0,
    "neighbour": 0,
}
TILE = (200, 150)


def tile(lean: float) -> tuple[Image.Image, str]:
    """Draw the face that somebody with this idea of the lines' angle expects.

    The kit's own bar, ground at the height, and twisted by the turn, at which lines
    lean so.
    """
    turn = ASKED["turn"]
    height = math.tan(math.radians(lean)) * turn / (2 * math.pi)
    if height > ASKED["across"] / 2 + 1e-6:  # steeper than its skin: a tighter twist
        turn, height = turn / 2, ASKED["across"] / 2
    billet = twist.forged(**{**ASKED, "turn": turn})
    above = from_above(billet, height, *TILE, pixel=50 / TILE[0])
    sheet = Sheet(*TILE)
    sheet.steel(see(billet, above, etch.tones(billet.source.steels)), (0, 0))
    words = "rows of stars" if lean == 0 else f"lines leaning {lean:.0f} degrees"
    return sheet.image, f"A long face ground on a twisted bar, with {words}."


def question() -> Question:
    """Ask for the face of a 16 mm bar, one turn in 50 mm, ground to half its radius."""
    return Question(
        ask=(
            "A round bar, 16 mm across, is twisted one turn in 50 mm. At the skin its "
            "lines lean 45° to the bar. Now 4 mm is ground off, half-way to the middle. "
            "Which face do you expect?"
        ),
        given={"d": 16.0, "p": 50.0, "q": 4.0},
        tiles=(SAME, STEEPER, STARS_ALREADY, ANGLE),
        right=ANGLE,
        show=lambda lean: "stars" if lean == 0 else f"lines at {lean:.1f}°",
        draw=tile,
        observed="Half-way in, the lines lean only 26.7°, and they hook at the edges.",
        reasons=(
            Reason(
                "Nearer the middle the steel moved less for the same turn.",
                True,
                "Yes. At half the height, once round is half as far in the same turn.",
            ),
            Reason(
                "Grinding pushed the lines flat.",
                False,
                "Grinding moves nothing; it shows what lay below.",
            ),
            Reason(
                "The bar is twisted less inside than outside.",
                False,
                "Look at the slices: skin and core turn by the same angle.",
            ),
        ),
    )


# The move that answers the question: the wheel goes down half-way to the axis.
FILM = [{**ASKED, "ground": 2 - 2 * math.cos(math.pi * frame / 13)} for frame in range(14)]


def _skin_working(given: Given) -> list[str]:
    d, p = given["d"], given["p"]
    q = given.get("q", 0)
    h = d / 2 - q
    return [
        f"height above the axis = {d:g} / 2 - {q:g} = {h:g} mm",
        f"tan(angle) = 2 pi × {h:g} / {p:g}",
        f"angle = {angle(h, p):.1f}°",
    ]


SKIN_ANGLE = Check(
    ask="A round bar, 20 mm across, one turn in 80 mm. At what angle are its skin's lines?",
    given={"d": 20.0, "p": 80.0},
    right=ANGLE,
    slips=(RADIUS_FOR_DIAMETER, DIAMETER_FOR_RADIUS, COMPLEMENT, NO_PI),
    kind="angle",
    prompt="Unroll the skin: a rectangle, one turn long and once round high.",
    working=_skin_working,
    other={"d": 12.0, "p": 60.0},
    tips=(
        "Set 20 mm and 80 mm in the picture above, grind nothing off, and choose.",
        "Roll paper round a 20 mm dowel, draw the line, unroll it and use a protractor.",
        "Once round over one turn is the tangent. Half a degree is near enough.",
    ),
)

GROUND_ANGLE = Check(
    ask="The same bar, after 5 mm has been ground off?",
    given={"d": 20.0, "p": 80.0, "q": 5.0},
    right=ANGLE,
    slips=(SAME, COMPLEMENT, NO_PI),  # twice the height gives 38.1°, too: as SAME
    kind="angle",
    prompt="How high above the axis is the face now?",
    working=_skin_working,
    other={"d": 12.0, "p": 60.0, "q": 2.0},
    tips=(
        "Set 20 mm, 80 mm and 5 mm off, and choose.",
        "Read it off the middle line of the face with a protractor.",
        "Start from the height above the axis.",
    ),
)


def _stars_working(given: Given) -> list[str]:
    length, p = given["L"], given["p"]
    return [
        f"one star every half turn: every {p / 2:g} mm",
        f"{length:g} / {p / 2:g}",
        f"= {STARS.value(given):g}",
    ]


STAR_COUNT = Check(
    ask="That bar is ground to its axis. How many stars are there in 200 mm?",
    given={"L": 200.0, "p": 80.0},
    right=STARS,
    slips=(ONE_PER_TURN, FOUR_PER_TURN),
    kind="count",
    prompt="How often in one turn do the layers lie flat?",
    working=_stars_working,
    other={"L": 150.0, "p": 50.0},
    tips=(
        "Set 20 mm and 80 mm, grind to the axis, and choose.",
        "Count stars on the face against its scale bar.",
        "Stars come twice a turn.",
    ),
)
