"""Nothing a student did is lost, overwritten, or counted for what it is not."""

from contextlib import suppress

import pytest
from homework_page import COURSE, answer_all, each_set, folder_of, page
from pypdf import PdfReader

from kit.__main__ import main
from kit.basics.errors import KitError
from kit.classroom.homework import drafts, hand_in
from kit.classroom.homework.class_table import class_table
from kit.classroom.homework.hand_in import HandIn, Tier
from kit.classroom.homework.marking import mark_folder
from kit.classroom.homework.paper import draw
from kit.classroom.homework.ratings import to_read
from kit.classroom.homework.sets import SETS
from kit.classroom.homework.sitting import MOST_KEPT, Sitting
from kit.classroom.paper import homework_papers
from kit.classroom.views.marking import MarkingPage

pytestmark = pytest.mark.gate

TICKS = [(-1, -1), (0, -1), (-1, 2), (1, 1)]


@pytest.mark.parametrize("first", TICKS)
@pytest.mark.parametrize("third", TICKS)
def test_partly_ticked_claims_survive(tmp_path, first, third):
    opened = page(tmp_path)
    for pair, ticks in ((0, first), (2, third)):
        for choice, tick in zip(opened.judged.claims[pair], ticks, strict=True):
            choice.value = tick
    opened.judged.ratings[1].value = 2
    opened.keep()
    again = page(tmp_path)
    ticked = [tuple(choice.value for choice in pair) for pair in again.judged.claims]
    assert ticked == [first, (-1, -1), third]
    assert [rating.value for rating in again.judged.ratings] == [-1, 2, -1]
    again.make()
    (made,) = tmp_path.glob("*.json")
    claims = hand_in.read(made).claims
    if first == third == (-1, -1):
        assert claims == ()
    else:
        assert claims[2].reason == (None if third[1] < 0 else third[1])
        assert claims[0].possible == (None if first[0] < 0 else bool(first[0]))
    assert f"Save {made.with_suffix('.pdf').name}" in again.done.value  # it is printed


def test_claims_without_words_reach_the_teacher(tmp_path, capsys):
    claims = (Tier(possible=False, reason=1), Tier(), Tier(possible=True))
    done = HandIn(course=COURSE, set="H1", student="One", claims=claims)
    hand_in.write(done, tmp_path / "one.json")
    marked = mark_folder(tmp_path)
    assert class_table(marked.marks, "H1").rows[0][7] == "to read"
    ((_, text, _),) = to_read(marked.marks, "H1")
    assert "thinner than an atom; scale eats the bar sooner. (✓)" in text
    assert text.count("not ticked") == 3
    marks = MarkingPage(tmp_path)
    marks.mark()
    assert len(marks.reading.texts) == 1
    assert main(["mark", str(tmp_path), "--words"]) == 0
    assert "thinner than an atom" in capsys.readouterr().out
    path = homework_papers.write_hand_in(done, tmp_path / "page.pdf")
    assert "thinner than an atom" in PdfReader(path).pages[0].extract_text()


def test_the_closing_message_tells_design_words_and_claims(tmp_path):
    opened = page(tmp_path)
    opened.make()
    for part in ("part 1, 2, 3, 4, 5", "design", "own words", "3 of 3 claims"):
        assert part in opened.done.value
    opened.judged.claims[0][0].value = 1
    for choice in opened.judged.claims[1]:
        choice.value = 0
    opened.make()
    assert "2 of 3 claims" in opened.done.value
    told = opened.done.value  # that it is handed in comes first
    assert 0 <= told.find("Handed in: ") < told.find("Not in it yet")
    answer_all(opened)
    opened.judged.words.value = "Two of them can be."
    opened.make()
    assert "part 1" not in opened.done.value
    assert "answer in your own words" not in opened.done.value
    assert "design" in opened.done.value


def test_text_that_is_too_long_is_told(tmp_path):
    opened = page(tmp_path, "H5")
    opened.judged.words.value = "x" * 4001
    assert "4000" in opened.says.value
    opened.judged.words.value = "short"
    opened.sheet.rows[0][2].value = "y" * 601
    assert "600" in opened.says.value


def test_a_limit_of_tries_locks_nothing(tmp_path):
    """The 301st try, in any part; a right answer still earns its mark, and is recorded."""
    opened = page(tmp_path)
    for number in range(MOST_KEPT + 5):
        opened.rows[0].answer.value = str(10_000 + number)
    assert "not kept" in opened.rows[0].says.value
    opened.rows[1].answer.value = "3"
    assert "✗" in opened.rows[1].says.value
    answer_all(opened)
    assert opened.sitting.score == len(opened.rows)
    opened.judged.words.value = "Two of them can be."
    opened.make()
    assert "Give that one file" in opened.done.value
    again = page(tmp_path)
    assert again.sitting.score == len(opened.rows)
    assert again.judged.words.value == "Two of them can be."
    (one,) = mark_folder(tmp_path).marks
    assert one.score == opened.sitting.score


@each_set
def test_marks_on_the_page_are_the_marks_of_what_was_recorded(tmp_path, code):
    """Beyond the limit, too: slips, carried values, right ones, in an order by chance."""
    sitting = Sitting(draw(SETS[code], COURSE, "One"))
    parts = SETS[code].parts
    for number in range(MOST_KEPT + 60):
        part = parts[number * 7 % len(parts)]
        slips = [*part.slip_values(sitting.paper.values).values(), 17.0]
        value = slips[number % len(slips)]
        if number > MOST_KEPT + 30:
            value = part.answer(sitting.paper.values)
        with suppress(KitError):
            sitting.answer(part.number, f"{value:.8g}")
        if number % 20 == 0 or number > MOST_KEPT - 2:
            hand_in.write(sitting.hand_in(), tmp_path / "one.json")
            (one,) = mark_folder(tmp_path).marks
            assert one.score == sitting.score


def test_two_windows_lose_nothing(tmp_path):
    one, two = page(tmp_path), page(tmp_path)
    one.rows[0].answer.value = "17"
    one.judged.claims[0][0].value = 1
    two.rows[1].answer.value = "23"
    two.judged.words.value = "Of the second window."
    one.rows[2].answer.value = "5"
    last = page(tmp_path)
    assert {one.text for one in last.sitting.tries} == {"17", "23", "5"}
    assert last.judged.words.value == "Of the second window."
    assert last.judged.claims[0][0].value == 1
    assert "another window" in one.says.value
    assert one.rows[1].answer.value == "23"


def test_a_draft_that_can_not_be_read_is_not_written_over(tmp_path):
    path = drafts.draft_path(tmp_path, "H1", COURSE, "Student One", 0)
    path.write_text('{"format": "of a later kit"}')
    opened = page(tmp_path)
    assert "cannot be read" in opened.says.value
    answer_all(opened)
    kept = [one for one in tmp_path.iterdir() if "unread" in one.name]
    assert [one.read_text() for one in kept] == ['{"format": "of a later kit"}']


def test_a_corrected_name_does_not_hand_in_under_the_old_one(tmp_path):
    opened = page(tmp_path, student="Studnet One")
    answer_all(opened)
    opened.student.value = "Student One"
    opened.make()
    assert folder_of(tmp_path) == []
    assert "Studnet One" in opened.done.value
    assert "Give me my paper" in opened.done.value
    opened.student.value = "  STUDNET one"
    opened.make()
    assert len(folder_of(tmp_path)) == 1


def test_a_design_that_was_changed_is_not_called_good(tmp_path):
    for code in SETS:
        opened = page(tmp_path, code)
        opened.design.make()
        assert "✓" in opened.design.says.value or "✗" in opened.design.says.value
        assert '<img alt="' in opened.design.picture.value, "what was made is seen"
        control = next(iter(opened.design.controls.values()))
        options = getattr(control, "options", None)
        control.value = 1 - min(control.value, 1) if options else control.stops[-1]
        assert "✓" not in opened.design.says.value
        assert "✗" not in opened.design.says.value
        assert opened.design.picture.value == ""
