"""Lesson 11, what a design really gives: measured and drawn on the steel forged for it."""

import math
from functools import lru_cache

import numpy as np

from kit.basics.errors import KitError
from kit.basics.units import Units, format_weight
from kit.course.anvil import judge
from kit.course.lessons import bevels, plan_drawing
from kit.course.lessons.plan import PlanLesson
from kit.course.lessons.reading import bar as twisted
from kit.course.lessons.reading_drawing import face, plane
from kit.course.lessons.san_mai import SanMaiLesson
from kit.course.lessons.san_mai_drawing import SIDES
from kit.course.lessons.san_mai_line import LENGTH, traced
from kit.forge.billet import Billet
from kit.metal import etch
from kit.section.blade import Blade
from kit.section.grind import BladeGrind
from kit.section.half import whole
from kit.section.outline import Outline
from kit.section.picture import INK, QUIET, Sheet
from kit.section.trace import see
from kit.shop.bought import FLAT, bar
from kit.shop.plan import Plan

STRETCH = 200.0  # mm
WANDER = 0.3  # mm
CLAD = 12.0  # mm, the stack of a core and two sides
BLACK_WHITE = {"1084": 0.0, "15N20": 1.0}
FINE = 0.01  # mm, along a bevel
WIDE, HIGH = 460, 100  # of a drawing
Box = tuple[int, int]  # left and top of one


@lru_cache(maxsize=64)
def stars_and_lean(across: float, turn: float, ground: float) -> tuple[float, float]:
    """Count stars in 200 mm along a ground face, and measure the lean between, degrees.

    They come evenly, so parts of one count, too.

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
    level = max(height, 1e-3)  # on the axis itself nothing is higher than the rest
    apart = judge.stars_apart(billet, level) or turn / 2
    return STRETCH / apart, abs(judge.slant(billet, level) or 0.0)


@lru_cache(maxsize=64)
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


@lru_cache(maxsize=64)
@whole()
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


@lru_cache(maxsize=64)
def clad(core: float, spine: float, height: float, off: float) -> SanMaiLesson:
    """Give the clad blade of lesson 07 with its core so far off centre; mm."""
    side = (CLAD - core) / 2
    return SanMaiLesson(
        left=side, core=core, right=side, thickness=spine, off=off, height=height
    )


@lru_cache(maxsize=2048)  # what is tried for one value is tried again for the next
def core_lines(
    core: float, spine: float, height: float, pixel: float = 0.25
) -> tuple[float, float]:
    """Follow the core to the skin, every `pixel`; give the lowest and highest line, mm.

    Of both sides, with the core up to 0.3 mm nearer to one of them.

    Raises
    ------
    KitError
        If the core leaves no cladding, or the edge no core.
    """
    blade = clad(
        core, spine, height, WANDER
    ).blade  # the other way, the sides change places
    heights = [height for side in SIDES for height in traced(blade, side, pixel).heights]
    return min(heights), max(heights)


def planned(cycles: int, crop: float, scale: float) -> Plan:
    """Plan lesson 10's bar; cropped in mm of every length, scale in mm of every weld."""
    return PlanLesson(cycles=cycles, crop=crop, weld_scale=scale).plan


def draw_stars(sheet: Sheet, at: Box, across: float, turn: float, ground: float) -> None:
    """Draw the twisted bar's face with `ground` taken off, as much as fits; mm."""
    billet = twisted(across, turn)
    level = billet.size.thickness / 2 - ground
    seen = face(billet, max(level, 0.0))
    left = seen._replace(
        **{part: getattr(seen, part)[:, :WIDE] for part in ("tone", "cover")},
        light=np.broadcast_to(seen.light, seen.tone.shape)[:, :WIDE],
    )
    sheet.steel(left, at, plane(billet, level))


def draw_bevel(sheet: Sheet, at: Box, layers: int, spine: float, height: float) -> None:
    """Draw the side of the flat-layered blade; mm."""
    billet, grind = flat_blade(layers, spine, height)
    view = Blade.fitted(grind, billet.size, WIDE, HIGH)
    sheet.steel(etch.seen(billet, view), at, view)


def draw_core(sheet: Sheet, at: Box, core: float, spine: float, height: float) -> None:
    """Draw a side of the clad blade, with its core `WANDER` mm off either way; mm."""
    for index, off in enumerate((-WANDER, WANDER)):
        job = clad(core, spine, height, off)
        pixel = max(LENGTH / 224, height / HIGH)
        view = job.blade.side("right", pixel, 226, HIGH)
        seen = etch.seen(job.billet, view)
        sheet.steel(seen, (at[0] + 234 * index, at[1]), view)


def draw_steel(
    sheet: Sheet, at: Box, cycles: int, crop: float, scale: float, units: Units
) -> None:
    """Draw the weight, g, as a bar: hatched what is lost, by its reason."""
    plan = planned(cycles, crop, scale)
    left, top = at
    lost = plan_drawing.lost_by_reason(plan.stages())
    total = plan.grams_in
    edge = left + WIDE * plan.share_out
    sheet.box((left, top + 10), (edge, top + 50), fill=INK)
    for grams in lost.values():
        following = edge + WIDE * grams / total
        sheet.box((edge, top + 10), (following, top + 50), ink=INK)
        for stripe in np.arange(edge + 6, following, 8):
            sheet.line([(stripe - 5, top + 50), (stripe, top + 10)], ink=QUIET)
        edge = following
    come, left_over = (
        format_weight(one, units, plan.grams_out) for one in (total, plan.grams_out)
    )
    words = f"{come} in, {left_over} out; hatched: lost"
    sheet.text(words, (left + WIDE, top + 82), size=15, anchor="ra", ink=QUIET)
