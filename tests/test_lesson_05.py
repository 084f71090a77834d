"""Lesson 05: the acceptance lines N05 of the curriculum, and its checks.

The figures are those of the curriculum's sections 3.5 and 7, worked out there by hand.
"""

import ast
import json
import re
from pathlib import Path

import numpy as np
import pytest
from lessons import judges

from kit import KitError
from kit.course.lessons import press_drawing
from kit.course.lessons import press_ideas as asked
from kit.course.lessons.press import BALL, GROOVE, WEDGE, PressLesson
from kit.course.views.lesson import lesson, view_of
from tests.beside import beside

scene = PressLesson.scene
CHECKS = {
    "rings": asked.RING_COUNT,
    "spacing": asked.RING_SPACING,
    "relief": asked.RELIEF_LEFT,
    "half": asked.HALF_LEFT,
}


def numbers(**changed):
    shown = scene(**changed).numbers
    return {number.name: number.value for number in shown}


def greys(image, left):
    """Cut the face of one of the two bars out of the picture."""
    pixels = np.asarray(image.convert("RGB"), float)[52:254, left : left + 466]
    return pixels[..., 0]


def test_n05_a_drill_point():
    shown = numbers()
    assert shown["Rings"] == "6"
    assert float(shown["Ring spacing, as cut"].split()[0]) == pytest.approx(0.50, abs=0.002)
    assert shown["Thinnest place, before it is level"] == "6.2 mm"


@pytest.mark.parametrize(
    ("ground", "left", "rule"),
    [(0, 6, 6.01), (0.6, 5, 5.41), (0.9, 5, 5.11), (1.8, 4, 4.21), (3.0, 3, 3.00)],
)
def test_n05_b_half_is_left_at_half_the_thickness(ground, left, rule):
    shown = next(n for n in scene(ground=ground).numbers if n.name == "Left after grinding")
    assert shown.value == f"{left} of 6"
    assert f"= {rule:.3g}" in shown.working


@pytest.mark.parametrize("ground", [0, 0.9, 3.0])
def test_n05_b_the_solid_agrees(ground):
    """Cut: exactly the first-order rule. Pressed: less by what the metal between rose."""
    # the tip of the cone is rounded by a millionth of its radius
    cut, pressed = (PressLesson(ground=ground, way=way) for way in (0, 1))
    depth = press_drawing.pattern_depth(cut.billet, ground)
    assert depth / 0.3 == pytest.approx(cut.left, abs=2e-5)
    dented = pressed.press(1).levels(pressed.billet.sizes[0]).dented
    depth = press_drawing.pattern_depth(pressed.billet, ground)
    assert depth / 0.3 == pytest.approx(pressed.left * 8 / dented, abs=2e-5)
    assert dented == pytest.approx(8.125, abs=0.001)


def ring_layers(job, way):
    """Layers met on the face from the middle of a hollow to its rim, and the radii."""
    billet = job.bar(way)
    wider = billet.size.width / 40
    r = np.linspace(0, 4, 4001)
    points = (6 * wider + r, np.zeros(4001), np.full(4001, billet.size.thickness / 2))
    depth = 4 - billet.undo(points)[2]
    layer = np.floor((depth + 0.15) / 0.3 + 1e-9).astype(int) + 1
    ends = np.flatnonzero(np.diff(layer))
    return [int(n) for n in (*layer[ends], layer[-1])], r[ends]


def test_n05_c_the_two_ways():
    job = PressLesson()
    (cut, outer), (pressed, inner) = ring_layers(job, 0), ring_layers(job, 1)
    assert cut == [7, 6, 5, 4, 3, 2, 1]
    assert pressed == [1, 2, 3, 4, 5, 6, 7]
    # by the simple rule: alike. On the solid the cut bar is forged on to 6 mm and spreads
    # 1.15, the pressed one 1.03, and layers under a dent are squeezed.
    assert outer == pytest.approx(inner, abs=0.2)
    assert "opposite order" in job.remark("way")


def test_n05_d_no_depth_is_a_plain_face():
    shown = scene(tool=BALL, depth=0.0)
    assert {n.name: n.value for n in shown.numbers}["Rings"] == "0"
    assert (
        "no hollow so deep as a layer. The face shows one even tone, without bands"
        in shown.alt
    )
    face = greys(shown.image, 12)
    assert len(np.unique(face[:60])) == 1
    assert "one layer" in PressLesson(tool=BALL, depth=0.0).remark("depth")


def test_n05_e_hollows_that_meet_are_refused_and_the_picture_stays():
    with pytest.raises(KitError, match="two faces would meet"):
        scene(tool=BALL, depth=3.9, faces=2)
    view = view_of("05")
    view.set(tool=BALL, faces=2)
    before = view.picture.frame
    view.controls["depth"]._handle_custom_msg({"typed": "3.9"}, [])
    assert "would meet" in view.says.value
    assert view.controls["depth"].value == 1.8
    assert view.picture.frame == before
    view.controls["depth"].value = 3.9  # dragged: as far as it goes
    assert "Depth is now 3.6 mm. The hollows of the two faces would meet" in view.says.value
    assert view.controls["depth"].value == 3.6


def test_n05_f_rungs():
    shown = numbers(tool=GROOVE, faces=1)
    assert shown["Whole rungs a side, on 200 mm"] == "16"


def test_where_only_the_other_way_is_impossible_it_says_so():
    # 3 mm hollows on both faces: cut, something is left; ground level, nothing
    deep = {"tool": BALL, "across": 3.0, "depth": 4.0, "faces": 1}
    assert scene(**deep).numbers
    with pytest.raises(KitError, match="must stay at least"):
        scene(**{**deep, "way": 1})


def test_grinding_through_is_refused():
    with pytest.raises(KitError, match=r"Grind off must be from 0 to 2\.80 mm"):
        scene(after=3.0, ground=4.0)


def test_a_pressed_bar_that_is_thinner_than_asked_says_so():
    shown = scene(way=1, faces=1)
    assert "only 4.64 mm thick" in shown.says


def test_the_depth_of_a_drill_point_is_worked_out():
    rings = next(n for n in scene().numbers if n.name == "Rings")
    assert rings.working[0].startswith("depth: 3 mm / tan(59°) = 1.803 mm")


def test_steel_gone_so_far():
    # one cone of π 3² × 1.80 / 3 = 17.0 mm³ on each 12 × 10.39 mm of an 8 mm bar: 1.7 %
    # (the bar is 40 mm wide: its outer rows are cut off, so a little more or less)
    name = "Steel cut or ground away so far"
    assert float(numbers()[name].split()[0]) == pytest.approx(1.7, abs=0.1)
    # and then half of what is left
    half = numbers(ground=3.0)[name]
    assert float(half.split()[0]) == pytest.approx(50.85, abs=0.1)
    # a feather: 18 mm of 80
    assert numbers(tool=WEDGE)[name] == "22.5 %"


def test_the_simple_rule_is_said_on_the_screen():
    assert "A simple rule: metal is squeezed straight down" in PressLesson.fine
    working = " ".join(line for n in scene().numbers for line in n.working)
    assert "on the solid drawn here: 6.01" in working
    assert "on the solid drawn here: 0.538 mm. Levelling moves metal into the" in working


def test_alt_text_follows_the_state():
    words = scene(ground=0.6, way=1).alt
    assert "press, then grind flat, with the top layer in the middle, 0.6 mm" in words
    assert "5 of 6 rings remain" in words
    words = scene(ground=0.6, way=1, beside=1).alt
    assert "Framed: press, then grind flat, 0.6 mm ground off" in words
    assert "half of a rung" in scene(tool=GROOVE).alt


def test_tiles_follow_from_the_wrong_ideas():
    assert PressLesson.question.values() == pytest.approx([12, 6, 3, 1], abs=0.02)


@pytest.mark.parametrize("rings", [1, 3, 6, 12])
def test_tile_shows_the_rings_it_names(rings):
    image, alt = press_drawing.tile(rings)
    row = np.asarray(image.convert("L"), float)[75, :100]
    assert np.count_nonzero(np.diff(row > 128)) == rings
    assert str(rings) in alt or rings == 1


@pytest.mark.parametrize(
    ("check", "answer", "slips"),
    [
        ("rings", "9", ["19", "26", "8", "10"]),
        ("spacing", "0.416", ["0.150", "0.214", "0.25"]),
        ("relief", "1.62", ["1.2", "1.8", "1.44"]),
        ("half", "3.0", ["0.9", "1.8", "1.5"]),
    ],
)
def test_checks_know_the_answer_and_the_slips(check, answer, slips):
    judges(CHECKS[check], answer, slips)


def test_the_film_begins_with_a_plain_face_and_ends_with_the_drill():
    predict, view, *_ = lesson("05")
    assert view.state["tool"] == BALL
    assert view.state["depth"] == 0
    predict.tiles.value = 1
    predict.observe_now()
    assert view.state == PressLesson.begun()
    assert "You predicted it" in view.says.value


def test_no_station_has_more_than_four_controls():
    assert max(len(keys) for keys in PressLesson.stations.values()) <= 4
    shown = {key for keys in PressLesson.stations.values() for key in keys}
    assert shown == set(PressLesson.model_fields)


def test_a_bar_made_one_way_is_not_told_of_the_other():
    """Ground level it was never cut, and no metal went into its hollows."""
    for way, wrong in enumerate(("pressed", "as cut|moves metal into")):
        told = [
            part
            for n in scene(way=way, ground=0.6).numbers[:-1]
            for part in (n.name, *n.working)
        ]
        assert not re.search(wrong, " ".join(told)), told


# Lesson 05, the wedge: a feather, and what it costs.
scene = PressLesson.scene


def test_feather():
    shown = scene(tool=WEDGE)
    assert {n.name: n.value for n in shown.numbers}["Drag of the wedge"] == "18.0 mm"
    assert "barbs of a feather" in shown.alt
    assert "illustrative" in shown.says
    assert len(shown.numbers) <= 5


@pytest.mark.parametrize(
    "given",
    [
        {"before": 4.0, "depth": 3.2, "across": 20.0},
        {"before": 20.0, "depth": 10.0, "across": 3.0},
        {"before": 20.0, "depth": 0.0},
        {"layer": 1.0},
    ],
    ids=str,
)
def test_every_feather_can_be_drawn(given):
    assert scene(tool=WEDGE, **given).numbers


def test_the_drawn_out_feather_is_the_split_block_with_longer_barbs():
    """What is drawn out along the quill leans more by the stretch and the narrowing."""
    shown = scene(tool=WEDGE)
    _, split, drawn = (panel.billet for panel in shown.panels)
    nudge = 1e-4

    def lean(billet, share):
        y = np.array([-nudge, nudge, 0, 0]) + share * billet.size.width / 2
        z = np.array([0, 0, -nudge, nudge])
        _, _, height = billet.undo((np.full(4, 10.0), y, z))
        return np.ptp(height[:2]) / np.ptp(height[2:])

    for share in (0.1, 0.5, 0.9):
        longer = drawn.size.thickness / split.size.thickness
        narrower = split.size.width / drawn.size.width
        steeper = lean(drawn, share) / lean(split, share)
        assert steeper == pytest.approx(longer * narrower, rel=1e-3)


EVEN = re.compile(r"even(ly)?[^.]*far face|half of[^.]* at half the thickness", re.DOTALL)


def test_that_hollows_fade_evenly_is_told_as_the_kits_rule_wherever_it_is_told():
    """Pressure dies out below a narrow die: by how much in steel is not known."""
    told = [
        one.value
        for path in Path("kit").rglob("*.py")
        for one in ast.walk(ast.parse(path.read_text("utf-8")))
        if isinstance(one, ast.Constant) and isinstance(one.value, str)
    ]
    told += [
        words for path in Path("kit").rglob("*.py") for words in beside(path.resolve())
    ]
    told += [
        words
        for path in Path("notebooks").glob("*.ipynb")
        for cell in json.loads(path.read_text("utf-8"))["cells"]
        for words in "".join(cell["source"]).split("\n")
    ]
    found = [words for words in told if EVEN.search(words)]
    assert len(found) > 5
    assert not [words for words in found if not re.search(r"\b(rule|model)\b", words)]
