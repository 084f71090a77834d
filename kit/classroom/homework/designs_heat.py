"""The design tasks of H4 and H5: nickel followed through the fire; the four briefs."""

from __future__ import annotations

from kit.basics.declare import Declared, quantity
from kit.basics.units import Units
from kit.classroom.homework.tasks import Design
from kit.course.lesson import Given
from kit.course.lessons import briefs
from kit.course.lessons.briefs import BriefsLesson, Judged
from kit.course.lessons.briefs_drawing import STRETCH, WANDER
from kit.forge.stack import Layer, Stack
from kit.metal.evening import contrast_left, minutes_until
from kit.metal.soak import Soak, evened
from kit.metal.working_heat import hottest, too_hot

SHARP = 0.9  # of the difference in nickel that must be left
LONG = 0.8  # of the longest soak: shorter is not "the longest"
COOL = 1050.0  # °C, of the key's example
SIDE = 20  # sheets of plain steel, on either side of the nickel


class Soaking(Declared):
    """How hot, and how long."""

    celsius: float = quantity(
        "Heat", "of the whole bar", low=1000, high=1250, unit="°C", default=1050
    )
    minutes: float = quantity(
        "Time at heat", "all heats together", low=0.1, high=2000, unit="min", default=5
    )


def sandwich(sheet: float) -> Stack:
    """Lay a sheet of nickel between thick bars of plain steel; mm."""
    side = Layer(steel="1018", thickness=SIDE * sheet)
    middle = Layer(steel="nickel", thickness=sheet)
    return Stack(layers=(side, middle, side), length=100, width=30)


def nickel_left(sheet: float, celsius: float, minutes: float) -> float:
    """Say how much of the difference in nickel is left, 0 … 1."""
    stack = sandwich(sheet)
    soak = Soak(celsius, minutes, stack.thickness)
    return contrast_left(stack, "Ni", evened("Ni", [soak]))


def _soak(values: Given, chosen: Soaking, _units: Units) -> Judged:
    left = nickel_left(values["sheet"], chosen.celsius, chosen.minutes)
    told = f"{100 * left:.0f} % is left after {chosen.minutes:g} min"
    if left < SHARP:
        return Judged(False, f"{told}: 90 % is wanted, so go shorter or cooler.")
    hot = too_hot(chosen.celsius, sandwich(values["sheet"]).steels)
    if hot:
        return Judged(False, f"{told}. {hot} Go cooler.")
    longest = minutes_until(sandwich(values["sheet"]), "Ni", chosen.celsius, left=SHARP)
    if chosen.minutes < LONG * longest:
        return Judged(False, f"{told}: at that heat it may stay longer.")
    return Judged(True, f"{told}.")


def _briefs(_values: Given, chosen: BriefsLesson, units: Units) -> Judged:
    judged = chosen.judged(units)
    failed = [
        f"{name}: {one.reason}"
        for name, one in zip(briefs.NAMES, judged, strict=True)
        if not one.passed
    ]
    if failed:
        return Judged(False, " ".join(failed))
    return Judged(True, "All four briefs are met.")


def _some_soak(values: Given) -> Given:
    """Stay nine tenths of the longest time, well below the working limit."""
    longest = minutes_until(sandwich(values["sheet"]), "Ni", COOL, left=SHARP)
    return {"celsius": COOL, "minutes": float(f"{0.9 * longest:.3g}")}


MOST = hottest(sandwich(0.01).steels)  # °C, however thick the sheet is
ASKED = {
    "stars": briefs.STARS,
    "stretch": STRETCH,
    "low": briefs.SPACING[0],
    "high": briefs.SPACING[1],
    "lowest": briefs.CORE_LINE[0],
    "highest": briefs.CORE_LINE[1],
    "wander": WANDER,
}
MET = {
    "across": 24.5, "turn": 60, "ground": 3, "layers": 100, "spine": 4, "height": 30,
    "core": 4.4, "forged": 8, "blade": 24, "cycles": 2, "crop": 6, "scale": 0.08,
}  # fmt: skip
SHARP_NICKEL = Design(
    title="The longest soak",
    brief=(
        "A sheet of nickel, {sheet:mm} thick when the bar is done, lies in plain steel. "
        "Choose a heat, and the longest time at it after which the middle of the sheet "
        "still stands out at least 90 % as much as at first. A fifth shorter is near "
        "enough. (Nickel's figures in print differ about fourfold; reckon with the kit's. "
        "No hotter than {most} °C ({most:F}), the working limit of nickel.)"
    ),
    fixed={"most": MOST},
    choices=Soaking,
    simulate=_soak,
    example=_some_soak,
)
FOUR_BRIEFS = Design(
    title="Four briefs",
    brief=(
        "Make the four briefs of lesson 11: at least {stars} stars in {stretch:mm} with "
        "lines at 40° to 50°; lines {low:mm} to {high:mm} apart on a bevel; the core's "
        "line {lowest:mm} to {highest:mm} above the edge even if the core wanders "
        "{wander:mm}; at least 40 % of the steel in the bar."
    ),
    fixed=ASKED,
    choices=BriefsLesson,
    simulate=_briefs,
    example=lambda _values: MET,
)
