"""Printed pages read back from the PDF: their size, their bars, their lines.

Sizes: A4 by ISO 216, Letter by ANSI Y14.1, a bank card by ISO/IEC 7810 (ID-1).
"""

import re

import pytest
from printed import read

from kit.basics.errors import KitError
from kit.classroom.paper.clay_bar import clay_bar
from kit.classroom.paper.kinds import Asked
from kit.classroom.paper.page import LIVE, Page, bind
from kit.classroom.paper.small import CHART, eye_chart, vote_cards

pytestmark = pytest.mark.gate

POINTS = 72 / 25.4  # points in a millimetre
SIZES = {"A4": (595.276, 841.890), "Letter": (612.0, 792.0)}  # points
MAKERS = {"vote cards": vote_cards, "eye chart": eye_chart, "clay": clay_bar}
STROKE = re.compile(rb"([\d.]+) ([\d.]+) m\n([\d.]+) ([\d.]+) l\n\s*S")


def strokes(page):
    """Every straight line of two ends on a page: its length across and up, in mm."""
    found = STROKE.findall(page.get_contents().get_data())
    ends = [[float(part) / POINTS for part in line] for line in found]
    return [(abs(x2 - x1), abs(y2 - y1)) for x1, y1, x2, y2 in ends]


@pytest.mark.parametrize("paper", SIZES)
@pytest.mark.parametrize("name", MAKERS)
def test_a_page_has_the_size_of_its_paper(name, paper, tmp_path):
    pages = read(MAKERS[name](Asked(paper)), tmp_path)
    for page in pages:
        wide, tall = (float(side) for side in page.mediabox[2:])
        assert (wide, tall) == pytest.approx(SIZES[paper], abs=0.05)


@pytest.mark.parametrize("paper", SIZES)
@pytest.mark.parametrize("name", ["eye chart", "clay"])
def test_bars_prove_the_scale_both_ways(name, paper, tmp_path):
    lines = strokes(read(MAKERS[name](Asked(paper)), tmp_path)[-1])
    for long in (100, 101.6):
        assert any(line == pytest.approx((long, 0), abs=0.01) for line in lines)
        assert any(line == pytest.approx((0, long), abs=0.01) for line in lines)


def test_the_card_is_a_bank_card(tmp_path):
    page = read([Page(scaled=True)], tmp_path)[0]
    numbers = re.findall(rb"([\d.]+) ([\d.]+) [ml]\n", page.get_contents().get_data())
    places = [(float(x) / POINTS, float(y) / POINTS) for x, y in numbers]
    left = (210 - LIVE[0]) / 2
    low = 297 - (297 - LIVE[1]) / 2 - 190 - 53.98  # mm up from the foot of the paper
    near = [x for x, y in places if x < left + 100 and low - 0.01 <= y <= low + 53.99]
    assert max(near) - left == pytest.approx(85.60, abs=0.01)
    assert any(y == pytest.approx(low, abs=0.01) for _, y in places)


def test_chart_lines_are_as_wide_as_they_say(tmp_path):
    data = read(eye_chart(Asked()), tmp_path)[0].get_contents().get_data()
    boxes = re.findall(rb"([\d.]+) ([\d.]+) m\n([\d.]+) ([\d.]+) l\n", data)
    widths = [abs(float(x2) - float(x1)) / POINTS for x1, _, x2, _ in boxes]
    for width in CHART:
        assert sum(abs(found - width) < 2e-4 for found in widths) >= 10


def test_words_can_be_searched(tmp_path):
    text = read(eye_chart(Asked()), tmp_path)[0].extract_text()
    assert "Print at 100 %" in text
    assert "Hold the sheet 300 mm away" in " ".join(text.split())


def test_letters_of_vote_cards_can_be_read_at_five_metres(tmp_path):
    data = read(vote_cards(Asked()), tmp_path)[0].get_contents().get_data()
    sizes = [float(size) for size in re.findall(rb"/F\d+ ([\d.]+) Tf", data)]
    # ISO 8596: a letter that 20/20 just reads is five arc-minutes high: 7.3 mm at 5 m;
    # capitals of DejaVu Sans are 0.73 of their size
    assert max(sizes) / POINTS * 0.73 > 5 * 7.3


def test_nothing_half_written_is_left(tmp_path):
    path = tmp_path / "pages.pdf"

    def stop(share):
        del share
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        bind([Page(), Page()], path, "Pages", stop)
    assert list(tmp_path.iterdir()) == []
    with pytest.raises(KitError, match="cannot be written"):
        bind([Page()], tmp_path / "no folder" / "pages.pdf", "Pages")


def test_another_paper_gets_one_sentence():
    with pytest.raises(KitError, match="A4 or Letter"):
        Page("A3")
