"""Steel that is taken away, against volumes worked out by hand."""

import math

import pytest
from steps import SAMPLES, stack

from kit.billet import Billet
from kit.bundle import Bundle
from kit.losses import lost, share_lost, weight
from kit.patterns import PATTERNS
from kit.steps import Draw, Fold, Grind, GrindRound, RoundUp, SquareUp, Twist

BAR = Billet(source=stack(7, 16 / 7, width=16, length=200))


@pytest.mark.parametrize("name", SAMPLES)
def test_a_step_that_only_moves_steel_takes_none(name):
    step, size = SAMPLES[name]
    taken = size.volume - step.size_after(size).volume
    if step.wastes:
        assert taken >= -1e-9 * size.volume
    else:
        assert taken == pytest.approx(0, abs=1e-9 * size.volume)


def test_a_prism_ground_on_all_sides():
    bar = BAR.then(Grind(top=1, bottom=0.5, sides=2, ends=10))
    left = (200 - 20) * (16 - 4) * (16 - 1.5)
    (row,) = lost(bar)
    assert row.volume == pytest.approx(200 * 16 * 16 - left)
    assert share_lost(bar) == pytest.approx(1 - left / (200 * 16 * 16))


def test_corners_ground_off_are_square_less_circle():
    # a square of side a less the circle in it: a² (1 - π / 4), Euclid
    assert share_lost(BAR.then(GrindRound())) == pytest.approx(1 - math.pi / 4)
    assert share_lost(BAR.then(RoundUp(), Twist(turn_length=50))) == pytest.approx(0)


def test_squaring_up_takes_what_its_table_says():
    assert share_lost(BAR.then(RoundUp(), SquareUp())) == pytest.approx(0.048, abs=1e-3)


def test_weight_by_hand():
    # seven bars, the outer four 1084 at 7.85 and the inner three 15N20 at 7.85 g/cm³
    assert weight(BAR) == pytest.approx(200 * 16 * 16 * 7.85e-3, rel=1e-3)
    half = BAR.then(Grind(ends=50))
    assert weight(half) == pytest.approx(weight(BAR) / 2)
    assert weight(BAR.then(Fold(), Draw(thickness=8))) == pytest.approx(weight(BAR))


def test_a_bundle_counts_its_bars_and_what_they_were_cut_to():
    long = Billet(source=stack(7, 16 / 7, width=16, length=201))
    ground = BAR.then(Grind(sides=1))
    both = Billet(source=Bundle(bars=(long, Billet(source=BAR.source))))
    assert [row.step for row in lost(both)] == ["bundle"]
    assert share_lost(both) == pytest.approx(1 / 401)
    narrow = Billet(source=Bundle(bars=(ground, BAR))).then(Grind(top=8))
    parts = [row.share for row in lost(narrow)]
    assert parts[0] == pytest.approx(2 * 1 * 16 / (2 * 16 * 16))
    assert sum(parts) == pytest.approx(share_lost(narrow))


def test_no_named_pattern_gains_steel():
    for pattern in PATTERNS:
        rows = lost(pattern.forge())
        assert all(row.volume >= -1e-6 for row in rows)
        assert 0 <= sum(row.share for row in rows) < 1
