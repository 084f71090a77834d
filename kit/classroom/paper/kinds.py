"""The kinds of paper: each is declared in the file that draws it, and found by itself.

A module in this folder that has `PRINTS`, a tuple of `Kind`, is on the print room's list
and in `python -m kit paper`; nothing else has to be told of it.
"""

import importlib
import pkgutil
from collections.abc import Callable, Sequence
from functools import cache
from itertools import groupby
from pathlib import Path
from typing import NamedTuple

from PIL import Image

import kit.classroom.paper
from kit.basics.errors import KitError
from kit.basics.units import Units
from kit.classroom.paper.page import Page
from kit.course.anvil.desk import Desk
from kit.course.anvil.void import Flaws
from kit.shop import plan_line
from kit.shop.from_rack import FromRack, planned_from
from kit.shop.photograph import grey_levels
from kit.shop.plan import Plan, example
from kit.shop.rack import OnRack
from kit.shop.recipes.found import recipe_of
from kit.shop.recipes.recipe import Recipe

PLAN = "plan"  # asks for the plan of the class's bar, lesson 10
MARK_DOTS = 300  # of the longer side: 24 mm at 300 an inch
ALL = "all"  # asks for every lesson


class Asked(NamedTuple):
    """What is to be printed, beside its kind.

    Attributes
    ----------
    paper : str
        "A4" or "Letter".
    units : Units
    lesson : str
        Its number, or `ALL`.
    recipe : str, Plan or Recipe
        `PLAN`, the line of a plan or of a recipe, a file, a pattern's name; or itself.
    mark : image, optional
        The maker's own, for cards.
    rack : tuple of OnRack
        The bars one has.
    """

    paper: str = "A4"
    units: Units = Units.MM
    lesson: str = "01"
    recipe: str | Plan | Recipe = PLAN
    mark: Image.Image | None = None
    rack: tuple[OnRack, ...] = ()

    @property
    def about(self) -> Plan | Recipe:
        """What the recipe's words name; `KitError` if nothing."""
        return given(self.recipe) if isinstance(self.recipe, str) else self.recipe

    @property
    def found(self) -> Flaws:
        """Its bar's welds that did not take, as `void.flaws` gives them."""
        about = self.about
        return ((),) if isinstance(about, Plan) else Desk.of_recipe(about).flaws

    @property
    def racked(self) -> FromRack:
        """Its plan, made from its rack; `KitError` where it is of a recipe."""
        plan = self.about
        if not isinstance(plan, Plan):
            msg = (
                "Bars of a rack are chosen for a plan, which says how many pieces of which "
                "steel: give a plan's line, or the class's plan, and not a recipe."
            )
            raise KitError(msg)
        return planned_from(plan, self.rack, self.units)

    def page(self, title: str = "", *, scaled: bool = False) -> Page:
        """Begin a sheet of this paper, in these units."""
        return Page(self.paper, title, scaled=scaled, units=self.units)


class Kind(NamedTuple):
    """A kind of paper.

    Attributes
    ----------
    name, words : str
        How it is asked for, and what it is.
    pages : callable
        From `Asked` to its pages.
    of : str
        What has to be chosen: "lesson", "bar" or "" for nothing.
    own : tuple of str
        What of one's own may be handed over beside: "mark", "rack".
    counted : bool
        Whether its sheets are numbered; not those that other kinds have numbered.
    """

    name: str
    words: str
    pages: Callable[[Asked], list[Page]]
    of: str = ""
    own: tuple[str, ...] = ()
    counted: bool = True


@cache
def kinds() -> dict[str, Kind]:
    """Give every kind of paper by its name, by the alphabet; its sheets are numbered."""
    found = pkgutil.iter_modules(kit.classroom.paper.__path__)
    modules = [importlib.import_module(f"kit.classroom.paper.{one.name}") for one in found]
    every = (kind for module in modules for kind in getattr(module, "PRINTS", ()))
    return {
        kind.name: kind._replace(pages=_numbering(kind)) if kind.counted else kind
        for kind in sorted(every, key=lambda kind: kind.name)
    }


def numbered(pages: Sequence[Page], name: str = "") -> list[Page]:
    """Say on every sheet of what has several of what it is, and which.

    What says nothing of what it belongs to goes by its first title, or by a `name`.
    """
    for of, sheets in groupby(pages, key=lambda page: page.of):
        some = list(sheets)
        for which, page in enumerate(some, 1):
            if len(some) > 1:
                page.number(of or some[0].title or name, which, len(some))
    return list(pages)


def _numbering(kind: Kind) -> Callable[[Asked], list[Page]]:
    return lambda asked: numbered(kind.pages(asked), kind.words)


def own_mark(source: Path | bytes, name: str = "upload") -> Image.Image:
    """Read the picture of a maker's mark, in greys: cards are printed so.

    Refuse as `kit.shop.photograph.grey_levels` does.
    """
    levels, _reduced = grey_levels(source, name)
    image = Image.fromarray(levels)
    image.thumbnail((MARK_DOTS, MARK_DOTS))
    return image


def given(words: str) -> Plan | Recipe:
    """Find what a page is to be about: the class's plan, a plan's line, or a recipe.

    Raises
    ------
    KitError
        If it is none of these.
    """
    if words == PLAN:
        return example()
    if plan_line.is_line(words):
        return plan_line.from_line(words)
    return recipe_of(words)
