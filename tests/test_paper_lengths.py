"""A length on paper is one that somebody can measure: no finer than a calliper shows.

A calliper shows 0.01 mm or 0.001 in, a micrometer a tenth of that (common practice, no
source). What is thinner than a tenth of a millimetre is nobody's to measure with either:
three figures of it are told.
"""

import re
from functools import cache

import pytest

from kit.basics.errors import KitError
from kit.basics.units import UNITS, Units
from kit.classroom.homework.key import answer_key
from kit.classroom.homework.sets import SETS, homework
from kit.classroom.paper import instructor
from kit.classroom.paper.kinds import ALL, PLAN, Asked, kinds
from kit.classroom.paper.page import FIGURES, Page
from kit.section.half import half_as_fine
from kit.shop.patterns import PATTERNS
from kit.shop.rack import from_lines
from tests.printed import COMMAND
from tests.test_hardening import lacks
from tests.test_told import listed, mixed, wrong

pytestmark = pytest.mark.gate
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


SET = "class-set"
KINDS = [name for name in kinds() if name != SET]
RACK = "rack"  # of a plan, and of bars that one has; without them a form, of no bar
BARS = tuple(from_lines("6 * 1084: 3.175 x 38.1 x 500\n5 * 15N20: 1.5875 x 38.1 x 500"))
INCH = Units.INCH_FRACTION
AS_IT_IS = re.compile(  # the bars that prove a sheet's scale; a line to type
    "^100 mm( 100 mm)?$|do not measure on this page| ~ [0-9A-Z]{4}$|card has all of it$"
)


class Unseen:
    """A figure, and whatever is asked of it: here only words are read, none are drawn."""

    def __init__(self, *_how, **_more):
        pass

    def __getattr__(self, _name):
        return Unseen

    def remove(self):
        """Take off what was never there."""


@cache
def printed(kind, units, about, bars=()):
    """Give all that is written on the pages of a kind."""
    words, write = [""], Page.write

    def begun(page, *what, **how):
        words.append("")
        return write(page, *what, **how)

    def kept(_page, line, _at, size, **_how):
        if size != FIGURES:  # of a ruler
            words[-1] = f"{words[-1]} {line}".strip()
        return Unseen()

    with pytest.MonkeyPatch.context() as patch, half_as_fine():
        patch.setattr(Page, "write", begun)
        patch.setattr(Page, "letter", kept)
        patch.setattr("matplotlib.figure.Figure", Unseen)
        asked = Asked(units=UNITS[units], lesson=ALL, recipe=about, rack=bars)
        kinds()[kind].pages(asked)
    return tuple(words)


def asked_about(kind):
    """Give what a kind is asked about: each bar, and bars of one's own if it reads any."""
    if kind == RACK:
        return (PLAN,), (PLAN, BARS)
    bars = (PLAN, *(bar.name for bar in PATTERNS))
    return tuple(
        (bar,) for bar in (bars if kinds()[kind].of == "bar" else ("no bar's name",))
    )


def all_printed(kind, units):
    """Give all that a kind prints, of all that it can be asked about."""
    return [one for about in asked_about(kind) for one in printed(kind, units, *about)]


def test_a_classs_set_is_pages_of_other_kinds(monkeypatch):
    """So what stands on them is asked once, below."""
    made = {
        name: one._replace(pages=lambda _, name=name: [name])
        for name, one in kinds().items()
    }
    monkeypatch.setattr(instructor, "kinds", lambda: made)
    assert set(kinds()[SET].pages(Asked(lesson=ALL))) < set(KINDS)


@pytest.mark.parametrize("units", ["mm", "in"])
@pytest.mark.parametrize("kind", KINDS)
def test_what_is_printed_can_be_measured(kind, units):
    made = kinds()[kind].of == "bar"
    assert [
        one for line in all_printed(kind, units) for one in too_fine(line, made=made)
    ] == []


@pytest.mark.parametrize("kind", KINDS)
def test_no_sheet_names_a_command(kind):
    """Whoever holds it may have no terminal: it names the page."""
    named = (COMMAND.search(line) for line in all_printed(kind, "mm"))
    assert {one[0] for one in named if one} == set()


@pytest.mark.parametrize("kind", [name for name in KINDS if kinds()[name].of == "bar"])
def test_what_is_about_a_bar_reads_which(kind):
    with pytest.raises(KitError, match="no pattern called"):
        kinds()[kind].pages(Asked(recipe="no bar's name", rack=BARS * (kind == RACK)))


@pytest.mark.parametrize("kind", KINDS)
def test_a_paper_asked_for_in_inches_is_in_inches_written_in_one_way(kind):
    words = [(kind, one) for one in all_printed(kind, "in") if not AS_IT_IS.search(one)]
    assert listed(wrong(words, INCH)) == ""
    assert listed(mixed(words)) == ""


@pytest.mark.parametrize("kind", KINDS)
def test_a_paper_that_speaks_of_hardening_speaks_of_tempering(kind):
    papers = [" ".join(printed(kind, "mm", *about)) for about in asked_about(kind)]
    assert [lacks(words) for words in papers] == [None] * len(papers)


@pytest.mark.parametrize("units", UNITS)
@pytest.mark.parametrize("code", SETS)
def test_what_a_homework_tells_can_be_measured(code, units):
    task, students = homework(code), [f"Student {number}" for number in range(8)]
    key = answer_key(task, "FORGE-A", students, UNITS[units])
    words = [line.question for line in key] + [line.answer for line in key]
    assert {one for line in words for one in too_fine(line)} == set()
    assert listed(mixed([(code, one) for one in words])) == ""
