"""Impossible wishes of the forge: one sentence each, and the old bar is still there."""

import numpy as np
import pytest
from steps import stack

from kit.basics.errors import KitError
from kit.basics.units import Units
from kit.classroom.paper.operations import of_billet
from kit.course.anvil.desk import Desk
from kit.course.anvil.sentence import does
from kit.course.lessons import press
from kit.course.lessons.twist import TwistLesson
from kit.course.views.lesson import view_of
from kit.forge.billet import Billet
from kit.forge.bundle import Bundle
from kit.forge.stack import demo_stack
from kit.forge.steps import Dent, DrawOut, Fold, Hammer, RoundUp, Twist
from kit.metal import etch
from kit.section.grind import BladeGrind
from kit.section.outline import Outline
from kit.section.surface import cut
from kit.section.trace import see

BAR = Billet(source=stack(7))
OUTLINE = Outline(family="drop", length=200, height=30)


@pytest.mark.parametrize(
    ("wish", "sentence"),
    [
        (
            lambda: BAR.then(Dent(way="cut and forged", across=8, depth=15, spacing=12)),
            "half of a bar",
        ),
        (lambda: Billet(source=Bundle(bars=(BAR, BAR.then(Fold())))), "one length"),
        (
            lambda: BladeGrind(
                outline=OUTLINE, kind="part-height", spine=4, edge=0.4, bevel=40
            ),
            "height of the blade",
        ),
        (
            lambda: BladeGrind(outline=OUTLINE, kind="flat", spine=2, edge=3),
            "thickness of the spine",
        ),
        (lambda: BAR.then(*[Fold()] * 10_000), "from 0 to 200 steps"),
        (lambda: Hammer(depth=1, spacing=20, seed="one"), "Dice throw must be"),
        (lambda: Hammer(depth=1, spacing=20, seed=1.5), "Dice throw must be"),
        (
            lambda: Dent(way="hammer", across=8, spacing=12),
            "one of: cut and forged, pressed",
        ),
        (lambda: Fold(1), "needs a name for each value, as in Fold"),
        (lambda: DrawOut(12), r"as in DrawOut\(thickness=…\)\. Given without one: 12"),
        (lambda: setattr(BAR, "steps", ()), "A Billet stays as it was made"),
        (lambda: BAR.then("fold"), r"steps one by one, like Fold\(\)"),
        (lambda: Billet(source=BAR), "Source must be a Stack or a Bundle"),
        (lambda: Billet.model_validate([1]), "must be made of named values"),
        (
            lambda: Billet.model_validate_json("[{"),
            "it is not written as the kit writes it",
        ),
        (lambda: Billet.model_validate({"self": 1}), "needs a value for 'source'"),
    ],
)
def test_one_sentence(wish, sentence):
    with pytest.raises(KitError, match=sentence) as error:
        wish()
    assert "\n" not in str(error.value)
    assert len(str(error.value)) < 250


def test_a_twist_beyond_hot_torsion_is_drawn_with_a_warning():
    # γ / √3 = π d / p √3 at the skin; tests report failure at about 3
    gentle = TwistLesson.scene(
        across=16, layer=1, stack=0, turn=50, hand=0, drawn=1, neighbour=0, ground=2
    )
    wild = TwistLesson.scene(
        across=24, layer=1, stack=0, turn=10, hand=0, drawn=1, neighbour=0, ground=2
    )
    assert "Take care" not in gentle.says
    assert "Take care" in wild.says
    assert wild.alt
    given = Billet(source=demo_stack()).then(DrawOut(thickness=32.1, width=32.1), RoundUp())
    for turn, warned in ((50, False), (3, True)):
        bar = given.then(Twist(turn_length=turn))
        history = Desk.of(bar).history
        told = does(history, len(history.acts), Units.MM), of_billet(bar)[-1].told
        assert all(("may tear the bar" in one) == warned for one in told)
        # π · 36.22 / 3 / √3: by hand
        assert all(("by 21.9;" in one) == warned for one in told)


@pytest.mark.parametrize("number", ["05", "06", "04"])
def test_views_keep_the_old_picture(number):
    view = view_of(number)
    for key, control in view.controls.items():
        if not hasattr(control, "stops"):
            continue
        before = view.picture.alt, view.state
        control._handle_custom_msg({"typed": "100000"}, [])
        assert (view.picture.alt, view.state) == before, key
        assert view.says.value


@pytest.mark.parametrize(
    ("key", "good", "bad", "sentence"),
    [
        ("05", {"tool": press.BALL}, {"depth": 6.0}, "from 0 to 4.00 mm deep"),
        ("05", {"tool": press.BALL}, {"depth": 10.0}, "half of a bar 8.00 mm"),
        ("05", {"tool": press.WEDGE}, {"depth": 7.0}, "Drag must be from 0 to 64"),
        ("06", {"kind": 1, "height": 20.0}, {"bevel": 25.0}, "height of the blade"),
        ("06", {"spine": 2.0}, {"edge": 3.0}, "thickness of the spine"),
        ("04", {"across": 10.0}, {"ground": 9.0}, "at most half the bar"),
    ],
    ids=str,
)
def test_a_view_says_the_sentence_and_keeps_the_old_picture(key, good, bad, sentence):
    view = view_of(key)
    view.set(**good)
    before = view.picture.alt, view.shown
    view.set(**bad)
    assert sentence in view.says.value
    assert (view.picture.alt, view.shown) == before


def test_a_bar_of_the_most_steps_is_seen():
    bar = BAR.then(*[DrawOut(thickness=12 + step % 2) for step in range(200)])
    plane = cut(bar.size, angle=90, columns=60, rows=60, pixel=0.2)
    assert np.isfinite(see(bar, plane, etch.tones(bar.source.steels)).tone).all()
