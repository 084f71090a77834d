"""Ways of thinking about a core between claddings, and what lesson 07 asks and says.

Given, all in mm: c, the core's thickness; S, the spine; e, the edge before sharpening;
H, the height of a flat bevel; d, how far the core lies off centre (left out, 0).

A height is that of the line in which a bevel meets the core, above the edge. Two sides
have two lines; where one number must do, it is the lower one's.
"""

from typing import Any

from kit.basics.told import counted
from kit.basics.units import Units, both, format_length, format_thin, in_three
from kit.course.check import again
from kit.course.lesson import Given
from kit.course.worded import Worded
from kit.metal.diffusion import spread as carried

HOT = 1150.0  # °C, of a weld and later heats, as in lesson 08: common practice, no source


def spread(given: Given) -> float:
    """Say how far up a flat bevel 1 mm across the blade takes you, mm."""
    return given["H"] / ((given["S"] - given["e"]) / 2)


def line(given: Given, towards: float = 0.0) -> float:
    """Give a line's height, mm, on a side that the core has come so much nearer to."""
    return (given["c"] / 2 + towards - given["e"] / 2) * spread(given)


def permissible(given: Given) -> float:
    """Give how far off centre the core may be and still fill the whole edge, mm."""
    return (given["c"] - given["e"]) / 2


def core_working(core: float, stack: float, forged: float) -> list[str]:
    """Work out the core's thickness after forging."""
    return [
        "every layer gets thinner as the stack does",
        f"= {core:g} mm × {forged:.4g} mm / {stack:.4g} mm",
        f"= {in_three(core * forged / stack)} mm",
    ]


def line_working(given: Given, towards: float = 0.0) -> list[str]:
    """Work out one line's height on a flat bevel."""
    c, e, d = given["c"], given["e"], towards
    near = "" if not d else f" {'+' if d > 0 else '-'} {in_three(abs(d))} mm"
    height = round(line(given, d), 6) + 0.0  # no -0
    depth = f"(({given['S']:.4g} mm - {e:g} mm) / 2)"
    return [
        "height = (half core - half edge) / ((spine - edge) / 2) × bevel height",
        (
            f"= ({in_three(c / 2)} mm{near} - {in_three(e / 2)} mm) / {depth} "
            f"× {given['H']:g} mm"
        ),
        f"= {in_three(height)} mm" + ("" if height >= 0 else ": below 0, so no core there"),
    ]


def permissible_working(given: Given) -> list[str]:
    """Work out the largest permissible offset."""
    return [
        "the core must still reach across the whole edge",
        (
            f"half core - half edge = {in_three(given['c'] / 2)} mm "
            f"- {in_three(given['e'] / 2)} mm"
        ),
        f"= {permissible(given):.2f} mm",
    ]


def pair_working(given: Given) -> list[str]:
    """Work out both lines' heights on flat bevels."""
    off = given["d"]
    if not off:
        return line_working(given)
    left, right = line_working(given, off), line_working(given, -off)
    return [left[0], f"left {left[1]}", left[2], f"right {right[1]}", right[2]]


def spread_working(given: Given) -> list[str]:
    """Work out how far up a flat bevel a little across the blade takes you."""
    return [
        "bevel height / ((spine - edge) / 2)",
        f"= {given['H']:g} mm / (({given['S']:g} mm - {given['e']:g} mm) / 2)",
        f"= {spread(given):.1f}",
    ]


def towards(offset: float, words: str = " towards the ") -> str:
    """Say to which side the core lies, after `words`; nothing if it is told as 0.00 mm."""
    if abs(offset) < 5e-3:
        return ""
    return words + ("left" if offset > 0 else "right")


def off_centre_working(offset: float, by_work: float, side: str) -> list[str]:
    """Add up what uneven bars and uneven work do, mm."""
    return [
        "uneven bars: (right - left cladding) / 2, after forging",
        f"= {offset - by_work:.2f} mm",
        f"and {by_work:+.2f} mm by forging and grinding",
        f"together = {abs(offset):.2f} mm{side}",
    ]


# How it was found where no formula of a flat bevel holds.
TRACED = [
    "measured on the blade: every place of its side is followed back into the",
    "stack, and the line is where cladding turns into core",
]
WAVY = [
    "the core, wavy, must reach across the edge all along",
    "followed through the dies, on the solid",
]
NO_ROOM = ["a core without cladding on both sides lies where it lies"]

TOLD = Worded(__file__, "07")


def _off(given: Given) -> float:
    return given.get("d", 0.0)


# Two lines, of which the lower one counts.
LOWER = TOLD.idea("LOWER", lambda given: line(given, -_off(given)))
SAME = TOLD.idea("SAME", line)
ADDED = TOLD.idea("ADDED", lambda given: line(given) - _off(given))
COUNTED_TWICE = TOLD.idea("COUNTED_TWICE", lambda given: line(given, -2 * _off(given)))

# A centred core, one line.
LINE = TOLD.idea("LINE", line)
FULL_SPINE = TOLD.idea("FULL_SPINE", lambda given: line(given) / 2)
FULL_CORE = TOLD.idea(
    "FULL_CORE", lambda given: (given["c"] - given["e"] / 2) * spread(given)
)
NO_EDGE = TOLD.idea("NO_EDGE", lambda given: given["c"] / given["S"] * given["H"])
EDGE_ABOVE_ONLY = TOLD.idea(
    "EDGE_ABOVE_ONLY", lambda given: (given["c"] - given["e"]) / given["S"] * given["H"]
)

# How far off the core may be.
OFFSET = TOLD.idea("OFFSET", permissible)
BOTH_SIDES = TOLD.idea("BOTH_SIDES", lambda given: given["c"] - given["e"])
HALF_CORE = TOLD.idea("HALF_CORE", lambda given: given["c"] / 2)
CLADDING = TOLD.idea("CLADDING", lambda given: (given["S"] - given["c"]) / 2)

# The higher of two lines.
HIGHER = TOLD.idea("HIGHER", lambda given: line(given, _off(given)))
ADDED_ABOVE = TOLD.idea("ADDED_ABOVE", lambda given: line(given) + _off(given))
OTHER_SIDE = TOLD.idea("OTHER_SIDE", LOWER.formula)
HIGHER_FULL_SPINE = again(FULL_SPINE, lambda given: line(given, _off(given)) / 2)

# What is said of a change, where the point of it is the core.
NICKEL = (
    "The nickel sheets show as bright lines beside the core. Nickel stays soft in every "
    "quench; such pairs need a heat treatment of their own, tempering too: follow data "
    "sheets."
)
NO_NICKEL = "No nickel between: the core lies right against its cladding."
HELD = "The core reaches the edge on both sides: it is the edge all along."
NO_WAVES = "No dies: the line runs straight along the edge."
FLAT = "Flat: from the edge to the spine one slope, and the line follows from it."
NO_DIES = "Spaced {}; but there are no dies yet: give them a depth first."
WAVES = (
    "The dies push the core aside in turn, and the line waves. What the wave uses up, your "
    "hammer may no longer be off."
)
OTHER_GRIND = "Another grind is thick at another height: the lines move, the core did not."
NO_CLADDING = "No cladding: the whole blade is core steel, and there is no line."
ALL_CLADDING = "The core leaves the edge altogether: the edge is all cladding."


def seam(blade: Any, units: Units) -> str:
    """Say how far carbon has come out of the core, in the forged blade: about √(D t)."""
    if not blade.minutes:
        return "No time at heat: the core's border is drawn sharp."
    far = format_thin(round(carried("C", HOT, blade.minutes) * blade.scale, 2), units)
    hot = f"{counted(round(blade.minutes), 'minute')} at {both(HOT)}"
    return (
        f"{hot}: carbon walked some {far} into the iron, and the border is a grey seam. "
        "The weld stays where it was."
    )


def moved(blade: Any, changed: str, heights: list[str], says: str, units: Units) -> str:
    """Say what a change did to the core's line, or nothing.

    `heights`: of the left and the right line, in words; `says`: the lesson's sentence.
    """
    kinds = {
        "nickel": NICKEL if blade.nickel else NO_NICKEL,
        "wave": WAVES if blade.wave else NO_WAVES,
        "kind": OTHER_GRIND if blade.kind else FLAT,
        "minutes": seam(blade, units),
    }
    if changed in kinds:
        return kinds[changed]
    size = format_length(getattr(blade, changed), units)
    if changed == "spacing":
        each = f"A groove every {size}: the line waves as often."
        return each if blade.wave else NO_DIES.format(size)
    title = type(blade).model_fields[changed].title
    if not blade.clad:
        return ""  # that is the sentence then
    if blade.lost:
        return f"{title} {size}: {says[0].lower()}{says[1:]}"
    one, other = heights
    lines = (
        f"lines {one} and {other} above the edge" if one != other else f"both lines {one}"
    )
    most = format_thin(round(max(blade.permissible, 0.0), 2), units)
    if changed == "off" and not towards(blade.offset):
        return f"The core is in the middle: {lines} up. It may be {most} off."
    return f"{title} {size}: {lines}. The core may be {most} off centre."


# The question: the core lies 0.3 mm off centre.
GIVEN = {"c": 1.2, "S": 4.0, "e": 0.4, "H": 32.0, "d": 0.3}
# The line on the other side, as each idea has it.
OTHER_LINE = {
    round(SAME.value(GIVEN), 6): line(GIVEN),
    round(ADDED.value(GIVEN), 6): line(GIVEN),
    round(LOWER.value(GIVEN), 6): line(GIVEN, 0.3),
    round(COUNTED_TWICE.value(GIVEN), 6): line(GIVEN, 0.6),
}


def told(lower: float) -> str:
    """Write both lines, the left one first."""
    higher = OTHER_LINE[round(lower, 6)]
    if higher == lower:
        return f"left and right {lower:.1f} mm"
    right = "no core" if lower < 0 else f"{lower:.1f} mm"
    return f"left {higher:.1f} mm, right {right}"


def compared(lower: float) -> list[str]:
    """Say of the left and the right line where they are against a centred core's."""
    higher = OTHER_LINE[round(lower, 6)]
    return [f"left: {_against(higher)}", f"right: {_against(lower)}"]


def _against(height: float) -> str:
    change = round(height - line(GIVEN), 6)
    if height < 0 or not change:
        return "as before" if height > 0 else "no core"
    return ("a bit " if abs(change) < 1 else "") + ("higher" if change > 0 else "lower")


# Blades of our own, mm.
BLADE = {"c": 1.5, "S": 4.5, "e": 0.5, "H": 30.0}
EXAMPLE = {"c": 1.0, "S": 3.4, "e": 0.4, "H": 24.0}


LINE_HEIGHT = TOLD.check(
    "LINE_HEIGHT",
    given=BLADE,
    right=LINE,
    slips=(FULL_SPINE, FULL_CORE, NO_EDGE, EDGE_ABOVE_ONLY),
    kind="length",
    working=line_working,
    other=EXAMPLE,
)
OFF_CENTRE = TOLD.check(
    "OFF_CENTRE",
    given=BLADE,
    right=OFFSET,
    slips=(BOTH_SIDES, HALF_CORE, CLADDING),
    kind="length",
    working=permissible_working,
    other=EXAMPLE,
)
HIGHER_LINE = TOLD.check(
    "HIGHER_LINE",
    given={**BLADE, "d": 0.35},
    right=HIGHER,
    slips=(ADDED_ABOVE, OTHER_SIDE, HIGHER_FULL_SPINE, SAME),
    kind="length",
    working=lambda given: line_working(given, given["d"]),
    other={**EXAMPLE, "d": 0.2},
)
