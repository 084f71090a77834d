"""Ways of reading a twisted face backwards, right and wrong; and the checks.

Given: s from star to star on the face, mm; a the lean of the lines on its middle line,
degrees; q ground off since, mm.
"""

import math

from kit.basics.units import in_three
from kit.course.lesson import Given
from kit.course.lessons.twist_ideas import angle
from kit.course.worded import Worded

TOLD = Worded(__file__, "11")


def height(spacing: float, lean: float, *, turn: float = 2.0) -> float:
    """Give how high above the axis a face lies, mm: tan = 2 pi h / p, turned round.

    Parameters
    ----------
    spacing : float
        From star to star, of either shade, mm.
    lean : float
        Of the lines on the middle line, degrees.
    turn : float
        Spacings in one turn.
    """
    return math.tan(math.radians(lean)) * turn * spacing / (2 * math.pi)


def turn_working(given: Given) -> list[str]:
    """Work the length of a turn out."""
    s = given["s"]
    return [
        "layers lie flat twice in a turn",
        f"= 2 × {s:.4g} mm",
        f"= {in_three(2 * s)} mm",
    ]


def height_working(given: Given) -> list[str]:
    """Work the height of the face out."""
    s, a = given["s"], given["a"]
    return [
        f"one turn = 2 × {s:g} mm = {2 * s:g} mm",
        "tan(angle) = 2 pi × height / turn, so height = turn × tan(angle) / 2 pi",
        f"= {2 * s:g} mm × {math.tan(math.radians(a)):.4f} / {2 * math.pi:.4f}",
        f"= {height(s, a):.2f} mm",
    ]


def deeper_working(given: Given) -> list[str]:
    """Work the lean out after more grinding."""
    s, a, q = given["s"], given["a"], given["q"]
    left = height(s, a) - q
    return [
        f"height before = {height(s, a):.2f} mm",
        f"height now = {height(s, a):.2f} mm - {q:g} mm = {left:.2f} mm",
        f"tan(angle) = 2 pi × {left:.2f} mm / {2 * s:g} mm",
        f"angle = {angle(left, 2 * s):.1f}°",
    ]


def shade_working(given: Given) -> list[str]:
    """Work a turn out from stars of one shade, in an even stack."""
    return [
        "in an even stack, a little off the axis, the next star has the other shade",
        "so two of one shade are two stars, one whole turn, apart",
        f"one turn = {given['s']:g} mm",
    ]


TURN = TOLD.idea("TURN", lambda given: 2 * given["s"])
STAR_IS_TURN = TOLD.idea("STAR_IS_TURN", lambda given: given["s"])
QUARTER_TURN = TOLD.idea("QUARTER_TURN", lambda given: 4 * given["s"])
CANNOT_TELL = TOLD.idea("CANNOT_TELL", lambda _given: 0.0)
HEIGHT = TOLD.idea("HEIGHT", lambda given: height(given["s"], given["a"]))
HEIGHT_HALF = TOLD.idea("HEIGHT_HALF", lambda given: height(given["s"], given["a"], turn=1))
HEIGHT_NO_PI = TOLD.idea(
    "HEIGHT_NO_PI", lambda given: 2 * math.pi * height(given["s"], given["a"])
)
HEIGHT_COMPLEMENT = TOLD.idea(
    "HEIGHT_COMPLEMENT", lambda given: height(given["s"], 90 - given["a"])
)
DEEPER = TOLD.idea(
    "DEEPER",
    lambda given: angle(height(given["s"], given["a"]) - given["q"], 2 * given["s"]),
)
SAME_LEAN = TOLD.idea("SAME_LEAN", lambda given: given["a"])
IN_PROPORTION = TOLD.idea(
    "IN_PROPORTION",
    lambda given: given["a"] * (1 - given["q"] / height(given["s"], given["a"])),
)
DEPTH_FOR_HEIGHT = TOLD.idea(
    "DEPTH_FOR_HEIGHT", lambda given: angle(given["q"], 2 * given["s"])
)
ONE_SHADE = TOLD.idea("ONE_SHADE", lambda g: g["s"])
EVERY_STAR = TOLD.idea("EVERY_STAR", lambda given: 2 * given["s"])
HALF_SHADE = TOLD.idea("HALF_SHADE", lambda given: given["s"] / 2)

HEIGHT_CHECK = TOLD.check(
    "HEIGHT_CHECK",
    given={"s": 18.0, "a": 42.0},
    right=HEIGHT,
    slips=(HEIGHT_HALF, HEIGHT_NO_PI, HEIGHT_COMPLEMENT),
    kind="length",
    working=height_working,
    other={"s": 25.0, "a": 30.0},
)

DEEPER_CHECK = TOLD.check(
    "DEEPER_CHECK",
    given={"s": 22.0, "a": 38.0, "q": 1.5},
    right=DEEPER,
    slips=(SAME_LEAN, IN_PROPORTION, DEPTH_FOR_HEIGHT),
    kind="angle",
    working=deeper_working,
    other={"s": 30.0, "a": 45.0, "q": 2.0},
)

SHADE_CHECK = TOLD.check(
    "SHADE_CHECK",
    given={"s": 56.0},
    right=ONE_SHADE,
    slips=(EVERY_STAR, HALF_SHADE),
    kind="length",
    working=shade_working,
    other={"s": 35.0},
)
