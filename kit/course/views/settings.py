"""What a view can be set to: each control declared once; and what gives way to what."""

from __future__ import annotations

import math
from collections.abc import Collection
from contextlib import suppress
from dataclasses import dataclass
from typing import Any

from kit.basics.declare import Declared, allowed_range, multiples
from kit.basics.errors import KitError
from kit.basics.typed import (
    MM_PER_INCH,
    parse_angle,
    parse_count,
    parse_length,
    parse_minutes,
    parse_number,
    parse_temperature,
)
from kit.basics.units import Units, format_away, format_length, format_temperature
from kit.course.lessons.base import Lesson
from kit.course.views.controls import Choice, Slider, as_inches

MOST_TYPED = 200  # letters that are read
UNITS = {"angle": "°", "percent": " %", "count": "", "factor": " ×", "minutes": " min"}


@dataclass(frozen=True, kw_only=True)
class Setting:
    """A number with a range; becomes a slider.

    Parameters
    ----------
    key : str
        The name that the scene knows it by.
    label, help : str
        Beside the slider, and on hovering.
    kind : str
        "length" (mm), "angle" (degrees), "percent", "count", "factor" (times),
        "temperature" (°C) or "minutes".
    low, high, step, start : float
        Range, step and first value.
    inch_stops : tuple of float
        Where the slider stops in inch mode, mm, if not evenly.
    inch : float
        How far apart its stops are in inch mode, inches.
    all_stops : tuple of float
        Where it stops, if not evenly: from 0.01 to 2 mm by ratios, for one.
    away : bool
        It is how far away somebody stands.
    """

    key: str
    label: str
    help: str
    kind: str
    low: float
    high: float
    step: float
    start: float
    inch_stops: tuple[float, ...] = ()
    all_stops: tuple[float, ...] = ()
    inch: float = 1 / 16
    away: bool = False

    def control(self) -> Slider:
        """Make the slider, in millimetres to begin with."""
        return Slider(
            label=self.label,
            help=self.help,
            stops=self.stops(Units.MM, self.start),
            value=self.start,
            readout=self.show(self.start, Units.MM),
        )

    def stops(self, units: Units, present: float | None = None) -> list[float]:
        """Give the values that the slider steps through, the `present` one among them."""
        stops = self._stops(units)
        if present is None or any(math.isclose(present, stop) for stop in stops):
            return stops
        return sorted([*stops, present])

    def _stops(self, units: Units) -> list[float]:
        if self.all_stops:
            return list(self.all_stops)
        if self.kind == "length" and units is not Units.MM:
            every = multiples(MM_PER_INCH * self.inch, self.low, self.high)
            fit = [s for s in self.inch_stops or every if self.low <= s <= self.high]
            if fit:
                return fit
        count = round((self.high - self.low) / self.step)
        return [round(self.low + self.step * stop, 6) for stop in range(count + 1)]

    def show(self, value: float, units: Units) -> str:
        """Write a value with its unit."""
        if self.kind == "length":
            return (format_away if self.away else format_length)(value, units)
        if self.kind == "temperature":  # both, whatever the page is set to
            celsius, fahrenheit = (format_temperature(value, unit) for unit in "CF")
            return f"{celsius} ({fahrenheit})"
        return f"{value:g}" + UNITS[self.kind]

    def read(self, text: str, units: Units) -> float:
        """Read a typed value and refuse what is out of range, with one sentence."""
        if not text.strip():
            msg = f"{self.label}: nothing was typed, so the old value stays."
            raise KitError(msg)
        try:
            value = self._parse(text, units)
        except KitError as error:
            msg = f"{self.label}: {error}"
            raise KitError(msg) from None
        slack = 1e-9 * max(abs(self.low), abs(self.high))
        if not self.low - slack <= value <= self.high + slack:
            low, high = self._limits(units.typed(text) if self.kind == "length" else units)
            msg = f"{self.label} must be from {low} to {high}. Given: {text.strip()}."
            raise KitError(msg + self._meant(text, units))
        return value

    def _limits(self, units: Units) -> tuple[str, str]:
        """Write the range; in inches its ends are rounded inwards, so that they fit."""
        low, high = self.low, self.high
        if self.kind == "length" and units is not Units.MM:
            step = MM_PER_INCH / (32 if units is Units.INCH_FRACTION else 1000)
            low = math.ceil(low / step - 1e-9) * step
            high = math.floor(high / step + 1e-9) * step
        return self.show(low, units), self.show(high, units)

    def take(self, control: Slider, message: dict, units: Units) -> str:
        """Set a slider to what was typed beside it; give the refusal, or nothing."""
        try:
            control.value = self.read(str(message.get("typed", ""))[:MOST_TYPED], units)
        except KitError as refused:
            return str(refused)
        finally:
            control.send({"answered": True})
        return ""

    def typed_in(self, message: dict, units: Units) -> Units:
        """Say in which units a length was typed; `units`, if it cannot be read."""
        typed = str(message.get("typed", ""))[:MOST_TYPED]
        with suppress(KitError):
            return units.typed(typed) if self.kind == "length" else units
        return units

    def note(self, control: Slider, message: dict, units: Units) -> str:
        """Say how what was typed, and taken, was read, where that may surprise."""
        typed = str(message.get("typed", ""))[:MOST_TYPED]
        note = as_inches(typed, units) if self.kind == "length" else ""
        return note if note and control.value == self.read(typed, units) else ""

    def _meant(self, text: str, units: Units) -> str:
        """Ask whether a bare number was meant in °F, if it would be a heat then."""
        if self.kind != "temperature" or units is not Units.MM:
            return ""
        try:
            value = parse_temperature(text, "F")
        except KitError:
            return ""
        bare = text.strip()
        return f" For °F write {bare} F." if self.low <= value <= self.high else ""

    def _parse(self, text: str, units: Units) -> float:
        if self.kind == "length":
            return parse_length(text, unit=units.unit)
        if self.kind == "temperature":
            return parse_temperature(text, "C" if units is Units.MM else "F")
        if self.kind == "minutes":
            return parse_minutes(text)
        if self.kind == "angle":
            return parse_angle(text)
        if self.kind == "factor":
            return parse_number(text.strip().strip("×x "))
        # a count below zero is readable, only never allowed: say so as for other ranges
        bare = text.strip().removesuffix("%")
        below = bare[:1] in ("-", "−")
        return float(parse_count(bare[1:] if below else bare)) * (-1 if below else 1)


KINDS = {
    "mm": "length",
    "°": "angle",
    "%": "percent",
    "×": "factor",
    "°C": "temperature",
    "min": "minutes",
    "": "count",
}


def declared(owner: type[Declared], key: str, step: float, **more: Any) -> Setting:
    """Make a control of a number that was declared with `quantity`.

    Parameters
    ----------
    owner : type
        A lesson or a design: name, help, range, unit and first value are its field's.
    key, step
        As for `Setting`; `more` goes there, too.
    """
    field = owner.model_fields[key]
    low, high = allowed_range(field)
    return Setting(
        key=key,
        label=field.title,
        help=field.description,
        kind=KINDS[(field.json_schema_extra or {}).get("unit", "")],
        low=low,
        high=high,
        step=step,
        start=field.default,
        **more,
    )


def settings_of(owner: type[Declared]) -> tuple[Setting | Pick, ...]:
    """Make a control of each number and choice that a lesson declared, in their order."""
    return tuple(_setting(owner, key) for key in owner.model_fields)


def _setting(owner: type[Declared], key: str) -> Setting | Pick:
    field = owner.model_fields[key]
    said = field.json_schema_extra
    if "options" in said:
        options = tuple(said["options"])
        return Pick(key=key, label=field.title, options=options, start=field.default)
    inch = said.get("inch", 1 / 16)
    where = {"inch": inch} if isinstance(inch, float) else {"inch_stops": tuple(inch)}
    stops = tuple(said.get("stops", ()))
    where["away"] = said.get("away", False)
    return declared(owner, key, said.get("step", 1), all_stops=stops, **where)


@dataclass(frozen=True, kw_only=True)
class Pick:
    """One of several by name; becomes a radio group. Its value is the index."""

    key: str
    label: str
    options: tuple[str, ...]
    start: int = 0

    def show(self, value: int, _units: Units) -> str:
        """Give the name of a choice."""
        return self.options[value]

    def control(self) -> Choice:
        """Make the radio group."""
        return Choice(self.label, list(self.options), value=self.start)


LINE = 130  # signs that stand in one line of a laptop; ours


def give_way(view: Any, moved: Collection[str], *, meant: bool) -> tuple[Lesson, str]:
    """Let what no longer fits give way, and say so.

    Parameters
    ----------
    view : View
    moved : collection of str
        The keys of what was moved.
    meant : bool
        Whether it was set or typed, and not dragged: that very number is meant.

    Returns
    -------
    job : Lesson
        What fits: the one object of this move.
    gave : str
        What went where, and why; nothing if all fits.

    Raises
    ------
    KitError
        If what was meant does not fit.
    """
    state, units = view.state, view.typed_in or view.units
    job, why = view.lesson.fitted(state, units)
    fitted = job.values
    gave = [
        setting for setting in view.settings if fitted[setting.key] != state[setting.key]
    ]
    if not gave:
        return job, ""
    if meant and any(setting.key in moved for setting in gave):
        raise KitError(why)
    view.place(fitted)
    why = why.partition(" Given:")[0]
    # what was dragged to its end has reached something, too
    at_end = {setting.key for setting in gave} == set(moved)
    reached = job.remarked(*moved, units) if at_end else ""
    if reached and len(f"{reached} {why}") <= LINE:
        return job, f"{reached} {why}"
    told = [
        f"{one.label.strip()} is now {one.show(fitted[one.key], units)}" for one in gave
    ]
    return job, f"{' and '.join(told)}. {why}"


def take_typed(view: Any, key: str, message: dict) -> None:
    """Set a slider to what was typed beside it; say why not, or how it was read."""
    control = view.controls[key]
    setting = next(setting for setting in view.settings if setting.key == key)
    view.typed_in = setting.typed_in(message, view.units)
    refused = setting.take(control, message, view.units)
    view.typed_in = None
    told = refused or setting.note(control, message, view.units)
    if told:
        view.say(told, refused=bool(refused))
