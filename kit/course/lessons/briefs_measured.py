"""Lesson 11, what a design really gives: measured on the steel the kit forges for it."""

from __future__ import annotations

import math
from functools import lru_cache

import numpy as np

from kit.basics.errors import KitError
from kit.course.lessons import bevels, san_mai_blade
from kit.course.lessons.plan import Job as PlanJob
from kit.course.lessons.plan_ideas import plan_of
from kit.course.lessons.reading import bar as twisted
from kit.course.lessons.san_mai_lines import traced
from kit.course.lessons.twist_drawing import line_angle
from kit.forge.billet import Billet
from kit.section.blade import Blade
from kit.section.grind import BladeGrind
from kit.section.outline import Outline
from kit.section.trace import see
from kit.shop.bought import FLAT, bar

STRETCH = 200.0  # mm
WANDER = 0.3  # mm
CLAD = 12.0  # mm, the stack of a core and two sides
BLACK_WHITE = {"1084": 0.0, "15N20": 1.0}
FINE = 0.01  # mm, along a bevel


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


def flat_blade(layers: int, spine: float, height: float) -> tuple[Billet, BladeGrind]:
    """Give a bar of flat layers, and the blade that is ground from it; mm."""
    billet = bar(layers, FLAT, spine, height + bevels.BESIDE)
    grind = BladeGrind(
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
