"""Clay instructions for one bar: what they say, done, gives the bar they promise."""

import itertools
import re

import pytest
from printed import read
from smith import MADE, made
from test_paper_drawings import has_box

from kit.basics.errors import KitError
from kit.basics.units import UNITS, Units, format_length
from kit.classroom.paper.clay_bar import MISLEADS, STICK, _limit
from kit.classroom.paper.kinds import Asked, kinds
from kit.classroom.paper.page import Page
from kit.course.anvil.acts import Laid, done
from kit.course.anvil.brick import BOARD, BOX, HOW, ROLLED, SCALES, Brick
from kit.course.anvil.clay import DENSITY
from kit.forge.billet import Billet
from kit.forge.stack import Layer, Stack, demo_stack
from kit.forge.steps import STEPS, DrawOut, Fold
from kit.shop.recipes.recipe import Recipe, save


def done_ones(history):
    stages = zip(history.acts, history.stages[1:], strict=True)
    return [act for act, stage in stages if not stage.refused]


@pytest.mark.parametrize("name", MADE)
def test_what_the_sheet_says_done_to_its_sheets_gives_the_sizes_it_says(name):
    brick = Brick(made(name))
    rows = brick.rows(Units.MM)
    for part in brick.parts:
        own = [row for row in rows if row.part == part.name]
        if not isinstance(part.history.source, Stack):
            continue
        source, scale = part.history.source, brick.scale
        layers = tuple(
            Layer(steel=layer.steel, thickness=layer.thickness * scale)
            for layer in source.layers
        )
        bar = Billet(
            source=Stack(
                layers=layers,
                width=source.width * scale,
                length=source.length * scale * brick.share,
            )
        )
        assert tuple(own[0].size) == pytest.approx(tuple(bar.size))
        acts = done_ones(part.history)
        for act, row in zip(acts, own[1:], strict=True):
            bar = done(brick.scaled(act), bar)
            assert tuple(row.size) == pytest.approx(tuple(bar.size), rel=1e-6)
            assert row.layers == bar.layers


@pytest.mark.parametrize("name", MADE)
def test_clay_is_only_lost_where_the_bar_loses_steel(name):
    """The sheets' volume is that of the bars at first, and stays where nothing is taken."""
    brick = Brick(made(name))
    sheets = sum(one.grams for one in brick.sheets) / DENSITY * 1000
    rows = brick.rows(Units.MM)
    first = 0.0
    for part in brick.parts:
        own = [row for row in rows if row.part == part.name]
        if isinstance(part.history.source, Stack):
            first += part.times * own[0].size.volume
        done_acts = done_ones(part.history)
        for act, before, after in zip(done_acts, own, own[1:], strict=False):
            if not act.takes:
                assert after.size.volume == pytest.approx(before.size.volume, rel=1e-3)
            else:
                assert after.size.volume <= before.size.volume * (1 + 1e-9)
    assert sheets == pytest.approx(first)


@pytest.mark.parametrize("name", MADE)
def test_it_fits_the_lunch_box_and_the_board(name):
    brick = Brick(made(name))
    for row in brick.rows(Units.MM):
        assert row.size.length <= BOARD
    for part in brick.parts:
        first = brick.size(part.history.stages[0].size)
        assert all(side <= room for side, room in zip(first, BOX, strict=True))
    thinnest = min(one.thickness for one in brick.sheets)
    larger = [one for one in SCALES if one > brick.scale]
    if thinnest < ROLLED and larger:
        wide, high = (
            max(part.history.stages[0].size[side] for part in brick.parts)
            for side in (1, 2)
        )
        assert wide * min(larger) > BOX[1] or high * min(larger) > BOX[2]


def test_eight_sheets_weigh_and_stand_as_the_cook_book_says(tmp_path):
    """8 sheets of 3 mm, 40 × 60: 57.6 cm³ of 1.8 g/cm³; rolled to 12 mm, folded."""
    stack = Stack.alternate("1084", "15N20", pieces=8, thickness=3, width=40, length=60)
    steps = [step for _ in range(3) for step in (DrawOut(thickness=12), Fold())]
    brick = Brick(Billet(source=stack).then(*steps))
    assert (brick.scale, brick.share) == (1, 1)
    assert [one.grams for one in brick.sheets] == [pytest.approx(57.6 * 1.8 / 2)] * 2
    rows = [row for row in brick.rows(Units.MM) if "Draw" in row.told or "Fold" in row.told]
    assert [(row.size.thickness, row.layers) for row in rows] == [
        (12, 8), (24, 16), (12, 16), (24, 32), (12, 32), (24, 64),
    ]  # fmt: skip
    asked = Asked(recipe=Recipe(name="eight", billet=brick.billet))
    guides = read(kinds()["clay"].pages(asked), tmp_path)[-1]
    assert has_box(guides, STICK, 3)
    assert has_box(guides, STICK, 12)


def test_every_act_has_its_way_in_clay():
    turned = {"quarter turn", "set on the bias"}  # the hand turns it: nothing to say
    assert set(HOW) == {*STEPS, Laid.name} - turned


@pytest.mark.parametrize("units", UNITS)
@pytest.mark.parametrize("name", ["feather", "multi-bar composite", "random 3", "random 8"])
def test_the_paper_tells_what_the_brick_says(name, units, tmp_path, monkeypatch):
    written, write = [], Page.write
    monkeypatch.setattr(
        Page, "write", lambda *all_, **how: written.append(all_[1]) or write(*all_, **how)
    )
    bar = made(name)
    recipe = save(Recipe(name="A bar of mine", billet=bar), tmp_path / "bar.json")
    asked = Asked(recipe=str(recipe), units=UNITS[units])
    *pages, guides = kinds()["clay"].pages(asked)  # the last proves its scale in both
    words = " ".join(text.get_text() for page in pages for text in page.axes.texts)
    stick = format_length(Brick(bar).sheets[0].thickness, UNITS[units])
    assert stick in [text.get_text() for text in guides.axes.texts]
    assert "A bar of mine" in words
    for sheets in Brick(bar).sheets:
        assert sheets.clay in words
        assert f"{sheets.grams:.0f} g" in words
    assert (" mm" in words) == (units == "mm")
    rows = Brick(bar).rows(Units.MM)
    told = [f"{words}." for row in rows for words in (row.how, row.told)]
    assert {MISLEADS, _limit(rows)} <= set(written)
    sentences = (re.split(r"(?<=[.:;]) ", text) for text in (*written, *told))
    for sentence in itertools.chain.from_iterable(sentences):
        assert len(sentence.split()) <= 25, sentence


def test_what_is_too_large_is_refused_in_one_sentence():
    stack = Stack(layers=demo_stack().layers, width=500, length=2000)
    brick = Brick(Billet(source=stack))
    assert brick.scale < 1
    thick = (Layer(steel="1084", thickness=100),) * 40
    brick = Brick(Billet(source=Stack(layers=thick, width=100, length=100)))
    with pytest.raises(KitError, match="lunch box"):
        _ = brick.scale
