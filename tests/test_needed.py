"""The stock that a bar needs: as the plan of a billet has it, and never too little."""

import pytest
from smith import MADE, made

from kit.basics.errors import KitError
from kit.basics.units import UNITS, format_cut_length
from kit.classroom.paper.kinds import Asked, kinds
from kit.course.anvil.acts import Laid
from kit.course.anvil.needed import needed, to_saw
from kit.forge.billet import Billet
from kit.forge.stack import Layer, Stack
from kit.forge.steels import steel
from kit.forge.steps import DrawOut, Grind
from kit.shop.plan import Plan, example
from kit.shop.sawing import cut_list, section_in_words
from kit.shop.work import Losses, Wanted

NOTHING = Losses(
    weld_scale=0, forge_scale=0, clean_up=0, crop=0, kerf=0, grind=0
)  # fmt: skip


@pytest.mark.parametrize("cycles", range(5))
@pytest.mark.parametrize("thickness", [3.0, 5.0, 8.0])
def test_it_agrees_with_the_plan_of_a_billet(cycles, thickness):
    """The plan thins sections and reckons them exactly; here the length makes up for it."""
    class_bar = example()
    plan = Plan(
        outer=class_bar.outer,
        inner=class_bar.inner,
        wanted=Wanted(length=254, width=38.1, thickness=thickness),
        cycles=cycles,
    )
    stack, steps = plan.billet.source, plan.billet.steps
    shorter = stack.length * plan.wanted.length / plan.billet.size.length
    bar = Billet(
        source=Stack(layers=stack.layers, width=stack.width, length=shorter), steps=steps
    )
    pieces = needed(bar)
    assert {one.length for one in pieces} == {pieces[0].length}
    assert pieces[0].length == pytest.approx(plan.exact_length, rel=0.01)
    assert {one.steel: one.count for one in pieces} == {
        plan.outer.steel: plan.outer_pieces,
        plan.inner.steel: plan.inner_pieces,
    }


def volume_of(billet):
    """Of what a bar was stacked from: by the screen, without losses."""
    source = billet.source
    if isinstance(source, Stack):
        return source.length * source.width * source.thickness
    return sum(bar.size.volume for bar in source.bars)


@pytest.mark.parametrize("name", MADE)
def test_without_losses_it_is_the_steel_of_the_bar(name):
    """As much as the bar weighs and what the steps themselves take, no more, no less."""
    bar = made(name)
    pieces = needed(bar, NOTHING)
    steel_in = sum(one.thickness * one.width * one.length * one.count for one in pieces)
    assert steel_in >= bar.size.volume * (1 - 1e-6)
    if isinstance(bar.source, Stack) and not any(
        isinstance(one, Grind) for one in bar.steps
    ):
        assert steel_in == pytest.approx(volume_of(bar), rel=1e-6)


@pytest.mark.parametrize("name", MADE)
def test_every_loss_asks_for_more_and_all_metals_are_there(name):
    bar = made(name)
    least = needed(bar, NOTHING)
    usual = needed(bar)
    assert len(usual) == len(least)
    for one, other in zip(least, usual, strict=True):
        assert other.length > one.length
        assert other.count == one.count
    assert {one.steel for one in usual} == set(bar.source.steels)


def test_pieces_of_one_bar_need_it_once():
    """Three pieces of a bar are one bar, three times as long as a piece, and saw cuts."""
    stack = Stack.alternate("1084", "15N20", pieces=9, thickness=3, width=25, length=200)
    bar = Billet(source=stack).then(DrawOut(thickness=12))
    laid = Laid(pieces=3).done_to(bar)
    pieces = needed(laid, NOTHING)
    assert sum(one.count for one in pieces) == 9
    assert pieces[0].length == pytest.approx(stack.length)
    kerfs = needed(laid, Losses(**{**NOTHING.model_dump(), "kerf": 3.0}))
    stretched = bar.size.length / stack.length
    assert kerfs[0].length == pytest.approx(stack.length + 2 * 3.0 / stretched)


def test_five_metals_are_shared_out_over_whole_bars():
    names = ("1084", "15N20", "1095", "O1", "1075")
    layers = tuple(Layer(steel=name, thickness=3) for name in names) * 4
    bar = Billet(source=Stack(layers=layers, width=30, length=300))
    sawn = to_saw(bar)
    assert {one.rack.steel for one in sawn} == set(names)
    for one in sawn:
        used = one.pieces * one.length + one.offcut
        assert used <= one.rack.length <= used + one.pieces * one.kerf + 1e-9
        dense = steel(one.rack.steel).density
        volume = one.pieces * one.length * 90
        assert one.grams == pytest.approx(volume * dense / 1000)
    long = Billet(source=Stack(layers=layers, width=30, length=1500))
    with pytest.raises(KitError, match="cannot be cut from bars 1000 mm long"):
        to_saw(long)


@pytest.mark.parametrize("units", UNITS)
def test_the_paper_tells_every_piece_and_a_plan_keeps_its_own_reckoning(units):
    for words in ("feather", "plan"):
        asked = Asked(recipe=words, units=UNITS[units])
        pages = kinds()["stock"].pages(asked)
        told = " ".join(text.get_text() for page in pages for text in page.axes.texts)
        sawn = cut_list(asked.about) if words == "plan" else to_saw(asked.about.billet)
        for one in sawn:
            assert format_cut_length(one.length, UNITS[units]) in told
            section = section_in_words(one.rack.thickness, one.rack.width, UNITS[units])
            assert section in told
        assert (" mm" in told) == (units == "mm")
        assert "placeholders (common practice, no source)" in told
