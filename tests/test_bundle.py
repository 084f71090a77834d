"""Bars welded side by side or stacked, against the same bars looked at alone."""

import numpy as np
import pytest
from steps import forged, from_above, stack

from kit import KitError
from kit.forge.billet import Billet
from kit.forge.bundle import Bundle
from kit.forge.steps import DrawOut, Fold, QuarterTurn, RoundUp, SquareUp, Twist
from kit.section import trace
from kit.section.pile import mean
from kit.section.surface import cut
from kit.section.trace import bar_at, see

TONES = {"1084": 0.0, "15N20": 1.0}


def twisted(hand):
    square = Billet(source=stack(9, 2.0, width=18.0, length=150.0))
    return square.then(RoundUp(), Twist(turn_length=60, hand=hand), SquareUp())


def face_of(billet, height, columns=300, rows=120, pixel=0.25):
    plane = from_above(billet.size, 70.0, height, columns, rows, pixel)
    return see(billet, plane, TONES)


def test_each_bar_of_a_bundle_looks_as_it_does_alone():
    one, other = twisted("right"), twisted("left")
    both = Billet(source=Bundle(bars=(one, other)))
    side = one.size.width
    assert both.size == pytest.approx((one.size.length, 2 * side, one.size.thickness))
    rows = 2 * round(side / 0.25 / 2)  # of one bar
    seen = face_of(both, 3, rows=2 * rows, pixel=side / rows).tone
    upper, lower = seen[: rows - 2], seen[rows + 2 :]
    alone = [face_of(bar, 3, rows=rows, pixel=side / rows).tone for bar in (other, one)]
    np.testing.assert_allclose(upper[2:], alone[0][2:-2], atol=1e-3)
    np.testing.assert_allclose(lower[:-2], alone[1][2:-2], atol=1e-3)


def test_opposite_twists_mirror_each_other_in_the_seam():
    both = Billet(source=Bundle(bars=(twisted("right"), twisted("left"))))
    seen = face_of(both, 4).tone
    np.testing.assert_allclose(seen, seen[::-1], atol=0.02)


def test_a_bundle_of_two_stacks_is_one_stack():
    # 5 bars on 4 bars of the same thickness, in turn, is a stack of 9
    lower, upper = (
        Billet(source=stack(5)),
        Billet(source=stack(5)).then(DrawOut(thickness=15)),
    )
    piled = Billet(source=Bundle(bars=(lower, upper), laid="stacked"))
    assert piled.layers == 10
    assert piled.bands == 9  # like meets like where they join
    folded = piled.then(Fold(), DrawOut(thickness=30))
    assert (folded.layers, folded.bands) == (20, 17)
    plane = cut(piled.size, angle=90, rows=300, columns=20, pixel=0.1)
    tone = see(piled, plane, TONES).tone[:, 10]
    assert np.count_nonzero(np.diff(tone > 0.5)) == 8


def test_steps_after_bundling_act_on_all_bars():
    both = Billet(source=Bundle(bars=(twisted("right"), twisted("left"))))
    drawn = both.then(DrawOut(thickness=both.size.thickness / 2))
    before = face_of(both, 0.0, columns=200).tone
    after = face_of(drawn, 0.0, columns=400, rows=120).tone
    # twice as long, just as wide: every second column is the old one (from the middle)
    np.testing.assert_allclose(after.mean(), before.mean(), atol=0.03)
    assert drawn.size.length == pytest.approx(2 * both.size.length)


def test_a_point_is_found_in_its_bar():
    one, other = forged(5, 0), forged(5, 1)
    both = Billet(source=Bundle(bars=(one, other)))
    source, bar = bar_at(both, (20.0, -10.0, -7.0))
    assert (source, bar) == (one.source, 0)
    assert bar_at(both, (20.0, 10.0, 0.0))[0] == other.source


def test_bundle_may_be_bundled_again():
    pair = Billet(source=Bundle(bars=(twisted("right"), twisted("left"))))
    four = Billet(source=Bundle(bars=(pair, pair), laid="stacked"))
    assert four.size.thickness == pytest.approx(2 * pair.size.thickness)
    assert np.ptp(face_of(four, 2).tone) > 0.9


def test_a_pixel_asks_only_the_bar_that_is_there(monkeypatch):
    # 16 × 16 bars: each pixel once, and a margin of one round every bar.
    square = Billet(source=stack(3, 2.0, width=6.0))
    row = Billet(source=Bundle(bars=(square,) * 16))
    many = Billet(source=Bundle(bars=(row,) * 16, laid="stacked"))
    asked = []

    def counted(pile, height):
        asked.append(height.size)
        return mean(pile, height)

    monkeypatch.setattr(trace, "mean", counted)
    seen = see(many, cut(many, angle=90, columns=600, rows=600, pixel=0.16), TONES)
    assert seen.cover.min() == 1
    assert sum(asked) < 1.7 * 600 * 600
    assert seen.tone.mean() == pytest.approx(1 / 3, abs=0.01)


@pytest.mark.parametrize(
    ("bars", "laid", "sentence"),
    [
        (lambda: (forged(3, 0),), "stacked", "from 2 to 16 bars. Given: 1"),
        (
            lambda: (forged(3, 0), forged(5, 0)),
            "side by side",
            "one thickness .* Given: 9, 15",
        ),
        (
            lambda: (forged(3, 0), forged(3, 0).then(DrawOut(thickness=3))),
            "stacked",
            "one length to be laid stacked. Given: 150, 450 mm",
        ),
        (
            lambda: (Billet(source=stack(9, 2.0, width=18.0)).then(RoundUp()),) * 2,
            "side by side",
            "Round bars do not fit together",
        ),
        (lambda: (forged(3, 0), forged(3, 0).then(QuarterTurn())), "stacked", "one width"),
    ],
)
def test_bars_that_do_not_fit_together(bars, laid, sentence):
    with pytest.raises(KitError, match=sentence):
        Bundle(bars=bars(), laid=laid)
