"""Ways of thinking in set H2 that the lessons do not ask about.

Given, for a twisted bar: d across, p for one turn, q ground off, stretch, a length of
its face: all in mm. For a bar drawn out: see `kit.course.lessons.draw_ideas`.
"""

from __future__ import annotations

import math
from dataclasses import replace

from kit.course.check import again
from kit.course.lesson import Given, ideas_of
from kit.course.lessons import draw_ideas as drawing
from kit.course.lessons import reading_ideas as reading
from kit.course.lessons import twist_ideas as twisting

_drawn, _twist = ideas_of("03"), ideas_of("04")


def _height(given: Given) -> float:
    return given["d"] / 2 - given.get("q", 0)


def _skin(given: Given) -> float:
    return twisting.angle(given["d"] / 2, given["p"])


def angle_working(given: Given) -> list[str]:
    """Work the angle out on a face, or on the skin where nothing is ground off."""
    h, p, off = _height(given), given["p"], given.get("q", 0)
    return [
        f"height above the axis = {given['d']:g} / 2 - {off:g} = {h:g} mm",
        f"tan(angle) = 2 pi × {h:g} / {p:g} = {2 * math.pi * h / p:.3f}",
        f"angle = {twisting.angle(h, p):.1f}°",
    ]


def spacings_working(given: Given) -> list[str]:
    """Work out how many star spacings fit."""
    length, p = given["stretch"], given["p"]
    return [
        "layers lie flat twice in a turn",
        f"from star to star: {p:g} / 2 = {p / 2:g} mm",
        f"{length:g} / {p / 2:g} = {2 * length / p:.3g}",
    ]


def turn_working(given: Given) -> list[str]:
    """Work out the turn for 45°."""
    across = given["d"]
    return [
        "at 45° once round is as long as one turn",
        f"once round = pi × {across:g} mm",
        f"= {math.pi * across:.3g} mm",
    ]


DOT_INVERTED = _drawn(
    "DOT_INVERTED",
    "divide height by length",
    lambda given: drawing.thinner(given) / drawing.longer(given),
    "Is the dot longer than high, or higher than long?",
)
SIN_FOR_TAN = _twist(
    "SIN_FOR_TAN",
    "use the sine for the tangent",
    lambda given: math.degrees(math.asin(2 * math.pi * _height(given) / given["p"])),
    "Unroll the skin: which two sides of the triangle do you know?",
)
RADIANS = _twist(
    "RADIANS",
    "leave the calculator on radians",
    lambda given: math.radians(twisting.ANGLE.value(given)),
    "Set it to degrees and press the same keys.",
)
# Lesson 11 asks the same of a face that is read; here bar and turn are known.
DEPTH_NOT_HEIGHT = again(
    reading.DEPTH_FOR_HEIGHT, lambda given: twisting.angle(given["q"], given["p"])
)
SAME_LEAN = replace(twisting.SAME, code="SAME_LEAN")
LINEAR = again(
    reading.IN_PROPORTION,
    lambda given: _skin(given) * (1 - given["q"] / (given["d"] / 2)),
)
SPACINGS = again(twisting.STARS, lambda given: 2 * given["stretch"] / given["p"])
ONE_PER_TURN = again(twisting.ONE_PER_TURN, lambda given: given["stretch"] / given["p"])
FOUR_PER_TURN = again(
    twisting.FOUR_PER_TURN, lambda given: 4 * given["stretch"] / given["p"]
)
TURN = _twist(
    "RIGHT", "make one turn as long as once round", lambda g: math.pi * g["d"], ""
)
TURN_RADIUS = _twist(
    "RADIUS",
    "take the radius for the diameter",
    lambda given: math.pi * given["d"] / 2,
    "Lay a string once round the bar. How many diameters long is it?",
)
TWO_PI_D = _twist(
    "TWO_PI_D",
    "take two pi for the diameter, where it goes with the radius",
    lambda given: 2 * math.pi * given["d"],
    "Once round is two pi times the radius. What is that in diameters?",
)
TURN_NO_PI = again(twisting.NO_PI, lambda given: given["d"])
