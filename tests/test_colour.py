"""Tones and colours against their standards and two general-purpose libraries."""

from functools import cache

import numpy as np
import pytest
from skimage import color

from kit.metal import colour as ours
from kit.metal.colour import colour_difference
from kit.section.picture import to_srgb


@cache
def library():
    """Give colour-science, which changes how arrays print; doctests mind."""
    with np.printoptions():
        import colour
    return colour


# Sharma, Wu & Dalal, Color Res. Appl. 30 (2005) 21-30, table 1: nine of its pairs.
PAIRS = [
    ((50, 2.6772, -79.7751), (50, 0, -82.7485), 2.0425),
    ((50, 0, 0), (50, -1, 2), 2.3669),
    ((50, 2.49, -0.001), (50, -2.49, 0.0011), 7.2195),
    ((50, 2.5, 0), (73, 25, -18), 27.1492),
    ((2.0776, 0.0795, -1.1350), (0.9033, -0.0636, -0.5514), 0.9082),
    ((50, 3.1571, -77.2803), (50, 0, -82.7485), 2.8615),
    ((50, -1.3802, -84.2814), (50, 0, -82.7485), 1.0000),
    ((50, 2.49, -0.001), (50, -2.49, 0.0009), 7.1792),
    ((60.2574, -34.0099, 36.2677), (60.4626, -34.1751, 39.4387), 1.2644),
]
# WCAG 2.1; the well-known examples (facts.md section 8).
CONTRASTS = [
    ("767676", "ffffff", 4.54),
    ("777777", "ffffff", 4.478),
    ("0000ff", "ffffff", 8.59),
    ("0000ff", "ff0000", 2.15),
    ("000000", "ffffff", 21),
]
RANDOM = np.random.default_rng(2005)


def light(hexadecimal):
    """Luminance of a colour written #rrggbb, with the weights of WCAG 2.1."""
    return ours.from_srgb(np.array([*bytes.fromhex(hexadecimal)])) @ (
        0.2126,
        0.7152,
        0.0722,
    )


@pytest.mark.parametrize(("first", "second", "apart"), PAIRS)
def test_the_pairs_of_the_paper(first, second, apart):
    assert colour_difference(first, second) == pytest.approx(apart, abs=5e-5)
    assert colour_difference(second, first) == pytest.approx(apart, abs=5e-5)


def test_random_pairs_against_two_libraries():
    low, high = (0, -120, -120), (100, 120, 120)
    first, second = RANDOM.uniform(low, high, (2, 20_000, 3))
    second[::4] = first[::4] + RANDOM.normal(0, 1, (5000, 3))  # near ones
    first[1::50, 1:] = 0  # greys
    found = colour_difference(first, second)
    theirs = library().delta_E(first, second, method="CIE 2000")
    assert found == pytest.approx(theirs, abs=1e-9)
    assert found == pytest.approx(color.deltaE_ciede2000(first, second), abs=1e-9)


def test_differences_of_a_row_and_of_one():
    firsts, seconds, apart = (np.array(column) for column in zip(*PAIRS, strict=True))
    assert colour_difference(firsts, seconds) == pytest.approx(apart, abs=5e-5)
    assert colour_difference(firsts[:, None], seconds).shape == (9, 9)
    assert colour_difference([0, 0, 0], [100, 0, 0]) == pytest.approx(100, abs=0.01)
    assert colour_difference(firsts, firsts) == pytest.approx(np.zeros(9))


# CIE 1976, by hand: 116 * 0.18 ** (1/3) - 16 and so on; below 0.008856 903.3 times Y.
@pytest.mark.parametrize(
    ("tone", "looks"),
    [(0, 0), (0.001, 0.9033), (0.01, 8.99), (0.18, 49.50), (0.5, 76.07), (1, 100)],
)
def test_how_light_a_tone_looks(tone, looks):
    assert ours.lightness(tone) == pytest.approx(looks, abs=0.005)
    assert ours.reflectance(ours.lightness(tone)) == pytest.approx(tone)


def test_screen_levels_there_and_back():
    levels = np.arange(256)
    linear = ours.from_srgb(levels)
    assert (to_srgb(linear) == levels).all()
    assert linear == pytest.approx(library().eotf(levels / 255, "sRGB"), abs=1e-12)


def test_colours_against_two_libraries():
    levels = RANDOM.integers(0, 256, (500, 3))
    linear = ours.from_srgb(levels)
    # the libraries carry more or fewer digits in the matrix
    assert ours.from_xyz(color.rgb2xyz(levels / 255)) == pytest.approx(linear, abs=1e-3)
    theirs = library().RGB_to_XYZ(linear, "sRGB")
    assert ours.from_xyz(theirs) == pytest.approx(linear, abs=1e-3)


# and, to a tenth, what is drawn in the sun
@pytest.mark.parametrize(
    ("first", "second", "ratio"), [*CONTRASTS, ("2b2b2b", "e8e8e8", 11.6)]
)
def test_contrast_as_the_web_counts_it(first, second, ratio):
    found = ours.contrast_ratio(light(first), light(second))
    assert found == pytest.approx(ratio, abs=0.05 if ratio == 11.6 else 0.005)
    assert ours.contrast_ratio(light(second), light(first)) == found


def test_contrast_of_stripes():
    # (max - min) / (max + min): NRC 1985, appendix A
    assert ours.michelson(1, 0) == 1
    assert ours.michelson(0.2, 0.6) == pytest.approx(0.5)
    assert ours.michelson(np.zeros(2), np.zeros(2)).tolist() == [0, 0]
