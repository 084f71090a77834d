"""Lengths, angles, counts and temperatures as people type them."""

import math
import re
from fractions import Fraction

import pint
import pytest

from kit.basics import typed
from kit.basics.errors import KitError
from kit.basics.units import Units
from tests.all_at_once import for_all

# International yard and pound agreement, 1959: one inch is 25.4 mm exactly.
INCH = Fraction(254, 10)

TYPED_LENGTHS = [
    (4.73, 4.73),
    (5, 5),
    ("4.73", 4.73),
    ("4,73", 4.73),
    (".5", 0.5),
    ("-3 mm", -3),
    ("−3", -3),
    ("0.25 mm", 0.25),
    ("0.25mm", 0.25),
    ("  0.25  MM ", 0.25),
    ("25 µm", 0.025),  # micro sign
    ("25 μm", 0.025),  # Greek mu
    ("25 um", 0.025),
    ("25 microns", 0.025),
    ("4.8 nm", 4.8e-6),
    ("1e-05", 1e-5),
    ("1.2 cm", 12),
    ("0.15 m", 150),
    ("3/16 in", 3 * INCH / 16),
    ('3/16"', 3 * INCH / 16),
    ("3/16”", 3 * INCH / 16),
    ("3/16″", 3 * INCH / 16),
    ("3/16''", 3 * INCH / 16),
    ("3/16 in.", 3 * INCH / 16),
    ("1 1/2 in", 3 * INCH / 2),
    ("1-1/2 inches", 3 * INCH / 2),
    ("1½ in", 3 * INCH / 2),
    ("1 ½ in", 3 * INCH / 2),
    ("⅜ in", 3 * INCH / 8),
    ("0.186 in", 186 * INCH / 1000),
    ("5 thou", 5 * INCH / 1000),
]


@pytest.mark.parametrize("unit", [*typed._LENGTHS, "″", "µm", "in."])
def test_a_unit_that_only_the_last_length_has_is_that_of_all(unit):
    each = [typed.parse_length(f"{size} {unit}") for size in ("10", "1 1/2", "3/16")]
    assert typed.parse_lengths(f"10 x 1 1/2 × 3/16 {unit}", 3, "A bar") == each


@pytest.mark.parametrize(("text", "mm"), TYPED_LENGTHS)
def test_lengths_are_read_as_a_smith_writes_them(text, mm):
    assert typed.parse_length(text) == pytest.approx(float(mm), rel=1e-12)


def test_a_bare_number_takes_the_unit_of_the_switch():
    assert typed.parse_length("3/16", Units.INCH_FRACTION.unit) == 4.7625
    assert typed.parse_length("0.5", Units.INCH_DECIMAL.unit) == 12.7
    assert typed.parse_length("0.5", Units.MM.unit) == 0.5
    assert typed.parse_length("0.5 mm", "in") == 0.5


@pytest.mark.parametrize(
    ("text", "unit"),
    [
        ("0.186 in", "inch"),
        ("25 µm", "micrometer"),
        ("1.2 cm", "centimeter"),
        ("4.8 nm", "nanometer"),
        ("5 thou", "thou"),
        ("0.15 m", "meter"),
    ],
)
def test_lengths_agree_with_pint(text, unit):
    number = float(text.split()[0])
    expected = pint.Quantity(number, unit).to("millimeter").magnitude
    assert typed.parse_length(text) == pytest.approx(expected, rel=1e-12)


@pytest.mark.parametrize("text", ["0.5 rad", "30 deg", "1.5707963267948966 radian"])
def test_angles_agree_with_pint(text):
    expected = pint.Quantity(text).to("degree").magnitude
    assert typed.parse_angle(text) == pytest.approx(expected, rel=1e-12)


def test_angles_are_degrees_unless_said():
    assert typed.parse_angle("30") == typed.parse_angle("30°") == 30
    assert typed.parse_angle("30 º") == typed.parse_angle(30) == 30
    assert typed.parse_angle("22 1/2 degrees") == 22.5
    assert typed.parse_angle("1 rad") == pytest.approx(math.degrees(1))


@pytest.mark.parametrize(
    ("text", "count"),
    [
        ("7", 7),
        (0, 0),
        (704.0, 704),
        ("1048576", 1048576),
        ("1 048 576", 1048576),
        ("1\u202f048\u202f576", 1048576),
        ("1,048,576", 1048576),
        ("1,048", 1048),
        ("1'048'576", 1048576),
        ("1_048_576", 1048576),
        ("112 layers", 112),
        ("1 fold", 1),
    ],
)
def test_counts(text, count):
    assert typed.parse_count(text) == count


@pytest.mark.parametrize(
    ("text", "pint_unit"),
    [("2150 °F", "degF"), ("400 F", "degF"), ("1200 C", "degC"), ("-40 f", "degF")],
)
def test_temperatures_agree_with_pint(text, pint_unit):
    number = float(text.split()[0])
    expected = pint.Quantity(number, pint_unit).to("degC").magnitude
    assert typed.parse_temperature(text) == pytest.approx(expected, abs=1e-9)


@pytest.mark.parametrize(
    ("text", "unit", "celsius"),
    [
        # Ice and steam point; the scales meet at -40.
        ("32 F", "C", 0),
        ("212 °F", "C", 100),
        ("-40", "F", -40),
        ("1150°", "C", 1150),
        ("2102 º", "F", 1150),
        ("1150 ℃", "F", 1150),
        ("1150 deg C", "F", 1150),
        ("1 150,0".replace(" ", ""), "C", 1150),
    ],
)
def test_temperatures(text, unit, celsius):
    assert typed.parse_temperature(text, unit) == pytest.approx(celsius)


def test_a_difference_is_never_shifted_by_32():
    step = pint.Quantity(54, "delta_degF").to("delta_degC").magnitude
    assert typed.parse_temperature_difference("54 °F") == pytest.approx(step)
    assert typed.parse_temperature_difference("45", "F") == pytest.approx(25)
    # A fall may be deeper than absolute zero is low.
    assert typed.parse_temperature_difference("-1000") == -1000


REFUSED = [
    "",
    " ",
    "abc",
    "mm",
    "nan",
    "inf",
    "-inf",
    "1/0 in",
    "0/00",
    "1/2/3",
    "1.5/2",
]
REFUSED += ["1.2.3", "1,048.5", "4 4", "3 furlongs", "0x10", "1e400", "--1", "٣", "<b>"]
REFUSED += [None, True, [], float("nan"), float("inf"), "9" * 41, "1 " * 5000]


@for_all(
    [
        (read, kind, bad)
        for bad in REFUSED
        for read, kind in [
            (typed.parse_length, "as a length. Give a number with or without a unit"),
            (typed.parse_angle, "as an angle. Give degrees, such as 30"),
            (typed.parse_count, "as a count. Give a whole number"),
            (typed.parse_temperature, "as a temperature. Give degrees"),
            (typed.parse_temperature_difference, "as a temperature difference. Give"),
        ]
    ]
)
def test_nonsense_gets_one_short_sentence(read, kind, bad):
    with pytest.raises(KitError, match="I cannot read .*" + kind) as caught:
        read(bad)
    assert len(str(caught.value)) < 200
    assert not re.search(r"\d \d{3}", str(caught.value)), "write 1,024"


def test_the_sentence_is_the_one_a_student_reads():
    sentence = (
        "I cannot read 'abc' as a length. Give a number with or without a unit, "
        "such as 4.8, 4.8 mm or 3/16 in."
    )
    with pytest.raises(KitError) as caught:
        typed.parse_length("abc")
    assert str(caught.value) == sentence


@pytest.mark.parametrize(
    ("read", "bad", "match"),
    [
        (typed.parse_count, "7.5", "'7.5' as a count.*only whole ones count"),
        (typed.parse_count, "1.048", "'1.048' as a count"),
        (typed.parse_count, "-1", "'-1' as a count"),
        (typed.parse_count, "1,04", "'1,04' as a count"),
        (typed.parse_count, "1,048 576", "'1,048 576' as a count"),
        (typed.parse_count, "7 mm", "'7 mm' as a count"),
        (typed.parse_length, "30°", "'30°' as a length"),
        (typed.parse_angle, "30 mm", "'30 mm' as an angle"),
        (typed.parse_temperature, "30 mm", "'30 mm' as a temperature"),
        (typed.parse_temperature, "-300", "No temperature is below -273.15 °C"),
        (typed.parse_temperature, "-460 F", "Given: '-460 F'"),
    ],
)
def test_the_wrong_kind_of_answer_is_refused(read, bad, match):
    with pytest.raises(KitError, match=match):
        read(bad)
