"""Stars of a twisted bar, and close lines: the words against what the engine cuts."""

import math
import re
from itertools import pairwise

import numpy as np
import pytest

from kit.basics.units import Units
from kit.classroom.homework import h2, judged
from kit.classroom.homework.h2 import H2
from kit.course.lessons import twist, twist_ideas
from kit.course.lessons.reading_ideas import SHADE_CHECK
from kit.course.lessons.twist_drawing import along
from kit.course.questions import CARDS
from kit.forge.billet import Billet
from kit.forge.stack import Stack
from kit.section.surface import Plane
from kit.section.trace import see

ODD, EVEN = 0, 1
TURN, LAYER, ACROSS = 50.0, 0.5, 16.0
PIXEL = 0.02  # mm
CARD = next(card for card in CARDS if card.number == 18)
BLACK_WHITE = {"1084": 0.0, "15N20": 1.0}


def stars(stack, height):
    """Give the brightness of each star's two halves, beside its middle line.

    The layers lie flat where the twist begins, and after every half turn.
    """
    bar = twist.bar(across=ACROSS, layer=LAYER, stack=stack, turn=TURN, hand=0)
    plane = along(bar, height, columns=int(200 / PIXEL), rows=41, pixel=PIXEL)
    tone = see(bar, plane, BLACK_WHITE).tone
    for star in np.arange(1, 8) * TURN / 2:
        at = round(star / PIXEL)
        near = tone[:, at - 5 : at + 5]
        yield np.array([near[:18], near[23:]])


def test_on_the_axis_of_an_odd_stack_all_stars_are_alike():
    first, *others = stars(ODD, 0.0)
    assert all(np.abs(first - other).mean() < 0.05 for other in others)


def test_on_the_axis_of_an_even_stack_stars_are_half_and_half_then_mirrored():
    shown = list(stars(EVEN, 0.0))
    for star in shown:
        assert star.mean() == pytest.approx(0.5, abs=0.05)
        assert star.min() < 0.1
        assert star.max() > 0.9
    for one, other in pairwise(shown):
        assert np.abs(one - other[::-1]).mean() < 0.05  # its mirror image
        assert np.abs(one - other).mean() > 0.6


def test_a_little_off_the_axis_dark_and_bright_stars_take_turns():
    means = [star.mean() for star in stars(EVEN, LAYER / 2)]
    assert all(mean < 0.1 or mean > 0.9 for mean in means)
    assert all(abs(one - other) > 0.8 for one, other in pairwise(means))


@pytest.mark.parametrize(
    "words",
    [twist.TwistLesson(stack=EVEN).remark("stack"), CARD.answer],
    ids=["remark", "card"],
)
def test_an_even_stack_is_told_as_it_is_cut(words):
    for said in ("on the axis", "half dark", "mirror image", "off it", "take turns"):
        assert said in words.lower()


def test_lesson_11_asks_for_shades_where_there_are_any():
    working = SHADE_CHECK.working(SHADE_CHECK.given)
    for words in (SHADE_CHECK.ask, working[0], SHADE_CHECK.tips[0]):
        assert "off" in words
        assert "axis" in words


STAR_WORDS = {
    "one a turn": twist_ideas.ONE_PER_TURN.hint,
    "lesson 04": twist_ideas.STAR_COUNT.prompt,
    "H2": next(part.prompt for part in H2.parts if part.number == 5),
    "H2 working": h2.spacings_working({"stretch": 200.0, "p": 50.0})[0],
}


@pytest.mark.parametrize("words", STAR_WORDS.values(), ids=STAR_WORDS)
def test_a_star_is_where_layers_lie_flat(words):
    assert "flat" in words
    assert "on edge" not in words


def test_between_two_stars_layers_stand_on_edge():
    hint = twist_ideas.FOUR_PER_TURN.hint
    assert re.search(r"on edge.*between two stars", hint)
    assert "flat" not in hint


def test_close_lines_are_cut_steeply():
    """A layer t met at an angle a is t / sin(a) wide, so the model answer must say so."""
    bar = Billet(source=Stack.alternate("1084", "15N20", pieces=20, thickness=0.5))
    per_mm = []
    for angle in (10, 30, 80):
        lean = math.radians(angle)
        face = Plane(
            size=bar.size, centre=(75.0, 0.0, 0.0), right=(0.0, 1.0, 0.0),
            up=(math.cos(lean), 0.0, math.sin(lean)), columns=1, rows=400, pixel=0.02,
        )  # fmt: skip
        tone = see(bar, face, BLACK_WHITE).tone[:, 0]
        per_mm.append(np.count_nonzero(np.diff(tone > 0.5)) / (400 * 0.02))
    assert per_mm == sorted(per_mm)
    best = judged.HANDOUT.models({}, Units.MM)[2]
    assert re.search(r"lines lie close, the surface cuts steeply across", best)
    assert not re.search(r"close, the surface runs along", best)
