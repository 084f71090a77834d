"""Lesson 11, four blades on one sheet: picture, words and numbers."""

from __future__ import annotations

from typing import Any

from kit.basics.units import Units, format_length
from kit.course.lessons.four_blades import (
    BEVEL,
    DEEPER,
    HEIGHT,
    LENGTH,
    MADE,
    MAGNET,
    NAMES,
    OFF,
    SIDE,
    SPINE,
    SPINE_AGAIN,
    TESTS,
    Job,
    bar,
    grind,
    seen,
    side,
    spine,
    told_apart,
)
from kit.course.lessons.scene import Number, Scene
from kit.metal.eye import EYE, LEAST_CONTRAST
from kit.section.blade import Blade, Spine
from kit.section.picture import ACCENT, INK, QUIET, Sheet

COLUMNS, ROWS = 1000, 440
CELL = (500, 220)
WIDE, HIGH = 344, 84  # of a blade's side
LOUPE = (370, 40, 110)  # left, top in its cell, and size
MANNERS = "A test says what is there, not what somebody meant. Ask before you judge."


def scene(*, units: Units = Units.MM, sunlit: bool = False, **settings: float) -> Scene:
    """Do one test on all four blades, and say which of them it tells apart."""
    job = Job.asked(settings, units)
    sheet = Sheet(COLUMNS, ROWS, sunlit=sunlit)
    for index, name in enumerate(NAMES):
        _blade(sheet, job, name, (CELL[0] * (index % 2), CELL[1] * (index // 2)))
    return Scene(
        image=sheet.image,
        alt=_alt(job, units),
        numbers=_numbers(job, units),
        says=f"{_limit(job, units)} {MANNERS}",
    )


def _result(job: Job, name: str) -> str:
    if job.test == MAGNET:
        return "the magnet sticks"
    return "lines" if seen(name, job.test, job.distance).lines else "no lines seen"


def _blade(sheet: Sheet, job: Job, name: str, at: tuple[int, int]) -> None:
    left, top = at[0] + 14, at[1] + 8
    sheet.text(f"Blade {name}", (left, top), size=19)
    place = (left + LOUPE[0] + LOUPE[2], top + 2)
    sheet.text(_result(job, name), place, size=17, anchor="ra", ink=ACCENT)
    size, deeper = bar(name).size, job.test == DEEPER
    shape = grind(OFF if deeper else 0.0)
    view = Blade.fitted(shape, size, WIDE, HIGH + 20)
    sheet.steel(side(name, view, deeper=deeper), (left, top + 36))
    back = Spine(
        grind=shape, size=size, columns=WIDE, rows=16, pixel=view.pixel
    )  # to one scale: a spine is narrow
    again = job.test == SPINE_AGAIN
    sheet.text("its spine, from above", (left, top + 150), size=15, ink=QUIET)
    sheet.steel(spine(name, back, again=again), (left, top + 170))
    _marked(sheet, job, view, (left, top))
    _loupe(sheet, job, name, (left + LOUPE[0], top + LOUPE[1]))


def _marked(sheet: Sheet, job: Job, view: Blade, at: tuple[int, int]) -> None:
    """Box the place that is looked at."""
    left, top = at
    middle = view.size.length / 2
    if job.test in (SPINE, SPINE_AGAIN):
        x, y = left + WIDE / 2, top + 178
    else:
        low = -HEIGHT / 2 + 3 if job.test == BEVEL else HEIGHT / 2 - 5
        column, row = view.place((middle, low, 0.0))
        x, y = left + column, top + 36 + row
    sheet.box((x - 8, y - 8), (x + 8, y + 8), ink="#FFFFFF", width=4)
    sheet.box((x - 8, y - 8), (x + 8, y + 8), ink=ACCENT, width=2)


def _loupe(sheet: Sheet, job: Job, name: str, at: tuple[int, int]) -> None:
    """Draw the place under a loupe."""
    from PIL import Image  # noqa: PLC0415

    left, top = at
    patch = seen(name, SIDE if job.test == MAGNET else job.test, job.distance).face
    small = Sheet(patch.tone.shape[1], patch.tone.shape[0])
    small.steel(patch, (0, 0))
    high = round(LOUPE[2] * patch.tone.shape[0] / patch.tone.shape[1])
    lens = small.image.resize((LOUPE[2], high), Image.Resampling.BOX)
    sheet.image.paste(lens, (left, top))
    sheet.box((left - 1, top - 1), (left + LOUPE[2], top + high), ink=INK)
    words = "through a loupe"
    sheet.text(words, (left + LOUPE[2], top + high + 4), size=15, anchor="ra", ink=QUIET)


def _limit(job: Job, units: Units) -> str:
    finest = format_length(EYE.finest(job.distance), units)
    return f"From {format_length(job.distance, units)} a good eye splits {finest}."


def _numbers(job: Job, units: Units) -> tuple[Number, ...]:
    pairs = told_apart(job.test, job.distance)
    rows = [
        Number(f"Blade {name}", _result(job, name), _working(job, name, units))
        for name in NAMES
    ]
    named = ", ".join(" and ".join(pair) for pair in pairs)
    told = [
        "of the six pairs of four blades, those of which one shows lines, one not",
        f"{len(pairs)} of 6: {named}" if pairs else "none of 6",
    ]
    return (*rows, Number("Tells apart", f"{len(pairs)} of 6 pairs", told))


def _working(job: Job, name: str, units: Units) -> list[str]:
    if job.test == MAGNET:
        return [
            "a magnet pulls at every carbon and low-alloy steel",
            "layered or plain, forged or printed: it sticks alike",
        ]
    contrast = seen(name, job.test, job.distance).contrast
    away = format_length(job.distance, units)
    return [
        f"{TESTS[job.test]}: bright against dark, as blurred from {away}",
        f"lines count as seen from a contrast of {LEAST_CONTRAST:g}",
        f"here {contrast:.2f}",
    ]


def _alt(job: Job, units: Units) -> str:
    told = "; ".join(f"{name}: {_result(job, name)}" for name in NAMES)
    return (
        f"Four blades, {LENGTH:.0f} mm long, each from its side, from above its spine, and "
        f"one place of it through a loupe. Test: {TESTS[job.test]}, seen from "
        f"{format_length(job.distance, units)}. {told}."
    )


def remark(changed: str, state: dict[str, Any]) -> str:
    """Say what a test is worth."""
    job = Job(**state)
    pairs = told_apart(job.test, job.distance)
    if job.test == SPINE:
        wrong = [name for name in ("A", "C") if not seen(name, SPINE, job.distance).lines]
        blamed = " and ".join(wrong)
        return (
            f"Whoever calls a blade without lines on its spine a fake is wrong about "
            f"{blamed}: {'; '.join(MADE[name] for name in wrong)}."
            if wrong
            else "From so near even C's lines show. A's spine still shows none: polished."
        )
    said = {
        SIDE: "All four have lines on their sides. That tells nothing.",
        SPINE_AGAIN: "Etched, A's spine shows layers; C's are finer than the eye splits.",
        DEEPER: "B's pattern is gone: it was skin deep. It takes the owner's leave to do.",
        BEVEL: "D is plain down there: its core is the edge. That is how it was meant.",
        MAGNET: "A magnet sticks to all four. It says nothing of layers.",
    }[job.test]
    return said if changed == "test" or not pairs else ""
