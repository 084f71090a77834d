"""Bars chosen from racks at random: what is taken, left, missing and paid; by hand, too."""

import itertools
import random
from collections import Counter
from contextlib import suppress

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kit.basics.errors import KitError
from kit.basics.typed import parse_length
from kit.basics.units import Units, format_cut_length
from kit.shop import rack
from kit.shop.from_rack import SHORTEST, planned_from
from kit.shop.plan import example
from kit.shop.plan_told import HELD, told
from kit.shop.sawing import fitting
from kit.shop.work import Rack, Wanted

PLAN = example()
FLUSH = 1.0  # mm: bars whose widths differ by no more lie in one stack
ENOUGH = "3 * 1084: 3.175 x 38.1 x 400 mm @ 8\n2 * 15N20: 1.5875 x 38.1 x 400 mm @ 6"


def racks(seed):
    """Give any small rack of the plan's steels: thick and thin, too little to plenty."""
    draw = random.Random(seed)  # noqa: S311  (no secret)
    dear = draw.choice(((0,), (4, 10, 20), (0, 4, 10)))
    return tuple(
        rack.OnRack(
            steel=name, thickness=draw.choice((1.5, 2, 3, 6)),
            width=draw.choice((38, 38.1, 38.9, 40)), length=draw.randint(60, 420),
            count=draw.randint(1, 3), price=draw.choice(dear),
        )
        for name in ("1084", "15N20")
        for _ in range(draw.randint(1, 5))
    )  # fmt: skip


def worth(bars):
    """Give length by section, mm, and money of a rack; what is short is worth its share."""
    lengths, money = Counter(), 0.0
    for bar in bars:
        lengths[bar.section] += bar.count * bar.length
        money += bar.count * bar.price
    return lengths, money


def divided(pieces, sizes):
    """Give every way of dividing some pieces among bars of some thicknesses."""
    return itertools.combinations_with_replacement(sizes, pieces)


def can_be_sawn(bars, chosen, each):
    """Say whether pieces so long, mm, of sections as often as chosen are on the rack.

    Of bars (steel, thickness) that lie in one stack.

    By itself: a bar gives as many pieces as fit, with a cut between two of them.
    """
    cut = PLAN.losses.kerf
    for section, count in Counter(chosen).items():
        found = 0
        for bar in bars:
            if bar.section[:2] == section:
                many = 0
                while (many + 1) * each + many * cut <= bar.length + 1e-9:
                    many += 1
                found += many * bar.count
        if found < count:
            return False
    return True


def possible(bars, units):
    """Say whether any choice of the rack's bars gives the bar wanted: all are tried.

    Only the thickness of the whole stack decides how long its pieces must be, so a plan
    of bars that have the mean thickness knows it.
    """
    lengths = {}
    for width in {bar.width for bar in bars}:
        near = [bar for bar in bars if width <= bar.width <= width + FLUSH]
        have = [
            sorted({bar.section[:2] for bar in near if bar.steel == name})
            for name in ("1084", "15N20")
        ]
        ways = [divided(n, sizes) for n, sizes in zip((6, 5), have, strict=True) if sizes]
        if len(ways) < 2:
            continue
        for outer, inner in itertools.product(*map(list, ways)):
            thick = round(sum(one[1] for one in (*outer, *inner)), 6)
            if (thick, width) not in lengths:
                lengths[thick, width] = length_of(thick, width)
            each = parse_length(format_cut_length(lengths[thick, width], units))
            if each and can_be_sawn(near, (*outer, *inner), each):
                return True
    return False


def length_of(thick, width):
    """Give how long pieces of a stack so thick are cut, mm; 0 if it cannot be forged."""
    mean = {"thickness": thick / 11, "width": width}
    try:
        outer, inner = (Rack(steel=name, **mean) for name in ("1084", "15N20"))
        return PLAN.made_of([outer], [inner]).start_length
    except KitError:
        return 0


@settings(max_examples=25, deadline=None)
@given(seed=st.integers(0, 10**6), units=st.sampled_from(list(Units)))
def test_what_is_taken_was_there_and_makes_the_stack_and_its_price(seed, units):
    """A law over racks at random, with two and more thicknesses of one steel."""
    bars = racks(seed)
    try:
        made = planned_from(PLAN, bars, units)
    except KitError:
        assert not possible(bars, units), "no bar is refused that can be had"
        return
    (had, worth_had), (kept, worth_kept) = worth(bars), worth(made.left)
    taken, scrap, pieces, thick = Counter(), Counter(), Counter(), 0.0
    for one in made.sawn:
        section = one.rack.section
        taken[section] += one.rack.length - one.offcut
        scrap[section] += one.offcut if one.offcut < SHORTEST else 0
        pieces[one.rack.steel] += one.pieces
        thick += one.pieces * one.rack.thickness
        assert one.length >= made.plan.exact_length
        assert one.offcut >= 0
    assert {one.rack.section for one in made.sawn} <= set(had)
    for section in {*had, *kept}:
        assert had[section] == pytest.approx(
            kept[section] + taken[section] + scrap[section]
        ), "left and taken are what was there"
    assert made.cost == pytest.approx(worth_had - worth_kept), "what is taken is paid"
    for bar, count in made.missing:
        pieces[bar.steel] += count
        thick += count * bar.thickness
    assert pieces == {"1084": 6, "15N20": 5}
    stack = made.plan.billet.source
    assert thick == pytest.approx(stack.thickness)
    assert thick == pytest.approx(made.plan.works[0].before.thickness)
    wide = [bar.width for bars in made.plan.bars for bar in bars]
    assert stack.width == min(wide), "as wide as the narrowest"
    assert max(wide) - stack.width <= FLUSH + 1e-9
    assert {one.rack.width for one in made.sawn} <= set(wide)
    if not made.missing and units is Units.MM:  # what stands out is weighed, too
        grams = sum(one.grams for one in made.sawn)
        assert made.plan.grams_in == pytest.approx(grams, rel=1e-4)
    assert (not made.missing) == possible(bars, units), "what can be had is found"


WIDE = [("25", "1"), ("32", "1 1/4"), ("38", "1 1/2"), ("50", "2")]  # usual, mm and in
THICK = {"2": "0.079", "3": "0.118", "4": "0.1575"}
LONG = {"420": "16.54", "560": "22.05", "700": "27.56"}


def typed(seed, wide, metric):
    """Type a rack, each bar in mm or, of the sizes usual there, in inches.

    One thickness a steel: which of two takes less steel hangs by a hair.
    """
    draw, lines = random.Random(seed), []  # noqa: S311  (no secret)
    for name in ("1084", "15N20"):
        for thick in draw.sample(sorted(THICK), 1):
            for _ in range(4):
                long, many = draw.choice(sorted(LONG)), draw.randint(1, 2)
                mm = f"{many} * {name}: {thick} x {wide[0]} x {long} mm"
                inch = f"{many} * {name}: {THICK[thick]} x {wide[1]} x {LONG[long]} in"
                lines.append(mm if metric(len(lines)) else inch)
    return rack.from_lines("\n".join(lines))


def stacked(made):
    """Give the pieces of a plan as a smith sees them, to a tenth; and what lacks."""
    lacks = Counter({bar.steel: count for bar, count in made.missing})
    bars = (bar for bars in made.plan.bars for bar in bars)
    return Counter((bar.steel, round(bar.thickness, 1)) for bar in bars), lacks


def sawn(made):
    """Give the bars that are sawn, to a centimetre, and how many pieces each gives."""
    bars = ((one.rack, one.pieces) for one in made.sawn)
    return Counter((bar.steel, round(bar.length, -1), pieces) for bar, pieces in bars)


def by_a_hair(bars, each):
    """Say whether a piece more or less comes from a bar, as pieces are a little longer."""
    a_little = (each * 0.975, each * 1.025)
    return any(len({fitting(bar, one, 2) for one in a_little}) > 1 for bar in bars)


@pytest.mark.parametrize("wide", WIDE, ids="=".join)
@pytest.mark.parametrize("seed", range(6))
def test_a_rack_typed_in_the_other_unit_or_in_both_gives_the_same_plan(seed, wide):
    """A law: what a smith grinds off decides nothing, and every weight stays counted.

    Where bars of one unit are enough they are taken: then nothing is ground.
    """
    wanted = Wanted(length=200, width=float(wide[0]), thickness=5)
    plan = PLAN.model_copy(update={"wanted": wanted})
    metric = planned_from(plan, typed(seed, wide, lambda _: True))
    for other in (lambda _: False, lambda at: at % 2, lambda at: (at + 1) % 2,
                  lambda at: at < 4, lambda at: at % 4 < 2):  # fmt: skip
        bars = typed(seed, wide, other)
        made = planned_from(plan, bars)
        sizes = {bar.width for bars in made.plan.bars for bar in bars}
        assert stacked(made) == stacked(metric)
        assert made.each == pytest.approx(metric.each, rel=0.025)
        used_alike = len({bar.width for bar in bars}) == len(sizes)
        if used_alike and not by_a_hair(bars, made.each):
            assert sawn(made) == sawn(metric)
        for name in ("1084", "15N20"):
            off, before = (
                sum(one.rack.length - one.offcut for one in some.sawn
                    if one.rack.steel == name)
                for some in (made, metric)
            )  # fmt: skip
            assert off == pytest.approx(before, rel=0.025)
        said = " ".join(told(made))
        assert ("ground flush" in said) == (len(sizes) > 1)
        assert "thicker ones lie outside" not in said or len(stacked(made)[0]) > 2
        grams = sum(one.grams for one in made.sawn)  # 2 mm and 0.079 in are one size
        assert made.plan.grams_in == pytest.approx(grams, rel=0.004)


def test_bars_nearly_as_wide_lie_in_one_stack_as_on_paper():
    bars = rack.from_lines("2 * 1084: 3 x 1 1/2in x 400mm\n2 * 15N20: 1.5 x 38 x 400 mm")
    made = planned_from(PLAN, bars)
    assert not made.missing
    assert made.plan.billet.source.width == 38
    # 6 pieces of 3 mm stand out by 0.1 mm; 7.85 g/cm³
    first = made.plan.stages()[0]
    gone = 6 * 3 * 0.1 * made.each * 7.85e-3
    assert first.grams_before - first.grams_after == pytest.approx(gone, rel=1e-3)
    words = " ".join(told(made))
    assert "Bars 38.0 mm and 38.1 mm wide lie in one stack" in words
    apart = planned_from(PLAN, rack.from_lines(
        "2 * 1084: 3 x 40 x 400\n2 * 15N20: 1.5 x 38.1 x 400"))  # fmt: skip
    assert apart.missing, "nobody grinds off two millimetres unasked"
    assert "is there" in " ".join(told(apart))


def of_one_size(bars):
    """Give every part of a rack in which each steel has one thickness and width."""
    have = [
        {bar.section for bar in bars if bar.steel == name} for name in ("1084", "15N20")
    ]
    for both in itertools.product(*have):
        yield tuple(bar for bar in bars if bar.section in both)


@settings(max_examples=12, deadline=None)
@given(seed=st.integers(0, 10**6))
def test_more_bars_to_choose_from_never_make_it_dearer(seed):
    """Two thicknesses of one steel are mixed only where one would lack or cost more."""
    bars = [bar.model_copy(update={"price": bar.price or 7}) for bar in racks(seed)]
    try:
        made = planned_from(PLAN, bars)
    except KitError:
        return
    lacks = sum(count for _, count in made.missing)
    for part in of_one_size(bars):
        with suppress(KitError):
            one = planned_from(PLAN, part)
            other = sum(count for _, count in one.missing)
            assert lacks <= other
            if lacks == other and lacks:  # what lacks has no price: least steel is chosen
                assert made.plan.grams_in <= one.plan.grams_in + 1e-9
            elif lacks == other:
                assert made.cost <= one.cost + 1e-9
                mixed = len(made.plan.stock) > 2
                assert not mixed or made.cost < one.cost, "mixed for nothing"


def test_what_it_costs_and_leaves_as_on_paper():
    made = planned_from(PLAN, rack.from_lines(ENOUGH))
    # pieces of 102 mm and cuts of 2 mm: three of 1084 from a bar, 400 - 312 = 88 mm left,
    # twice; of 15N20 three from the first bar, two from the other, 400 - 208 = 192 mm left
    assert not made.missing
    assert [(bar.steel, bar.count, round(bar.length)) for bar in made.left] == [
        ("1084", 2, 88), ("1084", 1, 400), ("15N20", 1, 88), ("15N20", 1, 192),
    ]  # fmt: skip
    assert made.cost == pytest.approx(2 * 8 * 312 / 400 + 6 * (312 + 208) / 400)
    assert "costs 20.28" in " ".join(told(made))


def test_of_two_sizes_that_do_the_one_that_takes_less_steel_is_chosen():
    bars = rack.from_lines(f"{ENOUGH}\n3 * 1084: 4 x 38.1 x 400 mm")
    grams = []
    for thick in (3.175, 4):
        outer = PLAN.outer.model_copy(update={"thickness": thick})
        grams.append(PLAN.made_of([outer], [PLAN.inner]).grams_in)
    made = planned_from(PLAN, bars)
    assert made.plan.grams_in == pytest.approx(min(grams))


def test_a_bar_as_wide_as_one_likes_comes_from_bars_as_wide_as_they_are():
    wide = Wanted(length=254, width=50.8, thickness=5)
    plan = PLAN.model_copy(update={"wanted": wide})
    made = planned_from(plan, rack.from_lines(ENOUGH))
    assert made.plan.outer.width == 38.1
    lossless = made.plan.losing(
        weld_scale=0, forge_scale=0, clean_up=0, crop=0, kerf=0, grind=0
    )
    # volume: 254 × 50.8 × 5 mm in a stack 38.1 × 26.9875 mm
    assert lossless.exact_length == pytest.approx(254 * 50.8 * 5 / (38.1 * 26.9875))


def heights(layers, steel):
    """Give the places of one steel's pieces in a stack and how thick they are."""
    return [(at, one.thickness) for at, one in enumerate(layers) if one.steel == steel]


@settings(max_examples=25, deadline=None)
@given(seed=st.integers(0, 10**6), units=st.sampled_from(list(Units)))
def test_a_stack_is_alike_from_both_faces_where_it_can_be_and_is_told_where_it_is_not(
    seed, units
):
    """And advice is a bar that tongs hold, or what to buy: a law over racks at random."""
    try:
        made = planned_from(PLAN, racks(seed), units)
    except KitError:
        return
    words, layers = told(made, units), made.plan.billet.source.layers
    for name in ("1084", "15N20"):
        pieces = heights(layers, name)
        counts = Counter(thick for _, thick in pieces)
        odd = sum(count % 2 for count in counts.values())
        upside_down = [(len(layers) - 1 - at, thick) for at, thick in reversed(pieces)]
        assert (pieces == upside_down) == (odd < 2)
        assert pieces[0][1] == pieces[-1][1] or odd == len(pieces), "the faces are alike"
        says = " ".join(one for one in words if f"Pieces of {name}" in one)
        assert ("not quite alike" in says) == (odd > 1)
    if made.missing:
        best = made.plan.reached(made.longest) if made.longest else 0
        gives = any("they give a bar" in one for one in words)
        assert gives == (best >= HELD)
        buy = [one for one in words if ": buy " in one]
        assert len(buy) == (not gives)
        for steel in {bar.steel for bar, _ in made.missing} if buy else ():
            assert f" of {steel}" in buy[0]
    for each in Counter(one for bars in made.plan.bars for one in bars):
        assert any(layer.thickness == each.thickness for layer in layers)


def test_what_to_buy_is_enough_as_on_paper():
    # pieces of 102 mm and a cut of 2 mm after each: six of 1084, five of 15N20 lack
    words = " ".join(told(planned_from(PLAN, rack.from_lines("1095: 3 x 38.1 x 900"))))
    assert "buy 624 mm of 1084 and 520 mm of 15N20, saw cuts included" in words
