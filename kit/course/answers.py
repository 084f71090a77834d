"""Kinds of answers: how each is read, written, and how near is near enough.

One rule of rounding serves lessons, homework and quiz. An answer is a value if it is
within the kind's tolerance, or if it is that very value rounded as the kit writes it
itself: "0.014 in" for 0.366 mm is a shop's thousandth, though 3 % off. No such rounding
counts that is off by more than a ruler may be, so a coarse guess gains nothing by it.

The units are in `kit.basics.typed`, with their sources.
"""

import math
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction
from functools import lru_cache
from typing import NamedTuple

from kit.basics.errors import KitError
from kit.basics.told import format_time, said
from kit.basics.typed import (
    LONGEST_TEXT,
    MM_PER_INCH,
    POUND,
    parse_angle,
    parse_count,
    parse_length,
    parse_minutes,
    parse_number,
    parse_temperature,
    parse_temperature_difference,
    read_quantity,
)
from kit.basics.units import (
    Units,
    format_away,
    format_length,
    format_temperature,
    in_three,
    rounded,
)

LARGEST = 1e12  # no answer here is anywhere near
MEASURED = 0.05  # of a length read off a ruler, and the most that rounding may be off
SLIP_SHARE = 0.05  # a slip's number must be met at least so closely
HAIR = 1e-9  # of a number: what floats are off
_GRAMS = {"g": 1.0, "kg": 1000.0, "oz": POUND / 16, "lb": POUND, "lbs": POUND}
_MM = {"mm": 1.0, "µm": 0.001}  # of units that lengths are asked for in
# What an answer may be typed in, and how many of the kind's own unit each is.
_IN_MM = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "µm": 0.001, "in": MM_PER_INCH}
_IN_MINUTES = {"min": 1.0, "s": 1 / 60, "h": 60.0, "d": 1440.0}
_WEIGHT = re.compile(r"(?P<number>[^a-z]*\d[^a-z]*)(?P<unit>[a-z]*)\.?", re.IGNORECASE)
# What people write beside a ratio: 16x, x16, 16 times, 16 : 1.
_AS_RATIO = re.compile(r"^[x×]\s*|\s*([x×]|times|(:|to)\s*1)$", re.IGNORECASE)


Words = str | Callable[[Mapping[str, float], Units], str]


@dataclass(frozen=True, kw_only=True)
class Kind:
    """One kind of answer.

    Parameters
    ----------
    unit : str
        What a bare number means, and what values are in inside: "mm", "°" …
    read : callable
        From text and `Units` to a number; raises `KitError`.
    relative, absolute : float
        Near enough is within the larger of the two; a count has neither.
    factors : tuple of float
        By these an answer is off whose unit was mistaken.
    places : int, optional
        Decimals; left out, three figures.
    length : callable
        Writes a number of mm in some `Units`.
    spelt : mapping
        In which units it may be typed, and how many of `unit` each is; of none, only in
        its own.
    """

    unit: str
    read: Callable[[str, Units], float]
    relative: float = 0.0
    absolute: float = 0.0
    factors: tuple[float, ...] = ()
    places: int | None = None
    length: Callable[[float, Units], str] = format_length
    spelt: Mapping[str, float] = field(default_factory=dict, hash=False)

    def value(self, text: object, units: Units = Units.MM) -> float:
        """Read an answer as it was typed.

        Raises
        ------
        KitError
            One sentence, whatever it is: no text, too long, too large, no such quantity.
        """
        number = self.read(_bounded(text), units)
        if not (math.isfinite(number) and abs(number) <= LARGEST):
            msg = "That number is too large to be an answer here. Look at its zeros."
            raise KitError(msg)
        return float(number)

    def tolerance(self, value: float) -> float:
        """Say how far from a value an answer may lie and still be that value."""
        return max(self.relative * abs(value), self.absolute)

    def is_answer(self, answer: float, value: float) -> bool:
        """Say whether an answer is a value: near enough, or rounded as the kit does."""
        near = abs(answer - value) <= self.tolerance(value) + HAIR * abs(value)
        return near or self.is_written(answer, value)

    def is_slip(self, answer: float, value: float) -> bool:
        """Say whether an answer is what a slip gives; a small one must be met closer."""
        tolerance = self.tolerance(value)
        if self.absolute and self.factors:  # an angle: 0.62 is not near 1.0
            tolerance = min(tolerance, SLIP_SHARE * abs(value))
        near = abs(answer - value) <= tolerance + HAIR * abs(value)
        return near or self.is_written(answer, value)

    def is_written(self, answer: float, value: float) -> bool:
        """Say whether an answer is a value just as the kit writes it, in any units."""
        if abs(answer - value) > MEASURED * abs(value):
            return False
        return any(abs(answer - one) <= HAIR * abs(one) for one in _rounded(self, value))

    def apart(self, one: float, other: float) -> bool:
        """Say whether two numbers differ by more than twice the tolerance."""
        if not (math.isfinite(one) and math.isfinite(other)):
            return True  # what cannot be worked out cannot be mistaken for anything
        return abs(one - other) > 2 * max(self.tolerance(one), self.tolerance(other))

    def is_in_wrong_unit(self, answer: float, value: float) -> bool:
        """Say whether the figures are a value's, and only the unit is wrong."""
        return any(
            self.is_slip(answer, value * factor)
            or self.is_slip(answer, value / factor)
            or self.is_written(answer / factor, value)
            or self.is_written(answer * factor, value)
            for factor in self.factors
        )

    def written(self, value: float, units: Units = Units.MM) -> str:
        """Write a number with its unit, as a student meets it."""
        if self.unit == "mm":
            return self.length(value, units.fine)
        if self.unit == "°" and abs(value) < 1:
            return f"{in_three(value)}°"  # radians, taken for degrees
        if self.unit == "min" and value >= 999.5:
            return format_time(value, 3)
        three = self.places is None and abs(value) < 999.5
        shown = in_three(value) if three else rounded(value, self.places or 0)
        gap = "" if self.unit in ("", "°") else " "
        return f"{shown}{gap}{self.unit}"

    def rounded(self, value: float) -> tuple[float, ...]:
        """Give what is read back from a value as the kit writes it, units by units."""
        if self.unit in _MM:
            size = _MM[self.unit]
            texts = (self.length(value * size, units) for units in Units)
            return tuple(parse_length(text) / size for text in texts)
        return (self.read(self.written(value), Units.MM),)


@lru_cache(maxsize=20_000)  # of a class the same values are asked for again and again
def _rounded(kind: Kind, value: float) -> tuple[float, ...]:
    return kind.rounded(value) if 0 < value <= LARGEST else ()


def filled(words: Words, values: Mapping[str, float], units: Units = Units.MM) -> str:
    """Fill given values into the words of a question.

    Parameters
    ----------
    words : str or callable
        With values in it as `{n}`, a plain number, `{t:mm}`, a length in `units`,
        `{d:away}`, how far away somebody stands, `{lean:°}`, an angle to a tenth, and
        `{hot:F}`, °C in °F; or what makes the words from values and units.
    values : mapping
        By name.
    units : Units
        Of the lengths.

    Examples
    --------
    >>> filled("{n} layers {t:mm} thick, {hot} °C ({hot:F})", {"n": 9, "t": 4, "hot": 1100})
    '9 layers 4.0 mm thick, 1100 °C (2012 °F)'
    """
    if callable(words):
        return words(values, units)
    return words.format_map({name: _Value(one, units) for name, one in values.items()})


class _Value(NamedTuple):
    """A given value, which a question writes as a plain number, a length or in °F."""

    value: float
    units: Units

    def __format__(self, how: str) -> str:
        if how == "mm":
            return said(self.value, self.units)
        if how == "away":
            return format_away(self.value, self.units)
        if how == "°":
            return f"{self.value:.1f}°"
        return format_temperature(self.value, how) if how else f"{self.value:g}"


def _bounded(text: object) -> str:
    """Give text that is worth reading; a huge number is never written out."""
    if isinstance(text, (int, float)) and not isinstance(text, bool):
        if not abs(text) <= LARGEST:
            msg = "That number is too large to be an answer here. Look at its zeros."
            raise KitError(msg)
        return str(text)
    if not isinstance(text, str):
        msg = "An answer is a number, or text such as 4.73 or 3/16 in."
        raise KitError(msg)
    if len(text) > LONGEST_TEXT:
        msg = f"An answer has at most {LONGEST_TEXT} signs. Given: {len(text)}."
        raise KitError(msg)
    if not text.strip():
        msg = "Nothing is typed yet. Give a number, such as 4.73."
        raise KitError(msg)
    return text


def _length(text: str, units: Units) -> float:
    return parse_length(text, unit=units.unit)


def _minutes(text: str, _units: Units) -> float:
    return parse_minutes(text)


def _ratio(text: str, _units: Units) -> float:
    bare = _AS_RATIO.sub("", text.strip(), count=1)
    return parse_number(bare or text)


def _share(text: str, _units: Units) -> float:
    percent = dict.fromkeys(("", "%"), Fraction(1))
    hint = "a number with or without %, such as 2.5"
    return float(read_quantity(text, "a percentage", hint, percent, "")[0])


def _celsius(text: str, _units: Units) -> float:
    if "f" in text.casefold():
        msg = f"The answer is asked for in °C. Given: {text!r}."
        raise KitError(msg)
    return parse_temperature(text)


def _step_in_fahrenheit(text: str, _units: Units) -> float:
    if "c" in text.casefold():
        msg = f"The answer is asked for in °F. Given: {text!r}."
        raise KitError(msg)
    return parse_temperature_difference(text, "F") * 1.8


def _grams(text: str, _units: Units) -> float:
    match = _WEIGHT.fullmatch(text.strip())
    unit = match["unit"].casefold() if match else ""
    if match is None or (unit or "g") not in _GRAMS:
        msg = f"I cannot read {text!r} as a weight. Give grams, such as 820, or 28.9 oz."
        raise KitError(msg)
    return parse_number(match["number"], "a weight") * _GRAMS[unit or "g"]


# Figures of mm, cm, m, µm, inches or thou, taken for another of them.
_OF_LENGTHS = (10.0, MM_PER_INCH, 1000 / MM_PER_INCH, 1000.0, 1000 * MM_PER_INCH)
LENGTH = Kind(unit="mm", read=_length, relative=0.02, factors=_OF_LENGTHS, spelt=_IN_MM)
COUNT = Kind(unit="", read=lambda text, _units: float(parse_count(text)), places=0)
SHARE = Kind(unit="%", read=_share, relative=0.02, factors=(100.0,))

KINDS = {
    "length": LENGTH,
    "length, 3 %": replace(LENGTH, relative=0.03),
    "length, 0.5 %": replace(LENGTH, relative=0.005),
    "length, away": replace(LENGTH, length=format_away),
    "microns": replace(
        LENGTH,
        unit="µm",
        read=lambda text, _units: parse_length(text, unit="µm") * 1000,
        spelt={unit: size * 1000 for unit, size in _IN_MM.items()},
    ),
    "angle": Kind(
        unit="°",
        read=lambda text, _units: parse_angle(text),
        absolute=0.5,
        factors=(180 / math.pi,),
        places=1,
        spelt={"°": 1.0, "rad": 180 / math.pi},
    ),
    "count": COUNT,
    "count, one off": replace(COUNT, absolute=1.0),
    "ratio": Kind(unit="", read=_ratio, relative=0.02),
    "share": SHARE,
    "share, 3 %": replace(SHARE, relative=0.03),
    "celsius": Kind(unit="°C", read=_celsius, absolute=2.0, places=0),
    "step in fahrenheit": Kind(unit="°F", read=_step_in_fahrenheit, absolute=2.0),
    "minutes": Kind(
        unit="min", read=_minutes, relative=0.02, factors=(60.0,), spelt=_IN_MINUTES
    ),
    "grams": Kind(
        unit="g",
        read=_grams,
        relative=0.02,
        factors=(1000.0, POUND / 16, POUND),
        spelt={unit: size for unit, size in _GRAMS.items() if unit != "lbs"},
    ),
}


BLANK = "…  (your turn: what comes here, and why?)"
_RECKONED = re.compile(r"\d.*[-+×/^²]")  # a sum with figures in it


def faded(lines: list[str], blanks: int) -> list[str]:
    """Leave the last lines of a working for the reader to fill in.

    The first always stays.

    Examples
    --------
    >>> faded(["layers = 9 × 2^5", "= 9 × 32"], 0)
    ['layers = 9 × 2^5', '= 9 × 32']
    >>> faded(["layers = 9 × 2^5", "= 9 × 32"], 1)[1] == BLANK
    True
    """
    if not blanks:
        return lines
    kept = lines[: max(1, len(lines) - blanks)]
    return kept + [BLANK] * (len(lines) - len(kept))


def last_sum(lines: list[str]) -> str:
    """Give the end of a working: its last sum, or what its last line follows from.

    Parameters
    ----------
    lines : list of str
        One that begins with "=" goes on from the one before.

    Examples
    --------
    >>> last_sum(["layers = pieces × 2 for every fold", "= 9 × 2^5", "= 9 × 32", "= 288"])
    '9 × 32 = 288'
    >>> last_sum(["rings = 2.40 / 0.25 = 9.6", "whole rings: 9"])
    '2.40 / 0.25 = 9.6, whole rings: 9'
    """
    sums: list[list[str]] = []
    for line in lines:
        parts = line.removeprefix("= ").split(" = ")
        if line.startswith("= "):
            sums[-1] += parts
        else:
            sums.append(parts)
    *before, last = sums
    if len(last) > 1 and _RECKONED.search(last[-2]):
        return " = ".join(last[-2:])
    if len(last) > 2 or not before:
        return " = ".join(last[-3:])
    return f"{' = '.join(before[-1][-2:]).removeprefix('so ')}, {' = '.join(last)}"
