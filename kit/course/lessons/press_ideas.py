"""Ways of reading hollows, right and wrong, and what lesson 05 asks.

Given: D, the tool's width, t, the layer's thickness, T, the level bar's thickness, d, the
pattern's depth at the face, q, what is ground off it: all in mm.
"""

import math

from kit.basics.claim import Claim, Kind
from kit.basics.units import in_three, rounded
from kit.course.check import again
from kit.course.lesson import Given
from kit.course.lessons.press_drawing import tile
from kit.course.worded import Worded
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


TOLD = Worded(__file__, "05")


RINGS = TOLD.idea("RINGS", rings)
ONE_RING = TOLD.idea("ONE_RING", lambda _given: 1.0)
ONE_STEEL = TOLD.idea("ONE_STEEL", lambda given: rings(given) / 2)
DIAMETER_FOR_RADIUS = TOLD.idea("DIAMETER_FOR_RADIUS", lambda given: 2 * rings(given))

WHOLE_RINGS = TOLD.idea("WHOLE_RINGS", lambda g: math.floor(rings(g)))
WHOLE_DIAMETER = again(DIAMETER_FOR_RADIUS, lambda given: math.floor(2 * rings(given)))
MULTIPLIED_TAN = TOLD.idea(
    "MULTIPLIED_TAN", lambda g: math.floor(g["D"] / 2 * math.tan(HALF_POINT) / g["t"])
)
FULL_POINT_ANGLE = TOLD.idea(
    "FULL_POINT_ANGLE",
    lambda g: math.floor(g["D"] / 2 / abs(math.tan(2 * HALF_POINT)) / g["t"]),
)
ROUNDED_UP = TOLD.idea("ROUNDED_UP", lambda given: math.ceil(rings(given)))

SPACING = TOLD.idea("SPACING", lambda given: given["t"] * math.tan(HALF_POINT))
DIVIDED_TAN = TOLD.idea("DIVIDED_TAN", lambda given: given["t"] / math.tan(HALF_POINT))
SIN_FOR_TAN = TOLD.idea("SIN_FOR_TAN", lambda given: given["t"] * math.sin(HALF_POINT))
THICKNESS_ONLY = TOLD.idea("THICKNESS_ONLY", lambda given: given["t"])

LEFT = TOLD.idea("LEFT", left)
SUBTRACTED = TOLD.idea("SUBTRACTED", lambda given: given["d"] - given["q"])
UNCHANGED = TOLD.idea("UNCHANGED", lambda given: given["d"])
HALF_BAR = TOLD.idea(
    "HALF_BAR", lambda given: given["d"] * (1 - 2 * given["q"] / given["T"])
)

HALF_THICKNESS = TOLD.idea("HALF_THICKNESS", lambda given: given["T"] / 2)
HALF_DEPTH = TOLD.idea("HALF_DEPTH", lambda given: given["d"] / 2)
WHOLE_DEPTH = TOLD.idea("WHOLE_DEPTH", lambda given: given["d"])

QUESTION = TOLD.question(
    given={"D": 6.0, "t": 0.30},
    tiles=(DIAMETER_FOR_RADIUS, RINGS, ONE_STEEL, ONE_RING),
    right=RINGS,
    show=lambda rings: f"{rounded(rings)} ring" + ("s" if round(rings) > 1 else ""),
    draw=tile,
)
RING_COUNT = TOLD.check(
    "RING_COUNT",
    given={"D": 8.0, "t": 0.25},
    right=WHOLE_RINGS,
    slips=(WHOLE_DIAMETER, MULTIPLIED_TAN, FULL_POINT_ANGLE, ROUNDED_UP),
    kind="count",
    working=rings_working,
    other={"D": 10.0, "t": 0.4},
)

RING_SPACING = TOLD.check(
    "RING_SPACING",
    given={"t": 0.25},
    right=SPACING,
    slips=(DIVIDED_TAN, SIN_FOR_TAN, THICKNESS_ONLY),
    kind="length",
    working=spacing_working,
    other={"t": 0.4},
)

RELIEF_LEFT = TOLD.check(
    "RELIEF_LEFT",
    given={"d": 1.8, "T": 6.0, "q": 0.6},
    right=LEFT,
    slips=(SUBTRACTED, UNCHANGED, HALF_BAR),
    kind="length",
    working=left_working,
    other={"d": 2.0, "T": 8.0, "q": 2.0},
)

HALF_LEFT = TOLD.check(
    "HALF_LEFT",
    given={"d": 1.8, "T": 6.0},
    right=HALF_THICKNESS,
    slips=(HALF_DEPTH, WHOLE_DEPTH, again(HALF_BAR, lambda given: given["T"] / 4)),
    kind="length",
    working=lambda given: [
        "the kit's rule, half left: 1 - ground off / bar = 1/2",
        f"ground off = bar / 2 = {given['T']:g} mm / 2",
        f"= {given['T'] / 2:g} mm",
    ],
    other={"d": 2.0, "T": 9.0},
)
