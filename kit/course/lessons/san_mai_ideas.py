"""Ways of thinking about a core between claddings, right and wrong.

Given, all in mm: c, the core's thickness; S, the spine; e, the edge before sharpening;
H, the height of a flat bevel; d, how far the core lies off centre (left out, 0).

A height is that of the line in which a bevel meets the core, above the edge. Two sides
have two lines; where one number must do, it is the lower one's.
"""

from __future__ import annotations

from kit.course.lesson import Given, ideas_of


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
        f"{core:g} mm × {forged:.4g} / {stack:.4g}",
        f"= {core * forged / stack:.3g} mm",
    ]


def line_working(given: Given, towards: float = 0.0) -> list[str]:
    """Work out one line's height on a flat bevel."""
    c, e, d = given["c"], given["e"], towards
    near = "" if not d else f" {'+' if d > 0 else '-'} {abs(d):.3g}"
    height = round(line(given, d), 6) + 0.0  # no -0
    depth = f"(({given['S']:.4g} - {e:g}) / 2)"
    return [
        "height = (half core - half edge) / ((spine - edge) / 2) × bevel height",
        f"= ({c / 2:.3g}{near} - {e / 2:.3g}) / {depth} × {given['H']:g} mm",
        f"= {height:.3g} mm" + ("" if height >= 0 else ": below 0, so no core there"),
    ]


def permissible_working(given: Given) -> list[str]:
    """Work out the largest permissible offset."""
    return [
        "the core must still reach across the whole edge",
        f"half core - half edge = {given['c'] / 2:.3g} - {given['e'] / 2:.3g}",
        f"= {permissible(given):.2f} mm",
    ]


_idea = ideas_of("07")


def _off(given: Given) -> float:
    return given.get("d", 0.0)


# Two lines, of which the lower one counts.
LOWER = _idea(
    "RIGHT",
    "let a little across the blade be a long way up its bevel",
    lambda given: line(given, -_off(given)),
    "",
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
    "07-low-side",
)

# A centred core, one line.
LINE = _idea("RIGHT", "compare half thicknesses, less half the edge", line, "")
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
OFFSET = _idea("RIGHT", "compare half the core with half the edge", permissible, "")
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
    "",
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
