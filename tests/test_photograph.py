"""Photographs: opened safely, turned square on, their scale set."""

import io
import math

import mplstereonet
import numpy as np
import pytest
from PIL import Image
from skimage import transform
from test_measuring import png, polygons

from kit.basics.errors import KitError
from kit.forge.billet import Billet
from kit.forge.stack import Stack
from kit.forge.steps import GrindRound, SetOnTheBias
from kit.metal import etch
from kit.section.surface import Plane
from kit.section.trace import see
from kit.shop.measuring import band_width
from kit.shop.photograph import MOST_BYTES, Photograph, opened
from kit.shop.scale import BANK_CARD, Scale
from kit.shop.stereology import line_angle
from kit.shop.stripes import along


def test_a_tilted_photograph_is_measured_as_it_was_given():
    straight = polygons(20, 0, (500, 800))
    # a card drawn nine pixels a mm, photographed askew by scikit-image
    corners = np.array([(60, 40), (760, 90), (700, 470), (20, 420)], float)
    size = np.array(BANK_CARD) * 9
    card = np.array([(0, 0), (size[0], 0), tuple(size), (0, size[1])])
    tilt = transform.ProjectiveTransform()
    assert tilt.estimate(corners, card)
    askew = transform.warp(straight, tilt, output_shape=(500, 800), cval=0.12)
    photo = opened(png(askew))
    scale = Scale(tuple(tuple(c) for c in corners))
    ends = tilt.inverse([(100, 250), (700, 250)])  # from the ground to the picture
    width = band_width(photo, *map(tuple, ends), scale=scale)
    # but for the card's own thickness, a band is 10 pixels, nine a mm
    assert width.mean == pytest.approx(10 / 9, rel=0.01)
    assert width.within / width.mean < 0.02
    # its sides meet in (150, 50): there is the horizon
    steep = Scale(((100, 100), (200, 100), (290, 190), (10, 190)))
    with pytest.raises(KitError, match="tilted too steeply"):
        steep.ground(np.array([(150.0, 52.0)]))


def test_a_bank_card_is_as_large_as_its_standard_says():
    left, top, wide, tall = 100, 80, 5 * BANK_CARD[0], 5 * BANK_CARD[1]
    corners = (
        (left, top),
        (left + wide, top),
        (left + wide, top + tall),
        (left, top + tall),
    )
    assert Scale(corners).pixel == pytest.approx(0.2, rel=1e-3)


BAD = {
    "empty": lambda: b"",
    "words": lambda: b"no picture at all",
    "half a picture": lambda: png(polygons(20))[:300],
    "huge": lambda: b"\x89PNG" + bytes(MOST_BYTES),
}


@pytest.mark.parametrize("name", BAD)
def test_a_bad_picture_gets_one_sentence(name, tmp_path):
    path, content = tmp_path / "a.png", BAD[name]()
    path.write_bytes(content)
    for source in (content, path):
        with pytest.raises(KitError) as error:
            opened(source)
        assert "\n" not in str(error.value)
    with pytest.raises(KitError, match="no file"):
        opened(tmp_path / "none.png")


def test_a_picture_of_too_many_pixels_is_not_opened():
    stream = io.BytesIO()
    Image.new("1", (9000, 9000)).save(stream, "png")
    assert len(stream.getvalue()) < 100_000
    with pytest.raises(KitError, match="million pixels"):
        opened(stream.getvalue())


def stripes(mode):
    """Draw bands 20 pixels wide, dark and bright, in a mode of Pillow's."""
    line = np.arange(400) // 20 % 2 * 170 + 40
    if mode == "I;16":
        return Image.fromarray(np.tile(line * 257, (90, 1)).astype(np.uint16))
    return Image.fromarray(np.tile(line, (90, 1)).astype(np.uint8)).convert(mode)


MODES = {"L": "png", "I;16": "png", "RGBA": "png", "1": "tiff", "P": "gif", "CMYK": "jpeg"}


@pytest.mark.parametrize("turn", [1, 3, 6, 8])
@pytest.mark.parametrize("mode", MODES)
def test_greys_are_the_same_in_every_kind_of_picture(mode, turn):
    stream, tags = io.BytesIO(), Image.Exif()
    tags[0x0112] = turn
    kind = MODES[mode]
    tagged = {"exif": tags} if kind in ("png", "jpeg") else {}
    stripes(mode).save(stream, kind, **tagged)
    light = opened(stream.getvalue()).light
    if tagged and turn in (6, 8):  # EXIF 2.3: the camera stood on its side
        light = light.T
    assert light.shape == (90, 400)
    bands = along(Photograph(light), (5, 45), (395, 45))
    assert bands.width == pytest.approx(20, abs=0.2)
    if mode != "1":
        found = np.sort(light[45, [10, 30]])  # IEC 61966-2-1 of 40 and 210
        assert found == pytest.approx(np.array([0.0212, 0.6445]), abs=0.02)


# How lines run on two cuts of the engine, by another library's fit of their plane.
@pytest.mark.parametrize("rolled", [20.0, 35.0, 55.0])
def test_two_cut_faces_of_the_engine_give_back_how_the_layers_lie(rolled):
    stack = Stack.alternate("1084", "15N20", pieces=25, thickness=1.6, length=200, width=40)
    bar = Billet(source=stack).then(GrindRound(), SetOnTheBias(degrees=rolled))
    tones = etch.tones(bar.source.steels)
    # bearings count from +y (north) towards +x (east); the cuts stand upright
    lines = []
    for bearing in (20.0, 70.0):
        along = (math.sin(math.radians(bearing)), math.cos(math.radians(bearing)), 0.0)
        face = Plane(
            size=bar.size,
            centre=(100.0, 0.0, 0.0),
            right=along,
            up=(0.0, 0.0, 1.0),
            columns=241,
            rows=241,
            pixel=0.08,
        )
        light = see(bar, face, tones).tone
        rising = line_angle(Photograph(light), (120, 120), 100).degrees
        lines.append((-rising, bearing))
    slants, bearings = zip(*lines, strict=True)
    strike, dip = mplstereonet.fit_girdle(slants, bearings, measurement="lines")
    assert float(dip) == pytest.approx(rolled, abs=1.0)
    # the top was rolled towards +y, so the layers fall towards +y: north
    assert (float(strike) + 90 + 180) % 360 - 180 == pytest.approx(0, abs=1.5)
