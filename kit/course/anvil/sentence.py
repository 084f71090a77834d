"""An act as a sentence whose bold words are its controls: made from what it declares."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass, replace
from typing import Any, get_args

from kit.basics.declare import Declared, allowed_range
from kit.basics.typed import MM_PER_INCH
from kit.basics.units import Units, both, format_length
from kit.course.anvil.acts import VERBS, Act, name_of
from kit.course.anvil.laid import Laid
from kit.forge.steps import Place, Size
from kit.forge.steps.base import Heat

GAP = re.compile(r"\{(\w+)\}")
MOST_STOPS = 120  # of a slider, ours
HELD = "as it comes"  # a value left out
NO_HEAT = "not told"  # borders in the picture stay as sharp as they were stacked
NICE = (1, 2, 5)


@dataclass(frozen=True)
class Gap:
    """One bold word of a sentence: a value that can be set.

    Attributes
    ----------
    key, title, meaning : str
        As declared.
    unit : str
        "mm", "°", or nothing for a count.
    value : float, int, str or None
    options : tuple of str
        Of a word, what it can be; none for a number.
    low, high : float
        What a number may be.
    may_be_out : bool
        Whether it can be left out.
    held : str
        What is written then.
    """

    key: str
    title: str
    meaning: str
    unit: str
    value: Any
    options: tuple[str, ...] = ()
    low: float = -math.inf
    high: float = math.inf
    whole: bool = False
    may_be_out: bool = False
    held: str = HELD

    def shown(self, units: Units) -> str:
        """Write its value."""
        if self.value is None:
            return self.held
        if self.options:
            return str(self.value)
        if self.unit == "mm":
            return format_length(self.value, units)
        if self.unit == "°C":  # both, whatever the page is set to
            return both(self.value)
        return f"{self.value:g}{' min' if self.unit == 'min' else self.unit}"

    def stops(self, units: Units) -> list[float]:
        """Give where its slider stops: round values around the present one."""
        if self.whole:
            low, high = int(self.low), int(min(self.high, max(self.low, 0) + MOST_STOPS))
            stops = {float(n) for n in range(low, high + 1)}
        else:
            stops = self._even(units)
        return sorted(stops | {float(self.value)})

    def _even(self, units: Units) -> set[float]:
        """Space them evenly, from nearly nothing to four times what it is."""
        here = abs(self.value) or 5.0
        low = self.low if self.low < 0 else max(self.low, 0.0)
        high = self.high if self.low < 0 else min(self.high, 4 * here)
        inch = self.unit == "mm" and units is not Units.MM
        step = _step((high - low) / MOST_STOPS, inch=inch)
        first, last = math.ceil(low / step - 1e-9), math.floor(high / step + 1e-9)
        return {round(n * step, 9) for n in range(first, last + 1)} | {low, high}


def _step(least: float, *, inch: bool) -> float:
    """Find the next round step, mm: of 1, 2, 5 or of halves of an inch."""
    if inch:
        return MM_PER_INCH * 2.0 ** math.ceil(math.log2(max(least / MM_PER_INCH, 1 / 64)))
    ten = 10.0 ** math.floor(math.log10(least))
    return next(nice * ten for nice in (*NICE, 10) if nice * ten >= least * (1 - 1e-9))


def parts(act: Act) -> list[str | Gap]:
    """Give the sentence after its verb: words and gaps in turn."""
    return _done(act) + _heat(act)


def filled(act: Declared, template: str) -> list[str | Gap]:
    """Give a template as words and gaps in turn, filled from what has these values."""
    found: list[str | Gap] = []
    for place, piece in enumerate(GAP.split(template)):
        if place % 2:
            found.append(gap(act, piece))
        elif piece:
            found.append(piece)
    return found


def gap(act: Declared, key: str) -> Gap:
    """Give one value of an act as a gap."""
    field = type(act).model_fields[key]
    low, high = allowed_range(field)
    kinds = get_args(field.annotation)
    options = tuple(kind for kind in kinds if isinstance(kind, str))
    return Gap(
        key=key,
        title=field.title or key,
        meaning=field.description or "",
        unit=(field.json_schema_extra or {}).get("unit", ""),
        value=getattr(act, key),
        options=options,
        low=-math.inf if low is None else low,
        high=math.inf if high is None else high,
        whole=field.annotation is int,
        may_be_out=type(None) in kinds,
    )


def spoken(act: Act, units: Units = Units.MM) -> str:
    """Write the whole sentence: "Now twist it, one turn in 70 mm, right hand."."""
    told = parts(act) if getattr(act, "heat", None) else _done(act)
    words = "".join(part if isinstance(part, str) else part.shown(units) for part in told)
    return f"Now {name_of(act)}{words}."


def _done(act: Act) -> list[str | Gap]:
    return filled(act, VERBS[name_of(act)].says or _of_titles(act))


def _heat(act: Act) -> list[str | Gap]:
    """Go on with how long, and how hot, it lay in the fire before an act."""
    heat = getattr(act, "heat", None)  # laying together has none: the next step's welds
    if not heat and (isinstance(act, Laid) or Place.FIRE not in act.done_at):
        return []
    minutes = replace(
        gap(heat or Heat(celsius=700, minutes=0), "minutes"),
        value=heat and heat.minutes,
        may_be_out=True,
        held=NO_HEAT,
    )
    return [", heat ", minutes, *([" at ", gap(heat, "celsius")] if heat else [])]


def _of_titles(act: Act) -> str:
    """Make a sentence of the values' titles, for a step that says none."""
    told = [
        f"{(field.title or key).lower()} {{{key}}}"
        for key, field in type(act).model_fields.items()
        if key not in ("step", "heat")
    ]
    return ": " + ", ".join(told) if told else ""


def sizes(size: Size, units: Units) -> str:
    """Write a bar's size: length × width × thickness, or length and how thick round."""
    length, width, thickness = (format_length(part, units) for part in size)
    if size.round and size.even:
        return f"{length} long, {thickness} round"
    return f"{length} × {width} × {thickness}"
