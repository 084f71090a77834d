"""Lesson 04: the curriculum's numbers (3.4 and N04), on the solid itself."""

import math

import numpy as np
import pytest
from lessons import judges, value_of
from PIL import ImageColor

from kit import KitError
from kit.basics.units import Units
from kit.course.lessons import twist
from kit.course.lessons import twist_ideas as asked
from kit.course.lessons.twist import TwistLesson
from kit.course.lessons.twist_drawing import along
from kit.course.views.lesson import lesson, view_of
from kit.section.picture import ACCENT, PAGE, Sheet
from kit.section.trace import see


@pytest.mark.parametrize(
    ("ground", "angle", "lines"),
    [(0, "45.2°", "64"), (2, "37.0°", "48"), (4, "26.7°", "32"), (6, "14.1°", "16")],
)
def test_angle_and_lines_at_every_depth(ground, angle, lines):
    scene = TwistLesson.scene(ground=ground)
    assert value_of(scene, "Line angle") == angle
    assert value_of(scene, "Lines in one turn") == lines
    assert value_of(scene, "Stars apart") == "25.0 mm"
    assert value_of(scene, "Turns in 100 mm") == "2"


def test_ground_to_the_axis_there_are_stars():
    scene = TwistLesson.scene(ground=8.0)
    assert value_of(scene, "Line angle") == "0.0°"
    assert "rows of stars" in scene.alt
    assert "as stars" in TwistLesson(ground=8.0).remark("ground")


def test_drawn_out_at_the_same_width():
    scene = TwistLesson.scene(drawn=1.5)
    assert value_of(scene, "Line angle") == "33.8°"
    assert value_of(scene, "Stars apart") == "37.5 mm"
    billet = TwistLesson(drawn=1.5).billet
    assert billet.size == pytest.approx((300, 16, 16 / 1.5))


def from_above(**changed):
    billet = TwistLesson(**changed).billet
    half = billet.size.thickness / 2
    plane = along(billet, half / 2, columns=900, rows=120, pixel=0.2)
    return see(billet, plane, {"1084": 0.0, "15N20": 1.0}).tone


def test_left_hand_is_the_mirror_image():
    np.testing.assert_allclose(from_above(), from_above(hand=1)[::-1], atol=0.03)


def test_opposite_bar_gives_chevrons_meeting_on_the_seam():
    face = from_above(neighbour=2)
    np.testing.assert_allclose(face, face[::-1], atol=0.03)
    same = from_above(neighbour=1)
    assert np.abs(same - same[::-1]).mean() > 0.1
    assert "chevrons" in TwistLesson(neighbour=2).remark("neighbour")


def test_odd_and_even_stacks():
    odd, even = (twist.bar(**TwistLesson(stack=stack).one) for stack in (0, 1))
    assert odd.layers % 2 == 1
    assert even.layers % 2 == 0
    assert "mirror image" in TwistLesson(stack=1).remark("stack")


@pytest.mark.parametrize(
    ("check", "answer", "slips"),
    [
        (asked.SKIN_ANGLE, "38.1", ["21.4", "57.5", "51.9", "14.0"]),
        (asked.GROUND_ANGLE, "21.4", ["38.1"]),
        (asked.STAR_COUNT, "5", ["3", "10"]),
    ],
)
def test_checks_know_the_answer_and_the_slips(check, answer, slips):
    judges(check, answer, slips)


def test_tiles_are_drawn_from_the_ideas():
    question = TwistLesson.question
    assert question.values() == pytest.approx([45.15, 63.55, 0, 26.69], abs=0.01)


def test_too_much_ground_off_is_refused_and_the_picture_stays():
    view = view_of("04")
    frame = view.picture.frame
    view.set(ground=9.0)
    assert "at most half the bar, 8.0 mm. Given: 9.0 mm" in view.says.value
    assert view.picture.frame == frame
    with pytest.raises(KitError, match="at most half"):
        TwistLesson.scene(ground=8.5)


def test_a_hard_twist_is_warned_of_and_drawn():
    # shear strain pi d / p = 4.71, over root 3 = 2.72: not yet
    assert "Take care" not in TwistLesson.scene(turn=20.0, across=30.0).says
    # what the page asks for: 20 mm with one turn in 12 mm
    hard = TwistLesson.scene(turn=12.0, across=20.0)
    assert math.pi * 20 / 12 / math.sqrt(3) > 3
    assert "strains the skin by 3.0" in hard.says


def test_inch_fractions():
    scene = TwistLesson.scene(across=12.7, ground=0.0, units=Units.INCH_FRACTION)
    assert "1/2 in across" in scene.alt


def test_the_inside_is_not_shown_before_the_prediction():
    predict, view, *_ = lesson("04")
    assert "stars" not in view.picture.alt
    low = np.asarray(view.shown.image.convert("L"))[270:, 540:]
    assert np.ptp(low) == 0, "paper only"
    predict.tiles.value = 0
    predict.observe_now()
    assert "stars" in view.picture.alt


def test_what_the_page_asks_for_can_be_done_in_any_order():
    view = view_of("04")
    view.controls["ground"].value = 15.0  # dragged to its end: to the axis, no farther
    assert view.state["ground"] == 8.0
    assert "lies flat in front of you as stars" in view.says.value
    assert "You can grind off at most half the bar, 8.0 mm." in view.says.value
    view.controls["stack"].value = 1
    view.controls["neighbour"].value = 2
    assert "Grind off is now 6.92 mm" in view.says.value
    assert view.state["neighbour"] == 2


def test_on_the_axis_of_an_even_stack_no_line_is_crossed():
    """The middle runs along a weld there: rounding is no line (1212 were counted once)."""
    for across in (8.0, 12.7, 16.0, 30.0):
        scene = TwistLesson.scene(stack=1, across=across, ground=across / 2)
        assert value_of(scene, "Lines in one turn") == "0"


@pytest.mark.parametrize(
    ("drawn", "angle"), [(1.0, "45.2°"), (1.5, "33.8°"), (2.0, "26.7°")]
)
def test_drawn_out_number_and_working_agree(drawn, angle):
    number = TwistLesson.scene(drawn=drawn).numbers[0]
    assert number.value == angle
    assert number.working[-1] == f"angle = {angle}"


@pytest.mark.parametrize("neighbour", [0, 1, 2])
@pytest.mark.parametrize("drawn", [1.0, 2.0])
def test_the_frame_round_a_depth_is_as_wide_as_its_strip(monkeypatch, neighbour, drawn):
    frames, box = [], Sheet.box

    def note_box(sheet, corner, opposite, **look):
        frames.append((corner, opposite))
        box(sheet, corner, opposite, **look)

    monkeypatch.setattr(Sheet, "box", note_box)
    drawing = np.asarray(TwistLesson.scene(neighbour=neighbour, drawn=drawn).image)
    ground = [ImageColor.getrgb(ink) for ink in (PAGE, ACCENT)]
    assert frames
    for (left, top), (right, low) in frames:
        row = drawing[(top + low) // 2, left - 9 : right + 9]
        steel = ~np.any([(row == ink).all(axis=-1) for ink in ground], axis=0)
        first, last = np.flatnonzero(steel)[[0, -1]] + left - 9
        assert left == pytest.approx(first, abs=4)
        assert right == pytest.approx(last, abs=4)
