"""A recipe by its file, its line, or the name of a pattern."""

from pathlib import Path

from kit.basics.claim import NO_SOURCE
from kit.shop import plan_line
from kit.shop.patterns import PATTERNS, pattern
from kit.shop.recipes import shorthand
from kit.shop.recipes.recipe import Recipe, load

RECIPE = "a recipe file, the line of a card in quotes, or the name of a pattern"
RECIPE_HELP = f"{RECIPE}: {'; '.join(known.name for known in PATTERNS)}"


def recipe_of(words: str) -> Recipe:
    """Find a recipe by its file, its line, or a pattern's name.

    Raises
    ------
    KitError
        If it is none of these.
    """
    if words.endswith(".json"):
        return load(Path(words))
    if "~" in words:
        return of_line(words)
    known = pattern(words)
    made = {"name": known.name, "billet": known.forge(), "note": known.note}
    return Recipe(**made, source=NO_SOURCE)


def of_line(words: str) -> Recipe:
    """Read the line of any card: of a recipe, or of a plan, whose bar is made of it.

    Raises
    ------
    KitError
        If it is neither.
    """
    if plan_line.is_line(words):
        return Recipe(name="from a plan", billet=plan_line.from_line(words).billet)
    return Recipe(name="from a line", billet=shorthand.from_line(words))
