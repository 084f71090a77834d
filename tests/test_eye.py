"""One minute of arc: 20/20, National Research Council (1985)."""

import math

import numpy as np
import pytest
from scipy.ndimage import gaussian_filter

from kit.basics.errors import KitError
from kit.metal.colour import contrast_ratio, michelson
from kit.metal.etch import tones
from kit.metal.eye import EYE, EYE_300, RIPPLE, SPREAD, Eye, blurred, seen_from


@pytest.mark.parametrize(
    ("distance", "width"),
    [(300, 0.087), (500, 0.145), (1000, 0.291), (2000, 0.582), (3000, 0.873)],
)
def test_one_minute_of_arc(distance, width):
    assert EYE.finest(distance) == pytest.approx(width, abs=5e-4)
    assert EYE.farthest(EYE.finest(distance)) == pytest.approx(distance)


def test_lessons_take_it_from_here():
    assert EYE.finest(300) == EYE_300 == 300 * math.tan(math.radians(1 / 60))


def test_bands_from_across_the_room():
    # curriculum 3.9 and N09 a: of 0.3, 0.8 and 2.0 mm only 2.0 is left from 3 m
    assert [EYE.sees(width, 3000, 10) for width in (0.3, 0.8, 2.0)] == [False, False, True]
    assert [EYE.sees(2.0, 3000, contrast) for contrast in (1.49, 1.5)] == [False, True]


def test_a_readers_own_eye():
    eye = Eye(arc_minutes=1.7188)  # by hand: 0.5 mm from 1 m, 0.5 / 0.2909
    assert eye.finest(1000) == pytest.approx(0.5, rel=1e-4)
    assert eye.sees(0.6, 1000, 5)
    assert not eye.sees(0.4, 1000, 5)


@pytest.mark.parametrize(
    ("wish", "words"),
    [
        (lambda: Eye(arc_minutes=0.2), "Finest angle must be from 0.3 to 10"),
        (lambda: Eye(arc_minutes=11), "Finest angle must be from 0.3 to 10"),
        (lambda: EYE.farthest(0), "The width must be more than 0 mm. Given: 0 mm"),
        (lambda: EYE.finest(-1), "The distance must be more than 0 mm"),
        (lambda: EYE.farthest(math.nan), "The width must be more than 0 mm"),
        (lambda: EYE.sees(1, 300, 0.9), "A contrast ratio must be from 1 to 21"),
    ],
)
def test_impossible_wishes(wish, words):
    with pytest.raises(KitError, match=words):
        wish()


NOISE = np.random.default_rng(7).random((120, 190))


def bars(width, rows=40, dark=0.0, bright=1.0):
    """Draw upright bars, `width` pixels each, from edge to edge."""
    row = np.where(np.arange(24 * width) // width % 2, bright, dark)
    return np.broadcast_to(row, (rows, row.size))


def middle(picture):
    """Cut out the columns that are far from both edges."""
    columns = picture.shape[1]
    return picture[:, columns // 3 : -columns // 3]


@pytest.mark.parametrize("width", [0.4, 1, 2.7, 9, 40, 300])
def test_it_is_a_gaussian(width):
    other = gaussian_filter(NOISE, width, mode="reflect", truncate=8)
    assert blurred(NOISE, width) == pytest.approx(other, abs=2e-6)
    single = blurred(NOISE.astype(np.float32), width)
    assert single.dtype == np.float32
    assert single == pytest.approx(other, abs=4e-6)


@pytest.mark.parametrize("width", [0.4, 3, 40, 300])
def test_the_mean_stays(width):
    assert blurred(NOISE, width).mean() == pytest.approx(NOISE.mean(), abs=1e-12)
    assert blurred(np.full((30, 50), 0.3), width) == pytest.approx(np.full((30, 50), 0.3))


def test_colours_are_blurred_each_for_itself():
    picture = np.random.default_rng(8).random((20, 30, 3))
    kept = picture.copy()
    found = blurred(picture, 2)
    assert (picture == kept).all()
    for part in range(3):
        assert found[..., part] == pytest.approx(blurred(picture[..., part], 2))


def test_no_blur_from_very_near():
    assert seen_from(NOISE, distance=1, pixel=0.1) == pytest.approx(NOISE, abs=1e-12)


@pytest.mark.parametrize("arc_minutes", [0.5, 1, 4])
@pytest.mark.parametrize("distance", [300, 3000])
def test_bars_at_the_limit_keep_one_per_cent(arc_minutes, distance):
    eye = Eye(arc_minutes=arc_minutes)
    pixel = eye.finest(distance) / 30  # bars of 30 pixels
    far = middle(seen_from(bars(30), distance, pixel, eye))
    assert michelson(far.max(), far.min()) == pytest.approx(RIPPLE, rel=0.01)
    # the same from the Fourier series of the bars, without our formula for the width
    scipys = middle(gaussian_filter(bars(30), SPREAD * 30, mode="reflect", truncate=8))
    assert michelson(scipys.max(), scipys.min()) == pytest.approx(0.01, rel=0.01)


def test_what_is_left_rises_with_the_width_of_the_bars():
    left = []
    for width in (20, 24, 30, 45, 60, 90):
        far = middle(seen_from(bars(width), 1000, EYE.finest(1000) / 30))
        left.append(michelson(far.max(), far.min()))
    assert left == sorted(left)
    assert left[0] < 0.001
    # three times as wide: 4/π times the ninth root of 1 % · π/4, by hand
    assert left[-1] == pytest.approx(0.743, abs=0.005)


@pytest.mark.parametrize(("width", "kept"), [(0.3, False), (0.8, False), (2.0, True)])
def test_bands_blurred_from_across_the_room(width, kept):
    # curriculum N09 a: from 3 m only the bands of 2.0 mm remain
    tone = tones(["1084", "15N20"])
    pixel = 0.05
    face = bars(round(width / pixel), 8, tone["1084"], tone["15N20"])
    far = middle(seen_from(np.tile(face, (1, 6)), 3000, pixel))
    contrast = contrast_ratio(far.max(), far.min())
    assert bool(contrast >= 1.5) is kept
    assert EYE.sees(width, 3000, contrast_ratio(*tone.values())) is kept
    if not kept:
        assert contrast < 1.02  # gone, not only faint
        assert far.mean() == pytest.approx(np.mean([*tone.values()]), abs=1e-3)


@pytest.mark.parametrize("pixel", [0, -1, np.nan, np.inf])
def test_impossible_pixels(pixel):
    with pytest.raises(KitError, match="A pixel must cover more than 0 mm"):
        seen_from(NOISE, 300, pixel)
