"""What the status line keeps and what it forgets when the reader turns elsewhere."""

from ipywidgets import HTML

from kit.course.check import STANDS
from kit.course.lessons import cut_ideas
from kit.course.views.check import CheckRow
from kit.course.views.controls import Stations
from kit.course.views.lesson import view_of


def test_what_was_found_stays_found_and_what_was_wrong_does_not():
    row = CheckRow(cut_ideas.BAND_WIDTH, HTML())
    row.answer.value = "4.29"
    row.lane.value = 1
    assert row.says.value == ""
    row.answer.value = "4.73"
    assert "✓" in row.says.value
    row.lane.value = 0
    assert "✓" in row.says.value
    row.lane.value = 2
    row.answer.value = "4.29"
    assert "✗" in row.says.value
    assert STANDS in row.says.value
    row.lane.value = 1
    assert row.says.value == ""
    row.answer.value = "33"
    assert STANDS in row.says.value


def test_a_refusal_goes_when_the_reader_turns_to_another_station():
    view = view_of("04")
    stations = next(one for one in view.children if isinstance(one, Stations))
    view.say("At most 20 folds. Given: 40.", refused=True)
    assert "kit-refused" in view.says.value
    stations.value = 1
    assert "kit-refused" not in view.says.value
    view.say("Just said.")
    stations.value = 0
    assert "Just said." in view.says.value
