"""Laws over all lessons: values are declared once, refused in a sentence, and give way."""

import importlib
import itertools
import pkgutil
import random

import pytest

import kit.course.views
from kit.basics.declare import allowed_range
from kit.basics.errors import KitError
from kit.basics.units import Units
from kit.course.lessons import (
    bench,
    bought_scene,
    briefs_scene,
    carbon,
    cut,
    draw,
    etching,
    fold,
    four_blades_scene,
    plan,
    press_scene,
    reading_scene,
    recipe_scene,
    san_mai,
    skin_deep_scene,
    twist,
    weld_scene,
)  # fmt: skip
from kit.course.lessons import bevels_scene as bevels
from kit.course.views.base import View
from kit.course.views.settings import Pick
from kit.forge.patterns import PATTERNS
from kit.forge.recipes.recipe import Recipe

for module in pkgutil.iter_modules(kit.course.views.__path__):
    importlib.import_module(f"kit.course.views.{module.name}")
RAINDROP = Recipe(name="raindrop", billet=PATTERNS[2].forge())


def any_recipe(*, which=0, ground=0, look=0, **how):
    """Ask for the scene of a recipe as the other scenes are asked for."""
    recipe_scene.Job.asked({"which": which, "look": look, **how}, Units.MM)
    return recipe_scene.scene(RAINDROP, ground)


SCENES = {
    "BenchView": bench.scene,
    "BevelsView": bevels.scene,
    "BoughtView": bought_scene.scene,
    "BriefsView": briefs_scene.scene,
    "CarbonView": carbon.scene,
    "CutView": cut.scene,
    "DrawView": draw.scene,
    "EtchingView": etching.scene,
    "FoldView": fold.scene,
    "FourBladesView": four_blades_scene.scene,
    "PlanView": plan.scene,
    "PressView": press_scene.scene,
    "ReadingView": reading_scene.scene,
    "RecipeView": any_recipe,
    "SanMaiView": san_mai.scene,
    "SkinDeepView": skin_deep_scene.scene,
    "TwistView": twist.scene,
    "WeldView": weld_scene.scene,
}
VIEWS = {
    kind.__name__: kind
    for kind in View.__subclasses__()
    if kind.__module__.startswith("kit.")
}
EVERY = [(name, s) for name, kind in VIEWS.items() for s in kind.settings]
CONTROLS = pytest.mark.parametrize(
    ("name", "setting"), EVERY, ids=[f"{name}-{s.key}" for name, s in EVERY]
)


def ends(setting):
    """Give the first, the last and the lowest and highest value of a control."""
    if isinstance(setting, Pick):
        return 0, len(setting.options) - 1
    return setting.low, setting.high


def begun(name):
    """Give the state that a view begins with."""
    return {setting.key: setting.start for setting in VIEWS[name].settings}


def one_sentence(refused):
    """Say whether a refusal is short, on one line, and no word of Python's."""
    words = str(refused)
    return "\n" not in words and len(words) < 250 and "Error" not in words


def test_every_view_has_its_scene():
    assert set(VIEWS) == set(SCENES)


@CONTROLS
def test_slider_and_lesson_know_the_same_range(name, setting):
    """The lesson may allow more only where the page has a button for it."""
    kind = VIEWS[name]
    low, high = ends(setting)
    field = kind.job.model_fields[setting.key]
    assert field.default == setting.start
    found = allowed_range(field)
    legend = (name, setting.key) == ("FoldView", "folds")  # its button goes on to 20
    assert found == ((low, 20) if legend else (low, high))


def refuses(wish):
    """Say whether a wish is refused in one sentence; let any other error out."""
    try:
        wish()
    except KitError as refused:
        return one_sentence(refused)
    return False


@CONTROLS
def test_a_scene_refuses_loose_values_in_one_sentence(name, setting):
    scene = SCENES[name]
    low, high = ends(setting)
    beyond = max(1.0, 0.01 * (high - low))
    loose = [low - beyond, high + max(beyond, 10), float("nan"), float("inf"), "much", None]
    if isinstance(setting, Pick) or setting.kind == "count":
        loose.append(low + 0.5)
    for value in loose:
        if (name, setting.key, value) == ("RecipeView", "which", None):
            continue
        assert refuses(lambda value=value: scene(**{setting.key: value})), value


@pytest.mark.parametrize("name", VIEWS)
def test_a_scene_refuses_a_value_it_does_not_know(name):
    assert refuses(lambda: SCENES[name](anvil=3))


@pytest.mark.parametrize("name", VIEWS)
def test_whatever_a_control_holds_another_can_be_moved(name):
    """Two controls at any of their ends, in any order: what no longer fits gives way."""
    kind = VIEWS[name]
    for held, moved in itertools.permutations(kind.settings, 2):
        for one, other in itertools.product(ends(held), ends(moved)):
            state = {**begun(name), held.key: one}
            state, _ = kind.job.fitted(state, Units.MM)
            after, why = kind.job.fitted({**state, moved.key: other}, Units.MM)
            kind.job.asked(after, Units.MM)
            gave = {key for key in after if after[key] != {**state, moved.key: other}[key]}
            assert gave <= set(kind.job.gives)
            assert bool(gave) == bool(why)


@pytest.mark.parametrize("name", VIEWS)
def test_what_fits_is_drawn(name):
    """States at random, many of them at the ends of controls, each fitted, then drawn."""
    dice = random.Random(name)  # noqa: S311  (no secret)
    kind = VIEWS[name]
    for _ in range(5):
        state = {s.key: dice.choice((*ends(s), s.start)) for s in kind.settings}
        state, _ = kind.job.fitted(state, Units.MM)
        assert SCENES[name](**state).alt
