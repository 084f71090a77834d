"""Ways of thinking about a ground bevel, right and wrong.

Given: S, the spine, E, the edge before sharpening, B, the height of the bevel, t, the
thickness of a layer: all in mm.
"""

from __future__ import annotations

import math

from kit.course.lesson import Given, ideas_of


def depth(given: Given) -> float:
    """Steel that is ground off one side at the edge, mm."""
    return (given["S"] - given["E"]) / 2


def lines(given: Given) -> float:
    """Layers that one bevel goes through."""
    return depth(given) / given["t"]


def spacing(given: Given) -> float:
    """Spacing of the lines along a flat bevel, mm."""
    return math.hypot(given["B"], depth(given)) / lines(given)


def lines_working(given: Given) -> list[str]:
    """Work out the lines on one side."""
    return [
        "one side loses (spine - edge) / 2 at the edge",
        f"= ({given['S']:g} - {given['E']:g}) / 2 = {depth(given):.3g} mm",
        f"lines = {depth(given):.3g} mm / layer = {depth(given):.3g} / {given['t']:.3g}",
        f"= {lines(given):.3g}",
    ]


def whole_lines_working(given: Given) -> list[str]:
    """Work out the whole lines on one side."""
    return [*lines_working(given), f"whole lines: {WHOLE.value(given):g}"]


def spacing_working(given: Given) -> list[str]:
    """Work out how far apart the lines are on a flat bevel."""
    return [
        f"one side loses ({given['S']:g} - {given['E']:g}) / 2 = {depth(given):.3g} mm",
        "along the bevel: root of (height squared + that squared)",
        f"= {math.hypot(given['B'], depth(given)):.2f} mm",
        f"lines on it = {depth(given):.3g} mm / {given['t']:g} mm = {lines(given):.3g}",
        f"spacing = {spacing(given):.3g} mm",
    ]


_idea = ideas_of("06")


def _whole(value: float) -> float:
    return math.floor(value + 1e-9)


LINES = _idea("RIGHT", "count the layers that one bevel goes through", lines, "")
LIKE_FACE = _idea(
    "LIKE_FACE",
    "expect the blade to show the face of the bar",
    lambda _given: 0.0,
    "The face of the bar is one layer. How many more does the wheel go through?",
    "06-ricasso",
)
LIKE_SPINE = _idea(
    "LIKE_SPINE",
    "put the lines as close as the layers lie in the bar",
    lambda given: given["B"] / given["t"],
    "That is the spacing of a square cut. How does the bevel lie to the layers?",
    "06-ricasso",
)
BOTH_SIDES = _idea(
    "BOTH_SIDES",
    "count the layers of both bevels on one side",
    lambda given: 2 * lines(given),
    "The wheel takes half from this side and half from the other.",
)

WHOLE = _idea(
    "RIGHT",
    "count the whole layers that one bevel goes through",
    lambda given: _whole(lines(given)),
    "",
)
WHOLE_BOTH = _idea(
    "BOTH_SIDES",
    "count the layers of both bevels on one side",
    lambda given: _whole(2 * lines(given)),
    "The wheel takes half from this side and half from the other.",
)
WHOLE_NO_EDGE = _idea(
    "NO_EDGE",
    "grind down to nothing and forget the edge that is left",
    lambda given: _whole(given["S"] / 2 / given["t"]),
    "The edge is not ground to nothing before it is sharpened. What is left there?",
)
WHOLE_SPINE = _idea(
    "WHOLE_SPINE",
    "count all layers of the bar",
    lambda given: _whole(given["S"] / given["t"]),
    "Do the layers in the middle of the bar come out on this side?",
)
ROUNDED_UP = _idea(
    "ROUNDED_UP",
    "round up",
    lambda given: math.ceil(lines(given)),
    "Does the wheel get through the last layer?",
)

SPACING = _idea("RIGHT", "share the bevel's length out among its lines", spacing, "")
HALF_SPACING = _idea(
    "BOTH_SIDES",
    "share the bevel out among the lines of both sides",
    lambda given: spacing(given) / 2,
    "How many lines does this one side have?",
)
NO_EDGE = _idea(
    "NO_EDGE",
    "let the bevel run down to nothing",
    lambda given: given["B"] / (given["S"] / 2 / given["t"]),
    "How thick is the edge before it is sharpened?",
)
AS_IN_BAR = _idea(
    "LIKE_SPINE",
    "take the layer's own thickness",
    lambda given: given["t"],
    "That is what a square cut shows. The bevel is a shallow one.",
)
