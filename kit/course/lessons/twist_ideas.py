"""Ways of thinking about a twisted bar, right and wrong, and the checks of lesson 04.

Given: d across and p the length for one turn, both in mm; q ground off, mm; L a length
of bar, mm. An angle is measured from the bar's length.
"""

import math

from kit.basics.units import in_three
from kit.course.check import Check
from kit.course.lesson import Given, ideas_of


def angle(height: float, turn: float) -> float:
    """Give the angle of a line at a height above the axis, degrees: tan = 2 pi h / p."""
    return math.degrees(math.atan(2 * math.pi * height / turn))


def angle_working(given: Given) -> list[str]:
    """Work the line angle out.

    `given`: h, height above the axis in the round bar, mm; p, length of a turn there, mm;
    wide and long, how many times as wide and as long its middle line became later.
    """
    h, p, wide, long = (given[key] for key in ("h", "p", "wide", "long"))
    first = 2 * math.pi * h / p
    lines = [
        "tan(angle) = 2 pi × height above the axis / length of a turn",
        f"= 2 pi × {h:.4g} mm / {p:g} mm = {first:.4f}",
    ]
    if (wide, long) != (1, 1):
        lines[0] = f"in the round bar {lines[0]}"
        later = f"{first:.4f} × {wide:.4g} / {long:g} = {first * wide / long:.3f}"
        words = (
            f"since then {in_three(wide)} times as wide there and {long:g} times as long"
        )
        lines += [words, later]
    return [*lines, f"angle = {math.degrees(math.atan(first * wide / long)):.1f}°"]


def lines_working(given: Given) -> list[str]:
    """Work the lines in a turn out, for flat layers in a round bar.

    `given`: h, height above the axis in the round bar, mm; welds, how many lie lower.
    """
    h, welds = given["h"], given["welds"]
    return [
        "in one turn the middle crosses every weld nearer to the axis than itself twice",
        (
            f"it lay {in_three(h)} mm from the axis in the round bar: "
            f"{welds:g} welds lie nearer"
        ),
        f"= 2 × {welds:g}",
    ]


_idea = ideas_of("04")


def _height(given: Given) -> float:
    return given["d"] / 2 - given.get("q", 0)


ANGLE = _idea(
    "RIGHT",
    "take the height above the axis, once round, over the length of a turn",
    lambda given: angle(_height(given), given["p"]),
)
SAME = _idea(
    "UNCHANGED",
    "look only at the skin and think the inside is the same",
    lambda given: angle(given["d"] / 2, given["p"]),
    "Near the axis, how far has the steel moved for the same turn?",
)
STEEPER = _idea(
    "STEEPER",
    "think the twist is tighter inside",
    lambda given: angle(given["d"] / 2, given["p"] / 2),
    "One turn is one turn at every depth. Which travels further round: skin or core?",
)
STARS_ALREADY = _idea(
    "STARS_ALREADY",
    "expect the stars to stand square as soon as the skin is off",
    lambda _given: 0.0,
    (
        "Below the skin they show already, but lean with the lines; square, in a row, "
        "they stand only on the axis. Grind on and see."
    ),
)
RADIUS_FOR_DIAMETER = _idea(
    "RADIUS_FOR_DIAMETER",
    "use half the radius",
    lambda given: angle(_height(given) / 2, given["p"]),
    "Once round at height h is 2 pi h. What did you take?",
)
DIAMETER_FOR_RADIUS = _idea(
    "DIAMETER_FOR_RADIUS",
    "use the diameter where the height above the axis belongs",
    lambda given: angle(2 * _height(given), given["p"]),
    "The height above the axis of a 20 mm bar's skin is not 20 mm.",
)
COMPLEMENT = _idea(
    "COMPLEMENT",
    "measure the angle from across the bar",
    lambda given: 90 - angle(_height(given), given["p"]),
    "The angle here is measured from the bar's length.",
)
NO_PI = _idea(
    "NO_PI",
    "leave out pi",
    lambda given: math.degrees(math.atan(2 * _height(given) / given["p"])),
    "How far is it once round?",
)
STARS = _idea(
    "RIGHT",
    "count one star every half turn",
    lambda given: math.floor(given["L"] / (given["p"] / 2) + 1e-9),
)
ONE_PER_TURN = _idea(
    "ONE_PER_TURN",
    "count one star a turn",
    lambda given: math.floor(given["L"] / given["p"] + 0.5 + 1e-9),
    "In one turn the layers lie flat twice.",
)
FOUR_PER_TURN = _idea(
    "FOUR_PER_TURN",
    "count a star every quarter turn",
    lambda given: math.floor(given["L"] / (given["p"] / 4) + 1e-9),
    "A quarter turn on, the layers stand on edge: that is between two stars.",
)


def _skin_working(given: Given) -> list[str]:
    d, p = given["d"], given["p"]
    q = given.get("q", 0)
    h = d / 2 - q
    return [
        f"height above the axis = {d:g} mm / 2 - {q:g} mm = {h:g} mm",
        f"tan(angle) = 2 pi × {h:g} mm / {p:g} mm",
        f"angle = {angle(h, p):.1f}°",
    ]


SKIN_ANGLE = Check(
    ask=(
        "A round bar 20 mm across is twisted, one turn in 80 mm. At what angle to the bar "
        "do the lines on its skin lie?"
    ),
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
        "Once round over one turn is the tangent. An answer within half a degree counts.",
    ),
)

GROUND_ANGLE = Check(
    ask=(
        "Now 5 mm is ground off that bar. At what angle to the bar do the lines lie on the "
        "middle of the new face?"
    ),
    given={"d": 20.0, "p": 80.0, "q": 5.0},
    right=ANGLE,
    slips=(SAME, COMPLEMENT, NO_PI),  # twice the height gives 38.1°, too: as SAME
    kind="angle",
    prompt="How high above the axis is the face now?",
    working=_skin_working,
    other={"d": 12.0, "p": 60.0, "q": 2.0},
    tips=(
        "Set 20 mm, 80 mm and 5 mm off, and choose.",
        "Set the same, and use a protractor on the middle line of the face.",
        "Start from the height above the axis.",
    ),
)


def _stars_working(given: Given) -> list[str]:
    length, p = given["L"], given["p"]
    return [
        f"one star every half turn: every {p / 2:g} mm",
        f"{length:g} mm / {p / 2:g} mm = {in_three(2 * length / p)}",
        f"whole stars: {STARS.value(given):g}",
    ]


STAR_COUNT = Check(
    ask=(
        "That bar is ground to its axis: its face shows stars. How many whole ones are "
        "there in 210 mm?"
    ),
    given={"L": 210.0, "p": 80.0},
    right=STARS,
    slips=(ONE_PER_TURN, FOUR_PER_TURN),
    kind="count",
    prompt="How often in one turn do the layers lie flat?",
    working=_stars_working,
    other={"L": 150.0, "p": 50.0},
    tips=(
        "Set 20 mm and 80 mm, grind to the axis, and choose.",
        "Set the same, and count stars on the face against its scale bar.",
        "Stars come twice a turn.",
    ),
)
