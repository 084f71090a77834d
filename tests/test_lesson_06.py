"""Lesson 06: the curriculum's numbers (3.6 and N06), on the solid itself."""

import math

import numpy as np
import pytest
from blades import TONES, edges
from lessons import judges, value_of

from kit import KitError
from kit.basics.units import Units
from kit.course.lessons import bevels_ideas as asked
from kit.course.lessons.bevels import BevelsLesson, loupe
from kit.course.lessons.bevels_drawing import InBar
from kit.course.views.lesson import lesson, view_of
from kit.section.blade import Blade, Section
from kit.section.trace import see

scene = BevelsLesson.scene


def column(job, along=60.0, pixel=0.01):
    """Trace one column of the blade's side from the spine down to the edge."""
    billet = job.billet
    rows = round(job.height / pixel)
    heel = (billet.size.length - 150) / 2
    blade = Blade(
        grind=job.grind, size=billet.size, centre=(heel + along, 0.0),
        columns=1, rows=rows, pixel=pixel,
    )  # fmt: skip
    return see(billet, InBar(blade, job.share), TONES).tone[:, 0]


def lines_counted(job):
    """Count bands: one more than the places where dark and bright meet."""
    return len(edges(column(job))) + 1


@pytest.mark.parametrize(
    ("layers", "lines", "spacing", "spread"),
    [
        (80, "36", "0.835 mm", "× 16.7"),
        (320, "144", "0.209 mm", "× 16.7"),
        (1000, "450", "0.067 mm (too fine at 300 mm)", "× 16.7"),
    ],
)
def test_acceptance_lines_and_spacing(layers, lines, spacing, spread):
    numbers = scene(layers=layers)
    assert value_of(numbers, "Lines on each side") == lines
    assert value_of(numbers, "Line spacing on the bevel") == spacing
    assert value_of(numbers, "Spread") == spread


def test_the_spine_is_too_fine_for_the_eye():
    spine = "Line spacing on the spine"
    assert value_of(scene(), spine) == "0.05 mm (too fine at 300 mm)"
    assert value_of(scene(layers=40), spine) == "0.1 mm"
    # Question 3 of the curriculum: 765 layers on this bevel, 45 on the spine.
    working = scene().numbers[1].working[-1]
    assert "765 layers on this bevel, 45 on the spine" in working


@pytest.mark.parametrize("kind", [0, 1, 2, 3])
def test_the_solid_has_the_lines_that_the_number_says(kind):
    job = BevelsLesson(kind=kind)
    assert lines_counted(job) == pytest.approx(job.crossed.lines, abs=1)


def test_the_spacing_on_the_solid_is_that_of_beds_in_a_slope():
    # True thickness = width of outcrop × sin of the angle between slope and bed:
    # Ragan, Structural Geology, chapter on thickness and depth (from memory).
    job = BevelsLesson()
    seen_from_the_side = np.diff(edges(column(job))) * 0.01
    lean = math.atan(1.8 / 30)
    along_the_bevel = seen_from_the_side / math.cos(lean)
    assert along_the_bevel * math.sin(lean) == pytest.approx(0.05, rel=0.03)


def test_the_ricasso_is_plain_and_the_bevel_is_not():
    assert np.ptp(column(BevelsLesson(), along=8.0)) == pytest.approx(0, abs=1e-6)
    assert np.ptp(column(BevelsLesson(), along=60.0)) == pytest.approx(1, abs=1e-3)
    words = scene().alt
    assert "The ricasso shows one even tone, without bands; the bevel " in words


def test_an_edge_as_thick_as_the_spine_is_no_bevel_and_no_error():
    for kind in range(4):
        numbers = scene(edge=4.0, kind=kind)
        assert value_of(numbers, "Lines on each side") == "0"
        assert value_of(numbers, "Line spacing on the bevel") == "no lines"
        assert "no bevel" in numbers.alt
    assert np.ptp(column(BevelsLesson(edge=4.0))) == pytest.approx(0, abs=1e-6)
    assert "no bevel" in BevelsLesson(edge=4.0).remark("edge")


def test_an_edge_thicker_than_the_spine_is_refused_and_the_picture_stays():
    view = view_of("06")
    frame = view.picture.frame
    view.set(spine=2.0, edge=3.0)
    assert "thickness of the spine. Given: 3 mm." in view.says.value
    assert view.picture.frame == frame
    with pytest.raises(KitError, match="from 0 to 2 mm"):
        scene(spine=2.0, edge=3.0)


def test_a_bevel_higher_than_the_blade_is_refused():
    with pytest.raises(KitError, match="Bevel height must be from 1 to 15 mm"):
        scene(kind=1, height=15.0, bevel=18.0)


@pytest.mark.parametrize(
    ("forged", "cleaned", "lines"),
    [(0, 0.4, 36), (50, 0.4, 22), (100, 0.4, 8), (100, 1.0, 20), (100, 0.0, 0)],
)
def test_a_forged_bevel_has_only_the_lines_of_its_clean_up(forged, cleaned, lines):
    job = BevelsLesson(forged=forged, cleaned=cleaned)
    assert value_of(scene(forged=forged, cleaned=cleaned), "Lines on each") == str(lines)
    assert lines_counted(job) == pytest.approx(max(lines, 1), abs=1)


def test_a_column_is_squeezed_as_a_whole_by_forging():
    job = BevelsLesson(forged=100.0)
    section = Section(
        grind=job.grind, size=job.billet.size, at=60.0, columns=300, rows=1900, pixel=0.016
    )
    after, before = (
        view.look(0, 1900, float) for view in (section, InBar(section, job.share))
    )
    inside = (after.cover == 1).sum(axis=1) >= 2
    assert inside.sum() > 1800
    squeezed = (before.points[2] / after.points[2])[inside]
    assert np.ptp(squeezed, axis=1) == pytest.approx(0, abs=1e-6)
    # at the spine as it was; at the edge from what lay 8 layers, 0.4 mm, below the skin
    assert squeezed[0, 0] == pytest.approx(1, abs=0.01)
    assert squeezed[-1, 0] == pytest.approx((2.0 - 0.4) / 0.2, rel=0.01)


def test_what_clean_up_costs_if_it_is_measured_on_the_forged_edge():
    # The notebook's own warning, in round figures: 4.8 mm forged down to 1.2 mm.
    layer_at_the_edge = 0.05 * 1.2 / 4.8
    assert 0.4 / layer_at_the_edge == pytest.approx(32)


@pytest.mark.parametrize("bought", [1, 2, 3])
def test_a_bought_bar_shows_another_face_than_the_blade(bought):
    job = BevelsLesson(bought=bought)
    face, bevel = column(BevelsLesson(bought=bought, edge=4.0)), column(job)
    assert np.abs(face - bevel).mean() > 0.1
    assert "You get the one underneath" in BevelsLesson(bought=bought).remark("bought")
    before = scene(bought=bought, shown=1)
    assert before.alt != scene(bought=bought).alt
    assert "were the layers flat" in before.numbers[0].name


def test_the_relief_of_a_bought_bar_falls_evenly():
    # Question 20: left = 1 - q / T; 1.0 and 1.8 of 6 mm leave 5.0 and 4.2 of 6 rings.
    for edge, rings in ((4.0, 5.0), (2.4, 4.2)):
        assert 6 * BevelsLesson(bought=3, spine=6.0, edge=edge).left == pytest.approx(rings)
    assert value_of(scene(bought=3), "Pattern depth left") == "55 %"


@pytest.mark.parametrize(
    ("check", "answer", "slips"),
    [
        (asked.LINE_COUNT, "37", {"75": "BOTH_SIDES", "83": "WHOLE_SPINE"}),
        (asked.LINE_COUNT, "37", {"41": "NO_EDGE", "38": "ROUNDED_UP"}),
        (asked.LINE_SPACING, "0.962", {"0.481": "BOTH_SIDES", "0.06": "LIKE_SPINE"}),
        (asked.LINE_SPACING, "0.0379 in", {"0.864": "NO_EDGE"}),
    ],
)
def test_checks_know_the_answer_and_the_slips(check, answer, slips):
    judges(check, answer, slips)


def test_tiles_are_drawn_from_the_ideas():
    question = BevelsLesson.question
    assert question.values() == pytest.approx([0, 600, 36, 72])
    assert question.show(question.right.value(question.given)) == "36 lines, 0.83 mm apart"


def test_nothing_is_given_away_before_the_prediction():
    predict, view, *_ = lesson("06")
    assert "one even tone" in view.picture.alt
    assert "36" not in view.picture.alt + view.numbers.value
    assert all(control.disabled for control in view.controls.values())
    low = np.asarray(view.shown.image.convert("L"))[430:]
    assert np.ptp(low) == 0, "paper only"
    predict.observe_now()
    assert "Choose one first" in predict.says.value
    predict.tiles.value = 3
    predict.observe_now()
    assert "half from the other" in view.says.value
    assert "36 lines along the edge" in view.picture.alt
    assert "four loupes" in view.picture.alt


@pytest.mark.parametrize("changed", [{"kind": 3}, {"bought": 1, "forged": 60.0}])
def test_loupes_that_are_kept_show_what_is_there(changed):
    job = BevelsLesson(**changed, taper=20.0)
    for number in (0, 3):  # ricasso and spine
        kept, true = loupe(job.unground, number), loupe(job, number)
        np.testing.assert_array_equal(kept.face.tone, true.face.tone)
        np.testing.assert_array_equal(kept.face.light, true.face.light)


def test_inches():
    for units, high in ((Units.INCH_DECIMAL, "1.181"), (Units.INCH_FRACTION, "1 3/16")):
        numbers = scene(units=units)
        assert value_of(numbers, "Line spacing on the bevel") == "0.033 in"
        assert f"{high} in high" in numbers.alt


def test_one_asks_the_steel_which_bar_it_came_from():
    view = view_of("06")
    assert "bar 80 of 80" in view.shown.at(0.06, 0.36, Units.MM), "the ricasso"
    assert "No steel there" in view.shown.at(0.5, 0.03, Units.MM)
