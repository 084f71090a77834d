"""Right answers against what is known outside the kit."""

import math
from fractions import Fraction
from itertools import pairwise

import numpy as np
import pint
import pytest

from kit.classroom.homework import designs, h5
from kit.classroom.homework.paper import draw
from kit.classroom.homework.sets import SETS
from kit.course.lessons.plan import PlanLesson
from kit.course.lessons.plan_ideas import plan_of
from kit.shop.sawing import cut_list

STUDENTS = [f"Student {number}" for number in range(40)]


def papers(code):
    return [draw(SETS[code], "TRUTH", name) for name in STUDENTS]


def answers(code, number):
    part = SETS[code].part(number)
    return [(paper.values, part.answer(paper.values)) for paper in papers(code)]


def test_layers_and_bands_of_a_paper_strip_that_is_folded():
    """Counted on a list of sheets that is laid on its own mirror image, fold by fold."""
    for values, layers in answers("H1", 1):
        strip = [sheet % 2 for sheet in range(int(values["n"]))]
        for _ in range(int(values["k"])):
            strip = strip[::-1] + strip
        bands = 1 + sum(one != other for one, other in pairwise(strip))
        assert layers == len(strip)
        assert SETS["H1"].part(2).answer(values) == bands
        micron = Fraction(str(values["T"])) * 1000 / len(strip)
        assert SETS["H1"].part(3).answer(values) == pytest.approx(float(micron))


def test_fewest_folds_by_doubling():
    for values, folds in answers("H1", 4):
        count, done = int(values["n"]), 0
        while count < values["goal"]:
            count, done = 2 * count, done + 1
        assert folds == done


def test_the_band_is_the_hypotenuse():
    """Right-angled triangle: opposite side t, angle a; run along the layers t/tan(a)."""
    for values, band in answers("H1", 5):
        run = values["t"] / math.tan(math.radians(values["a"]))
        assert band == pytest.approx(math.hypot(run, values["t"]))


def test_drawing_out_keeps_volume():
    for values, length in answers("H2", 1):
        before = values["L"] * 40 * values["T"] * (1 - values["loss"] / 100)
        assert length * 40 * values["t"] == pytest.approx(before)


def test_a_dot_becomes_an_ellipse_of_the_same_area():
    """Area of an ellipse pi a b: plane strain keeps it. Length over height is (T/t)²."""
    for values, ratio in answers("H2", 2):
        height = values["t"] / values["T"]
        assert ratio * height * height == pytest.approx(1.0)


def test_the_skin_unrolled_is_a_right_angled_triangle():
    for values, angle in answers("H2", 3):
        corner = complex(values["p"], math.pi * values["d"])
        assert angle == pytest.approx(np.degrees(np.angle(corner)))
        lower = complex(values["p"], math.pi * (values["d"] - 2 * values["q"]))
        ground = SETS["H2"].part(4).answer(values)
        assert ground == pytest.approx(np.degrees(np.angle(lower)))
        turn = SETS["H2"].part(6).answer(values)
        assert np.angle(complex(turn, math.pi * values["d"])) == pytest.approx(math.pi / 4)


def test_rings_counted_down_a_cone():
    """A 118° point, as ISO 5419 has for common drills (from memory)."""
    for values, rings in answers("H3", 1):
        slope = math.tan(math.radians(59))
        depths = np.arange(1, 200) * values["t"]
        assert rings == np.count_nonzero(depths * slope <= values["D"] / 2)
        spacing = SETS["H3"].part(2).answer(values)
        assert math.degrees(math.atan2(spacing, values["t"])) == pytest.approx(59)


def test_lines_and_core_from_two_straight_lines_that_cross():
    for values, lines in answers("H3", 3):
        layer = values["S"] / values["N"]
        edge, spine = values["E"] / 2, values["S"] / 2
        faces = [layer * number for number in range(-200, 200)]
        crossed = sum(edge <= face + 1e-9 and face < spine - 1e-9 for face in faces)
        assert abs(lines - crossed) <= 1
        # height at which the bevel is as thick as the core: np.interp, edge to spine
        for number, off in ((5, 0.0), (6, values["d"])):
            half = values["c"] / 2 - off
            height = np.interp(half, [edge, spine], [0, values["H"]])
            assert SETS["H3"].part(number).answer(values) == pytest.approx(height)


def test_temperatures_as_pint_has_them():
    units = pint.UnitRegistry()
    for values, celsius in answers("H4", 1):
        hot = units.Quantity(values["fahrenheit"], units.degF)
        assert celsius == pytest.approx(hot.to(units.degC).magnitude)
        step = units.Quantity(values["step"], units.delta_degC)
        fahrenheit = step.to(units.delta_degF).magnitude
        assert SETS["H4"].part(2).answer(values) == pytest.approx(fahrenheit)


def test_mean_nickel_by_mixing():
    """15N20 has 2.0 % nickel: (k × 2.0) / all, a rule of mixtures by hand."""
    for values, mean in answers("H4", 3):
        plain = values["bars_a"] * values["thick_a"]
        bright = values["bars_b"] * values["thick_b"]
        assert mean == pytest.approx(2.0 * bright / (plain + bright))


def test_minutes_by_arrhenius():
    """Carbon in austenite: D0 2.3e-5 m²/s, Q 148 kJ/mol; R 8.314462618 J/(mol K).

    Callister & Rethwisch, Materials Science and Engineering, 9th ed., Table 5.2, p. 150.
    The slowest wave sinks as exp(-pi² D t / h²): Crank, The Mathematics of Diffusion,
    2nd ed. 1975, p. 47.
    """
    for values, minutes in answers("H4", 4):
        speed = 2.3e-5 * math.exp(-148e3 / (8.314462618 * (values["celsius"] + 273.15)))
        wave = math.pi**2 * speed * 60 * minutes / (values["layer"] * 1e-3) ** 2
        assert math.exp(-wave) == pytest.approx(0.05, rel=2e-3)


def test_the_eye_splits_a_sixtieth_of_a_degree():
    for values, finest in answers("H4", 5):
        share = finest / (2 * math.pi * values["distance"])  # of a full circle
        assert share == pytest.approx(1 / (360 * 60), rel=1e-6)


def test_the_capstone_agrees_with_the_planner():
    """Cut list, weights and yield as `kit.shop.plan` counts them, bar by bar."""
    task = SETS["H5"]
    for paper in papers("H5"):
        given = task.part(1).pick(paper.values)
        plan = plan_of(given)
        sawn = [bar for bar in cut_list(plan) if bar.rack == plan.outer]
        used = sum(bar.rack.length - bar.offcut for bar in sawn)
        assert task.part(2).answer(paper.values) == pytest.approx(used)
        assert task.part(3).answer(paper.values) == pytest.approx(plan.grams_in)
        by_volume = 7.85e-3 * given["width"] * plan.stack_thickness * plan.start_length
        assert plan.grams_in == pytest.approx(by_volume, rel=0.02)
        assert task.part(4).answer(paper.values) == pytest.approx(
            100 * plan.share_out, rel=0.03
        )


def test_the_lean_after_more_grinding():
    """Tangents go with the height above the axis, h = p tan(a) / 2 pi, p = 2 s."""
    for values, lean in answers("H5", 5):
        height = values["s"] * math.tan(math.radians(values["a"])) / math.pi
        share = (height - values["q"]) / height
        flatter = math.tan(math.radians(values["a"])) * share
        assert math.tan(math.radians(lean)) == pytest.approx(flatter)


def test_only_one_test_decides():
    """Polished spine: etch it again. A print: grind it. Neither by magnet or bevel."""
    assert [h5.deciding(pair) for pair in h5.PAIRS] == [
        h5.SPINE_AGAIN, h5.DEEPER,
    ]  # fmt: skip


def test_bands_on_the_simulated_cut_are_as_wide_as_trigonometry_says():
    for pieces, folds, thick in ((7, 1, 6.0), (6, 2, 8.0), (12, 1, 5.0)):
        bands = (pieces - 1) * 2**folds + 1
        mean = thick / bands / math.sin(math.radians(20))
        assert designs.band_width(pieces, folds, thick) == pytest.approx(mean, rel=1e-3)


def test_lines_on_the_simulated_bevel():
    """Depth 1.8 mm in 60 layers of 4.0 mm: 27 lines on a bevel 30.05 mm long."""
    assert designs.bevel_spacing(60, 0, 4.0, 30.0) == pytest.approx(30.05 / 27, rel=0.05)
    assert designs.ricasso_spread(60, 0, 4.0, 30.0) == 0
    assert designs.ricasso_spread(60, 2, 4.0, 30.0) > 0.5


def test_nickel_left_in_a_sheet():
    """Middle of a sheet in endless steel: erf(h / (4 √(D t))); Crank 1975, eq. 2.15."""
    speed = 7.7e-5 * math.exp(-280e3 / (8.314 * (1200 + 273.15)))
    for sheet, minutes in ((0.02, 30.0), (0.02, 60.0), (0.04, 200.0)):
        root = math.sqrt(speed * 60 * minutes)
        middle = math.erf(sheet * 1e-3 / (4 * root))
        left = designs.nickel_left(sheet, 1200, minutes)
        assert left == pytest.approx(middle, abs=3e-3)


def test_the_default_job_has_all_that_the_capstone_asks():
    assert set(PlanLesson().given) >= {"pieces_a", "thick_a", "crop", "kerf", "grind"}
