"""Tones and colours against their standards and two general-purpose libraries."""

from functools import cache

import numpy as np
import pytest
from skimage import color

from kit.metal import colour as ours
from kit.section.picture import to_srgb


@cache
def library():
    """Give colour-science, which changes how arrays print; doctests mind."""
    with np.printoptions():
        import colour
    return colour


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


# CIE 1976, by hand: 116 * 0.18 ** (1/3) - 16 and so on; below 0.008856 903.3 times Y.
@pytest.mark.parametrize(
    ("tone", "looks"),
    [(0, 0), (0.001, 0.9033), (0.01, 8.99), (0.18, 49.50), (0.5, 76.07), (1, 100)],
)
def test_how_light_a_tone_looks(tone, looks):
    assert ours.lightness(tone) == pytest.approx(looks, abs=0.005)


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
