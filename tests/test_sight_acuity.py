"""One minute of arc: 20/20, National Research Council (1985)."""

import math

import pytest

from kit.basics.errors import KitError
from kit.course.lessons.eye import EYE_300
from kit.metal.sight.acuity import EYE, Eye, visible

FEET_20 = 20 * 304.8


@pytest.mark.parametrize(
    ("distance", "width"),
    [(300, 0.087), (500, 0.145), (1000, 0.291), (2000, 0.582), (3000, 0.873)],
)
def test_one_minute_of_arc(distance, width):
    assert EYE.finest(distance) == pytest.approx(width, abs=5e-4)
    assert EYE.farthest(EYE.finest(distance)) == pytest.approx(distance)


def test_letters_of_the_sight_chart():
    # a 20/20 letter is five minutes high: 8.87 mm at 20 feet, its strokes a fifth
    assert Eye(arc_minutes=5).finest(FEET_20) == pytest.approx(8.87, abs=0.005)
    assert EYE.finest(FEET_20) == pytest.approx(8.87 / 5, abs=0.001)


def test_lessons_take_it_from_here():
    assert EYE.finest(300) == EYE_300 == 300 * math.tan(math.radians(1 / 60))


def test_the_steepest_cut_that_shows_lines():
    # curriculum 3.9: asin((4.0 / 320) / 0.0873) = 8.2°; a bevel of 3.4° shows 0.21 mm,
    # a plunge of 45° 0.018 mm
    layer = 4.0 / 320
    steepest = EYE.steepest_cut(layer, 300)
    assert steepest == pytest.approx(8.2, abs=0.05)
    for angle, width in ((3.4, 0.21), (45, 0.018)):
        shown = layer / math.sin(math.radians(angle))
        assert shown == pytest.approx(width, abs=0.002)
        assert visible(shown, 300, 10) is (angle < steepest)
    assert EYE.steepest_cut(0.1, 300) == 90


def test_bands_from_across_the_room():
    # curriculum 3.9 and N09 a: of 0.3, 0.8 and 2.0 mm only 2.0 is left from 3 m
    assert [visible(width, 3000, 10) for width in (0.3, 0.8, 2.0)] == [False, False, True]
    assert [visible(2.0, 3000, contrast) for contrast in (1.49, 1.5)] == [False, True]


def test_a_readers_own_eye():
    eye = Eye.measured(width=0.5, distance=1000)
    assert eye.arc_minutes == pytest.approx(1.72, abs=0.005)  # 0.5 / 0.2909
    assert eye.finest(1000) == pytest.approx(0.5)
    assert eye.sees(0.6, 1000, 5)
    assert not eye.sees(0.4, 1000, 5)


@pytest.mark.parametrize(
    ("wish", "words"),
    [
        (lambda: Eye(arc_minutes=0.2), "Finest angle must be from 0.3 to 10"),
        (lambda: Eye(arc_minutes=11), "Finest angle must be from 0.3 to 10"),
        (lambda: Eye.measured(0.5, 1), "an eye splits 0.3 to 10"),
        (lambda: Eye.measured(0.01, 2000), "Is the distance in mm"),
        (lambda: Eye.measured(0, 300), "The width must be more than 0 mm. Given: 0 mm"),
        (lambda: EYE.finest(-1), "The distance must be more than 0 mm"),
        (lambda: EYE.farthest(math.nan), "The width must be more than 0 mm"),
        (lambda: EYE.steepest_cut(0, 300), "The layer must be more than 0 mm"),
        (lambda: visible(1, 300, 0.9), "A contrast ratio must be from 1 to 21"),
    ],
)
def test_impossible_wishes(wish, words):
    with pytest.raises(KitError, match=words):
        wish()
