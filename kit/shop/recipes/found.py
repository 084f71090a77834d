"""A recipe by its file, its line, or the name of a pattern."""

from __future__ import annotations

from pathlib import Path

from kit.shop.patterns import PATTERNS, pattern
from kit.shop.recipes.recipe import Recipe, load
from kit.shop.recipes.shorthand import from_line

RECIPE_HELP = (
    "a recipe file (JSON), a recipe's line in quotes, or the name of a pattern: "
    + "; ".join(known.name for known in PATTERNS)
)


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
        return Recipe(name="from a line", billet=from_line(words))
    known = pattern(words)
    return Recipe(
        name=known.name, billet=known.forge(), note=known.note, source=known.source
    )
