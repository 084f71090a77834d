"""Ways of working out a band width, right and wrong, and the checks of lesson 01.

Given: t, the layer's thickness in mm, and a, the cut's angle to the layers in degrees;
or times, how many times as wide as the layer a band is.
"""

import math

from kit.basics.units import in_three
from kit.course.lesson import Given
from kit.course.worded import Worded


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


TOLD = Worded(__file__, "01")

SPREAD = TOLD.idea("SPREAD", lambda given: given["t"] / _sine(given))
NO_CHANGE = TOLD.idea("NO_CHANGE", lambda given: given["t"])
COS_FOR_SIN = TOLD.idea(
    "COS_FOR_SIN", lambda given: given["t"] / math.cos(math.radians(given["a"]))
)
MULTIPLIED = TOLD.idea("MULTIPLIED", lambda given: given["t"] * _sine(given))
TAN_FOR_SIN = TOLD.idea(
    "TAN_FOR_SIN", lambda given: given["t"] / math.tan(math.radians(given["a"]))
)
RADIANS = TOLD.idea("RADIANS", lambda given: given["t"] / abs(math.sin(given["a"])))
THRICE = TOLD.idea("THRICE", lambda given: math.degrees(math.asin(1 / given["times"])))
TAN_FOR_ANGLE = TOLD.idea(
    "TAN_FOR_ANGLE", lambda given: math.degrees(math.atan(1 / given["times"]))
)
COMPLEMENT = TOLD.idea(
    "COMPLEMENT", lambda given: math.degrees(math.acos(1 / given["times"]))
)
LINEAR = TOLD.idea("LINEAR", lambda given: 90 / given["times"])


BAND_WIDTH = TOLD.check(
    "BAND_WIDTH",
    given={"t": 2.0, "a": 25.0},
    right=SPREAD,
    slips=(TAN_FOR_SIN, COS_FOR_SIN, MULTIPLIED, NO_CHANGE, RADIANS),
    kind="length",
    working=working,
    other={"t": 3.0, "a": 35.0},
)


def _angle_working(given: Given) -> list[str]:
    times = given["times"]
    return [
        "spread = 1 / sin(angle)",
        f"{times:g} = 1 / sin(angle)",
        f"so sin(angle) = 1 / {times:g}",
        f"angle = {math.degrees(math.asin(1 / times)):.1f}°",
    ]


THREE_TIMES = TOLD.check(
    "THREE_TIMES",
    given={"times": 3.0},
    right=THRICE,
    slips=(TAN_FOR_ANGLE, COMPLEMENT, LINEAR),
    kind="angle",
    working=_angle_working,
    other={"times": 2.0},
)
