"""Bands of unequal width, few and many: counted right, without bias, or doubted."""

import io

import numpy as np
import pytest
from drawn_bands import drawn
from PIL import Image

from kit.shop.photograph import opened
from kit.shop.stripes import along

pytestmark = pytest.mark.gate

NARROW = {f"1 to {other}": 1 / (1 + other) for other in (1, 2, 3, 4, 6, 9)}
COUNTS = (4, 5, 6, 7, 8, 9, 12, 13, 25, 26, 99, 100, 399, 400)
SPOILT = {"clean": {}, "grain": {"noise": 0.03}, "lamp": {"lamp": 0.4}}


def pair_of(count):
    """Pixels a pair, as large as a photograph of so many bands allows."""
    return min(240.0, 2 * 2900 / count) * 0.983


def measured(picture):
    photo = opened(picture.png)
    middle = picture.rows / 2
    return along(photo, (0, middle), (picture.columns - 1, middle))


@pytest.mark.parametrize("spoilt", SPOILT)
@pytest.mark.parametrize("dark_first", [True, False], ids=["dark first", "bright first"])
@pytest.mark.parametrize("narrow", NARROW)
@pytest.mark.parametrize("count", COUNTS)
def test_bands_of_unequal_width_are_measured_without_bias(
    count, narrow, dark_first, spoilt
):
    if spoilt == "lamp" and count == 4:
        pytest.skip("over four bands, a lamp may be a band")
    for dark in (NARROW[narrow], 1 - NARROW[narrow]):
        picture = drawn(
            count, dark, pair_of(count), dark_first=dark_first, **SPOILT[spoilt]
        )
        found = measured(picture)
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
