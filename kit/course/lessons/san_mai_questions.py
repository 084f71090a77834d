"""What lesson 07 asks: the prediction, the checks, and the move that answers."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

from kit.course.check import Check
from kit.course.lesson import Given, Question, Reason
from kit.course.lessons.san_mai_blade import Job
from kit.course.lessons.san_mai_drawing import LENGTH, SPARE
from kit.course.lessons.san_mai_ideas import (
    ADDED,
    ADDED_ABOVE,
    BOTH_SIDES,
    CLADDING,
    COUNTED_TWICE,
    EDGE_ABOVE_ONLY,
    FULL_CORE,
    FULL_SPINE,
    HALF_CORE,
    HIGHER,
    HIGHER_FULL_SPINE,
    LINE,
    LOWER,
    NO_EDGE,
    OFFSET,
    OTHER_SIDE,
    SAME,
    line,
    line_working,
    permissible_working,
    spread,
)
from kit.course.lessons.san_mai_lines import Turned, side
from kit.metal import etch
from kit.section.finish import finished
from kit.section.picture import INK, PAGE, Sheet

if TYPE_CHECKING:
    from PIL import Image

ASKED: dict[str, Any] = {
    "left": 4.2,
    "core": 3.6,
    "right": 4.2,
    "nickel": 0.0,
    "thickness": 4.0,
    "off": 0.0,
    "edge": 0.4,
    "height": 32.0,
    "kind": 0,
    "wave": 0.0,
    "spacing": 15.0,
}
GIVEN = {"c": 1.2, "S": 4.0, "e": 0.4, "H": 32.0, "d": 0.3}
# The line on the other side, as each idea has it.
OTHER_LINE = {
    round(SAME.value(GIVEN), 6): line(GIVEN),
    round(ADDED.value(GIVEN), 6): line(GIVEN),
    round(LOWER.value(GIVEN), 6): line(GIVEN, 0.3),
    round(COUNTED_TWICE.value(GIVEN), 6): line(GIVEN, 0.6),
}
TILE = (200, 150)
TILE_PIXEL = 0.23  # mm: both sides up to 17 mm above the edge


def expected(lower: float) -> Job:
    """Make the blade whose right line is that of an idea, and its left line, too."""
    higher = OTHER_LINE[round(lower, 6)]
    core = (higher + lower) / spread(GIVEN) + GIVEN["e"]
    off = (higher - lower) / spread(GIVEN) / 2
    thinner = ASKED["thickness"] / (ASKED["left"] + ASKED["core"] + ASKED["right"])
    clad = (ASKED["thickness"] - core) / 2 / thinner
    sizes = {"left": clad, "core": core / thinner, "right": clad, "off": off}
    return Job(**{**ASKED, **sizes})


def tile(lower: float) -> tuple[Image.Image, str]:
    """Draw both sides of the blade, opened out, as somebody with this idea expects."""
    job = expected(lower)
    tones = etch.tones(job.billet.source.steels)
    sheet = Sheet(*TILE)
    edge, rows = TILE[1] // 2, round(job.height / TILE_PIXEL) + 4
    columns = round(LENGTH / TILE_PIXEL) + 8
    for name, quarters in (("left", 0), ("right", 2)):
        view = Turned(side(job, name, TILE_PIXEL, columns, rows), quarters)
        face = finished(job.billet, view, tones)
        heel, _ = view.place((SPARE, 0.0, 0.0))
        row = edge - rows + 2 if name == "left" else edge - 2
        sheet.steel(face, (TILE[0] + 8 - round(heel), row))  # the heel lies outside
    sheet.line([(0, edge), (TILE[0], edge)], ink=INK)
    for name, row in (("left", 4), ("right", TILE[1] - 25)):
        middle = TILE[0] / 2  # tiles are cropped at both ends on a narrow page
        sheet.box((middle - 22, row), (middle + 22, row + 20), fill=PAGE)
        sheet.text(name, (middle, row + 10), size=15, anchor="mm")
    return sheet.image, f"Both sides of a blade, opened out at the edge: {told(lower)}."


def told(lower: float) -> str:
    """Write both lines, the left one first."""
    higher = OTHER_LINE[round(lower, 6)]
    if lower < 0:
        return "core lost on the right"
    if higher == lower:
        return f"the same on both sides, {lower:.1f} mm"
    return f"{higher:.1f} mm and {lower:.1f} mm"


def question() -> Question:
    """Ask for both lines of a blade whose core lies 0.3 mm off centre."""
    return Question(
        ask=(
            "Three bars, 4.2, 3.6 and 4.2 mm thick, are forged to 4.0 mm: the core is "
            "1.2 mm then. The bevels are 32 mm high and leave an edge of 0.4 mm. With "
            "the core in the middle its line lies 7.1 mm above the edge on both sides. "
            "Now the core lies 0.3 mm nearer to the left side. Where are the lines, left "
            "and right?"
        ),
        given=GIVEN,
        tiles=(LOWER, SAME, ADDED, COUNTED_TWICE),
        right=LOWER,
        show=told,
        draw=tile,
        observed="The left line goes up to 12.4 mm, the right one down to 1.8 mm.",
        reasons=(
            Reason(
                "The bevel leans so little that a little across is a long way up it.",
                True,
                "Yes. 0.3 mm across is 5.3 mm up a 3.2° bevel. One line gains what the "
                "other loses.",
            ),
            Reason(
                "The core has grown on the left and shrunk on the right.",
                False,
                "Look at the section: the core is as thick as before, only not in the "
                "middle.",
            ),
            Reason(
                "The left bevel is ground steeper than the right one.",
                False,
                "Both bevels are alike. It is the core between them that moved.",
            ),
        ),
    )


# The move that answers the question: the core goes off centre.
FILM = [
    {**ASKED, "off": round(0.15 - 0.15 * math.cos(math.pi * frame / 13), 4)}
    for frame in range(14)
]
BLADE = {"c": 1.5, "S": 4.5, "e": 0.5, "H": 30.0}
EXAMPLE = {"c": 1.0, "S": 3.4, "e": 0.4, "H": 24.0}


def _higher_working(given: Given) -> list[str]:
    return line_working(given, given["d"])


LINE_HEIGHT = Check(
    ask=(
        "Spine 4.5 mm, core 1.5 mm and in the middle, edge 0.5 mm, bevel 30 mm high. How "
        "high above the edge is the line?"
    ),
    given=BLADE,
    right=LINE,
    slips=(FULL_SPINE, FULL_CORE, NO_EDGE, EDGE_ABOVE_ONLY),
    kind="length",
    prompt="Where along the bevel is the blade exactly as thick as the core?",
    working=line_working,
    other=EXAMPLE,
    tips=(
        "Set all three bars to 1.5 mm, forge to 4.5 mm, set edge and height, and choose.",
        "Draw the section ten times larger, and measure where bevel and core meet.",
        "Half the core less half the edge, against half the spine less half the edge.",
    ),
)
OFF_CENTRE = Check(
    ask="In that blade, how far off centre may the core be and still fill all of the edge?",
    given=BLADE,
    right=OFFSET,
    slips=(BOTH_SIDES, HALF_CORE, CLADDING),
    kind="length",
    prompt="At the edge, how much core stands over on each side?",
    working=permissible_working,
    other=EXAMPLE,
    tips=(
        "Move the core off centre until the hatch comes.",
        "Cut the core from paper, ten times larger, and slide it over the edge.",
        "Half of the core less half of the edge.",
    ),
)
HIGHER_LINE = Check(
    ask="In that blade the core lies 0.35 mm off centre. How high is the higher line?",
    given={**BLADE, "d": 0.35},
    right=HIGHER,
    slips=(ADDED_ABOVE, OTHER_SIDE, HIGHER_FULL_SPINE, SAME),
    kind="length",
    prompt="How far up this bevel does 1 mm across take you?",
    working=_higher_working,
    other={**EXAMPLE, "d": 0.2},
    tips=(
        "Set the offset in the picture above, and choose.",
        "Draw the section ten times larger, with the core 3.5 mm off the middle line.",
        "Half the core plus the offset less half the edge; then as before.",
    ),
)
