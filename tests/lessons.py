"""All lessons, and all views not made from one yet: what laws run over; checks tried."""

import importlib
import pkgutil
import re
from collections.abc import Callable, Collection
from typing import NamedTuple

import kit.course.views
from kit.basics.units import Units
from kit.course.check import Check
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


def judges(check: Check, right: str | Collection[str], slips: Collection[str]) -> None:
    """Assert that a check takes what is right and knows each slip, telling no answer.

    `slips` are texts of unlike ideas, or lead from texts to the codes of ideas.
    """
    answers = [right] if isinstance(right, str) else right
    for text in answers:
        assert check.mark(text).right, text
    verdicts = {text: check.mark(text) for text in slips}
    for text, verdict in verdicts.items():
        assert not verdict.right, text
        for answer in answers:
            told = rf"(?<![\w.]){re.escape(answer)}(?!\.?\w)"
            assert not re.search(told, verdict.words), verdict.words
    codes = [verdict.code for verdict in verdicts.values()]
    assert all(codes)
    assert len(set(codes)) == len(codes)
    if isinstance(slips, dict):
        assert codes == list(slips.values())
    assert [check.mark(offer).right for offer in check.offers()].count(True) == 1
