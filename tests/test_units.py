"""Lengths and temperatures as they are shown."""

import contextlib
import inspect
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

import pint
import pytest

from kit.basics import told, typed, units
from kit.basics.errors import KitError
from kit.basics.units import Units, both
from kit.course.questions.card import Measures

# International yard and pound agreement, 1959: one inch is 25.4 mm exactly.
INCH = Fraction(254, 10)


@pytest.mark.parametrize(
    ("mm", "system", "shown"),
    [
        (4, Units.MM, "4.0 mm"),
        (4.73, Units.MM, "4.73 mm"),
        (0.25, Units.MM, "0.25 mm"),
        (45.9, Units.MM, "45.9 mm"),
        (99.96, Units.MM, "100 mm"),
        (315.4, Units.MM, "315 mm"),
        (1234.5678, Units.MM, "1235 mm"),
        (-2, Units.MM, "-2.0 mm"),
        (0, Units.MM, "0 mm"),
        (0, Units.INCH_FRACTION, "0 in"),
        # 6.0 mm / 112 layers and 5 mm / 2 ** 20 layers.
        (6 / 112, Units.MM, "53.6 µm"),
        (5 / 2**20, Units.MM, "4.77 nm"),
        # Sixteenths of an inch and their like, on the rule.
        (3.175, Units.INCH_FRACTION, "1/8 in"),
        (6.35, Units.INCH_FRACTION, "1/4 in"),
        (25.4, Units.INCH_FRACTION, "1 in"),
        (38.1, Units.INCH_FRACTION, "1 1/2 in"),
        (-38.1, Units.INCH_FRACTION, "-1 1/2 in"),
        (378, Units.INCH_FRACTION, "14 7/8 in"),
        # 5 mm is 12.6/64 in and 6.30/32 in; 8 mm is 10.08/32 in.
        (5, Units.INCH_FRACTION, "13/64 in"),
        (8, Units.INCH_FRACTION, "5/16 in"),
        # 1/64 in is 0.397 mm.
        (0.4, Units.INCH_FRACTION, "1/64 in"),
        (0.39, Units.INCH_FRACTION, "0.015 in"),
        (0.05, Units.INCH_FRACTION, "0.0020 in"),
        (0.00639, Units.INCH_FRACTION, "0.00025 in"),
        (4.73, Units.INCH_DECIMAL, "0.186 in"),
        (378, Units.INCH_DECIMAL, "14.88 in"),
    ],
)
def test_lengths_as_shown(mm, system, shown):
    assert units.format_length(mm, system) == shown


@pytest.mark.parametrize(
    ("mm", "system", "shown"),
    [
        (102, Units.MM, "102 mm"),
        (101.01, Units.MM, "102 mm"),
        (0, Units.INCH_FRACTION, "0 in"),
        (0.01, Units.INCH_FRACTION, "1/32 in"),
        (25.4, Units.INCH_FRACTION, "1 in"),
        (25.41, Units.INCH_FRACTION, "1 1/32 in"),
        (25.4, Units.INCH_DECIMAL, "1.00 in"),
        (25.41, Units.INCH_DECIMAL, "1.01 in"),
    ],
)
def test_cut_lengths_round_up(mm, system, shown):
    assert units.format_cut_length(mm, system) == shown


@pytest.mark.parametrize("system", Units)
def test_a_cut_is_never_short_and_never_a_whole_step_long(system):
    step = {Units.MM: 1, Units.INCH_FRACTION: 25.4 / 32, Units.INCH_DECIMAL: 0.254}
    for thirty_seconds in range(1, 400):
        mm = thirty_seconds * 25.4 / 32 * 0.997
        cut = typed.parse_length(units.format_cut_length(mm, system))
        assert -1e-5 < cut - mm < step[system]


def test_whole_thirty_seconds_are_cut_as_they_are():
    for thirty_seconds in range(1, 400):
        shown = units.format_cut_length(thirty_seconds * 25.4 / 32, Units.INCH_FRACTION)
        assert typed.parse_length(shown) == pytest.approx(thirty_seconds * 25.4 / 32)


def test_a_cut_of_less_than_nothing_is_refused():
    with pytest.raises(KitError, match=r"0 mm long or more\. Given: -1 mm"):
        units.format_cut_length(-1)


def half_step(mm, system):
    """Half of the last figure shown, mm: what rounding may hide."""
    inch = 25.4
    if system is Units.MM:
        return mm * 0.005 if mm < 999.5 else 0.5
    if system is Units.INCH_FRACTION and mm >= inch / 64:
        return inch / 128 if mm < inch / 4 else inch / 64
    if mm < inch / 1000:
        return mm * 0.05
    return inch / 2000 if mm < inch * 10 else inch / 200


@pytest.mark.parametrize("system", Units)
@pytest.mark.parametrize("sign", [1, -1])
def test_what_is_shown_can_be_typed_again(system, sign):
    for power in range(-60, 61):
        mm = 1.7 * 1.15**power
        shown = units.format_length(sign * mm, system)
        error = abs(typed.parse_length(shown) - sign * mm)
        assert error <= half_step(mm, system) * (1 + 1e-9)


def halves(start, places):
    """Numbers that end in a half of the last of so many places, and what is written."""
    for step in range(200):
        exact = Decimal(start) + Decimal(10 * step + 5).scaleb(-places - 1)
        yield exact, exact.quantize(Decimal(1).scaleb(-places), ROUND_HALF_UP)


@pytest.mark.parametrize(("start", "places"), [("0.01", 3), ("2", 3), ("10", 2), ("37", 2)])
def test_a_half_goes_away_from_zero_in_inches(start, places):
    for inches, written in halves(start, places):
        mm = typed.parse_length(f"{inches} in")
        assert units.format_length(mm, Units.INCH_DECIMAL) == f"{written} in"


def test_a_half_goes_away_from_zero_in_ounces_and_on_cards():
    for number, written in halves("1", 1):
        grams = float(number) * typed.POUND / 16
        if written < 16:
            assert units.format_weight(grams, Units.INCH_DECIMAL) == f"{written} oz"
        assert Measures().write(float(number), "tenth") == f"{written} mm"
        assert Measures().write(float(number), ".1f") == f"{written}"


def test_differences_as_shown_are_never_shifted_by_32():
    step = pint.Quantity(30, "delta_degC").to("delta_degF").magnitude
    assert units.difference_in_fahrenheit(30) == pytest.approx(step) == 54
    assert units.format_temperature_difference(25, "F") == "45 °F"
    assert units.format_temperature_difference(-30) == "-30 °C"


@pytest.mark.parametrize("celsius", [-273.15, -40, 0, 100, 1150])
def test_fahrenheit_agrees_with_pint(celsius):
    expected = pint.Quantity(celsius, "degC").to("degF").magnitude
    assert units.in_fahrenheit(celsius) == pytest.approx(expected, abs=1e-9)


def test_temperatures_as_shown():
    # Curriculum: tempering "about 200 °C (400 °F)"; 1150 °C is 2102 °F.
    assert units.format_temperature(1150) == "1150 °C"
    assert units.format_temperature(1150, "F") == "2102 °F"
    assert units.format_temperature(-40, "F") == "-40 °F"
    assert typed.parse_temperature(units.format_temperature(760, "F")) == 760
    with pytest.raises(KitError, match=r"in C or F\. Given: 'K'"):
        units.format_temperature(1150, "K")


def test_stock_sizes_are_real_ones():
    fractions = ["1/16", "3/32", "1/8", "3/16", "1/4", "5/16", "3/8", "1/2"]
    exact = tuple(float(Fraction(size) * INCH) for size in fractions)
    assert exact == units.STOCK_THICKNESSES_INCH
    for mm, size in zip(exact, fractions, strict=True):  # halves go up: 3.175 mm is 3.18
        half_up = Decimal(repr(mm)).quantize(Decimal("0.01"), ROUND_HALF_UP)
        for write in (units.format_length, units.format_measured, units.format_stock):
            assert Decimal(write(mm).removesuffix(" mm")) == half_up, size
    shown = [
        units.format_length(mm, Units.INCH_FRACTION) for mm in units.STOCK_THICKNESSES_INCH
    ]
    assert shown == [f"{size} in" for size in fractions]


def test_both_scales():
    assert both(727) == "727 °C (1341 °F)"  # 727 · 9/5 + 32 = 1340.6


def writers() -> list:
    """Every public way of writing one number as words."""
    for room in (units, told):
        for name, write in inspect.getmembers(room, inspect.isfunction):
            given, *others = inspect.signature(write, eval_str=True).parameters.values()
            alone = all(other.default is not other.empty for other in others)
            own = write.__module__ == room.__name__ and not name.startswith("_")
            if own and given.annotation is float and alone:
                yield write


@pytest.mark.parametrize("write", [*writers()], ids=lambda one: one.__name__)
def test_any_number_that_a_stranger_types_can_be_written(write):
    """Forty nines, or next to nothing: words, or a plain refusal."""
    for size in (1e-320, 1e-40, 9e16, 1e28, 1e40, 1e306):
        for number in (size, -size):
            with contextlib.suppress(KitError):
                assert write(number)
