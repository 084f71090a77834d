"""Heats in the steps of a billet, and how thick its layers were in each."""

import json
from itertools import pairwise

import pytest

from kit.basics.errors import KitError
from kit.forge.billet import Billet
from kit.forge.bundle import Bundle
from kit.forge.stack import Stack, demo_stack
from kit.forge.steps import (
    STEPS,
    CutAndStack,
    Dent,
    DrawOut,
    Fold,
    Grind,
    QuarterTurn,
    RoundUp,
    SquareUp,
    Twist,
    Upset,
)
from kit.forge.steps.base import Heat
from kit.metal.diffusion import diffusivity
from kit.metal.soak import Soak, bars_of, evened, heats_of

WELD = Heat(celsius=1230, minutes=5)
FORGE = Heat(celsius=1100, minutes=3)
RACK = Billet(source=demo_stack())  # 26.9875 mm


def test_each_heat_meets_the_layers_as_they_are_then():
    billet = RACK.then(
        DrawOut(thickness=20, heat=WELD),
        Fold(heat=WELD),
        DrawOut(thickness=20, heat=FORGE),
        DrawOut(thickness=10, heat=FORGE),
    )
    # by hand: the stack itself, 20, still 20 (two copies in 40), two in 20, two in 10
    assert [soak.thickness for soak in heats_of(billet)] == pytest.approx(
        [26.9875, 20, 20, 10]
    )
    assert [soak.celsius for soak in heats_of(billet)] == [1230, 1230, 1100, 1100]
    assert not any(soak.joined for soak in heats_of(billet))


def test_while_layers_lie_flat_it_is_the_bar_over_its_copies():
    steps = [
        DrawOut(thickness=25),
        Fold(),
        DrawOut(thickness=21),
        CutAndStack(pieces=3),
        Upset(length=60),
    ]
    billet = RACK
    for step in [*steps, DrawOut(thickness=9, width=50)]:
        billet = billet.then(step.model_copy(update={"heat": WELD}))
    found = [soak.thickness for soak in heats_of(billet)]
    copies = [tally.layers / 11 for tally in billet.tallies]
    for thickness, size, count in zip(found, billet.sizes, copies, strict=False):
        assert thickness == pytest.approx(size.thickness / count)


def test_soak_by_hand():
    soaks = [Soak(1150, 10, 2.0), Soak(1000, 5, 0.5)]
    by_hand = sum(
        diffusivity("C", soak.celsius) * soak.minutes * 60 / (soak.thickness / 1000) ** 2
        for soak in soaks
    )
    assert evened("C", soaks).inside == pytest.approx(by_hand)
    assert evened("C", soaks).joint is None
    assert evened("C", []) == (0, None)


def test_layers_on_edge_are_drawn_thin_by_the_width():
    billet = RACK.then(
        DrawOut(thickness=20, width=20),
        QuarterTurn(),
        DrawOut(thickness=20, width=10),
        DrawOut(thickness=5, width=10, heat=FORGE),
    )
    assert heats_of(billet)[0].thickness == pytest.approx(10)


def test_twisted_layers_follow_the_section():
    square = RACK.then(DrawOut(thickness=16, width=16))
    twisted = square.then(RoundUp(), Twist(turn_length=60), SquareUp())
    side = twisted.size.thickness
    drawn = twisted.then(
        DrawOut(thickness=side / 2, width=side / 2), DrawOut(thickness=6, heat=FORGE)
    )
    # half the side each way: layers in any direction are half as thick
    assert heats_of(drawn)[0].thickness == pytest.approx(8)


def test_grinding_and_cutting_leave_layers_as_they_are():
    bar = RACK.then(DrawOut(thickness=12))
    ground = bar.then(Grind(top=3, bottom=3), DrawOut(thickness=6, heat=FORGE))
    assert heats_of(ground)[0].thickness == pytest.approx(12)
    dimpled = bar.then(
        Dent(way="cut and forged", across=8, depth=3, spacing=12, thickness=6)
    )
    level = bar.then(
        Dent(way="cut and forged", across=8, depth=3, spacing=12)
    ).size.thickness
    heated = dimpled.then(DrawOut(thickness=6, heat=FORGE))
    assert heats_of(heated)[0].thickness == pytest.approx(12 * 6 / level)


@pytest.mark.parametrize(
    "between",
    [Grind(), Grind(ends=0.1), Grind(sides=0.1), QuarterTurn(quarters=2)],
    ids=["nothing", "ends", "sides", "turned over"],
)
def test_what_takes_no_layer_away_changes_no_heat(between):
    heat = {"celsius": 1150, "minutes": 3}
    cycle = (Fold(heat=heat), DrawOut(thickness=27, heat=heat))
    nine = Stack.alternate("1084", "15N20", pieces=9, thickness=3.0, length=300.0)
    plain = Billet(source=nine).then(*cycle * 4)
    other = plain[:2].then(between, *cycle * 3)
    for one, soak in zip(heats_of(plain), heats_of(other), strict=True):
        assert one == pytest.approx(soak)


def test_only_a_restack_before_any_fold_joins_stacks_the_same_way_up():
    for steps, joined in (
        ((CutAndStack(pieces=2, heat=WELD),), [True]),
        (
            (DrawOut(thickness=30, heat=WELD), CutAndStack(pieces=2, heat=WELD)),
            [False, True],
        ),
        ((Fold(heat=WELD), CutAndStack(pieces=3, heat=WELD)), [False, False]),
        (
            (CutAndStack(pieces=2), Fold(heat=WELD), DrawOut(thickness=9, heat=WELD)),
            [True, True],
        ),
    ):
        assert [soak.joined for soak in heats_of(RACK.then(*steps))] == joined
    soaks = heats_of(RACK.then(DrawOut(thickness=30, heat=WELD), CutAndStack(heat=WELD)))
    inside, joint = evened("Ni", soaks)
    assert joint == pytest.approx(
        inside * 900 / (900 + 30**2 * (30 / 26.9875) ** 2), rel=1e-9
    )


def test_a_bundle_hands_its_heats_to_its_bars():
    twin = RACK.then(DrawOut(thickness=12, width=12, heat=WELD))
    for laid in ("side by side", "stacked"):
        bundle = Bundle(bars=(twin, twin), laid=laid)
        size = Billet(source=bundle).size
        billet = Billet(
            source=bundle,
            steps=(
                DrawOut(thickness=size.thickness, heat=WELD),
                DrawOut(thickness=size.thickness / 3),
                DrawOut(thickness=size.thickness / 3, heat=FORGE),
            ),
        )
        bars = list(bars_of(billet))
        assert [bar.billet for bar in bars] == [twin, twin]
        for bar in bars:
            soaks = heats_of(*bar)
            assert [soak.thickness for soak in soaks] == pytest.approx([26.9875, 12, 4])
        with pytest.raises(KitError, match="A bundle has no heats of its own layers"):
            heats_of(billet)


def test_a_stack_is_its_only_bar():
    assert list(bars_of(RACK)) == [(RACK, ())]


def test_a_bundle_in_a_bundle():
    bar = RACK.then(DrawOut(thickness=10, width=10))
    inner = Billet(source=Bundle(bars=(bar, bar)), steps=(DrawOut(thickness=5, heat=WELD),))
    outer = Billet(
        source=Bundle(bars=(inner, inner), laid="stacked"),
        steps=(DrawOut(thickness=5, heat=WELD), DrawOut(thickness=4, heat=FORGE)),
    )
    bars = list(bars_of(outer))
    assert len(bars) == 4
    for each in bars:
        assert [soak.thickness for soak in heats_of(*each)] == pytest.approx([10, 5, 2.5])


@pytest.mark.parametrize(
    ("celsius", "words"),
    [
        (
            1380,
            r"Calculated: begins to melt at 1376 °C \(2509 °F\). Given: 1380",
        ),
        (740, r"1084 is too cold for this: only from 758 °C .* Given: 740 °C \(1364 °F\)"),
    ],
)
def test_a_heat_that_a_steel_can_not_take(celsius, words):
    billet = RACK.then(DrawOut(thickness=20, heat=Heat(celsius=celsius, minutes=1)))
    with pytest.raises(KitError, match=words):
        heats_of(billet)


@pytest.mark.parametrize(
    ("values", "words"),
    [
        (
            {"celsius": 20, "minutes": 5},
            r"Temperature must be from 700 to 1500 °C. Given: 20",
        ),
        (
            {"celsius": 1100, "minutes": -5},
            r"Minutes hot must be from 0 to 10000 min. Given",
        ),
        ({"celsius": 1100}, "Heat needs a value for 'minutes'"),
        ("hot", "Heat must be a Heat: how hot, how many minutes. Given: hot"),
    ],
)
def test_a_heat_that_is_none(values, words):
    with pytest.raises(KitError, match=words):
        Fold(heat=values)


@pytest.mark.parametrize("name", STEPS)
def test_every_step_takes_a_heat(name):
    assert STEPS[name].model_fields["heat"].default is None


def test_a_heat_comes_back_from_a_recipe():
    for step in (Fold(heat=WELD), DrawOut(thickness=8, heat=FORGE), Twist(turn_length=40)):
        again = STEPS[step.step](**json.loads(step.model_dump_json()))
        assert again == step
        assert isinstance(again.heat, Heat) == (step.heat is not None)


def test_late_heats_count_most():
    # the same fold, draw and heat again and again: each time half the thickness, four
    # times the soak
    billet = RACK
    for _ in range(4):
        billet = billet.then(Fold(heat=WELD), DrawOut(thickness=26.9875))
    each = [evened("C", [soak]).inside for soak in heats_of(billet)]
    assert [b / a for a, b in pairwise(each)] == pytest.approx([4, 4, 4])


def test_a_stack_of_one_steel_only_needs_its_own_heat():
    mild = Billet(source=Stack.alternate("mild", "mild", pieces=3, thickness=4))
    hot = mild.then(DrawOut(thickness=6, heat=Heat(celsius=1400, minutes=1)))
    assert heats_of(hot)[0].celsius == 1400
