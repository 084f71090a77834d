"""As a page begins, nothing on it tells what its checks ask; what to set can be set."""

import json
import re

import pytest

from kit.basics.told import plain
from kit.basics.units import Units
from kit.course.map import LESSONS
from kit.course.views.check import ANEW, CheckYourself
from kit.course.views.lesson import view_of
from tests.test_notebooks import NOTEBOOKS

EACH = [(key, place) for key, one in LESSONS.items() for place in range(len(one.checks))]
COUNTED = re.compile(r"[Hh]ow many (?:whole |of )?(\w+)|fewest (\w+)")
SETS = re.compile(r"in the picture|^(Set|Grind|Tilt|Move|Step back)\b")
each = pytest.mark.parametrize(("key", "place"), EACH)


def told_at_first(key):
    """Give the sentence, numbers, workings, alt text and code of a bench as it begins."""
    view = view_of(key)
    view.code.opened = True
    scene = LESSONS[key].scene(**LESSONS[key].begun())
    yield from (view.code.text, scene.alt, str(view.says.value))
    for number in scene.numbers:
        yield from (f"{number.name}: {number.value}", *number.working)


def printed(key):
    """Give what the cells of the lesson's page print, and how they are written."""
    stem = LESSONS[key].number[:2]
    for path in NOTEBOOKS:
        if path.stem.startswith(f"{stem}_") or path.stem == key:
            for cell in json.loads(path.read_text("utf-8"))["cells"]:
                for out in cell.get("outputs", ()):
                    yield "".join(out.get("text", ""))
                yield "".join(cell["source"]) * (cell["cell_type"] == "code")


def tells(check):
    """Give a pattern of an answer: with its unit, or a count with what is counted."""
    answer = plain(check.written(check.right.value(check.given), Units.MM))
    if re.search(r"[^\d.,]", answer):
        return rf"(?<![\d.,]){re.escape(answer)}(?!\w)"
    asked = COUNTED.search(check.ask)  # or a ratio
    counted = next(filter(None, asked.groups())) if asked else "times"
    return rf"(?<![\d.,]){answer} (of |whole )?{counted}\b|\b{counted}:? {answer}(?![\d.])"


@each
def test_no_check_is_answered_as_its_page_begins(key, place):
    check = LESSONS[key].checks[place]
    said = [plain(words) for words in (*told_at_first(key), *printed(key))]
    assert [words[:200] for words in said if re.search(tells(check), words)] == []


@each
def test_where_a_tip_tells_what_to_set_the_bench_can_be_set_anew(key, place):
    view = view_of(key)
    row = CheckYourself(*LESSONS[key].checks, view=view).rows[place]
    for lane, tip in enumerate(row.check.tips):
        row.lane.value = lane
        presses = [one for one in row.children if ANEW in described(one)]
        assert presses or not SETS.search(tip), tip


def described(widget):
    """Give the words on a widget and on all within it."""
    own = [getattr(widget, "description", "")]
    return own + [
        word for one in getattr(widget, "children", ()) for word in described(one)
    ]
