"""Lesson 02, a weld that did not take, on one sheet: picture, words and numbers."""

from __future__ import annotations

from kit.basics.units import Units, format_length
from kit.course.lessons import weld_chart
from kit.course.lessons import weld_drawing as drawing
from kit.course.lessons.scene import Number, Panel, Scene
from kit.course.lessons.weld_flaw import (
    ASTRIDE,
    FIRST,
    LONG,
    PIECES,
    STACK,
    SURE,
    THICKNESS,
    WHOLE,
    Job,
    times,
)
from kit.section.finish import ILLUSTRATIVE
from kit.section.picture import Sheet
from kit.section.welds import welds_made

COLUMNS, ROWS = 1000, 520


def scene(*, units: Units = Units.MM, sunlit: bool = False, **values: float) -> Scene:
    """Saw the bar; show its end, a loupe on it, all its welds, and where the gap lies."""
    job = Job.asked(values, units)
    sheet = Sheet(COLUMNS, ROWS, sunlit=sunlit)
    panels = (drawing.sawn_end(sheet, job, units), drawing.loupe(sheet, job, units))
    weld_chart.draw(sheet, job)
    drawing.seen_through(sheet, job, units)
    return Scene(
        image=sheet.image,
        alt=_alt(job, panels[0], units),
        numbers=_numbers(job, units),
        says=f"Count the wedges: one weld was missed, once. {ILLUSTRATIVE}",
        panels=panels,
    )


def made_working(pieces: int, folds: int) -> list[str]:
    """Work out the welds that a smith makes."""
    return [
        "welds = (pieces - 1) in the stack, and one a fold",
        f"= ({pieces} - 1) + {folds}",
        f"= {pieces - 1 + folds}",
    ]


def _numbers(job: Job, units: Units) -> tuple[Number, ...]:
    made, planes = welds_made(job.billet), job.billet.layers - 1
    first, own = FIRST * 2**job.folds, 2**job.folds - 1
    return (
        Number("Welds made at the anvil", f"{made}", made_working(PIECES, job.folds)),
        Number(
            "Weld planes in the bar",
            f"{planes}",
            [
                f"of the stack, doubled by each fold: {FIRST} × 2^{job.folds} = {first}",
                f"of the folds themselves: 2^{job.folds} - 1 = {own}",
                f"= {first} + {own} = {planes}",
            ],
        ),
        Number("The bad one, on this end", _met(job), _met_working(job)),
        Number("The open patch in the bar", *_patch(job, units)),
        Number(
            f"All good, if each is {SURE:.0%} sure (illustrative)".replace("%", " %"),
            f"{100 * job.chance:.0f} %",
            [
                f"{SURE:g} × {SURE:g} × … for all {made} welds",
                f"= {SURE:g}^{made}",
                f"= {job.chance:.4f}",
            ],
        ),
    )


def _met(job: Job) -> str:
    met = len(job.met)
    return "not met" if not met else f"{met} lines" if met > 1 else "1 line"


def _met_working(job: Job) -> list[str]:
    where = f"in fold {job.fold}" if job.fold else "in the first stack"
    lines = [f"weld {job.weld} was made {where}; {times(job.later)} came after it"]
    if job.patch == WHOLE:
        lines.append(
            f"open from end to end, so doubled by each: 2^{job.later} = {len(job.copies)}"
        )
    else:
        lines.append("a short patch is not doubled: it stays in the leaf it lies in,")
        lines.append("unless a fold or a cut goes through it")
    return [*lines, f"counted on this end: {len(job.met)}"]


def _patch(job: Job, units: Units) -> tuple[str, list[str]]:
    where = f"in {sum(job.open)} of {len(job.copies)} places"
    if job.patch == WHOLE:
        length = format_length(job.billet.size.length, units)
        return f"{length}, {where}", ["open from end to end: as long as the bar"]
    drawn = format_length(job.stretched, units)
    working = [
        f"{LONG:g} mm at the weld, twice as long after each later fold, then drawn out",
        f"= {LONG:g} mm × 2^{job.later} × {STACK.thickness:g} mm / {THICKNESS:g} mm",
        f"= {format_length(job.stretched, Units.MM)} of line, {where}",
    ]
    return f"{drawn}, {where}", working


def _name(job: Job) -> str:
    if job.fold:
        return f"weld {job.weld}, that of fold {job.fold},"
    return f"weld {job.weld} of the first stack"


def _alt(job: Job, sawn: Panel, units: Units) -> str:
    thick = format_length(THICKNESS, units)
    how = "from end to end" if job.patch == WHOLE else "in a short patch"
    end = "shows no hair-line"
    if job.met:
        many = "hair-lines, each" if len(job.met) > 1 else "hair-line,"
        end = f"shows {len(job.met)} black {many} along a layer and marked by a wedge"
    return (
        f"A bar {thick} thick of {PIECES} pieces and {times(job.folds)}, sawn at "
        f"{job.position:g} percent of its length; {_name(job)} is open {how}. The sawn end "
        f"{end}, in {sawn.shows}; beside it a part of it, "
        f"{drawing.MAGNIFIED} times larger. A chart of all {welds_made(job.billet)} welds "
        f"has a cell for each time a weld lies in the bar; "
        f"of weld {job.weld} black, open: {sum(job.open)} of {len(job.copies)}. Below, "
        f"the whole bar seen through from its side, with the gap and the saw."
    )


def remark(changed: str, state: dict[str, float]) -> str:
    """Say what a change of one control did, where that is the point of it."""
    job = Job(**state)
    if job.patch != WHOLE:
        return _short(changed, job)
    if changed == "position":
        return "Open from end to end: wherever you saw, the end shows it."
    if job.fold:
        return _of_a_fold(job)
    if changed in {"folds", "weld", "patch"} and job.folds:
        return (
            f"Missed once at the anvil, met {_times(len(job.copies))} in the bar: each "
            "fold laid it on itself."
        )
    return ""


def _of_a_fold(job: Job) -> str:
    after = "no fold came after it" if job.later == 0 else "only later folds doubled it"
    return (
        f"The weld of fold {job.fold} is met {_times(len(job.copies))}: {after}. There "
        "dark steel lies on dark, so the line hardly shows."
    )


def _times(count: int) -> str:
    return {1: "once", 2: "twice"}.get(count, f"{count} times")


def _short(changed: str, job: Job) -> str:
    through = sum(job.open)
    if changed == "position" and not job.met:
        return "This end is clean, and the bar is not. One good end proves nothing."
    if changed == "position":
        return "Here the saw meets the gap. It follows a layer, and it ends."
    if through > 1:
        why = "A fold went through the patch"
        if job.patch != ASTRIDE:
            why = "Drawn out so often, the patch grew so long that a fold went through it"
        return f"{why}: now it lies in {through} of {len(job.copies)} places."
    if len(job.copies) > 1:
        return (
            f"A short patch is not doubled: it stays in 1 of {len(job.copies)} places, "
            "only longer with every drawing. Move the saw: where does it show?"
        )
    return "A short patch. Move the saw: where does it show?"
