"""Lesson 07: san mai. A core, a line, and how far off you may be."""

from __future__ import annotations

import math
from typing import Any

from kit.basics.units import Units, format_length
from kit.course.lessons import san_mai_drawing as drawing
from kit.course.lessons.san_mai_blade import CLADDING, CORE, Job
from kit.course.lessons.san_mai_ideas import (
    core_working,
    line_working,
    permissible_working,
    spread,
)
from kit.course.lessons.san_mai_lines import LOST, Traced
from kit.course.lessons.scene import Number, Scene
from kit.section.grind import KINDS
from kit.section.picture import Sheet

OTHER = {"left": "right", "right": "left"}
Lines = dict[str, Traced]


def scene(
    *,
    units: Units = Units.MM,
    sunlit: bool = False,
    inside: bool = True,
    **settings: Any,
) -> Scene:
    """Forge three bars into one, grind a blade from it and show both its sides.

    `settings` are those of `Job`. Without `inside`, how far off the core may be is kept
    back.
    """
    job = Job.asked(settings, units)
    lines = drawing.both(job)
    sheet = Sheet(drawing.COLUMNS, drawing.ROWS, sunlit=sunlit)
    sawn, larger = drawing.section(sheet, job, lines)
    drawing.legend(sheet, job)
    flat, pixel = drawing.sides(sheet, job, lines, units)
    if inside and job.clad:
        drawing.tolerance(sheet, job, larger, units)
    if inside:
        drawing.band(sheet, job, lines, pixel, units)
    return Scene(
        image=sheet.image,
        alt=_alt(job, lines, units, inside=inside),
        numbers=_numbers(job, lines, units, inside=inside),
        says=_says(job, lines),
        panels=(sawn, *flat),
    )


def lost(lines: Lines) -> list[str]:
    """Name the sides on which the cladding has become the edge, at least in places."""
    return [name for name, line in lines.items() if line.heights[0] <= LOST]


def _fine(mm: float, units: Units) -> str:
    return f"{mm:.2f} mm" if units is Units.MM else format_length(mm, units)


def _numbers(job: Job, lines: Lines, units: Units, *, inside: bool) -> tuple[Number, ...]:
    core = Number(
        "Core after forging",
        _fine(job.forged_core, units),
        core_working(job.core, job.stack, job.forged),
    )
    heights = [_height(line, job, units) for line in lines.values()]
    words = " / ".join(heights)
    if words.endswith(" mm"):
        words = words.replace(" mm", "") + " mm"
    pair = Number("Line left / right", words, _pair_working(job))
    if not inside:
        return core, pair
    most = _fine(job.permissible, units) if job.clad else "none: no cladding to move in"
    working = permissible_working(job.given)
    if not job.clad:
        working = ["a core without cladding on both sides lies where it lies"]
    elif job.dies:
        working = ["the core, wavy, must reach across the edge all along",
                   "followed through the dies, on the solid", f"= {most}"]  # fmt: skip
    numbers = [core, pair, Number("Largest permissible offset", most, working)]
    numbers.append(_off_centre(job, units))
    if KINDS[job.kind] == "flat":
        numbers.append(_up_the_bevel(job))
    return tuple(numbers)


def _off_centre(job: Job, units: Units) -> Number:
    by_work = job.off if job.clad else 0.0
    return Number(
        "Core off centre, in all",
        _fine(abs(job.offset), units) + _towards(job.offset, " "),
        [
            "uneven bars: (right - left cladding) / 2, after forging",
            f"= {job.offset - by_work:.2f} mm",
            f"and {by_work:+.2f} mm by forging and grinding",
            f"together = {abs(job.offset):.2f} mm{_towards(job.offset, ' ')}",
        ],
    )


def _up_the_bevel(job: Job) -> Number:
    up = spread(job.given)
    lean = math.degrees(math.atan(1 / up))
    return Number(
        "What is across, up the bevel",
        f"× {up:.1f} ({lean:.1f}°)",
        [
            "bevel height / ((spine - edge) / 2)",
            f"= {job.height:g} / (({job.thickness:g} - {job.edge:g}) / 2)",
            f"= {up:.1f}",
        ],
    )


def _height(line: Traced, job: Job, units: Units) -> str:
    low, high = line.heights
    if low >= job.height * 0.999:
        return "none"
    if high < -LOST:
        return "lost"
    low = max(low, 0)
    if high - low < 0.05:
        return drawing.length(high if high > LOST else 0.0, units)
    return f"{drawing.length(low, units)} to {drawing.length(high, units)}"


def _pair_working(job: Job) -> list[str]:
    if KINDS[job.kind] != "flat" or job.dies or not job.clad:
        return [
            "measured on the blade: every place of its side is followed back into the",
            "stack, and the line is where cladding turns into core",
        ]
    if not job.offset:
        return line_working(job.given)
    left = line_working(job.given, job.offset)
    right = line_working(job.given, -job.offset)
    return [left[0], f"left {left[1]}", left[2], f"right {right[1]}", right[2]]


def _towards(offset: float, words: str = " towards the ") -> str:
    if abs(offset) < LOST:
        return ""
    return words + ("left" if offset > 0 else "right")


def _says(job: Job, lines: Lines) -> str:
    if not job.left and not job.right:
        return "No cladding: the whole blade is core steel, and there is no line."
    if not job.clad:
        name = "left" if not job.left else "right"
        return (
            f"No cladding on the {name} side: the core lies against it and can not be "
            "moved off centre."
        )
    gone = lost(lines)
    if not gone:
        return ""
    if max(lines[gone[0]].far.max(), lines[OTHER[gone[0]]].far.max()) > LOST:
        return "The core leaves the edge altogether: the edge is all cladding."
    where = "both sides" if len(gone) == 2 else f"the {gone[0]} side"
    return (
        f"The core leaves the edge on {where}: there cladding has become the edge, and "
        "there is no hard edge."
    )


def _alt(job: Job, lines: Lines, units: Units, *, inside: bool) -> str:
    def size(mm: float) -> str:
        return format_length(mm, units)

    each = "; ".join(
        f"{name} side: {drawing.heights(line, job, units)}" for name, line in lines.items()
    )
    sheets = f" with nickel sheets of {size(job.nickel)} between," if job.nickel else ""
    dies = (
        f" waved by dies {size(job.wave)} deep, {size(job.spacing)} apart,"
        if job.wave
        else ""
    )
    words = (
        f"A blade {size(job.height)} high with a {KINDS[job.kind]} grind, spine "
        f"{size(job.thickness)}, edge {size(job.edge)}: a core of {CORE}, "
        f"{_fine(job.forged_core, units)} thick,{sheets}{dies} "
        f"{_fine(abs(job.offset), units)} off centre{_towards(job.offset)}, in "
        f"{CLADDING}. Above, sawn across; below, both sides opened out at the edge. "
        f"{each.capitalize()}."
    )
    if inside and job.clad:
        most = _fine(job.permissible, units)
        words += f" A band shows that the core may be {most} off centre."
    gone = lost(lines) if job.clad else []
    if gone:
        words += (
            f" Hatched at the edge, {' and '.join(gone)}: cladding has become the edge."
        )
    return words


def remark(changed: str, state: dict[str, Any]) -> str:
    """Say what a change of one control did, where that is the point of it."""
    if changed == "nickel" and state["nickel"]:
        return (
            "The nickel sheets show as bright lines beside the core. Nickel stays soft in "
            "every quench and temper, and nickel and stainless pairs need a heat treatment "
            "of their own: follow the data sheets of your steels."
        )
    if changed == "spacing" and not state["wave"]:
        return "There are no dies yet: give them a depth first."
    if changed == "wave" and state["wave"]:
        return (
            "The dies push the core aside in turn, and the line waves. What the wave "
            "uses up, your hammer may no longer be off."
        )
    if changed == "kind" and state["kind"]:
        return "Another grind is thick at another height: the lines move, the core did not."
    return ""
