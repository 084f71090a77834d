"""Bands of unequal width, few and many: every one counted. Plain pictures are doubted."""

import io

import numpy as np
import pytest
from drawn_bands import drawn
from PIL import Image

from kit.shop.photograph import opened
from kit.shop.stripes import along

pytestmark = pytest.mark.gate

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
