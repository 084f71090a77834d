"""From rack to bar: sizes by hand, weights by a table of densities, losses undone exactly.

Volume constancy: Groover, Fundamentals of Modern Manufacturing, bulk deformation.
"""

import json
import math
from itertools import pairwise

import pytest

from kit.basics.errors import KitError
from kit.basics.typed import parse_length
from kit.basics.units import Units
from kit.shop import weighed_losses
from kit.shop.plan import Plan, example, sensitivity
from kit.shop.plan_told import short_of
from kit.shop.sawing import cut_list, in_words
from kit.shop.work import Losses, Rack, Wanted

LOSSLESS = Losses(weld_scale=0, forge_scale=0, clean_up=0, crop=0, kerf=0, grind=0)
PLAN = example()


def planned(**changes):
    """Plan the example with something changed."""
    values = {name: getattr(PLAN, name) for name in Plan.model_fields}
    return Plan(**{**values, **changes})


def by_hand(start, weld):
    """Follow the bar step by step, as on paper: length, width, thickness in mm."""
    length, thick = start, 6 * 3.175 + 5 * 1.5875
    for last in (False, False, False, True):
        wide = 38.1
        for skin in (2 * 2 * weld, (3 if last else 2) * 2 * 0.03):
            length, wide, thick = length - skin, wide - skin, thick - skin
        to = 5 + 2 * 0.5 if last else 16
        length = length * wide * thick / (38.1 * to)
        length, thick = length - 12, to
        if not last:
            thick = 2 * (16 - 2 * 0.25)
            length = (length - 2) / 2
    return length


def test_no_losses_is_volume_over_section():
    lossless = planned(losses=LOSSLESS)
    # 254 × 38.1 × 5 mm in a stack 38.1 × 26.9875 mm
    assert lossless.exact_length == pytest.approx(254 * 5 / 26.9875)
    assert lossless.share_out == pytest.approx(1)


@pytest.mark.parametrize(("weld", "ends"), [(0.08, 254.2), (0.16, 224.7), (0.04, 269.8)])
def test_forwards_as_on_paper(weld, ends):
    plan = planned(losses=Losses(weld_scale=weld))
    assert plan.length_from(102) == pytest.approx(by_hand(102, weld))
    assert plan.length_from(102) == pytest.approx(ends, abs=0.06)


def test_the_class_bar():
    assert PLAN.start_length == 102
    # 6 × 102 × 38.1 × 3.175 mm and 5 × 102 × 38.1 × 1.5875 mm at 7.85 g/cm³
    assert PLAN.grams_in == pytest.approx((6 * 3.175 + 5 * 1.5875) * 102 * 38.1 * 7.85e-3)
    assert round(PLAN.grams_in) == 823
    assert round(PLAN.grams_out) == 380
    assert round(100 * PLAN.share_out) == 46
    assert (PLAN.billet.layers, PLAN.billet.bands) == (88, 81)
    assert PLAN.wanted.thickness / PLAN.billet.layers == pytest.approx(5 / 88)


def test_backwards_undoes_forwards():
    for work in PLAN.works:
        assert work.length_before(work.length_after(123.4)) == pytest.approx(123.4)
    assert PLAN.length_from(PLAN.exact_length) == pytest.approx(254)


def test_what_is_lost_is_what_is_missing():
    stages = PLAN.stages()
    lost = sum(stage.grams_before - stage.grams_after for stage in stages)
    assert lost == pytest.approx(PLAN.grams_in - PLAN.grams_out)
    for stage in stages:
        grams = stage.grams_before - stage.grams_after
        moved = stage.work.reason == "moved, not lost"
        assert grams == pytest.approx(0, abs=1e-9) if moved else grams > 0
    for one, other in pairwise(stages):
        assert other.before == pytest.approx(one.after)


def test_crops_cost_most_and_each_loss_costs_something():
    saved = sensitivity(PLAN)
    assert next(iter(saved)) == "crop"
    assert min(saved.values()) > 0
    for kind, mm in saved.items():
        without = PLAN.losing(**{kind: 0})
        assert without.exact_length == pytest.approx(PLAN.exact_length - mm)


def test_short_says_how_much():
    dirty = planned(losses=Losses(weld_scale=0.16))
    assert short_of(dirty, 102).endswith("29.3 mm short.")
    assert "1 5/32 in" in short_of(dirty, 102, Units.INCH_FRACTION)
    assert short_of(PLAN, 102).startswith("Enough")


@pytest.mark.parametrize(
    ("changes", "sentence"),
    [
        (
            {"wanted": {"length": 1, "width": 38.1, "thickness": 5}},
            "Length must be from 20",
        ),
        ({"cycles": 9}, "Cut and stack must be"),
        ({"outer_pieces": 1, "inner_pieces": 1}, "too thin"),
        ({"losses": {"crop": 30}}, "Crop must be from 0 to 20 mm"),
    ],
)
def test_impossible_wishes_get_one_sentence(changes, sentence):
    made = {"wanted": Wanted, "losses": Losses}

    def plan():
        planned(**{n: made[n](**v) if n in made else v for n, v in changes.items()})

    with pytest.raises(KitError, match=sentence) as error:
        plan()
    assert "\n" not in str(error.value)


def test_two_widths_do_not_make_a_stack():
    with pytest.raises(KitError, match="one width"):
        planned(inner=Rack(steel="15N20", thickness=1.5, width=40))


def test_too_short_a_start_leaves_nothing():
    with pytest.raises(KitError, match="nothing is left"):
        PLAN.length_from(10)


@pytest.mark.parametrize(("outer", "inner"), [(7, 6), (6, 7), (5, 5), (9, 2), (1, 3)])
def test_the_inner_steel_is_spread_evenly(outer, inner):
    plan = planned(
        outer_pieces=outer,
        inner_pieces=inner,
        cycles=0,
        draw_to=8,
        wanted=Wanted(length=100, width=38.1, thickness=2),
    )
    steels = list(plan.billet.source.steels)
    assert steels.count("15N20") == inner
    gaps = "".join("b" if name == "15N20" else "a" for name in steels).split("b")
    inside = [len(gap) for gap in gaps[1:-1]]
    assert not inside or max(inside) - min(inside) <= 1


def test_cut_list_fills_bars_and_stops_at_their_ends():
    outer, inner = cut_list(PLAN)
    assert (outer.pieces, inner.pieces) == (6, 5)
    assert outer.offcut == 1000 - 6 * 102 - 6 * 2
    assert round(outer.grams) == 581
    assert round(inner.grams) == 242
    # three of 102 mm and two cuts fit 310 mm exactly; a hair less and only two do
    for stock, most in ((310, 3), (309.9, 2)):
        rack = Rack(steel="1084", thickness=3.175, width=38.1, length=stock)
        bars = [sawn for sawn in cut_list(planned(outer=rack)) if sawn.rack is rack]
        assert bars[0].pieces == most
        assert sum(sawn.pieces for sawn in bars) == 6
    with pytest.raises(KitError, match="cannot be cut"):
        cut_list(planned(outer=Rack(steel="1084", thickness=3.175, width=38.1, length=95)))


def test_inches_are_rounded_up_to_a_thirty_second():
    line = in_words(cut_list(PLAN)[0], Units.INCH_FRACTION)
    whole, part = 4, math.ceil((102 / 25.4 - 4) * 32)
    assert line.split("6 × ")[1].startswith(
        f"{whole} {part // 2}/16" if part % 2 == 0 else f"{whole} {part}/32"
    )


@pytest.mark.parametrize("units", list(Units))
def test_a_line_of_the_cut_list_adds_up(units):
    for sawn in cut_list(PLAN):
        line = in_words(sawn, units)
        many, rest = line.split(". ")[1].split(" × ")
        long, rest = rest.split(" = ")
        total, left = rest.split(", ")[0], rest.split(", ")[2].removesuffix(" left")
        assert parse_length(total) == pytest.approx(
            int(many) * parse_length(long), abs=1e-6
        )
        # pieces, cuts and what is left are the bar, to what the words round
        cuts = sawn.pieces * sawn.kerf
        assert parse_length(total) + cuts + parse_length(
            left.split(";")[0].removesuffix(" left")
        ) == pytest.approx(1000, abs=0.6)


def test_weighing_finds_the_losses_of_the_shop():
    mine = PLAN.losing(weld_scale=0.11, forge_scale=0.05)
    stages = mine.stages(90)
    weights = {number: stage.grams_after for number, stage in enumerate(stages[:2])}
    found = weighed_losses.measured(PLAN, weights, start=90)
    assert found.weld_scale == pytest.approx(0.11, rel=1e-3)
    assert found.forge_scale == pytest.approx(
        0.05, rel=2e-2
    )  # its size before is as planned
    assert found.crop == PLAN.losses.crop
    with pytest.raises(KitError, match="must weigh"):
        weighed_losses.measured(PLAN, {0: 5000})


def test_losses_are_kept_in_a_file(tmp_path):
    path = tmp_path / "shop.json"
    path.write_text(weighed_losses.to_json(Losses(crop=9)), "utf-8")
    assert weighed_losses.load(path) == Losses(crop=9)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "[]",
        "{",
        "null",
        json.dumps({"format": "other"}),
        "x" * 30_000,
        "[" * 9_000,
        json.dumps({"format": weighed_losses.FORMAT, "version": 1, "crop": "far"}),
        json.dumps({"format": weighed_losses.FORMAT, "version": 1, "colour": 3}),
    ],
)
def test_a_bad_file_of_losses_gets_one_sentence(tmp_path, text):
    path = tmp_path / "shop.json"
    path.write_text(text)
    with pytest.raises(KitError) as error:
        weighed_losses.load(path)
    assert "\n" not in str(error.value)
