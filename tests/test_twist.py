"""Twisted bars against torsion, screws and what a smith sees on a ground face."""

import math

import numpy as np
import pytest
from steps import ROUND, SQUARE, from_above, inside

from kit import KitError, Stack
from kit.forge.billet import Billet
from kit.forge.steps import (
    DrawOut,
    GrindRound,
    RoundUp,
    SetOnTheBias,
    Size,
    SquareUp,
    Twist,
)
from kit.forge.steps.twist import TRUE_SQUARE
from kit.section.trace import see

TONES = {"1084": 0.0, "15N20": 1.0}
TURN = 50.0


def twisted(layers=33, across=16.0, turn=TURN, hand="right", rounding=RoundUp):
    """Stack, make round with a diameter, twist."""
    side = across * (math.sqrt(math.pi) / 2 if rounding is RoundUp else 1)
    stack = Stack.alternate(
        "1084", "15N20", pieces=layers, thickness=side / layers, length=200, width=side
    )
    return Billet(source=stack).then(rounding(), Twist(turn_length=turn, hand=hand))


def ground(billet, height, *, columns=2000, pixel=0.1, rows=41):
    """Grind the bar flat at a height above its axis and look at the face."""
    plane = from_above(billet.size, 100.0, height, columns, rows, pixel)
    return see(billet, plane, TONES).tone


def test_a_right_hand_twist_climbs_like_a_common_screw():
    # A point on the top (+z), looked at from above, moves to -y going along +x: seen
    # from the near end (+x towards the viewer) it turns anticlockwise.
    step = Twist(turn_length=40)
    _, y, z = step.do((np.array([10.0]), np.array([8.0]), np.array([0.0])), ROUND)
    assert (y[0], z[0]) == pytest.approx((0, 8), abs=1e-12)
    left = Twist(turn_length=40, hand="left")
    _, y, z = left.do((np.array([10.0]), np.array([8.0]), np.array([0.0])), ROUND)
    assert (y[0], z[0]) == pytest.approx((0, -8), abs=1e-12)


@pytest.mark.parametrize(("height", "angle"), [(8, 45.2), (6, 37.0), (4, 26.7), (2, 14.1)])
def test_line_angle_on_the_middle_line(height, angle):
    """The tangent of the lines' angle is 2 pi h / p (curriculum, 3.4)."""
    step = Twist(turn_length=TURN)
    # follow one metal line that lies on the face's middle: it leaves it at this angle
    x = np.array([0.0, 1e-4])
    _, y, z = step.do((x, np.zeros(2), np.full(2, float(height))), ROUND)
    assert np.diff(z)[0] == pytest.approx(0, abs=1e-8)
    lean = math.degrees(math.atan(abs(np.diff(y)[0]) / 1e-4))
    assert lean == pytest.approx(angle, abs=0.05)


@pytest.mark.parametrize(("height", "lines"), [(7.5, 60), (6, 48), (4, 32), (2, 16)])
def test_lines_counted_along_the_middle(height, lines):
    """4 h / t lines a turn (curriculum, 3.4), counted on the picture.

    Flat layers of 0.5 mm in a bar ground round to 16 mm. Forged round, layers curve.
    """
    billet = twisted(layers=32, rounding=GrindRound)
    middle = ground(billet, height, columns=12000, pixel=200 / 12000)[20]
    crossings = np.count_nonzero(np.diff(middle > 0.5)) / 4  # four turns in 200 mm
    assert crossings == pytest.approx(lines, abs=2)


@pytest.mark.parametrize(("layers", "repeat"), [(33, TURN / 2), (32, TURN)])
def test_stars_repeat_every_half_turn_in_an_odd_stack_and_every_turn_in_an_even(
    layers, repeat
):
    face = ground(twisted(layers=layers), 0)
    columns = round(repeat / 0.1)
    inner = face[:, 200:-200]
    same = np.abs(inner[:, columns:] - inner[:, :-columns]).mean()
    half = round(TURN / 2 / 0.1)
    other = np.abs(inner[:, half:] - inner[:, :-half]).mean()
    quarter = np.abs(inner[:, half // 2 :] - inner[:, : -half // 2]).mean()
    assert same < 0.02
    assert quarter > 0.2
    if layers % 2 == 0:
        assert other > 0.2, "half a turn on, dark and bright have changed places"


def test_a_left_hand_twist_is_the_mirror_image():
    right, left = (ground(twisted(hand=hand), 4) for hand in ("right", "left"))
    np.testing.assert_allclose(right, left[::-1], atol=0.02)


def test_a_twist_by_hand_is_uneven_and_comes_to_as_many_turns():
    x = np.linspace(0, 4000, 40001)
    one, other = (
        np.diff(Twist(turn_length=40, uneven=30, seed=seed).angle(x))
        / (x[1] * math.tau / 40)
        for seed in (5, 6)
    )
    assert 0.7 <= one.min() < 0.8
    assert 1.2 < one.max() <= 1.3
    assert one.mean() == pytest.approx(1, abs=0.01)
    assert np.abs(one - other).max() > 0.2
    assert np.ptp(np.diff(Twist(turn_length=40, seed=5).angle(x))) < 1e-9


def test_drawing_a_twisted_bar_lengthens_the_turn():
    # 1.5 × as long at the same shape: the turn is 75 mm, the angle at the skin smaller
    billet = twisted()
    across = 16 / math.sqrt(1.5)
    drawn = billet.then(DrawOut(thickness=across, width=across))
    assert drawn.size.length == pytest.approx(1.5 * billet.size.length)
    face = ground(drawn, 0, columns=1500, pixel=0.1)
    inner = face[:, 100:-100]
    assert np.abs(inner[:, 375:] - inner[:, :-375]).mean() < 0.02


def boundary(count=3601):
    angle = np.linspace(0, 2 * np.pi, count)
    return np.zeros(count), 8 * np.cos(angle), 8 * np.sin(angle)


def test_how_square_squaring_up_is():
    _, y, z = SquareUp().do(boundary(), ROUND)
    side = 16 * math.sqrt(math.pi) / 2
    reach = np.maximum(np.abs(y), np.abs(z)) / (side / 2)
    assert reach.min() == pytest.approx(TRUE_SQUARE, abs=2e-4)
    assert reach.min() == pytest.approx(1 - 0.024, abs=1e-3)
    assert reach.max() == pytest.approx(1 + 0.039, abs=1e-3)
    area = 0.5 * abs(np.sum(y[:-1] * z[1:] - y[1:] * z[:-1]))
    assert area == pytest.approx(math.pi * 64, rel=1e-5)
    assert SquareUp().size_after(ROUND).thickness == pytest.approx(side * TRUE_SQUARE)


def test_how_round_rounding_up_is():
    edge = np.linspace(-8, 8, 2001)
    _, y, z = RoundUp().do((np.zeros(2001), edge, np.full(2001, 8.0)), SQUARE)
    radius = np.hypot(y, z) / (16 / math.sqrt(math.pi))
    assert np.abs(radius - 1).max() < 0.035


def test_squaring_up_undoes_rounding_up():
    points = inside(SQUARE)
    round_bar = RoundUp().size_after(SQUARE)
    there = RoundUp().do(points, SQUARE)
    back = SquareUp().do(there, round_bar)
    for one, other in zip(points, back, strict=True):
        np.testing.assert_allclose(one, other, atol=1e-9)


def test_the_middle_of_the_bar_hardly_moves():
    y = np.linspace(-1.6, 1.6, 101)
    _, moved, z = RoundUp().do((np.zeros(101), y, y), SQUARE)
    assert np.abs(moved - y).max() < 0.02
    assert np.abs(z - y).max() < 0.02


@pytest.mark.parametrize(
    ("step", "size", "sentence"),
    [
        (
            Twist(turn_length=50),
            SQUARE,
            "must be round for 'twist': round it up first. Given: a bar 16.0",
        ),
        (
            RoundUp(),
            Size(100, 30, 20),
            "Only a square bar .* Given: a bar that is 30.0 × 20.0",
        ),
        (RoundUp(), ROUND, "Given: a bar that is round"),
        (SquareUp(), SQUARE, "must be round for 'square up'"),
        (
            SetOnTheBias(degrees=45),
            SQUARE,
            "must be round for 'set on the bias'",
        ),
    ],
)
def test_bars_that_can_not_take_the_step(step, size, sentence):
    with pytest.raises(KitError, match=sentence):
        step.size_after(size)


@pytest.mark.parametrize("value", [0, -5, "tight", float("nan")])
def test_bad_turn_length(value):
    with pytest.raises(KitError, match="Length for one turn must be from 3 to 10000 mm"):
        Twist(turn_length=value)
