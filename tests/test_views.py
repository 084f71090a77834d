"""Views driven as a front end drives them: set a value, decode the picture, compare."""

import io
import json
from functools import partial

import numpy as np
import pytest
from ipywidgets import HTML
from PIL import Image

from kit.basics.typed import MM_PER_INCH
from kit.basics.units import Units
from kit.classroom.homework.paper import draw
from kit.classroom.homework.sets import SETS
from kit.classroom.homework.sitting import Sitting
from kit.classroom.views.answering import PartRow
from kit.course.check import STANDS
from kit.course.lesson import Prediction
from kit.course.lessons import cut
from kit.course.lessons.fold import FoldLesson
from kit.course.map import LESSONS
from kit.course.views.check import LOOK, CheckRow
from kit.course.views.controls import Choice, Slider, Stations
from kit.course.views.lesson import lesson, view_of
from kit.course.views.predict import Explain
from kit.course.views.rehearse import rehearse
from kit.course.views.said import Says

VIEWS = {"cut": "01", "fold": "02", "draw": "03"}


def pixels(view):
    return np.asarray(Image.open(io.BytesIO(view.picture.frame)).convert("L"), float)


def kind(view):
    return Image.open(io.BytesIO(view.picture.frame)).format


def typed(view, key, text):
    """Send what the front end sends when a value was typed."""
    view.controls[key]._handle_custom_msg({"typed": text}, [])


@pytest.fixture(params=VIEWS, name="view")
def fixture_view(request):
    return view_of(VIEWS[request.param])


@pytest.mark.parametrize(
    ("name", "key", "value"),
    [("cut", "angle", 30.0), ("fold", "folds", 6.0), ("draw", "thickness", 20.0)],
)
def test_slider_changes_picture_words_and_numbers(name, key, value):
    view = view_of(VIEWS[name])
    before = pixels(view), view.picture.alt, view.numbers.value
    view.controls[key].value = value
    view.rest()
    assert np.abs(pixels(view) - before[0]).mean() > 1
    assert view.picture.alt != before[1]
    assert view.numbers.value != before[2]
    assert view.controls[key].readout.startswith(f"{value:g}")


@pytest.mark.parametrize("view", ["cut", "fold"], indirect=True)
def test_half_as_fine_a_jpeg_while_moving_png_at_rest(view):
    key = next(k for k, c in view.controls.items() if isinstance(c, Slider))
    view.controls[key].value = view.controls[key].stops[0]
    assert kind(view) == "JPEG"
    moving = pixels(view)
    view.picture._handle_custom_msg({"event": "rest"}, [])
    assert kind(view) == "PNG"
    rows, columns = pixels(view).shape
    assert moving.shape == (-(-rows // 2), -(-columns // 2))
    quick = moving.repeat(2, axis=0).repeat(2, axis=1)[:rows, :columns]
    assert np.abs(pixels(view) - quick).mean() < 6  # small words are not as black


def test_undo_takes_back_one_whole_drag():
    view = view_of("01")
    first = pixels(view)
    for angle in (80.0, 60.0, 40.0):
        view.controls["angle"].value = angle
    view.rest()
    view.controls["layers"].value = 5.0
    view.undo()
    assert view.state["layers"] == 9
    assert view.state["angle"] == 40.0
    view.undo()
    assert view.state["angle"] == 90.0
    view.rest()
    np.testing.assert_array_equal(pixels(view), first)
    view.undo()
    assert "Nothing to undo" in view.says.value


def test_reset_can_be_undone(view):
    start = view.state
    for key, control in view.controls.items():
        options = control.stops if isinstance(control, Slider) else [0, 1]
        control.value = options[1]
        assert key in view.state
    changed = view.state
    view.reset()
    assert view.state == start
    view.undo()
    assert view.state == changed


BAD = [
    ("cut", "angle", "0", "Cut angle to the layers must be from 2° to 90°. Given: 0."),
    ("cut", "angle", "400", "must be from 2° to 90°. Given: 400."),
    ("cut", "thickness", "abc", "Layer thickness: I cannot read"),
    ("cut", "layers", "1", "must be from 3 to 25. Given: 1."),
    ("fold", "folds", "-3", "Folds must be from 0 to 20. Given: -3."),
    ("fold", "folds", "40", "Folds must be from 0 to 20. Given: 40."),
    ("fold", "pieces", "1", "Pieces in the stack must be from 2 to 25. Given: 1."),
    ("fold", "pieces", "1000000", "must be from 2 to 25. Given: 1000000."),
    ("fold", "thickness", "", "Thickness after: "),
    ("draw", "thickness", "<b>x</b>", "&lt;b&gt;"),
    ("draw", "loss", "100", "Scale and trim loss must be from 0 % to 40 %. Given: 100."),
    ("weld", "folds", "7", "Times folded must be from 0 to 6. Given: 7."),
    ("weld", "weld", "0", "must be from 1 to 16. Given: 0."),
    ("weld", "weld", "14", "must be from 1 to 13. Given: 14."),  # after 3 folds
    ("weld", "weld", "the last", "The bad weld, in the order made: "),
    ("weld", "position", "101", "must be from 0 % to 100 %. Given: 101."),
    ("skin deep", "ground", "0.6", "Ground away must be from 0 mm to 0.5 mm. Given: 0.6."),
    ("skin deep", "ground", "-1", "Ground away"),
    ("skin deep", "ground", "much", "Ground away: "),
    ("skin deep", "ground", "", "nothing was typed"),
]


@pytest.mark.parametrize(("name", "key", "text", "sentence"), BAD)
def test_bad_input_gets_one_sentence_and_loses_nothing(name, key, text, sentence):
    view = view_of(VIEWS.get(name, name))
    state, frame = view.state, view.picture.frame
    typed(view, key, text)
    assert sentence in view.says.value
    assert "kit-refused" in view.says.value
    assert view.state == state
    assert view.picture.frame == frame


def test_wish_that_cannot_be_forged_goes_back():
    view = view_of("02")
    view.set(pieces=25, join=4, folds=5)
    state, frame = view.state, view.picture.frame
    typed(view, "folds", "12")
    assert "thinner than one atom of iron" in view.says.value
    assert view.state == state
    assert view.picture.frame == frame
    view.controls["folds"].value = 12.0  # dragged: as far as it goes
    assert "Folds is now 8. " in view.says.value
    assert view.state["folds"] == 8


def test_typed_values_take_units():
    view = view_of("01")
    typed(view, "thickness", "3/16 in")
    assert view.state["thickness"] == pytest.approx(3 / 16 * MM_PER_INCH)
    typed(view, "angle", "0.5 rad")
    assert view.state["angle"] == pytest.approx(28.648, abs=1e-3)


def test_unit_switch_changes_words_only():
    view = view_of("01")
    view.set(angle=30.0, thickness=6.0 * 25.4 / 32)
    steel = pixels(view)[60:380, 20:560]
    view.looks.unit_choice.value = 1
    np.testing.assert_array_equal(pixels(view)[60:370, 20:560], steel[:310])
    assert view.controls["thickness"].readout == "3/16 in"
    assert "3/16 in" in view.picture.alt
    sixteenths = np.array(view.controls["thickness"].stops) / MM_PER_INCH * 32
    np.testing.assert_allclose(sixteenths, [2, 3, 4, 6], atol=1e-9)


def test_click_names_the_bar():
    view = view_of("01")
    view.picture._handle_custom_msg({"event": "point", "x": 0.8, "y": 0.54}, [])
    assert "bar 5 of 9" in view.says.value
    view.picture._handle_custom_msg({"event": "point", "x": 0.01, "y": 0.01}, [])
    assert "No steel there" in view.says.value


def test_working_fades_each_time_it_is_opened():
    view = view_of("01")
    blanks = []
    for _ in range(4):
        view.work_out()
        blanks.append(view.numbers.value.count("your turn"))
        view.work_out()
    assert blanks[0] == 0
    assert 0 < blanks[1] < blanks[2] == blanks[3]


@pytest.mark.parametrize("number", ["01", "02"])
def test_observation_is_shut_until_predicted(number):
    predict, view, explain, _ = lesson(number)
    assert all(control.disabled for control in view.controls.values())
    assert explain.reasons.disabled
    assert not any(n.value in {"8.0 mm", "112"} for n in view.shown.numbers), "the answer"
    frame = view.picture.frame
    predict.observe_button.click()
    assert "Choose one first" in predict.says.value
    assert view.picture.frame == frame
    predict.tiles.value = 0
    predict.observe_button.click()
    assert not any(control.disabled for control in view.controls.values())
    assert view.picture.frame != frame
    assert len(view.picture.film) > 4
    assert predict.tiles.disabled
    assert not explain.reasons.disabled
    explain.reasons.value = 0
    assert explain.says.value.count("Yes") == 1


def test_tiles_carry_pictures_and_words():
    predict, *_ = lesson("01")
    assert len(predict.tiles.pictures) == len(predict.tiles.alts) == 4
    assert all("mm wide" in alt for alt in predict.tiles.alts)


def test_checks_answer_in_all_lanes():
    row = CheckRow(cut.BAND_WIDTH, HTML())
    row.answer.value = "4.29"
    assert "tan for sin" in row.says.value
    row.answer.value = "4.73"
    assert "✓ Right." in row.says.value
    row.lane.value = 0
    assert row.offered in row.children
    row.offered.value = row.check.offers().index("4.73 mm")
    assert "✓ Right." in row.says.value
    row.lane.value = 1
    row.answer.value = "4.9"
    assert "✓ Right." in row.says.value
    tries = row.tries
    row.mark()
    assert row.tries == tries, "the same answer twice is one try"


def _explain(question):
    asked = Prediction(question, chosen=0)
    asked.observe()
    explain = Explain(asked)
    explain.tell(Units.MM)
    explain.unlock()
    return explain


def _offers(check):
    row = CheckRow(check, HTML())
    row.lane.value = LOOK
    return row


def _part(code, part):
    return PartRow(Sitting(draw(SETS[code], "FORGE-A", "Student One")), part, lambda: None)


def _below(widget):
    return [widget, *(one for child in widget.children for one in _below(child))]\
        if hasattr(widget, "children") else [widget]  # fmt: skip


ASKED = [
    *(partial(_explain, one.question) for one in LESSONS.values() if one.question),
    *(partial(_offers, check) for one in LESSONS.values() for check in one.checks),
    *(partial(_part, code, part) for code, task in SETS.items() for part in task.parts),
]


def test_what_the_arrow_keys_pass_over_is_no_try():
    """Where what is said goes by what was chosen before, the keys only look."""
    walked = 0
    for make in ASKED:
        for place, choice in enumerate(_below(make())):
            if not isinstance(choice, Choice) or choice.weighed:
                walked += isinstance(choice, Choice)
                continue
            for last in range(len(choice.options)):
                passed, straight = _below(make()), _below(make())
                for one in (*set(range(len(choice.options))) - {last}, last):
                    passed[place].value = one
                straight[place].value = last
                said = [[w.value for w in all_ if isinstance(w, Says)]
                        for all_ in (passed, straight)]  # fmt: skip
                assert said[0] == said[1], (make.args, choice.label, choice.options[last])
    assert walked >= sum(len(one.checks) for one in LESSONS.values())


def test_legend_opens_twenty_folds():
    view = view_of("02")
    view.legend()
    view.set(pieces=2, thickness=5.0)
    typed(view, "folds", "19")
    assert "1,048,576" in view.numbers.value


def test_rehearsal_is_left_to_the_tests(monkeypatch):
    monkeypatch.delenv("PYTEST_CURRENT_TEST")
    assert rehearse("01") == "", "a reader is told nothing of tests"
    assert "Every control" in rehearse("01", always=True)


def test_state_is_plain_json():
    for view in (view_of("01"), view_of("02")):
        assert json.loads(json.dumps(view.state)) == view.state
    assert FoldLesson.film[-1]["folds"] == 4


# What the status line keeps and what it forgets when the reader turns elsewhere.
def test_what_was_found_stays_found_and_what_was_wrong_does_not():
    row = CheckRow(cut.BAND_WIDTH, HTML())
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
    stations = next(one for one in view.bench.children if isinstance(one, Stations))
    view.say("At most 20 folds. Given: 40.", refused=True)
    assert "kit-refused" in view.says.value
    stations.value = 1
    assert "kit-refused" not in view.says.value
    view.say("Just said.")
    stations.value = 0
    assert "Just said." in view.says.value
