"""What lesson 01 asks: the prediction, the check, and the move that answers."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from kit.basics.units import Units, format_length
from kit.course.check import Check
from kit.course.lesson import Given, Idea, Question, Reason
from kit.course.lessons import drawing
from kit.course.lessons.cut import block
from kit.course.lessons.cut_ideas import (
    COS_FOR_SIN,
    MULTIPLIED,
    NO_CHANGE,
    RADIANS,
    SPREAD,
    TAN_FOR_SIN,
    working,
)
from kit.metal import etch
from kit.section.picture import Sheet
from kit.section.surface import cut
from kit.section.trace import see

if TYPE_CHECKING:
    from PIL import Image


def tile(width: float) -> tuple[Image.Image, str]:
    """Draw the cut face that somebody with this idea of the band width expects."""
    billet = block(layers=max(2, math.ceil(40 / width)), thickness=width)
    plane = cut(billet.size, angle=90, columns=200, rows=150, pixel=drawing.TRUE_SIZE)
    sheet = Sheet(200, 150)
    sheet.steel(see(billet, plane, etch.tones(billet.source.steels)), (0, 0))
    alt = f"A cut face with dark and bright bands {width:.1f} mm wide, left to right."
    return sheet.image, alt


def question(units: Units = Units.MM) -> Question:
    """Ask for the band width of a 4 mm layer sawn at 30°."""
    return Question(
        ask=(
            "The block has nine layers, each 4.0 mm thick. Sawn square, its bands are "
            "4.0 mm wide. Now it is sawn at 30° to the layers. Which face do you expect?"
        ),
        given={"t": 4.0, "a": 30.0},
        tiles=(NO_CHANGE, SPREAD, COS_FOR_SIN, MULTIPLIED),
        right=SPREAD,
        show=lambda width: f"bands {format_length(width, units)}",
        draw=tile,
        observed="Sawn at 30° the bands are 8.0 mm wide: twice as wide as the layers.",
        reasons=(
            Reason(
                "The cut travels further to cross the same layer.",
                True,
                "Yes. At 30° the saw goes 8 mm through steel to get past 4 mm of layer.",
            ),
            Reason(
                "Sawing on a slant stretches the steel.",
                False,
                "Nothing was stretched: push the two halves together and the block is "
                "as it was. Only the way through it became longer.",
            ),
            Reason(
                "The layers are thicker in the middle of the block.",
                False,
                "They are 4 mm everywhere. Move the cut along the block and see.",
            ),
        ),
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
        "Set 2.0 mm and 25°, read all nine bands off the ruler, divide. 5 % is enough.",
        "Draw the triangle: the layer, the cut, and 25° between them. 2 % is near enough.",
    ),
)

# The move that answers the question: the saw leans over from square to 30°.
FILM = [
    {"angle": 60 + 30 * math.cos(math.pi * frame / 13), "layers": 9, "thickness": 4.0}
    for frame in range(14)
]


def _angle_working(given: Given) -> list[str]:
    times = given["times"]
    return [
        "spread = 1 / sin(angle)",
        f"{times:g} = 1 / sin(angle), so sin(angle) = 1 / {times:g}",
        f"angle = {math.degrees(math.asin(1 / times)):.1f}°",
    ]


THREE_TIMES = Check(
    ask="At what angle to the layers are the bands three times as wide as the layer?",
    given={"times": 3.0},
    right=Idea(
        code="RIGHT",
        name="take the angle whose sine is one third",
        formula=lambda given: math.degrees(math.asin(1 / given["times"])),
        hint="",
        lesson="01",
    ),
    slips=(
        Idea(
            code="TAN_FOR_SIN",
            name="use tan for sin",
            formula=lambda given: math.degrees(math.atan(1 / given["times"])),
            hint=TAN_FOR_SIN.hint,
            lesson="01",
        ),
        Idea(
            code="COMPLEMENT",
            name="measure the angle from the square cut instead of from the layers",
            formula=lambda given: math.degrees(math.acos(1 / given["times"])),
            hint="Is a cut that spreads three times nearly flat, or nearly square?",
            lesson="01",
        ),
        Idea(
            code="LINEAR",
            name="take a third of the right angle",
            formula=lambda given: 90 / given["times"],
            hint="Slide to 30° and read the spread.",
            lesson="01",
        ),
    ),
    kind="angle",
    prompt="Slide until the spread reads × 3, then look at the angle.",
    working=_angle_working,
    other={"times": 2.0},
    tips=(
        "Tilt the cut in the picture until one band is three layers wide, then choose.",
        "Tilt until the ruler shows bands of three times the layer; read the angle.",
        "Turn your formula for the band width round. Half a degree is near enough.",
    ),
)
