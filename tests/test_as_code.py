"""Code as the second face: run, it makes what is shown; strangers' words stay data."""

import ast
import random
import re
from typing import get_args

import numpy as np
import pytest
from smith import BARS, random_history
from steps import bar_of, samples
from test_census import forging

from kit.basics.errors import KitError
from kit.basics.units import Units
from kit.course.anvil.acts import Laid, Turn
from kit.course.anvil.look import Look
from kit.course.as_code import WIDE, as_code, call_as_code
from kit.course.own_bar import own_bar
from kit.course.views.forge import Forge
from kit.forge.billet import Billet
from kit.forge.bundle import Bundle
from kit.forge.steps import DrawOut
from kit.section.block import Block
from kit.section.half import half_as_fine
from kit.section.surface import cut, shown_at
from kit.shop.patterns import PATTERNS
from kit.shop.recipes.recipe import Recipe, from_json
from kit.shop.recipes.talk import Kind
from tests.lessons import KNOWN
from tests.test_workings import states

SAMPLES = samples()
FIGURES = 6  # a bar of up to a metre, to a µm: what more a line tells, nobody reads


def unread(code):
    """Give the numbers that have more figures than a reader takes in."""
    numbers = re.findall(r"(?<![\w.])[\d.]+(?:e-?\d+)?", code)
    bare = {number: number.split("e")[0].replace(".", "").strip("0") for number in numbers}
    return [number for number, figures in bare.items() if len(figures) > FIGURES]


def again(billet, surface=None, *, by_dice=False):
    """Run the code of a bar, and of what is looked at, and give what it makes.

    Its numbers are few figures long, unless dice that know no figures chose them.
    """
    code, made = as_code(billet, surface), {}
    exec(code, made)  # noqa: S102  (it is ours: that is what is tried)
    assert by_dice or not unread(code), code
    assert all(len(line) <= WIDE for line in code.splitlines()), code
    return made["bar"], made.get("face")


@pytest.mark.parametrize("known", PATTERNS, ids=lambda known: known.name)
def test_every_pattern(known):
    bar = known.forge()
    with half_as_fine():
        own = [panel.surface for panel in own_bar(bar).panels]
    for face in (None, cut(bar, angle=20), shown_at(bar, known.shown, 300, 200), *own):
        assert again(bar, face) == (bar, face)


def any_states(name):
    """Give states as it begins, after its film, at random, and on a page in inches."""
    dice, kind = random.Random(name), KNOWN[name]  # noqa: S311  (no secret)
    stops = {
        s.key: s.stops(Units.INCH_FRACTION) for s in kind.settings if hasattr(s, "kind")
    }
    inches = {key: dice.choice(allowed) for key, allowed in stops.items()}
    wish = {**kind.job.begun(), **inches}
    fitted = kind.job.fitted(wish, Units.INCH_FRACTION)[0].values
    return [{}, *kind.job.states()[-1:], *states(name, 2), fitted]


@pytest.mark.parametrize("name", KNOWN)
def test_every_lesson_in_any_state(name):
    """All that its pictures show is told in numbers that are read, and made again."""
    for state in any_states(name):
        with half_as_fine():  # what is seen is told, not how
            panels = KNOWN[name].scene(**state).panels
        assert panels or not unread(call_as_code(KNOWN[name].job(**state)))
        for panel in panels:
            shown = panel.billet, panel.surface
            assert again(*shown) == shown


@pytest.mark.parametrize("name", SAMPLES)
def test_every_step(name):
    step, size = SAMPLES[name]
    bar = bar_of(size).then(step)
    assert again(bar) == (bar, None)


@pytest.mark.parametrize("seed", range(40))
def test_random_forgings_and_bundles_of_them(seed):
    draw = np.random.default_rng(seed)
    one = forging(draw, tilting=True)
    assert again(one, Block.fitted(one.size, 300, 200), by_dice=True)[0] == one
    try:
        laid = Bundle(
            bars=(one, one, one), laid=str(draw.choice(["stacked", "side by side"]))
        )
        bar = Billet(source=laid)
    except KitError:
        return  # round bars do not fit together
    code = as_code(bar)
    assert again(bar, by_dice=True) == (bar, None)
    assert code.count(" = Stack") == 1, "a bar is told once"


def test_only_what_differs_is_written_and_what_is_repeated_is_told_once():
    bar = KNOWN["FoldLesson"].job(folds=9).billet
    code = as_code(bar)
    assert "heat" not in code
    assert "] * 9" in code
    assert len(code.splitlines()) < 16


@pytest.mark.parametrize("turned", Turn.__args__)
@pytest.mark.parametrize("pieces", [2, 3, 5])
def test_pieces_of_one_bar_are_told_as_one_bar_and_its_pieces(pieces, turned):
    """Each step of the bar stands once, or once for each hand; each piece has one line."""
    laid = Laid(pieces=pieces, turned=turned).done_to(BARS["twisted"])
    code = as_code(laid)
    assert again(laid) == (laid, None)
    hands = 2 if turned == "every second of the other hand" else 1
    assert 1 <= code.count("Twist(") <= hands
    assert code.count("Stack.alternate(") == 1
    assert code.count("Crop(") == pieces
    sawn = re.findall(r"(?:near|far)=([\d.e-]+)", code)
    assert all(len(number) <= len("1234.567") for number in sawn), "no sawyer reads more"
    twice = Laid(pieces=2).done_to(laid.then(DrawOut(thickness=10)))
    assert as_code(twice).count("Twist(") <= hands
    assert again(twice) == (twice, None)


@pytest.mark.parametrize("seed", range(20))
def test_a_random_desk_goes_to_code_and_back_with_its_history(seed):
    """At every stage; and the lines that differ are those that are marked."""
    history, forge = random_history(seed).history, Forge()
    forge.code.opened = True
    for stage in (*history.stages[::3], history.stages[-1]):
        bar, _face = again(stage.bar)
        assert bar == stage.bar
        before = forge.code.text.splitlines()
        forge.take(bar)
        assert forge.desk.history.bar == forge.bar == stage.bar
        assert forge.desk.history.stages[0].bar == history.stages[0].bar
        lines = forge.code.text.splitlines()
        new = [number for number, line in enumerate(lines) if line not in before]
        if lines != before:
            assert forge.code.changed == new
    for kind in get_args(Kind):
        face = Look(kind=kind).plane(forge.bar, 600, 200)
        assert again(forge.bar, face) == (forge.bar, face)
    forge.do(forge.desk.goes(0))
    made = {}
    exec(forge.code.text.replace("show(bar, face)", ""), made)  # noqa: S102
    assert made["bar"] == forge.bar == history.stages[0].bar


STRANGE = '"); import os; os.remove("x") #'


def test_a_strangers_recipe_stays_data():
    """Its words are no code: it has none where code is, and its names are refused."""
    bar = PATTERNS[2].forge()
    recipe = Recipe(name=STRANGE, billet=bar, note=STRANGE, source=STRANGE)
    assert STRANGE not in as_code(recipe.billet)
    text = recipe.model_dump_json().replace("1084", STRANGE.replace('"', "'"))
    with pytest.raises(KitError):
        from_json(text)


@pytest.mark.parametrize("known", PATTERNS, ids=lambda known: known.name)
def test_the_code_does_nothing_but_make_things(known):
    """Imports from the kit, assignments, calls of what was imported, plain values."""
    bar = known.forge()
    tree = ast.parse(as_code(bar, cut(bar, angle=30)))
    allowed = (
        ast.Module, ast.ImportFrom, ast.alias, ast.Assign, ast.Name, ast.Store, ast.Load,
        ast.Call, ast.keyword, ast.Attribute, ast.Constant, ast.Tuple, ast.List,
        ast.Starred, ast.BinOp, ast.Mult, ast.Div, ast.Expr, ast.UnaryOp, ast.USub,
    )  # fmt: skip
    assert [node for node in ast.walk(tree) if not isinstance(node, allowed)] == []
    places = [node.module for node in ast.walk(tree) if isinstance(node, ast.ImportFrom)]
    assert all(place == "kit" or place.startswith("kit.") for place in places)
    attributes = {node.attr for node in ast.walk(tree) if isinstance(node, ast.Attribute)}
    assert attributes <= {"alternate", "then", "size"}


def test_units_are_millimetres_whatever_the_page_shows():
    lesson = KNOWN["CutLesson"]
    one, other = (lesson.scene(units=units).panels[0] for units in list(Units)[:2])
    assert as_code(one.billet, one.surface) == as_code(other.billet, other.surface)
