"""Steel that is taken away, against volumes worked out by hand."""

import math

import numpy as np
import pytest
from steps import samples, stack

from kit.course.lessons.scene import steel_gone
from kit.course.lessons.twist_drawing import face_away
from kit.forge.billet import Billet
from kit.forge.bundle import Bundle
from kit.forge.steps import (
    Dent,
    DrawOut,
    Drill,
    Fold,
    Grind,
    GrindRound,
    RoundUp,
    Split,
    SquareUp,
    Twist,
)
from kit.shop.losses import lost, share_lost, weight
from kit.shop.patterns import PATTERNS

SAMPLES = samples()

BAR = Billet(source=stack(7, 16 / 7, width=16, length=200))


@pytest.mark.parametrize("name", SAMPLES)
def test_a_step_that_only_moves_steel_takes_none(name):
    step, size = SAMPLES[name]
    taken = size.volume - step.size_after(size).volume
    if step.takes:
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


ROW = 12 * math.sqrt(3) / 2  # mm between rows of a triangular grid, 12 mm from hole to hole
PLATE = Billet(source=stack(4, 2.0, width=5 * ROW, length=240))
HOLES = 5 * 20  # in five rows


@pytest.mark.parametrize(
    ("kind", "depth", "volume"),
    [
        (Drill, {}, math.pi * 3**2 * (3 / math.tan(math.radians(59))) / 3),
        (Dent, {"depth": 1.5}, math.pi * 3**2 * 1.5 / 2),
    ],
)
def test_hollows_take_cones_and_paraboloids(kind, depth, volume):
    # a cone is a third, a paraboloid half of its cylinder (Archimedes)
    given = {"across": 6, **depth, "spacing": 12, "faces": "top"}
    (cut,) = lost(PLATE.then(kind(**given, way="cut and forged")))
    assert cut.volume == pytest.approx(HOLES * volume, rel=1e-6)
    # pressed: all above the bottom of the hollows is ground off, but for the hollows,
    # whose steel was pushed up beside them
    step = kind(**given, way="pressed and ground")
    (pressed,) = lost(PLATE.then(step))
    assert pressed.volume == pytest.approx(
        240 * 5 * ROW * step.deep - HOLES * volume, rel=1e-6
    )


def test_a_split_takes_a_prism():
    (row,) = lost(PLATE.then(Split(drag=2, reach=5)))
    assert row.volume == pytest.approx(240 * 5 * ROW * 2)


def test_a_face_ground_on_a_round_bar_is_a_segment():
    # area of a segment, r² acos(h / r) - h √(r² - h²): by the midpoint rule instead
    bar = BAR.then(GrindRound())
    for height in (0.0, 3.0, 6.0, 8.0):
        z = np.linspace(height, 8, 200_001)
        z = (z[1:] + z[:-1]) / 2
        area = (2 * np.sqrt(64 - z * z)).sum() * (8 - height) / 200_000
        assert face_away(bar, height) == pytest.approx(area / (64 * math.pi), abs=1e-7)
    assert face_away(BAR, 4.0) == pytest.approx(1 / 4)


def test_the_number_on_the_screen_has_its_working():
    bar = BAR.then(GrindRound(), Twist(turn_length=50))
    shown = steel_gone(bar, face=0.5)
    # (1 - π / 4) and then half of π / 4 of 200 × 16 × 16 = 51 200 mm³
    assert shown.value == "60.7 %"
    assert shown.working[0] == ("corners ground off: 10,988 mm³ of 51,200 mm³ = 21.5 %")
    assert shown.working[1].startswith("ground off the face: 20,106 mm³ of 51,200 mm³")
    assert shown.working[-1] == "left: about 158 g"
    assert steel_gone(BAR.then(Fold())).value == "0 %"
    assert "takes none" in steel_gone(BAR.then(Fold())).working[0]


def test_weight_by_hand():
    # seven bars, the outer four 1084 at 7.85 and the inner three 15N20 at 7.85 g/cm³
    assert weight(BAR) == pytest.approx(200 * 16 * 16 * 7.85e-3, rel=1e-3)
    half = BAR.then(Grind(ends=50))
    assert weight(half) == pytest.approx(weight(BAR) / 2)
    assert weight(BAR.then(Fold(), DrawOut(thickness=8))) == pytest.approx(weight(BAR))


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
