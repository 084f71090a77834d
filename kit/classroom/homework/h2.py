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
from kit.classroom.homework.tasks import Carry, Told
from kit.course.check import again
from kit.course.lesson import Given
from kit.course.lessons import draw_ideas as drawing
from kit.course.lessons import reading_ideas as reading
from kit.course.lessons import twist_ideas as twisting

TOLD = Told(__file__, "04")


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


DOT_INVERTED = TOLD.idea(
    "DOT_INVERTED", lambda given: drawing.thinner(given) / drawing.longer(given)
)
SIN_FOR_TAN = TOLD.idea(
    "SIN_FOR_TAN",
    lambda given: math.degrees(math.asin(2 * math.pi * _height(given) / given["p"])),
)
RADIANS = TOLD.idea("RADIANS", lambda given: math.radians(twisting.ANGLE.value(given)))
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
TURN = TOLD.idea("TURN", lambda g: math.pi * g["d"])
TURN_RADIUS = TOLD.idea("TURN_RADIUS", lambda given: math.pi * given["d"] / 2)
TWO_PI_D = TOLD.idea("TWO_PI_D", lambda given: 2 * math.pi * given["d"])
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
    TOLD.part(
        1,
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
        working=drawing.length_working,
        other=OTHER_BAR,
    ),
    TOLD.part(
        2,
        pick=_bar,
        kind="ratio",
        right=drawing.BOTH_WAYS,
        slips=(drawing.ONE_WAY, DOT_INVERTED, drawing.UNCHANGED),
        working=drawing.dot_working,
        other=OTHER_BAR,
    ),
    TOLD.part(
        3,
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
        working=angle_working,
        other=OTHER_TWIST,
        joint=(
            frozenset(("DIAMETER_FOR_RADIUS", "COMPLEMENT")),
            frozenset(("DIAMETER_FOR_RADIUS", "SIN_FOR_TAN")),
            frozenset(("SIN_FOR_TAN", "COMPLEMENT")),
        ),
    ),
    TOLD.part(
        4,
        kind="angle",
        right=twisting.ANGLE,
        slips=(SAME_LEAN, DEPTH_NOT_HEIGHT, LINEAR, twisting.COMPLEMENT),
        working=angle_working,
        other={**OTHER_TWIST, "q": 2.0},
        pick=lambda values: {**_skin(values), "q": values["q"]},
        carry=Carry(3, _own_skin),
        joint=(
            frozenset(("SAME_LEAN", "COMPLEMENT")),
            frozenset(("DEPTH_FOR_HEIGHT", "IN_PROPORTION")),
        ),
    ),
    TOLD.part(
        5,
        kind="ratio",
        right=SPACINGS,
        slips=(ONE_PER_TURN, FOUR_PER_TURN),
        working=spacings_working,
        other=OTHER_TWIST,
    ),
    TOLD.part(
        6,
        kind="length",
        right=TURN,
        slips=(TURN_RADIUS, TWO_PI_D, TURN_NO_PI),
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
