"""The mark *next* stands where a page's text points, and moves on in the text's order."""

import json
import re
from pathlib import Path

import pytest

from kit.course.map import ASKING, LESSONS
from kit.course.views.lesson import view_of
from kit.course.views.settings import settings_of

NOTEBOOKS = sorted((Path(__file__).parents[1] / "notebooks").glob("*.ipynb"))
_MADE = re.compile(r"^(.+) = lesson\(\"([^\"]+)\"", re.MULTILINE)

pytestmark = pytest.mark.usefixtures("drawn_once")


def texts():
    """Give the words that stand right above each view, by the view's lesson."""
    found, named = {}, {}
    for path in NOTEBOOKS:
        words = ""
        for cell in json.loads(path.read_text("utf-8"))["cells"]:
            source = "".join(cell["source"])
            if cell["cell_type"] == "markdown":
                words = source
                continue
            for names, key in _MADE.findall(source):
                parts = re.findall(r"\w+", names)
                named[parts[key in ASKING]] = key
            shown = source.rstrip().splitlines()[-1]
            if shown in named:
                found.setdefault(named.pop(shown), words)
    return found


TEXTS = texts()


def pointed_at(key):
    """Give the controls that the text names in bold, in its order, and what else."""
    keys = {setting.label: setting.key for setting in settings_of(LESSONS[key])}
    bold = [words.rstrip(".:?") for words in re.findall(r"\*\*([^*]+)\*\*", TEXTS[key])]
    labels = {label.rstrip(".:?"): name for label, name in keys.items()}
    named = list(dict.fromkeys(labels[words] for words in bold if words in labels))
    return named, [words for words in bold if words not in labels]


def cued(view):
    """Give the controls that are marked, and whether the stations are."""
    marked = [key for key, control in view.controls.items() if control.cue]
    return marked, hasattr(view, "stations") and view.stations.cue


def seen(view, key):
    """Say whether a control is in sight."""
    control = view.controls[key]
    return control is view.main or control in view.panel.children


def opened(view):
    """Open a view as a prediction does."""
    view.lock(False)
    return view


def test_every_view_has_its_words():
    assert set(TEXTS) == {key for key in LESSONS if key.isdigit() or key in TEXTS}
    assert set(TEXTS) >= {key for key, one in LESSONS.items() if one.cues}


@pytest.mark.parametrize("key", TEXTS)
def test_next_stands_where_the_text_points_and_goes_on_in_its_order(key):
    named, others = pointed_at(key)
    assert tuple(named) == LESSONS[key].cues
    assert named or key == "briefs", "four designs, and none of them is the first"
    assert set(others) <= set(LESSONS[key].stations), "bold is what is on the bench"
    view = opened(view_of(key))
    for name in named:
        marked, stations = cued(view)
        assert marked == [name]
        assert stations is not seen(view, name), "what is behind a station is found by it"
        view._changed(name)
    assert cued(view) == ([], False)
    view.reset()
    assert cued(view)[0] == named[:1]


@pytest.mark.parametrize("key", TEXTS)
def test_a_control_that_the_text_does_not_name_leaves_the_mark_where_it_is(key):
    view = opened(view_of(key))
    before = cued(view)
    for name in view.controls:
        if name not in LESSONS[key].cues:
            view._changed(name)
            assert cued(view) == before
