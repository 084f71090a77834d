"""Four-way tiles and upset bars, by their symmetry and by volume."""

import math

import numpy as np
import pytest
from steps import stack

from kit import KitError
from kit.forge.billet import Billet
from kit.forge.steps import DrawOut, FourWay, RoundSize, Size, Split, Upset
from kit.section.surface import Plane
from kit.section.trace import see

TONES = {"1084": 0.0, "15N20": 1.0}
# a square bar whose end is no mirror image of itself: an even stack, dragged aside
SQUARE = Billet(source=stack(8, 2.5, width=20.0, length=160.0)).then(Split(drag=4, reach=3))


def end_grain(billet, along=10.0, count=160):
    side = billet.size.width
    plane = Plane(
        size=billet.size,
        centre=(along, 0.0, 0.0),
        right=(0.0, 1.0, 0.0),
        up=(0.0, 0.0, 1.0),
        columns=count,
        rows=count,
        pixel=side / count,
    )
    return see(billet, plane, TONES).tone


def squared(billet):
    """Trim to a true square, so that it can be tiled."""
    side = math.sqrt(billet.size.width * billet.size.thickness)
    return billet.then(DrawOut(thickness=side, width=side))


def test_turned_tiles_look_the_same_after_a_quarter_turn():
    tiled = squared(SQUARE).then(FourWay())
    face = end_grain(tiled)
    np.testing.assert_allclose(face, np.rot90(face), atol=0.02)
    assert np.abs(face - face[::-1]).mean() > 0.05, "but it is no mirror image"


def test_mirrored_tiles_mirror_each_other_in_both_seams():
    face = end_grain(squared(SQUARE).then(FourWay(way="mirrored")))
    np.testing.assert_allclose(face, face[::-1], atol=0.02)
    np.testing.assert_allclose(face, face[:, ::-1], atol=0.02)


def test_each_tile_is_a_piece_of_the_bar():
    bar = squared(SQUARE)
    tiled = end_grain(bar.then(FourWay()))
    alone = end_grain(bar, count=80)
    # lower right: as it was
    np.testing.assert_allclose(tiled[82:, 82:], alone[2:, 2:], atol=0.02)


def test_upsetting_an_outside_example():
    # Groover's upset example: a round work piece 75 mm high, 50 mm thick, upset to
    # 49 mm has an area of 3005 mm² (volume 147 262 mm³); figures from memory.
    after = Upset(length=49).size_after(RoundSize(75.0, 50.0, 50.0))
    assert math.pi / 4 * after.thickness**2 == pytest.approx(3005, abs=1)
    assert after.volume == pytest.approx(147_262, abs=1)
    assert after.round


@pytest.mark.parametrize(
    ("step", "size", "sentence"),
    [
        (
            FourWay(),
            Size(100, 20, 12),
            "must be square to be tiled. Given: a bar 20 × 12 mm",
        ),
        (FourWay(), RoundSize(100, 20, 20), "A round bar cannot take the step 'four-way'"),
        (Upset(length=120), Size(100, 20, 12), "shorter: at most 100 mm. Given: 120"),
    ],
)
def test_bars_that_can_not_take_the_step(step, size, sentence):
    with pytest.raises(KitError, match=sentence):
        step.size_after(size)
