"""Every number of every lesson is what its own working says, at states at random."""

import itertools
import math
import random
import re

import pytest

from kit.basics.told import in_units
from kit.basics.units import Units
from kit.course.lessons.bought import SOLD, BoughtLesson
from kit.course.questions import CARDS
from kit.course.questions.card import Measures
from kit.section.half import half_as_fine
from tests.lessons import KNOWN
from tests.test_lesson_laws import begun, ends

SIZES = {
    "mm": 1.0,
    "µm": 1e-3,
    "nm": 1e-6,
    "s": 1 / 60,
    "min": 1.0,
    "h": 60.0,
    "days": 1440.0,
    "%": 0.01,
    "g": 1.0,
}
ALONE = re.compile(
    r"\s*-?[\d.]+(°|\s*(µm|mm|nm|min|days|s|h|g)\b|\s*%)?\s*($|\(|left|right)"
)
UNIT = re.compile(r"\s*(µm|mm|nm|min\b|days\b|s\b|h\b|g\b|%)")
# "C: 0.5 × 0.84", "stock 823 g - saw cuts 28 g": what stands before an amount names it
NAMED = re.compile(r"^[^=:]*: |(?<![\w)°])[a-z]{3}[a-z -]*? (?=\d)")
AMOUNT = re.compile(r"(?<![\w.])-?\d+(?:\.\d+)?(?:e[+-]?\d+)?")
SIGNS = {"×": "*", "^": "**", "°": "*math.pi/180", "sin(": "math.sin(", "tan(": "math.tan("}
MOST_FIGURES = 5  # before a unit: whole grams of a heavy bar; who reads more counts digits
WITH_UNIT = re.compile(
    r"(?<![\w.])\d[\d,.]*(?= (?:µm|mm|m|in|ft|s|min|h|days|g|kg|oz|lb)\b)"
)
MOST_PLACES = 0.61  # half of the last one, and a hair: who reckons it gets what is printed
# these end in a reason, or in another number than their own: see what they print
NO_SUM = {"BriefsLesson", "FourBladesLesson"}


def amounts(words: str) -> list[tuple[float, float]]:
    """Read the amounts in words, as mm, minutes or shares, each with its last place."""
    found = []
    for match in AMOUNT.finditer(words):
        unit = UNIT.match(words[match.end() :])
        size = SIZES[unit[1]] if unit else 1.0
        place = 10.0 ** -len(match[0].partition("e")[0].partition(".")[2])
        found.append((float(match[0]) * size, place * size))
    return found


def too_long(words: str) -> list[str]:
    """Give amounts in words that have more figures than a person reads: "310664 min"."""
    found = [
        (amount, re.sub("[,.]", "", amount).lstrip("0"))
        for amount in WITH_UNIT.findall(words)
    ]
    return [amount for amount, figures in found if len(figures) > MOST_FIGURES]


def said(working: list[str]) -> tuple[float, float] | None:
    """Give the number that a working ends in, worked out if that is a sum."""
    lines = [line for line in working if "=" in line]
    if not lines:
        return None
    end = lines[-1].replace(",", "").partition(";")[0].rpartition("=")[2]
    if ALONE.match(end):
        return amounts(end)[0]
    size = {SIZES[unit] for unit in UNIT.findall(end)}
    bare = UNIT.sub(" ", end)
    for sign, word in SIGNS.items():
        bare = bare.replace(sign, word)
    if re.search(r"[^\d.+\-*/() ]", re.sub(r"math\.(sin|tan|pi)|e[+-]?\d", "", bare)):
        return None
    result = float(eval(bare.strip(), {"math": math}))  # noqa: S307  (our own text)
    return result * (size.pop() if len(size) == 1 else 1.0), 0.0


def sums(working: list[str]):
    """Give each printed sum, and how far off its printed result is, in last places."""
    steps: list[list[str]] = []
    for line in working:
        parts = line.replace(",", "").partition(";")[0].split("=")
        if line.startswith("=") and steps:
            steps[-1] += parts[1:]
        else:
            steps.append(parts)
    for said, right in (pair for step in steps for pair in itertools.pairwise(step)):
        left = NAMED.sub("", said)
        bare = UNIT.sub(" ", left)
        for sign, word in SIGNS.items():
            bare = bare.replace(sign, word)
        only = re.sub(r"math\.(sin|tan|pi)", "", bare)
        units = {SIZES[unit] for unit in UNIT.findall(f"{left} {right}")}
        result = ALONE.match(right) and amounts(right)[0]
        reckons = re.search(r"\d.*[*/+-].*\d", only) and len(units) < 2
        if result and reckons and not re.search(r"[^\d.+\-*/() ]", only):
            try:
                worked = float(eval(bare.strip(), {"math": math}))  # noqa: S307  (our own text)
            except ZeroDivisionError:
                continue
            size = units.pop() if units else 1.0
            # bare numbers before so many per cent are shares, or per cent themselves
            ways = {size, 1.0} if size == SIZES["%"] and "%" not in left else {size}
            offs = ((worked * way - result[0]) / result[1] for way in ways)
            off = min(offs, key=abs)
            # halves go away from zero, as everybody was taught: a tie rounded in is wrong
            tied = abs(abs(off) - 0.5) < 1e-6 and off * worked > 0
            yield f"{left}={right}", 1.0 if tied else abs(off)


def states(name, count):
    """Give the state that it begins with, and states at random that fit."""
    yield begun(name)
    dice = random.Random(name)  # noqa: S311  (no secret)
    for _ in range(count):
        state = {}
        for one in KNOWN[name].settings:
            whole = KNOWN[name].job.model_fields[one.key].annotation is int
            draw = dice.randint if whole else dice.uniform
            state[one.key] = round(draw(*ends(one)), 2)
        yield KNOWN[name].job.fitted(state, Units.MM)[0].values


@pytest.mark.parametrize("name", KNOWN)
def test_a_number_is_what_its_working_says(name):
    checked = 0
    for state in states(name, 8):
        with half_as_fine():  # no number hangs on it: a law over all lessons says so
            numbers = KNOWN[name].scene(**state).numbers
        for number in numbers:
            for line, places in sums(number.working):
                assert places < MOST_PLACES, f"{number.name} at {state}: {line}"
            shown, result = amounts(number.value.replace(",", "")), said(number.working)
            if not shown or result is None:
                continue
            worked, place = result
            slack = 0.51 * place + 0.006 * abs(worked)
            near = any(abs(value - worked) <= 0.51 * last + slack for value, last in shown)
            assert near, f"{number} at {state}: its working says {worked:g}"
            checked += 1
    assert checked >= 8 or name in NO_SUM


@pytest.mark.parametrize("name", KNOWN)
@pytest.mark.parametrize("units", [Units.INCH_FRACTION, Units.INCH_DECIMAL])
def test_a_number_is_one_that_a_shop_speaks_of(name, units):
    """No share above all of it; in inches none so fine that none is measured."""
    for state in states(name, 3):
        with half_as_fine():
            numbers = KNOWN[name].scene(**state, units=units).numbers
        for number in numbers:
            told = in_units(number.value, units)
            thin = re.search(r"\.\d{6,} in", told) and number.name != "One layer"
            assert not thin, f"{number.name}: {told}"  # how thin a layer gets is its point
            assert not re.search(r"\b(10[1-9]|1[1-9]\d|[2-9]\d\d) % of", told), told
            assert not too_long(told), told


def test_a_bought_bar_keeps_no_more_than_all_its_bands():
    for made in range(len(SOLD)):
        for number in BoughtLesson.scene(bought=made, layers=40).numbers:
            assert not re.search(r"\b(10[1-9]|1[1-9]\d) % of", number.value), number


@pytest.mark.parametrize("card", CARDS, ids=lambda card: str(card.number))
def test_a_card_s_sums_come_out_as_printed(card):
    for line, places in sums(card.told(Measures()).number.working):
        assert places < MOST_PLACES, line


def test_a_working_is_read_as_it_stands():
    """A law that reads wrong would find nothing."""
    assert said(["a = 4", "= 6 mm - 1.80 mm", "so it is"]) == pytest.approx((4.2, 0))
    assert said(["= 30.05 mm / 36 lines = 0.835 mm"]) == pytest.approx((0.835, 1e-3))
    assert said(["= 4 × 4^5", "= 4,096"]) == (4096, 1)
    assert said(["= 1 / sin(30°)"])[0] == pytest.approx(2)
    assert [round(places) for _line, places in sums(["= 1.80 mm / 0.3 mm = 6.01"])] == [1]
    assert [places for _line, places in sums(["a", "= 6 mm / 4", "= 1.5 mm"])] == [0]
    assert [places for _line, places in sums(["(0.84 + 0.75) / 2 = 0.79"])] == [1]
    assert [places < 1 for _line, places in sums(["(0.84 + 0.75) / 2 = 0.80"])] == [True]
    lines = ["stock 823 g - saw cuts 28 g - clean-up 59 g", "= 735 g"]
    assert [round(places) for _line, places in sums(lines)] == [1]
    assert amounts("32.5 µm") == [pytest.approx((0.0325, 1e-4))]
