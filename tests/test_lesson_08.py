"""Lesson 08: what it says, against tables, published sections and sums done by hand."""

import numpy as np
import pytest
from lessons import judges

from kit.basics.units import Units
from kit.course.lessons import carbon_ideas as asked
from kit.course.lessons.carbon import CarbonLesson
from kit.course.lessons.carbon_ideas import CARBON
from kit.course.views.lesson import view_of
from kit.metal.evening import minutes_to_even


def numbers(**settings):
    """Give the numbers panel by name."""
    return {number.name: number.value for number in CarbonLesson.scene(**settings).numbers}


def test_the_numbers_of_the_lesson():
    # D0 2.3e-5 m²/s, 148 kJ/mol: Callister & Rethwisch 9e, Table 5.2; √(D t) by hand
    speed = 2.3e-5 * np.exp(-148e3 / (8.314 * 1423.15))
    shown = numbers()
    assert shown["Carbon has moved"] == "0.226 mm"
    assert np.sqrt(speed * 600) == pytest.approx(0.226e-3, rel=2e-3)
    assert shown["Nickel has moved"] == "1.56 µm"
    assert shown["Carbon even in"] == "3.7 min"
    assert shown["Nickel even in"] == "54 days"
    assert numbers(layer=0.5)["Carbon even in"] == "15 min"
    assert numbers(celsius=1000)["Carbon even in"] == "16 min"


def test_a_finite_difference_by_hand_agrees():
    # 0.5 mm layers at 1150 °C: one wave between layers, stepped in time by numpy alone
    speed = 2.3e-5 * np.exp(-148e3 / (8.314462618 * 1423.15))
    cells = 100
    step = 0.5e-3 / cells
    x = (np.arange(2 * cells) + 0.5) * step
    content = np.cos(np.pi * x / 0.5e-3)
    tick, time = 0.2 * step**2 / speed, 0.0
    start = content.max()
    while content.max() > 0.05 * start:
        padded = np.concatenate([content[-1:], content, content[:1]])
        content = content + speed * tick / step**2 * np.diff(padded, 2)
        time += tick
    assert time == pytest.approx(892.1, rel=2e-3)
    assert 60 * minutes_to_even(0.5, "C", 1150) == pytest.approx(time, rel=2e-3)


def test_carbon_is_nearly_flat_and_nickel_square_after_ten_minutes():
    shown = CarbonLesson().middle
    assert shown.left("C") < 0.05 * 0.09
    assert shown.left("Ni") > 0.99 * 2.0
    assert "carbon differs by 0.09 per cent as stacked, by 0.00" in CarbonLesson.scene().alt


def test_nothing_is_lost_and_thick_layers_keep_their_carbon():
    job = CarbonLesson(first=2, second=8, layer=2.0, minutes=10)  # 1095 and mild
    shown = job.middle
    mean = np.average(shown.after["C"], weights=np.diff(shown.edges))
    assert mean == pytest.approx((0.95 + 0.18) / 2, abs=0.002)
    assert shown.left("C") > 0.8 * (0.95 - 0.18)


def test_the_same_steel_twice_shows_nothing():
    shown = CarbonLesson(second=0).middle
    assert shown.left("C") == pytest.approx(0, abs=1e-12)
    assert "nothing to see" in CarbonLesson(second=0).remark("second")


def test_activity_leaves_a_small_step_with_words():
    even = CarbonLesson(minutes=60).middle
    active = CarbonLesson(minutes=60, activity=1).middle
    assert even.left("C") < 1e-3
    assert 0.005 < active.left("C") < 0.1
    assert "activity" in CarbonLesson(activity=1).remark("activity")


def test_hotter_than_the_slider_is_refused_and_sparks_are_mentioned():
    page = view_of("08")
    before = page.picture.alt
    page.controls["celsius"]._handle_custom_msg({"typed": "1300"}, [])
    assert "must be from" in page.says.value
    assert page.picture.alt == before
    page.controls["celsius"].value = 1250
    assert "already too hot" in page.says.value


def test_temperatures_can_be_typed_in_both_scales():
    page = view_of("08")
    page.controls["celsius"]._handle_custom_msg({"typed": "2012 F"}, [])
    assert page.controls["celsius"].value == pytest.approx(1100)
    assert "2012 °F" in page.controls["celsius"].readout
    page.looks.unit_choice.value = list(Units).index(Units.INCH_FRACTION)
    page.controls["celsius"]._handle_custom_msg({"typed": "2000"}, [])
    assert page.controls["celsius"].value == pytest.approx((2000 - 32) / 1.8)


@pytest.mark.parametrize(
    ("check", "right", "wrong"),
    [
        (asked.THICKER, ["14.9", "892 s", "0.248 h"], {"7.43": "LINEAR"}),
        (asked.SQUARE, ["16"], {"4": "AS_MANY", "64": "CUBED"}),
        (asked.LOWER, ["16.2 min"], {"3.72": "SAME_TIME", "4.16": "A_LITTLE"}),
    ],
)
def test_answers_are_marked_with_reasons(check, right, wrong):
    judges(check, right, wrong)


def test_tiles_are_the_four_ideas():
    question = CarbonLesson.question
    assert sorted(question.values()) == [0, 1, 2, 3]
    assert question.right.value(question.given) == CARBON
    words = [question.draw(value)[1] for value in question.values()]
    assert len(set(words)) == 4
