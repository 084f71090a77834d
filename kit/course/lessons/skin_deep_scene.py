"""Lesson 06, painted on or all the way through, on one sheet: picture, words, numbers."""

from __future__ import annotations

from kit.basics.units import Units, format_length
from kit.course.lessons.scene import Number, Panel, Scene
from kit.course.lessons.skin_deep import (
    DEPTH,
    NOT_YET,
    PATTERNS,
    RAINDROP,
    TWISTED,
    Job,
)
from kit.course.lessons.skin_deep_drawing import column
from kit.course.lessons.written import thin
from kit.section.finish import ILLUSTRATIVE
from kit.section.picture import Sheet

COLUMNS, ROWS = 1000, 524
LEFT = {"forged": 10, "engraved": 510}


def scene(*, units: Units = Units.MM, sunlit: bool = False, **settings: float) -> Scene:
    """Grind a forged bar and an engraved one alike; show both, and a slice of each."""
    job = Job.asked(settings, units)
    sheet = Sheet(COLUMNS, ROWS, sunlit=sunlit)
    forged, engraved = (
        column(sheet, job, made, left, units) for made, left in LEFT.items()
    )
    return Scene(
        image=sheet.image,
        alt=_alt(job, forged[1], engraved[1], units),
        numbers=_numbers(job, units),
        says=f"From above they look alike. Look at the sides; then grind. {ILLUSTRATIVE}",
        panels=forged,
    )


def _numbers(job: Job, units: Units) -> tuple[Number, ...]:
    left = max(DEPTH - job.ground, 0.0)
    deep = format_length(job.level + job.size.thickness / 2, units)
    numbers = [
        Number(
            "Forged: pattern left below the face",
            f"{deep}, all of it",
            [
                "layers go all the way through: left = bar - ground away",
                f"= {job.size.thickness:.2f} mm - {job.ground:g} mm",
                f"= {job.size.thickness - job.ground:.2f} mm",
            ],
        ),
        Number(
            "Engraved: skin left (illustrative)",
            "none" if job.gone else thin(left, units),
            [
                "left = depth of the engraving - ground away, or none",
                f"= {DEPTH:g} mm - {job.ground:g} mm",
                "none" if job.gone else f"= {left:.3g} mm",
            ],
        ),
        Number(
            "Forged face: now the other steel",
            f"{100 * job.changed:.0f} %",
            [
                "compare the etched face, place by place, with what it was at first",
                f"share that changed from dark to bright or back: {job.changed:.3f}",
            ],
        ),
    ]
    if job.pattern == TWISTED:
        numbers.append(_lean(job))
    return tuple(numbers)


def _lean(job: Job) -> Number:
    first = Job(pattern=job.pattern)
    return Number(
        "Lean of the lines, in the middle",
        f"{job.lean:.1f}°, at first {first.lean:.1f}°",
        [
            "nearer to the axis the steel moved less for the same turn (lesson 04)",
            f"two specks of steel, followed through the twist: {job.lean:.1f}°",
        ],
    )


def _alt(job: Job, forged: Panel, engraved: Panel, units: Units) -> str:
    off = (
        f"{thin(job.ground, units)} ground off both" if job.ground else "nothing ground off"
    )
    again = f", {100 * job.changed:.0f} percent of it changed" if job.ground else ""
    bare = "is bright and bare, "
    one = (
        f"{bare}{forged.shows}" if job.bright("forged") else f"shows {forged.shows}{again}"
    )
    other = f"{bare if job.bright('engraved') else 'shows '}{engraved.shows}"
    if not job.bright("engraved") and str(engraved.shows) == str(forged.shows):
        other = "shows the same"
    return (
        f"Two bars side by side, {off}. Left, forged, {PATTERNS[job.pattern]}: its face "
        f"{one}; its sides and end show the layers too. Right, engraved: its face "
        f"{other}; its sides and end are plain. Below each, a slice through its "
        f"top: in the forged bar the layers run on down, in the other a thin skin lies on "
        f"plain steel."
    )


def remark(changed: str, state: dict[str, float]) -> str:
    """Say what a change of one control did, where that is the point of it."""
    job = Job(**state)
    if not job.ground:
        bare = "Nothing is ground off yet, so both are still etched as they were."
        return bare if changed == "etched" and job.etched == NOT_YET else ""
    if job.etched == NOT_YET:
        if job.gone:
            return "Ground bright, both are bare: grinding takes the etch off. Etch again."
        return "The forged face is bare; the engraving is deeper than that. Grind on."
    if not job.gone:
        return "A little is off. The engraving is still there, but not for long."
    if changed == "etched":
        return "Etched again: the forged pattern is back. On plain steel there is none."
    deeper = "you are deeper"
    if job.pattern == RAINDROP:
        deeper = "between the drops, too, other layers lie bare now"
    return (
        "The engraving is gone. The forged pattern is still there, "
        f"{100 * job.changed:.0f} % of its face changed: {deeper}."
    )
