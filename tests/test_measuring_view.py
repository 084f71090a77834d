"""Measuring by pointing: marks, scale, card, count; strangers' pictures get a sentence."""

import io
import math
import re

import numpy as np
import pytest
from PIL import Image

from kit.course.lessons.measured_photo import SAWN
from kit.course.views.measuring import MeasuringView


def png(light):
    """Store grey levels as a PNG."""
    stream = io.BytesIO()
    Image.fromarray(light.astype(np.uint8)).save(stream, "png")
    return stream.getvalue()


@pytest.fixture(name="page")
def fixture_page():
    page = MeasuringView()
    stripes = np.zeros((392, 980))
    stripes[:, np.arange(980) // 14 % 2 == 0] = 210
    page.upload.take("a.png", png(stripes))  # as large as the sheet: one pixel is one pixel
    return page


def point(page, column, row):
    """Point at a pixel of the photograph."""
    page.picture.send = lambda *_: None
    page._heard(
        None, {"event": "point", "x": (10 + column) / 1000, "y": (10 + row) / 412}, []
    )


def test_bands_are_counted_in_millimetres(page):
    page.doing.value = 1
    point(page, 100, 200)
    point(page, 800, 200)
    page.length.value = "70 mm"  # 0.1 mm a pixel: a band of 14 pixels is 1.4 mm
    page.do()
    assert page.measured.scale.pixel == pytest.approx(0.1)
    page.doing.value = 0
    point(page, 7, 200)
    point(page, 973, 200)
    page.angle.value = "30"
    page.do()
    told = re.sub("<[^>]+>", "", page.says.value)
    assert re.search(r"(69|70) bands", told)  # 966 / 14 = 69
    assert "A band is 1.4 mm wide" in told
    assert "a layer is 0.7 mm thick" in told
    assert "4 marks" in page.picture.alt
    assert "7 lines drawn across it" in page.picture.alt


def test_a_card_sets_the_scale(page):
    page.doing.value = 2
    left, top, wide, tall = 100, 50, 428.0, 269.9  # 5 pixels a mm
    corners = [
        (left, top),
        (left + wide, top),
        (left + wide, top + tall),
        (left, top + tall),
    ]
    for corner in corners:
        point(page, *corner)
    page.do()
    assert page.measured.scale.pixel == pytest.approx(0.2, rel=0.01)
    assert "by the card" in page.says.value


def test_wrong_wishes_get_one_sentence_and_leave_the_picture(page):
    before = page.picture.frame
    for doing, told in ((0, "two marks"), (1, "cannot read"), (2, "four marks")):
        page.doing.value = doing
        page.do()
        assert told in page.says.value
    page.length.value = "50"
    page.doing.value = 1
    page.do()
    assert "two marks" in page.says.value
    for bad in (b"", b"<script>", png(np.zeros((4, 4)))[:20]):
        page.upload.take("a.json", bad)
        assert "kit-refused" in page.says.value
    assert page.picture.frame == before
    page.mark(0.999, 0.999)
    assert "no photograph" in page.says.value


def test_it_rehearses_and_clears(page):
    page.rehearse()
    assert "0 marks" in page.picture.alt


def test_the_loupe_knows_the_marks_that_are_set(page):
    point(page, 100, 50)
    point(page, 300, 60)
    page.doing.value = 3  # the box: marks for the line stay in sight
    point(page, 20, 10)
    assert page.picture.marks == [
        (pytest.approx(x), pytest.approx(y), name)
        for x, y, name in ((100, 50, "1"), (300, 60, "2"), (20, 10, "1"))
    ]
    page.clear()
    assert len(page.picture.marks) == 2


def test_the_example_can_be_counted():
    page = MeasuringView()
    left, top, right, low = page.measured.lies
    page.length.value = f"{0.9 * 25 * 1.6 / math.sin(math.radians(SAWN)):.2f} mm"
    page.angle.value = str(SAWN)
    for doing in (1, 0):
        page.doing.value = doing
        for share in (0.05, 0.95):
            page.mark(left + share * (right - left), (top + low) / 2)
        page.do()
    assert "23 bands along" in page.says.value
    assert re.search(r"a layer is 1\.(6|59|61) mm thick", page.says.value)
