"""What a view was set to comes back after a restart, if it is asked for."""

from pathlib import Path

import pytest

from kit.course.views.forge import Forge
from kit.course.views.kept import VARIABLE
from kit.course.views.lesson import lesson, view_of
from tests.lessons import KNOWN

pytestmark = pytest.mark.usefixtures("drawn_once")


@pytest.fixture
def place(tmp_path, monkeypatch):
    monkeypatch.setenv(VARIABLE, str(tmp_path))
    return tmp_path


def rest(view):
    view.picture._handle_custom_msg({"event": "rest"}, [])


def words(view):
    return [one.description for one in view.buttons.children]


def back(view):
    return [one for one in words(view) if one.startswith("Bring back")]


@pytest.mark.usefixtures("place")
def test_settings_come_back_when_asked_for():
    first = view_of("06")
    assert not back(first)
    first.controls["spine"].value = 5
    rest(first)
    second = view_of("06")  # a new kernel
    assert second.state != first.state, "nothing comes back unasked"
    second.buttons.children[-1].click()
    assert second.state == first.state
    assert not back(second)
    second.undo()
    assert second.state == view_of("06").state


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
    "text", ["", "{", "[]", '{"spine": "x"}', '{"spine": NaN}', "[" * 9000, "9" * 20000]
)
def test_a_spoilt_file_is_left_alone(place, text):
    (place / "BevelsLesson.json").write_text(text)
    assert not back(view_of("06"))


@pytest.mark.usefixtures("place")
def test_a_bar_of_the_forge_comes_back_with_its_history():
    first = Forge()
    for name in ("fold", "draw out", "hammer unevenly"):
        first.add(name)
    first.do(first.desk.goes(1))
    first.miss()  # an open weld, and what is said, are part of it
    first.do(first.desk.saying(ask="How many layers?"))
    rest(first)
    second = Forge()
    assert second.desk != first.desk, "nothing comes back unasked"
    assert words(second)[-1] == "Bring back my bar of 3 steps"
    second.buttons.children[-1].click()
    assert second.desk.history == first.desk.history
    second.undo()
    assert second.desk == Forge().desk


@pytest.mark.parametrize("text", ["", "{", "[]", '{"format": "x"}', "[" * 9000])
def test_a_spoilt_bar_is_left_alone(place, text):
    (place / "Forge.json").write_text(text)
    assert not back(Forge())


def test_nothing_is_kept_without_a_launcher(monkeypatch):
    monkeypatch.delenv(VARIABLE, raising=False)
    view = view_of("06")
    view.controls["spine"].value = 5
    rest(view)
    assert not back(view_of("06"))


def test_a_folder_that_is_gone_stops_nothing(place):
    view = view_of("06")
    place.rmdir()
    view.controls["spine"].value = 5
    rest(view)
    assert view.state["spine"] == 5


FORGES = [
    path.name
    for path in sorted(Path("notebooks").glob("*.ipynb"))
    if "Forge()" in path.read_text("utf-8")
]


@pytest.mark.usefixtures("place")
def test_each_page_keeps_its_own_bar(monkeypatch):
    assert len(FORGES) > 1
    for steps, page in enumerate(FORGES, 1):
        monkeypatch.setenv("JPY_SESSION_NAME", f"/home/me/lessons/{page}")
        forge = Forge()
        assert not back(forge), "another page's bar"
        for _ in range(steps):
            forge.add("fold")
        rest(forge)
    for steps, page in enumerate(FORGES, 1):
        monkeypatch.setenv("JPY_SESSION_NAME", f"/home/me/lessons/{page}")
        assert back(Forge()) == [f"Bring back my bar of {steps} step{'s' * (steps > 1)}"]


def changed(view):
    """Make something: a step, or a setting's next stop."""
    if isinstance(view, Forge):
        view.add("fold")
        return
    key, control = next(
        (key, one) for key, one in view.controls.items() if hasattr(one, "stops")
    )
    others = [stop for stop in control.stops if stop != control.value]
    view.set(**{key: min(others, key=lambda stop: abs(stop - control.value))})


@pytest.mark.usefixtures("place")
@pytest.mark.parametrize("make", [Forge, *(known.view for known in KNOWN.values())])
def test_a_page_where_nothing_was_made_neither_offers_nor_loses_anything(make):
    rest(make())
    assert not back(make()), "nothing was made"
    first = make()
    changed(first)
    rest(first)
    offered = back(make())
    assert offered
    rest(make())  # opened again, looked at, and left
    assert back(make()) == offered
