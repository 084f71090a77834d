"""Ways of thinking about a bar that is drawn out, right and wrong, and lesson 03's checks.

Given: L, W, T, the bar's length, width and thickness in mm before; w and t, its width
and thickness after; loss, per cent of the steel that scale and trimming take.

A dot's shape is one number: its length to its height. Below one it is a dot that stayed
round and shrank by so much.
"""

import math
from typing import NamedTuple

from kit.basics.typed import MM_PER_INCH
from kit.basics.units import Units, format_length, in_three
from kit.course.lesson import Given
from kit.course.worded import Worded


def _mm(length: float) -> str:
    return format_length(length, Units.MM)


def longer(given: Given) -> float:
    """Give how many times longer the bar becomes, if nothing is lost."""
    return given["T"] * given["W"] / (given["t"] * given["w"])


def thinner(given: Given) -> float:
    """Give how many times as thick it is afterwards: below one when drawn out."""
    return given["t"] / given["T"]


def full_length(given: Given) -> float:
    """Give the length after, mm, if nothing is lost."""
    return given["L"] * longer(given)


def kept_length(given: Given) -> float:
    """Give the length after, mm, less what scale and trimming take."""
    return full_length(given) * (1 - given["loss"] / 100)


def thinner_by(units: Units) -> float:
    """Give in what steps of thickness, mm, the bar's growth is told."""
    return 1.0 if units is Units.MM else MM_PER_INCH / 16


def steps_told(mm: float, units: Units) -> str:
    """Write a number of such steps: 1 mm, where `format_length` writes 1.0 mm."""
    return f"{mm:g} mm" if units is Units.MM else format_length(mm, units)


def was_long(given: Given, each: float) -> list[float]:
    """Give how long, mm, the bar was, each step thicker, before losses; the last is now.

    Nothing if it was not drawn out by two steps, or spread: how it did so is not told.
    """
    steps = math.floor((given["T"] - given["t"]) / each + 1e-9)
    if steps < 2 or given["w"] != given["W"]:
        return []
    thick = (given["t"] + each * step for step in range(steps, -1, -1))
    return [full_length({**given, "t": one}) for one in thick]


class Growth(NamedTuple):
    """How long a bar was, mm, and in words: a step, what the first gave, and the last."""

    long: list[float]
    step: str
    first: str
    last: str


def growth(given: Given, units: Units) -> Growth | None:
    """Tell how the bar grew in steps of the reader's units; None if `was_long` is empty."""
    each = thinner_by(units)
    long = was_long(given, each)
    if not long:
        return None
    gains = long[1] - long[0], long[-1] - long[-2]
    return Growth(
        long, steps_told(each, units), *(format_length(gain, units) for gain in gains)
    )


def outgrown(given: Given, each: float) -> float:
    """Give how much of the thickness, mm, in whole steps, gave less than the last step."""
    before, now = was_long(given, each)[-2:]
    most = given["T"] * (1 - given["L"] / (given["L"] + now - before))
    return each * math.floor(most / each + 1e-9)


def length_working(given: Given) -> list[str]:
    """Work the length out, mm, line by line."""
    before = f"{given['L']:g} × {given['W']:g} × {given['T']:g} mm"
    lines = [
        "length × width × thickness stays: steel is moved, not made",
        f"{before} = length × {given['w']:g} mm × {given['t']:g} mm",
        f"length = {full_length(given):.5g} mm",
    ]
    if given["loss"]:
        left = 1 - given["loss"] / 100
        lines.append(
            f"less {given['loss']:g} %: {full_length(given):.5g} mm × {left:g} "
            f"= {_mm(kept_length(given))}"
        )
    return lines


def dot_working(given: Given) -> list[str]:
    """Work out how many times longer than high a round dot becomes."""
    along, through = longer(given), thinner(given)
    return [
        f"longer: × {in_three(along)}, as the bar",
        f"thinner: / {in_three(1 / through)}, as the bar",
        "length to height: one times the other",
        f"{along:.4g} × {1 / through:.4g} = {in_three(along / through)} to 1",
    ]


def angle_after(given: Given) -> float:
    """Give how a line at 45° lies, from the side, once the bar is drawn out; degrees."""
    return math.degrees(math.atan(thinner(given) / longer(given)))


def angle_working(given: Given) -> list[str]:
    """Work out how a line at 45° lies afterwards."""
    along, through = longer(given), thinner(given)
    return [
        "at 45° it rises as far as it runs",
        f"rise × {in_three(through)}, run × {in_three(along)}",
        f"tan(angle) = {through:.4g} / {along:.4g} = {in_three(through / along)}",
        f"angle = {angle_after(given):.1f}°",
    ]


TOLD = Worded(__file__, "03")


BOTH_WAYS = TOLD.idea("BOTH_WAYS", lambda given: longer(given) / thinner(given))
ONE_WAY = TOLD.idea("ONE_WAY", longer)
SHRUNK = TOLD.idea("SHRUNK", thinner)
UNCHANGED = TOLD.idea("UNCHANGED", lambda _given: 1.0)
ADDED = TOLD.idea("ADDED", lambda given: longer(given) + 1 / thinner(given))

LENGTH = TOLD.idea("LENGTH", kept_length)
NO_LOSS = TOLD.idea("NO_LOSS", full_length)
LOSS_ADDED = TOLD.idea(
    "LOSS_ADDED", lambda given: full_length(given) * (1 + given["loss"] / 100)
)
INVERTED = TOLD.idea(
    "INVERTED",
    lambda given: (
        (given["L"] * given["t"] / given["T"] * given["W"] / given["w"])
        * (1 - given["loss"] / 100)
    ),
)
NOT_MOVED = TOLD.idea("NOT_MOVED", lambda given: given["L"] * (1 - given["loss"] / 100))
DIFFERENCE = TOLD.idea(
    "DIFFERENCE",
    lambda given: (given["L"] + given["T"] - given["t"]) * (1 - given["loss"] / 100),
)

LINE = TOLD.idea("LINE", angle_after)
LINE_UNCHANGED = TOLD.idea("LINE_UNCHANGED", lambda _given: 45.0)
LINE_ONE_WAY = TOLD.idea(
    "LINE_ONE_WAY", lambda given: math.degrees(math.atan(1 / longer(given)))
)
ANGLE_DIVIDED = TOLD.idea("ANGLE_DIVIDED", lambda given: 45 / longer(given))
ANGLE_DIVIDED_TWICE = TOLD.idea(
    "ANGLE_DIVIDED_TWICE", lambda given: 45 * thinner(given) / longer(given)
)
STEEPER = TOLD.idea(
    "STEEPER", lambda given: math.degrees(math.atan(longer(given) / thinner(given)))
)

# Bars of our own: mm, and % lost.
HOMEWORK = {"L": 160.0, "W": 40.0, "T": 36.0, "w": 40.0, "t": 12.0, "loss": 10.0}
OTHER = {"L": 120.0, "W": 30.0, "T": 24.0, "w": 30.0, "t": 6.0, "loss": 5.0}

BAR_LENGTH = TOLD.check(
    "BAR_LENGTH",
    given=HOMEWORK,
    right=LENGTH,
    slips=(NO_LOSS, LOSS_ADDED, INVERTED, NOT_MOVED, DIFFERENCE),
    kind="length",
    working=length_working,
    other=OTHER,
)

DOT_RATIO = TOLD.check(
    "DOT_RATIO",
    given=HOMEWORK,
    right=BOTH_WAYS,
    slips=(ONE_WAY, ADDED, UNCHANGED),
    kind="count",
    working=dot_working,
    other=OTHER,
)

LINE_ANGLE = TOLD.check(
    "LINE_ANGLE",
    given={"T": 32.0, "t": 16.0, "W": 38.0, "w": 38.0},
    right=LINE,
    slips=(LINE_ONE_WAY, ANGLE_DIVIDED, LINE_UNCHANGED, ANGLE_DIVIDED_TWICE, STEEPER),
    kind="angle",
    working=angle_working,
    other={"T": 24.0, "t": 16.0, "W": 38.0, "w": 38.0},
)
