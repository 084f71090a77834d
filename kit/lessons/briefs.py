"""Lesson 11, made to order: four briefs, each judged on what the design really gives.

Nothing is looked up: stars are counted along the twisted steel, lines along the ground
bevel, the core is followed to the skin, the plan is reckoned through every loss.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from functools import lru_cache
from typing import NamedTuple

import numpy as np

from kit.billet import Billet
from kit.blade import Blade
from kit.declare import Declared, quantity
from kit.errors import KitError
from kit.grind import Grind
from kit.lessons import bevels, san_mai_blade
from kit.lessons.plan import Job as PlanJob
from kit.lessons.plan_ideas import plan_of
from kit.lessons.reading import bar as twisted
from kit.lessons.san_mai_lines import traced
from kit.lessons.twist_measures import line_angle
from kit.outline import Outline
from kit.trace import see
from kit.units import Units, format_length

STARS, STRETCH, LEANS = 5, 200.0, (40.0, 50.0)
SPACING = (0.5, 1.0)  # mm, of lines on a bevel
CORE_LINE, WANDER = (6.0, 10.0), 0.3  # mm
YIELD = 0.40
CLAD = 12.0  # mm, the stack of a core and two sides
NAMES = ("1 Stars and slant", "2 Lines on the bevel", "3 The core's line", "4 The yield")
BLACK_WHITE = {"1084": 0.0, "15N20": 1.0}
FINE = 0.01  # mm, along a bevel


class Job(Declared):
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
    layers: float = quantity(
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
    cycles: float = quantity(
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


@lru_cache(maxsize=8)
def stars_and_lean(across: float, turn: float, ground: float) -> tuple[float, float]:
    """Count stars in 200 mm along a ground face, and measure the lean between, degrees.

    Stars are where the layers lie along the face: where the steel, followed back to the
    stack, is highest or lowest. They come evenly, so parts of one count, too.

    Raises
    ------
    KitError
        If more than half the bar is ground off.
    """
    billet = twisted(across, turn)
    height = billet.size.thickness / 2 - ground
    if height < 0:
        msg = (
            f"At most half the bar, {billet.size.thickness / 2:g} mm, can be ground off. "
            f"Given: {ground:g} mm."
        )
        raise KitError(msg)
    x = np.linspace(0, billet.size.length, 4001)
    level = max(height, 1e-3)  # on the axis itself nothing is higher than the rest
    z = billet.undo((x, np.zeros_like(x), np.full_like(x, level)))[2]
    bends = np.flatnonzero(np.diff(np.sign(np.diff(z)))) + 1
    apart = np.diff(x[bends]).mean() if len(bends) > 1 else turn / 2
    return STRETCH / float(apart), line_angle(billet, height)


def flat_blade(layers: int, spine: float, height: float) -> tuple[Billet, Grind]:
    """Give a bar of flat layers, and the blade that is ground from it; mm."""
    billet = bevels.bar(layers, bevels.FLAT, spine, height + bevels.BESIDE)
    grind = Grind(
        outline=Outline(family="drop", length=bevels.LENGTH, height=height),
        spine=spine,
        edge=0.4,
        ricasso=bevels.RICASSO,
        plunge=spine / 2,
    )
    return billet, grind


@lru_cache(maxsize=8)
def bevel_lines(layers: int, spine: float, height: float) -> float:
    """Measure the mean line spacing on the bevel of a flat-layered blade, mm."""
    billet, grind = flat_blade(layers, spine, height)
    long = billet.size.length / 2 - bevels.LENGTH / 2 + 40  # the belly is farther on
    view = Blade(
        grind=grind,
        size=billet.size,
        centre=(long, 0.0),
        columns=1,
        rows=round(height / FINE),
        pixel=FINE,
    )
    tones = see(billet, view, BLACK_WHITE).tone[:, 0]
    lines = np.count_nonzero(np.diff(tones > 0.5))
    return grind.bevel_length / lines if lines else math.inf


@lru_cache(maxsize=8)
def core_lines(core: float, spine: float, height: float) -> tuple[float, float]:
    """Follow the core to the skin; give the lowest and highest line, mm.

    Of both sides, with the core up to 0.3 mm nearer to one of them.

    Raises
    ------
    KitError
        If the core leaves no cladding, or the edge no core.
    """
    side = (CLAD - core) / 2
    heights = []
    for off in (-WANDER, WANDER):
        job = san_mai_blade.Job(
            left=side, core=core, right=side, thickness=spine, off=off, height=height
        )
        for name in ("left", "right"):
            heights.extend(traced(job, name).heights)
    return min(heights), max(heights)


def share_out(cycles: int, crop: float, scale: float) -> float:
    """Give the yield of lesson 10's bar with these losses, 0 … 1."""
    job = PlanJob(cycles=cycles, crop=crop, weld_scale=scale)
    return plan_of(job.given).share_out


def judge(job: Job, units: Units = Units.MM) -> tuple[Judged, ...]:
    """Judge all four briefs; what can not be made fails with the reason."""
    briefs = (_stars, _bevel, _core, _yield)
    return tuple(_unless_refused(brief, job, units) for brief in briefs)


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
    if count < STARS - 1e-6:
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
    told = (
        f"line from {format_length(lowest, units)} to {format_length(highest, units)} "
        "above the edge"
    )
    low, high = (format_length(limit, units) for limit in CORE_LINE)
    if lowest < CORE_LINE[0]:
        reason = f"{told}: {low} at least, even where the core wanders."
        return Judged(False, reason)
    if highest > CORE_LINE[1]:
        reason = f"{told}: {high} at most, even where the core wanders."
        return Judged(False, reason)
    return Judged(True, f"{told}.")


def _yield(job: Job, _units: Units) -> Judged:
    share = share_out(round(job.cycles), job.crop, job.scale)
    told = f"{100 * share:.0f} % of the steel gets into the bar"
    if share < YIELD:
        return Judged(False, f"{told}: {100 * YIELD:.0f} % is wanted, so lose less.")
    return Judged(True, f"{told}.")
