"""From one's own rack: what is sawn, left, missing and paid, against sums done by hand."""

import html
import json
import random
import re

import pytest
from printed import words
from pypdf import PdfReader

from kit.__main__ import main
from kit.basics.errors import KitError
from kit.basics.units import UNITS, Units
from kit.course.lessons.plan_ideas import STEELS
from kit.course.views.lesson import view_of
from kit.course.views.racked import Racked
from kit.shop import rack
from kit.shop.plan import example
from kit.shop.plan_told import from_the_rack, told
from kit.shop.work import Wanted

PLAN = example()
ENOUGH = "3 * 1084: 3.175 x 38.1 x 400 mm @ 8\n2 * 15N20: 1.5875 x 38.1 x 400 mm @ 6"


def racks():
    """Give many racks of the plan's steels, from too little to plenty."""
    draw = random.Random(7)  # noqa: S311  (no secret)
    for _ in range(40):
        lines = [
            f"{draw.randint(1, 3)} * {name}: {draw.choice(thick)} x "
            f"{draw.choice((30, 40))} x {draw.randint(50, 1200)} mm @ {draw.randint(0, 20)}"
            for name, thick in (("1084", (3, 4)), ("15N20", (1.5, 2)))
            for _ in range(draw.randint(0, 3))
        ]
        if lines:
            yield rack.from_lines("\n".join(lines))


def metres(bars, section):
    return sum(bar.count * bar.length for bar in bars if bar.section == section)


@pytest.mark.parametrize("units", list(Units))
def test_no_steel_is_found_or_lost_between_rack_cut_and_scrap(units):
    some = 0
    for bars in racks():
        made = rack.planned_from(PLAN, bars, units)
        wishes = ((made.plan.outer, 6), (made.plan.inner, 5))
        lacking = {bar.steel: count for bar, count in made.missing}
        for bar, wanted in wishes:
            section = bar.steel, bar.thickness, bar.width
            sawn = [s for s in made.sawn if (s.rack.steel) == bar.steel]
            assert sum(s.pieces for s in sawn) + lacking.get(bar.steel, 0) == wanted
            before, after = metres(bars, section), metres(made.left, section)
            scrap = sum(s.offcut for s in sawn if s.offcut < rack.SHORTEST)
            used = sum(s.rack.length - s.offcut for s in sawn)
            assert before - after == pytest.approx(used + scrap)
            assert all(s.length >= made.plan.exact_length for s in sawn)
            some += bool(sawn)
        assert made.plan.outer.width == made.plan.inner.width
    assert some > 30


def test_what_it_costs_and_leaves_as_on_paper():
    made = rack.planned_from(PLAN, rack.from_lines(ENOUGH))
    # pieces of 102 mm and cuts of 2 mm: three of 1084 from a bar, 400 - 312 = 88 mm left,
    # twice; of 15N20 three from the first bar, two from the other, 400 - 208 = 192 mm left
    assert not made.missing
    assert [(bar.steel, bar.count, round(bar.length)) for bar in made.left] == [
        ("1084", 2, 88), ("1084", 1, 400), ("15N20", 1, 88), ("15N20", 1, 192),
    ]  # fmt: skip
    assert made.cost == pytest.approx(2 * 8 * 312 / 400 + 6 * (312 + 208) / 400)
    assert "costs 20.28" in " ".join(told(made))


def test_of_two_sizes_that_do_the_one_that_takes_less_steel_is_chosen():
    bars = rack.from_lines(f"{ENOUGH}\n3 * 1084: 4 x 38.1 x 400 mm")
    grams = []
    for thick in (3.175, 4):
        outer = PLAN.outer.model_copy(update={"thickness": thick})
        grams.append(PLAN.made_of(outer, PLAN.inner).grams_in)
    made = rack.planned_from(PLAN, bars)
    assert made.plan.grams_in == pytest.approx(min(grams))


def test_a_bar_as_wide_as_one_likes_comes_from_bars_as_wide_as_they_are():
    wide = Wanted(length=254, width=50.8, thickness=5)
    plan = PLAN.model_copy(update={"wanted": wide})
    made = rack.planned_from(plan, rack.from_lines(ENOUGH))
    assert made.plan.outer.width == 38.1
    lossless = made.plan.losing(
        weld_scale=0, forge_scale=0, clean_up=0, crop=0, kerf=0, grind=0
    )
    # volume: 254 × 50.8 × 5 mm in a stack 38.1 × 26.9875 mm
    assert lossless.exact_length == pytest.approx(254 * 50.8 * 5 / (38.1 * 26.9875))


SHORT = "2 * 1084: 3.2 x 40 x 300 mm\n15N20: 1.5 x 40 x 300 mm"
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


@pytest.fixture(scope="module")
def page():
    view = view_of("10")
    view.lock(False)
    return Racked(view)


@pytest.mark.parametrize("units", UNITS)
@pytest.mark.parametrize("bars", [ENOUGH, SHORT, "1095: 3 x 38.1 x 900 mm"])
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


INCHES = "3 * 1084: 1/8 x 1 1/2 x 16 in @ 8\n2 * 15N20: 1/16 x 1 1/2 x 16 in @ 6"


def said(page):
    """Give all that the page says of the rack and of the plan above it."""
    parts = (page.says.value, page.out.value, page.bars.value, page.view.picture.alt)
    return html.unescape(re.sub(r"<[^>]+>", " ", " ".join(parts)))


def test_who_types_inches_is_told_inches(page, capsys):
    """On the page, above it and in the terminal; who then chooses mm has mm again."""
    page.view.reset()
    page.view.looks.unit_choice.value = 0
    page.bars.value = INCHES
    page.work_out()
    assert page.view.units is Units.INCH_FRACTION
    assert " in" in said(page)
    assert not re.search(r"\d.?mm\b", said(page))
    page.view.looks.unit_choice.value = 0
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
    for bars in racks():
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
    made = rack.planned_from(PLAN, bars)
    for line in (*told(made), *(line for part in from_the_rack(made) for line in part)):
        assert line in read
    assert main(["paper", "rack", "--out", str(pdf)]) == 0
    form = words(*PdfReader(pdf).pages)
    assert "Price of one" in form
    assert form.count("Example") == 1
    assert "Example: 2 1084 3.18 × 38.1 × 1000 mm" in form
