"""Ways of thinking about a ground bevel; the checks; and what lesson 06 says of a move.

Given: S, the spine, E, the edge before sharpening, B, the height of the bevel, t, the
thickness of a layer: all in mm.
"""

import math
from typing import Any

from kit.basics.told import counted
from kit.basics.units import Units, format_length, in_figures, in_three
from kit.course.check import again
from kit.course.lesson import Given
from kit.course.worded import Worded
from kit.metal.eye import EYE_300
from kit.section.grind import KINDS
from kit.shop.bought import FLAT


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
        f"= ({given['S']:g} mm - {given['E']:g} mm) / 2 = {in_three(depth(given))} mm",
        f"lines = depth / layer = {depth(given):.4g} mm / {given['t']:.5g} mm",
        f"= {in_three(lines(given))}",
    ]


def whole_lines_working(given: Given) -> list[str]:
    """Work out the whole lines on one side."""
    return [*lines_working(given), f"whole lines: {WHOLE.value(given):g}"]


def spacing_working(given: Given) -> list[str]:
    """Work out how far apart the lines are on a flat bevel."""
    return [
        "one side loses (spine - edge) / 2 at the edge",
        f"= ({given['S']:g} mm - {given['E']:g} mm) / 2 = {in_three(depth(given))} mm",
        "along the bevel: root of (height squared + that squared)",
        f"= {math.hypot(given['B'], depth(given)):.2f} mm",
        f"lines on it = {depth(given):.4g} mm / {given['t']:g} mm = {lines(given):.4g}",
        f"spacing = {math.hypot(given['B'], depth(given)):.2f} mm / {lines(given):.4g}",
        f"= {in_three(spacing(given))} mm",
    ]


TOLD = Worded(__file__, "06")


def _whole(value: float) -> float:
    return math.floor(value + 1e-9)


LINES = TOLD.idea("LINES", lines)
LIKE_FACE = TOLD.idea("LIKE_FACE", lambda _given: 0.0)
LIKE_SPINE = TOLD.idea("LIKE_SPINE", lambda given: given["B"] / given["t"])
BOTH_SIDES = TOLD.idea("BOTH_SIDES", lambda given: 2 * lines(given))

WHOLE = TOLD.idea("WHOLE", lambda given: _whole(lines(given)))
WHOLE_BOTH = again(BOTH_SIDES, lambda given: _whole(2 * lines(given)))
WHOLE_NO_EDGE = TOLD.idea(
    "WHOLE_NO_EDGE", lambda given: _whole(given["S"] / 2 / given["t"])
)
WHOLE_SPINE = TOLD.idea("WHOLE_SPINE", lambda given: _whole(given["S"] / given["t"]))
ROUNDED_UP = TOLD.idea("ROUNDED_UP", lambda given: math.ceil(lines(given)))

SPACING = TOLD.idea("SPACING", spacing)
HALF_SPACING = TOLD.idea("HALF_SPACING", lambda given: spacing(given) / 2)
NO_EDGE = TOLD.idea("NO_EDGE", lambda given: given["B"] / (given["S"] / 2 / given["t"]))
AS_IN_BAR = TOLD.idea("AS_IN_BAR", lambda given: given["t"])


# What is said when a control was moved, where that is the point of it.
NO_BEVEL = "The edge is as thick as the spine: no bevel, no lines."
GREY = "More layers are finer, not better: this bevel looks even grey to the eye."
PLAIN = "The bar: its face is one layer, so there is nothing to see."
SAVED_NOTHING = "That much clean-up goes as deep as the wheel would: forging saved nothing."
BENT = "Forged in, the layers bend along with the bevel; only the clean-up cuts them."
SURVIVE = "You will not get this face. You get the one underneath, and the bevel's lines."
SAME = "Same layers everywhere: the spine cuts them square, the bevel at a slant."
GRINDS = (
    "Flat: one slope from the edge to the spine, its lines evenly apart.",
    "Above the bevel the blade keeps the bar's face: there are no lines.",
    "Hollow: steep at the top, shallow at the edge, so the lines widen towards the edge.",
    "Convex: shallow at the top, steep at the edge, so the lines crowd at the edge.",
)

# Blades of our own, mm.
_ASKED = {"S": 5.0, "E": 0.5, "B": 36.0, "t": 0.06}
_OTHER = {"S": 6.0, "E": 1.0, "B": 40.0, "t": 0.08}

LINE_COUNT = TOLD.check(
    "LINE_COUNT",
    given=_ASKED,
    right=WHOLE,
    slips=(WHOLE_BOTH, WHOLE_SPINE, WHOLE_NO_EDGE, ROUNDED_UP),
    kind="count",
    working=whole_lines_working,
    other=_OTHER,
)

LINE_SPACING = TOLD.check(
    "LINE_SPACING",
    given=_ASKED,
    right=SPACING,
    slips=(HALF_SPACING, NO_EDGE, AS_IN_BAR),
    kind="length",
    working=spacing_working,
    other=_OTHER,
)


LENGTHS = ("bevel", "wheel", "edge", "spine", "height", "cleaned")
# Why a control changes nothing, when, and which.
SHUTS = {
    "Nothing is forged in: there is no such clean-up.": (
        lambda job: not job.forged, "cleaned"
    ),
    "A flat grind goes up to the spine.": (
        lambda job: KINDS[job.kind] == "flat", "bevel"
    ),
    "Only a hollow grind is of a wheel.": (
        lambda job: KINDS[job.kind] != "hollow", "wheel"
    ),
    "The edge is as thick as the spine: no bevel.": (
        lambda job: not job.depth, "kind", "bevel", "wheel", "forged", "cleaned"
    ),
}  # fmt: skip


def moved(lesson: Any, changed: str, units: Units) -> str:
    """Say what a move did to the bevel's lines.

    Parameters
    ----------
    lesson : BevelsLesson
        After the move.
    changed : str
        The control.
    units : Units
    """
    if lesson.depth == 0:
        return NO_BEVEL
    if lesson.bought == FLAT and lesson.crossed.spacing < EYE_300:
        return GREY
    if changed in {"bought", "shown"}:
        if lesson.bought != FLAT:
            return SURVIVE
        return PLAIN if lesson.shown else SAME
    size = format_length(getattr(lesson, changed), units) if changed in LENGTHS else ""
    if changed in {"forged", "cleaned"}:
        return _forged(lesson, changed, size)
    return (
        _ground(lesson, changed, size)
        or f"{_named(lesson, changed, size)}: {_lines(lesson)}"
    )


def _ground(lesson: Any, changed: str, size: str) -> str:
    kind = KINDS[lesson.kind]
    points = {
        "kind": (True, GRINDS[lesson.kind]),
        "bevel": (
            kind == "flat",
            f"Set to {size}; but a flat grind goes up to the spine all the same.",
        ),
        "wheel": (
            kind != "hollow",
            f"A wheel of {size} is for a hollow grind, and this one is {kind}.",
        ),
        "taper": (
            lesson.taper > 0,
            f"Tapered by {lesson.taper:g} %: fewer layers to cross towards the tip.",
        ),
    }
    holds, words = points.get(changed, (False, ""))
    return words if holds else ""


def _forged(lesson: Any, changed: str, size: str) -> str:
    if lesson.forged:
        return SAVED_NOTHING if lesson.cleaned >= lesson.depth else BENT
    if changed == "cleaned":
        return f"Nothing is forged in, so {size} of clean-up counts for nothing."
    return f"All ground: the wheel goes through {in_three(lesson.crossed.lines)} layers."


def _named(lesson: Any, changed: str, size: str) -> str:
    points = {"layers": f"{lesson.layers} layers", "taper": "No taper"}
    return points.get(changed) or f"{type(lesson).model_fields[changed].title} {size}"


def _lines(lesson: Any) -> str:
    """Say how many lines one side gets, and how much wider than the layers they lie."""
    count, spacing, spread = lesson.crossed
    flat = "" if lesson.bought == FLAT else "were the layers flat, "
    if math.isinf(spacing):
        return "the bevel crosses no layer."
    met = counted(in_figures(count, 3), "layer")
    return f"{flat}the bevel crosses {met}, each {spread:.1f} times as wide as thick."
