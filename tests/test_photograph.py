"""Photographs: opened safely, turned square on, their scale set."""

import io

import numpy as np
import pytest
from PIL import Image
from skimage import transform
from test_measuring import png, polygons

from kit.errors import KitError
from kit.measuring.photograph import BANK_CARD, MOST_BYTES, Photograph, opened
from kit.measuring.stripes import along


def test_a_tilted_photograph_is_turned_square_on():
    straight = polygons(20, 0, (500, 800))
    # 800 × 500 pixels of 0.2 mm, photographed askew by scikit-image
    corners = np.array([(60, 40), (760, 90), (700, 470), (20, 420)], float)
    tilt = transform.ProjectiveTransform()
    assert tilt.estimate(corners, np.array([(0, 0), (800, 0), (800, 500), (0, 500)]))
    askew = transform.warp(straight, tilt, output_shape=(500, 800), cval=0.12)
    photo = opened(png(askew)).square_on([tuple(c) for c in corners], (160, 100))
    rows, columns = photo.light.shape
    middle = rows / 2
    bands = along(photo, (0.25 * columns, middle), (0.75 * columns, middle))
    assert bands.spacing == pytest.approx(2.0, rel=0.01)


def test_a_bank_card_is_as_large_as_its_standard_says():
    light = np.full((400, 600), 0.2)
    left, top, wide, tall = 100, 80, 5 * BANK_CARD[0], 5 * BANK_CARD[1]
    corners = [
        (left, top),
        (left + wide, top),
        (left + wide, top + tall),
        (left, top + tall),
    ]
    assert Photograph(light).square_on(corners).pixel == pytest.approx(0.2, rel=1e-3)


BAD = {
    "empty": b"",
    "words": b"no picture at all",
    "half a picture": png(polygons(20))[:300],
    "huge": b"\x89PNG" + bytes(MOST_BYTES),
}


@pytest.mark.parametrize("name", BAD)
def test_a_bad_picture_gets_one_sentence(name, tmp_path):
    path = tmp_path / "a.png"
    path.write_bytes(BAD[name])
    for source in (BAD[name], path):
        with pytest.raises(KitError) as error:
            opened(source)
        assert "\n" not in str(error.value)
    with pytest.raises(KitError, match="no picture"):
        opened(tmp_path / "none.png")


def test_a_picture_of_too_many_pixels_is_not_opened():
    stream = io.BytesIO()
    Image.new("1", (9000, 9000)).save(stream, "png")
    assert len(stream.getvalue()) < 100_000
    with pytest.raises(KitError, match="million pixels"):
        opened(stream.getvalue())
