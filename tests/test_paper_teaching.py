"""Pages for who teaches, read back: plans as the notebooks have them, risks, the wall."""

import re

import pytest
from printed import read, words

from kit.basics.errors import KitError
from kit.basics.told import plain
from kit.classroom import plans
from kit.classroom.paper import instructor
from kit.classroom.paper.checklists import risk_assessment
from kit.classroom.paper.handout import (
    LESSONS,
    handout,
    lesson,
    question,
    wall_copy,
)
from kit.classroom.paper.instructor import instructor_pack
from kit.classroom.paper.kinds import ALL, Asked, kinds
from kit.classroom.paper.page import LIVE
from kit.metal.dangers import DANGERS

pytestmark = pytest.mark.gate


@pytest.fixture(scope="module")
def sheets():
    """Draw the whole pack."""
    return instructor_pack(Asked(lesson=ALL))


@pytest.fixture(scope="module")
def pack(sheets, tmp_path_factory):
    """Give what each page of the whole pack says."""
    pages = read(sheets, tmp_path_factory.mktemp("pack"))
    return [words(page) for page in pages]


@pytest.mark.parametrize("number", LESSONS)
def test_a_plan_is_the_notebooks_own(number, pack):
    named = f"{number} {lesson(number).title}"
    text = " ".join(page for page in pack if page.startswith(named))
    plan = plans.sections(number)[plans.TEACH]
    rows = plans.table(plan)
    assert len(rows) >= 5
    for minutes, happens in rows:
        assert plain(minutes) in text
        assert plain(" ".join(happens.split()[:5])) in text
    asked = lesson(number).question
    for idea in asked.tiles:
        if idea is not asked.right:
            assert " ".join(idea.name.split()[:4]) in text
    assert "*" not in text
    assert "<" not in text


def test_the_whole_pack_has_overview_and_risks(pack):
    text = " ".join(pack)
    assert "Kit list" in text
    assert "Half a day, beginners" in text
    assert "Risk assessment" in text
    assert all(len(page) > 150 for page in pack)


def test_the_risk_assessment_defers_and_leaves_room(tmp_path):
    pages = read(risk_assessment(Asked()), tmp_path)
    text = words(*pages)
    assert len(pages) == 3
    for said in ("local rule", "qualified", "Who", "Usual controls", "monoxide"):
        assert said in text
    assert all(danger.name.capitalize().split()[0] in text for danger in DANGERS.values())


def test_a_notebook_that_is_not_there_gets_one_sentence():
    with pytest.raises(KitError, match="notebook of lesson '77'"):
        plans.sections("77")


@pytest.mark.parametrize("number", LESSONS)
def test_the_wall_has_a_question_a_picture_and_a_number(number, tmp_path):
    made = wall_copy(Asked(lesson=number))
    page = read(made, tmp_path)[0]
    text = words(page)
    assert " ".join(question(number).split()[:4]) in text
    assert len(re.findall(rb"\bDo\b", page.get_contents().get_data())) == 2  # and the mark
    sizes = [one.get_fontsize() for one in made[0].axes.texts]
    assert sum(size >= 18 for size in sizes) >= 4  # all but the foot
    largest = max(made[0].axes.texts, key=lambda one: one.get_fontsize())
    assert re.search(r"\d", largest.get_text())


def test_no_question_stands_alone_on_a_page(sheets):
    for page in sheets:  # A4 and Letter have one live area
        lines = [text.get_text() for text in page.axes.texts]
        asked = [line for line in lines if re.match(r"\d\.  ", line)]
        more = [line for line in lines if line.startswith(("Teach", "Bring", "The pred"))]
        assert len(asked) != 1 or more, (page.title, asked)


@pytest.mark.parametrize("number", LESSONS)
def test_the_back_of_a_handout_is_not_half_empty(number):
    _front, back, _answers = handout(Asked(lesson=number))
    assert back.y > 0.9 * LIVE[1]  # where the last line was written


def test_a_class_s_whole_set_is_one_press(monkeypatch):
    parts = ("instructor", "wall", "votes", "handout")
    known, asked = kinds(), Asked(lesson="04")
    drawn = {
        name: known[name]._replace(pages=lambda of, name=name: [(name, of)])
        for name in parts
    }
    monkeypatch.setattr(instructor, "kinds", lambda: drawn)
    assert known["class-set"].pages(asked) == [(name, asked) for name in parts]
