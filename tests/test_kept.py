"""What a view was set to comes back after a restart, if it is asked for."""

import pytest

from kit.course.views.kept import VARIABLE
from kit.course.views.lesson import lesson, view_of


@pytest.fixture
def place(tmp_path, monkeypatch):
    monkeypatch.setenv(VARIABLE, str(tmp_path))
    return tmp_path


def rest(view):
    view.picture._handle_custom_msg({"event": "rest"}, [])


def words(view):
    return [one.description for one in view.buttons.children]


@pytest.mark.usefixtures("place")
def test_settings_come_back_when_asked_for():
    first = view_of("00")
    assert "Bring back what I had" not in words(first)
    first.controls["folds"].value = 5
    rest(first)
    second = view_of("00")  # a new kernel
    assert second.state != first.state, "nothing comes back unasked"
    second.buttons.children[-1].click()
    assert second.state == first.state
    assert "Bring back what I had" not in words(second)
    second.undo()
    assert second.state == view_of("00").state


@pytest.mark.usefixtures("place")
def test_an_answer_is_not_given_away():
    predict, view, *_ = lesson("04")
    predict.tiles.value = 2
    predict.observe_now()
    rest(view)
    *_, again, _, _ = lesson("04")
    again.buttons.children[-1].click()
    assert "First predict" in again.says.value


@pytest.mark.parametrize(
    "text", ["", "{", "[]", '{"folds": "x"}', '{"folds": NaN}', "[" * 9000, "9" * 20000]
)
def test_a_spoilt_file_is_left_alone(place, text):
    (place / "BenchLesson.json").write_text(text)
    assert "Bring back what I had" not in words(view_of("00"))


def test_nothing_is_kept_without_a_launcher(monkeypatch):
    monkeypatch.delenv(VARIABLE, raising=False)
    view = view_of("00")
    view.controls["folds"].value = 5
    rest(view)
    assert "Bring back what I had" not in words(view_of("00"))


def test_a_folder_that_is_gone_stops_nothing(place):
    view = view_of("00")
    place.rmdir()
    view.controls["folds"].value = 5
    rest(view)
    assert view.state["folds"] == 5
