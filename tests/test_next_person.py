"""The next person, and the checks: all as at first, and what is asked about in sight."""

import html

import ipywidgets as widgets
import pytest
from test_cues import cued

from kit.course.check import LANES
from kit.course.lesson import Prediction
from kit.course.map import ASKING
from kit.course.views.check import ANEW, AS_SET
from kit.course.views.controls import Choice
from kit.course.views.lesson import lesson
from kit.course.views.said import Says
from kit.forge.billet import Billet
from kit.forge.stack import Stack

EVERY = pytest.mark.parametrize("key", ASKING)

pytestmark = pytest.mark.usefixtures("drawn_once")


def inside(*parts):
    """Give all widgets of the parts of a page, one by one."""
    for part in parts:
        yield part
        yield from inside(*getattr(part, "children", ()))


def on_the_page(parts):
    """Give all that a visitor sees, hears or can use, but how it is dressed."""
    seen = []
    for one in inside(*parts):
        kept = (
            "frame", "alt", "film", "line", "counted", "value", "disabled", "cue",
            "description", "text",
        )  # fmt: skip
        told = [(name, getattr(one, name)) for name in kept if one.has_trait(name)]
        seen.append((type(one).__name__, told))
    return seen


def observed(parts, tile=0):
    """Predict and observe, as one person does."""
    predict, *_ = parts
    predict.tiles.value = tile
    predict.sure.value = 1
    predict.observe_now()


def used(parts):
    """Use everything on a page once."""
    _, view, explain, checks = parts
    view.main.value = view.main.stops[-1]
    view.reset()
    view.main.value = view.main.stops[1]
    view.work_out()
    view.code.opened = True
    view.line.toggle()
    view.read_out()
    if view.shown.panels:
        view.take(Billet(source=Stack.alternate("1084", "15N20", pieces=3, thickness=3)))
    for station in range(len(view.stations.options) if view.lesson.stations else 0):
        view.stations.value = station
    explain.reasons.value = 1
    for row in checks.rows:
        row.lane.value = 0
        row.offered.value = 0
        row.answer.value = "3"


def pressed(*parts):
    """Press every button that is not shut."""
    for one in list(inside(*parts)):
        if isinstance(one, widgets.Button) and not one.disabled:
            one.click()


def gives_nothing_away(predict, view):
    """Press all that can be pressed: the bench stays as it is, and shut."""
    before = view.picture.frame, view.picture.alt, view.numbers.value, view.state
    pressed(view)
    view.line.toggle()
    after = view.picture.frame, view.picture.alt, view.numbers.value, view.state
    predict.observe_now()
    return (
        after == before
        and "Choose one first" in predict.says.value
        and view.locked
        and all(control.disabled for control in view.controls.values())
    )


@EVERY
def test_for_the_next_person_all_is_as_at_first(key):
    """What one did, an own bar, Reset and the film leave nothing; Undo brings it back."""
    parts = predict, view, explain, _ = lesson(key)
    at_first = on_the_page(parts)
    assert cued(view) == ([], False), "before the observation nothing is next"
    assert gives_nothing_away(predict, view)
    observed(parts)
    assert cued(view)[0] == list(ASKING[key].cues[:1])
    used(parts)
    before = view.state
    predict.next_person()
    told, predict.says.value = predict.says.value, ""
    assert on_the_page(parts) == at_first
    assert isinstance(predict.says, Says), "it is announced"
    assert "Undo step twice" in told
    assert gives_nothing_away(predict, view)
    observed(parts, tile=1)
    assert predict.prediction.chosen == 1
    assert not view.locked
    assert view.state == {**view.state, **ASKING[key].states()[-1]}
    assert len(view.picture.film) > 4, "the film plays again"
    explain.reasons.value = 0
    assert explain.says.value
    view.undo()
    view.undo()
    assert view.state == before


def test_a_part_below_is_asked_afresh_as_well():
    parts = predict, view, *_ = lesson("02")
    _, checks = lesson("weld", view)
    checks.rows[0].answer.value = "32"
    observed(parts)
    predict.next_person()
    assert [row.answer.value for row in checks.rows] == ["", ""]


def test_nothing_is_chosen_beforehand():
    """A bench has settings; a question, made of the same parts on all pages, has none."""
    predict, _, *asked = lesson("01")
    for one in inside(predict, *asked):
        if isinstance(one, Choice):
            assert one.value == -1, one.label


def test_how_sure_may_be_left_open_and_is_told_so():
    prediction = Prediction(ASKING["01"].question)
    prediction.choose(ASKING["01"].question.tiles.index(ASKING["01"].question.right))
    assert "You predicted it (how sure: not said)." in prediction.observe()
    prediction.sure = 0
    assert "You predicted it (guess)." in prediction.observe()


@EVERY
def test_whoever_looks_or_measures_has_the_picture_beside_the_question(key):
    """What the lane speaks of is not a page further up; what is reckoned needs none."""
    predict, view, _, checks = lesson(key)
    observed((predict,))
    predict.view.rest()
    for row in checks.rows:
        for lane, name in enumerate(LANES):
            row.lane.value = lane
            told = [str(getattr(one, "value", "")) for one in inside(row)]
            beside = [words for words in told if "<img" in words]
            assert len(beside) == (name != "Calculate"), (row.check.ask, name)
            assert all(html.escape(view.picture.alt, quote=True) in one for one in beside)
            assert all(AS_SET in one for one in beside), "whose picture it is"
        row.lane.value = 1
        view.main.value = view.main.stops[1]
        view.rest()
        assert html.escape(view.picture.alt, quote=True) in checks.bench.value
    sent = []
    checks.bench.observe(lambda _change: sent.append(1), names="value")
    view.looks.unit_choice.value = 1
    assert len(sent) <= 1, "a whole picture, sent twice for one change"


@EVERY
def test_whatever_lies_on_the_bench_the_question_can_be_looked_up_on_it(key):
    """A tip names what to set from where the bench begins: one press leads there."""
    predict, view, _, checks = lesson(key)
    begun = view.state
    for row in checks.rows:
        row.lane.value = 0
        anew = [one for one in inside(row) if getattr(one, "description", "") == ANEW]
        assert len(anew) == 1, row.check.ask
        anew[0].click()
        assert view.state == begun, "before the prediction nothing is given away"
    observed((predict,))
    for name, control in view.controls.items():
        if isinstance(control, Choice):
            control.value = len(control.options) - 1
        elif name != view.lesson.main:
            control.value = control.stops[1]
    assert view.state != view.lesson.begun()
    anew[0].click()
    assert view.state == view.lesson.begun()
    row.lane.value = LANES.index("Calculate")
    assert anew[0] not in inside(row)


@EVERY
def test_next_person_is_found_at_the_end_too(key):
    """Whoever went through all lanes is not sent up again to make room for the next."""
    parts = lesson(key)
    predict, *_, checks = parts
    names = [getattr(one, "description", "") for one in inside(checks)]
    assert "Next person" not in names, "nobody predicted yet"
    observed(parts)
    last = [one for one in inside(checks) if getattr(one, "description", "")][-1]
    assert last.description == "Next person"
    last.click()
    assert not predict.prediction.observed
    names = [getattr(one, "description", "") for one in inside(checks)]
    assert "Next person" not in names
