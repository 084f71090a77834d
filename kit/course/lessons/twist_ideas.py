"""Ways of thinking about a twisted bar, right and wrong.

Given: d across and p the length for one turn, both in mm; q ground off, mm; L a length
of bar, mm. An angle is measured from the bar's length.
"""

from __future__ import annotations

import math

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
        f"= 2 pi × {h:.4g} / {p:g} = {first:.3f}",
    ]
    if (wide, long) != (1, 1):
        lines[0] = f"in the round bar {lines[0]}"
        later = f"{first:.3f} × {wide:.3g} / {long:g} = {first * wide / long:.3f}"
        words = f"since then {wide:.3g} times as wide there and {long:g} times as long"
        lines += [words, later]
    return [*lines, f"angle = {math.degrees(math.atan(first * wide / long)):.1f}°"]


def lines_working(given: Given) -> list[str]:
    """Work the lines in a turn out, for flat layers in a round bar.

    `given`: h, height above the axis in the round bar, mm; welds, how many lie lower.
    """
    h, welds = given["h"], given["welds"]
    return [
        "in one turn the middle crosses every weld nearer to the axis than itself twice",
        f"it lay {h:.3g} mm from the axis in the round bar: {welds:g} welds lie nearer",
        f"= 2 × {welds:g}",
    ]


_idea = ideas_of("04")


def _height(given: Given) -> float:
    return given["d"] / 2 - given.get("q", 0)


ANGLE = _idea(
    "RIGHT",
    "take the height above the axis, once round, over the length of a turn",
    lambda given: angle(_height(given), given["p"]),
    "",
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
    "expect the stars as soon as the skin is off",
    lambda _given: 0.0,
    "Stars are the end grain on the axis. Grind on and see when they come.",
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
    "",
)
ONE_PER_TURN = _idea(
    "ONE_PER_TURN",
    "count one star a turn",
    lambda given: math.floor(given["L"] / given["p"] + 0.5 + 1e-9),
    "In one turn the layers lie flat twice.",
    "04-tighten",
)
FOUR_PER_TURN = _idea(
    "FOUR_PER_TURN",
    "count a star every quarter turn",
    lambda given: math.floor(given["L"] / (given["p"] / 4) + 1e-9),
    "A quarter turn on, the layers stand on edge: that is between two stars.",
    "04-tighten",
)
