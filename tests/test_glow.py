"""Hot steel: the light against standards, its names and looks by their order only."""

from itertools import pairwise

import numpy as np
import pytest

from kit.basics.errors import KitError
from kit.metal.colour import luminance as screen_luminance
from kit.metal.colour import to_lab, to_xyz
from kit.metal.glow import _OBSERVER, chromaticity, light, luminance, seen
from kit.metal.heat_colours import (
    BY_CHAPMAN,
    BY_STIRLING,
    NO_GLOW,
    STIRLING_POINTS,
    TEMPER_COLOURS,
    colour_names,
    heat_scale,
    in_words,
)

with np.printoptions():  # colour-science changes how arrays print; doctests mind
    import colour

HEATS = np.arange(700, 1501, 50)
OBSERVER = colour.MSDS_CMFS["CIE 1931 2 Degree Standard Observer"]
# The Working of Steel (1921): mean of the temper colours of five makers, °F.
FIVE_MAKERS = {
    "very pale yellow": 430,
    "straw yellow": 458,
    "dark straw": 478,
    "yellow tinged with purple": 523,
    "dark purple": 551,
    "dark blue": 572,
    "pale blue": 603,
    "blue tinged with green": 627,
}


def by_library(celsius):
    """X, Y, Z in cd/m², every nanometre, by colour-science."""
    spectrum = colour.sd_blackbody(celsius + 273.15, OBSERVER.shape).values  # a nm
    return 683.002 * (spectrum @ OBSERVER.values)


def test_the_standard_observer():
    waves = np.arange(380, 781, 10)
    theirs = np.array([OBSERVER[float(wave)] for wave in waves])
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
    # facts.md section 4
    assert chromaticity(celsius) == pytest.approx([x, y], abs=1e-3)


def test_the_candela_of_1948():
    # 9th CGPM: a black body at the freezing point of platinum, 2042 K, has 60 cd/cm²
    assert 5.9e5 < luminance(2042 - 273.15) < 6.1e5


def test_the_light_bulb_of_the_standards():
    # CIE illuminant A, 2855.5 K on today's scale: x 0.44758, y 0.40745 (CIE 15:2004)
    assert chromaticity(2855.5 - 273.15) == pytest.approx([0.44758, 0.40745], abs=1e-4)


def test_a_hundred_degrees_more():
    # facts.md section 4: 3.3 times the light from 1100 to 1200 °C
    assert luminance(1200) / luminance(1100) == pytest.approx(3.31, abs=0.02)


def test_any_shape():
    heats = HEATS[:16].reshape(4, 4)
    assert light(heats).shape == seen(heats).shape == (4, 4, 3)
    assert light(heats)[2, 1] == pytest.approx(light(heats[2, 1]))


@pytest.mark.parametrize("lux", [0, 20, 500, 20_000])
def test_hotter_looks_brighter_and_yellower(lux):
    linear = seen(np.arange(300, 1501, 20), lux)
    assert ((linear >= 0) & (linear <= 1)).all()
    assert (np.diff(screen_luminance(linear)) > -1e-6).all()
    lab = to_lab(to_xyz(linear[20:]))  # from 700 °C
    glows = lab[np.hypot(lab[:, 1], lab[:, 2]) > 20]
    hue = np.degrees(np.arctan2(glows[:, 2], glows[:, 1]))
    assert (np.diff(hue) > 0).all()
    assert hue[-1] > 80  # yellow is at 90


def test_a_bright_room_hides_the_glow():
    lab = to_lab(to_xyz(np.array([seen(750, lux) for lux in (0, 20, 500, 5000, 50_000)])))
    depth = np.hypot(lab[:, 1], lab[:, 2])
    assert (np.diff(depth) < 0).all()
    assert depth[0] > 40
    assert depth[-1] < 2


def test_no_glow_without_heat():
    assert seen(20, 0) == pytest.approx(np.zeros(3), abs=1e-9)
    red, green, blue = seen(20, 500)
    assert red == pytest.approx(green, rel=0.01) == pytest.approx(blue, rel=0.01)


def test_the_lists_run_from_cold_to_hot():
    for colours in (BY_CHAPMAN, BY_STIRLING):
        for colder, hotter in pairwise(colours):
            assert colder.low < colder.high == hotter.low
    degrees = [celsius for _, celsius in TEMPER_COLOURS]
    assert degrees == sorted(degrees)


@pytest.mark.parametrize(
    ("celsius", "chapman", "stirling"),
    [
        (400, NO_GLOW, NO_GLOW),
        (500, "black red", NO_GLOW),
        (593, "black red", "just visible red"),
        (594, "very dark red", "just visible red"),
        (814, "dark red", "dull cherry red"),
        (850, "cherry red", "full cherry red"),
        (1100, "yellow", "deep orange"),
        (1400, "white", "bright white"),
    ],
)
def test_what_a_heat_is_called(celsius, chapman, stirling):
    # Chapman, Workshop Technology (1972); A Book of Steam for Engineers (1905), p. 50
    assert colour_names(celsius) == (chapman, stirling)


def test_the_lists_are_about_a_hundred_degrees_apart():
    ranges = {colour.name: colour for colour in BY_CHAPMAN}
    same = {
        "dull red": ("dark red", "dark red"),
        "dull cherry red": ("cherry red", "cherry red"),
        "full cherry red": ("cherry red", "light cherry red"),
        "clear cherry red": ("light cherry red", "light cherry red"),
        "deep orange": ("orange", "orange"),
        "clear orange": ("orange", "orange"),
        "white": ("white", "white"),
    }
    points = dict(STIRLING_POINTS)
    apart = [
        max(ranges[first].low - points[name], points[name] - ranges[last].high, 0)
        for name, (first, last) in same.items()
    ]
    assert sum(gap <= 20 for gap in apart) == len(apart) - 1
    assert 100 < max(apart) < 110  # as the screen says


def test_temper_colours_against_five_makers():
    fahrenheit = {name: celsius * 1.8 + 32 for name, celsius in TEMPER_COLOURS}
    assert set(FIVE_MAKERS) < set(fahrenheit)
    for name, mean in FIVE_MAKERS.items():
        assert fahrenheit[name] == pytest.approx(mean, abs=10)


def test_heats_in_words():
    words = in_words(850, "F")
    assert words.startswith("1562 °F: cherry red in one list, full cherry red in another")
    assert "light of the room" in words
    assert in_words(300).startswith("300 °C: no glow. ")


def test_the_scale_shows_what_it_says():
    scale = heat_scale(at=1000, lux=0)
    assert "It points at 1000 °C: orange in one list, clear cherry red" in scale.alt
    assert "500 °C (932 °F) to 1350 °C (2462 °F)" in scale.alt
    column = np.asarray(scale.image)[62:700, 118].astype(int)
    assert column[0].sum() > 600  # hot above
    assert column[-1].sum() < 30  # cold below
    plain = np.asarray(heat_scale(lux=0).image)
    assert (plain != np.asarray(scale.image)).any()


@pytest.mark.parametrize(
    ("wish", "words"),
    [
        (lambda: light(-1), "reckoned from 0 to 3000 °C. Given: -1 °C"),
        (lambda: luminance(np.array([900, np.nan])), "Given: nan °C"),
        (lambda: seen(900, -1), "from 0 to 100000 lux. Given: -1 lux"),
        (lambda: colour_names(1601), "named from 0 to 1600 °C. Given: 1601 °C"),
        (lambda: heat_scale(low=300), "must lie within 400 and 1500 °C"),
        (lambda: heat_scale(low=500, high=550), "span 100 °C or more"),
        (lambda: heat_scale(at=1400), "from 500 to 1350 °C. Given: 1400 °C"),
    ],
)
def test_impossible_heats(wish, words):
    with pytest.raises(KitError, match=words):
        wish()
