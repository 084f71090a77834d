"""Every right answer says why, in one line; who tried all choices is told so kindly."""

import html
import re
from pathlib import Path

import pytest
from ipywidgets import HTML

from kit.basics.units import Units
from kit.classroom.homework import hand_in, marking
from kit.classroom.homework.drafts import Draft
from kit.classroom.homework.paper import draw
from kit.classroom.homework.sets import SETS, homework
from kit.classroom.homework.sitting import Sitting, left_out
from kit.classroom.views.homework import HomeworkPage
from kit.course.check import LANES
from kit.course.lesson import BY_TRYING, Prediction
from kit.course.map import LESSONS
from kit.course.views.check import CheckRow

CHECKS = {
    f"{key} {place}": check
    for key, lesson in LESSONS.items()
    for place, check in enumerate(lesson.checks, 1)
}
PARTS = {
    f"{code} {part.number}": (code, part) for code in SETS for part in SETS[code].parts
}
KEPT = Path(__file__).parent / "files"
SCORES = {"H1": 4, "H2": 5, "H3": 5, "H4": 4, "H5": 5}  # as marked when they were made
MOST_WORDS = 25


def says_why(words, asked):
    """Say whether a verdict gives the right way to the answer, in one short line."""
    assert words.startswith("Right. "), words
    why = words.removeprefix("Right. ")
    numbers = re.sub(r"[\d.,]+ ?(?:mm|in|°)?", "", why)  # a sum is read as one
    many = [word for word in numbers.split() if re.search(r"\w", word)]
    assert "\n" not in why
    assert 3 <= len(many) <= MOST_WORDS, why
    return asked.right.name.casefold() in why.casefold()


@pytest.mark.parametrize("name", CHECKS)
def test_a_right_answer_says_why_in_every_lane(name):
    check = CHECKS[name]
    right = check.answer(check.given)
    for units in Units:
        offers = check.offers(units)
        looked = [one for one in offers if check.mark(one, units=units).right]
        assert len(looked) == 1
        for measured in (False, True):
            verdict = check.mark(looked[0], units=units, measured=measured)
            assert says_why(verdict.words, check)
    told = check.mark(check.written(right)).words.replace(",", "")
    number = re.match(r"[\d.,]+", check.written(right))[0].replace(",", "")
    assert float(number) in [float(one) for one in re.findall(r"\d+(?:\.\d+)?", told)]


@pytest.mark.parametrize("name", PARTS)
def test_a_right_answer_to_homework_says_why(name):
    code, part = PARTS[name]
    for student in ("Student One", "Student Two", "Student Three"):
        for units in Units:
            sitting = Sitting(draw(homework(code), "FORGE-A", student), units)
            value = part.answer(sitting.paper.values)
            text = str(int(value)) if part.options else part.answers.written(value, units)
            assert says_why(sitting.answer(part.number, text).words, part)


def test_look_is_the_first_lane():
    assert LANES == ("Look", "Measure", "Calculate")
    row = CheckRow(CHECKS["01 1"], HTML())
    assert row.lane.options == list(LANES)
    assert row.lane.value == -1
    assert row.answer not in row.children, "first the way, then the answer"
    row.lane.value = 0
    assert row.offered in row.children


@pytest.mark.parametrize("name", CHECKS)
def test_who_clicks_through_all_choices_is_told_so_kindly(name):
    row, known = CheckRow(CHECKS[name], HTML()), CHECKS[name]
    row.lane.value = 0
    right = [known.mark(one).right for one in row.offered.options].index(True)
    wrong = [place for place in range(len(row.offered.options)) if place != right]
    for place in (*wrong, right):
        row.offered.value = place
    assert "✓ Right." in row.says.value
    assert BY_TRYING in row.says.value
    assert known.right.name[1:].casefold() in html.unescape(row.says.value)
    once = CheckRow(known, HTML())
    once.lane.value = 0
    for place in (wrong[0], right):
        once.offered.value = place
    assert BY_TRYING not in once.says.value, "one mistake is no clicking through"


@pytest.mark.parametrize("key", [key for key, one in LESSONS.items() if one.question])
def test_reasons_say_more_than_yes_and_notice_clicking_through(key):
    question = LESSONS[key].question
    assert all(len(reason.answer.split()) >= 4 for reason in question.reasons)
    right = [reason.right for reason in question.reasons].index(True)
    prediction = Prediction(question)
    assert BY_TRYING not in prediction.explain(right)
    for reason in range(len(question.reasons)):
        if reason != right:
            prediction.explain(reason)
    told = prediction.explain(right)
    assert told.startswith(BY_TRYING)
    assert told.endswith(question.reasons[right].answer)


def test_choices_of_homework_are_noticed_as_well():
    (name, (code, part)), *_ = [one for one in PARTS.items() if one[1][1].options]
    sitting = Sitting(draw(homework(code), "FORGE-A", "Student One"))
    right = int(part.answer(sitting.paper.values))
    for option in range(1, len(part.options) + 1):
        if option != right:
            sitting.answer(part.number, str(option))
    told = sitting.answer(part.number, str(right)).words
    assert BY_TRYING in told, name
    assert says_why(told.replace(f"{BY_TRYING} ", ""), part)


@pytest.mark.parametrize("code", SETS)
def test_hand_ins_and_drafts_of_earlier_kits_open_and_mark_the_same(code, tmp_path):
    path = KEPT / f"hand_in_1_{code}.json"
    done = hand_in.read(path)
    assert marking.mark(done).score == SCORES[code]
    paper = draw(homework(code), done.course, done.student)
    draft = Draft(tmp_path, paper)
    draft.path.parent.mkdir(parents=True, exist_ok=True)
    draft.path.write_bytes(path.read_bytes())
    page = HomeworkPage(code, tmp_path)
    page.course.value, page.student.value = done.course, done.student
    page.begin()
    assert "is back" in page.says.value
    assert page.sitting.score == SCORES[code]
    assert page.record.model_dump(exclude={"kit"}) == done.model_dump(exclude={"kit"})


def test_nothing_is_said_to_be_whole_while_ratings_are_blank():
    task = homework("H1")
    sitting = Sitting(draw(task, "FORGE-A", "Student One"))
    for part in task.parts:
        sitting.answer(part.number, str(part.answer(sitting.paper.values)))
    sitting.make(
        {key: field.default for key, field in task.design.choices.model_fields.items()}
    )
    whole = [{"possible": True, "reason": 0} for _ in task.judged.claims]
    for ratings, told in (((), "0 of 3"), ((2, None, 1), "2 of 3"), ((2, 2, 1), "")):
        done = sitting.hand_in(words="Words.", claims=whole, ratings=ratings)
        said = left_out(sitting, done)
        assert ("Everything is answered." in said) is not told
        assert f"think of your words ({told} lines chosen)" in said or not told
    assert "think of" not in left_out(sitting, sitting.hand_in(claims=whole)), "no words"


def test_how_a_length_was_got_is_not_chosen_beforehand(tmp_path):
    page = HomeworkPage("H1", tmp_path)
    page.course.value, page.student.value = "FORGE-A", "Student One"
    page.begin()
    row = next(row for row in page.rows if row.part.is_length)
    assert row.ruler.options == ["read off a ruler", "worked out"], "measure, calculate"
    assert row.ruler.value == -1
    right = row.part.answer(page.sitting.paper.values)
    row.answer.value = f"{right * 1.04:.4g}"
    assert "✗" in row.says.value
    row.ruler.value = 0
    row.mark()
    assert "✓" in row.says.value
