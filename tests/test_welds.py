"""Open welds: counted and placed by hand.

What a missed weld looks like, a black hairline that follows a layer, is common
practice, no source. That it is carried along as every layer is needs no source: the
positions below are worked out by laying copies of the stack on each other, each turned
over where a fold turned it, as in facts.md 10 (7 -> 13 -> 25 bands by the same rule).
"""

import numpy as np
import pytest
from steps import stack

from kit.forge.billet import Billet, fold_and_draw
from kit.forge.bundle import Bundle
from kit.forge.flaw import Flaw
from kit.forge.stack import demo_stack
from kit.forge.steps import (
    CutAndStack,
    DrawOut,
    Fold,
    Grind,
    Hammer,
    QuarterTurn,
    RoundUp,
    SquareUp,
    Twist,
)
from kit.section.surface import cut
from kit.section.welds import crossings, hair_lines, times
from kit.shop.work import all_sound, welds_made

BARS = (3.175, 1.5875)  # mm: 1/8 in and 1/16 in
RACK = Billet(source=demo_stack())
each_fold = pytest.mark.parametrize("folds", range(8))
each_interface = pytest.mark.parametrize("interface", range(1, 11))


def forged(folds, *, pieces=None, thickness=12.0):
    return fold_and_draw(RACK, folds=folds, pieces=pieces, thickness=thickness)


def upright(billet, x=None, y=1.3):
    """Give a line straight through a bar, bottom to top."""
    x = 0.417 * billet.size.length if x is None else x
    half = billet.size.thickness / 2
    return (x, y, -half), (x, y, half)


def heights(interface, copies, thickness, *, folded):
    """Lay copies on each other by hand; fold after fold, every other one is turned."""
    up = sum(BARS[bar % 2] for bar in range(interface)) / sum(
        BARS[bar % 2] for bar in range(11)
    )
    each = thickness / copies
    turned = (folded and copy % 2 for copy in range(copies))
    return [(copy + (1 - up if over else up)) * each for copy, over in enumerate(turned)]


def across(billet, pixel, rows, columns=9):
    """Saw square across and look at the end."""
    return cut(billet.size, angle=90, columns=columns, rows=rows, pixel=pixel)


@each_fold
def test_a_bad_first_weld_is_doubled_by_every_fold(folds):
    billet = forged(folds)
    flaw = Flaw.whole(billet, interface=4)
    assert times(billet, flaw) == 2**folds
    assert len(crossings(billet, flaw, *upright(billet))) == 2**folds


@pytest.mark.parametrize("late", range(1, 5))
def test_a_bad_fold_is_doubled_only_by_the_folds_after_it(late):
    billet = forged(4)  # fold, draw, fold, draw …
    flaw = Flaw.whole(billet, step=2 * late - 1)
    assert times(billet, flaw) == 2 ** (4 - late)


def test_each_of_the_welds_of_a_restack_can_fail():
    billet = RACK.then(CutAndStack(pieces=4), DrawOut(thickness=26.9875))
    for joint in (1, 2, 3):
        flaw = Flaw.whole(billet, step=1, interface=joint)
        found = crossings(billet, flaw, *upright(billet))
        assert found == pytest.approx([26.9875 / 4 * joint])


@each_interface
@pytest.mark.parametrize("folds", [0, 1, 3])
def test_it_outcrops_at_the_height_of_its_interface_in_every_copy(interface, folds):
    billet = forged(folds)
    flaw = Flaw.whole(billet, interface=interface)
    met = crossings(billet, flaw, *upright(billet))
    by_hand = heights(interface, 2**folds, 12.0, folded=True)
    assert met == pytest.approx(by_hand, abs=1e-9)


def test_restacked_pieces_all_lie_the_same_way_up():
    billet = forged(2, pieces=3)
    flaw = Flaw.whole(billet, interface=5)
    met = crossings(billet, flaw, *upright(billet))
    assert met == pytest.approx(heights(5, 9, 12.0, folded=False), abs=1e-9)


def test_the_picture_shows_the_lines_where_they_were_counted():
    billet = forged(3)
    rows = 1200
    lines = hair_lines(
        billet, across(billet, 0.01, rows), [Flaw.whole(billet, interface=4)]
    )
    dark = lines[::-1, 4] > 0.5  # bottom first
    starts = np.flatnonzero(dark[1:] & ~dark[:-1]) + 1
    ends = np.flatnonzero(~dark[1:] & dark[:-1]) + 1
    middles = (starts + ends) / 2 * 0.01
    assert middles == pytest.approx(heights(4, 8, 12.0, folded=True), abs=0.01)


def test_a_cut_beside_the_patch_shows_nothing():
    flaw = Flaw(interface=4, x=60, y=5, long=20, wide=8)
    for x, y, there in [(60, 5, 1), (69, 8.5, 1), (71, 5, 0), (49, 5, 0), (60, 9.5, 0)]:
        assert len(crossings(RACK, flaw, *upright(RACK, x, y))) == there
    for x, there in [(60, True), (69, True), (71, False), (49, False)]:
        plane = across(RACK, 0.1, 320, columns=400)
        position = 100 * x / RACK.size.length
        plane = cut(
            RACK.size, angle=90, position=position, columns=400, rows=320, pixel=0.1
        )
        assert (hair_lines(RACK, plane, [flaw]).max() > 0.3) == there


def test_a_short_patch_is_doubled_only_where_a_fold_goes_through_it():
    # By hand: 150 mm long, folded at 75. A patch from 55 to 65 is in the near half
    # alone; one from 70 to 80 is in both, mirrored onto itself.
    billet = RACK.then(Fold())
    near = Flaw(interface=4, x=60, long=10, wide=20)
    astride = Flaw(interface=4, x=75, long=10, wide=20)
    assert len(crossings(billet, near, *upright(billet, x=60))) == 1
    assert len(crossings(billet, astride, *upright(billet, x=72))) == 2
    assert crossings(billet, astride, *upright(billet, x=69)) == []
    assert times(billet, near) == 1


def test_blows_carry_the_line_as_they_carry_the_layers():
    blows = Hammer(depth=1.5, spacing=20, seed=4)
    billet = RACK.then(blows, Fold(), DrawOut(thickness=12))
    flaw = Flaw.whole(billet, interface=4)
    edge = (RACK.source.edges[4] - 0.5) * RACK.size.thickness
    for height in crossings(billet, flaw, *upright(billet)):
        point = tuple(np.array([part]) for part in upright(billet)[0])
        back = billet.undo((point[0], point[1], point[2] + height))
        assert back[2][0] == pytest.approx(edge, abs=1e-3)
    assert times(billet, flaw) == 2


def test_twisted_the_line_is_met_where_the_layer_edge_is():
    square = Billet(source=stack(16, 1.0, length=150, width=16))
    billet = square.then(RoundUp(), Twist(turn_length=50), SquareUp())
    flaw = Flaw.whole(billet, interface=8)  # through the axis
    x = np.array([20.0, 45.0, 70.0])  # half a turn apart, the line comes round again
    for place in x:
        half = billet.size.thickness / 2
        met = crossings(billet, flaw, (place, 3.0, -half), (place, 3.0, half))
        assert len(met) == 1
        assert met == pytest.approx(
            crossings(billet, flaw, (20, 3.0, -half), (20, 3.0, half)), abs=1e-6
        )


# counted as in curriculum.md question 23: three times cut in two and restacked
def test_thirteen_welds_at_the_anvil_but_87_interfaces_in_the_bar():
    billet = forged(3, pieces=2)
    assert welds_made(billet) == 10 + 3
    assert billet.layers - 1 == 87
    first = [times(billet, Flaw.whole(billet, interface=j)) for j in range(1, 11)]
    later = [times(billet, Flaw.whole(billet, step=step)) for step in (1, 3, 5)]
    assert first == [8] * 10
    assert later == [4, 2, 1]
    assert sum(first) + sum(later) == 87  # every interface is some weld of the smith's
    assert all_sound(billet, 0.99) == pytest.approx(0.8775, abs=5e-5)


def test_welds_of_the_bars_of_a_bundle_count():
    bars = (forged(1), forged(1))
    billet = Billet(source=Bundle(bars=bars, laid="stacked")).then(Fold())
    assert welds_made(billet) == 2 * 11 + 1 + 1


def test_what_was_ground_away_is_not_counted():
    billet = RACK.then(Grind(bottom=16))
    assert times(billet, Flaw.whole(billet, interface=1)) == 0
    assert times(billet, Flaw.whole(billet, interface=10)) == 1
    ends = RACK.then(Grind(ends=50))
    assert times(ends, Flaw(interface=4, x=20, long=10, wide=10)) == 0


def test_on_edge_the_line_is_met_across_and_not_through():
    billet = RACK.then(QuarterTurn())
    flaw = Flaw.whole(billet, interface=4)
    half = billet.size.width / 2
    across_it = crossings(billet, flaw, (70, -half, 2.0), (70, half, 2.0))
    assert across_it == pytest.approx(heights(4, 1, 26.9875, folded=False), abs=1e-9)
    assert crossings(billet, flaw, *upright(billet, 70, 1.0)) == []
