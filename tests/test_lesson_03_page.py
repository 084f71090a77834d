"""Lesson 03 as it is seen and used: pictures, tiles, film, controls, units.

The figures are those of the curriculum's section 7 (N03 b to e).
"""

import io
import json

import numpy as np
import pytest
from lessons import value_of
from PIL import Image

from kit import KitError
from kit.basics.units import Units
from kit.course.lessons import draw_drawing as drawing
from kit.course.lessons import draw_ideas as ideas
from kit.course.lessons.draw import TILE_PIXEL, DrawLesson
from kit.course.lessons.draw_drawing import marks, moved
from kit.course.views.lesson import lesson, view_of

TEAL = np.array([0x0B, 0x55, 0x63])


def inked(image, box):
    """Find how far, in pixels, the accent's ink reaches across and down in a box."""
    left, top, wide, high = box
    part = np.asarray(image.convert("RGB"), float)[top : top + high, left : left + wide]
    found = np.abs(part - TEAL).max(axis=2) < 40
    rows, columns = np.flatnonzero(found.any(axis=1)), np.flatnonzero(found.any(axis=0))
    return columns[-1] - columns[0] + 1, rows[-1] - rows[0] + 1


def close_up(image):
    left, columns = drawing.WINDOWS[1]
    return inked(image, (left, drawing.CLOSE_TOP, columns, drawing.CLOSE_ROWS))


def test_n03_b_dot_and_line():
    scene = DrawLesson.scene()
    assert value_of(scene, "Dot of 5.0 mm") == "13.3 × 1.88 mm"
    assert value_of(scene, "Line at 45°") == "8.0°"
    # and so they lie in the picture: 5 mm are 60 pixels
    across, down = close_up(scene.image)
    assert across == pytest.approx(13.33 * 12, abs=3)
    assert down == pytest.approx(1.875 * 12, abs=2)


def test_n03_c_inches():
    view = view_of("03")
    view.looks.unit_choice.value = list(Units).index(Units.INCH_FRACTION)
    view.set(loss=0)
    view.controls["thickness"]._handle_custom_msg({"typed": "1/2 in"}, [])
    assert value_of(view.shown, "Length") == "14 7/8 in"
    view.looks.unit_choice.value = list(Units).index(Units.INCH_DECIMAL)
    assert value_of(view.shown, "Length") == "14.88 in"
    view.looks.unit_choice.value = 0
    assert value_of(view.shown, "Length") == "378 mm"


def test_n03_d_drawn_to_what_it_was_nothing_moves():
    view = view_of("03")
    view.controls["thickness"].value = 32.0
    assert "nothing moved" in view.says.value
    assert value_of(view.shown, "Length") == "150 mm"
    billet = DrawLesson(thickness=32).billet
    made = marks(billet.sizes[0])
    for before, after in zip(made.dots, moved(billet, made).dots, strict=True):
        np.testing.assert_allclose(after, before, rtol=1e-14)
    dark = np.asarray(view.shown.image.convert("L"), int) < 82
    bars = [
        dark[top : top + drawing.HIGH, drawing.LEFT + 2 : 360]
        for top in (drawing.BEFORE_TOP, drawing.AFTER_TOP)
    ]
    assert bars[0].sum() == 0, "the ghost is faint"
    assert bars[1].mean() > 0.3


def test_n03_e_no_loss_beyond_forty_per_cent():
    loss = view_of("03").controls["loss"]
    assert (loss.stops[0], loss.stops[-1]) == (0, 40)
    with pytest.raises(KitError, match=r"loss must be from 0 to 40 %\. Given: 100\."):
        DrawLesson.scene(loss=100)


@pytest.mark.parametrize("thickness", [32.0, 12.0, 8.0])
def test_layers_in_the_close_up_are_as_thick_as_the_number_says(thickness):
    image = np.asarray(DrawLesson.scene(thickness=thickness).image.convert("L"), float)
    left, _ = drawing.WINDOWS[1]
    top = drawing.CLOSE_TOP
    column = image[top + 1 : top + drawing.CLOSE_ROWS - 1, left + 8]
    edges = np.flatnonzero(np.diff(column > 128))
    assert np.diff(edges).mean() / 12 == pytest.approx(thickness / 10, abs=0.05)


def test_what_is_lost_is_not_drawn_as_steel():
    kept = [np.asarray(DrawLesson.scene(loss=loss).image.convert("L")) for loss in (0, 40)]
    middle = drawing.AFTER_TOP + drawing.HIGH // 2
    end = drawing.LEFT + 390 / (150 * 2.75 / drawing.WIDE)  # 390 mm along
    rows, column = slice(middle - 8, middle + 8), int(end)
    assert kept[0][rows, column].min() < 60
    assert kept[1][rows, column].min() > 200


def test_tiles_follow_from_the_ideas_and_look_it():
    question = DrawLesson.question
    values = question.values()
    assert values == pytest.approx([0.375, 2.6667, 7.1111, 1], abs=1e-4)
    shown = [question.show(value) for value in values]
    assert shown == ["smaller dot", "2.7 : 1", "7.1 : 1", "unchanged"]
    pixel = TILE_PIXEL
    sizes = [(1.875, 1.875), (8.165, 3.062), (13.33, 1.875), (5, 5)]
    for value, size in zip(values, sizes, strict=True):
        image, alt = question.draw(value)
        across, down = inked(image, (0, 0, *image.size))
        assert across * pixel == pytest.approx(size[0], abs=3 * pixel)
        assert down * pixel == pytest.approx(size[1], abs=3 * pixel)
        assert "dot" in alt


def test_observation_is_shut_and_gives_nothing_away():
    predict, view, explain, _ = lesson("03")
    assert all(control.disabled for control in view.controls.values())
    seen = " ".join(number.value for number in view.shown.numbers) + view.picture.alt
    assert not any(answer in seen for answer in ("7.1", "13.3", "400", "1.88", "2.67"))
    predict.observe_button.click()
    assert "Choose one first" in predict.says.value
    predict.tiles.value = 1
    predict.observe_button.click()
    assert "counts the change once" not in view.says.value
    assert "count the change once" in view.says.value
    assert value_of(view.shown, "Dot") == "13.3 × 1.88 mm"
    explain.reasons.value = 0
    assert "Yes." in explain.says.value


def test_film_draws_the_bar_out_at_one_scale():
    jobs = [DrawLesson(**state) for state in DrawLesson.film]
    assert not jobs[0].moved
    assert jobs[-1] == DrawLesson()
    lengths = [ideas.full_length(job.given) for job in jobs]
    assert lengths == sorted(lengths)
    view = view_of("03")
    view.play(DrawLesson.states())
    frames = [
        np.asarray(Image.open(io.BytesIO(frame)).convert("L"), int)
        for frame in view.picture.film
    ]
    # what moves is half as fine
    rows = slice(drawing.BEFORE_TOP // 2, (drawing.BEFORE_TOP + drawing.HIGH) // 2)
    ghost = rows, slice(0, drawing.WIDE // 4)
    for frame in frames[1:]:
        assert np.abs(frame[ghost] - frames[0][ghost]).max() < 3, "the ghost stands still"


def test_at_most_four_controls_and_a_marked_placeholder():
    view = view_of("03")
    assert sorted(sum(DrawLesson.stations.values(), ())) == sorted(view.controls)
    for station in range(len(DrawLesson.stations)):
        view.stations.value = station
        assert len(view.panel.children) <= 4
    words = [str(getattr(child, "value", "")) for child in view.children]
    note = next(text for text in words if "8 % is a placeholder" in text)
    assert "common practice, no source" in note
    assert len(view.shown.numbers) <= 5


def test_marks_on_the_ruler_show_where_the_end_was():
    """At 150 × 32 / thickness, each millimetre from 32 down to 12."""
    sheet = np.asarray(DrawLesson.scene().image.convert("RGB"), float)
    row = sheet[drawing.AFTER_TOP + drawing.HIGH + 1]
    inky = np.abs(row - TEAL).max(axis=1) < 40
    left = np.flatnonzero(np.diff(inky.astype(int)) == 1) + 1
    pixel = 150 * 2.75 / drawing.WIDE
    lengths = 4800 / np.arange(32, 11, -1)
    assert left + 0.5 == pytest.approx(drawing.LEFT + lengths / pixel, abs=1.5)


def test_unit_switch_leaves_the_steel_alone():
    steel = []
    for units in Units:
        image = np.asarray(DrawLesson.scene(units=units).image.convert("L"), int)
        top, left = drawing.AFTER_TOP, drawing.LEFT
        steel.append(image[top : top + drawing.HIGH, left : left + 900])
    np.testing.assert_array_equal(steel[0], steel[1])
    np.testing.assert_array_equal(steel[0], steel[2])


def test_click_names_the_bar():
    view = view_of("03")
    place = {"x": 0.7, "y": (drawing.AFTER_TOP + drawing.HIGH / 2 + 11) / 412}
    view.picture._handle_custom_msg({"event": "point", **place}, [])
    assert "bar 2 of 10" in view.says.value or "bar 1 of 10" in view.says.value


def test_its_state_is_plain_and_its_controls_are_few():
    view = view_of("03")
    assert json.loads(json.dumps(view.state)) == view.state
