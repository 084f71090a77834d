"""Ways of reading hollows, right and wrong.

Given: D, the tool's width, t, the layer's thickness, T, the level bar's thickness, d, the
relief's depth at the face, q, what is ground off it: all in mm.
"""

from __future__ import annotations

import math

from kit.course.lesson import Given, ideas_of

POINT = 118.0  # degrees, of a common twist drill
HALF_POINT = math.radians(POINT / 2)


def deep(given: Given) -> float:
    """Depth of a drill point, mm."""
    return given["D"] / 2 / math.tan(HALF_POINT)


def rings(given: Given) -> float:
    """Layers that a drill point goes through."""
    return deep(given) / given["t"]


def left(given: Given) -> float:
    """Depth of the relief after grinding, mm."""
    return given["d"] * (1 - given["q"] / given["T"])


def rings_working(given: Given) -> list[str]:
    """Work the whole rings of a drill point out, line by line."""
    width, t = given["D"], given["t"]
    return [
        "depth = radius / tan(half the point angle)",
        f"= {width / 2:g} mm / tan(59°) = {deep(given):.2f} mm",
        f"rings = depth / layer = {deep(given):.2f} / {t:g} = {rings(given):.1f}",
        f"whole rings: {math.floor(rings(given))}",
    ]


def spacing_working(given: Given) -> list[str]:
    """Work out how far apart the rings lie, as drilled."""
    t = given["t"]
    return [
        "one layer further down, the cone is wider by layer × tan(half the point angle)",
        f"spacing = {t:g} mm × tan(59°)",
        f"= {t:g} mm × {math.tan(HALF_POINT):.3f}",
        f"= {t * math.tan(HALF_POINT):.3g} mm",
    ]


def left_working(given: Given) -> list[str]:
    """Work out what grinding leaves of the relief."""
    d, q, thick = given["d"], given["q"], given["T"]
    return [
        "relief falls evenly from the face to nothing at the far face",
        "left = depth × (1 - ground off / bar)",
        f"= {d:g} mm × (1 - {q:g} / {thick:g})",
        f"= {left(given):.3g} mm",
    ]


_idea = ideas_of("05")


RINGS = _idea("RIGHT", "divide the depth of the hole by the layer", rings, "")
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

WHOLE_RINGS = _idea("RIGHT", "count whole layers", lambda g: math.floor(rings(g)), "")
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
    "",
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

LEFT = _idea("RIGHT", "let the relief fall evenly to the far face", left, "")
SUBTRACTED = _idea(
    "SUBTRACTS_DEPTH",
    "subtract what was ground off from the depth",
    lambda given: given["d"] - given["q"],
    "The hollow was cut into the old bar. How deep into the level bar does its bump go?",
    "05-ground",
)
UNCHANGED = _idea(
    "UNCHANGED",
    "think the pattern runs straight down through the bar",
    lambda given: given["d"],
    "Look at the section: are the waves as high in the middle as at the face?",
    "05-ground",
)
HALF_BAR = _idea(
    "HALF_BAR",
    "let the relief end in the middle of the bar",
    lambda given: given["d"] * (1 - 2 * given["q"] / given["T"]),
    "Follow the waves down in the section: where is the last one?",
)
