"""Lesson 11, made to order: four briefs, each judged on what the design really gives.

Nothing is looked up: stars are counted along the twisted steel, lines along the ground
bevel, the core is followed to the skin, the plan is reckoned through every loss.
"""

import math
from functools import lru_cache, partial
from typing import Any, ClassVar, NamedTuple

from kit.basics.declare import quantity
from kit.basics.errors import KitError
from kit.basics.told import in_units
from kit.basics.units import Units, format_length
from kit.course.lessons import briefs_drawing as made
from kit.course.lessons.base import Lesson
from kit.course.lessons.briefs_advice import Advice, tried
from kit.course.lessons.briefs_drawing import HIGH, STRETCH, WANDER, WIDE
from kit.course.lessons.reading import BARS
from kit.course.lessons.scene import Number, Scene
from kit.section.picture import ACCENT, GHOST, INK, QUIET, Sheet

# What the customers ask for is invented; so is the least face.
STARS, LEANS = 5, (40.0, 50.0)
SPACING = (0.5, 1.0)  # mm, of lines on a bevel
LOG_SPACING = tuple(map(math.log, SPACING))
CORE_LINE = (6.0, 10.0)  # mm
YIELD = 0.40
NEAR = 0.02  # of a star: it is counted on a picture
LEAST_FACE = 0.3  # mm ground off: less is no face to see stars on
NAMES = ("1 Stars and slant", "2 Lines on the bevel", "3 The core's line", "4 The yield")
SHEET = (1000, 482)
CELL = (500, 238)


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


class BriefsLesson(Lesson):
    """What was chosen for all four briefs; a field is a control, lengths in mm."""

    key: ClassVar = "briefs"
    number: ClassVar = "11"
    title: ClassVar = "Made to order"

    across: float = quantity(
        "Round bar diameter", "before it is ground", low=8.5, high=28.5, unit="mm",
        default=12.5, stops=BARS,
    )  # fmt: skip
    turn: float = quantity(
        "One turn", "length of a turn of the twist", low=20, high=160, unit="mm",
        default=90,
    )  # fmt: skip
    ground: float = quantity(
        "Ground off", "from the top of the round bar", low=0, high=14, unit="mm", default=1,
        step=0.1,
    )  # fmt: skip
    layers: int = quantity(
        "Layers in the spine", "of a flat-layered blade", low=20, high=400, default=200,
        step=10,
    )  # fmt: skip
    spine: float = quantity(
        "Spine", "thickness of the blade's back", low=2, high=8, unit="mm", default=4,
        step=0.1,
    )  # fmt: skip
    height: float = quantity(
        "Blade height", "from edge to spine", low=15, high=60, unit="mm", default=30
    )
    core: float = quantity(
        "Core", "of a stack 12 mm (0.47 in) high, before it is forged", low=1, high=10,
        unit="mm", default=5, step=0.1,
    )  # fmt: skip
    forged: float = quantity(
        "Forged to", "the spine of the clad blade", low=3, high=8, unit="mm", default=4,
        step=0.1,
    )  # fmt: skip
    blade: float = quantity(
        "Clad blade height", "from edge to spine", low=15, high=60, unit="mm", default=32
    )
    cycles: int = quantity(
        "Cut and stack", "times, after the first weld", low=0, high=6, default=4
    )
    crop: float = quantity(
        "Crop, each end", "cut off after every weld", low=0, high=20, unit="mm", default=10
    )
    scale: float = quantity(
        "Lost as scale, each weld", "off each face at welding heat", low=0, high=0.3,
        unit="mm", default=0.12, step=0.01, inch=0.001,
    )  # fmt: skip

    stations: ClassVar = {
        NAMES[0]: ("across", "turn", "ground"),
        NAMES[1]: ("layers", "spine", "height"),
        NAMES[2]: ("core", "forged", "blade"),
        NAMES[3]: ("cycles", "crop", "scale"),
    }

    shuts: ClassVar = {
        "No clad blade can be forged from such a core, however high.": (
            lambda job: _no_clad(job.core, job.forged), "blade"
        ),
    }  # fmt: skip

    def chosen(self, brief: int) -> tuple[float, ...]:
        """Give what was chosen for one of the briefs, counted from 0, in its order."""
        return tuple(getattr(self, key) for key in self.stations[NAMES[brief]])

    def judged(self, units: Units = Units.MM) -> tuple[Judged, ...]:
        """Judge all four briefs; what cannot be made fails with the reason.

        What fails is told with a change of one control that was tried, and helps.
        """
        return tuple(self._judged(brief, units.fine) for brief in range(len(NAMES)))

    def _judged(self, brief: int, units: Units) -> Judged:
        chosen = self.chosen(brief)
        try:
            reason = TOLD[brief](units, *chosen)
            if MISSING[brief](*chosen) == 0:
                return Judged(True, f"{reason}.")
        except KitError as refused:
            # the controls show what is given
            allowed, *_ = str(refused).partition(". Given")
            so = _so(brief, chosen).replace(THEN, "")
            return Judged(False, in_units(f"{allowed}, {so}", units))
        return Judged(False, f"{reason}, {_so(brief, chosen)}")

    def draw(self, units: Units, *, told: bool = True, **paper: Any) -> Scene:
        """Draw the four designs; say of each whether it meets its brief, and why not."""
        found = self.judged(units)
        sheet = Sheet(*SHEET, **paper)
        for index, judged in enumerate(found):
            at = 14 + CELL[0] * (index % 2), 6 + CELL[1] * (index // 2)
            _cell(sheet, index, judged, at, units)
            self._design(sheet, index, (at[0], at[1] + 54), units)
        return Scene(
            image=sheet.image,
            alt=lambda: _alt(found),
            numbers=_numbers(found),
            says=_told(found),
        )

    def remark(self, changed: str, units: Units = Units.MM) -> str:
        """Say what became of the brief that the control belongs to."""
        station = next(name for name, keys in self.stations.items() if changed in keys)
        return self.turned_to(station, units)

    def turned_to(self, station: str, units: Units) -> str:
        """Say what became of the brief whose controls are shown."""
        brief = NAMES.index(station)
        return _reason(brief, self._judged(brief, units.fine))

    def _design(self, sheet: Sheet, brief: int, at: tuple[int, int], units: Units) -> None:
        steel = partial(made.draw_steel, units=units)
        designs = (made.draw_stars, made.draw_bevel, made.draw_core, steel)
        try:
            designs[brief](sheet, at, *self.chosen(brief))
        except KitError:  # said in words already
            sheet.box(at, (at[0] + WIDE, at[1] + HIGH), ink=GHOST)
            return
        if brief == len(designs) - 1:
            goal = at[0] + WIDE * YIELD
            sheet.line([(goal, at[1]), (goal, at[1] + 60)], ink=ACCENT, width=3)
            sheet.text("wanted", (goal - 6, at[1] + 52), size=15, anchor="ra", ink=ACCENT)


def _no_clad(core: float, forged: float) -> bool:
    """Say whether no clad blade can be forged from such a core, however high it is."""
    try:
        made.clad(core, forged, BriefsLesson().blade, WANDER)
    except KitError:
        return True
    return False


def _missing_stars(across: float, turn: float, ground: float) -> float:
    count, lean = made.stars_and_lean(across, turn, ground)
    if ground < LEAST_FACE:  # nothing can be seen yet: farther off than any face
        return 100 + LEAST_FACE - ground
    short = max(0.0, STARS - NEAR - count) / STARS
    return short + _outside(lean, LEANS) / LEANS[0]


def _missing_bevel(layers: int, spine: float, height: float) -> float:
    spacing = made.bevel_lines(layers, spine, height)
    return _outside(math.log(spacing), LOG_SPACING)


def _missing_core(core: float, forged: float, blade: float, pixel: float = 0.25) -> float:
    low, high = made.core_lines(core, forged, blade, pixel)
    wander = max(0.0, high - low - (CORE_LINE[1] - CORE_LINE[0]))
    # no core of any thickness mends a line that wanders
    return 100 * wander + _outside(low, CORE_LINE) + _outside(high, CORE_LINE)


def _missing_yield(cycles: int, crop: float, scale: float) -> float:
    try:
        return max(0.0, YIELD - made.planned(cycles, crop, scale).share_out)
    except KitError:  # nothing is left: the fewer losses, the nearer
        return 1.0 + cycles + crop + scale


def _outside(value: float, within: tuple[float, float]) -> float:
    return max(0.0, within[0] - value, value - within[1])


def _stars(units: Units, *chosen: float) -> str:
    if chosen[-1] < LEAST_FACE:
        return "hardly anything is ground off, there is no face yet"
    count, lean = made.stars_and_lean(*chosen)
    stretch = format_length(STRETCH, units)
    told = f"{count:.1f} stars in {stretch}, lines at {lean:.0f}°"
    if count < STARS - NEAR:
        return f"{told}: {STARS} stars are wanted"
    low, high = LEANS
    return f"{told}: {low:g}° to {high:g}° are wanted" * bool(_outside(lean, LEANS)) or told


def _bevel(units: Units, *chosen: float) -> str:
    spacing = made.bevel_lines(*chosen)
    low, high = (format_length(limit, units) for limit in SPACING)
    told = f"a line every {format_length(spacing, units)}"
    if spacing < SPACING[0]:
        return f"{told}: at least {low} is wanted"
    return f"{told}: at most {high} is wanted" if spacing > SPACING[1] else told


def _core(units: Units, *chosen: float) -> str:
    lowest, highest = made.core_lines(*chosen)
    low, high = (format_length(limit, units) for limit in CORE_LINE)
    if highest - lowest > CORE_LINE[1] - CORE_LINE[0]:
        return f"the line wanders by {format_length(highest - lowest, units)}"
    if lowest <= 0:
        return "the core leaves the edge where it wanders"
    told = (
        f"line from {format_length(lowest, units)} to {format_length(highest, units)} "
        "above the edge"
    )
    if lowest < CORE_LINE[0]:
        return f"{told}: {low} at least is wanted"
    return f"{told}: {high} at most is wanted" if highest > CORE_LINE[1] else told


def _yield(_units: Units, *chosen: float) -> str:
    share = made.planned(*chosen).share_out
    told = f"{100 * share:.0f} % of the steel gets into the bar"
    return f"{told}: {100 * YIELD:.0f} % is wanted" if share < YIELD else told


MISSING = (_missing_stars, _missing_bevel, _missing_core, _missing_yield)
TOLD = (_stars, _bevel, _core, _yield)
THEN = " first, then see"
CORE, COARSE = 2, 2.0  # the brief whose measuring is slow, and mm, ours, to find a way


@lru_cache(maxsize=16)
def advised(brief: int, chosen: tuple[float, ...]) -> Advice | None:
    """Give a change of one control of a brief, counted from 0, that was tried and helps."""
    keys = BriefsLesson.stations[NAMES[brief]]
    fields = {key: BriefsLesson.model_fields[key] for key in keys}
    quick = partial(_missing_core, pixel=COARSE) if brief == CORE else MISSING[brief]
    return tried(MISSING[brief], fields, dict(zip(keys, chosen, strict=True)), quick)


def _so(brief: int, chosen: tuple[float, ...]) -> str:
    advice = advised(brief, chosen)
    if advice is None:
        return "but no one change helps from here: begin anew."
    return f"so {advice.words}{'' if advice.meets else THEN}."


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
        f"{core[0]} to {core[1]} up, core off by {wander}",
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
    sheet.lines(judged.reason, (left, top + 60 + HIGH), WIDE, most=3)


def _numbers(found: tuple[Judged, ...]) -> tuple[Number, ...]:
    rows = [
        Number(name, "meets it" if judged.passed else "not yet", [judged.reason])
        for name, judged in zip(NAMES, found, strict=True)
    ]
    met = sum(judged.passed for judged in found)
    return (*rows, Number("Briefs met", f"{met} of {len(found)}", ["count them above"]))


def _reason(index: int, judged: Judged) -> str:
    return f"{NAMES[index]}: {judged.reason[0].upper()}{judged.reason[1:]}"


def _told(found: tuple[Judged, ...]) -> str:
    if all(judged.passed for judged in found):
        return "All four are met. Others meet them otherwise: there are many right answers."
    index = next(i for i, judged in enumerate(found) if not judged.passed)
    return _reason(index, found[index])


def _alt(found: tuple[Judged, ...]) -> str:
    told = " ".join(
        f"{name}, {'meets it' if judged.passed else 'not yet'}: {judged.reason}"
        for name, judged in zip(NAMES, found, strict=True)
    )
    return f"Four designs with their briefs. {told}"
