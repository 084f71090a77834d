"""Homework H2: draw and twist, after lessons 03 and 04."""

from __future__ import annotations

import math

from kit.basics.units import Units
from kit.classroom.homework import h2_ideas as ideas
from kit.classroom.homework.designs import CHEVRON
from kit.classroom.homework.judged import TWO_FACES
from kit.classroom.homework.paper import Homework
from kit.classroom.homework.part import Carry, Part
from kit.course.answers import said
from kit.course.lesson import Given
from kit.course.lessons import draw_ideas as drawing
from kit.course.lessons import twist_ideas as twisting

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


def _ask_length(values: Given, units: Units) -> str:
    long, thick, thin = (said(values[name], units) for name in ("L", "T", "t"))
    return (
        f"A billet {long} long and {thick} thick is drawn out to {thin}, its width held. "
        f"Scale and trimming take {values['loss']:g} % of the steel. How long is the bar?"
    )


def _ask_dot(values: Given, units: Units) -> str:
    return (
        "A round dot was marked on the side of that billet. How many times as long as "
        f"high is the dot on the bar of {said(values['t'], units)}?"
    )


def _ask_skin(values: Given, units: Units) -> str:
    across, turn = said(values["d"], units), said(values["p"], units)
    return (
        f"A round bar, {across} across, is twisted one turn in {turn}. At what angle to "
        "the bar do the lines on its skin lie?"
    )


def _ask_ground(values: Given, units: Units) -> str:
    return (
        f"Now {said(values['q'], units)} is ground off that bar. At what angle do the "
        "lines lie on the middle of the face?"
    )


def _ask_stars(values: Given, units: Units) -> str:
    return (
        "The bar is ground on to its axis. How many spacings from star to star are there "
        f"in {said(values['stretch'], units)}? (Not rounded.)"
    )


def _ask_turn(values: Given, units: Units) -> str:
    across = said(values["d"], units)
    return (
        f"What length of turn makes the lines on the skin of a bar {across} across lie at "
        "45°?"
    )


PARTS = (
    Part(
        number=1,
        ask=_ask_length,
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
        ask=_ask_dot,
        pick=_bar,
        kind="ratio",
        right=drawing.BOTH_WAYS,
        slips=(drawing.ONE_WAY, ideas.DOT_INVERTED, drawing.UNCHANGED),
        prompt="How many times longer did the dot get? And how many times thinner?",
        shows="a dot {} times as long as high",
        working=drawing.dot_working,
        other=OTHER_BAR,
    ),
    Part(
        number=3,
        ask=_ask_skin,
        pick=_skin,
        kind="angle",
        right=twisting.ANGLE,
        slips=(
            twisting.RADIUS_FOR_DIAMETER,
            twisting.DIAMETER_FOR_RADIUS,
            ideas.SIN_FOR_TAN,
            twisting.COMPLEMENT,
            twisting.NO_PI,
            ideas.RADIANS,
        ),
        prompt="Unroll the skin: a rectangle, one turn long and once round high.",
        shows="lines at {} to the bar",
        working=ideas.angle_working,
        other=OTHER_TWIST,
        joint=(
            frozenset(("DIAMETER_FOR_RADIUS", "COMPLEMENT")),
            frozenset(("DIAMETER_FOR_RADIUS", "SIN_FOR_TAN")),
            frozenset(("SIN_FOR_TAN", "COMPLEMENT")),
        ),
    ),
    Part(
        number=4,
        ask=_ask_ground,
        kind="angle",
        right=twisting.ANGLE,
        slips=(ideas.SAME_LEAN, ideas.DEPTH_NOT_HEIGHT, ideas.LINEAR, twisting.COMPLEMENT),
        prompt="How high above the axis is the face now?",
        shows="lines at {} to the bar",
        working=ideas.angle_working,
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
        ask=_ask_stars,
        kind="ratio",
        right=ideas.SPACINGS,
        slips=(ideas.ONE_PER_TURN, ideas.FOUR_PER_TURN),
        prompt="How often in one turn do the layers lie flat?",
        shows="{} spacings",
        working=ideas.spacings_working,
        other=OTHER_TWIST,
    ),
    Part(
        number=6,
        ask=_ask_turn,
        kind="length",
        right=ideas.TURN,
        slips=(ideas.TURN_RADIUS, ideas.TWO_PI_D, ideas.TURN_NO_PI),
        prompt="At 45° a line goes as far round as along. How far is it once round?",
        shows="one turn in {}",
        working=ideas.turn_working,
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
