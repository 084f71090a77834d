"""From one's own rack: page, command line, picture and paper say the same."""

import html
import itertools
import json
import re

import pytest
from printed import words
from pypdf import PdfReader
from test_from_rack import ENOUGH, racks
from test_words_in_pictures import meet, within

from kit.__main__ import main
from kit.basics.errors import KitError
from kit.basics.told import in_units
from kit.basics.typed import parse_lengths
from kit.basics.units import UNITS, Units, format_length
from kit.classroom.paper.card import card
from kit.classroom.paper.kinds import Asked, kinds
from kit.classroom.paper.operations import of_plan
from kit.classroom.paper.page import LIVE
from kit.course.lessons.plan_drawing import tone
from kit.course.lessons.plan_ideas import GIVEN, LOSSES, STEELS, plan_of
from kit.course.lessons.rack_drawing import drawn
from kit.course.views.lesson import lesson, view_of
from kit.course.views.racked import SIDES, Racked
from kit.section.picture import BIG_LETTERS, LETTERS, Sheet
from kit.shop import plan_line, rack
from kit.shop.from_rack import planned_from
from kit.shop.plan import example
from kit.shop.plan_told import from_the_rack, told

PLAN = example()
SHORT = "2 * 1084: 3.2 x 40 x 300 mm\n15N20: 1.5 x 40 x 300 mm"
MIXED = (
    "2 * 1084: 3 x 38.1 x 220 mm @ 4\n1084: 6 x 38.1 x 220 mm @ 9\n15N20: 2 x 38.1 x 600 mm"
)
# as many kinds of bars as a plan has pieces, and what else makes a card long
PIECEMEAL = "\n".join(
    [
        *(f"1084: {3 + at / 2} x 38.1 x {118 + at} mm @ 4" for at in range(6)),
        *(f"15N20: {1.5 + at / 4} x 38.1 x {118 + at} mm @ 3" for at in range(5)),
    ]
)
SMALL = "1084: 3 x 38.1 x 100 mm @ 4\n1084: 6 x 38.1 x 90 mm\n15N20: 1.5 x 38.1 x 70 mm @ 2"
FIRST = [
    (["--bar", SHORT], "Not enough on the rack: 2 pieces of 1084"),
    (["--bar", "9 * 1084: 3.2 x 40 x 300 mm"], "Not enough on the rack: 5 pieces of 15N20"),
    (["--start", "40mm"], "Not enough: the bar ends"),
    (["--start", "1 1/2", "--units", "in"], "Not enough: the bar ends"),
    (["--start", "140mm"], "Enough: the bar ends"),
    (["--bar", "1095: 3 x 40 x 900"], "Not enough on the rack: 6 pieces of 1084"),
]


@pytest.mark.parametrize(("typed", "first"), FIRST, ids=lambda part: " ".join(part)[:30])
def test_what_cannot_be_reached_is_said_first(typed, first, capsys):
    assert main(["plan", *typed]) == 0
    assert capsys.readouterr().out.startswith(first)


AT_RANDOM = (rack.to_lines(racks(seed)) for seed in (1, 8))
SAID = [ENOUGH, SHORT, MIXED, "1095: 3 x 38.1 x 900 mm", *AT_RANDOM]


@pytest.fixture(scope="module")
def page():
    view = view_of("10")
    view.lock(False)
    return Racked(view)


@pytest.mark.parametrize("units", UNITS)
@pytest.mark.parametrize("bars", SAID)
def test_the_page_says_what_the_command_says(page, units, bars, capsys):
    page.view.reset()
    page.view.looks.unit_choice.value = list(UNITS).index(units)
    page.bars.value = bars
    page.work_out()
    shown = f"{page.says.value} {page.out.value}"
    shown = " ".join(html.unescape(re.sub(r"<[^>]+>", " ", shown)).split())
    typed = [part for line in bars.split("\n") for part in ("--bar", line)]
    assert main(["plan", "--units", units, *typed]) == 0
    said = capsys.readouterr().out.split("\nThen:")[0].splitlines()
    place = 0
    for line in filter(None, map(str.strip, said)):
        found = shown.find(line, place)
        assert found >= place, line
        place = found
    assert len(said) > 5
    alt = page.picture.alt
    made = planned_from(PLAN, rack.from_lines(bars), UNITS[units])
    for bar, count in made.missing:
        assert f"missing: {count} piece" in alt
        assert f"of {bar.steel}" in alt
    thick = format_length(made.plan.stack_thickness, UNITS[units])
    assert alt.startswith(f"The end of a stack {thick} thick")


def test_the_stack_is_drawn_as_thick_as_its_bars_are(monkeypatch):
    """Two bars of 3 mm and one of 6 mm: the thick pieces lie outside."""
    boxes, box = [], Sheet.box

    def kept(sheet, corner, opposite, **how):
        boxes.append((opposite[1] - corner[1], how.get("fill")))
        return box(sheet, corner, opposite, **how)

    monkeypatch.setattr(Sheet, "box", kept)
    made = planned_from(PLAN, rack.from_lines(MIXED))
    assert not made.missing
    drawn(made, Units.MM)
    layers = made.plan.billet.source.layers
    thick = [layer.thickness for layer in layers if layer.steel == "1084"]
    assert thick == [6, 3, 3, 3, 3, 6]
    assert {layer.thickness for layer in layers if layer.steel == "15N20"} == {2}
    scale = boxes[0][0] / layers[0].thickness
    for layer, (high, fill) in zip(layers, boxes, strict=False):
        assert high == pytest.approx(layer.thickness * scale)
        assert fill == tone(layer.steel)
    said = " ".join(told(made))
    assert "Pieces of 1084: 2 of 6.0 mm and 4 of 3.0 mm" in said
    # a bar 5 mm thick of a stack 2 × 6 + 4 × 3 + 5 × 2 = 34 mm, doubled three times
    assert "from 36.8 µm to 0.11 mm each layer" in said
    assert plan_line.from_line(plan_line.to_line(made.plan)) == made.plan


INCHES = "3 * 1084: 1/8 x 1 1/2 x 16 in @ 8\n2 * 15N20: 1/16 x 1 1/2 x 16 in @ 6"


def said(page):
    """Give all that the page says of the rack."""
    parts = (page.says.value, page.out.value, page.bars.value, page.picture.alt)
    return html.unescape(re.sub(r"<[^>]+>", " ", " ".join(parts)))


def test_who_types_inches_is_told_inches(page, capsys):
    """On the page and in the terminal; who then chooses mm has mm again."""
    page.view.reset()
    page.view.looks.unit_choice.value = 0
    page.bars.value = INCHES
    page.work_out()
    assert page.units is Units.INCH_FRACTION
    assert " in" in said(page)
    assert not re.search(r"\d.?mm\b", said(page))
    for place in (1, 0):
        page.view.looks.unit_choice.value = place
    assert "mm" in page.out.value
    assert "16 in" in page.bars.value, "what was typed stays"
    typed = [part for line in INCHES.split("\n") for part in ("--bar", line)]
    for asked in (typed, ["--wanted", "10 x 1 1/2 x 3/16 inch"]):
        assert main(["plan", *asked]) == 0
        assert not re.search(r"\d.?mm\b", capsys.readouterr().out.split("Without")[0])
    assert main(["bought", "--thickness", "1/4in"]) == 0
    assert not re.search(r"\d.?mm\b", capsys.readouterr().out)


def test_the_example_follows_the_units():
    view = view_of("10")
    shown = Racked(view)
    for place, units in enumerate(Units):
        view.looks.unit_choice.value = place
        text = f"{shown.bars.value} {shown.bars.placeholder} {shown.says.value}"
        assert ("mm" in text) == (units is Units.MM)
        assert rack.from_lines(shown.bars.value) == rack.from_lines(
            "1084: 3.175 x 38.1 x 508\n15N20: 1.5875 x 38.1 x 508"
        )


def test_other_steels_are_planned_and_nonsense_keeps_the_picture(page):
    page.view.reset()
    page.view.set(steel_a=STEELS.index("1095"))
    assert "pieces of 1095" in page.view.picture.alt  # the staircase is of these steels
    page.bars.value = ENOUGH.replace("1084", "1095")
    page.work_out()
    assert "enough" in page.says.value
    assert "1095" in page.out.value
    before = page.view.picture.alt
    for nonsense in ("", "abc", "<b>", "0 * 1084: 3 x 38 x 900", "1084: 3 x 38 x 900 @ x"):
        page.bars.value = nonsense
        page.work_out()
        assert "kit-refused" in page.says.value
        assert "<b>" not in page.says.value
    assert page.view.picture.alt == before
    bars = rack.from_lines("2 * 1095: 3 x 30 x 900 @ 2")
    page.upload.take("a.json", rack.to_json(bars).encode())
    assert page.bars.value == "2 * 1095: 3 x 30 x 900 mm @ 2"


def test_a_rack_comes_back_from_its_file_and_its_lines(tmp_path):
    for bars in map(racks, range(40)):
        path = tmp_path / "rack.json"
        path.write_text(rack.to_json(bars), "utf-8")
        assert rack.load(path) == bars
        assert rack.from_lines(rack.to_lines(bars)) == bars
        for units in Units:
            again = rack.from_lines(rack.to_lines(bars, units))
            for one, other in zip(again, bars, strict=True):
                assert one.model_dump() == pytest.approx(other.model_dump())


@pytest.mark.parametrize(
    "text",
    [
        "", "[]", "null", "[" * 9_000, "x" * 50_000,
        json.dumps({"format": rack.FORMAT, "version": 2, "bars": []}),
        json.dumps({"format": rack.FORMAT, "version": 1, "bars": []}),
        json.dumps({"format": rack.FORMAT, "version": 1, "bars": [3]}),
        json.dumps({"format": rack.FORMAT, "version": 1, "bars": [{}] * 201}),
        json.dumps({"format": rack.FORMAT, "version": 1, "bars": [{"steel": "soup"}]}),
        json.dumps({"format": rack.FORMAT, "version": 1, "bars": "x", "more": 1}),
    ],
)  # fmt: skip
def test_a_bad_file_gets_one_sentence(text, tmp_path):
    path = tmp_path / "rack.json"
    path.write_text(text)
    with pytest.raises(KitError) as error:
        rack.load(path)
    assert "\n" not in str(error.value)


def test_a_rack_s_sheet_says_what_the_command_says_and_without_bars_is_a_form(tmp_path):
    bars, pdf = rack.from_lines(ENOUGH), tmp_path / "rack.pdf"
    kept = tmp_path / "rack.json"
    kept.write_text(rack.to_json(bars), "utf-8")
    assert main(["paper", "rack", "--rack", str(kept), "--out", str(pdf)]) == 0
    read = words(*PdfReader(pdf).pages)
    made = planned_from(PLAN, bars)
    for line in (*told(made), *(line for part in from_the_rack(made) for line in part)):
        assert line in read
    printed = tmp_path / "card.pdf"
    typed = [part for line in MIXED.split("\n") for part in ("--bar", line)]
    assert main(["plan", *typed, "--card", str(printed)]) == 0
    sheets = PdfReader(printed).pages
    made = planned_from(PLAN, rack.from_lines(MIXED))
    front, all_of_it = words(sheets[0]), words(*sheets)
    assert "1084, 6.0 mm" in front, "the stack's bars"
    for line in (*told(made), *(line for part in from_the_rack(made) for line in part)):
        assert line in all_of_it
    assert main(["paper", "rack", "--out", str(pdf)]) == 0
    form = words(*PdfReader(pdf).pages)
    assert "Price of one" in form
    assert form.count("Example") == 1
    assert "Example: 2 1084 3.18 × 38.1 × 1000 mm" in form


@pytest.mark.parametrize("kind", ["card", "rack"])
def test_a_recipe_takes_no_rack_and_says_so(kind, capsys, tmp_path):
    """On paper, in the print room (it prints by the same kinds) and in the terminal."""
    file = tmp_path / "rack.json"
    file.write_text(rack.to_json(rack.from_lines(ENOUGH)), "utf-8")
    asked = Asked(recipe="raindrop", rack=rack.load(file))
    with pytest.raises(KitError, match="Bars of a rack are chosen for a plan"):
        kinds()[kind].pages(asked)
    out = str(tmp_path / "a.pdf")
    typed = ["paper", kind, "--recipe", "raindrop", "--rack", str(file), "--out", out]
    assert main(typed) == 1
    assert "Bars of a rack are chosen for a plan" in capsys.readouterr().err
    with pytest.raises(KitError, match="give your rack's file"):
        kinds()["rack"].pages(Asked(recipe="raindrop"))


@pytest.mark.parametrize("letters", [LETTERS, BIG_LETTERS])
@pytest.mark.parametrize("units", list(Units))
def test_no_words_of_the_racks_picture_meet(monkeypatch, units, letters):
    """Nor do they leave it: with a bar of every kind, and with some missing."""
    sheets, begin = [], Sheet.__init__

    def kept(sheet, *size, **how):
        begin(sheet, *size, **how)
        sheets.append(sheet)

    monkeypatch.setattr(Sheet, "__init__", kept)
    for bars in (MIXED, SHORT, PIECEMEAL, SMALL):
        drawn(planned_from(PLAN, rack.from_lines(bars), units), units, letters=letters)
        sheet = sheets[-1]
        for one, other in itertools.combinations(sheet.words, 2):
            assert not meet(one, other), (bars, one, other)
        assert all(within(one, (0, 0, *sheet.image.size)) for one in sheet.words)


@pytest.mark.parametrize("units", list(Units))
def test_what_a_line_says_is_left_is_what_is_left(units):
    """Bars of 0.070 in are no fraction; their lengths are marked like all others'."""
    bars = rack.from_lines("1084: 1/8 x 1 1/2 x 36 in\n15N20: .070 x 1 1/2 x 36 in")
    made = planned_from(PLAN, bars, units)
    sawn, left = from_the_rack(made, units)
    cut = re.search(r"every piece (.*?) long", " ".join(told(made, units)))[1]
    for line, rest in zip(sawn, left, strict=True):
        assert f" × {cut} = " in line
        assert f" of {re.search(r'saw cuts of [^,]+, (.+) left', line)[1]}" in rest


def test_a_rack_that_lacks_says_what_it_has_instead_and_what_its_price_leaves_out():
    """A steel nobody asked for, a bar of another width, a price of a part."""
    bars = rack.from_lines(
        "1095: 1/8 x 1 1/2 x 36 in @ $12\n1084: 1/8 x 2 x 36 in\n"
        "15N20: 1/16 x 1 1/2 x 36 in @ 15"
    )
    said = told(planned_from(PLAN, bars, Units.INCH_FRACTION), Units.INCH_FRACTION)
    words = " ".join(said)
    assert said[0].startswith("Not enough on the rack")
    assert "The rack also has 1095" in words
    assert re.search(r"(1084 is there 2|15N20 is there 1 1/2) in wide", words)
    part = told(planned_from(PLAN, rack.from_lines("2 * 1084: 3 x 38.1 x 900 @ 8")))
    assert "of your prices, without what is missing: its pieces" in " ".join(part)
    enough = told(planned_from(PLAN, rack.from_lines(ENOUGH)))
    assert "without what is missing" not in " ".join(enough)
    assert "also has" not in " ".join(enough)


@pytest.mark.parametrize(
    ("bars", "units"), [(SMALL, Units.MM), (PIECEMEAL, Units.INCH_FRACTION)]
)
def test_a_racks_card_ends_on_its_sheet_whatever_the_rack(bars, units):
    asked = Asked("Letter", units, recipe=PLAN, rack=rack.from_lines(bars))
    front = card(asked)[0]
    assert front.y <= LIVE[1]
    read = " ".join(one.get_text() for one in front.axes.texts)
    first = told(planned_from(PLAN, asked.rack, units), units)[0]
    assert " ".join(first.split()) in " ".join(read.split())


@pytest.mark.parametrize("locked", [True, False])
@pytest.mark.parametrize("bars", [ENOUGH, INCHES, SHORT, "abc"])
def test_a_rack_is_planned_at_any_time_and_leaves_the_question_as_it_is(bars, locked):
    """Before the prediction it plans the same, and neither picture nor units change."""
    predict, view, *_ = lesson("10")
    view.lock(locked)
    view.set(**{kind: GIVEN[kind] for kind in LOSSES} if not locked else {})
    planner = Racked(view)
    asked = predict.ask.value, predict.tiles.options, view.units
    before = view.state, view.picture.alt
    for wanted in (planner.wanted.value, "8 x 1 1/4 x 3/16 in"):
        planner.wanted.value, planner.bars.value = wanted, bars
        planner.work_out()
        assert (predict.ask.value, predict.tiles.options, view.units) == asked
        assert planner.wanted.value == wanted, "what was typed stays"
        assert not locked or (view.state, view.picture.alt) == before
        if bars == "abc":
            assert "kit-refused" in planner.says.value
            continue
        sides = dict(zip(SIDES, parse_lengths(wanted, 3, "A bar"), strict=True))
        rack_of = rack.from_lines(bars)
        made = planned_from(plan_of({**GIVEN, **sides}), rack_of, planner.units)
        assert html.escape(told(made, planner.units)[0]) in planner.says.value
        assert ("press Observe" in planner.out.value) == locked


def test_what_is_wanted_follows_the_plan_above_and_its_units():
    view = view_of("10")
    planner = Racked(view)
    view.set(length=203.2)
    assert planner.wanted.value == "203.2 x 38.1 x 5 mm"
    view.looks.unit_choice.value = 1
    assert planner.wanted.value.startswith("8 x 1 1/2 x ")
    planner.wanted.value = "300 x 38.1 x 1.8 mm"  # thinner than the slider reaches
    planner.work_out()
    assert "do not reach" in planner.out.value
    assert view.state["length"] == 203.2
    view.looks.unit_choice.value = 0
    assert planner.wanted.value == "300 x 38.1 x 1.8 mm"


def test_each_step_of_a_list_changes_a_size_or_a_weight(capsys):
    """In every unit; the list has the steps, and the sizes, of the card."""
    for units, asked in UNITS.items():
        assert main(["plan", "--units", units]) == 0
        printed = capsys.readouterr().out
        rows = printed.split("Then:\n")[1].split("\n\n")[0].splitlines()
        names = [re.match(r" +\d+ ([a-z ]+)", row)[1].strip() for row in rows]
        assert names == [row.work for row in of_plan(PLAN)]
        sizes = [re.search(r": ([\d.]+ .*?),", row.split(")")[-1])[1] for row in rows]
        assert all(one != other for one, other in itertools.pairwise(sizes))
        for row, name in zip(rows, names, strict=True):
            assert " gone" in row
            assert (
                (" at about " in row) == ("scale" in row) == (name in ("weld", "draw out"))
            )
        assert in_units("this is the class's bar: 254 × 38.1 × 5 mm", asked) in printed
    assert main(["plan", "--wanted", "200x30x4"]) == 0
    printed = capsys.readouterr().out
    assert "For a bar of 200 × 30 × 4 mm." in printed
    assert "class's bar" not in printed
