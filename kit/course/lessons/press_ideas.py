"""Ways of reading hollows, right and wrong, and what lesson 05 asks.

Given: D, the tool's width, t, the layer's thickness, T, the level bar's thickness, d, the
pattern's depth at the face, q, what is ground off it: all in mm.
"""

import math

from kit.basics.claim import Claim, Kind
from kit.basics.units import in_three, rounded
from kit.course.check import Check, again
from kit.course.lesson import Given, Question, Reason, ideas_of
from kit.course.lessons.press_drawing import tile
from kit.forge.steps.drill import POINT

POINTED = Claim(
    says="A common twist drill has a point of 118°.",
    kind=Kind.PRACTICE,
    unit="radians, half of it",
    holds=("HALF_POINT",),
)
EVENLY = Claim(
    says="What hollows leave of a pattern falls evenly to the far face: half of the rings "
    "are left at half the thickness. That is the kit's simple rule; below narrow dents in "
    "a thick bar real ones end sooner.",
    kind=Kind.OURS,
    source="columns squeezed as a whole, for they fit any tool; how fast a pressed "
    "pattern dies out in steel we found nowhere",
    told=("evenly .*far face", "half of .* at half the thickness"),
)
HALF_POINT = math.radians(POINT / 2)


def deep(given: Given) -> float:
    """Depth of a drill point, mm."""
    return given["D"] / 2 / math.tan(HALF_POINT)


def rings(given: Given) -> float:
    """Layers that a drill point goes through."""
    return deep(given) / given["t"]


def left(given: Given) -> float:
    """Depth of the pattern after grinding, mm."""
    return given["d"] * (1 - given["q"] / given["T"])


def rings_working(given: Given) -> list[str]:
    """Work out, line by line, the whole layers that a drill point goes through."""
    width, t = given["D"], given["t"]
    depth = f"{deep(given):.2f}"  # as fine as a calliper; whoever divides it gets the next
    return [
        "depth = radius / tan(half the point angle)",
        f"= {width / 2:g} mm / tan(59°) = {depth} mm",
        f"rings = depth / layer = {depth} mm / {t:g} mm = {float(depth) / t:.1f}",
        f"whole layers: {math.floor(rings(given))}",
    ]


def spacing_working(given: Given) -> list[str]:
    """Work out how far apart the rings lie, as drilled."""
    t = given["t"]
    return [
        "one layer further down, the cone is wider by layer × tan(half the point angle)",
        f"spacing = {t:g} mm × tan(59°)",
        f"= {t:g} mm × {math.tan(HALF_POINT):.3f}",
        f"= {in_three(t * math.tan(HALF_POINT))} mm",
    ]


def left_working(given: Given) -> list[str]:
    """Work out what grinding leaves of the pattern's depth."""
    d, q, thick = given["d"], given["q"], given["T"]
    return [
        "by the kit's rule depth falls evenly from the face to nothing at the far face",
        "left = depth × (1 - ground off / bar)",
        f"= {d:g} mm × (1 - {q:g} mm / {thick:g} mm)",
        f"= {in_three(left(given))} mm",
    ]


_idea = ideas_of("05")


RINGS = _idea("RIGHT", "divide the depth of the hole by the layer", rings)
ONE_RING = _idea(
    "ONE_RING",
    "think that one hole makes one ring",
    lambda _given: 1.0,
    "How many layers did the drill go through? Each has an edge on the wall of the hole.",
)
ONE_STEEL = _idea(
    "ONE_STEEL",
    "count the rings of one steel only",
    lambda given: rings(given) / 2,
    "Every layer, dark or bright, makes its own ring.",
)
DIAMETER_FOR_RADIUS = _idea(
    "DIAMETER_FOR_RADIUS",
    "take the diameter for the radius",
    lambda given: 2 * rings(given),
    "From the middle of the hole to its rim: how far is that?",
)

WHOLE_RINGS = _idea("RIGHT", "count whole layers", lambda g: math.floor(rings(g)))
WHOLE_DIAMETER = _idea(
    "DIAMETER_FOR_RADIUS",
    DIAMETER_FOR_RADIUS.name,
    lambda given: math.floor(2 * rings(given)),
    DIAMETER_FOR_RADIUS.hint,
)
MULTIPLIED_TAN = _idea(
    "MULTIPLIED_TAN",
    "multiply by the tangent instead of dividing",
    lambda g: math.floor(g["D"] / 2 * math.tan(HALF_POINT) / g["t"]),
    "A drill's point is blunt: is the hole deeper than half its width, or less deep?",
)
FULL_POINT_ANGLE = _idea(
    "FULL_POINT_ANGLE",
    "take the whole angle of the point instead of half of it",
    lambda g: math.floor(g["D"] / 2 / abs(math.tan(2 * HALF_POINT)) / g["t"]),
    "The point leans 59° from the drill's axis on each side.",
)
ROUNDED_UP = _idea(
    "ROUNDED_UP",
    "round up",
    lambda given: math.ceil(rings(given)),
    "Does the drill get through the last layer?",
)

SPACING = _idea(
    "RIGHT",
    "multiply the layer by the tangent of half the point angle",
    lambda given: given["t"] * math.tan(HALF_POINT),
)
DIVIDED_TAN = _idea(
    "DIVIDED_TAN",
    "divide by the tangent instead of multiplying",
    lambda given: given["t"] / math.tan(HALF_POINT),
    "A blunt point is wider than deep: are rings further apart than a layer is thick?",
)
SIN_FOR_TAN = _idea(
    "SIN_FOR_TAN",
    "use the sine for the tangent",
    lambda given: given["t"] * math.sin(HALF_POINT),
    "Which two sides of the triangle do you know: down, and sideways?",
)
THICKNESS_ONLY = _idea(
    "THICKNESS_ONLY",
    "take the layer's own thickness",
    lambda given: given["t"],
    "That would be right on a wall that leans 45°.",
)

LEFT = _idea("RIGHT", "let the depth fall evenly to the far face, by the kit's rule", left)
SUBTRACTED = _idea(
    "SUBTRACTS_DEPTH",
    "subtract what was ground off from the depth",
    lambda given: given["d"] - given["q"],
    "The hollow was cut into the old bar. How deep into the level bar does its bump go?",
)
UNCHANGED = _idea(
    "UNCHANGED",
    "think the pattern runs straight down through the bar",
    lambda given: given["d"],
    "Look at the section: are the waves as high in the middle as at the face?",
)
HALF_BAR = _idea(
    "HALF_BAR",
    "let the pattern end in the middle of the bar",
    lambda given: given["d"] * (1 - 2 * given["q"] / given["T"]),
    "Follow the waves down in the section: where is the last one?",
)

HALF_THICKNESS = _idea(
    "RIGHT", "go to half the thickness of the bar", lambda given: given["T"] / 2
)
HALF_DEPTH = _idea(
    "HALF_DEPTH",
    "go to half the depth of the hollow",
    lambda given: given["d"] / 2,
    "The hollow is gone since the bar is flat. How far down does its bump go?",
)
WHOLE_DEPTH = _idea(
    "WHOLE_DEPTH",
    "go to the depth of the hollow",
    lambda given: given["d"],
    "Grind that much in the picture and count.",
)

QUESTION = Question(
    ask=(
        "A common drill, 6 mm across with a 118° point, is sunk into the face until "
        "its whole point is in: 1.8 mm deep. The layers are 0.30 mm thick. The bar is "
        "forged flat again and etched. Count every layer as a ring, dark or bright, and "
        "the dot in the middle: which face do you expect?"
    ),
    given={"D": 6.0, "t": 0.30},
    tiles=(DIAMETER_FOR_RADIUS, RINGS, ONE_STEEL, ONE_RING),
    right=RINGS,
    show=lambda rings: f"{rounded(rings)} ring" + ("s" if round(rings) > 1 else ""),
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
            "towards the far side: evenly, in the kit's model. Each ring is a line of "
            "equal depth.",
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
            "Grind the face in the picture: in the kit's model rings are left down to the "
            "far face, half of them at half the thickness. Below narrow dents in a thick "
            "bar real ones end sooner, but deeper than a skin.",
        ),
    ),
)
RING_COUNT = Check(
    ask=(
        "A drill of 8 mm with a 118° point goes in until its whole point is in the bar. "
        "The layers are 0.25 mm thick. How many whole layers does it go through?"
    ),
    given={"D": 8.0, "t": 0.25},
    right=WHOLE_RINGS,
    slips=(WHOLE_DIAMETER, MULTIPLIED_TAN, FULL_POINT_ANGLE, ROUNDED_UP),
    kind="count",
    prompt="First: how deep is the hole? It is as wide as the drill, the point is blunt.",
    working=rings_working,
    other={"D": 10.0, "t": 0.4},
    tips=(
        "Set 8 mm and 0.25 mm in the picture and open the working of its rings. Choose.",
        "Draw the point, 8 mm wide, 59° from its axis; measure; divide by 0.25 mm.",
        "Depth from the radius and the tangent of 59°, then divide by the layer.",
    ),
)

RING_SPACING = Check(
    ask=(
        "The same drill of 8 mm, the same layers of 0.25 mm: how far apart do the rings "
        "lie, as drilled?"
    ),
    given={"t": 0.25},
    right=SPACING,
    slips=(DIVIDED_TAN, SIN_FOR_TAN, THICKNESS_ONLY),
    kind="length",
    prompt="One layer further down the wall of the hole: how far sideways is that?",
    working=spacing_working,
    other={"t": 0.4},
    tips=(
        "Set 8 mm and 0.25 mm and open the working below the picture, then choose.",
        "On your drawing of the point, measure sideways from layer to layer.",
        "Layer down, spacing sideways, 59° between the drill's axis and the wall.",
    ),
)

RELIEF_LEFT = Check(
    ask=(
        "A bar forged flat to 6.0 mm has a pattern 1.80 mm deep at its face: six rings of "
        "0.30 mm layers. Then 0.6 mm are ground off. How deep is it at the new face, by "
        "the kit's rule?"
    ),
    given={"d": 1.8, "T": 6.0, "q": 0.6},
    right=LEFT,
    slips=(SUBTRACTED, UNCHANGED, HALF_BAR),
    kind="length",
    prompt="Where in the bar has the pattern no depth at all? And halfway there?",
    working=left_working,
    other={"d": 2.0, "T": 8.0, "q": 2.0},
    tips=(
        "Grind 0.6 mm off in the picture and open the working: each layer is 0.30 mm.",
        "Follow one bent layer in the section with a ruler, at the face and 0.6 mm down.",
        "By the kit's simple rule the depth falls evenly to nothing at the far face.",
    ),
)

HALF_LEFT = Check(
    ask=(
        "By the kit's rule: how much must be ground off the same 6.0 mm bar until half of "
        "its rings are left?"
    ),
    given={"d": 1.8, "T": 6.0},
    right=HALF_THICKNESS,
    slips=(HALF_DEPTH, WHOLE_DEPTH, again(HALF_BAR, lambda given: given["T"] / 4)),
    kind="length",
    prompt="Where in the bar is nothing left? Halfway there, half is left.",
    working=lambda given: [
        "the kit's rule, half left: 1 - ground off / bar = 1/2",
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
