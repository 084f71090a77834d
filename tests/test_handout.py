"""Handouts read back: two sides, the answers on a sheet of their own, true bars."""

import pytest
from printed import words
from pypdf import PdfReader
from test_paper import SIZES, strokes
from test_told_claims import untold

from kit.basics.errors import KitError
from kit.classroom.paper import handout as handouts
from kit.classroom.paper.handout import LESSONS, handout, lesson
from kit.classroom.paper.kinds import Asked
from kit.classroom.paper.page import bind

pytestmark = pytest.mark.gate


def printed(number, folder, paper="A4"):
    """Bind a handout and its answers, and read the pages back."""
    pages = handout(Asked(paper, lesson=number))
    return PdfReader(bind(pages, folder / "a.pdf", f"Lesson {number}")).pages


@pytest.mark.parametrize("number", LESSONS)
def test_two_sides_and_the_answers_apart(number, tmp_path):
    front, back, key = printed(number, tmp_path)
    given = lesson(number)
    assert given.checks
    student = words(front) + words(back)
    for check in given.checks:
        assert " ".join(check.ask.split()[:6]) in student
        right = handouts.value_of(check)
        assert right in words(key)
        # a number by itself may stand in a question; its working may not
        assert " ".join(check.working(check.given)[-1].split()) not in student
    right = given.question.tiles.index(given.question.right)
    assert f"Prediction: {'ABCD'[right]}" in words(key)
    assert "Prediction:" not in student
    assert "Caution" in student
    claims = handouts.tells(given)
    asked = [given.question.ask, *(check.ask for check in given.checks)]
    assert [one for said in asked for one in untold(said, tuple(claims))] == []
    known = words(key)
    assert all(" ".join(claim.says.split()[:5]) in known for claim in claims)
    assert ("Its words:" in student) == bool(claims)


@pytest.mark.parametrize("paper", SIZES)
def test_the_back_is_all_room_to_work_in(paper, tmp_path):
    """Nothing on it is measured: no bars, no card."""
    page = printed("05", tmp_path, paper)[1]
    assert tuple(map(float, page.mediabox[2:])) == pytest.approx(SIZES[paper], abs=0.05)
    lines = strokes(page)
    assert not any(line == pytest.approx((0, 100), abs=0.01) for line in lines)


def test_slips_are_named_kindly():
    assert len(handout(Asked(lesson="02"))) == 3


def test_no_such_lesson_gets_one_sentence():
    with pytest.raises(KitError, match="no handout of lesson '99'"):
        handout(Asked(lesson="99"))
