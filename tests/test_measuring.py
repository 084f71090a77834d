"""Bands, angles and repeats on pictures whose truth is known, drawn by the kit and others.

Error bounds found here are those that the notebook states.
"""

import io
import math
from functools import lru_cache

import numpy as np
import pytest
from drawn_bands import drawn
from PIL import Image
from scipy import stats
from skimage import draw, transform, util
from steps import from_above, stack

from kit.basics.errors import KitError
from kit.basics.units import Units
from kit.forge.billet import Billet, fold_and_draw
from kit.forge.steps import Grind, RoundUp, SquareUp, Twist
from kit.section.picture import to_srgb
from kit.section.surface import cut
from kit.section.trace import see
from kit.shop import stereology
from kit.shop.measuring import band_width
from kit.shop.photograph import Photograph, opened
from kit.shop.scale import Scale
from kit.shop.stereology import line_angle, repeat
from kit.shop.stripes import along
from tests.bench.photographs import WRONG, tried

pytestmark = pytest.mark.gate

TONES = {"1084": 0.06, "15N20": 0.7}
random = np.random.default_rng(20)


def png(light):
    """Store linear light as a PNG, as a camera would."""
    stream = io.BytesIO()
    Image.fromarray((255 * to_srgb(np.clip(light, 0, 1))).astype(np.uint8)).save(
        stream, "png"
    )
    return stream.getvalue()


@lru_cache
def polygons(period, angle=0.0, shape=(400, 640)):
    """Let scikit-image draw stripes, three times finer, and average them down."""
    rows, columns = (3 * side for side in shape)
    picture = np.full((rows, columns), 0.12)
    turn, middle = math.radians(angle), (columns / 2, rows / 2)
    along_, side = (math.cos(turn), -math.sin(turn)), (math.sin(turn), math.cos(turn))
    reach = math.hypot(rows, columns) / 2
    most = math.ceil(reach / 3 / period)
    for number in range(-most, most):
        start = number * 3 * period
        corners = [
            (
                middle[0] + (start + u) * along_[0] + v * side[0],
                middle[1] + (start + u) * along_[1] + v * side[1],
            )
            for u, v in (
                (0, -reach),
                (1.5 * period, -reach),
                (1.5 * period, reach),
                (0, reach),
            )
        ]
        x, y = zip(*corners, strict=True)
        picture[draw.polygon(y, x, picture.shape)] = 0.55
    return transform.downscale_local_mean(picture, (3, 3))


def spoilt(light, *, noise=0.0, blur=0.0, lamp=0.0):
    """Add what a hurried photograph has."""
    from skimage import filters

    if blur:
        light = filters.gaussian(light, blur)
    x = np.linspace(-1, 1, light.shape[1])
    light = light * (1 + lamp * x + 0.3 * lamp * np.sin(7 * x))
    return util.random_noise(light, "gaussian", rng=1, var=noise**2) if noise else light


SPOILT = [
    {},
    {"noise": 0.05},
    {"noise": 0.15},
    {"blur": 2.0},
    {"lamp": 0.6},
    {"noise": 0.05, "blur": 1.5, "lamp": 0.6},
]


@pytest.mark.parametrize("spoil", SPOILT, ids=str)
@pytest.mark.parametrize("period", [10, 24, 90])
def test_stripes_drawn_by_another_library(period, spoil):
    photo = opened(png(spoilt(polygons(period), **spoil)))
    bands = along(photo, (12, 200), (628, 200))
    assert bands.doubt == ""
    assert (
        bands.count == 2 * (308 * 2 // period) + 2
    )  # edges both ways from the middle, 320
    assert bands.width == pytest.approx(period / 2, rel=0.02)


@pytest.mark.parametrize("angle", [-60, -20, 0, 12, 45, 75])
def test_the_angle_of_lines_is_found_within_a_quarter_of_a_degree(angle):
    photo = opened(png(spoilt(polygons(16, angle, (260, 260)), noise=0.05)))
    found = line_angle(photo, (130, 130), 120)
    # stripes stand square to the way they are counted in; rising to the right is plus
    assert (found.degrees - (angle + 90) + 90) % 180 - 90 == pytest.approx(0, abs=0.25)


def test_bands_drawn_by_matplotlib():
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    figure = Figure(figsize=(6, 2), dpi=100)
    axes = figure.add_axes((0, 0, 1, 1), xlim=(0, 60), ylim=(0, 1))
    axes.axis("off")
    edges = np.cumsum(np.tile([3.175, 1.5875], 12))
    for start, end in zip(edges[::2], edges[1::2], strict=True):
        axes.axvspan(start, end, color="0.85", linewidth=0)
    stream = io.BytesIO()
    FigureCanvasAgg(figure).print_png(stream)
    photo = opened(stream.getvalue())
    bands = along(photo, (0, 100), (570, 100))
    met = edges[edges < 57]
    assert len(bands.edges) == len(met)
    assert bands.edges / 10 + 0.05 == pytest.approx(met, abs=0.1)  # a pixel
    assert bands.width / 10 == pytest.approx((met[-1] - met[0]) / (len(met) - 1), abs=0.01)


@pytest.mark.parametrize("angle", [30, 60, 90])
def test_layers_of_a_cut_face_come_back(angle):
    billet = fold_and_draw(Billet(source=stack(7, 3.0)), folds=2, thickness=14)
    high = billet.size.thickness / math.sin(math.radians(angle))
    plane = cut(billet.size, angle=angle, columns=300, rows=900, pixel=high / 900)
    photo = opened(png(see(billet, plane, TONES).tone))
    scale, box = Scale(((150, 0), (150, 900)), high), (0, 0, 299, 899)
    width = band_width(photo, (150, 0), (150, 899), scale=scale, box=box)
    counts = {line.count for line in width.lines}
    assert counts == {billet.bands} == {25}  # (7 - 1) × 4 + 1
    assert width.trusted == width.lines
    # but for doubled bands in the middle and halves at the faces, all are 28ths
    inner = (14 - 2 * 0.5) / 23
    layer = stereology.true_spacing(width.mean, angle)
    assert layer == pytest.approx(inner, rel=0.01)
    assert width.spread < 0.01
    assert not width.doubt


def test_stars_come_again_every_half_turn():
    turn = 50.0
    bar = Billet(source=stack(9, 16 / 9, width=16, length=200)).then(
        RoundUp(), Twist(turn_length=turn), SquareUp()
    )
    middle = bar.then(Grind(top=bar.size.thickness / 2 - 0.01))
    plane = from_above(middle.size, 100.0, middle.size.thickness / 2 - 1e-3, 1800, 160, 0.1)
    photo = opened(png(see(middle, plane, TONES).tone))
    assert repeat(photo, (0, 60), (1799, 60)) * 0.1 == pytest.approx(turn / 2, abs=0.05)


def test_a_picture_too_coarse_or_too_dull_says_so():
    coarse = along(Photograph(polygons(4)), (10, 200), (630, 200))
    assert "pixels wide" in coarse.doubt
    grain = Photograph(0.3 + 0.02 * random.standard_normal((400, 640)))
    assert "grain" in along(grain, (10, 200), (630, 200)).doubt
    plain = along(Photograph(np.full((400, 640), 0.3)), (10, 200), (630, 200))
    assert plain.doubt
    for light in (grain.light, np.full((400, 640), 0.3), np.full((400, 640), 1.0)):
        found = band_width(Photograph(light), (10, 200), (630, 200))
        assert found.doubt.startswith("I cannot decide:")
        assert found.told(Units.MM) == [found.doubt]
    with pytest.raises(KitError, match="every direction"):
        line_angle(grain, (320, 200), 100)
    with pytest.raises(KitError, match="comes again"):
        repeat(grain, (10, 200), (630, 200))


def test_interval_is_that_of_the_standard_and_of_scipy():
    # made-up counts, the interval of Student's t, from memory
    some = stereology.estimate([0.25, 0.30, 0.20, 0.35, 0.25])
    assert some.mean == pytest.approx(0.27)
    assert some.within == pytest.approx(0.0708, abs=5e-4)
    assert 100 * some.within / some.mean == pytest.approx(26, abs=0.3)
    for number in (5, 10, 30):
        expected = stats.t.ppf(0.975, number - 1)
        assert stereology.STUDENT[number - 2] == pytest.approx(expected, abs=1e-3)
    assert stereology.STUDENT[8] == 2.262  # ASTM E562-02, Table 1, ten fields


def spotted():
    """Draw stripes with a glare over six of them, white without any shade."""
    light = polygons(24).copy()
    light[:, 200:344] = 1.0
    return light


def beside():
    """Draw steel whose lower half has bands thrice as wide, as a card would."""
    return np.vstack([polygons(20)[:200], polygons(60)[:200]])


def scratched(rows):
    """Draw stripes of which one bright one is dark in some rows."""
    light = polygons(24).copy()
    light[rows, 294:310] = 0.12
    return light


UNSURE = {
    "blown out": (spotted, "blown out"),
    "one pair": (lambda: polygons(450), "whole pair"),
    "two faces": (beside, "the lines disagree"),
    "a band lost": (lambda: scratched(slice(None)), "stand out"),
}


@pytest.mark.parametrize("name", UNSURE)
def test_what_cannot_be_trusted_is_refused_and_still_drawn(name):
    draw_it, why = UNSURE[name]
    light = draw_it()
    ends = ((12, 200), (628, 200))
    width = band_width(Photograph(light), *ends, box=(10, 10, 630, 390))
    assert why in width.doubt
    assert width.told(Units.MM)[-1] == width.doubt
    assert math.isnan(width.mean)
    assert len(width.lines) == 7  # to be looked at, with the edges they found


def test_one_scratched_line_is_left_out_and_the_rest_is_measured():
    light = scratched(slice(195, 206))  # on the middle line alone
    width = band_width(Photograph(light), (12, 200), (628, 200), box=(10, 10, 630, 390))
    assert len(width.trusted) == 6
    assert "1 line left out" in " ".join(width.told(Units.MM))
    assert width.mean == pytest.approx(12, rel=0.01)
    assert width.doubt == ""


@pytest.mark.parametrize("angle", [0, -5, 91, math.nan])
def test_true_spacing_wants_an_angle(angle):
    with pytest.raises(KitError, match="angle between"):
        stereology.true_spacing(1, angle)


def test_lines_outside_and_marks_askew_get_one_sentence():
    photo = Photograph(polygons(20))
    for start, end in (((0, 0), (5, 5)), ((0, 0), (9000, 0)), ((-50, 3), (100, 3))):
        with pytest.raises(KitError, match="at least 20 pixels"):
            along(photo, start, end)
    with pytest.raises(KitError, match="scale"):
        Scale(((3, 3), (3, 3)), 10)
    with pytest.raises(KitError, match="clockwise"):
        Scale(((0, 0), (0, 300), (300, 300), (300, 0)))
    with pytest.raises(KitError, match="inside the box"):
        band_width(photo, (10, 200), (630, 200), box=(0, 300, 600, 390))


# Bands of unequal width, few and many: every one counted. Plain pictures are doubted.
COUNTS = (4, 5, 9, 26, 100, 400)
SPOILT = ({}, {"noise": 0.03}, {"lamp": 0.3})


@pytest.mark.parametrize("other", [1, 3, 9])
@pytest.mark.parametrize("count", COUNTS)
def test_every_band_is_counted_however_unequal(count, other):
    for number, dark in enumerate((1 / (1 + other), other / (1 + other))):
        # as large as a photograph of so many bands allows
        pair = min(240.0, 2 * 2900 / count) * 0.983
        spoilt = SPOILT[(count + other + number) % 3 if count > 5 else 0]
        picture = drawn(count, dark, pair, dark_first=number == 0, **spoilt)
        photo, middle = opened(picture.png), picture.rows / 2
        found = along(photo, (0, middle), (picture.columns - 1, middle))
        assert found.doubt == ""
        assert 0 <= count - found.count <= picture.slivers
        assert found.width == pytest.approx(picture.pair / 2, rel=0.01)


@pytest.mark.parametrize("grey", [0, 1, 60, 120, 200, 255])
def test_a_plain_picture_is_doubted(grey):
    flat = np.full((60, 400), grey)
    dots = np.random.default_rng(4).integers(0, 2, flat.shape)  # the last bit of a camera
    slope = np.linspace(0.8, 1, 400)  # a lamp at one side
    for picture in (
        flat,
        np.clip(flat + dots, 0, 255),
        flat * slope,
        (flat + dots) * slope,
    ):
        stream = io.BytesIO()
        Image.fromarray(np.clip(picture, 0, 255).astype(np.uint8)).save(stream, "png")
        found = along(opened(stream.getvalue()), (0, 30), (399, 30))
        assert found.doubt.startswith("I cannot decide:")
        assert np.isnan(found.width) or found.swing < 3 * found.noise


# Drawn photographs measured: near the truth, as the interval says, or doubted.
@pytest.mark.parametrize("seed", range(60))
def test_a_photograph_is_measured_or_doubted(seed):
    found = tried(seed, longest=1500)
    if not found.width.doubt:
        assert found.half <= WRONG
        assert abs(found.off) <= 1.5 * found.half
    for line in found.width.lines:
        if found.shot.box:  # no line leaves the box, no edge leaves its line
            left, top, right, low = found.shot.box
            for x, y in (line.start, line.end, *line.places):
                assert left - 1 <= x <= right + 1
                assert top - 1 <= y <= low + 1
