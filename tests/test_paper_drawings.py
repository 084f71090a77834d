"""Drawings measured back from the PDF: what is laid on them has its true size."""

import math
import re

import numpy as np
import pytest
from printed import read, words
from test_paper import SIZES, STROKE, strokes

from kit.classroom.paper.blade_lines import blade_lines, heights
from kit.classroom.paper.drawings import BAR, drawings, examples
from kit.classroom.paper.kinds import Asked
from kit.classroom.paper.page import POINT
from kit.classroom.paper.to_scale import in_words, scale_for
from kit.forge.billet import Billet
from kit.forge.bundle import Bundle
from kit.forge.stack import Stack
from kit.forge.steps import Dent, Groove, RoundSize, Twist
from kit.forge.steps.hollows import Hollows
from kit.section.grind import BladeGrind
from kit.section.outline import Outline
from kit.shop.patterns import PATTERNS
from kit.shop.plan import example
from kit.shop.recipes.found import recipe_of
from kit.shop.recipes.recipe import Recipe

pytestmark = pytest.mark.gate

TALL = 297.0  # mm, of A4
LEFT, TOP = 10.0, 19.0  # mm: where the live area of A4 begins


def corners(page):
    """Every closed figure of four corners: its width and height, mm."""
    number = rb"(-?[\d.]+) (-?[\d.]+) "
    found = re.findall(
        number + rb"m\n" + (number + rb"l\n") * 3 + rb"(?:h|S|[-\d. ]+l\n)",
        page.get_contents().get_data(),
    )
    boxes = [np.array(one, float).reshape(4, 2) * POINT for one in found]
    return [tuple(np.ptp(box, axis=0)) for box in boxes]


def has_box(page, wide, tall):
    return any(box == pytest.approx((wide, tall), abs=0.02) for box in corners(page))


@pytest.mark.parametrize("paper", SIZES)
def test_every_drawing_proves_its_scale(paper, tmp_path):
    for page in read([*drawings(Asked(paper)), *examples(Asked(paper))], tmp_path):
        assert tuple(map(float, page.mediabox[2:])) == pytest.approx(SIZES[paper], abs=0.05)
        for long in (100, 101.6):
            assert any(one == pytest.approx((long, 0), abs=0.01) for one in strokes(page))
            assert any(one == pytest.approx((0, long), abs=0.01) for one in strokes(page))
        assert "Print at 100 %" in words(page)


def test_the_stack_of_the_class_is_as_large_as_it_lies(tmp_path):
    stack, sections, *_ = read(drawings(Asked()), tmp_path)
    # 6 × 3.175 + 5 × 1.5875 = 26.9875 mm: 1 1/16 in of 1 1/2 in bars
    assert has_box(stack, 38.1, 26.9875)
    assert sum(box == pytest.approx((38.1, 3.175), abs=0.02) for box in corners(stack)) == 6
    assert (
        sum(box == pytest.approx((38.1, 1.5875), abs=0.02) for box in corners(stack)) == 5
    )
    assert has_box(stack, 102, 38.1)  # a piece as it is sawn: tests/test_plan.py
    assert has_box(sections, 38.1, 16)  # drawn out
    assert has_box(sections, 38.1, 5)  # the bar wanted


def done_to(billet):
    bars = billet.source.bars if isinstance(billet.source, Bundle) else ()
    return [*billet.steps, *(step for bar in bars for step in done_to(bar))]


@pytest.mark.parametrize("name", ["plan", *(known.name for known in PATTERNS)])
def test_only_what_is_done_to_a_bar_is_drawn_for_it(name):
    about = example() if name == "plan" else recipe_of(name)
    told = " ".join(
        text.get_text()
        for page in drawings(Asked(recipe=about))
        for text in page.axes.texts
    )
    steps = done_to(about.billet)
    has = {
        "One turn in": any(isinstance(step, Twist) for step in steps),
        "Rungs:": any(isinstance(step, Groove) for step in steps),
        "Dimples:": any(
            isinstance(step, Hollows) and not isinstance(step, Groove) for step in steps
        ),
        "blade": False,
        "xample": False,
    }
    assert {word: word in told for word in has} == has


def test_what_is_of_no_bar_says_that_it_is_an_example():
    assert all(page.title.startswith("Example: ") for page in examples(Asked()))


def test_what_does_not_fit_says_its_scale(tmp_path):
    assert scale_for(38, 31, (45, 48)) == 1
    assert scale_for(60, 31, (45, 48)) == 0.5
    assert in_words(1 / 5) == "drawn smaller (1 : 5)"
    feather = read(drawings(Asked(recipe="feather")), tmp_path)
    assert "1 : 2" in words(feather[1])


def test_a_line_drawn_on_a_right_hand_twist_runs_as_the_step_says():
    """Follow the chalk line through the step itself, seen from above: x right, y up."""
    page = examples(Asked())[0]
    size = RoundSize(BAR[0], BAR[1], BAR[1])
    lines = [line for line in page.axes.lines if line.get_linewidth() == 0.8 / POINT]
    half = len(lines) // 2
    for hand, some in (("right", lines[:half]), ("left", lines[half:])):
        x, y = some[1].get_data()
        every = np.concatenate([line.get_ydata() for line in some])
        middle = (np.min(every) + np.max(every)) / 2
        top = tuple(np.array([one]) for one in (0.0, 0.0, BAR[1] / 2))
        for at, drawn in zip(x[5:-5], y[5:-5], strict=True):
            step = Twist(turn_length=44, hand=hand)
            chalk = (np.array([at]), top[1], top[2])
            _, across, up = step.do(chalk, size)
            assert up[0] > 0  # it is on the side that is seen
            assert middle - drawn == pytest.approx(across[0], abs=0.15)


def test_quarter_turns_are_marked_where_they_are(tmp_path):
    page = read(examples(Asked()), tmp_path)[0]
    data = page.get_contents().get_data()
    upright = sorted(
        float(x1) * POINT - LEFT
        for x1, y1, x2, y2 in STROKE.findall(data)
        if x1 == x2 and abs(float(y1) - float(y2)) * POINT == pytest.approx(6, abs=0.01)
    )
    # 44 mm a turn: 0, 11, 22 … 165, for each hand
    assert upright[::2] == pytest.approx([11 * number for number in range(16)], abs=0.01)


def test_dimples_lie_on_a_hexagon(tmp_path):
    page = read(examples(Asked()), tmp_path)[1]
    data = page.get_contents().get_data()
    ends = [[float(part) * POINT for part in one] for one in STROKE.findall(data)]
    pricks = [((x1 + x2) / 2, y1) for x1, y1, x2, y2 in ends
              if y1 == y2 and abs(abs(x2 - x1) - 2) < 0.01]  # fmt: skip
    assert len(pricks) > 50
    places = np.array(pricks)
    apart = np.hypot(*(places[:, None] - places[None]).transpose(2, 0, 1))
    near = [np.sort(row)[1:7] for row in apart]
    inner = [six for six in near if six[5] < 9.1]
    # the curriculum's grid: 9 mm pitch, rows 7.79 mm; six neighbours at one distance
    assert inner
    assert np.concatenate(inner) == pytest.approx(9.0, abs=0.01)
    rows = np.unique(np.round(places[:, 1], 2))
    assert np.diff(rows) == pytest.approx(7.79, abs=0.02)
    assert "7.79 mm apart" in words(page)


def test_dimples_of_a_recipe_lie_where_the_engine_presses_them(tmp_path):
    stack = Stack.alternate("1084", "15N20", pieces=9, thickness=1.5, width=40)
    dents = Dent(way="cut and forged", across=8, depth=2, spacing=11, faces="top")
    billet = Billet(source=stack).then(dents)
    given = Recipe(name="drops", billet=billet)
    assert "11.0 mm from middle" in words(read(drawings(Asked(recipe=given)), tmp_path)[-1])
    assert "rows 9.53 mm" in words(read(drawings(Asked(recipe=given)), tmp_path)[-1])


def test_rungs_are_twelve_millimetres_apart(tmp_path):
    page = read(examples(Asked()), tmp_path)[1]
    data = page.get_contents().get_data()
    full = sorted(
        float(x1) * POINT - LEFT
        for x1, y1, x2, y2 in STROKE.findall(data)
        if x1 == x2 and abs(float(y1) - float(y2)) * POINT == pytest.approx(42.1, abs=0.01)
    )
    assert full == pytest.approx([6 + 12 * number for number in range(14)], abs=0.01)


def test_lines_on_a_flat_bevel_are_even():
    """By similar triangles: a depth of the bevel is met in proportion to its height."""
    grind = BladeGrind(outline=Outline(length=150, height=30), spine=4, edge=0.4)
    found = heights(grind, np.array([0.2, 1.1, 2.0 - 1e-3]), 60.0)
    assert found == pytest.approx([0, 15, 30], abs=0.03)
    assert math.isnan(heights(grind, np.array([2.5]), 60.0)[0])


def test_a_blade_is_as_long_and_high_as_it_says(tmp_path):
    page = blade_lines(Asked())[0]
    outline = page.axes.patches[-2:]  # the side, the section
    wide = [np.ptp(one.get_xy(), axis=0) for one in outline]
    assert wide[0] == pytest.approx([150, 30], abs=0.05)
    assert wide[1] == pytest.approx([20, 150], abs=0.2)  # 4 × 30 mm, five times larger
    text = words(read(blade_lines(Asked()), tmp_path)[0])
    assert "1.67 mm apart" in text  # 0.1 mm × 30 / 1.8


def test_the_line_of_a_clad_blade_is_where_triangles_put_it(tmp_path):
    # core 1.2 mm, edge 0.4, spine 4, blade 32 mm high: 32 × (0.6 - 0.2) / (2 - 0.2)
    expected = 32 * 0.4 / 1.8
    page = blade_lines(Asked())[1]
    lines = [line for line in page.axes.lines if line.get_linestyle() == "--"]
    assert len(lines) == 2
    sides = [one.get_xy() for one in page.axes.patches[-2:]]
    for line, side in zip(lines, sides, strict=True):
        foot = side[:, 1].max()
        assert foot - line.get_ydata().max() == pytest.approx(expected, abs=0.05)
    assert "7.11 mm above the edge" in words(read(blade_lines(Asked()), tmp_path)[1])
