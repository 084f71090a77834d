"""Ways of thinking about a core between claddings, and what lesson 07 asks and says.

Given, all in mm: c, the core's thickness; S, the spine; e, the edge before sharpening;
H, the height of a flat bevel; d, how far the core lies off centre (left out, 0).

A height is that of the line in which a bevel meets the core, above the edge. Two sides
have two lines; where one number must do, it is the lower one's.
"""

from typing import Any

from kit.basics.told import counted
from kit.basics.units import Units, both, format_length, format_thin, in_three
from kit.course.check import Check
from kit.course.lesson import Given, Reason, ideas_of
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

_idea = ideas_of("07")


def _off(given: Given) -> float:
    return given.get("d", 0.0)


# Two lines, of which the lower one counts.
LOWER = _idea(
    "RIGHT",
    "let a little across the blade be a long way up its bevel",
    lambda given: line(given, -_off(given)),
)
SAME = _idea(
    "UNCHANGED",
    "leave both lines where they are when the core moves",
    line,
    "On one side the core has come nearer to the bevel. Where does the bevel meet it now?",
)
ADDED = _idea(
    "ADDED",
    "take the offset itself off the line's height",
    lambda given: line(given) - _off(given),
    "0.3 mm across the blade: how far is that up a bevel that leans only 3°?",
)
COUNTED_TWICE = _idea(
    "COUNTED_TWICE",
    "let one line move by what both lines move together",
    lambda given: line(given, -2 * _off(given)),
    "One face of the core comes 0.3 mm nearer to its bevel, the other 0.3 mm further "
    "from its own. How much of the core is left at the edge?",
)

# A centred core, one line.
LINE = _idea("RIGHT", "compare half thicknesses, less half the edge", line)
FULL_SPINE = _idea(
    "FULL_SPINE",
    "divide by the full spine instead of half of it",
    lambda given: line(given) / 2,
    "One bevel takes only one side's half of the spine away.",
)
FULL_CORE = _idea(
    "FULL_CORE",
    "take the whole core where one side has half of it",
    lambda given: (given["c"] - given["e"] / 2) * spread(given),
    "From the blade's middle to the core's face: how far is that?",
)
NO_EDGE = _idea(
    "NO_EDGE",
    "forget that the edge is not sharp yet",
    lambda given: given["c"] / given["S"] * given["H"],
    "The bevel ends at an edge that has a thickness. From there it begins to climb.",
)
EDGE_ABOVE_ONLY = _idea(
    "EDGE_ABOVE_ONLY",
    "take the edge off the core but not off the spine",
    lambda given: (given["c"] - given["e"]) / given["S"] * given["H"],
    "The bevel climbs from the edge to the spine: how much does it climb in all?",
)

# How far off the core may be.
OFFSET = _idea("RIGHT", "compare half the core with half the edge", permissible)
BOTH_SIDES = _idea(
    "BOTH_SIDES",
    "take all that the core is thicker than the edge",
    lambda given: given["c"] - given["e"],
    "Centred, the core is thicker than the edge on both sides. How much on each?",
)
HALF_CORE = _idea(
    "HALF_CORE",
    "let the core move by half its thickness",
    lambda given: given["c"] / 2,
    "The edge has a thickness, too: the core must reach across all of it.",
)
CLADDING = _idea(
    "CLADDING",
    "let the core move until it comes out through the side",
    lambda given: (given["S"] - given["c"]) / 2,
    "Long before the side it is lost somewhere else. Where is the blade thinnest?",
)

# The higher of two lines.
HIGHER = _idea(
    "RIGHT",
    "let the core's face come nearer to the bevel by the offset",
    lambda given: line(given, _off(given)),
)
ADDED_ABOVE = _idea(
    "ADDED",
    "add the offset itself to the line's height",
    lambda given: line(given) + _off(given),
    "The offset is across the blade, the line's height is up the bevel.",
)
OTHER_SIDE = _idea(
    "OTHER_SIDE",
    "work out the lower line",
    LOWER.formula,
    "On which side has the core come nearer to the bevel?",
)
HIGHER_FULL_SPINE = _idea(
    "FULL_SPINE",
    "divide by the full spine instead of half of it",
    lambda given: line(given, _off(given)) / 2,
    "One bevel takes only one side's half of the spine away.",
)

# What is said of a change, where the point of it is the core.
NICKEL = (
    "The nickel sheets show as bright lines beside the core. Nickel stays soft in every "
    "quench, and such pairs need a heat treatment of their own: follow the data sheets."
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
    return f"{title} {size}: {lines}; the core may be {most} off centre."


# The question: the core lies 0.3 mm off centre.
GIVEN = {"c": 1.2, "S": 4.0, "e": 0.4, "H": 32.0, "d": 0.3}
# The line on the other side, as each idea has it.
OTHER_LINE = {
    round(SAME.value(GIVEN), 6): line(GIVEN),
    round(ADDED.value(GIVEN), 6): line(GIVEN),
    round(LOWER.value(GIVEN), 6): line(GIVEN, 0.3),
    round(COUNTED_TWICE.value(GIVEN), 6): line(GIVEN, 0.6),
}
ASK = (
    "Three bars, 4.2, 3.6 and 4.2 mm thick, are forged to 4.0 mm: the core is "
    "1.2 mm then. The bevels are 32 mm high and leave an edge of 0.4 mm. With "
    "the core in the middle its line lies 7.1 mm above the edge on both sides. "
    "Now the core lies 0.3 mm nearer to the left side. Where are the lines, left "
    "(above in the pictures) and right (below)?"
)
REASONS = (
    Reason(
        "The bevel leans so little that a little across is a long way up it.",
        True,
        "Yes. 0.3 mm across is 5.3 mm up a 3.2° bevel. One line gains what the "
        "other loses.",
    ),
    Reason(
        "The core has grown on the left and shrunk on the right.",
        False,
        "Look at the section: the core is as thick as before, only not in the middle.",
    ),
    Reason(
        "The left bevel is ground steeper than the right one.",
        False,
        "Both bevels are alike. It is the core between them that moved.",
    ),
)


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
        "Set the same blade, then move the core off centre until the hatch comes.",
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
    working=lambda given: line_working(given, given["d"]),
    other={**EXAMPLE, "d": 0.2},
    tips=(
        "Set the same blade and the offset in the picture above, and choose.",
        "Draw the section ten times larger, with the core 3.5 mm off the middle line.",
        "Half the core plus the offset less half the edge; then as before.",
    ),
)
