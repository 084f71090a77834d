"""Files made from a notebook: offered inside the page, stopped without a trace."""

import base64
import io
import re
import threading

import ipywidgets as widgets
import pytest
from PIL import Image
from printed import words
from pypdf import PdfReader

from kit.basics.errors import KitError
from kit.classroom.paper.kinds import kinds
from kit.classroom.views.printing import (
    WIDE,
    FirstPage,
    OwnFile,
    films,
    pages,
    posters,
    room,
)
from kit.course.views.controls import Choice
from kit.course.views.making import Making
from kit.shop import rack
from kit.shop.from_rack import planned_from
from kit.shop.patterns import pattern
from kit.shop.plan import example
from kit.shop.plan_told import told
from kit.shop.recipes.recipe import Recipe, save, to_json

pytestmark = pytest.mark.gate
BARS = rack.from_lines("6 * 1084: 3.175 x 38.1 x 500\n5 * 15N20: 1.5875 x 38.1 x 500")
RACK = rack.to_json(BARS).encode()


def offered(making):
    """Read the file that stands in the page."""
    found = re.search(
        r'download="([^"]+)" href="data:[^;]+;base64,([^"]+)"', making.file.value
    )
    return found.group(1), base64.b64decode(found.group(2))


@pytest.mark.parametrize(
    ("make", "name", "begins"),
    [(pages, "handout-01.pdf", b"%PDF"), (films, "ladder.gif", b"GIF8")],
)
def test_a_file_is_made_and_offered(make, name, begins):
    making = make()
    making.begin()
    making.wait(60)
    called, data = offered(making)
    assert called == name
    assert data.startswith(begins)
    assert making.bar.value == 1
    assert "Done" in making.says.value
    assert making.stop_button.disabled
    assert not making.make_button.disabled


def test_the_print_room_takes_a_recipe_of_ones_own(tmp_path):
    mine = save(
        Recipe(name="Imke's bar", billet=pattern("low twist").forge()), tmp_path / "a.json"
    )
    making = pages()
    kind, _lesson, _recipe, own, *_settings = making.choices
    kind.value = next(at for at, one in enumerate(kind.options) if one == "recipe card")
    own.line.value = f" {mine} "
    making.begin()
    making.wait(60)
    sheet = PdfReader(io.BytesIO(offered(making)[1])).pages[0]
    assert "Imke's bar" in sheet.extract_text()
    own.line.value = "no such bar"
    making.begin()
    making.wait(60)
    assert "kit-refused" in making.says.value


def test_the_print_room_takes_a_file_or_says_why_not():
    making = pages()
    kind, _lesson, recipe, own, *_settings = making.choices
    kind.value = next(at for at, one in enumerate(kind.options) if one == "recipe card")
    mine = Recipe(name="Imke's bar", billet=pattern("low twist").forge())
    own.upload.take("a.json", to_json(mine).encode())
    assert "Imke&#x27;s bar" in own.says.value
    making.begin()
    making.wait(60)
    sheet = PdfReader(io.BytesIO(offered(making)[1])).pages[0]
    assert "Imke's bar" in sheet.extract_text()
    for bad in (b"", b"{}", b"\xff\xfe", b"[" * 9000, b" " * 300_000):
        own.upload.take("a.json", bad)
        assert "kit-refused" in own.says.value
        assert own.value == ""
    own.upload.take("a.json", to_json(mine).encode())
    recipe.value = 3
    assert (own.value, own.says.value) == ("", "")


def test_the_print_room_asks_only_for_what_a_kind_is_about():
    making = pages()
    kind, lesson, recipe, own, *_settings = making.choices
    for at, asked in enumerate(kinds().values()):
        kind.value = at
        shown = [part.layout.display != "none" for part in (lesson, recipe, own)]
        assert shown == [asked.of == "lesson", asked.of == "bar", asked.of == "bar"]


def test_stop_stops_and_keeps_nothing():
    making = posters()
    making.begin()
    making.stop()
    making.wait(60)
    assert "Stopped" in making.says.value
    assert making.file.value == ""
    assert not making.make_button.disabled


def test_a_refusal_is_one_sentence():
    def refuse(_path, _progress):
        msg = "Not with <this> steel."
        raise KitError(msg)

    making = Making(
        (Choice("What", ["a"], value=0),), lambda _v: "a.pdf", lambda _v: refuse
    )
    making.begin()
    making.wait(60)
    assert "Not with &lt;this&gt; steel." in making.says.value
    assert "kit-refused" in making.says.value


@pytest.mark.filterwarnings("ignore::pytest.PytestUnhandledThreadExceptionWarning")
def test_a_fault_of_the_kit_is_told_too_and_the_button_opens():
    making = Making((Choice("What", ["a"], value=0),), lambda _v: "a.pdf", lambda _v: {}[0])
    making.begin()
    making.wait(60)
    assert "kit-refused" in making.says.value
    assert "Working" not in making.says.value
    assert not making.make_button.disabled


@pytest.mark.filterwarnings("ignore::pytest.PytestUnhandledThreadExceptionWarning")
def test_a_preview_goes_on_after_a_fault_of_the_kit(monkeypatch):
    preview, kind = FirstPage(), kinds()["votes"]
    monkeypatch.setattr("kit.classroom.views.printing.drawn", lambda *_: {}[0])
    preview.ask(kind, None)
    preview.wait(60)
    monkeypatch.setattr("kit.classroom.views.printing.drawn", lambda *_: "drawn")
    preview.ask(kind, None)
    preview.wait(60)
    assert preview.value == "drawn"


def black():
    out = io.BytesIO()
    Image.new("L", (9, 9)).save(out, "PNG")
    return out.getvalue()


@pytest.mark.parametrize("place", range(4), ids=["pages", "films", "posters", "phones"])
def test_what_was_made_is_not_offered_for_another_choice(place):
    making = room()[place]
    for choice in making.choices:
        making.file.value = "<a>Save it</a>"
        if isinstance(choice, Choice):
            choice.value = (choice.value + 1) % len(choice.options)
        elif isinstance(choice, OwnFile):
            bars = choice.upload.accept == ".json"
            choice.upload.take("a", RACK if bars else black())
        elif isinstance(choice, widgets.Text):
            choice.value = "https://example.org"
        else:
            choice.line.value = "star"
        assert making.file.value == "", choice
        assert "Make it" in making.says.value


@pytest.mark.parametrize("place", range(4), ids=["pages", "films", "posters", "phones"])
def test_all_that_is_chosen_stands_above_the_button(place):
    making = room()[place]
    (row,) = (
        at for at, one in enumerate(making.children)
        if making.make_button in getattr(one, "children", ())
    )  # fmt: skip
    above = making.children[:row]
    assert [one for one in making.choices if one not in above] == []


def test_no_kind_is_called_by_its_name_twice():
    making = pages()
    kind, said = making.children[:2]
    for place in range(len(kind.options)):
        kind.value = place
        assert len(said.value) > len("<p></p>")
        assert not re.search(r"\b(\w+ ?\w*\w)\W+\1\b", said.value), said.value


def test_pressing_twice_makes_one_file():
    gate, started = threading.Event(), []

    def work(path, _progress):
        started.append(path)
        gate.wait(5)
        path.write_bytes(b"%PDF")
        return path

    what = (Choice("What", ["a"], value=0),)
    making = Making(what, lambda _v: "a.pdf", lambda _v: work)
    making.begin()
    making.begin()
    gate.set()
    making.wait(60)
    assert len(started) == 1


def test_a_sheet_s_first_page_is_seen_before_it_is_made():
    making = pages()
    shown = next(one for one in making.children if isinstance(one, FirstPage))
    kind, _lesson, _recipe, own, mark, _rack, *_settings = making.choices
    for name, title in (("vote cards", "The first of 1 page"), ("measured", "why?")):
        kind.value = next(at for at, one in enumerate(kind.options) if name in one)
        shown.wait(30)
        found = re.search(r'alt="([^"]+)" src="data:image/png;base64,([^"]+)"', shown.value)
        assert title in found.group(1)
        with Image.open(io.BytesIO(base64.b64decode(found.group(2)))) as picture:
            assert picture.height > picture.width > WIDE
    kind.value = next(at for at, one in enumerate(kind.options) if one == "recipe card")
    shown.wait(30)
    without = shown.value
    assert "pages. Recipe card: a planned bar" in without
    mark.upload.take("mark.png", black())
    shown.wait(30)
    assert shown.value != without
    own.line.value = "no such bar"
    shown.wait(30)
    assert "kit-refused" in shown.value
    assert not making.file.value


@pytest.mark.parametrize("name", kinds())
def test_choices_that_do_not_apply_are_hidden(name):
    making = pages()
    kind, lesson, recipe, own, mark, bars, *_settings = making.choices
    kind.value = list(kinds()).index(name)
    parts = (lesson, recipe, own, mark, bars)
    seen = {part for part in parts if part.layout.display != "none"}
    wanted = {"lesson": {lesson}, "bar": {recipe, own}, "": set()}[kinds()[name].of]
    handed = {"card": {mark, bars}, "care": {mark}, "rack": {bars}}  # see each kind's pages
    assert seen == wanted | handed.get(name, set())


def test_the_print_room_plans_from_a_racks_file_as_the_command_does():
    making = pages()
    kind, *_about, bars, _paper, _units = making.choices
    kind.value = list(kinds()).index("rack")
    bars.upload.take("rack.json", b"{}")
    assert "kit-refused" in bars.says.value
    assert bars.value is None
    bars.upload.take("rack.json", RACK)
    making.begin()
    making.wait(60)
    read = words(*PdfReader(io.BytesIO(offered(making)[1])).pages)
    for line in told(planned_from(example(), BARS)):
        assert line in read
    next(one for one in making.children if isinstance(one, FirstPage)).wait(30)
