"""Ways of reading hollows, right and wrong; and what lesson 05 asks, and says of a move.

Given: D, the tool's width, t, the layer's thickness, T, the level bar's thickness, d, the
pattern's depth at the face, q, what is ground off it: all in mm.
"""

import math
from typing import Any

from kit.basics.claim import Claim, Kind
from kit.basics.told import counted
from kit.basics.units import Units, format_beside, format_length, in_three, rounded
from kit.course.check import again
from kit.course.lesson import Given
from kit.course.lessons.press_drawing import tile
from kit.course.worded import Worded
from kit.forge.steps.drill import POINT
from kit.forge.steps.hollows import ball_of

NAMES = ("ring", "line")  # of round hollows, of grooves
DRILL, BALL, GROOVE, WEDGE = range(4)
HAIR = 1e-5  # mm: so much less is as thick as it was; a thickness has six figures
MADE = ("cut", "pressed")
LEVELLED = ("Levelling moves metal into the hollows, and", "Grinding level moves no metal;")
RISEN = (
    "the same, if no hollow of the other face lies below",
    "metal pushed out of the dents lifts what is between them before it is ground",
)
CHOSEN = {
    "tool": (
        "A cone: its wall is straight, so its rings lie evenly.",
        "A bowl: flat in the middle and steep at the rim, where its rings crowd.",
        "A groove: no rings, but rungs right across, with lines on both sides.",
    ),
    "faces": (
        "Hollows in the top only: the far face stays plain.",
        "Both faces, staggered: a hollow lies between two of the other face.",
        "Both faces, opposite: what is between two hollows gets thinnest.",
    ),
    "way": (
        (
            "Cut, then forged flat: the deepest layer comes up in the middle, the opposite "
            "order to pressing."
        ),
        (
            "The same rings, inside out! Pressed, the top layer stays in the middle: the "
            "opposite order to cutting."
        ),
    ),
    "shown": ("The bar again, before a blade is cut from it.",),
    "beside": (
        "One way at a time. Which layer is in the middle?",
        "Nearly alike, until you read the numbers: they run against each other.",
    ),
}
# Why a control changes nothing, when, and which.
SHUTS = {
    "A drill point's depth follows from its width.": (
        lambda job: job.tool == DRILL, "depth"
    ),
    "A blade is looked at, not a cut through the bar.": (
        lambda job: job.as_blade, "line", "beside"
    ),
    "The wedge splits a tall block: that is for hollows.": (
        lambda job: job.tool == WEDGE,
        "way", "spacing", "faces", "after", "ground", "line", "beside", "shown",
    ),
    "The wedge is not driven in yet.": (
        lambda job: job.tool == WEDGE and not job.depth, "across"
    ),
}  # fmt: skip


def moved(lesson: Any, changed: str, units: Units) -> str:
    """Point out the order of the layers, the plain face, what grinding leaves.

    Parameters
    ----------
    lesson : PressLesson
        After the move.
    changed : str
        The control.
    units : Units
    """
    if lesson.tool == WEDGE:
        return _dragged(lesson, units) if changed in {"depth", "across"} else ""
    if lesson.as_blade:
        return ""
    if lesson.tool != DRILL and lesson.depth == 0:
        return "No hollow, no map: the face shows one layer."
    if changed in CHOSEN:
        return CHOSEN[changed][getattr(lesson, changed)]
    return _counted(lesson, changed, units)


def _counted(lesson: Any, changed: str, units: Units) -> str:
    size = format_length(getattr(lesson, changed), units)
    deep = format_length(lesson.deep, units)
    fine = format_beside(lesson.layer, lesson.deep, units)
    rings = counted(lesson.whole(), NAMES[lesson.tool == GROOVE])
    if changed == "depth" and lesson.tool == DRILL:
        return f"Set to {size}, but a drill point's depth follows from its width: {deep}."
    if changed == "ground":
        return survives(lesson)
    line = "Cut through the middle of a hollow: there the layers bend most."
    if lesson.line:
        line = f"The section moved {lesson.line:g} % aside: beside the hollow less is bent."
    points = {
        "line": line,
        "before": f"A bar {size} thick: the hollow, {deep} deep, makes {rings}.",
        "layer": f"Layers of {fine} in a hollow {deep} deep: {rings}.",
        "across": f"{size} across and {deep} deep: {rings}.",
        "depth": f"{size} deep: {rings}.{_struck(lesson, units)}",
        "spacing": f"A hollow every {size}: each still makes {rings}.",
        "after": left_at(lesson, units) or _forged(lesson, units),
    }
    return points.get(changed, "")


def left_at(lesson: Any, units: Units) -> str:
    """Say that the level bar is no thicker than it was to be forged, if it is not.

    Parameters
    ----------
    lesson : PressLesson
        A bar with hollows.
    units : Units
    """
    (step,), before = lesson.billet.steps, lesson.billet.sizes[0]
    level = step.levels(before).left
    if step.thickness < level - HAIR:
        return ""
    left = format_length(level, units)
    return f"Once it is level this bar is only {left} thick, so it is left at that."


def _forged(lesson: Any, units: Units) -> str:
    """Say how far the level bar spreads when it is forged on."""
    (step,), before = lesson.billet.steps, lesson.billet.sizes[0]
    fro, to = step.levels(before).left, step.thickness
    told = (format_length(thick, units) for thick in (fro, to))
    wider = in_three(math.sqrt(fro / to))
    went = f"Forged on from {' to '.join(told)}"
    if wider == "1":
        return f"{went}: so little that the rings lie as they lay."
    return f"{went}: the rings come to lie {wider} times as wide apart."


def _struck(lesson: Any, units: Units) -> str:
    """Say which tool leaves such a hollow: the same one, struck deeper, a wider one."""
    if lesson.tool not in (BALL, GROOVE):
        return ""
    tool = ("ball", "round")[lesson.tool == GROOVE]
    across = format_length(ball_of(lesson.across, lesson.depth), units.fine)
    wider = "; struck deeper, it leaves a wider hollow"
    return f" A {tool} of {across} leaves it{wider * (lesson.depth < lesson.across / 2)}."


def survives(lesson: Any) -> str:
    """Answer the smith's question in whole rings, as they are drawn.

    Parameters
    ----------
    lesson : PressLesson
        A bar with hollows.
    """
    there, kept = lesson.whole(), lesson.whole(lesson.ground)
    name = NAMES[lesson.tool == GROOVE]
    half = " in each half of a rung" if lesson.tool == GROOVE else ""
    asked = "Will it survive my grind?"
    if not there:
        return f"{asked} There is nothing to lose: no hollow so deep as a layer."
    if not lesson.ground:
        return f"Nothing is ground off yet: {counted(there, name)}{half}."
    if not kept:
        return f"{asked} No, nothing is left of the {counted(there, name)}{half}."
    remain = "remains" if kept == 1 else "remain"
    if kept < there:
        return f"{asked} Yes, {kept} of {counted(there, name)}{half} {remain}."
    all_of = "it is there" if kept == 1 else "all are there"
    return f"{asked} Yes, {all_of}: {counted(kept, name)}{half}."


def _dragged(lesson: Any, units: Units) -> str:
    if not lesson.depth:
        return "No drag: the layers of the block lie flat."
    drag = format_length(lesson.drag, units)
    return f"The wedge drags the layers {drag} down: a barb crosses {figure(lesson.rings)}."


def figure(value: float) -> str:
    """Write a count of rings to a tenth."""
    return f"{round(value, 1):g}"


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
