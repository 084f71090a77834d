"""Homework on the screen and from the terminal, used as students and teachers use it."""

import base64
import io
import json
import math
import re
from pathlib import Path

import pytest
from homework_page import COURSE, page
from pypdf import PdfReader

from kit.basics.told import in_units
from kit.basics.units import Units
from kit.classroom.homework import drafts, hand_in
from kit.classroom.homework.paper import draw
from kit.classroom.homework.sets import SETS
from kit.classroom.views.homework import HomeworkPage
from kit.classroom.views.marking import MarkingPage
from kit.course.check import EXAMPLE

pytestmark = pytest.mark.gate
HOMEWORK = Path(__file__).parent.parent / "notebooks" / "homework"


def right(opened: HomeworkPage, number: int) -> str:
    return f"{opened.homework.part(number).answer(opened.sitting.paper.values):.8g}"


def test_nothing_is_drawn_without_a_name(tmp_path):
    opened = HomeworkPage("H1", tmp_path)
    opened.begin()
    assert "needs at least one letter" in opened.says.value
    assert opened.body.children == ()


def test_nonsense_gets_a_sentence_and_is_no_try(tmp_path):
    opened = page(tmp_path)
    opened.rows[0].answer.value = "abc"
    assert "I cannot read" in opened.rows[0].says.value
    assert opened.sitting.tries == []


@pytest.mark.parametrize("answer", ["5,16 mm", "0.203 in"])
def test_commas_and_inches_are_read(tmp_path, answer):
    opened = page(tmp_path)
    opened.rows[4].answer.value = answer
    assert "kit-refused" not in opened.rows[4].says.value
    assert len(opened.sitting.tries) == 1


def test_the_answer_is_never_shown_before_it_is_given(tmp_path):
    opened = page(tmp_path)
    wanted = right(opened, 1)
    for wrong in ("17", "23", "77", "1"):
        opened.rows[0].answer.value = wrong
        assert wanted not in opened.rows[0].says.value
    opened.rows[0].answer.value = wanted
    assert "✓ Right." in opened.rows[0].says.value


def test_a_draft_survives_closing(tmp_path):
    opened = page(tmp_path)
    opened.rows[0].answer.value = right(opened, 1)
    opened.rows[1].answer.value = "7"
    opened.judged.words.value = "Two thousand folds cannot be."
    again = page(tmp_path, student="  STUDENT   one ")
    assert "Your draft of 2 answers is back." in again.says.value
    assert again.rows[0].answer.value == right(opened, 1)
    assert again.judged.words.value == opened.judged.words.value
    assert again.sitting.score == opened.sitting.score == 1


def test_somebody_else_does_not_get_it(tmp_path):
    page(tmp_path).rows[0].answer.value = "17"
    other = page(tmp_path, student="Student Two")
    assert "draft" not in other.says.value
    assert other.rows[0].answer.value == ""


def test_a_broken_draft_harms_nothing(tmp_path):
    path = drafts.draft_path(tmp_path, "H1", COURSE, "Student One", 0)
    path.write_text("{" * 1000)
    opened = page(tmp_path)
    assert "cannot be read" in opened.says.value
    assert len(opened.rows) == len(SETS["H1"].parts)


def test_a_folder_that_can_not_be_written_is_told_and_nothing_is_lost(tmp_path):
    blocked = tmp_path / "a file, no folder"
    blocked.write_text("x")
    opened = page(blocked)
    opened.rows[0].answer.value = right(opened, 1)
    assert "cannot be made" in opened.says.value
    opened.make()
    assert "cannot be made" in opened.done.value
    assert 'download="H1 student-one' in opened.done.value
    assert opened.sitting.score == 1


def test_the_hand_in_is_small_and_says_nothing_of_the_machine(tmp_path):
    opened = page(tmp_path)
    for row in opened.rows:
        row.answer.value = right(opened, row.part.number)
    opened.make()
    (made,) = tmp_path.glob("*.json")
    assert made.stat().st_size < 5000
    told = made.read_text("utf-8")
    assert str(Path.home()) not in told
    assert set(json.loads(told)) == {
        "format", "version", "course", "set", "student", "redraw", "answers", "design",
        "words", "claims", "ratings", "sheet", "kit",
    }  # fmt: skip
    assert hand_in.read(made, COURSE).who == "student one"


PROMISED = (
    "A wrong answer whose number the kit knows is answered with the idea behind it, any "
    "other with a question; from the third try on there is an example in other numbers"
)


@pytest.mark.parametrize("code", SETS)
def test_a_wrong_answer_is_answered_as_its_page_promises(code):
    assert PROMISED in (HOMEWORK / f"{code.lower()}.ipynb").read_text("utf-8")
    values = draw(SETS[code], COURSE, "Student One").values
    for part in SETS[code].parts:
        slip = next(
            value for value in part.slip_values(values).values() if math.isfinite(value)
        )
        for answer, told in ((slip, "That is what you get if you"), (None, part.prompt)):
            if answer is None and part.options:
                continue  # every choice is known
            found = part.judge(values, slip if answer is not None else 3.33e7)
            first, third = (part.words(found, values, tries=tries) for tries in (1, 3))
            assert in_units(told, Units.MM) in first
            assert EXAMPLE not in first
            assert EXAMPLE in third


@pytest.mark.parametrize("code", SETS)
def test_its_page_is_one_page_and_has_the_answers(tmp_path, code):
    opened = page(tmp_path, code)
    for row in opened.rows:
        row.answer.value = "12345"
    opened.judged.words.value = "word " * 790
    opened.design.make()
    opened.looks.unit_choice.value = 2
    opened.make()
    coded = re.search(r"data:application/pdf;base64,([^\"]+)", opened.done.value)[1]
    (only,) = PdfReader(io.BytesIO(base64.b64decode(coded))).pages
    text = only.extract_text()
    assert not re.search(r"\d mm\b|\bmm 10\b", text), "it asks as the page does, in inches"
    assert "Student One" in text
    assert "12345" in text


def test_unit_switch_asks_in_inches(tmp_path):
    opened = page(tmp_path, "H2")
    assert " mm" in opened.rows[0].ask.value
    opened.looks.unit_choice.value = 2
    assert " in" in opened.rows[0].ask.value
    assert " mm" not in opened.rows[0].ask.value


def test_a_hostile_name_stays_a_name(tmp_path):
    name = '"><img src=x onerror=alert(1)>../../etc'
    opened = page(tmp_path, student=name)
    opened.make()
    assert "<img" not in opened.done.value
    assert {path.suffix for path in tmp_path.iterdir()} == {".json", ".draft"}
    done = hand_in.read(next(tmp_path.glob("*.json")))
    marks = MarkingPage(tmp_path)
    marks.mark()
    assert done.student == name
    assert "<img" not in marks.screen.value


def test_a_draft_that_is_opened_often_grows_no_tries(tmp_path):
    opened = page(tmp_path)
    opened.rows[4].ruler.value = 1
    opened.rows[4].answer.value = right(opened, 5)
    many = len(opened.sitting.tries)
    for _ in range(3):
        assert len(page(tmp_path).sitting.tries) == many


def test_a_draft_shows_the_answer_that_earned_the_mark(tmp_path):
    opened = page(tmp_path)
    good = right(opened, 1)
    for text in ("17", good, "23"):
        opened.rows[0].answer.value = text
    assert page(tmp_path).rows[0].answer.value == good
