"""Recipes on the page: opened, refused in one sentence, handed on as they are."""

import base64
import html
import re

from uploads import uploaded

from kit.basics.units import Units
from kit.course.lessons import recipe_scene
from kit.course.views.recipe import RecipeView, named
from kit.course.views.rehearse import rehearse
from kit.forge.patterns import PATTERNS, pattern
from kit.forge.recipes.recipe import Recipe, from_json, to_json
from kit.forge.recipes.shorthand import to_line

MINE = Recipe(
    name="Tobin's <b>best</b>", billet=pattern("ladder").forge(), note="For Alder"
)


def test_every_named_pattern_can_be_drawn_at_both_ends():
    for place, known in enumerate(PATTERNS):
        for ground in (0, 100):
            for look in range(len(recipe_scene.LOOKS)):
                job = recipe_scene.Job(ground=ground, look=look)
                scene = job.draw(Units.MM, recipe=named(place))
        assert known.name in scene.alt
        assert len(scene.numbers) == 5
        assert len(scene.image.convert("L").getcolors(256)) > 20


def test_a_file_is_opened_and_handed_on_as_it_is():
    page = RecipeView()
    uploaded(page, to_json(MINE).encode())
    assert "Tobin" in page.picture.alt
    assert "<b>best" not in page.out.value
    assert "<b>best" not in page.says.value
    coded = re.search(r"base64,([^\"]+)", page.out.value).group(1)
    assert from_json(base64.b64decode(coded).decode()) == MINE


def test_a_line_is_read_and_given_back():
    page = RecipeView()
    page.typed.value = to_line(MINE.billet)
    page.read_line()
    assert "from a line" in page.picture.alt
    assert html.escape(to_line(MINE.billet)) in page.out.value


def test_bad_files_and_lines_leave_the_old_picture():
    page = RecipeView()
    before = page.picture.alt, page.out.value
    for bad in (b"", b"[]", b"\xff" * 40, b"[" * 9000, b"x" * 300_000):
        uploaded(page, bad)
        assert "kit-refused" in page.says.value
    for bad in ("", "<script>", "x" * 9000, to_line(MINE.billet)[:-1] + "Q"):
        page.typed.value = bad
        page.read_line()
        assert "kit-refused" in page.says.value
    assert (page.picture.alt, page.out.value) == before


def test_another_pattern_from_the_list_replaces_it():
    page = RecipeView()
    uploaded(page, to_json(MINE).encode())
    page.controls["which"].value = 3
    assert PATTERNS[3].name in page.picture.alt
    assert "moved to both ends" in rehearse(lambda: (RecipeView(),), always=True)
