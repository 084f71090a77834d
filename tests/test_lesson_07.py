"""Lesson 07: the curriculum's numbers (3.7 and N07), its wrong ideas and its page.

The line on the solid is checked in test_san_mai.py.
"""

import itertools
import re

import numpy as np
import pytest
from lessons import judges, value_of

from kit import KitError
from kit.basics.units import Units
from kit.course.lessons import san_mai_ideas as asked
from kit.course.lessons.san_mai import SanMaiLesson, expected
from kit.course.lessons.san_mai_drawing import EDGE
from kit.course.lessons.san_mai_line import CORE
from kit.course.views.lesson import lesson, view_of
from kit.section.trace import see

CHECKS = (asked.LINE_HEIGHT, asked.OFF_CENTRE, asked.HIGHER_LINE)


def lines(scene):
    return value_of(scene, "Line left / right")


def test_n07_a_defaults():
    scene = SanMaiLesson.scene()
    assert lines(scene) == "7.1 / 7.1 mm"
    assert value_of(scene, "Core after") == "1.20 mm"
    assert value_of(scene, "Largest") == "0.40 mm"
    assert value_of(scene, "What is across") == "× 17.8 (3.2°)"
    assert len(scene.numbers) <= 5


def test_n07_b_offset():
    assert lines(SanMaiLesson.scene(off=0.3)) == "12.4 / 1.8 mm"


def test_n07_c_the_core_leaves_the_edge():
    scene = SanMaiLesson.scene(off=0.4)
    assert lines(scene) == "14.2 / 0.0 mm"
    assert "The core leaves the edge on the right side" in scene.says
    assert "Hatched at the edge, right" in scene.alt
    assert "right side: line 0.0 mm above the edge" in scene.alt
    assert "-" not in "".join(scene.numbers[1].working[3:]).replace(" - ", "")
    before = SanMaiLesson.scene(off=0.35)
    assert "it is the edge all along" in before.says
    assert "Hatched" not in before.alt


def test_n07_d_sign_flips_the_sides():
    assert lines(SanMaiLesson.scene(off=-0.3)) == "1.8 / 12.4 mm"
    assert lines(SanMaiLesson.scene(off=-0.4)) == "0.0 / 14.2 mm"
    assert "on the left side" in SanMaiLesson.scene(off=-0.4).says


def test_n07_e_no_cladding():
    scene = SanMaiLesson.scene(left=0, right=0, core=12, off=0.3)
    assert scene.says.startswith("No cladding")
    assert lines(scene) == "none / none"
    job = SanMaiLesson(left=0, right=0, core=12)
    assert set(job.billet.source.steels) == {CORE}
    one = SanMaiLesson.scene(left=0, core=6, right=6)
    assert "No cladding on the left side" in one.says


def test_n07_f_check():
    assert asked.LINE_HEIGHT.mark("7.5").right
    verdict = asked.LINE_HEIGHT.mark("3.75")
    assert verdict.found.code == "FULL_SPINE"
    assert "full spine" in verdict.words
    assert asked.OFF_CENTRE.mark("0.50").right


@pytest.mark.parametrize(
    ("settings", "sentence"),
    [
        ({"core": 1, "left": 20, "right": 20}, "must be thicker than the edge, 0.4 mm"),
        ({"left": 1, "right": 8, "off": 0.5}, "at least 0.1 mm thick"),
        ({"left": 1, "core": 1, "right": 1}, "at most 3 mm, the height of the stack"),
    ],
)
def test_impossible_wishes_get_one_sentence(settings, sentence):
    with pytest.raises(KitError, match=re.escape(sentence)) as refused:
        SanMaiLesson.scene(**settings)
    assert "\n" not in str(refused.value)


def test_refused_and_the_old_picture_stays():
    view = view_of("07")
    frame, alt = view.picture.frame, view.picture.alt
    for wish in (
        {"edge": 1.5},
        {"core": 3.6, "thickness": 10.0, "left": 0.0, "right": 0.0},
    ):
        view.set(**wish)
        assert "kit-refused" in view.says.value
        assert (view.picture.frame, view.picture.alt) == (frame, alt)
        assert view.state == SanMaiLesson.begun()


def test_core_all_the_way_off_centre():
    scene = SanMaiLesson.scene(off=1.0)
    assert "edge is all cladding" in scene.says
    assert lines(scene) == "24.9 mm / lost"


def test_nickel_shows_and_is_warned_of():
    said = SanMaiLesson(nickel=0.2).remark("nickel")
    assert "data sheets" in said
    assert "heat treatment of their own" in said
    job = SanMaiLesson(nickel=0.5)
    blade = job.blade.side("right", 0.1, 400, 330)
    bright = see(job.billet, blade, {"nickel": 1.0, "1084": 0.0, "wrought iron": 0.0})
    stripe = (bright.tone[:, 200] * bright.cover[:, 200]).sum() * 0.1
    # a layer t thick is t / ((S - e) / 2) × H high on a flat bevel: similar triangles
    sheet = 0.5 * 4 / 13
    assert stripe == pytest.approx(sheet / 1.8 * 32, abs=0.15)
    assert "nickel sheets of 0.5 mm" in SanMaiLesson.scene(nickel=0.5).alt


@pytest.mark.parametrize(
    ("changed", "words"),
    [
        ({"wave": 0.2}, "line waves"),
        ({"spacing": 20}, "no dies yet"),
        ({"kind": 2}, "the core did not"),
        ({"height": 40}, "both lines"),
    ],
)
def test_remarks(changed, words):
    said = SanMaiLesson(**changed).remark(next(iter(changed)))
    assert words in said
    assert bool(said) == bool(words)


def test_alt_text_follows_the_state():
    words = SanMaiLesson.scene(off=0.3).alt
    assert "0.30 mm off centre towards the left" in words
    assert "Left side: line 12.4 mm above the edge; right side: line 1.8 mm" in words
    inch = SanMaiLesson.scene(height=31.75, units=Units.INCH_FRACTION)
    assert "1 1/4 in high" in inch.alt
    assert "mm" not in lines(inch)


@pytest.mark.parametrize(
    ("check", "answer", "slips"),
    [
        (asked.LINE_HEIGHT, "7.5 mm", {"3.75": "FULL_SPINE", "18.75": "FULL_CORE"}),
        (asked.OFF_CENTRE, "0.5 mm", {"1.0": "BOTH_SIDES", "0.75": "HALF_CORE"}),
        (asked.HIGHER_LINE, "12.75 mm", {"7.85": "ADDED", "2.25": "OTHER_SIDE"}),
    ],
)
def test_checks_know_the_answer_and_the_slips(check, answer, slips):
    judges(check, answer, slips)
    with pytest.raises(KitError, match="Give"):
        check.mark("abc")


def test_tiles_are_drawn_from_the_ideas():
    question = SanMaiLesson.question
    # by hand: 7.11; less 0.3; less 0.3 × 17.78; less twice that
    assert question.values() == pytest.approx([1.78, 7.11, 6.81, -3.56], abs=0.01)
    assert [question.show(value) for value in question.values()] == [
        "left 12.4 mm, right 1.8 mm",
        "left and right 7.1 mm",
        "left 7.1 mm, right 6.8 mm",
        "left 17.8 mm, right no core",
    ]
    right = expected(asked.LOWER.value(asked.GIVEN))
    assert right.off == pytest.approx(0.3)
    assert right.forged_core == pytest.approx(1.2)


def test_nothing_gives_the_answer_away_before_the_prediction():
    predict, view, *_ = lesson("07")
    assert "Largest" not in view.numbers.value
    assert "17.8" not in view.numbers.value
    assert "Band" not in view.picture.alt
    assert "band" not in view.picture.alt
    beside = np.asarray(view.shown.image.convert("L"))[EDGE - 30 : EDGE + 30, 640:]
    assert np.ptp(beside) == 0, "paper only"
    predict.tiles.value = 0
    predict.observe_now()
    assert "You predicted it" in view.says.value
    assert "Line left / right</dt><dd>12.4 / 1.8 mm" in view.numbers.value
    assert "0.40 mm off centre" in view.picture.alt
    beside = np.asarray(view.shown.image.convert("L"))[EDGE - 30 : EDGE + 30, 640:]
    assert np.ptp(beside) > 0


def test_film_moves_the_core_to_the_answer():
    offs = [frame["off"] for frame in SanMaiLesson.film]
    assert offs[0] == 0
    assert offs[-1] == pytest.approx(0.3)
    assert all(later > earlier for earlier, later in itertools.pairwise(offs))
