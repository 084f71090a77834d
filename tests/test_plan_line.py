"""A plan's line gives the same plan again; a mistyped one gets one sentence."""

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from kit.basics.errors import KitError
from kit.forge.steels import GRADES
from kit.shop.plan import Plan, example
from kit.shop.plan_line import from_line, is_line, to_line
from kit.shop.recipes.shorthand import sealed
from kit.shop.sawing import cut_list
from kit.shop.work import Losses, Rack, Wanted


def between(low, high):
    return st.floats(low, high, allow_nan=False)


@st.composite
def plans(draw):
    """Any plan whose bars can be bought; those that cannot be forged are dropped."""
    width = draw(between(5, 150))
    racks = [
        Rack(
            steel=draw(st.sampled_from(list(GRADES))),
            thickness=draw(between(0.1, 25)),
            width=width,
            length=draw(between(50, 6000)),
        )
        for _ in range(2)
    ]
    thicker = draw(st.lists(between(0.1, 25), max_size=3))
    others = [racks[0].model_copy(update={"thickness": thick}) for thick in thicker]
    losses = Losses(
        weld_scale=draw(between(0, 0.3)),
        weld_heats=draw(st.integers(1, 6)),
        forge_scale=draw(between(0, 0.15)),
        forge_heats=draw(st.integers(1, 12)),
        crop=draw(between(0, 20)),
        kerf=draw(between(0, 4)),
        grind=draw(between(0, 2)),
    )
    try:
        return Plan(
            outer=racks[0],
            inner=racks[1],
            outer_pieces=draw(st.integers(len(others) + 1, 15)),
            outer_mixed=others,
            inner_pieces=draw(st.integers(1, 15)),
            wanted=Wanted(
                length=draw(between(20, 2000)),
                width=draw(between(5, 150)),
                thickness=draw(between(0.5, 10)),
            ),
            cycles=draw(st.integers(0, 6)),
            draw_to=draw(between(8, 25)),
            losses=losses,
        )
    except KitError:
        assume(False)


@settings(max_examples=100, deadline=None)
@given(plan=plans())
def test_a_plan_comes_back_to_the_last_figure(plan):
    again = from_line(to_line(plan))
    assert again == plan
    assert to_line(again) == to_line(plan)


def test_the_card_of_the_class_gives_the_same_numbers():
    plan = from_line(to_line(example()))
    # the same as in test_plan.py, where they are worked out by hand
    assert plan.start_length == 102
    assert (round(plan.grams_in), round(plan.grams_out)) == (823, 380)
    assert plan.billet.layers == 88
    assert [(sawn.pieces, sawn.length) for sawn in cut_list(plan)] == [(6, 102), (5, 102)]


def test_a_line_may_be_broken_between_words():
    line = to_line(example())
    assert from_line(line.replace(" ", "\n   ")) == example()


@settings(max_examples=60, deadline=None)
@given(place=st.integers(0, 200), sign=st.sampled_from("0123456789xAz=|(,"))
def test_a_mistyped_letter_is_noticed(place, sign):
    line = to_line(example())
    assume(place < len(line) and line[place] not in (" ", sign))
    assume(line[place].casefold() != sign.casefold())
    with pytest.raises(KitError):
        from_line(line[:place] + sign + line[place + 1 :])


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ("nonsense", "must read 'plan"),
        ("plan 254x38.1x5: 6*(1084 3.175x38.1x1000)", "must read 'plan"),
        ("cycles=3 cycles=3", "must read"),
    ],
)
def test_another_line_gets_one_sentence(words, says):
    with pytest.raises(KitError, match=says):
        from_line(sealed(words))


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ("cycles=3", "cycles=9", "Cut and stack must be a whole number from 0 to 6"),
        ("cycles=3", "crop=3", "The work in a plan's line"),
        ("grind=0.5", "grind=0.5 grind=1", "grind is not one number"),
        ("kerf=2", "kerf=1e999", "Saw cut must be from 0 to 4 mm"),
        ("1084", "9999", "I do not know a steel called '9999'"),
        ("6*(", "0*(", "must read"),
        ("6*(", "1*(1084 6x38.1x900)+99*(", "Pieces A must be"),
        ("6*(", "1*(1095 3x38.1x900)+5*(", "all are 1095"),
        ("6*(", "1*(1084 3x40x900)+5*(", "one width"),
        ("6*(", "99*(", "Pieces A must be a whole number from 1 to 15"),
    ],
)
def test_an_impossible_plan_gets_one_sentence(old, new, says):
    words = to_line(example()).rpartition(" ~ ")[0]
    with pytest.raises(KitError, match=says.replace("(", r"\(")) as refused:
        from_line(sealed(words.replace(old, new)))
    assert str(refused.value).count("\n") == 0


def test_a_line_without_its_sum_is_refused():
    line = to_line(example())
    with pytest.raises(KitError, match="four letters"):
        from_line(line.rpartition(" ~ ")[0])
    with pytest.raises(KitError, match="at most"):
        from_line("9" * 7000)


def test_plans_and_recipes_are_told_apart():
    assert is_line(to_line(example()))
    assert not is_line("150x38.1: 1084 3, 15N20 3 ~ AAAA")
