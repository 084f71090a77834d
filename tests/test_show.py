"""The show page: one file, small, closed, short words; pictures that differ."""

import json
import re
from dataclasses import replace
from html.parser import HTMLParser

import numpy as np
import pytest

from kit import KitError
from kit.__main__ import main
from kit.classroom.show import page
from kit.classroom.show.piece import letter_height
from kit.shop.patterns import pattern
from kit.shop.recipes.recipe import Recipe, save
from tests.test_unbroken import PARTED

pytestmark = pytest.mark.gate

HOSTILE = "</script><img src=x onerror=alert(1)>\"'&{{ 7*7 }}"
# What only leads back into the page: data in it, a place in it.
LEADS_OUT = re.compile(
    r"""https?:|//[a-z0-9-]+\.[a-z]|url\((?!"data:font)|@import|<link"""
    r"""|src=(?!["']?(?:x |data:))"""
)


@pytest.fixture(scope="module")
def pieces():
    return page.own_pieces()


@pytest.fixture(scope="module")
def text(pieces):
    return page.page(pieces)


@pytest.fixture(scope="module")
def told(text):
    return told_of(text)


@pytest.fixture(scope="module")
def hostile():
    """Make the page of a stranger's recipe, whose name is an attack."""
    recipe = Recipe(name=HOSTILE, billet=pattern("low twist").forge())
    return page.page(page.pieces_of([recipe]))


def told_of(text):
    found = re.search(r'<script type="application/json" id="told">(.*?)</script>', text)
    return json.loads(found[1])


class Outline(HTMLParser):
    """Notes what is open, what has been, and what was closed out of turn."""

    VOID = ("meta", "input", "img", "link", "br")

    def __init__(self):
        super().__init__()
        self.open, self.seen, self.wrong, self.words = [], [], [], []

    def handle_starttag(self, tag, attrs):
        """Note an element, and that it is open."""
        self.seen.append((tag, dict(attrs)))
        if tag not in self.VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag, attrs):
        """Note an element that closes itself."""
        self.seen.append((tag, dict(attrs)))

    def handle_endtag(self, tag):
        """Note what was not open."""
        if not self.open or self.open.pop() != tag:
            self.wrong.append(tag)

    def handle_data(self, data):
        """Note words, and what they stand in."""
        self.words.append((self.open[-1] if self.open else "", data))


def outline(text):
    parser = Outline()
    parser.feed(text)
    parser.close()
    return parser


def test_the_page_is_small_and_asks_nobody_for_anything(text):
    assert len(text.encode()) < page.MOST_BYTES
    without_pictures = re.sub(r"[A-Za-z0-9+/=]{200,}", "", text)
    assert LEADS_OUT.findall(without_pictures) == []
    assert "default-src 'none'" in text


@pytest.mark.parametrize(
    "bad", ["https://a.b", 'src="//cdn.example"', "url(x)", "@import 'x'", '<link rel="x">']
)
def test_what_leads_out_would_be_found(bad):
    assert LEADS_OUT.findall(bad)


@pytest.mark.parametrize("make", ["show", "check"])
def test_the_html_is_in_order(make, text):
    found = outline(text if make == "show" else page.check_page())
    assert (found.wrong, found.open) == ([], [])
    ids = [attrs["id"] for _, attrs in found.seen if "id" in attrs]
    assert len(ids) == len(set(ids))
    assert [tag for tag, _ in found.seen].count("h1") == 1
    named = {
        attrs["aria-labelledby"] for _, attrs in found.seen if "aria-labelledby" in attrs
    }
    assert named <= set(ids)


def test_no_line_ends_between_a_number_and_its_unit(text):
    words = json.dumps(told_of(text), ensure_ascii=False)
    assert "\u00a0mm" in words
    assert not PARTED.search(words)


def test_no_corner_is_seen_on_the_blade_but_its_heel_its_cut_and_its_point(text):
    parts = re.findall(r"polygon\(([^)]*)\)", text)
    assert parts
    for part in parts:
        places = np.array(re.findall(r"([\d.]+)%? ([\d.]+)%", part), float)
        places = places[np.append(True, np.diff(places, axis=0).any(axis=1))]  # the point
        x, y = (places * [3, 1]).T  # about as wide as it is on the glass
        ways = np.unwrap(np.arctan2(np.diff(y, append=y[0]), np.diff(x, append=x[0])))
        turns = np.abs(np.degrees(np.diff(ways)))
        # square at the heel and the cut, and one point; a turn of 3° looks like a bow
        assert (turns > 3).sum() <= 3, np.round(turns[turns > 3])


def test_letters_are_as_high_as_eyes_ask():
    # 20 arc-minutes at 3 m, small-angle: 3000 × 20 × pi / 10800 = 17.45
    assert letter_height(3000, 20) == pytest.approx(17.45, abs=0.01)
    # Snellen's letters: 5 arc-minutes at 6 m are 8.73 mm (ISO 8596)
    assert letter_height(6000, 5) == pytest.approx(8.73, abs=0.01)
    assert pytest.approx(5, abs=0.1) == page.NEAR


def test_a_hostile_name_stays_a_name(hostile):
    found = outline(hostile)
    assert (found.wrong, found.open) == ([], [])
    assert not any("onerror" in attrs for _, attrs in found.seen)
    assert told_of(hostile)["pieces"][0]["name"]["en"]["mm"] == HOSTILE
    assert any(HOSTILE in words for tag, words in found.words if tag == "span")
    assert "{{ 7*7 }}" in hostile


def test_more_than_three_recipes_are_refused():
    recipe = Recipe(name="mine", billet=pattern("low twist").forge())
    with pytest.raises(KitError, match="at most 3 recipes"):
        page.pieces_of([recipe] * 4)


def test_very_fine_patterns_get_fewer_greys_before_they_are_refused(monkeypatch, pieces):
    short = [replace(pieces[0], stops=pieces[0].stops[:2], tiles=pieces[0].tiles[:1])]
    usual = page.page(short)
    monkeypatch.setattr(page, "MOST_BYTES", len(usual.encode()) - 1)
    assert len(page.page(short)) < len(usual)
    monkeypatch.setattr(page, "MOST_BYTES", 1000)
    with pytest.raises(KitError, match="fewer recipes"):
        page.page(short)


def test_the_command_writes_the_page(tmp_path, capsys):
    recipe = save(
        Recipe(name="Rosa's bar", billet=pattern("low twist").forge()), tmp_path / "a.json"
    )
    out = tmp_path / "table.html"
    typed = ["show", "--out", str(out), "--recipe", str(recipe), "--theme", "sunlight"]
    wishes = ["--units", "inch", "--idle", "45", "--language", "fr"]
    assert main([*typed, *wishes]) == 0
    assert "Rosa's bar" in capsys.readouterr().out
    told = told_of(out.read_text("utf-8"))
    assert [told[key] for key in ("theme", "units", "idle")] == ["sunlight", "inch", 45]
    assert told["language"] == "fr"
    assert [piece["name"]["fr"]["inch"] for piece in told["pieces"]] == ["Rosa's bar"]


def test_the_command_writes_the_check_list(tmp_path, capsys):
    from kit.classroom.paper.checklists import CHECKS

    out = tmp_path / "list.html"
    assert main(["show", "--out", str(out), "--check"]) == 0
    found = outline(out.read_text("utf-8"))
    boxes = [tag for tag, attrs in found.seen if attrs.get("type") == "checkbox"]
    assert len(boxes) == sum(map(len, CHECKS.values()))
    assert "one sheet" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        (["--out", "a.txt"], "must end with .html"),
        (["--idle", "14"], "from 15 to 180"),
        (["--idle", "soon"], "whole number"),
        (["--recipe", "no such"], "no pattern called"),
        (["--recipe", "missing.json"], "cannot be read"),
        (["--recipe", "star"] * 4, "at most 3"),
        (["--theme", "dusk"], "Invalid choice"),
        (["--language", "xx"], "Invalid choice"),
    ],
)
def test_a_wrong_wish_is_one_sentence(typed, told, tmp_path, capsys, monkeypatch):
    monkeypatch.chdir(tmp_path)
    flagged = list(typed)
    if flagged.count("--recipe") == 4:
        flagged = [
            word for pair in zip(flagged[::2], flagged[1::2], strict=True) for word in pair
        ]
    assert main(["show", *flagged]) == 1
    said = capsys.readouterr().err
    assert told.lower() in said.lower()
    assert said.count("\n") == 1
    assert list(tmp_path.iterdir()) == []
