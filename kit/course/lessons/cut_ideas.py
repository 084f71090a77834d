"""Ways of working out a band width, right and wrong, and the checks of lesson 01.

Given: t, the layer's thickness in mm, and a, the cut's angle to the layers in degrees;
or times, how many times as wide as the layer a band is.
"""

import math

from kit.basics.units import in_three
from kit.course.check import Check
from kit.course.lesson import Given, ideas_of


def working(given: Given) -> list[str]:
    """Work the band width out, line by line, in mm."""
    t, a = given["t"], given["a"]
    sine = math.sin(math.radians(a))
    return [
        "band width = layer / sin(angle)",
        f"= {t:g} mm / sin({a:g}°)",
        f"= {t:g} mm / {sine:.4f}",
        f"= {in_three(t / sine)} mm",
    ]


def _sine(given: Given) -> float:
    return math.sin(math.radians(given["a"]))


_idea = ideas_of("01")

SPREAD = _idea(
    "RIGHT",
    "divide the layer by the sine of the angle",
    lambda given: given["t"] / _sine(given),
)
NO_CHANGE = _idea(
    "NO_CHANGE",
    "take the layer's own thickness, as if every cut were square",
    lambda given: given["t"],
    "How far must a saw travel to get through one layer, if it goes in on a slant?",
)
COS_FOR_SIN = _idea(
    "COS_FOR_SIN",
    "divide by the cosine of the angle instead of the sine",
    lambda given: given["t"] / math.cos(math.radians(given["a"])),
    (
        "That would leave the bands nearly unchanged for a flat cut. Try it on the "
        "slider: is it so? The angle is measured from the layers."
    ),
)
MULTIPLIED = _idea(
    "MULTIPLIED",
    "multiply by the sine instead of dividing",
    lambda given: given["t"] * _sine(given),
    "Could a band on a cut ever be narrower than the layer is thick?",
)
TAN_FOR_SIN = _idea(
    "TAN_FOR_SIN",
    "use tan for sin: that measures along the layers, not along the cut",
    lambda given: given["t"] / math.tan(math.radians(given["a"])),
    "Which side of the triangle does the saw run along?",
)
RADIANS = _idea(
    "RADIANS",
    "leave the calculator on radians",
    lambda given: given["t"] / abs(math.sin(given["a"])),
    "Set it to degrees and press the same keys.",
)
THRICE = _idea(
    "RIGHT",
    "take the angle whose sine is one third",
    lambda given: math.degrees(math.asin(1 / given["times"])),
)
TAN_FOR_ANGLE = _idea(
    "TAN_FOR_SIN",
    "use tan for sin",
    lambda given: math.degrees(math.atan(1 / given["times"])),
    TAN_FOR_SIN.hint,
)
COMPLEMENT = _idea(
    "COMPLEMENT",
    "measure the angle from the square cut instead of from the layers",
    lambda given: math.degrees(math.acos(1 / given["times"])),
    "Is a cut that spreads three times nearly flat, or nearly square?",
)
LINEAR = _idea(
    "LINEAR",
    "take a third of the right angle",
    lambda given: 90 / given["times"],
    "Slide to 30° and read the spread.",
)


BAND_WIDTH = Check(
    ask="Layers 2.0 mm thick are cut at 25° to the layers. How wide is one band?",
    given={"t": 2.0, "a": 25.0},
    right=SPREAD,
    slips=(TAN_FOR_SIN, COS_FOR_SIN, MULTIPLIED, NO_CHANGE, RADIANS),
    kind="length",
    prompt="Should it be wider or narrower than the layer? By how much at 90°, at 30°?",
    working=working,
    other={"t": 3.0, "a": 35.0},
    tips=(
        "Set the layer to 2.0 mm and the cut to 25° in the picture above, then choose.",
        (
            "Set 2.0 mm and 25°, read all nine bands off the ruler, divide. "
            "An answer within 5 % counts."
        ),
        (
            "Draw the triangle: the layer, the cut, and 25° between them. "
            "An answer within 2 % counts."
        ),
    ),
)


def _angle_working(given: Given) -> list[str]:
    times = given["times"]
    return [
        "spread = 1 / sin(angle)",
        f"{times:g} = 1 / sin(angle)",
        f"so sin(angle) = 1 / {times:g}",
        f"angle = {math.degrees(math.asin(1 / times)):.1f}°",
    ]


THREE_TIMES = Check(
    ask="At what angle to the layers are the bands three times as wide as the layer?",
    given={"times": 3.0},
    right=THRICE,
    slips=(TAN_FOR_ANGLE, COMPLEMENT, LINEAR),
    kind="angle",
    prompt="Slide until the spread reads × 3, then look at the angle.",
    working=_angle_working,
    other={"times": 2.0},
    tips=(
        "Tilt the cut in the picture until one band is three layers wide, then choose.",
        "Tilt until the ruler shows bands of three times the layer; read the angle.",
        (
            "Turn your formula for the band width round. "
            "An answer within half a degree counts."
        ),
    ),
)
