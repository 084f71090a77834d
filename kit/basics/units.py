"""Units at the edge: how lengths and temperatures are shown; typed.py reads them.

Inside the kit lengths are in mm, temperatures in °C and, where people meet them,
angles in degrees. The conversions and their sources are in `kit.basics.typed`.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from decimal import ROUND_HALF_UP, Context, Decimal
from enum import Enum
from fractions import Fraction

from kit.basics.errors import KitError
from kit.basics.typed import MM_PER_INCH, POUND, Inches, length_unit, parse_length

# What a rack holds in inch sizes, given in mm. Common practice, no source.
STOCK_THICKNESSES_INCH = tuple(
    parse_length(size, "in")
    for size in ("1/16", "3/32", "1/8", "3/16", "1/4", "5/16", "3/8", "1/2")
)

_ALL_FIGURES = Context(prec=400, rounding=ROUND_HALF_UP)  # of the largest float
FIGURES = 6  # of a number that is read: a bar of up to a metre, to a µm
SOLD = 0.01  # mm: nearer than this it is the same size on a rack
# A cut is not made longer for a rounding error of the computer.
_HAIR = 1e-6  # mm


class Units(Enum):
    """How lengths are shown; the value is the label of the switch."""

    MM = "mm"
    INCH_FRACTION = "inch fractions"
    INCH_DECIMAL = "decimal inch"

    @property
    def unit(self) -> str:
        """The unit of a bare number: "mm" or "in", for `parse_length`."""
        return "mm" if self is Units.MM else "in"

    @property
    def fine(self) -> Units:
        """The same without fractions of an inch, which would round off what matters."""
        return Units.MM if self is Units.MM else Units.INCH_DECIMAL

    def typed(self, text: object) -> Units:
        """Give the units that a typed length stands in: a refusal answers in these."""
        unit = length_unit(text, self.unit)
        if unit == "in" and self is not Units.MM:
            return self
        return {"mm": Units.MM, "in": Units.INCH_DECIMAL}.get(unit, Units.INCH_FRACTION)


def typed_in(lengths: Iterable[float]) -> Units:
    """Give the units that lengths were typed in, in mm as `parse_length` read them.

    Who types an inch anywhere thinks in inches; in fractions, if one stands there.

    Examples
    --------
    >>> typed_in([parse_length("1/8"), parse_length("36 in")]), typed_in([3.0])
    (<Units.INCH_FRACTION: 'inch fractions'>, <Units.MM: 'mm'>)
    """
    said = [one.said for one in lengths if isinstance(one, Inches)]
    if not said:
        return Units.MM
    fractions = any(Units.INCH_DECIMAL.typed(one) is Units.INCH_FRACTION for one in said)
    return Units.INCH_FRACTION if fractions else Units.INCH_DECIMAL


UNITS = {"mm": Units.MM, "in": Units.INCH_FRACTION, "decimal-in": Units.INCH_DECIMAL}


def in_figures(value: float, figures: int = FIGURES, way: str = ROUND_HALF_UP) -> float:
    """Round a number that was worked out to so few figures that it can be told in full.

    Parameters
    ----------
    value : float
    figures : int
    way : str
        As `decimal` has it; left out, to the nearest, halves away from zero.

    Examples
    --------
    >>> in_figures(1.6 * 6), in_figures(2 / 3), in_figures(2 / 3, 3, "ROUND_UP")
    (9.6, 0.666667, 0.667)
    """
    short = Context(prec=figures, rounding=way).create_decimal(f"{value:.12g}")
    return float(short)


def in_three(value: float) -> str:
    """Write a number in three figures at most: 11.25 as 11.3, 4 as 4."""
    return f"{in_figures(value, 3):.3g}"


def rounded(value: float, places: int = 0) -> str:
    """Write a number with so many decimals; a half of the last one goes away from zero.

    The decimal figure counts, and not how a computer holds it.

    Examples
    --------
    >>> rounded(0.5 * 0.75 + 0.5 * 0.84, 2), rounded(0.515, 2), rounded(380.5)
    ('0.80', '0.52', '381')
    """
    figure = Decimal(f"{value:.12g}")
    return f"{_ALL_FIGURES.quantize(figure, Decimal(1).scaleb(-places)):f}"


def whole_parts(parts: Mapping[str, float], whole: int) -> dict[str, int]:
    """Round parts up or down so that they add up to the printed whole.

    Rounded each for itself they might not; those with most above their floor go up.

    Examples
    --------
    >>> whole_parts({"scale": 86.51, "crops": 193.81, "saw": 0.4}, 281)
    {'scale': 87, 'crops': 194, 'saw': 0}
    >>> whole_parts({"scale": 86.51, "crops": 193.52}, 280)
    {'scale': 86, 'crops': 194}
    """
    found = {name: math.floor(part) for name, part in parts.items()}
    short = whole - sum(found.values())
    for name in sorted(parts, key=lambda one: found[one] - parts[one])[:short]:
        found[name] += 1
    return found


def format_length(mm: float, system: Units = Units.MM) -> str:
    """Write a length the way it is said in the shop.

    Parameters
    ----------
    mm : float
        Length in mm.
    system : Units
        MM: three figures, in µm below 0.1 mm and in nm below 0.1 µm.
        INCH_FRACTION: to the nearest 1/32 in, or 1/64 below 1/4 in; what is thinner
        than 1/64 in is given as a decimal.
        INCH_DECIMAL: to a thousandth, finer below 0.01 in, a hundredth from 10 in up.

    Returns
    -------
    str
        `parse_length` reads it back.

    Examples
    --------
    >>> format_length(4), format_length(0.0536)
    ('4.0 mm', '53.6 µm')
    >>> format_length(378, Units.INCH_FRACTION), format_length(378, Units.INCH_DECIMAL)
    ('14 7/8 in', '14.88 in')
    """
    if mm == 0:
        return f"0 {system.unit}"
    if system is Units.MM:
        return _metric(mm)
    inches = mm / MM_PER_INCH
    if system is Units.INCH_DECIMAL or abs(inches) < 1 / 64:
        return _decimal_inch(inches)
    parts = 64 if abs(inches) < 1 / 4 else 32
    whole_parts = math.floor(abs(inches) * parts + 0.5)
    return ("-" if mm < 0 else "") + _mixed(Fraction(whole_parts, parts)) + " in"


def or_under(words: str, mm: float, system: Units = Units.MM) -> str:
    """Give words that tell a length, mm; in inches no shop speaks of less than 0.001 in.

    Examples
    --------
    >>> or_under("5.0 µm", 0.005), or_under("5.0 µm", 0.005, Units.INCH_DECIMAL)
    ('5.0 µm', 'under 0.001 in')
    """
    tiny = system is not Units.MM and 0 < abs(mm) < MM_PER_INCH / 1000
    return "under 0.001 in" if tiny else words


def format_cut_length(mm: float, system: Units = Units.MM) -> str:
    """Write a length for a cut list, always rounded up so that no piece is short.

    Up to the next whole mm, 1/32 in or 1/100 in. `mm` is the length in mm, 0 or more;
    a negative one raises `KitError`.

    Examples
    --------
    >>> format_cut_length(101.9), format_cut_length(101.9, Units.INCH_FRACTION)
    ('102 mm', '4 1/32 in')
    """
    if mm < 0:
        msg = f"A piece to cut must be 0 mm long or more. Given: {mm:g} mm."
        raise KitError(msg)
    step = {
        Units.MM: 1,
        Units.INCH_FRACTION: MM_PER_INCH / 32,
        Units.INCH_DECIMAL: MM_PER_INCH / 100,
    }[system]
    steps = math.ceil((mm - _HAIR) / step)
    if system is Units.MM:
        return f"{steps} mm"
    if system is Units.INCH_DECIMAL:
        return f"{steps / 100:.2f} in"
    return f"{_mixed(Fraction(steps, 32))} in"


def format_away(mm: float, system: Units = Units.MM) -> str:
    """Write how far away somebody stands, mm: nobody says 3000 mm, nor 118 in.

    Examples
    --------
    >>> format_away(300), format_away(2950), format_away(3048, Units.INCH_FRACTION)
    ('300 mm', '2.95 m', '10 ft')
    """
    if system is Units.MM:
        return f"{in_three(mm / 1000)} m" if mm >= 999.5 else format_length(mm)
    feet = mm / MM_PER_INCH / 12
    if feet < 3:  # a yard
        return format_length(mm, system)
    return f"{in_figures(feet, 2):g} ft"


def format_measured(mm: float, system: Units = Units.MM) -> str:
    """Write a length that somebody is to make or measure: in mm no finer than a calliper.

    Examples
    --------
    >>> format_measured(16 / 17), format_measured(0.0536)
    ('0.94 mm', '53.6 µm')
    """
    nearest = float(rounded(mm, 2)) if system is Units.MM and mm >= 0.1 else mm
    return format_length(nearest, system)


def format_stock(mm: float, system: Units = Units.MM) -> str:
    """Write a size of bought steel, mm: in fractions of an inch only if it is one.

    A rounded one would be another bar: 0.070 in is not 1/16 in.

    Examples
    --------
    >>> format_stock(1.5875, Units.INCH_FRACTION), format_stock(1.778, Units.INCH_FRACTION)
    ('1/16 in', '0.070 in')
    """
    written = format_measured(mm, system)
    exact = abs(parse_length(written) - mm) <= SOLD
    return written if exact else format_length(mm, system.fine)


def format_thin(mm: float, system: Units = Units.MM) -> str:
    """Write a small depth in millimetres, or in decimal inches, throughout.

    Examples
    --------
    >>> format_thin(0.05), format_thin(0.05, Units.INCH_FRACTION)
    ('0.05 mm', '0.0020 in')
    """
    if system is Units.MM:
        return f"{round(mm, 4):g} mm"
    return format_length(mm, Units.INCH_DECIMAL)


def format_beside(mm: float, other: float, system: Units = Units.MM) -> str:
    """Write a small length, mm, in one text with another: not 6 mm, then 53.6 µm.

    Lengths within three decades of one another are told in one unit.

    Examples
    --------
    >>> format_beside(0.05357, 6), format_beside(0.0003, 6)
    ('0.0536 mm', '0.3 µm')
    """
    if system is Units.MM and abs(mm) < abs(other) <= 1000 * abs(mm):
        return f"{in_three(mm)} mm"
    return format_length(mm, system)


def format_weight(grams: float, system: Units = Units.MM, beside: float = math.inf) -> str:
    """Write a weight to the nearest gram, from 1000 in kilograms; or in pounds, or ounces.

    `beside` is the least weight told in the same sentence, grams: one unit for both.

    Examples
    --------
    >>> format_weight(1250.4), format_weight(1250.4, Units.INCH_DECIMAL)
    ('1.250 kg', '2.76 lb')
    >>> format_weight(0.4), format_weight(808, Units.INCH_DECIMAL, beside=366)
    ('under 1 g', '28.5 oz')
    """
    pounds = grams / POUND
    if system is Units.MM:
        told, least = f"{rounded(grams)} g", "1 g"
        if min(grams, beside) >= 999.5:
            return f"{rounded(grams / 1000, 3)} kg"
    else:
        told, least = f"{rounded(16 * pounds, 1)} oz", "0.1 oz"
        if min(grams, beside) >= POUND:
            return f"{in_three(pounds)} lb"
    return f"under {least}" if grams > 0 and not float(told.split()[0]) else told


def in_fahrenheit(celsius: float) -> float:
    """Turn a temperature in °C into °F.

    Examples
    --------
    >>> in_fahrenheit(100)
    212.0
    """
    return celsius * 1.8 + 32


def difference_in_fahrenheit(celsius: float) -> float:
    """Turn a *difference* of temperatures from °C into °F: 1.8 times, never plus 32.

    Examples
    --------
    >>> difference_in_fahrenheit(30)
    54.0
    """
    return celsius * 1.8


def format_temperature(celsius: float, unit: str = "C") -> str:
    """Write a temperature, given in °C, to the nearest degree of `unit`, "C" or "F".

    Examples
    --------
    >>> format_temperature(1150), format_temperature(1150, "F")
    ('1150 °C', '2102 °F')
    """
    return _degrees(celsius, in_fahrenheit(celsius), unit)


def format_temperature_difference(celsius: float, unit: str = "C") -> str:
    """Write a difference of temperatures, given in °C, to the nearest degree.

    Examples
    --------
    >>> format_temperature_difference(30, "F")
    '54 °F'
    """
    return _degrees(celsius, difference_in_fahrenheit(celsius), unit)


def both(celsius: float) -> str:
    """Write a temperature in both scales, for a sentence.

    Examples
    --------
    >>> both(1356)
    '1356 °C (2473 °F)'
    """
    return f"{format_temperature(celsius)} ({format_temperature(celsius, 'F')})"


def _degrees(celsius: float, fahrenheit: float, unit: str) -> str:
    if unit not in ("C", "F"):
        msg = f"Temperatures are shown in C or F. Given: {str(unit)[:40]!r}."
        raise KitError(msg)
    return f"{rounded(celsius if unit == 'C' else fahrenheit)} °{unit}"


def _metric(mm: float) -> str:
    if abs(mm) >= 0.1:
        return f"{_three_figures(mm)} mm"
    if abs(mm) >= 1e-4:
        return f"{_three_figures(mm * 1e3)} µm"
    return f"{_three_figures(mm * 1e6)} nm"


def _three_figures(number: float) -> str:
    """Write 4.0, 0.25, 53.6, 315: three figures, less the zeros that say nothing."""
    if abs(number) >= 999.5:
        return rounded(number)
    text = f"{in_figures(number, 3):#.3g}"
    while text.endswith("0") and text[-2] != ".":
        text = text[:-1]
    return text.removesuffix(".")


def _decimal_inch(inches: float) -> str:
    if abs(inches) >= 10:
        places = 2
    elif abs(inches) >= 0.01:
        places = 3
    elif abs(inches) >= 0.001:  # a layer of 0.0030 in is not the eye's limit, 0.0034 in
        places = 4
    else:  # two figures: "0.00025 in" and not "0.000 in"
        places = 1 - math.floor(math.log10(abs(inches)))
    return f"{rounded(inches, places)} in"


def _mixed(inches: Fraction) -> str:
    whole, rest = divmod(inches, 1)
    if rest == 0:
        return str(whole)
    return f"{whole} {rest}" if whole else str(rest)
