"""`python -m kit paper`: pages to print at true size."""

from __future__ import annotations

import argparse
import importlib
from collections.abc import Callable
from typing import TYPE_CHECKING

from kit.command import parts
from kit.errors import KitError
from kit.planning import line as plan_line
from kit.planning.compare import example
from kit.planning.plan import Plan
from kit.progress import Progress

if TYPE_CHECKING:
    from kit.planning.plan import Plan
    from kit.recipes.recipe import Recipe

PLAN = "plan"  # asks for the plan of the class's bar, lesson 10
ALL = "all"  # asks for every lesson
Maker = Callable[[argparse.Namespace], list]


def _pages(module: str, name: str) -> Callable[..., list]:
    """Fetch a maker of pages when it is asked for: matplotlib takes a second."""
    return getattr(importlib.import_module(f"kit.paper.{module}"), name)


def _plain(module: str, name: str) -> Maker:
    return lambda options: _pages(module, name)(paper=options.paper)


def _in_units(module: str, name: str) -> Maker:
    def made(options: argparse.Namespace) -> list:
        units = parts.UNITS[options.units]
        return _pages(module, name)(paper=options.paper, units=units)

    return made


def _of_recipe(module: str, name: str, *, units: bool = True) -> Maker:
    def made(options: argparse.Namespace) -> list:
        more = {"units": parts.UNITS[options.units]} if units else {}
        return _pages(module, name)(given(options.recipe), paper=options.paper, **more)

    return made


def _of_lesson(module: str, name: str) -> Maker:
    def made(options: argparse.Namespace) -> list:
        number = "" if options.lesson == ALL else options.lesson
        return _pages(module, name)(paper=options.paper, number=number)

    return made


def _handout(options: argparse.Namespace) -> list:
    from kit.paper.handout import LESSONS, answers, handout  # noqa: PLC0415

    numbers = LESSONS if options.lesson == ALL else [options.lesson]
    sides = [page for one in numbers for page in handout(one, options.paper)]
    return [*sides, *(page for one in numbers for page in answers(one, options.paper))]


def _drawings(options: argparse.Namespace) -> list:
    units = parts.UNITS[options.units]
    asked = given(options.recipe)
    laid = _pages("drawings", "drawings")(asked, options.paper, units)
    if not isinstance(asked, Plan):  # a recipe has its own pages only
        return laid
    return [*laid, *_pages("blade_lines", "blade_lines")(options.paper, units)]


KINDS: dict[str, tuple[str, Maker]] = {
    "handout": ("a lesson's two sides, and its answers apart", _handout),
    "wall": ("a lesson for the wall, large", _of_lesson("wall", "wall_copy")),
    "instructor": (
        "plans of 45 minutes, votes, slips; with all lessons the risk assessment, too",
        _of_lesson("instructor", "instructor_pack"),
    ),
    "risk": ("a risk assessment to edit", _plain("risk", "risk_assessment")),
    "card": ("a recipe card that loads again", _of_recipe("card", "card")),
    "drawings": ("bar, twist marks, dimples, rungs, blades: true size", _drawings),
    "measured": (
        "predicted, measured, why?",
        _of_recipe("measured", "measured_sheet"),
    ),
    "care": (
        "care cards, four to a sheet",
        _of_recipe("care", "care_cards", units=False),
    ),
    "votes": ("cards A to D to hold up", _plain("small", "vote_cards")),
    "eye-chart": ("how fine can your eye split lines?", _plain("small", "eye_chart")),
    "clay": (
        "the clay twin: sheets, guide sticks, wedges",
        _in_units("small", "clay_template"),
    ),
    "flip-book": ("a twisted bar in 24 depths", _in_units("flip", "flip_book")),
    "before-show": ("what to check before a show", _plain("before_show", "before_show")),
}


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
    return parts.recipe_of(words)


def add(parser: argparse.ArgumentParser) -> None:
    """Declare what can be asked for."""
    told = "; ".join(f"{name}: {words}" for name, (words, _) in KINDS.items())
    parser.add_argument("kind", help=told)
    parser.add_argument("--out", required=True, metavar="FILE.pdf")
    parser.add_argument(
        "--lesson",
        default="01",
        metavar="01",
        help=f"of handout, wall, instructor; '{ALL}' for every one",
    )
    parser.add_argument(
        "--recipe",
        default=PLAN,
        help=f"of card, drawings, measured, care: '{PLAN}' (that of the class), a plan's "
        f"line in quotes, {parts.RECIPE_HELP}",
    )
    parser.add_argument("--paper", choices=("A4", "Letter"), default="A4")
    parser.add_argument("--units", choices=parts.UNITS, default="mm")


def run(options: argparse.Namespace) -> str:
    """Draw and bind the pages."""
    if options.kind not in KINDS:
        msg = f"I can not print {options.kind[:30]!r}. I can print: {', '.join(KINDS)}."
        raise KitError(msg)
    if not options.lesson.strip():
        msg = f"Name a lesson by its number, such as 01, or '{ALL}'. Given: nothing."
        raise KitError(msg)
    path = parts.target(options.out, (".pdf",))
    words, draw = KINDS[options.kind]
    pages = draw(options)
    from kit.paper.book import bind  # noqa: PLC0415

    bind(pages, path, words, Progress(options.kind))
    return f"{path}: {len(pages)} page(s), {options.paper}. Print at 100 %."
