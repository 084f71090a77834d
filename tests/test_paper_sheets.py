"""The other printed sheets, read back: sizes, words, pictures, nothing over the edge."""

import base64
import io
import math
import re
from collections import Counter
from itertools import combinations, pairwise
from pathlib import Path

import numpy as np
import pytest
from PIL import Image
from printed import read, words
from pypdf import PdfReader
from test_claims import marked
from test_paper import SIZES

from kit.basics.errors import KitError
from kit.basics.units import UNITS, Units
from kit.classroom.paper import kinds as kinds_module
from kit.classroom.paper.care import CARD, care, care_cards, facts
from kit.classroom.paper.flip import DEPTHS, depths_of, flip_book, scale_of, seen
from kit.classroom.paper.handout import LESSONS
from kit.classroom.paper.kinds import ALL, PLAN, Asked, given, kinds, own_mark
from kit.classroom.paper.measured import HOW, measured_sheet, predicted
from kit.classroom.paper.operations import of_plan
from kit.classroom.paper.page import FIGURES, HAIR, LIVE, POINT, Page, bind, width_of
from kit.classroom.paper.table import Table
from kit.classroom.paper.told import KINDS as PROTECTED
from kit.classroom.paper.told import letters
from kit.classroom.views import printing
from kit.forge.billet import Billet
from kit.forge.stack import Stack
from kit.forge.steels import GRADES
from kit.forge.steps import STEPS, Dent, Drill, Place
from kit.shop.patterns import PATTERNS, twisted
from kit.shop.plan import example
from kit.shop.plan_line import to_line
from kit.shop.recipes.found import recipe_of
from kit.shop.recipes.recipe import Recipe

pytestmark = pytest.mark.gate

# A letter to hold up, boxes to tick, a form: no number of the world stands there.
NO_NUMBERS = {"votes", "before-show", "rack"}
TWIST = recipe_of("medium twist")


def options(units="mm", **changed):
    return Asked(units=UNITS[units], **changed)


def test_every_kind_in_the_folder_is_found_and_told_apart():
    folder = Path(kinds_module.__file__).parent
    texts = [path.read_text("utf-8").partition("\nPRINTS")[2] for path in folder.glob("*")
             if path.suffix == ".py"]  # fmt: skip
    declared = [name for text in texts for name in re.findall(r'\bKind\(\s*"(.+?)"', text)]
    assert sorted(declared) == list(kinds())
    assert len({kind.words for kind in kinds().values()}) == len(declared) > 10


@pytest.mark.parametrize("paper", SIZES)
@pytest.mark.parametrize("kind", kinds())
def test_every_kind_is_printed_whole(kind, paper, tmp_path):
    """Right size of paper; no line thinner than 0.25 mm; no word beyond the live area.

    The kit's mark, and a ruler in the reader's unit; how its numbers are known.
    """
    made = kinds()[kind].pages(options(paper=paper, units="in"))
    assert marked(made) or kind in NO_NUMBERS
    for page, back in zip(made, read(made, tmp_path), strict=True):
        figures = [
            text.get_text()
            for text in page.axes.texts
            if text.get_fontsize() == FIGURES and text.get_position()[1] < 180
        ]
        assert page.axes.images or kind == "flip-book"
        assert "mm" not in figures
        assert figures[:1] == ["in"], "its signature edge: a ruler, true to size"
        assert tuple(map(float, back.mediabox[2:])) == pytest.approx(SIZES[paper], abs=0.05)
        strokes = re.findall(rb"\n([\d.]+) w\n", back.get_contents().get_data())
        assert all(float(one) * POINT >= HAIR - 1e-3 for one in strokes if float(one))
        laid = []
        for text in page.axes.texts:
            if text.get_rotation() or text.get_ha() != "left":
                continue
            x, y = text.get_position()
            bold = text.get_fontweight() == "bold"
            long = width_of(text.get_text(), text.get_fontsize(), bold=bold)
            assert x >= -1
            assert x + long <= LIVE[0] + 1, text.get_text()
            assert y <= LIVE[1] + 4, text.get_text()
            laid.append((x, y, x + long, y + 0.9 * text.get_fontsize() * POINT, text))
        for one, other in combinations(laid, 2):
            apart = one[2] <= other[0] or other[2] <= one[0]
            apart |= one[3] <= other[1] + 0.3 or other[3] <= one[1] + 0.3
            assert apart, (one[4].get_text(), other[4].get_text())


@pytest.mark.parametrize("kind", [one for one in kinds() if one != "class-set"])
def test_every_sheet_of_several_says_which_it_is(kind):
    """A sheet found alone on a bench is of something, and there may be another.

    A class's set is sheets of other kinds.
    """
    pages = kinds()[kind].pages(options(lesson="03"))
    belong = Counter(page.of for page in pages)
    for page in pages:
        told = [re.fullmatch(r"(.+): page (\d+) of (\d+)", text.get_text())
                for text in page.axes.texts]  # fmt: skip
        named = [one for one in told if one]
        assert len(named) == (belong[page.of] > 1), page.title
        if kinds()[kind].of == "lesson":
            assert "03" in page.title
            assert all("03" in one[1] for one in named)


def test_given_takes_a_plan_its_line_and_a_pattern():
    assert given(PLAN) == example()
    assert given(to_line(example())) == example()
    assert given("feather").name == "feather"
    with pytest.raises(KitError, match="no pattern called 'soup'"):
        given("soup")


def test_the_print_room_makes_a_card_of_a_pattern():
    making = printing.pages()
    kind, _, recipe, *_, paper, _ = making.choices
    kind.value, paper.value = list(kinds()).index("card"), 1
    recipe.value = 1 + [pattern.name for pattern in PATTERNS].index("star")
    making.begin()
    making.wait(60)
    found = re.search(r'download="([^"]+)" href="data:[^,]+,([^"]+)"', making.file.value)
    assert found.group(1) == "card.pdf"
    card = PdfReader(io.BytesIO(base64.b64decode(found.group(2))))
    assert "Recipe card: star" in words(*card.pages)
    assert float(card.pages[0].mediabox[3]) == pytest.approx(792)


def test_all_lessons_can_be_had_at_once():
    assert len(kinds()["wall"].pages(options(lesson=ALL))) == len(LESSONS)
    assert len(kinds()["handout"].pages(options(lesson=ALL))) == 3 * len(LESSONS)
    with pytest.raises(KitError, match="no handout of lesson '99'"):
        kinds()["wall"].pages(options(lesson="99"))


def test_a_care_card_tells_facts_care_and_recipe(tmp_path):
    cards = care_cards(Asked(recipe=TWIST))
    assert [page.handed for page in cards] == [True, True, False]
    front, back, kept = read(cards, tmp_path)
    assert "common practice, no source" in words(kept).lower()
    for says in ("a blade keeps", "nickel holds the acid off", "another etch shows them"):
        assert says in words(kept)
    assert words(front).count("Medium twist") == 4
    assert words(front).count("maker's mark") == 4
    text = words(back)
    for said in ("Three facts", "It rusts", "For the maker", "15N20"):
        assert text.count(said) >= 4
    assert "twist 1.5 turns/in" not in text, "an owner reads no recipe: the code has it"
    drawn = re.findall(rb"\bDo\b", front.get_contents().get_data())
    assert len(drawn) == 8  # four cards, true size and larger


def test_a_care_cards_picture_has_its_true_size():
    front = care_cards(Asked(recipe=TWIST))[0]
    left, right, foot, top = front.axes.images[0].get_extent()
    assert abs(foot - top) == pytest.approx(TWIST.billet.size.width, abs=0.1)
    assert right - left <= CARD[0]


def test_care_follows_the_steels():
    assert "rusts" in care(["1084", "15N20"])
    assert "stains" in care(["304", "440C"])
    assert "allergic" in care(["1095", "nickel"])
    assert "allergic" not in care(["1084", "1095"])


@pytest.mark.parametrize("steels", [("nickel", "304"), ("1084", "15N20")])
def test_no_words_of_a_care_card_lie_on_others(steels):
    stack = Stack.alternate(*steels, pieces=7, thickness=4.0)
    pressed = Billet(source=stack).then(
        *[Dent(way="cut and forged", across=9, depth=2, spacing=14, faces="top")] * 5
    )
    _front, back, _kept = care_cards(
        Asked(recipe=Recipe(name="a long one", billet=pressed))
    )
    lines = sorted(
        (text.get_position()[1], text.get_fontsize() * POINT)
        for text in back.axes.texts
        if text.get_position()[0] < CARD[0] and text.get_position()[1] < CARD[1] - 12
    )
    for (y, tall), (below, _) in pairwise(sorted(set(lines))):
        assert below == y or below - y >= 0.9 * tall


@pytest.mark.parametrize("many", [1, 6, len(GRADES)])
def test_the_makers_sheet_holds_all_steels(many):
    layers = [{"steel": name, "thickness": 3.0} for name in [*GRADES][:many] * 2]
    bar = Billet(source=Stack(layers=layers, length=100, width=30))
    *_cards, kept = care_cards(Asked(recipe=Recipe(name="many", billet=bar)))
    assert kept.y <= LIVE[1]
    told = " ".join(text.get_text() for text in kept.axes.texts)
    assert all(f"{name}:" in told for name in [*GRADES][:many])


def test_facts_follow_the_layers():
    # mean carbon of 6 × 2 sixteenths of 0.84 % and 5 of 0.75 %, by hand
    mean = (12 * 0.84 + 5 * 0.75) / 17
    assert f"{mean:.2f} %" in " ".join(facts(example().billet))
    thick = Billet(source=Stack.alternate("1084", "15N20", pieces=3, thickness=4.0))
    assert "evened out" not in " ".join(facts(thick))


def test_predicted_angles_are_those_of_a_rope():
    # twice pi times the height above the axis over one turn, as on any helix
    bar = TWIST.billet
    high = bar.sizes[-2].thickness / 2 - 3.0
    lean = math.degrees(math.atan(2 * math.pi * high / (25.4 / 1.5)))
    known = predicted(TWIST)
    assert known["angle"] == f"about {lean:.1f}°"  # a hand's twist is not even
    assert known["spacing"] == "stars about 8.47 mm"  # half of 16.93
    assert "angle" not in predicted(recipe_of("random"))


def test_predicted_rings_are_the_layers_under_a_drop():
    stack = Stack.alternate("1084", "15N20", pieces=20, thickness=0.3)
    dents = Drill(way="cut and forged", across=6, spacing=12, faces="top")
    drilled = Recipe(name="drops", billet=Billet(source=stack).then(dents))
    # a 118° point of 6 mm is 3 / tan 59° = 1.80 mm deep: six layers of 0.30 mm
    assert predicted(drilled)["rings"] == "at most 6"


def test_what_is_not_known_is_left_to_predict(tmp_path):
    text = words(*read(measured_sheet(Asked()), tmp_path))
    for what in HOW:
        assert what.capitalize().split()[0] in text
    assert text.count("(predict it)") == 4  # angle, spacing, rings, line height
    assert "380 g" in text
    made = measured_sheet(Asked(recipe=TWIST))
    assert "scale not counted" in words(*read(made, tmp_path))


def test_a_flip_book_has_24_leaves_from_skin_to_axis(tmp_path):
    pages = read(flip_book(Asked()), tmp_path)
    assert len(pages) == 2
    drawn = [re.findall(rb"\bDo\b", page.get_contents().get_data()) for page in pages]
    assert sum(map(len, drawn)) == DEPTHS == 24
    bar = twisted(0.5, 0)
    depths = depths_of(bar)
    assert (depths[0], depths[-1]) == pytest.approx((0, bar.size.thickness / 2))
    assert np.ptp(np.diff(depths)) < 1e-9
    assert f"{scale_of(bar):.2g} times" in words(*pages[:1])


def test_the_leaves_of_a_flip_book_differ_and_are_steel():
    bar = twisted(0.5, 0)
    leaves = [np.asarray(seen(bar, depth).convert("L")) for depth in (0, 4.0, 7.8)]
    assert all(30 < leaf.mean() < 225 for leaf in leaves)
    assert all((leaf == 255).mean() < 0.01 for leaf in leaves)  # glints, no bare paper
    assert np.abs(leaves[0].astype(int) - leaves[2]).mean() > 20


def test_the_check_before_a_show_has_all_its_points(tmp_path):
    text = words(*read(kinds()["before-show"].pages(options()), tmp_path)).lower()
    # the list of the curriculum, 5.7
    for said in ("network off", "airplane", "30 seconds", "hood", "glove", "stylus", "3 m",
                 "number pad", "8 hours", "spare paper", "clay, chilled", "wire", "mat",
                 "no acid", "sharp blade", "fire rules"):  # fmt: skip
        assert said in text


def test_every_place_of_work_has_its_letter():
    told = {kind.letter for kind in PROTECTED}
    assert {place.value for place in Place} <= told
    assert {letters(kind.done_at) for kind in STEPS.values()} >= {
        "F",
        "F S",
        "F G",
        "G",
        "–",
    }
    plan = example()
    rows = {row.work: letters(row.done_at) for row in of_plan(plan)}
    assert (rows["weld"], rows["crop"], rows["cut and stack"]) == ("F", "S", "S")
    assert {rows["clean up"], rows["final grind"]} == {"G"}


def test_a_row_that_never_fits_gets_one_sentence():
    page = Page()
    grid = Table(("a",), (50,), rows=[("steel " * 3000,)])
    with pytest.raises(KitError, match="does not fit"):
        grid.run([page], Page)
    assert page.write("one\ntwo", (0, 0)) > page.write("one", (0, 0))


def test_a_ruler_is_true(tmp_path):
    page = Page()
    page.ruler((0, 10), 50)
    page.ruler((0, 20), 50.8, inch=True)
    data = read([page], tmp_path)[0].get_contents().get_data()
    ticks = re.findall(rb"([\d.]+) ([\d.]+) m\n\1 ([\d.]+) l", data)
    left = (SIZES["A4"][0] * POINT - LIVE[0]) / 2
    heights = sorted({top for _, top, _ in ticks}, key=float)
    inch, mm = (
        [float(x) * POINT - left for x, top, _ in ticks if top == row] for row in heights
    )
    assert mm == pytest.approx(range(51), abs=0.01)
    assert inch == pytest.approx([25.4 / 16 * tick for tick in range(33)], abs=0.01)


def test_a_makers_mark_stands_on_cards_and_is_read_with_bounds(tmp_path):
    path = tmp_path / "own.png"
    clear = Image.new("RGBA", (400, 200), (0, 0, 0, 0))
    clear.paste((0, 0, 0, 255), (100, 50, 300, 150))
    clear.save(path)
    mark = own_mark(path)
    assert max(mark.size) <= 300
    assert mark.getpixel((2, 2)) == 255  # clear is white paper
    for name, most in (("card", 3), ("care", 9)):
        without, with_it = (
            kinds()[name].pages(options(recipe=TWIST, mark=one))[0] for one in (None, mark)
        )
        assert len(without.axes.images) < len(with_it.axes.images) <= most + 4
        assert "maker's mark" in {text.get_text() for text in without.axes.texts}
        assert "maker's mark" not in {text.get_text() for text in with_it.axes.texts}
    path.write_bytes(b"no picture")
    with pytest.raises(KitError, match="as a picture"):
        own_mark(path)


@pytest.mark.parametrize("name", ["raindrop", PLAN])
def test_care_cards_are_a_small_file(name, tmp_path):
    pages = care_cards(Asked(recipe=name))
    assert bind(pages, tmp_path / "care.pdf", "Cards").stat().st_size < 600_000


@pytest.mark.parametrize("name", ["ladder", "feather", "star", "random"])
def test_a_care_card_says_which_cut_of_the_bar_it_shows(name):
    made = recipe_of(name)
    told = {
        "face": "The face", "end": "The end", "side": "Cut lengthwise", "split": "Along",
    }[next(one.shown for one in PATTERNS if one.name == name)]  # fmt: skip
    if made.billet.level == len(made.billet):  # its layers lie flat: cut from edge to edge
        size = made.billet.size
        lean = math.degrees(math.atan(size.thickness / size.width))
        told = f"Cut at {lean:.1f}° to the layers"
    front = care_cards(Asked(recipe=made, units=Units.INCH_FRACTION))[0]
    said = [text.get_text() for text in front.axes.texts]
    assert sum(one.startswith(told) and "true size" in one for one in said) == 4
    assert not any(" mm" in one for one in said)
