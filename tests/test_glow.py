"""Hot steel: the light against standards, its looks by their order only."""

import numpy as np
import pytest
from test_colour import library

from kit.basics.errors import KitError
from kit.metal.colour import _OBSERVER, light, seen

HEATS = np.arange(700, 1501, 50)
OBSERVER = "CIE 1931 2 Degree Standard Observer"


def by_library(celsius):
    """X, Y, Z in cd/m², every nanometre, by colour-science."""
    colour = library()
    observer = colour.MSDS_CMFS[OBSERVER]
    spectrum = colour.sd_blackbody(celsius + 273.15, observer.shape).values  # a nm
    return 683.002 * (spectrum @ observer.values)


def luminance(celsius):
    """How bright a black body is, cd/m²."""
    return light(celsius)[..., 1]


def chromaticity(celsius):
    """Its colour without its brightness: CIE 1931 x, y."""
    xyz = light(celsius)
    return xyz[..., :2] / xyz.sum(axis=-1, keepdims=True)


def on_screen(linear):
    """L*, a*, b* of linear red, green and blue, by colour-science; white is daylight."""
    colour = library()
    daylight = colour.CCS_ILLUMINANTS[OBSERVER]["D65"]
    return colour.XYZ_to_Lab(colour.RGB_to_XYZ(linear, "sRGB"), daylight)


def test_the_standard_observer():
    waves = np.arange(380, 781, 10)
    observer = library().MSDS_CMFS[OBSERVER]
    theirs = np.array([observer[float(wave)] for wave in waves])
    assert pytest.approx(theirs, abs=1e-6) == _OBSERVER


def test_colour_and_brightness_against_a_library():
    theirs = np.array([by_library(celsius) for celsius in HEATS])
    assert luminance(HEATS) == pytest.approx(theirs[:, 1], rel=5e-4)
    xy = theirs[:, :2] / theirs.sum(axis=1, keepdims=True)
    assert chromaticity(HEATS) == pytest.approx(xy, abs=1e-4)


@pytest.mark.parametrize(
    ("celsius", "x", "y"),
    [(700, 0.6565, 0.3411), (900, 0.6287, 0.3646), (1100, 0.6020, 0.3836)],
)
def test_colours_worked_out_before(celsius, x, y):
    # by colour-science, with Planck and CIE 1931
    assert chromaticity(celsius) == pytest.approx([x, y], abs=1e-3)


def test_a_hundred_degrees_more():
    # by colour-science: 3.3 times the light from 1100 to 1200 °C
    assert luminance(1200) / luminance(1100) == pytest.approx(3.31, abs=0.02)


def test_any_shape():
    heats = HEATS[:16].reshape(4, 4)
    assert light(heats).shape == seen(heats).shape == (4, 4, 3)
    assert light(heats)[2, 1] == pytest.approx(light(heats[2, 1]))


@pytest.mark.parametrize("lux", [0, 20, 500, 20_000])
def test_hotter_looks_brighter_and_yellower(lux):
    linear = seen(np.arange(300, 1501, 20), lux)
    assert ((linear >= 0) & (linear <= 1)).all()
    lab = on_screen(linear)
    assert (np.diff(lab[:, 0]) > -1e-4).all()
    lab = lab[20:]  # from 700 °C
    glows = lab[np.hypot(lab[:, 1], lab[:, 2]) > 20]
    hue = np.degrees(np.arctan2(glows[:, 2], glows[:, 1]))
    assert (np.diff(hue) > 0).all()
    assert hue[-1] > 80  # yellow is at 90


def test_a_bright_room_hides_the_glow():
    lab = on_screen(np.array([seen(750, lux) for lux in (0, 20, 500, 5000, 50_000)]))
    depth = np.hypot(lab[:, 1], lab[:, 2])
    assert (np.diff(depth) < 0).all()
    assert depth[0] > 40
    assert depth[-1] < 2


def test_no_glow_without_heat():
    assert seen(20, 0) == pytest.approx(np.zeros(3), abs=1e-9)
    red, green, blue = seen(20, 500)
    assert red == pytest.approx(green, rel=0.01) == pytest.approx(blue, rel=0.01)


@pytest.mark.parametrize(
    ("wish", "words"),
    [
        (lambda: light(-1), "reckoned from 0 to 3000 °C. Given: -1 °C"),
        (lambda: light(np.array([900, np.nan])), "Given: nan °C"),
        (lambda: seen(900, -1), "from 0 to 100000 lux. Given: -1 lux"),
    ],
)
def test_impossible_heats(wish, words):
    with pytest.raises(KitError, match=words):
        wish()
