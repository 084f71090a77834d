"""The line chart: measured on its own pixels."""

import numpy as np
import pytest
from PIL import Image

from kit.basics.errors import KitError
from kit.basics.units import Units
from kit.metal.eye import Eye
from kit.metal.line_chart import PRINTED, line_chart
from kit.section.picture import save

CHART = line_chart()
DARK = np.asarray(CHART.image.convert("L")) < 128


def runs(line):
    """Give the lengths of the dark runs in a line of pixels."""
    edges = np.diff(np.concatenate([[0], line.astype(int), [0]]))
    return np.flatnonzero(edges < 0) - np.flatnonzero(edges > 0)


def field(row, place):
    """Cut a field out of the chart, where the module's layout has it."""
    half = -(-len(CHART.widths) // 2)
    left = 6 + row // half * 86 + 26 + place * 13
    top = 46 + row % half * 13
    x, y = round(left / PRINTED), round(top / PRINTED)
    size = round(8 / PRINTED)
    return DARK[y : y + size, x : x + size]


def test_lines_from_a_millimetre_to_a_dot():
    assert CHART.widths[0] == pytest.approx(1, abs=PRINTED / 2)
    assert CHART.widths[-1] == PRINTED  # 0.042 mm: the finest a printer of 600 dots has
    assert list(CHART.widths) == sorted(set(CHART.widths), reverse=True)


@pytest.mark.parametrize("row", range(len(CHART.widths)))
def test_lines_are_as_wide_as_they_say_and_lie_as_the_key_says(row):
    for place, upright in enumerate(CHART.upright[row]):
        cut = field(row, place)
        along, across = (cut[:, 0], cut[0]) if upright else (cut[0], cut[:, 0])
        assert along.all()
        assert set(runs(across)[:-1]) == {round(CHART.widths[row] / PRINTED)}
        # as much paper as ink: from afar no field is darker than another
        assert cut.mean() == pytest.approx(0.5, abs=0.08)


def test_every_row_has_both_and_another_seed_another_order():
    assert all(0 < sum(row) < len(row) for row in CHART.upright)
    assert line_chart(seed=1).upright != CHART.upright
    assert line_chart(seed=0).upright == CHART.upright


def test_the_bar_is_a_hundred_millimetres():
    longest = max(runs(line).max(initial=0) for line in DARK[-round(15 / PRINTED) :])
    assert longest * PRINTED == pytest.approx(100, abs=0.5)


def test_it_prints_true_to_scale(tmp_path):
    path = tmp_path / "chart.png"
    save(CHART.image, path, CHART.alt, pixel=CHART.pixel)
    with Image.open(path) as stored:
        assert stored.info["dpi"] == pytest.approx((600, 600), abs=0.01)
        assert stored.info["Description"] == CHART.alt
    wide, high = (pixels * PRINTED for pixels in CHART.image.size)
    assert wide < 190 < 210 - 2 * 8  # fits on A4 and on letter paper
    assert high < 250


def test_it_says_what_it_is():
    assert "12 rows of four fields" in CHART.alt
    assert "1.02 mm wide down to 0.0423 mm" in CHART.alt
    inches = line_chart(units=Units.INCH_FRACTION).alt
    assert "0.0400 in wide down to 0.0017 in" in inches
    assert "100 mm (3.94 in)" in inches


def test_a_row_makes_an_eye():
    row = CHART.widths.index(min(CHART.widths, key=lambda width: abs(width - 0.3)))
    assert Eye.measured(CHART.widths[row], 1000).arc_minutes == pytest.approx(
        1.02, abs=0.01
    )


@pytest.mark.parametrize("pixel", [0.01, 0.31, np.nan])
def test_impossible_pixels(pixel):
    with pytest.raises(KitError, match=r"must be 0.02 to 0.3 mm wide"):
        line_chart(pixel)
