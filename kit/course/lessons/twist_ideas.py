"""Ways of thinking about a twisted bar, right and wrong, and the checks of lesson 04.

Given: d across and p the length for one turn, both in mm; q ground off, mm; L a length
of bar, mm. An angle is measured from the bar's length.
"""

import math

from kit.basics.units import in_three
from kit.course.lesson import Given
from kit.course.worded import Worded


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


TOLD = Worded(__file__, "04")


def _height(given: Given) -> float:
    return given["d"] / 2 - given.get("q", 0)


ANGLE = TOLD.idea("ANGLE", lambda given: angle(_height(given), given["p"]))
SAME = TOLD.idea("SAME", lambda given: angle(given["d"] / 2, given["p"]))
STEEPER = TOLD.idea("STEEPER", lambda given: angle(given["d"] / 2, given["p"] / 2))
STARS_ALREADY = TOLD.idea("STARS_ALREADY", lambda _given: 0.0)
RADIUS_FOR_DIAMETER = TOLD.idea(
    "RADIUS_FOR_DIAMETER", lambda given: angle(_height(given) / 2, given["p"])
)
DIAMETER_FOR_RADIUS = TOLD.idea(
    "DIAMETER_FOR_RADIUS", lambda given: angle(2 * _height(given), given["p"])
)
COMPLEMENT = TOLD.idea("COMPLEMENT", lambda given: 90 - angle(_height(given), given["p"]))
NO_PI = TOLD.idea(
    "NO_PI", lambda given: math.degrees(math.atan(2 * _height(given) / given["p"]))
)
STARS = TOLD.idea("STARS", lambda given: math.floor(given["L"] / (given["p"] / 2) + 1e-9))
ONE_PER_TURN = TOLD.idea(
    "ONE_PER_TURN", lambda given: math.floor(given["L"] / given["p"] + 0.5 + 1e-9)
)
FOUR_PER_TURN = TOLD.idea(
    "FOUR_PER_TURN", lambda given: math.floor(given["L"] / (given["p"] / 4) + 1e-9)
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


SKIN_ANGLE = TOLD.check(
    "SKIN_ANGLE",
    given={"d": 20.0, "p": 80.0},
    right=ANGLE,
    slips=(RADIUS_FOR_DIAMETER, DIAMETER_FOR_RADIUS, COMPLEMENT, NO_PI),
    kind="angle",
    working=_skin_working,
    other={"d": 12.0, "p": 60.0},
)

GROUND_ANGLE = TOLD.check(
    "GROUND_ANGLE",
    given={"d": 20.0, "p": 80.0, "q": 5.0},
    right=ANGLE,
    slips=(SAME, COMPLEMENT, NO_PI),  # twice the height gives 38.1°, too: as SAME
    kind="angle",
    working=_skin_working,
    other={"d": 12.0, "p": 60.0, "q": 2.0},
)


def _stars_working(given: Given) -> list[str]:
    length, p = given["L"], given["p"]
    return [
        f"one star every half turn: every {p / 2:g} mm",
        f"{length:g} mm / {p / 2:g} mm = {in_three(2 * length / p)}",
        f"whole stars: {STARS.value(given):g}",
    ]


STAR_COUNT = TOLD.check(
    "STAR_COUNT",
    given={"L": 210.0, "p": 80.0},
    right=STARS,
    slips=(ONE_PER_TURN, FOUR_PER_TURN),
    kind="count",
    working=_stars_working,
    other={"L": 150.0, "p": 50.0},
)
