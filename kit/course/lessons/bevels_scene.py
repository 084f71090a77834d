"""Lesson 06 on one sheet: picture, words and numbers."""

from __future__ import annotations

import math

from kit.basics.units import Units, format_length
from kit.course.lessons import bevels_drawing as drawing
from kit.course.lessons.bevels import BEFORE, Job
from kit.course.lessons.bevels_ideas import lines_working
from kit.course.lessons.eye import EYE_300
from kit.course.lessons.scene import Number, Panel, Scene
from kit.section.finish import ILLUSTRATIVE
from kit.section.grind import KINDS
from kit.section.picture import QUIET, Sheet
from kit.shop.bought import BOUGHT, FLAT, LADDER, RAINDROP

TOO_FINE = "too fine at 300 mm"
SURVIVE = "You will not get this face. You get the one underneath, and the bevel's lines."


def scene(
    *,
    units: Units = Units.MM,
    sunlit: bool = False,
    inside: bool = True,
    **values: float,
) -> Scene:
    """Grind the blade; show it from the side and, with `inside`, sawn and in loupes."""
    job = Job.asked(values, units)
    sheet = Sheet(drawing.COLUMNS, drawing.ROWS, sunlit=sunlit)
    panels = (drawing.side(sheet, job, units, spots=inside),)
    if inside:
        panels += drawing.sections(sheet, job, units)
        panels += drawing.loupes(sheet, job, units)
    else:
        words = "The blade, sawn across and in four loupes, opens after your prediction."
        sheet.text(words, (500, 400), size=18, anchor="mm", ink=QUIET)
    return Scene(
        image=sheet.image,
        alt=_alt(job, panels, units),
        numbers=_numbers(job, units),
        says=ILLUSTRATIVE,
        panels=panels,
    )


def fine(mm: float, units: Units) -> str:
    """Write a small length in one unit throughout, and say if it is too fine to see."""
    if math.isinf(mm):
        return "no lines"
    shown = f"{mm:.3f}".rstrip("0").rstrip(".") + " mm"
    if units is not Units.MM:
        shown = format_length(mm, Units.INCH_DECIMAL)  # 1/32 in would be too coarse
    return shown + ("" if mm >= EYE_300 else f" ({TOO_FINE})")


def _figure(value: float) -> str:
    return f"{round(value, 1):g}"


def _numbers(job: Job, units: Units) -> tuple[Number, ...]:
    lines, spacing, spread = job.crossed
    flat = "" if job.bought == FLAT else ", were the layers flat"
    mean = ", mean" if job.kind >= KINDS.index("hollow") else ""
    some = not math.isinf(spacing)
    angle = f"1 / sin of the bevel's angle, {_lean(job):.2f}°"
    found = [
        Number(f"Lines on each side{flat}", _figure(lines), _lines_working(job)),
        Number(
            f"Line spacing on the bevel{mean}",
            fine(spacing, units),
            _spacing_working(job) if some else ["nothing is ground: no lines"],
        ),
        Number(
            "Spread",
            f"× {spread:.1f}" if some else "none",
            ["spread = spacing / layer", f"on a flat bevel it is {angle}"],
        ),
        Number(
            f"Line spacing on the spine{flat}",
            fine(job.layer, units),
            [
                "the spine cuts the layers square: spacing = spine / layers",
                f"= {job.spine:g} mm / {job.layers}",
                f"a good eye splits {EYE_300:.4f} mm at 300 mm (one minute of arc)",
            ],
        ),
    ]
    if job.bought in {LADDER, RAINDROP}:
        found.append(_relief(job))
    return tuple(found)


def _lean(job: Job) -> float:
    return math.degrees(math.atan2(job.depth, job.grind.height))


def _lines_working(job: Job) -> list[str]:
    if job.depth == 0:
        return ["edge = spine: nothing is ground, so no layer is crossed"]
    plain = lines_working(job.given)
    if job.forged == 0:
        return plain
    off = min(job.cleaned, job.depth)
    return [
        f"ground from the bar: {plain[-1].removeprefix('= ')} lines",
        f"clean-up alone: {off:g} mm / {job.layer:.3g} = {off / job.layer:.3g} lines",
        f"{job.forged:g} % forged in: so much goes by the clean-up, the rest by the wheel",
        f"= {job.crossed.lines:.3g}",
    ]


def _spacing_working(job: Job) -> list[str]:
    long, lines = job.grind.bevel_length, job.crossed.lines
    most = math.floor(job.crossed.spread * job.spine / EYE_300)
    square = math.floor(job.spine / EYE_300)
    return [
        f"along the bevel, edge to top: {long:.2f} mm",
        f"spacing = {long:.2f} mm / {lines:.3g} lines = {job.crossed.spacing:.3f} mm",
        f"an eye splits up to {most} layers on this bevel, {square} on the spine",
    ]


def _relief(job: Job) -> Number:
    off = job.depth * job.share
    return Number(
        "Relief left at the edge",
        f"{100 * job.left:.0f} %",
        [
            "left = 1 - ground off / bar: relief falls evenly to the far face",
            f"= 1 - {off:.3g} mm / {job.spine:g} mm",
            f"= {job.left:.2f}",
        ],
    )


def _alt(job: Job, panels: tuple[Panel, ...], units: Units) -> str:
    shows = panels[0].shows
    bar = (
        f"a bar of {BOUGHT[job.bought]}, {job.layers} through "
        f"{format_length(job.spine, units)}"
        if job.bought == FLAT
        else f"a {BOUGHT[job.bought]} bar, {format_length(job.spine, units)} thick"
    )
    if job.shown == BEFORE:
        return f"The face of {bar}: it shows {shows}. Dashed on it, a blade's outline."
    tapered = f", tapered {job.taper:g} percent to the tip" if job.taper else ""
    forged = f", its bevel {job.forged:g} percent forged in" if job.forged else ""
    words = (
        f"The side of a blade from {bar}: {format_length(job.height, units)} high, "
        f"{KINDS[job.kind]} grind, {format_length(job.spine, units)} at the spine, "
        f"{format_length(job.edge, units)} at the edge{tapered}{forged}. "
        f"It shows {shows}. {_bevel(job, units)}"
    )
    if len(panels) == 1:
        return words
    ricasso, _, bevel, spine = (panel.shows for panel in panels[-4:])
    return (
        f"{words} Below: the blade sawn across, and four loupes on ricasso, plunge, bevel "
        f"and spine. The ricasso shows {ricasso}; the bevel {bevel}; the spine {spine}."
    )


def _bevel(job: Job, units: Units) -> str:
    lines, spacing, _ = job.crossed
    if not lines:
        return "There is no bevel: this is the face of the bar."
    if job.bought == FLAT:
        apart = fine(spacing, units)
        return f"The bevel lays bare {_figure(lines)} lines along the edge, {apart} apart."
    return (
        "The bevel cuts deeper into the bar, and its shallow cut draws the pattern out "
        "across the blade."
    )


def remark(changed: str, state: dict[str, float]) -> str:
    """Say what a change of one control did, where that is the point of it."""
    job = Job(**state)
    if job.depth == 0:
        return "The edge is as thick as the spine: no bevel, no lines."
    if job.bought == FLAT and job.crossed.spacing < EYE_300:
        return "More layers are finer, not better: this bevel looks even grey to the eye."
    if changed in {"bought", "shown"}:
        return _flip(job)
    if changed in {"forged", "cleaned"} and job.forged:
        return _forged(job)
    if changed in {"kind", "bevel", "wheel"} and job.kind:
        return _GRINDS[job.kind]
    return _SAME if changed in {"spine", "layers"} else ""


_SAME = "Same layers everywhere: the spine cuts them square, the bevel at a slant."
_GRINDS = (
    "",
    "Above the bevel the blade keeps the bar's face: there are no lines.",
    "Hollow: steep at the top, shallow at the edge, so the lines widen towards the edge.",
    "Convex: shallow at the top, steep at the edge, so the lines crowd at the edge.",
)


def _flip(job: Job) -> str:
    if job.bought != FLAT:
        return SURVIVE
    if job.shown == BEFORE:
        return "The bar: its face is one layer, so there is nothing to see."
    return _SAME


def _forged(job: Job) -> str:
    if job.cleaned >= job.depth:
        return "That much clean-up goes as deep as the wheel would: forging saved nothing."
    return "Forged in, the layers bend along with the bevel; only the clean-up cuts them."
