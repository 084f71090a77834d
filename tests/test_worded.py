"""Words beside the code: read as they are written, each asked for, few to a line."""

import re

import pytest

from kit.course.worded import words_beside
from tests.beside import FILES, ROOT

MOST_LINES, WIDEST = 400, 92


def test_words_are_read_as_they_are_written(tmp_path):
    (tmp_path / "bar.txt").write_text(
        "# {of} the smith\n\n[ONE]\nask: How many:\n  {n:g} folds?\n\nadds: yes\n"
        "[TWO]\ntips:\n  * one - two\n    four\n  * {n:.1f}\nline:\n  set in\n",
        "utf-8",
    )
    module = str(tmp_path / "bar.py")
    assert words_beside(module, n=5) == {
        "ONE": {"ask": "How many: 5 folds?", "adds": "yes"},
        "TWO": {"tips": ("one - two four", "5.0"), "line": "set in"},
    }
    assert words_beside(module)["ONE"]["ask"] == "How many: {n:g} folds?"


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_no_words_stand_there_that_no_code_asks_for(path):
    code = path.with_suffix(".py").read_text("utf-8")
    names = [*words_beside(str(path))]
    asks = "[(\\[]\\s*[\"']?{}\\b"
    idle = [one for one in names if not re.search(asks.format(re.escape(one)), code)]
    assert names
    assert set(idle) <= {"QUESTION"}, "asked for where the lesson is"


def test_every_question_is_asked():
    folder = ROOT / "course/lessons"
    code = "".join(path.read_text("utf-8") for path in folder.glob("*.py"))
    told = [path for path in FILES if "QUESTION" in words_beside(str(path))]
    assert len(told) == code.count("TOLD.question(") > 10


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_words_fit_as_code_must(path):
    lines = path.read_text("utf-8").splitlines()
    assert [line for line in lines if len(line) > WIDEST] == []
    assert len(lines) <= MOST_LINES
