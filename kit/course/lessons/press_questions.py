"""What lesson 05 asks: the prediction, the checks, and the move that answers."""

from __future__ import annotations

from typing import TYPE_CHECKING

from kit.course.check import Check
from kit.course.lesson import Idea, Question, Reason
from kit.course.lessons import press_ideas as ideas
from kit.course.lessons.press import BALL, DRILL
from kit.forge.billet import Billet
from kit.forge.stack import Layer, Stack
from kit.forge.steps import Press
from kit.forge.steps.tool import drill_depth
from kit.metal import etch
from kit.section.picture import Sheet
from kit.section.surface import Plane
from kit.section.trace import see

if TYPE_CHECKING:
    from PIL import Image

THICK, ACROSS, SPACING = 8.0, 6.0, 12.0


def tile(rings: float) -> tuple[Image.Image, str]:
    """Draw the face that somebody who expects this many rings expects."""
    count = round(rings)
    layer = drill_depth(ACROSS) / count
    heights = [layer / 2, *[layer] * count]
    heights.append(THICK - sum(heights))
    names = ("1084", "15N20")
    bars = [
        Layer(steel=names[number % 2], thickness=height)
        for number, height in enumerate(heights)
    ]
    stack = Stack(layers=bars[::-1], length=2 * SPACING, width=40)
    drill = Press(tool="drill point", across=ACROSS, spacing=SPACING, faces="top")
    billet = Billet(source=stack).then(drill)
    face = Plane(
        size=billet.size,
        centre=(SPACING / 2, 0.0, billet.size.thickness / 2),
        right=(1.0, 0.0, 0.0),
        up=(0.0, 1.0, 0.0),
        columns=200,
        rows=150,
        pixel=0.052,
    )
    sheet = Sheet(200, 150)
    sheet.steel(see(billet, face, etch.tones(stack.steels)), (0, 0))
    ring = "one ring" if count == 1 else f"{count} rings, dark and bright in turn"
    return sheet.image, f"A face with a round figure in its middle: {ring}."


def question() -> Question:
    """Ask for the rings of a 6 mm drill point in layers of 0.30 mm."""
    return Question(
        ask=(
            "A common drill, 6 mm across with a 118° point, is sunk into the face until "
            "its whole point is in: 1.8 mm deep. The layers are 0.30 mm thick. The bar is "
            "forged flat again and etched. Which face do you expect?"
        ),
        given={"D": ACROSS, "t": 0.30},
        tiles=(ideas.DIAMETER_FOR_RADIUS, ideas.RINGS, ideas.ONE_STEEL, ideas.ONE_RING),
        right=ideas.RINGS,
        show=lambda rings: f"{rings:.0f} ring" + ("s" if round(rings) > 1 else ""),
        draw=tile,
        observed=(
            "Six rings: the hole is 1.80 mm deep and goes through six layers of 0.30 mm. "
            "Forged flat, the deepest comes up in the middle."
        ),
        reasons=(
            Reason(
                "The bump goes through the whole bar, and the face cuts it like a map.",
                True,
                "Yes. The layers under the hole were pushed up to the face, less and less "
                "towards the far side. Each ring is a line of equal depth.",
            ),
            Reason(
                "The drill heats the steel and leaves rings.",
                False,
                "Heat leaves no layers. Look at the section: the rings are where bent "
                "layers come out at the face.",
            ),
            Reason(
                "Only the skin of the bar is patterned.",
                False,
                "Grind the face in the picture: rings are left down to the far face, "
                "half of them at half the thickness.",
            ),
        ),
    )


_START = {"layer": 0.3, "before": 8.0, "after": 6.0, "way": 0, "faces": 0, "spacing": 12.0}
_START |= {"ground": 0.0, "line": 0.0, "depth": 0.0, "across": ACROSS}

# The move that answers: a plain face, then the drill goes in until its whole point is.
FILM = [
    {**_START, "tool": BALL},
    *({**_START, "tool": DRILL, "across": 3 + step / 2} for step in range(6)),
    {**_START, "tool": DRILL, "depth": 1.8},
]

RING_COUNT = Check(
    ask=(
        "An 8 mm drill with a 118° point goes in until its whole point is in the bar. The "
        "layers are 0.25 mm thick. How many whole rings?"
    ),
    given={"D": 8.0, "t": 0.25},
    right=ideas.WHOLE_RINGS,
    slips=(
        ideas.WHOLE_DIAMETER,
        ideas.MULTIPLIED_TAN,
        ideas.FULL_POINT_ANGLE,
        ideas.ROUNDED_UP,
    ),
    kind="count",
    prompt="First: how deep is the hole? It is as wide as the drill, the point is blunt.",
    working=ideas.rings_working,
    other={"D": 10.0, "t": 0.4},
    tips=(
        "Set 8 mm and 0.25 mm in the picture, count the rings, then choose.",
        "Draw the point, 8 mm wide, 59° from its axis; measure its depth, divide by 0.25.",
        "Depth from the radius and the tangent of 59°, then divide by the layer.",
    ),
)

RING_SPACING = Check(
    ask="The same drill, the same layers: how far apart do the rings lie, as drilled?",
    given={"t": 0.25},
    right=ideas.SPACING,
    slips=(ideas.DIVIDED_TAN, ideas.SIN_FOR_TAN, ideas.THICKNESS_ONLY),
    kind="length",
    prompt="One layer further down the wall of the hole: how far sideways is that?",
    working=ideas.spacing_working,
    other={"t": 0.4},
    tips=(
        "Set 8 mm and 0.25 mm and open the working below the picture, then choose.",
        "On your drawing of the point, measure sideways from layer to layer.",
        "Layer down, spacing sideways, 59° between the drill's axis and the wall.",
    ),
)

RELIEF_LEFT = Check(
    ask=(
        "A bar forged flat to 6.0 mm has 1.80 mm of relief at its face: six rings of "
        "0.30 mm layers. Then 0.6 mm are ground off. How deep is it at the new face?"
    ),
    given={"d": 1.8, "T": 6.0, "q": 0.6},
    right=ideas.LEFT,
    slips=(ideas.SUBTRACTED, ideas.UNCHANGED, ideas.HALF_BAR),
    kind="length",
    prompt="Where in the bar is the relief nothing at all? And half-way there?",
    working=ideas.left_working,
    other={"d": 2.0, "T": 8.0, "q": 2.0},
    tips=(
        "Grind in the picture and read the rings left: each stands for 0.30 mm.",
        "Follow one bent layer in the section with a ruler, at the face and 0.6 mm down.",
        "The relief falls evenly from the face to nothing at the far face.",
    ),
)

HALF_LEFT = Check(
    ask="How much must be ground off the same 6.0 mm bar until half of its rings are left?",
    given={"d": 1.8, "T": 6.0},
    right=Idea(
        code="RIGHT",
        name="go to half the thickness of the bar",
        formula=lambda given: given["T"] / 2,
        hint="",
        lesson="05",
    ),
    slips=(
        Idea(
            code="HALF_DEPTH",
            name="go to half the depth of the hollow",
            formula=lambda given: given["d"] / 2,
            hint="The hollow is gone since the bar is flat. How far down does its bump go?",
            lesson="05",
            vote="05-ground",
        ),
        Idea(
            code="WHOLE_DEPTH",
            name="go to the depth of the hollow",
            formula=lambda given: given["d"],
            hint="Grind that much in the picture and count.",
            lesson="05",
        ),
        Idea(
            code="HALF_BAR",
            name="let the relief end in the middle of the bar",
            formula=lambda given: given["T"] / 4,
            hint=ideas.HALF_BAR.hint,
            lesson="05",
        ),
    ),
    kind="length",
    prompt="Where in the bar is nothing left? Half-way there, half is left.",
    working=lambda given: [
        "half left: 1 - ground off / bar = 1/2",
        f"ground off = bar / 2 = {given['T']:g} mm / 2",
        f"= {given['T'] / 2:g} mm",
    ],
    other={"d": 2.0, "T": 9.0},
    tips=(
        "Grind in the picture until half of the rings are left, then choose.",
        "Find in the section where a layer is bent half as much as at the face.",
        "Put one half for the rings left into the rule for grinding.",
    ),
)
