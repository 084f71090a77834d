"""Lesson 11, four briefs on one sheet: the designs, and what became of each."""

from __future__ import annotations

import textwrap
from typing import TYPE_CHECKING

import numpy as np

from kit.basics.errors import KitError
from kit.basics.units import Units, format_length
from kit.course.lessons import plan_drawing, reading, reading_drawing, san_mai_blade
from kit.course.lessons.briefs import (
    CORE_LINE,
    LEANS,
    NAMES,
    SPACING,
    STARS,
    YIELD,
    Job,
    Judged,
    judge,
)
from kit.course.lessons.briefs_measured import CLAD, STRETCH, WANDER, flat_blade
from kit.course.lessons.plan import Job as PlanJob
from kit.course.lessons.plan_ideas import plan_of
from kit.course.lessons.san_mai_lines import side
from kit.course.lessons.scene import Number, Scene
from kit.metal import etch
from kit.section.blade import Blade
from kit.section.picture import ACCENT, GHOST, INK, QUIET, Sheet
from kit.section.trace import see

if TYPE_CHECKING:
    from collections.abc import Callable

COLUMNS, ROWS = 1000, 476
CELL = (500, 238)
WIDE, HIGH = 460, 100
LINE = 54  # letters


def scene(*, units: Units = Units.MM, sunlit: bool = False, **settings: float) -> Scene:
    """Draw the four designs, and say of each whether it meets its brief, and why not."""
    job = Job.asked(settings, units)
    found = judge(job, units)
    sheet = Sheet(COLUMNS, ROWS, sunlit=sunlit)
    drawings: tuple[Callable, ...] = (_stars, _bevel, _core, _steel)
    for index, (judged, draw) in enumerate(zip(found, drawings, strict=True)):
        at = 14 + CELL[0] * (index % 2), 6 + CELL[1] * (index // 2)
        _cell(sheet, index, judged, at, units)
        try:
            draw(sheet, job, (at[0], at[1] + 54))
        except KitError:  # said in words already
            sheet.box((at[0], at[1] + 54), (at[0] + WIDE, at[1] + 54 + HIGH), ink=GHOST)
    return Scene(
        image=sheet.image,
        alt=_alt(found),
        numbers=_numbers(found),
        says=_told(found),
    )


def wanted(units: Units) -> tuple[str, ...]:
    """Say the four briefs in words."""
    units = units.fine  # as they are judged
    low, high = (format_length(part, units) for part in SPACING)
    core = [format_length(part, units) for part in CORE_LINE]
    wander = format_length(WANDER, units)
    stretch = format_length(STRETCH, units)
    return (
        f"{STARS} stars or more in {stretch}, lines at {LEANS[0]:g}° to {LEANS[1]:g}°",
        f"a line on the bevel every {low} to {high}",
        f"{core[0]} to {core[1]} above the edge, if the core wanders {wander}",
        f"{100 * YIELD:.0f} % of the steel or more in the finished bar",
    )


def _cell(
    sheet: Sheet, index: int, judged: Judged, at: tuple[int, int], units: Units
) -> None:
    left, top = at
    sheet.text(NAMES[index], (left, top), size=18)
    mark = "meets it" if judged.passed else "not yet"
    ink = ACCENT if judged.passed else INK
    sheet.text(mark, (left + WIDE, top), size=18, anchor="ra", ink=ink)
    sheet.text(wanted(units)[index], (left, top + 26), size=15, ink=QUIET)
    for line, words in enumerate(textwrap.wrap(judged.reason, LINE)[:3]):
        sheet.text(words, (left, top + 60 + HIGH + 20 * line), size=16)


def _stars(sheet: Sheet, job: Job, at: tuple[int, int]) -> None:
    billet = reading.bar(job.across, job.turn)
    level = billet.size.thickness / 2 - job.ground
    seen = reading_drawing.face(billet, max(level, 0.0))
    left = seen._replace(
        **{  # half of its length fits
            part: getattr(seen, part)[:, :WIDE] for part in ("tone", "cover")
        },
        light=np.broadcast_to(seen.light, seen.tone.shape)[:, :WIDE],
    )
    sheet.steel(left, at)


def _bevel(sheet: Sheet, job: Job, at: tuple[int, int]) -> None:
    billet, grind = flat_blade(round(job.layers), job.spine, job.height)
    view = Blade.fitted(grind, billet.size, WIDE, HIGH)
    sheet.steel(see(billet, view, etch.tones(billet.source.steels)), at)


def _core(sheet: Sheet, job: Job, at: tuple[int, int]) -> None:
    half = (CLAD - job.core) / 2
    for index, off in enumerate((-WANDER, WANDER)):
        clad = san_mai_blade.Job(
            left=half,
            core=job.core,
            right=half,
            thickness=job.forged,
            off=off,
            height=job.blade,
        )
        pixel = max(san_mai_blade.LENGTH / 224, job.blade / HIGH)
        view = side(clad, "right", pixel, 226, HIGH)
        names = {name: np.float32(0.05) for name in clad.billet.source.steels}
        tones = names | {san_mai_blade.CORE: np.float32(0.55)}
        sheet.steel(see(clad.billet, view, tones), (at[0] + 234 * index, at[1]))


def _steel(sheet: Sheet, job: Job, at: tuple[int, int]) -> None:
    """Draw the weight as a bar: hatched what is lost, by its reason."""
    plan = plan_of(PlanJob(cycles=job.cycles, crop=job.crop, weld_scale=job.scale).given)
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
    goal = left + WIDE * YIELD
    sheet.line([(goal, top), (goal, top + 60)], ink=ACCENT, width=3)
    sheet.text("wanted", (goal, top + 64), size=15, anchor="ma", ink=ACCENT)
    words = f"{total:.0f} g in, {plan.grams_out:.0f} g out; hatched: lost"
    sheet.text(words, (left + WIDE, top + 82), size=15, anchor="ra", ink=QUIET)


def _numbers(found: tuple[Judged, ...]) -> tuple[Number, ...]:
    rows = [
        Number(name, "meets it" if judged.passed else "not yet", [judged.reason])
        for name, judged in zip(NAMES, found, strict=True)
    ]
    met = sum(judged.passed for judged in found)
    return (*rows, Number("Briefs met", f"{met} of {len(found)}", ["count them above"]))


def _told(found: tuple[Judged, ...]) -> str:
    if all(judged.passed for judged in found):
        return "All four are met. Others meet them otherwise: there are many right answers."
    index = next(i for i, judged in enumerate(found) if not judged.passed)
    reason = found[index].reason
    return f"{NAMES[index]}: {reason[0].upper()}{reason[1:]}"


def _alt(found: tuple[Judged, ...]) -> str:
    told = " ".join(
        f"{name}, {'meets it' if judged.passed else 'not yet'}: {judged.reason}"
        for name, judged in zip(NAMES, found, strict=True)
    )
    return f"Four designs with their briefs. {told}"
