"""Lesson 01: where the cut meets the layers."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from kit import etch
from kit.billet import Billet
from kit.lesson import Check, Given, Idea, Question, Reason
from kit.lessons import drawing
from kit.lessons.scene import Number, Scene
from kit.picture import Sheet
from kit.stack import Stack
from kit.surface import cut
from kit.trace import trace
from kit.units import Units, format_length

if TYPE_CHECKING:
    from PIL import Image

WIDTH = 60.0
LEAST_LENGTH = 160.0


def block(*, layers: int, thickness: float) -> Billet:
    """Stack a block of 1084 and 15N20 in turn, flat, as clay sheets lie in a brick.

    Parameters
    ----------
    layers : int
        2 to 1000.
    thickness : float
        Of each layer, mm.
    """
    length = max(LEAST_LENGTH, 1.2 * layers * thickness)
    stack = Stack.alternate(
        "1084", "15N20", pieces=layers, thickness=thickness, length=length, width=WIDTH
    )
    return Billet(source=stack)


def scene(
    *,
    layers: int,
    thickness: float,
    angle: float,
    position: float,
    units: Units = Units.MM,
    sunlit: bool = False,
) -> Scene:
    """Saw the block and show it, its cut face, and the numbers."""
    billet = block(layers=layers, thickness=thickness)
    sheet = Sheet(drawing.COLUMNS, drawing.ROWS, sunlit=sunlit)
    panels = drawing.sawn_block(sheet, billet, angle, position, units)
    given = {"t": thickness, "a": angle}
    width = SPREAD.value(given)
    return Scene(
        image=sheet.image,
        alt=_alt(billet, angle, position, width, units),
        numbers=_numbers(given, units),
        panels=panels,
    )


def bands_met(billet: Billet, angle: float, position: float) -> int:
    """Count the layers that the cut crosses before it leaves the block's ends."""
    length, _, height = billet.size
    where = position / 100 * length
    steep = math.tan(math.radians(angle))
    top = min(height / 2, where * steep)
    bottom = max(-height / 2, -(length - where) * steep)
    each = billet.mean_layer
    first = math.floor((bottom + height / 2) / each + 1e-9)
    last = math.ceil((top + height / 2) / each - 1e-9)
    return max(1, last - first)


def _alt(
    billet: Billet, angle: float, position: float, width: float, units: Units
) -> str:
    met = bands_met(billet, angle, position)
    layer = format_length(billet.mean_layer, units)
    return (
        f"A block of {billet.layers} alternating dark and bright layers, each {layer} "
        f"thick, sawn at {angle:g} degrees to the layers. Beside it the cut face: {met} "
        f"bands, each {format_length(width, units)} wide, running left to right. Next to "
        f"it a faint strip of the same block cut square, with bands of {layer}."
    )


def _numbers(given: Given, units: Units) -> tuple[Number, ...]:
    t, a = given["t"], given["a"]
    sine = math.sin(math.radians(a))
    width = t / sine
    return (
        Number("Band width on the cut", format_length(width, units), working(given)),
        Number(
            "Spread",
            f"× {1 / sine:.3g}",
            ["spread = 1 / sin(angle)", f"= 1 / sin({a:g}°)", f"= {1 / sine:.3g}"],
        ),
        Number(
            "Bands in 100 mm of face",
            f"{100 / width:.3g}",
            ["bands = 100 / band width", f"= 100 / {width:.3g}", f"= {100 / width:.3g}"],
        ),
    )


def working(given: Given) -> list[str]:
    """Work the band width out, line by line, in mm."""
    t, a = given["t"], given["a"]
    sine = math.sin(math.radians(a))
    return [
        "band width = layer / sin(angle)",
        f"= {t:g} mm / sin({a:g}°)",
        f"= {t:g} mm / {sine:.3f}",
        f"= {t / sine:.3g} mm",
    ]


def _sine(given: Given) -> float:
    return math.sin(math.radians(given["a"]))


SPREAD = Idea(
    code="RIGHT",
    name="divide the layer by the sine of the angle",
    formula=lambda given: given["t"] / _sine(given),
    hint="",
    lesson="01",
)
NO_CHANGE = Idea(
    code="NO_CHANGE",
    name="take the layer's own thickness, as if every cut were square",
    formula=lambda given: given["t"],
    hint="How far must a saw travel to get through one layer, if it goes in on a slant?",
    lesson="01",
    vote="01-60-degrees",
)
COS_FOR_SIN = Idea(
    code="COS_FOR_SIN",
    name="divide by the cosine of the angle instead of the sine",
    formula=lambda given: given["t"] / math.cos(math.radians(given["a"])),
    hint=(
        "That would leave the bands nearly unchanged for a flat cut. Try it on the "
        "slider: is it so? The angle is measured from the layers."
    ),
    lesson="01",
    vote="01-60-degrees",
)
MULTIPLIED = Idea(
    code="MULTIPLIED",
    name="multiply by the sine instead of dividing",
    formula=lambda given: given["t"] * _sine(given),
    hint="Could a band on a cut ever be narrower than the layer is thick?",
    lesson="01",
    vote="01-60-degrees",
)
TAN_FOR_SIN = Idea(
    code="TAN_FOR_SIN",
    name="use tan for sin: that measures along the layers, not along the cut",
    formula=lambda given: given["t"] / math.tan(math.radians(given["a"])),
    hint="Which side of the triangle does the saw run along?",
    lesson="01",
    vote="01-60-degrees",
)
RADIANS = Idea(
    code="RADIANS",
    name="leave the calculator on radians",
    formula=lambda given: given["t"] / abs(math.sin(given["a"])),
    hint="Set it to degrees and press the same keys.",
    lesson="01",
)


def tile(width: float) -> tuple[Image.Image, str]:
    """Draw the cut face that somebody with this idea of the band width expects."""
    billet = block(layers=max(2, math.ceil(40 / width)), thickness=width)
    plane = cut(billet.size, angle=90, columns=200, rows=150, pixel=drawing.TRUE_SIZE)
    sheet = Sheet(200, 150)
    sheet.steel(trace(billet, plane, etch.tones(billet.source.steels)), (0, 0))
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
        tiles=(NO_CHANGE, COS_FOR_SIN, SPREAD, MULTIPLIED),
        right=SPREAD,
        show=lambda width: f"bands {format_length(width, units)}",
        draw=tile,
        observed="Sawn at 30° the bands are twice as wide: the layer divided by sin 30°.",
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
    other={"t": 3.0, "a": 40.0},
    tips=(
        "Set the layer to 2.0 mm and the cut to 25° in the picture above, then choose.",
        "Set the picture to 2.0 mm and 25° and hold its ruler to one band, or use the "
        "print. Read as well as you can: 5 % is near enough.",
        "Layer divided by the sine of the angle. 2 % is near enough.",
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
        "Spread = 1 / sin(angle). Which angle has a sine of one third?",
    ),
)


def remark(changed: str, state: dict[str, float]) -> str:
    """Say what a change of one control did, where that is the point of it."""
    if changed == "position":
        return (
            "The saw moved along and the face did not change: flat layers are alike "
            "everywhere along the bar."
        )
    if changed == "angle" and state["angle"] == drawing.SQUARE:
        return "A square cut shows the layers at their true thickness."
    return ""
