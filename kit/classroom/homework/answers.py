"""Kinds of answers: how each is read, written, and how near is near enough.

Sources
-------
Pound 453.592 37 g and ounce a sixteenth of it, exactly: international yard and pound
agreement, 1959. All other units are in `kit.basics.typed`.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from dataclasses import dataclass

from kit.basics.errors import KitError
from kit.basics.typed import LONGEST_TEXT, parse_number
from kit.basics.units import (
    MM_PER_INCH,
    Units,
    format_length,
    parse_angle,
    parse_count,
    parse_length,
    parse_minutes,
    parse_temperature,
    parse_temperature_difference,
)

LARGEST = 1e12  # no answer here is anywhere near
SLIP_SHARE = 0.05  # a slip's number must be met at least so closely
POUND = 453.59237  # g
_GRAMS = {"g": 1.0, "kg": 1000.0, "oz": POUND / 16, "lb": POUND, "lbs": POUND}
_WEIGHT = re.compile(r"(?P<number>[^a-z]*\d[^a-z]*)(?P<unit>[a-z]*)\.?", re.IGNORECASE)


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
    figures : str
        A format for the number.
    """

    unit: str
    read: Callable[[str, Units], float]
    relative: float = 0.0
    absolute: float = 0.0
    factors: tuple[float, ...] = ()
    figures: str = ".3g"

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

    def close(self, answer: float, value: float) -> bool:
        """Say whether an answer is a value, near enough."""
        return abs(answer - value) <= self.tolerance(value) + 1e-9 * abs(value)

    def close_slip(self, answer: float, value: float) -> bool:
        """Say whether an answer is what a slip gives; a small one must be met closer."""
        tolerance = self.tolerance(value)
        if self.absolute and self.factors:  # an angle: 0.62 is not near 1.0
            tolerance = min(tolerance, SLIP_SHARE * abs(value))
        return abs(answer - value) <= tolerance + 1e-9 * abs(value)

    def apart(self, one: float, other: float) -> bool:
        """Say whether two numbers differ by more than twice the tolerance."""
        if not (math.isfinite(one) and math.isfinite(other)):
            return True  # what can not be worked out can not be mistaken for anything
        return abs(one - other) > 2 * max(self.tolerance(one), self.tolerance(other))

    def unit_slip(self, answer: float, value: float) -> bool:
        """Say whether only the unit is wrong."""
        return any(
            self.close_slip(answer, value * factor)
            or self.close_slip(answer, value / factor)
            for factor in self.factors
        )

    def written(self, value: float, units: Units = Units.MM) -> str:
        """Write a number with its unit, as a student meets it."""
        if self.unit == "mm":
            return format_length(value, units.fine)
        whole = self.figures.endswith("g") and abs(value) >= 999.5
        shown = f"{value:.0f}" if whole else f"{value:{self.figures}}"
        gap = "" if self.unit in ("", "°") else " "
        return f"{shown}{gap}{self.unit}"


def said(mm: float, units: Units = Units.MM) -> str:
    """Write a given length in a question: in inches always as a decimal.

    A fraction would be rounded by more than an answer may be off.

    Examples
    --------
    >>> said(14), said(14, Units.INCH_FRACTION)
    ('14.0 mm', '0.551 in')
    """
    return format_length(mm, units.fine)


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


def _microns(text: str, _units: Units) -> float:
    return parse_length(text, unit="µm") * 1000


def _angle(text: str, _units: Units) -> float:
    return parse_angle(text)


def _count(text: str, _units: Units) -> float:
    return float(parse_count(text))


def _minutes(text: str, _units: Units) -> float:
    return parse_minutes(text)


def _ratio(text: str, _units: Units) -> float:
    bare = re.sub(r"\s*(:|to)\s*1\s*$", "", text.strip(), flags=re.IGNORECASE)
    return parse_number(bare or text)


def _share(text: str, _units: Units) -> float:
    return parse_number(text.strip().removesuffix("%"), "a percentage")


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
        msg = f"I cannot read {text!r} as a weight. Give grams, such as 820, or 0.82 kg."
        raise KitError(msg)
    return parse_number(match["number"], "a weight") * _GRAMS[unit or "g"]


LENGTH = Kind(unit="mm", read=_length, relative=0.02, factors=(MM_PER_INCH, 1000.0))
MICRONS = Kind(unit="µm", read=_microns, relative=0.02, factors=(MM_PER_INCH, 1000.0))
ANGLE = Kind(unit="°", read=_angle, absolute=0.5, factors=(180 / math.pi,), figures=".1f")
COUNT = Kind(unit="", read=_count, figures=".0f")
RATIO = Kind(unit="", read=_ratio, relative=0.02)
SHARE = Kind(unit="%", read=_share, relative=0.02, factors=(100.0,))
CELSIUS = Kind(unit="°C", read=_celsius, absolute=2.0, figures=".0f")
FAHRENHEIT_STEP = Kind(unit="°F", read=_step_in_fahrenheit, absolute=2.0, figures=".3g")
MINUTES = Kind(unit="min", read=_minutes, relative=0.02)
GRAMS = Kind(unit="g", read=_grams, relative=0.02, factors=(1000.0, POUND / 16, POUND))
CHOICE = Kind(unit="", read=_count, figures=".0f")
