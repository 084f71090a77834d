"""All lessons, and all views that are not made from one yet: what laws run over."""

import importlib
import pkgutil
from collections.abc import Callable
from typing import NamedTuple

import kit.course.views
from kit.basics.units import Units
from kit.course.lessons import recipe_scene
from kit.course.lessons.base import Job
from kit.course.map import LESSONS
from kit.course.views.base import View
from kit.course.views.lesson import view_of
from kit.course.views.settings import Pick, Setting, settings_of
from kit.forge.patterns import PATTERNS
from kit.forge.recipes.recipe import Recipe
from kit.section.picture import LETTERS

for module in pkgutil.iter_modules(kit.course.views.__path__):
    importlib.import_module(f"kit.course.views.{module.name}")
RAINDROP = Recipe(name="raindrop", billet=PATTERNS[2].forge())


class Known(NamedTuple):
    """What can be set, how it is drawn, and the view that shows it."""

    settings: tuple[Setting | Pick, ...]
    job: type[Job]
    scene: Callable
    view: Callable[[], View]


def any_recipe(*, letters=LETTERS, **values):
    """Ask for the scene of a recipe as the other scenes are asked for."""
    return recipe_scene.Job.asked(values, Units.MM).draw(
        Units.MM, recipe=RAINDROP, letters=letters
    )


# Views that are not made from a lesson yet.
SCENES = {
    "RecipeView": any_recipe,
}
KINDS = {kind.__name__: kind for kind in View.__subclasses__()}
KNOWN = {
    name: Known(KINDS[name].settings, KINDS[name].lesson, scene, KINDS[name])
    for name, scene in SCENES.items()
} | {
    lesson.__name__: Known(
        settings_of(lesson), lesson, lesson.scene, lambda key=key: view_of(key)
    )
    for key, lesson in LESSONS.items()
}
