"""The map of lessons: everything that lists them says what their classes say."""

import json
import re
from itertools import pairwise
from pathlib import Path

import pytest

from kit.basics.errors import KitError
from kit.course.map import ASKING, LESSONS, lesson_of
from kit.course.pages import find_lesson

ROOT = Path(__file__).parents[1]
FOLDER = ROOT / "notebooks"
WHOLE = {key: one for key, one in LESSONS.items() if key == one.number}
TAUGHT = [key for key in WHOLE if key.isdigit()]  # the others are pages by name
START = "00"  # where the map hangs: no lesson, but the first of the pages
LESSON = pytest.mark.parametrize("key", TAUGHT)


def notebook(key):
    return find_lesson(FOLDER, key)


def text(name, kinds=("markdown", "code")):
    cells = json.loads((FOLDER / name).read_text("utf-8"))["cells"]
    return ["".join(cell["source"]) for cell in cells if cell["cell_type"] in kinds]


def rows(words, prefix=""):
    """Read a table of lessons: number, title, notebook, question."""
    row = rf"^\| (\d\d) \| \[(.+?)\]\({prefix}(.+?)\) \| (.+?) \|"
    return re.findall(row, words, re.MULTILINE)


ON_THE_MAP = rows("\n".join(text("00_start_here.ipynb")))
IN_THE_README = rows((ROOT / "README.md").read_text("utf-8"), "notebooks/")


def test_every_lesson_has_a_notebook_and_every_notebook_its_lesson():
    numbers = {path.name[:2] for path in FOLDER.glob("[0-9][0-9]_*.ipynb")}
    assert numbers == {START, *TAUGHT}
    assert all(one.number in WHOLE for one in LESSONS.values())


def test_map_and_readme_hold_just_these_lessons():
    found = [(key, LESSONS[key].title, notebook(key)) for key in TAUGHT]
    assert [row[:3] for row in ON_THE_MAP] == found
    assert [row for row in IN_THE_README if row[0] != "00"] == ON_THE_MAP


@pytest.mark.parametrize("key", WHOLE)
def test_a_page_has_its_lessons_title_and_shows_it_and_its_parts(key):
    cells = text(notebook(key))
    assert cells[0].splitlines()[0] == f"# {LESSONS[key].title}"
    code = "\n".join(cells)
    for part in (one.key for one in LESSONS.values() if one.number == key):
        assert re.search(rf'\blesson\("{part}"[,)]', code), part
        assert any("rehearse(" in cell and f'"{part}"' in cell for cell in cells), part


@pytest.mark.parametrize(("before", "after"), list(pairwise(["00", *TAUGHT])))
def test_pages_lead_on_and_back(before, after):
    def link(key):
        name = "Start here" if key == "00" else LESSONS[key].title
        return f"[{key} {name}]({notebook(key)})"

    assert f"**Next:** {link(after)}" in text(notebook(before), ["markdown"])[-1]
    assert f"**Before:** {link(before)}" in text(notebook(after), ["markdown"])[-1]


@LESSON
def test_a_lesson_asks_first(key):
    assert key in ASKING
    assert LESSONS[key].film
    assert LESSONS[key].checks


def test_a_lesson_that_is_none_is_refused_in_a_sentence():
    with pytest.raises(KitError, match=r"no lesson 'anvil'\. There are: 01, 02"):
        lesson_of("anvil")
