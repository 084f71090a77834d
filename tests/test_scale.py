"""Scale: the law by hand, and that doubling takes four times as long."""

import math

import pytest

from kit.basics.errors import KitError
from kit.metal.scale import scale_loss


@pytest.mark.parametrize(
    ("celsius", "minutes", "micrometres"),
    # worked out apart from the kit from kp = 6.1 exp(-169.5 kJ / R T) g² cm⁻⁴ s⁻¹ of oxygen
    # (Païdassi 1958 after Chen & Yuen 2003; from memory)
    [(1000, 10, 85), (1200, 5, 179)],
)
def test_what_a_heat_takes_off_a_face(celsius, minutes, micrometres):
    assert 1e3 * scale_loss(celsius, minutes) == pytest.approx(micrometres, abs=0.6)


def test_by_hand():
    # 1200 °C: kp = 6.1 exp(-13.839) = 5.96e-6; 300 s: √(1.788e-3) = 42.3 mg/cm² of oxygen;
    # iron in Fe0.95O is 3.316 times as heavy: 140.2 mg/cm², 0.1786 mm at 7.85 g/cm³
    assert scale_loss(1200, 5) == pytest.approx(0.1786, rel=0.003)


def test_the_law_of_the_square_root():
    assert scale_loss(1150, 20) == pytest.approx(2 * scale_loss(1150, 5))
    assert scale_loss(1150, 0) == 0


def test_it_is_of_the_order_of_the_trade():
    # handbook allowance for scale in hammer forging: 5 to 7.5 % of the net weight, for all
    # heats; in a plant 4.5 % at up to 1280 °C before the fire was set right, 1.1 % after
    left = math.prod(1 - 2 * scale_loss(1200, 5) / side for side in (100, 36, 30))
    assert 4 < 100 * 2 * (1 - left) < 7.5


@pytest.mark.parametrize(
    ("celsius", "minutes", "words"),
    [
        (500, 5, r"from 700 °C \(1292 °F\) to 1300 °C .* Given: 500 °C"),
        (1400, 5, "Given: 1400 °C"),
        (math.nan, 5, "Given: nan"),
        (1200, -1, "0 or more. Given: -1"),
    ],
)
def test_one_sentence(celsius, minutes, words):
    with pytest.raises(KitError, match=words):
        scale_loss(celsius, minutes)
