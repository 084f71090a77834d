"""What was declared alike is alike, whatever was worked out of it and kept meanwhile."""

from contextlib import suppress
from functools import cached_property

import pytest

from kit import Billet, Fold, Stack
from kit.basics.declare import Declared
from kit.course.lessons import (
    twist,
)
from kit.course.map import LESSONS
from kit.forge.bundle import Bundle
from kit.section.outline import Outline


def bars():
    """Make two bars of like kind."""
    one = Stack.alternate("1084", "15N20", pieces=7, thickness=2.0)
    return Billet(source=one).then(Fold()), Billet(source=one).then(Fold())


MAKERS = {
    "stack": lambda: Stack.alternate("1084", "15N20", pieces=7, thickness=2.0),
    "billet": lambda: bars()[0],
    "side by side": lambda: Bundle(bars=bars()),
    "stacked": lambda: Bundle(bars=bars(), laid="stacked"),
    "billet of a bundle": lambda: Billet(source=Bundle(bars=bars())),
    "outline": lambda: Outline(family="drop", length=150, height=30),
    **LESSONS,
}


def everything(made):
    """Ask for all that is kept once it is worked out, of a thing and of what is in it."""
    for kind in type(made).__mro__:
        for name, member in vars(kind).items():
            if isinstance(member, cached_property):
                with suppress(AttributeError):  # what a bundle has not, as a stack has
                    getattr(made, name)
    for name in type(made).model_fields:
        inside = getattr(made, name)
        for part in inside if isinstance(inside, tuple) else (inside,):
            if isinstance(part, Declared):
                everything(part)


@pytest.mark.parametrize("name", MAKERS)
def test_alike_stays_alike(name):
    one, other = MAKERS[name](), MAKERS[name]()
    everything(one)
    assert one == other
    everything(other)
    assert one == other
    assert hash(one) == hash(other)
    assert one != "something else"


def test_a_page_can_be_set_back_and_forth_with_two_bars():
    for ground in (0, 5, 0, 5):
        assert twist.TwistLesson.scene(neighbour=2, ground=ground).alt
        assert twist.TwistLesson.scene(neighbour=2, ground=ground, hand=1).alt
