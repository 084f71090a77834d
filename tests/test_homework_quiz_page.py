"""The quiz's page asks before or after, writes over nothing; its report can be read."""

import re

import pytest

from kit.__main__ import main
from kit.classroom.homework import quiz
from kit.classroom.views.marking import MarkingPage
from kit.classroom.views.quiz import WHEN, QuizPage

COURSE = "FORGE-A"
WIDE = 100  # signs of a line, that a terminal shows without breaking it


def page(folder, when=None, first=0):
    opened = QuizPage(folder)
    opened.course.value, opened.student.value = COURSE, "Student One"
    opened.answers[0].value = first
    opened.answers[2].value = "144"
    if when is not None:
        opened.when.value = WHEN.index(when)
    return opened


def test_a_smith_in_inches_is_asked_in_inches(tmp_path):
    opened = page(tmp_path, first=1)
    opened.looks.unit_choice.value = 1
    told = [ask.value for ask in opened.asks]
    told += [words for one in opened.answers for words in getattr(one, "options", ())]
    assert [words for words in told if re.search(r"\d mm\b", words)] == []
    assert any(re.search(r"\d in\b", words) for words in told)
    assert opened.answers[0].value == 1, "what was answered stays"


def sheets(folder):
    return sorted(folder.glob("*.json"), key=lambda path: path.stem)


def test_before_or_after_is_asked_and_never_guessed(tmp_path):
    opened = page(tmp_path)
    assert opened.when.value == -1
    opened.make()
    assert "kit-refused" in opened.says.value
    assert "before" in opened.says.value
    assert "after" in opened.says.value
    assert sheets(tmp_path) == []
    assert opened.done.value == ""


@pytest.mark.parametrize("when", WHEN)
def test_a_second_sheet_writes_over_nothing(tmp_path, when):
    page(tmp_path, when).make()
    (first,) = sheets(tmp_path)
    before = first.read_bytes()
    opened = page(tmp_path, when, first=2)
    opened.make()
    assert first.read_bytes() == before
    assert len(sheets(tmp_path)) == 2
    assert "stays" in opened.says.value
    assert sheets(tmp_path)[1].name in opened.says.value
    assert sheets(tmp_path)[1].name in opened.done.value
    assert quiz.read(sheets(tmp_path)[1]).answers[0] == "3"


def test_the_same_sheet_again_is_the_same_file(tmp_path):
    for _ in range(2):
        page(tmp_path, "before").make()
    assert len(sheets(tmp_path)) == 1


def test_a_file_of_that_name_that_is_no_sheet_stays(tmp_path):
    page(tmp_path, "after").make()
    (made,) = sheets(tmp_path)
    made.write_text("mine")
    page(tmp_path, "after").make()
    assert made.read_text() == "mine"
    assert len(sheets(tmp_path)) == 2


def test_a_duplicate_sheet_is_told(tmp_path, capsys):
    for first in (0, 2, 1):
        page(tmp_path, "before", first).make()
    page(tmp_path, "after").make()
    names = [path.name for path in sheets(tmp_path)]
    found, remarks = quiz.read_folder(tmp_path)
    assert len(found) == 2
    assert len(remarks) == 2
    for remark, name in zip(remarks, names[1:3], strict=True):
        assert remark.startswith(f"{name}: not counted")
        assert "'Student One'" in remark
        assert "before" in remark
        assert names[3] in remark
    assert quiz.report(found).before[0].answered == 1
    assert main(["mark", str(tmp_path), "--quiz"]) == 0
    assert capsys.readouterr().out.count("not counted") == 2


def test_the_report_can_be_read(tmp_path, capsys):
    """In a terminal no line is broken; on the page it is a table with two heads."""
    for when in WHEN:
        page(tmp_path, when).make()
    (tmp_path / "broken.json").write_text("{")
    assert main(["mark", str(tmp_path), "--quiz"]) == 0
    lines = capsys.readouterr().out.splitlines()
    table = lines[: 2 + len(quiz.ITEMS) + 1]
    assert max(map(len, table)) <= WIDE
    assert "before" in table[0]
    assert "after" in table[0]
    marks = MarkingPage(tmp_path)
    marks.mark()
    shown = marks.screen.value
    assert "<pre" not in shown
    assert shown.count("<tr>") == 2 + len(quiz.ITEMS) + 1
    assert re.search(r'<th[^>]*colspan="3"[^>]*>before', shown)
    assert "broken.json" in marks.files.value
    assert "1 student" in shown


def test_a_strangers_name_is_no_page(tmp_path):
    name = "<img src=x onerror=alert(1)>"
    for number in range(2):
        done = quiz.Sheet(
            course=COURSE, student=name, when="after", answers=(str(number + 1),) * 6
        )
        quiz.write(done, tmp_path / f"<b>{number}.json")
    marks = MarkingPage(tmp_path)
    marks.mark()
    assert "0 students" in marks.screen.value
    for shown in (marks.screen, marks.files):
        assert "<img" not in shown.value
        assert "<b>0" not in shown.value
