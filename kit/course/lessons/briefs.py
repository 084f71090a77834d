"""Lesson 11, made to order: four briefs, each judged on what the design really gives.

Nothing is looked up: stars are counted along the twisted steel, lines along the ground
bevel, the core is followed to the skin, the plan is reckoned through every loss.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from kit.basics.declare import quantity
from kit.basics.errors import KitError
from kit.basics.units import Units, format_length
from kit.course.lessons.briefs_measured import (
    STRETCH,
    bevel_lines,
    core_lines,
    share_out,
    stars_and_lean,
)
from kit.course.lessons.job import Job as Base

# What the customers ask for is invented; so is the least face.
STARS, LEANS = 5, (40.0, 50.0)
SPACING = (0.5, 1.0)  # mm, of lines on a bevel
CORE_LINE = (6.0, 10.0)  # mm
YIELD = 0.40
NEAR = 0.02  # of a star: it is counted on a picture
LEAST_FACE = 0.3  # mm ground off: less is no face to see stars on
NAMES = ("1 Stars and slant", "2 Lines on the bevel", "3 The core's line", "4 The yield")


class Job(Base):
    """What was chosen for all four briefs; a field is a control, lengths in mm."""

    across: float = quantity(
        "Round bar across", "before it is ground", low=8.5, high=28.5, unit="mm",
        default=12.5,
    )  # fmt: skip
    turn: float = quantity(
        "One turn", "length of a turn of the twist", low=20, high=160, unit="mm",
        default=90,
    )  # fmt: skip
    ground: float = quantity(
        "Ground off", "from the top of the round bar", low=0, high=14, unit="mm", default=1
    )
    layers: int = quantity(
        "Layers in the spine", "of a flat-layered blade", low=20, high=400, default=200
    )
    spine: float = quantity(
        "Spine", "thickness of the blade's back", low=2, high=8, unit="mm", default=4
    )
    height: float = quantity(
        "Blade height", "from edge to spine", low=15, high=60, unit="mm", default=30
    )
    core: float = quantity(
        "Core", "of a stack 12 mm high, before it is forged", low=1, high=10, unit="mm",
        default=5,
    )  # fmt: skip
    forged: float = quantity(
        "Forged to", "the spine of the clad blade", low=3, high=8, unit="mm", default=4
    )
    blade: float = quantity(
        "Clad blade, high", "from edge to spine", low=15, high=60, unit="mm", default=32
    )
    cycles: int = quantity(
        "Cut and stack", "times, after the first weld", low=0, high=8, default=4
    )
    crop: float = quantity(
        "Crop, each end", "cut off after every weld", low=0, high=30, unit="mm", default=10
    )
    scale: float = quantity(
        "Scale, welding", "off each face at welding heat", low=0, high=0.5, unit="mm",
        default=0.12,
    )  # fmt: skip


class Judged(NamedTuple):
    """What became of one brief.

    Attributes
    ----------
    passed : bool
    reason : str
        What the design gives, and what is missing.
    """

    passed: bool
    reason: str


def judge(job: Job, units: Units = Units.MM) -> tuple[Judged, ...]:
    """Judge all four briefs; what can not be made fails with the reason."""
    briefs = (_stars, _bevel, _core, _yield)
    return tuple(_unless_refused(brief, job, units.fine) for brief in briefs)


def _unless_refused(
    brief: Callable[[Job, Units], Judged], job: Job, units: Units
) -> Judged:
    try:
        return brief(job, units)
    except KitError as refused:
        return Judged(False, str(refused))


def _stars(job: Job, units: Units) -> Judged:
    count, lean = stars_and_lean(job.across, job.turn, job.ground)
    stretch = format_length(STRETCH, units)
    told = f"{count:.1f} stars in {stretch}, lines at {lean:.0f}°"
    if job.ground < LEAST_FACE:
        return Judged(False, "hardly anything is ground off: there is no face yet.")
    if count < STARS - NEAR:
        return Judged(False, f"{told}: {STARS} stars are wanted, so twist tighter.")
    low, high = LEANS
    if lean < low:
        return Judged(False, f"{told}: {low:g}° to {high:g}° are wanted, so grind less.")
    if lean > high:
        return Judged(False, f"{told}: {low:g}° to {high:g}° are wanted, so grind more.")
    return Judged(True, f"{told}.")


def _bevel(job: Job, units: Units) -> Judged:
    spacing = bevel_lines(round(job.layers), job.spine, job.height)
    told = f"a line every {format_length(spacing, units)}"
    low, high = (format_length(limit, units) for limit in SPACING)
    if spacing < SPACING[0]:
        return Judged(False, f"{told}: at least {low} is wanted, so fewer layers.")
    if spacing > SPACING[1]:
        return Judged(False, f"{told}: at most {high} is wanted, so more layers.")
    return Judged(True, f"{told}.")


def _core(job: Job, units: Units) -> Judged:
    lowest, highest = core_lines(job.core, job.forged, job.blade)
    low, high = (format_length(limit, units) for limit in CORE_LINE)
    if highest - lowest > CORE_LINE[1] - CORE_LINE[0]:
        spread = format_length(highest - lowest, units)
        return Judged(
            False,
            f"the line wanders by {spread}: a lower blade or a thicker spine wanders less.",
        )
    if lowest <= 0:
        return Judged(False, "the core leaves the edge where it wanders: a thicker core.")
    told = (
        f"line from {format_length(lowest, units)} to {format_length(highest, units)} "
        "above the edge"
    )
    if lowest < CORE_LINE[0]:
        return Judged(False, f"{told}: {low} at least is wanted, so a thicker core.")
    if highest > CORE_LINE[1]:
        return Judged(False, f"{told}: {high} at most is wanted, so a thinner core.")
    return Judged(True, f"{told}.")


def _yield(job: Job, _units: Units) -> Judged:
    share = share_out(round(job.cycles), job.crop, job.scale)
    told = f"{100 * share:.0f} % of the steel gets into the bar"
    if share < YIELD:
        return Judged(False, f"{told}: {100 * YIELD:.0f} % is wanted, so lose less.")
    return Judged(True, f"{told}.")
