"""What lesson 05 says of a move: order of the layers, rings, what grinding takes."""

import math
from typing import Any

from kit.basics.told import counted
from kit.basics.units import Units, format_beside, format_length, in_three
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
    told = (format_length(thick, units.fine) for thick in (fro, to))
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
