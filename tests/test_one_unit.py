"""A sentence weighs in one unit, writes one ×, and is no finer after "about"."""

import re
from pathlib import Path

import pytest

from kit.__main__ import main
from kit.basics.told import in_units, plain, roughly
from kit.basics.units import UNITS, Units
from kit.course.lessons.plan import PlanLesson
from kit.course.lessons.plan_ideas import STEELS
from kit.course.questions import CARDS, Measures
from kit.shop.plan import example
from kit.shop.plan_told import told

ROOT = Path(__file__).parent.parent
WEIGHED = re.compile(r"(?<!\()\b[\d.,]+ (kg|g|lb|oz)\b(?![/)])")
SENTENCES = re.compile(r"(?<=[.!?;]) |\n")
ABOUT = re.compile(
    r"\babout (?:(?P<celsius>\d+) °C(?: \((?P<beside>\d+) °F\))?|(?P<alone>\d+) °F)"
    r"(?: to (?P<to>\d+) °F)?"
)
EXAMPLES = [
    [],
    ["--bar=6 * 1084: 1/8 x 1 1/2 x 12 in", "--bar=5 * 15n20: 1/16 x 1 1/2 x 12 in"],
    ["--wanted=12x2x1/4 in", "--pieces=9+8", "--cycles=2", "--start=9in"],
]


def too_fine(words):
    """Give every rough temperature of words that is told to the degree."""
    for found in ABOUT.finditer(plain(words)):
        given = {name: int(some) for name, some in found.groupdict().items() if some}
        celsius = given.pop("celsius", 0)
        if celsius % 10 == 0 and any(some % 10 for some in given.values()):
            yield found[0]


def of_two_units(words):
    """Give every sentence that weighs in more than one unit."""
    for sentence in SENTENCES.split(plain(words)):
        if len({found[1] for found in WEIGHED.finditer(sentence)}) > 1:
            yield sentence


@pytest.mark.parametrize("units", UNITS)
@pytest.mark.parametrize("typed", EXAMPLES, ids=["the class's", "a rack", "large"])
def test_a_plan_is_told_in_one_way(typed, units, capsys):
    assert not main(["plan", *typed, f"--units={units}"])
    said = capsys.readouterr().out
    assert not list(too_fine(said))
    assert not list(of_two_units(said.replace(";", ",")))
    assert " x " not in said
    assert " × " in said


@pytest.mark.parametrize("units", Units)
def test_its_words_weigh_in_one_unit(units):
    for pieces in (3, 6, 15):
        plan = example()._with(outer_pieces=pieces)
        assert not [one for words in told(plan, units) for one in of_two_units(words)]


@pytest.mark.parametrize("units", [Units.INCH_DECIMAL, Units.INCH_FRACTION])
def test_words_written_in_grams_weigh_in_one_unit(units):
    words = "808 g in, 366 g out. 1.250 kg go in, 900 g come out."
    assert in_units(words, units) == (
        "28.5 oz (808 g) in, 12.9 oz (366 g) out. "
        "2.76 lb (1.250 kg) go in, 1.98 lb (900 g) come out."
    )


@pytest.mark.parametrize("degrees", "CF")
def test_no_card_is_finer_than_about(degrees):
    for one in CARDS:
        shown = one.told(Measures(degrees=degrees))
        assert not list(too_fine(str(shown))), one.number


def test_no_lesson_nor_stored_page_is_finer_than_about():
    for number in range(len(STEELS)):
        changed = PlanLesson(steel_a=number)
        assert not list(too_fine(changed.remark("steel_a")))
    pages = [*(ROOT / "notebooks").rglob("*.ipynb")]
    assert pages
    for page in pages:
        assert not list(too_fine(page.read_text("utf-8"))), page


def test_what_was_round_stays_as_round():
    for celsius in range(0, 1600, 10):  # 1.8 °F are 1 °C: at most 5 °F off is 3 °C
        fahrenheit = int(roughly(celsius, "F").split()[0])
        assert fahrenheit % 10 == 0
        assert abs(fahrenheit - (celsius * 1.8 + 32)) <= 5
