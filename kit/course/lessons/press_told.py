"""What lesson 05 says of a move: order of the layers, rings, what grinding takes."""

from __future__ import annotations

from typing import Any

from kit.basics.units import Units, format_beside, format_length

DRILL, _BALL, GROOVE, WEDGE = range(4)
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
            "Pressed, then ground flat: the top layer is left in the middle, the opposite "
            "order to cutting."
        ),
    ),
}


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
    if lesson.tool != DRILL and lesson.depth == 0:
        return "No hollow, no map: the face shows one layer."
    if changed in CHOSEN:
        return CHOSEN[changed][getattr(lesson, changed)]
    if changed == "line":
        if not lesson.line:
            return "Cut through the middle of a hollow: there the layers bend most."
        return f"The section moved {lesson.line:g} % aside: beside the hollow less is bent."
    return _counted(lesson, changed, units)


def _counted(lesson: Any, changed: str, units: Units) -> str:
    size = format_length(getattr(lesson, changed), units)
    deep, left = format_length(lesson.deep, units), figure(lesson.left)
    fine = format_beside(lesson.layer, lesson.deep, units)
    rings = f"{figure(lesson.rings)} {'lines' if lesson.tool == GROOVE else 'rings'}"
    if changed == "depth" and lesson.tool == DRILL:
        return f"Set to {size}, but a drill point's depth follows from its width: {deep}."
    if changed == "ground" and lesson.ground:
        return f"{size} off: {left} of {rings} are left, fewer the deeper you grind."
    points = {
        "before": f"A bar {size} thick: the hollow, {deep} deep, makes {rings}.",
        "layer": f"Layers of {fine} in a hollow {deep} deep: {rings}.",
        "across": f"{size} across and {deep} deep: {rings}.",
        "depth": f"{size} deep: {rings}.",
        "spacing": f"A hollow every {size}: each still makes {rings}.",
        "after": f"Thickness after {size}: forged thinner, rings lie wider apart.",
        "ground": f"Nothing ground off: all {rings} are there.",
    }
    return points.get(changed, "")


def _dragged(lesson: Any, units: Units) -> str:
    if not lesson.depth:
        return "No drag: the layers of the block lie flat."
    drag = format_length(lesson.drag, units)
    return f"The wedge drags the layers {drag} down: a barb crosses {figure(lesson.rings)}."


def figure(value: float) -> str:
    """Write a count of rings to a tenth."""
    return f"{round(value, 1):g}"
