"""A length on paper is one that somebody can measure: no finer than a calliper shows.

A calliper shows 0.01 mm or 0.001 in, a micrometer a tenth of that (common practice, no
source). What is thinner than a tenth of a millimetre is nobody's to measure with either:
three figures of it are told.
"""

import re
from functools import lru_cache

import pytest
from matplotlib.axes import Axes

from kit.basics.units import UNITS, Units
from kit.classroom.homework.key import answer_key
from kit.classroom.homework.sets import SETS, homework
from kit.classroom.paper.kinds import ALL, PLAN, Asked, kinds
from kit.classroom.paper.page import Page
from kit.forge.patterns import PATTERNS
from tests.test_told import listed, mixed, wrong

LENGTH = re.compile(r"(?<![\w./])(\d[\d,]*(?:\.(\d+))?) (mm|in)\b(?!²|³)")
MICROMETER = {"mm": (1.0, 3), "in": (0.1, 4)}  # below it, so many decimals
CALLIPER = {"mm": 2, "in": 3}
THIN = {"mm": 0.1, "in": 0.005}  # below: figures of micrometres


def too_fine(words, *, made=False):
    """Give the lengths in some words that nobody could measure so finely.

    What is to be `made` is measured with a calliper; what is worked out may have a
    micrometer's figures.
    """
    found = []
    for one in LENGTH.finditer(words):
        value, decimals, unit = float(one[1].replace(",", "")), len(one[2] or ""), one[3]
        below, fine = MICROMETER[unit]
        finest = fine if value < below and not (made and unit == "mm") else CALLIPER[unit]
        if value > THIN[unit] and decimals > finest:
            found.append(one[0])
    return found


INCH = Units.INCH_FRACTION
AS_IT_IS = re.compile(  # the bars that prove a sheet's scale; a line to type
    "^100 mm( 100 mm)?$|do not measure on this page| ~ [0-9A-Z]{4}$"
)


@lru_cache
def printed(kind, units, about):
    """Give all that is written on the pages of a kind."""
    words, write, draw = [""], Page.write, Axes.text

    def begun(page, *what, **how):
        words.append("")
        return write(page, *what, **how)

    def kept(axes, x, y, line, **how):
        words[-1] = f"{words[-1]} {line}".strip()
        return draw(axes, x, y, line, **how)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(Page, "write", begun)
        patch.setattr(Axes, "text", kept)
        kinds()[kind].pages(Asked(units=UNITS[units], lesson=ALL, recipe=about))
    return tuple(words)


@pytest.mark.parametrize("units", ["mm", "in"])
@pytest.mark.parametrize("kind", kinds())
def test_what_is_printed_can_be_measured(kind, units):
    words = [*printed(kind, units, PLAN)]
    first, *others = (pattern.name for pattern in PATTERNS)
    other = printed(kind, units, first)
    made = list(other) != words  # it is about a bar
    if made:
        words += [*other] + [one for name in others for one in printed(kind, units, name)]
    assert made == (kinds()[kind].of == "bar"), "the print room asks for its bar"
    assert {one for line in words for one in too_fine(line, made=made)} == set()


@pytest.mark.parametrize("kind", kinds())
def test_a_paper_asked_for_in_inches_is_in_inches(kind):
    words = printed(kind, "in", PLAN)
    assert (
        listed(wrong([(kind, one) for one in words if not AS_IT_IS.search(one)], INCH))
        == ""
    )


@pytest.mark.parametrize("kind", kinds())
def test_no_sentence_on_paper_writes_inches_in_two_ways(kind):
    words = [*printed(kind, "in", PLAN)]
    if kinds()[kind].of == "bar":
        words += [one for bar in PATTERNS for one in printed(kind, "in", bar.name)]
    assert listed(mixed([(kind, one) for one in words])) == ""


@pytest.mark.parametrize("units", UNITS)
@pytest.mark.parametrize("code", SETS)
def test_what_a_homework_tells_can_be_measured(code, units):
    task, students = homework(code), [f"Student {number}" for number in range(8)]
    key = answer_key(task, "FORGE-A", students, UNITS[units])
    words = [line.question for line in key] + [line.answer for line in key]
    assert {one for line in words for one in too_fine(line)} == set()
    assert listed(mixed([(code, one) for one in words])) == ""
