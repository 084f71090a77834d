"""One's own talk as the tablet's piece: what is said at the forge is in the made file."""

import json
import re

import pytest

from kit.basics.errors import KitError
from kit.classroom.show import own_piece, page
from kit.classroom.show.piece import STOPS, Voice, voices
from kit.classroom.views.along import Along
from kit.course.anvil.class_talk import class_talks
from kit.course.views.forge import Forge
from kit.course.views.forge_files import ForgeFiles
from kit.forge.billet import Billet
from kit.forge.stack import Stack, demo_stack
from kit.shop.recipes.found import recipe_of
from kit.shop.recipes.recipe import Recipe
from kit.shop.recipes.talk import Cue

BEATS = ("ask", "say", "clay")


def told_in(text):
    """Read what the page's script is told."""
    return json.loads(re.search(r'id="told">(.*?)</script>', text, re.DOTALL)[1])


def made(tmp_path, forge):
    """Make the tablet's page on the forge's page, and read the file."""
    along = Along(ForgeFiles(forge))
    what, _paper = along.making.choices
    what.value = next(at for at, one in enumerate(what.options) if "tablet" in one)
    make = along._make(what.value, 0)
    path = make(tmp_path / "show.html", lambda _share: None)
    return told_in(path.read_text("utf-8"))


def test_ones_own_words_are_in_the_made_file_in_their_order(tmp_path):
    forge = Forge()
    forge.add("fold")
    forge.do(
        forge.desk.saying(
            ask="How many now?", say="Twice </script><b>as many", clay="Fold."
        )
    )
    forge.do(forge.desk.goes(0).saying(say="Eleven bars."))
    (piece,) = made(tmp_path, forge)["pieces"]
    assert [[one[kind] for kind in BEATS] for one in piece["talk"]] == [
        ["", "Eleven bars.", ""],
        ["How many now?", "Twice </script><b>as many", "Fold."],
    ]
    assert len(piece["stops"]) == 2
    assert piece["stops"][0]["seen"] != piece["stops"][1]["seen"]
    assert "tiles" not in piece


@pytest.mark.parametrize("recipe", class_talks(), ids=lambda recipe: recipe.name)
def test_the_class_s_talk_is_a_piece_too(recipe):
    (piece,) = page.pieces_of([recipe])
    assert piece.cues == recipe.talk
    assert len(piece.stops) == len(piece.cues)
    for voice in (voice for both in voices().values() for voice in both.values()):
        for line in piece.lines:
            assert 0 < len(line(voice)) <= 18
        assert len({stop.alt(voice) for stop in piece.stops}) == len(piece.stops)


def test_a_bar_without_a_talk_is_ground_as_before(tmp_path):
    forge = Forge()
    forge.add("twist")
    forge.do_first()
    (piece,) = made(tmp_path, forge)["pieces"]
    assert "talk" not in piece
    assert len(piece["stops"]) == STOPS


def test_one_picture_is_enough_for_a_talk():
    recipe = Recipe(name="mine", billet=Billet(source=demo_stack()))
    cue = Forge(recipe.billet).desk.saying(ask="What is this?").history.talk
    (piece,) = page.pieces_of([recipe.model_copy(update={"talk": cue})])
    assert len(piece.stops) == 2, "the page goes from one to the next"
    assert piece.name(Voice()) == "Mine"


def beyond():
    """Give a talk of a step that its bar does not have."""
    bar = Billet(source=demo_stack())
    return Recipe(name="mine", billet=bar, talk=(Cue(stage=5, say="Look."),))


def grey():
    """Give a bar whose steels etch alike."""
    stack = Stack.alternate("15N20", "L6", pieces=4, thickness=3)
    return Recipe(name="grey", billet=Billet(source=stack))


@pytest.mark.parametrize(
    ("last", "looks"),
    [(beyond(), 0), (recipe_of("feather"), 0), (grey(), 4)],
    ids=lambda one: getattr(one, "name", one),
)
def test_what_is_refused_is_refused_before_it_is_drawn(last, looks, monkeypatch):
    """Whatever stands before it; only whether faces look alike is seen by looking."""
    looked = []
    steel = own_piece._steel
    monkeypatch.setattr(
        own_piece, "_steel", lambda *given: looked.append(1) or steel(*given)
    )
    with pytest.raises(KitError):
        page.pieces_of([*([recipe_of("low twist")] * (looks == 0)), last])
    assert len(looked) <= looks
