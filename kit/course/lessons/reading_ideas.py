"""Ways of reading a twisted face backwards, right and wrong; and the checks.

Given: s from star to star on the face, mm; a the lean of the lines on its middle line,
degrees; q ground off since, mm.
"""

import math

from kit.basics.units import in_three
from kit.course.check import Check
from kit.course.lesson import Given, ideas_of
from kit.course.lessons.twist_ideas import angle

_idea = ideas_of("11")


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


TURN = _idea("RIGHT", "count two stars a turn", lambda given: 2 * given["s"])
STAR_IS_TURN = _idea(
    "STAR_IS_TURN",
    "take the way from star to star for a whole turn",
    lambda given: given["s"],
    "How often in one turn do the layers lie as they lay at first?",
)
QUARTER_TURN = _idea(
    "QUARTER_TURN",
    "think a star comes every quarter turn",
    lambda given: 4 * given["s"],
    "A quarter turn on, the layers stand on edge. Is that the same star?",
)
CANNOT_TELL = _idea(
    "CANNOT_TELL",
    "think a face says nothing of how it was made",
    lambda _given: 0.0,
    "Some things it does not say. Which does it repeat, with every turn?",
)
HEIGHT = _idea(
    "RIGHT",
    "take the turn from the stars and the height from the lean",
    lambda given: height(given["s"], given["a"]),
)
HEIGHT_HALF = _idea(
    "HEIGHT_HALF",
    "take the way from star to star for a whole turn",
    lambda given: height(given["s"], given["a"], turn=1),
    "Two stars make one turn. Which length belongs under the height?",
)
HEIGHT_NO_PI = _idea(
    "HEIGHT_NO_PI",
    "leave out 2 pi",
    lambda given: 2 * math.pi * height(given["s"], given["a"]),
    "How far is it once round at that height?",
)
HEIGHT_COMPLEMENT = _idea(
    "HEIGHT_COMPLEMENT",
    "measure the angle from across the bar",
    lambda given: height(given["s"], 90 - given["a"]),
    "The angle here is measured from the bar's length.",
)
DEEPER = _idea(
    "RIGHT",
    "go back to the height, and down from there",
    lambda given: angle(height(given["s"], given["a"]) - given["q"], 2 * given["s"]),
)
SAME_LEAN = _idea(
    "SAME_LEAN",
    "think the lines go straight down as they lie",
    lambda given: given["a"],
    "Nearer to the axis, did the steel move as far round?",
)
IN_PROPORTION = _idea(
    "IN_PROPORTION",
    "let the angle shrink as the height does",
    lambda given: given["a"] * (1 - given["q"] / height(given["s"], given["a"])),
    "It is the tangent of the angle that goes with the height.",
)
DEPTH_FOR_HEIGHT = _idea(
    "DEPTH_FOR_HEIGHT",
    "put what was ground off where the height belongs",
    lambda given: angle(given["q"], 2 * given["s"]),
    "The height is counted from the axis up, not from the face down.",
)
ONE_SHADE = _idea("RIGHT", "take stars of one shade, a whole turn apart", lambda g: g["s"])
EVERY_STAR = _idea(
    "EVERY_STAR",
    "double it, as if every star had been counted",
    lambda given: 2 * given["s"],
    "In an even stack, off its axis, is the next star of the same shade?",
)
HALF_SHADE = _idea(
    "HALF_SHADE",
    "halve it",
    lambda given: given["s"] / 2,
    "From one bright star to the next bright one: how far was the bar turned?",
)

HEIGHT_CHECK = Check(
    ask=(
        "On another face stars stand 18 mm apart and the lines between lean 42°. How high "
        "above the axis does the face lie?"
    ),
    given={"s": 18.0, "a": 42.0},
    right=HEIGHT,
    slips=(HEIGHT_HALF, HEIGHT_NO_PI, HEIGHT_COMPLEMENT),
    kind="length",
    prompt="What is one turn there? And what is once round at the height you look for?",
    working=height_working,
    other={"s": 25.0, "a": 30.0},
    tips=(
        "Set the ruler to 18 mm and the protractor to 42° above and read the numbers.",
        "Draw a triangle: once round is as high as 36 mm are long, times tan 42°.",
        "tan(angle) = 2 pi × height / turn. An answer within 2 % counts.",
    ),
)

DEEPER_CHECK = Check(
    ask=(
        "The face on the bench, stars 22 mm apart and 38°, is ground 1.5 mm deeper. At "
        "what angle are its lines then?"
    ),
    given={"s": 22.0, "a": 38.0, "q": 1.5},
    right=DEEPER,
    slips=(SAME_LEAN, IN_PROPORTION, DEPTH_FOR_HEIGHT),
    kind="angle",
    prompt="How high above the axis did it lie before, and how high does it lie now?",
    working=deeper_working,
    other={"s": 30.0, "a": 45.0, "q": 2.0},
    tips=(
        "Grind both deeper above, by 1.5 mm, and lay the protractor on the lines.",
        "Grind 1.5 mm deeper; use a protractor on the middle line between two stars.",
        "First the height, then less 1.5 mm, then the angle again.",
    ),
)

SHADE_CHECK = Check(
    ask=(
        "A bar was stacked from an even number of layers and ground to a little off its "
        "axis. Its bright stars stand 60 mm apart, a dark one midway between. How long is "
        "one turn?"
    ),
    given={"s": 60.0},
    right=ONE_SHADE,
    slips=(EVERY_STAR, HALF_SHADE),
    kind="length",
    prompt="How many stars, of either shade, are there in one turn?",
    working=shade_working,
    other={"s": 35.0},
    tips=(
        "Lesson 04 has an even stack: set it, grind to just off the axis, and look.",
        "In lesson 04 count every star against the scale, whatever its shade.",
        "Two stars a turn, of either shade.",
    ),
)
