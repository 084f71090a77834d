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
from kit.course.check import Check
from kit.course.lesson import Given, ideas_of


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


_idea = ideas_of("03")


BOTH_WAYS = _idea(
    "RIGHT",
    "stretch the dot along the bar and squeeze it through the bar, both",
    lambda given: longer(given) / thinner(given),
)
ONE_WAY = _idea(
    "ONE_WAY",
    "count the change once: longer or thinner, but not both",
    longer,
    "On top of the bar, where the width is held, that is what you would see. On the side "
    "two things happen at once. Which?",
)
SHRUNK = _idea(
    "SHRUNK",
    "let the whole dot shrink as the bar gets thinner",
    thinner,
    "Where would the steel under the dot have gone?",
)
UNCHANGED = _idea(
    "UNCHANGED",
    "leave the dot as it was, as if new steel had been put on at the ends",
    lambda _given: 1.0,
    "No steel was added. Where did the new length come from?",
)
ADDED = _idea(
    "ADDED",
    "add the two changes instead of multiplying them",
    lambda given: longer(given) + 1 / thinner(given),
    "Do one after the other: first only longer, then that dot also thinner.",
)

LENGTH = _idea("RIGHT", "keep the steel, less what is lost", kept_length)
NO_LOSS = _idea(
    "NO_LOSS",
    "forget the loss",
    full_length,
    "That is how long it would be if no scale fell off and nothing was trimmed.",
)
LOSS_ADDED = _idea(
    "LOSS_ADDED",
    "add the loss instead of taking it off",
    lambda given: full_length(given) * (1 + given["loss"] / 100),
    "Does a bar that loses steel end up longer or shorter?",
)
INVERTED = _idea(
    "INVERTED",
    "turn the fraction over: new thickness over old",
    lambda given: (
        (given["L"] * given["t"] / given["T"] * given["W"] / given["w"])
        * (1 - given["loss"] / 100)
    ),
    "Should a bar that is made thinner come out longer or shorter than it was?",
)
NOT_MOVED = _idea(
    "NOT_MOVED",
    "keep the old length, as if the hammer only pressed the bar flat",
    lambda given: given["L"] * (1 - given["loss"] / 100),
    "Steel cannot be pressed together. Where does it go?",
)
DIFFERENCE = _idea(
    "DIFFERENCE",
    "add to the length what the thickness has lost",
    lambda given: (given["L"] + given["T"] - given["t"]) * (1 - given["loss"] / 100),
    "A sliver of thickness is a whole sheet of steel, as long as the bar.",
)

LINE = _idea("RIGHT", "let the line run further and rise less", angle_after)
LINE_UNCHANGED = _idea(
    "UNCHANGED",
    "leave the line as it was",
    lambda _given: 45.0,
    "Mark its two ends. Where does each of them go?",
)
LINE_ONE_WAY = _idea(
    "ONE_WAY",
    "let it run further, but rise as far as before",
    lambda given: math.degrees(math.atan(1 / longer(given))),
    "Right on top of a bar whose width is held. On the side, what happens to the rise?",
)
ANGLE_DIVIDED = _idea(
    "ANGLE_DIVIDED",
    "divide the angle by the stretch",
    lambda given: 45 / longer(given),
    "It is the slope, rise over run, that changes by a factor. The angle follows from it.",
)
ANGLE_DIVIDED_TWICE = _idea(
    "ANGLE_DIVIDED_TWICE",
    "divide the angle once for longer and once for thinner",
    lambda given: 45 * thinner(given) / longer(given),
    "Both count, yes; but they change the slope, rise over run, and not the angle itself.",
)
STEEPER = _idea(
    "STEEPER",
    "turn the fraction over: run over rise",
    lambda given: math.degrees(math.atan(longer(given) / thinner(given))),
    "Does a line lean over or stand up when the bar is pulled out under it?",
)

# Bars of our own: mm, and % lost.
HOMEWORK = {"L": 160.0, "W": 40.0, "T": 36.0, "w": 40.0, "t": 12.0, "loss": 10.0}
OTHER = {"L": 120.0, "W": 30.0, "T": 24.0, "w": 30.0, "t": 6.0, "loss": 5.0}

BAR_LENGTH = Check(
    ask=(
        "A billet of 160 × 40 × 36 mm is drawn out to 12 mm thick, 40 mm wide. Scale and "
        "trimming take 10 %. How long is the bar?"
    ),
    given=HOMEWORK,
    right=LENGTH,
    slips=(NO_LOSS, LOSS_ADDED, INVERTED, NOT_MOVED, DIFFERENCE),
    kind="length",
    prompt="How many times thinner does it get? What must the length do, and what is lost?",
    working=length_working,
    other=OTHER,
    tips=(
        "1 Billet: set 160, 40, 36 mm. 2 Draw out: 12 mm, 0 %, 10 %. Then choose.",
        "Set what is asked and read the ruler under the bar. An answer within 5 % counts.",
        (
            "Length × width × thickness stays; then take the loss off. "
            "An answer within 2 % counts."
        ),
    ),
)

DOT_RATIO = Check(
    ask=(
        "The same billet had a round dot on its side. What is the dot's length divided by "
        "its height now? (A whole number.)"
    ),
    given=HOMEWORK,
    right=BOTH_WAYS,
    slips=(ONE_WAY, ADDED, UNCHANGED),
    kind="count",
    prompt="How many times longer did the dot get? And how many times thinner?",
    working=dot_working,
    other=OTHER,
    tips=(
        "Set the same in the picture above and look at the dot from close by. Then choose.",
        "Set the same billet. Put a ruler on the dot's close-up: length by height.",
        "Find what happens along the bar, and what happens through it. Put them together.",
    ),
)

LINE_ANGLE = Check(
    ask=(
        "A line at 45° is marked on the side of another billet, which is drawn out from 32 "
        "to 16 mm, its width held. At what angle does the line lie now?"
    ),
    given={"T": 32.0, "t": 16.0, "W": 38.0, "w": 38.0},
    right=LINE,
    slips=(LINE_ONE_WAY, ANGLE_DIVIDED, LINE_UNCHANGED, ANGLE_DIVIDED_TWICE, STEEPER),
    kind="angle",
    prompt="The line goes across and up. How far does each of the two become?",
    working=angle_working,
    other={"T": 24.0, "t": 16.0, "W": 38.0, "w": 38.0},
    tips=(
        "1 Billet: set 32 mm thick. 2 Draw out: 16 mm and no spread. Then choose.",
        "Set what is asked and use a protractor. An answer within half a degree counts.",
        "Its slope is rise over run. An answer within half a degree counts.",
    ),
)
