"""The mark: a real billet met by one slanting cut, the same wherever it stands."""

import io
import re

import numpy as np
import pytest
from PIL import Image

from kit.basics.units import Units
from kit.course import mark
from kit.course.heads import HEADS, TILE, head
from kit.course.pages import PACKAGE
from kit.section.picture import Sheet

# sine of 30°: what the cut meets is half as thick as its band on the cut is wide
SPREAD = 2.0


def bands(tones):
    """Give how long the runs of dark and bright are, without the rims."""
    bright = np.asarray(tones) > 128
    ends = np.flatnonzero(np.diff(bright.astype(int)))
    return np.diff(ends)


def test_its_bands_are_twice_as_wide_on_the_cut_as_its_bars_are_thick():
    bar = mark.billet()
    thick = bar.size.thickness / len(bar.source.layers)
    run = bar.size.thickness / np.sin(np.radians(mark.ANGLE)) / len(bar.source.layers)
    assert run / thick == pytest.approx(SPREAD)
    drawn = np.asarray(mark.mark(240, "#FFFFFF").convert("L"), float)
    on_the_side = bands(drawn[:, 6])  # down the left edge, where the side is seen
    assert len(on_the_side) >= 3
    assert np.ptp(on_the_side) <= 3, "five bars of one thickness"


@pytest.mark.parametrize("high", [16, 32, 128])
def test_it_is_told_apart_from_any_ground(high):
    alpha = np.asarray(mark.mark(high))[..., 3]
    assert (alpha == 0).mean() > 0.1, "clear beside it"
    tones = np.asarray(mark.mark(high).convert("L"), float)[alpha == 255]
    assert (tones < 80).mean() > 0.2
    assert (tones > 180).mean() > 0.2
    assert Image.open(io.BytesIO(mark.png(high))).size == mark.mark(high).size


@pytest.mark.parametrize("name", ["01_cut", "forge"])
def test_every_page_has_it_at_its_head(name):
    assert name in HEADS
    drawn = head(name)
    assert drawn.alt.endswith(mark.TOLD)
    tile = np.asarray(drawn.image.crop((0, 0, TILE, 104)), float)
    assert np.abs(tile[8:].min(axis=(0, 1)) - 34).max() < 20
    assert tile[0].min() == 255, "on white"


def test_the_window_has_its_name_and_sentence():
    script = (PACKAGE / "launch/page/steel-lessons/static/page.js").read_text("utf-8")
    assert f"'{mark.NAME}'" in script
    assert f"'{mark.SENTENCE}'" in script


def test_no_words_stand_on_what_turns_black_in_the_sun():
    for path in (PACKAGE / "course/views").glob("*.css"):
        css = path.read_text("utf-8")
        assert re.findall(r"background[^;]*--kit-(?:line|quiet|ink)", css) == []


@pytest.mark.parametrize(
    ("units", "long"),
    # the longest round length that fits into 120 pixels of 0.25 mm: 20 mm, and 1 inch
    [(Units.MM, 20 / 0.25), (Units.INCH_FRACTION, 25.4 / 0.25)],
)
def test_a_scale_bar_is_as_long_as_it_says_and_parted_evenly(units, long):
    sheet = Sheet(300, 60)
    sheet.scale_bar((20, 40), 0.25, units)
    ink = np.asarray(sheet.image.convert("L")) < 100
    foot = np.flatnonzero(ink[45])
    assert np.ptp(foot) == pytest.approx(long, abs=2)
    ticks = np.flatnonzero(np.diff(ink[42].astype(int)) == 1)
    assert len(ticks) == (11 if units is Units.MM else 9)
    assert np.diff(ticks) == pytest.approx(long / (len(ticks) - 1), abs=1.5)
