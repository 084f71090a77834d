"""What lesson 06 says of a move: plain face, grey bevel, what a bought bar becomes."""

from __future__ import annotations

import math
from typing import Any

from kit.basics.units import Units, format_length
from kit.course.lessons import bevels_ideas as ideas
from kit.metal.eye import EYE_300
from kit.section.grind import KINDS
from kit.shop.bought import FLAT

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
        return ideas.NO_BEVEL
    if lesson.bought == FLAT and lesson.crossed.spacing < EYE_300:
        return ideas.GREY
    if changed in {"bought", "shown"}:
        if lesson.bought != FLAT:
            return ideas.SURVIVE
        return ideas.PLAIN if lesson.shown else ideas.SAME
    size = format_length(getattr(lesson, changed), units) if changed in LENGTHS else ""
    if changed in {"forged", "cleaned"}:
        return _forged(lesson, changed, size)
    return (
        _ground(lesson, changed, size)
        or f"{_named(lesson, changed, size)}: {lines(lesson)}"
    )


def _ground(lesson: Any, changed: str, size: str) -> str:
    kind = KINDS[lesson.kind]
    points = {
        "kind": (True, ideas.GRINDS[lesson.kind]),
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
        return ideas.SAVED_NOTHING if lesson.cleaned >= lesson.depth else ideas.BENT
    if changed == "cleaned":
        return f"Nothing is forged in, so {size} of clean-up counts for nothing."
    return f"All ground: the wheel goes through {lesson.crossed.lines:.3g} layers."


def _named(lesson: Any, changed: str, size: str) -> str:
    points = {"layers": f"{lesson.layers} layers", "taper": "No taper"}
    return points.get(changed) or f"{type(lesson).model_fields[changed].title} {size}"


def lines(lesson: Any) -> str:
    """Say how many lines one side gets, and how much wider than the layers they lie."""
    count, spacing, spread = lesson.crossed
    flat = "" if lesson.bought == FLAT else "were the layers flat, "
    if math.isinf(spacing):
        return "the bevel crosses no layer."
    return f"{flat}the bevel crosses {count:.3g}, and spreads them {spread:.1f} times."
