"""Lesson 03, steel is moved, not made: its numbers, its marks and its wrong ideas.

The figures are those of the curriculum's sections 3.3 and 7 (N03 a to e), repeated here
as plain arithmetic; what comes from elsewhere has its source beside it.
"""

import math

import numpy as np
import pytest
from lessons import judges, value_of

from kit.basics.units import Units
from kit.course.lessons import draw_ideas as ideas
from kit.course.lessons.draw import DrawLesson
from kit.course.lessons.draw_drawing import DOT, marks, moved

CHECKS = {
    "length": ideas.BAR_LENGTH,
    "dot": ideas.DOT_RATIO,
    "line": ideas.LINE_ANGLE,
}


DRAWINGS = [
    {},
    {"thickness": 20, "spread": 40},
    {"length": 50, "start": 60, "thickness": 4},
    {"start": 10, "thickness": 32, "spread": 10},
]


each_drawing = pytest.mark.parametrize("settings", DRAWINGS)


def extent(points):
    return np.ptp(points[0]), np.ptp(points[2])


def test_n03_a_length_with_and_without_loss():
    # 150 × 38 × 32 = length × 38 × 12, so 400 mm; 8 % less is 368 mm
    assert value_of(DrawLesson.scene(loss=0), "Length") == "400 mm"
    assert value_of(DrawLesson.scene(loss=8), "Length") == "400 → 368 mm"
    assert value_of(DrawLesson.scene(), "Stretch") == "× 2.67"
    assert value_of(DrawLesson.scene(), "One layer") == "3.2 → 1.2 mm"


@each_drawing
def test_marks_move_as_theory_says(settings):
    """Check the points that are drawn against the theory of strain.

    A circle becomes an ellipse whose axes are the principal stretches, found here as
    singular values by numpy; a line along a principal plane turns by tan a' = tan a / R,
    R the ellipse's axial ratio (Ramsay & Huber, The Techniques of Modern Structural
    Geology, vol. 1, on the strain ellipse; from memory).
    """
    job = DrawLesson(**settings)
    billet = job.billet
    shape = moved(billet, marks(billet.sizes[0]))
    steel = np.array([100.0, 110, 100]), np.array([0.0, 0, 0]), np.array([0.0, 0, 7])
    x, _, z = billet.do(steel)
    strain = np.array([[x[1] - x[0], x[2] - x[0]], [z[1] - z[0], z[2] - z[0]]]) / [10, 7]
    stretches = np.linalg.svd(strain, compute_uv=False)
    for dot in shape.dots:
        assert sorted(extent(dot)) == pytest.approx(sorted(DOT * stretches), rel=1e-9)
    run, rise = extent(shape.line)
    ratio = max(stretches) / min(stretches)
    flatter = ratio if job.thickness < job.start else 1 / ratio
    assert rise / run == pytest.approx(1 / flatter)
    assert math.degrees(math.atan(rise / run)) == pytest.approx(
        ideas.angle_after(job.given)
    )


@each_drawing
def test_steel_is_neither_made_nor_lost(settings):
    # outside: the volume of a box, length × width × thickness
    job = DrawLesson(**settings)
    wide = job.width * (1 + job.spread / 100)
    made = ideas.full_length(job.given) * wide * job.thickness
    assert made == pytest.approx(job.length * job.width * job.start)
    assert job.billet.size == pytest.approx(
        (ideas.full_length(job.given), wide, job.thickness)
    )


def test_a_dot_keeps_its_area_only_while_the_width_is_held():
    for spread, share in ((0, 1), (25, 0.8)):
        billet = DrawLesson(spread=spread).billet
        long, high = extent(moved(billet, marks(billet.sizes[0])).dots[0])
        assert long * high == pytest.approx(DOT * DOT * share)


@pytest.mark.parametrize("length", [50, 150, 400])
@pytest.mark.parametrize("start", [10, 32, 60])
def test_marks_lie_on_the_billet_and_on_what_is_kept(length, start):
    size = DrawLesson(length=length, start=start).billet.sizes[0]
    made = marks(size)
    for x, y, z in (*made.dots, made.line):
        assert np.all((x >= 0) & (x <= 0.6 * length))
        assert np.all(np.abs(z) <= start / 2 + 1e-9)
        assert np.all(y == -size.width / 2), "on the side"


@pytest.mark.parametrize(
    ("changed", "state", "words"),
    [
        ("loss", {"loss": 20}, "Common practice, no source"),
        ("spread", {"spread": 20}, "333 mm before losses"),
        ("start", {"start": 10}, "upsetting"),
        ("length", {"length": 200}, "do not care"),
        ("width", {"width": 60}, "as long as before"),
        ("thickness", {"thickness": 9}, "times as long as high"),
        # 32 / 8 = 4; squared, 16
        ("start", {"thickness": 8}, "4 times thinner, 4 times longer: the dot feels both"),
        ("start", {"thickness": 8}, "is 16 times as long as high"),
    ],
)
def test_remarks(changed, state, words):
    said = DrawLesson(**state).remark(changed)
    assert words in said
    assert bool(said) == bool(words)


def test_the_last_millimetre_makes_more_than_the_first_nineteen():
    # length × thickness stays, the width held: 150 × 32 = 4800 mm²
    def long(thick):
        return 4800 / thick

    last = long(4) - long(5)
    assert long(13) - 150 < last < long(12) - 150  # 19 mm, and 20 mm, off 32
    said = DrawLesson(thickness=4).remark("thickness")
    assert f"The last 1 mm alone made the bar {last:.0f} mm longer" in said
    assert "more than the first 19 mm together" in said
    inch = DrawLesson(thickness=4).remark("thickness", Units.INCH_FRACTION)
    assert "The last 1/16 in alone" in inch
    assert "more than" not in DrawLesson(thickness=31.5).remark("thickness")


@each_drawing
def test_the_bars_growth_is_told_only_where_it_is_known(settings):
    given = DrawLesson(**settings).given
    found = ideas.was_long(given, 1.0)
    assert bool(found) == (given["w"] == given["W"] and given["T"] - given["t"] >= 2)
    if found:
        assert found[-1] == pytest.approx(ideas.full_length(given))
        gains = np.diff(found)
        assert np.all(np.diff(gains) > 0), "each millimetre makes more than the one before"


def test_alt_text_follows_the_state():
    words = DrawLesson.scene().alt
    assert "10 layers" in words
    assert "150 mm long, 38.0 by 32.0 mm" in words
    assert "400 mm long, 38.0 by 12.0 mm, of which 8 percent is lost" in words
    assert "8.0 degrees, each dot is 13.3 mm long and 1.88 mm high" in words
    inch = DrawLesson.scene(thickness=12.7, loss=0, units=Units.INCH_FRACTION).alt
    assert "14 7/8 in long, 1 1/2 by 1/2 in; marks" in inch
    assert "each 1/16 in thinner, at first" in inch


@pytest.mark.parametrize(
    ("check", "answer", "slips"),
    [
        ("length", "432", ["480", "528", "48"]),
        ("dot", "9.0", ["3.0", "6", "1"]),
        ("line", "14.0", ["26.6", "22.5", "45", "11.3", "76"]),
    ],
)
def test_checks_know_the_answer_and_the_slips(check, answer, slips):
    judges(CHECKS[check], answer, slips)


def test_length_in_other_units():
    for text in ("432 mm", "17 in", "43.2 cm"):
        assert ideas.BAR_LENGTH.mark(text).right
    assert ideas.BAR_LENGTH.mark("17").found.code == "UNIT"
    assert not ideas.BAR_LENGTH.mark("449").right
    assert ideas.BAR_LENGTH.mark("449", measured=True).right


def test_the_class_vote():
    # bar drawn to 1.5 times its length: on the face only the length changes
    face = {"T": 3.0, "t": 2.0, "W": 1.0, "w": 1.0}
    assert ideas.LINE_ONE_WAY.value(face) == pytest.approx(33.7, abs=0.05)
    assert ideas.ANGLE_DIVIDED.value(face) == pytest.approx(30)
    assert ideas.LINE.value(face) == pytest.approx(24.0, abs=0.05)
