"""Homework H2: draw and twist, after lessons 03 and 04.

Given, for a twisted bar: d across, p for one turn, q ground off, stretch, a length of
its face: all in mm. For a bar drawn out: see `kit.course.lessons.draw_ideas`.
"""

import math
from dataclasses import replace

from kit.basics.units import in_three
from kit.classroom.homework.designs import CHEVRON
from kit.classroom.homework.judged import TWO_FACES
from kit.classroom.homework.paper import Homework
from kit.classroom.homework.tasks import Carry, Part
from kit.course.check import again
from kit.course.lesson import Given, ideas_of
from kit.course.lessons import draw_ideas as drawing
from kit.course.lessons import reading_ideas as reading
from kit.course.lessons import twist_ideas as twisting

_drawn, _twist = ideas_of("03"), ideas_of("04")


def _height(given: Given) -> float:
    return given["d"] / 2 - given.get("q", 0)


def _skin_angle(given: Given) -> float:
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
        f"{length:g} / {p / 2:g} = {in_three(2 * length / p)}",
    ]


def turn_working(given: Given) -> list[str]:
    """Reckon once round the bar, mm: at 45° one turn is as long."""
    across = given["d"]
    return [
        "at 45° once round is as long as one turn",
        f"once round = pi × {across:g} mm",
        f"= {in_three(math.pi * across)} mm",
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
    lambda given: _skin_angle(given) * (1 - given["q"] / (given["d"] / 2)),
)
SPACINGS = again(twisting.STARS, lambda given: 2 * given["stretch"] / given["p"])
ONE_PER_TURN = again(twisting.ONE_PER_TURN, lambda given: given["stretch"] / given["p"])
FOUR_PER_TURN = again(
    twisting.FOUR_PER_TURN, lambda given: 4 * given["stretch"] / given["p"]
)
TURN = _twist("RIGHT", "make one turn as long as once round", lambda g: math.pi * g["d"])
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


# Of our own, for worked examples: mm, %.
OTHER_BAR = {"L": 100.0, "W": 30.0, "w": 30.0, "T": 24.0, "t": 18.0, "loss": 4.0}
OTHER_TWIST = {"d": 10.0, "p": 90.0, "stretch": 90.0}


def _bar(values: Given) -> Given:
    width = 40.0
    kept = {name: values[name] for name in ("L", "T", "t", "loss")}
    return {**kept, "W": width, "w": width}


def _skin(values: Given) -> Given:
    return {"d": values["d"], "p": values["p"]}


def _own_skin(given: Given, own: float) -> Given:
    """Take part 3's angle as the student has it: as if from another turn."""
    return {**given, "p": math.pi * given["d"] / math.tan(math.radians(own))}


PARTS = (
    Part(
        number=1,
        question=(
            "A billet {L:mm} long and {T:mm} thick is drawn out to {t:mm}, its width "
            "held. Scale and trimming take {loss} % of the steel. How long is the bar?"
        ),
        pick=_bar,
        kind="length",
        right=drawing.LENGTH,
        slips=(
            drawing.NO_LOSS,
            drawing.LOSS_ADDED,
            drawing.INVERTED,
            drawing.DIFFERENCE,
            drawing.NOT_MOVED,
        ),
        prompt="How many times thinner? What must the length do, and what is lost?",
        shows="a bar {} long",
        working=drawing.length_working,
        other=OTHER_BAR,
    ),
    Part(
        number=2,
        question=(
            "A round dot was marked on the side of that billet. What is the dot's length "
            "divided by its height on the bar of {t:mm}?"
        ),
        pick=_bar,
        kind="ratio",
        right=drawing.BOTH_WAYS,
        slips=(drawing.ONE_WAY, DOT_INVERTED, drawing.UNCHANGED),
        prompt="How many times longer did the dot get? And how many times thinner?",
        shows="a dot {} times as long as high",
        working=drawing.dot_working,
        other=OTHER_BAR,
    ),
    Part(
        number=3,
        question=(
            "A round bar, {d:mm} across, is twisted one turn in {p:mm}. At what angle "
            "to the bar do the lines on its skin lie?"
        ),
        pick=_skin,
        kind="angle",
        right=twisting.ANGLE,
        slips=(
            twisting.RADIUS_FOR_DIAMETER,
            twisting.DIAMETER_FOR_RADIUS,
            SIN_FOR_TAN,
            twisting.COMPLEMENT,
            twisting.NO_PI,
            RADIANS,
        ),
        prompt="Unroll the skin: a rectangle, one turn long and once round high.",
        shows="lines at {} to the bar",
        working=angle_working,
        other=OTHER_TWIST,
        joint=(
            frozenset(("DIAMETER_FOR_RADIUS", "COMPLEMENT")),
            frozenset(("DIAMETER_FOR_RADIUS", "SIN_FOR_TAN")),
            frozenset(("SIN_FOR_TAN", "COMPLEMENT")),
        ),
    ),
    Part(
        number=4,
        question=(
            "Now {q:mm} is ground off that bar. At what angle do the lines lie on the "
            "middle of the face?"
        ),
        kind="angle",
        right=twisting.ANGLE,
        slips=(SAME_LEAN, DEPTH_NOT_HEIGHT, LINEAR, twisting.COMPLEMENT),
        prompt="How high above the axis is the face now?",
        shows="lines at {} to the bar",
        working=angle_working,
        other={**OTHER_TWIST, "q": 2.0},
        pick=lambda values: {**_skin(values), "q": values["q"]},
        carry=Carry(3, _own_skin),
        joint=(
            frozenset(("SAME_LEAN", "COMPLEMENT")),
            frozenset(("DEPTH_FOR_HEIGHT", "IN_PROPORTION")),
        ),
    ),
    Part(
        number=5,
        question=(
            "The bar is ground on to its axis. How many spacings from star to star are "
            "there in {stretch:mm}? (Not rounded.)"
        ),
        kind="ratio",
        right=SPACINGS,
        slips=(ONE_PER_TURN, FOUR_PER_TURN),
        prompt="How often in one turn do the layers lie flat?",
        shows="{} spacings",
        working=spacings_working,
        other=OTHER_TWIST,
    ),
    Part(
        number=6,
        question=(
            "What length of turn makes the lines on the skin of a bar {d:mm} across "
            "lie at 45°?"
        ),
        kind="length",
        right=TURN,
        slips=(TURN_RADIUS, TWO_PI_D, TURN_NO_PI),
        prompt="At 45° a line goes as far round as along. How far is it once round?",
        shows="one turn in {}",
        working=turn_working,
        other=OTHER_TWIST,
    ),
)

H2 = Homework(
    code="H2",
    title="Draw and twist",
    lessons=("03", "04"),
    sizes={
        "L": (120, 140, 160, 180, 200),
        "T": (28, 30, 32, 36),
        "t": (10, 12, 14, 16),
        "loss": (5, 8, 10, 12),
        "d": (12, 14, 16, 18, 20),
        "p": (50, 60, 70, 80, 100),
        "q": (1.5, 2.0, 2.5, 3.0),
        "stretch": (150, 180, 200, 220, 250),
        "lean": (25, 30, 35, 40),
        "p_face": (40, 50, 60, 70),
        "h_high": (6.0, 6.5, 7.0),
        "h_low": (3.0, 3.5, 4.0),
    },
    parts=PARTS,
    design=CHEVRON,
    judged=TWO_FACES,
)
