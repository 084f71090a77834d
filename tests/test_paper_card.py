"""The recipe card read back: its words, its true sizes, and the code that reloads it.

The square code is read by OpenCV's own reader, which knows nothing of the kit.
"""

import re
from itertools import pairwise

import cv2
import numpy as np
import pytest
from fontTools.ttLib import TTFont
from matplotlib.backends.backend_agg import FigureCanvasAgg
from printed import read, words
from pypdf import PdfReader
from test_paper import SIZES, STROKE

from kit.basics.letters import REGULAR
from kit.basics.typed import parse_length
from kit.basics.units import Units
from kit.classroom import kit_version
from kit.classroom.paper.card import card
from kit.classroom.paper.code import MOST, side_of, square_code
from kit.classroom.paper.kinds import Asked
from kit.classroom.paper.operations import of_billet, of_plan
from kit.classroom.paper.page import LIVE, POINT, Page, bind, lines_of, width_of
from kit.classroom.paper.told import bars_in_words, stacks
from kit.forge.billet import Billet
from kit.forge.stack import Stack
from kit.forge.steps import DrawOut, Fold, Hammer, QuarterTurn
from kit.shop import plan_line
from kit.shop.patterns import PATTERNS, composite
from kit.shop.plan import example
from kit.shop.recipes import shorthand
from kit.shop.recipes.recipe import Recipe

pytestmark = pytest.mark.gate

BILLET = Billet(source=Stack.alternate("1084", "15N20", pieces=7, thickness=3.0)).then(
    Fold(heat={"celsius": 1150, "minutes": 5}), Hammer(depth=1, spacing=28, seed=77),
    DrawOut(thickness=12),
)  # fmt: skip
RECIPE = Recipe(name="Class bar", billet=BILLET, note="for Thursday")


@pytest.fixture(scope="module")
def plan_sheets(tmp_path_factory):
    """Print the planned bar's card, and read it back."""
    return read(card(Asked()), tmp_path_factory.mktemp("plan"))


@pytest.fixture(scope="module")
def recipe_sheets(tmp_path_factory):
    """Print the class bar's card, and read it back."""
    return read(card(Asked(recipe=RECIPE)), tmp_path_factory.mktemp("recipe"))


def scanned(page):
    """Print a page at 300 dots an inch and hold it before a telephone's reader."""
    canvas = FigureCanvasAgg(page.figure)
    page.figure.set_dpi(300)
    canvas.draw()
    grey = np.asarray(canvas.buffer_rgba())[:, :, 0]
    corner = np.ascontiguousarray(grey[: len(grey) // 3, grey.shape[1] // 2 :])
    return cv2.QRCodeDetector().detectAndDecode(corner)[0]


def test_the_code_of_a_plan_gives_the_same_plan():
    assert plan_line.from_line(scanned(card(Asked())[0])) == example()


def test_the_code_of_a_recipe_gives_the_same_forging():
    assert shorthand.from_line(scanned(card(Asked(recipe=RECIPE))[0])) == BILLET


def test_the_printed_line_loads_the_card_too(plan_sheets, recipe_sheets):
    text = words(plan_sheets[0])
    assert plan_line.from_line(re.search(r"plan .* ~ \w{4}", text).group()) == example()
    text = words(recipe_sheets[0])
    assert shorthand.from_line(re.search(r"150x38.1: .* ~ \w{4}", text).group()) == BILLET


def test_too_many_words_get_no_code():
    assert square_code(Page(), "a" * (MOST + 1), (0, 0)) is None
    assert side_of("a" * (MOST + 1)) == 0
    page = Page()
    assert square_code(page, "150x38.1", (0, 0)) == side_of("150x38.1")


@pytest.mark.parametrize("paper", SIZES)
def test_a_plan_is_on_two_sides_and_what_to_mind_on_a_third(paper, tmp_path):
    pages = card(Asked(paper))
    assert len(pages) == 3
    for page in PdfReader(bind(pages, tmp_path / "a.pdf", "Card")).pages:
        assert tuple(map(float, page.mediabox[2:])) == pytest.approx(SIZES[paper], abs=0.05)


def test_a_card_marks_how_it_is_known_and_says_what_the_marks_mean():
    front = [one.get_text() for one in card(Asked())[0].axes.texts]
    for title, mark in (("Losses", "common practice"), ("Hardening", "our guess")):
        (line,) = (one for one in front if one.startswith(f"{title} ("))
        assert mark in line
        assert f"{mark}: " in " ".join(front)


def test_the_first_side_points_to_what_to_wear_however_many_the_steps():
    many = BILLET.then(*[QuarterTurn()] * 40)
    front, *steps, last = card(Asked(recipe=Recipe(name="turned", billet=many)))
    told, rows = (
        " ".join(one.get_text() for one in page.axes.texts) for page in (front, last)
    )
    pointed = re.findall(r"[Tt]he last sheet, rows (\w), comes first", told)
    assert len(steps) > 1
    assert not any(
        "Layers –" in one.get_text() for page in steps for one in page.axes.texts
    )
    assert pointed == ["Q", "A"]
    assert "what to wear" in rows
    assert all(f" {letter} " in rows for letter in pointed)


def test_why_layers_are_no_longer_counted_is_told():
    (star,) = (one.forge() for one in PATTERNS if one.name == "star")
    _, steps, _ = card(Asked(recipe=Recipe(name="star", billet=star)))
    said = [one.get_text() for one in steps.axes.texts]
    assert "–" in said
    assert any(one.startswith("Layers –: ") for one in said)


def test_a_plan_tells_all_that_a_smith_needs(plan_sheets):
    text = words(*plan_sheets)
    # as in test_plan.py, where they are worked out by hand
    for said in ("A planned bar", "102 mm", "823 g in, 380 g out", "6 × 102 mm = 612 mm",
                 "5 × 102 mm = 510 mm", "2 × 1150 °C (2102 °F)", "88", "781–830 °C",
                 "placeholders", "crop 6 mm", "never water into it", "Measured",
                 "galvanised", "qualified", f"Kit {kit_version()}"):  # fmt: skip
        assert said in text


def test_a_plan_in_inches(tmp_path):
    text = words(*read(card(Asked(units=Units.INCH_FRACTION)), tmp_path))
    for said in ("4 1/32 in", "13/64 × 1 1/2 × 10 in", "crop 0.236 in", "1150 °C"):
        assert said in text
    assert "38.1 mm" not in text


def test_a_recipe_leaves_out_what_it_does_not_know(recipe_sheets):
    text = words(*recipe_sheets)
    for said in ("Losses are not included", "4 × 1084", "3 × 15N20", "seeds 77", "1150 °C",
                 "for Thursday"):  # fmt: skip
        assert said in text
    assert "saw cuts" not in text


def test_every_step_has_a_box_to_write_in(plan_sheets):
    data = plan_sheets[1].get_contents().get_data()
    boxes = re.findall(rb"([\d.]+) ([\d.]+) m\n([\d.]+) ([\d.]+) l\n([\d.]+)", data)
    assert len(STROKE.findall(data)) >= 19  # a line under each
    wide = [abs(float(x2) - float(x1)) * POINT for x1, _, x2, _, _ in boxes]
    assert sum(abs(one - (24 - 1.2)) < 0.01 for one in wide) == 19


def test_steps_weigh_what_the_plan_says():
    plan = example()
    rows = of_plan(plan)
    assert rows[-1].grams == plan.grams_out
    assert [row.layers for row in rows][::5] == [11, 22, 44, 88]
    masses = [row.grams for row in rows]
    assert masses == sorted(masses, reverse=True)


@pytest.mark.parametrize("units", Units)
def test_no_two_steps_of_a_cards_list_are_told_the_same_size(tmp_path, units):
    """Ground clean by a quarter of a millimetre, 5/8 in was still 5/8 in."""
    path = bind(card(Asked(units=units, recipe=example())), tmp_path / "a.pdf", "A plan")
    steps = words(PdfReader(path).pages[1])
    sizes = re.findall(r"((?:[\d./ ]+ × ){2}[\d./ ]+ (?:mm|in)\b)", steps)
    assert len(sizes) == len(of_plan(example()))
    assert all(one != other for one, other in pairwise(sizes))


def test_bars_that_are_alike_are_told_once():
    rows = of_billet(composite())
    told = [row.told for row in rows]
    assert sum("twist" in one for one in told) == 2  # two hands, two bars of each
    assert any("bar A (2 bars)" in one for one in told)
    assert any("lay the bars side by side" in one for one in told)


@pytest.mark.parametrize("pattern", PATTERNS, ids=lambda pattern: pattern.name)
def test_the_card_of_every_pattern_stays_on_its_paper(pattern):
    given = Recipe(name=pattern.name, billet=pattern.forge(), note=pattern.note)
    pages = card(Asked(recipe=given))
    assert 2 <= len(pages) <= 3
    for page in pages:
        assert page.y <= LIVE[1] + 1e-6
        for text in page.axes.texts:
            x, _ = text.get_position()
            width = width_of(text.get_text(), text.get_fontsize(),
                             bold=text.get_fontweight() == "bold")  # fmt: skip
            assert x + width <= LIVE[0] + 1


def test_a_row_of_a_card_that_weighs_less_says_by_how_much_and_why():
    bars = [one.forge() for one in PATTERNS]
    bars = [bar for bar in bars if isinstance(bar.source, Stack)]
    for bar in bars:
        for (before, row), step in zip(pairwise(of_billet(bar)), bar.steps, strict=True):
            gone = round(before.grams) - round(row.grams)
            told = f"It takes {gone:,} g away: {step.takes}"
            assert (told in row.told) == bool(gone)
    assert len(bars) > 5


def test_lines_are_broken_by_their_true_width():
    font = TTFont(REGULAR)  # read by fontTools, not by what set the words
    units, glyphs = font["head"].unitsPerEm, font.getBestCmap()
    said = "Mind the fire"
    wide = sum(font["hmtx"][glyphs[ord(sign)]][0] for sign in said) / units * 12 * POINT
    assert width_of(said, 12) == pytest.approx(wide, rel=0.01)
    for line in lines_of("iron " * 30, 50):
        assert width_of(line) <= 50


@pytest.mark.parametrize("units", list(Units))
def test_bars_as_told_add_up_to_their_stack(units):
    for pattern in PATTERNS:
        for stack in stacks(pattern.forge()):
            told = [words.split(", ")[1] for words in bars_in_words(stack, units)]
            thick = sum(map(parse_length, told))
            assert thick == pytest.approx(stack.thickness, rel=0.01), pattern.name
