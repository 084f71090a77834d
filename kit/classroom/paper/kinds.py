"""The kinds of paper, each with its words and what makes its pages."""

from __future__ import annotations

import importlib
from collections.abc import Callable
from typing import NamedTuple

from kit.basics.units import Units
from kit.forge.recipes.found import recipe_of
from kit.forge.recipes.recipe import Recipe
from kit.shop import plan_line
from kit.shop.plan import Plan, example

PLAN = "plan"  # asks for the plan of the class's bar, lesson 10
ALL = "all"  # asks for every lesson


class Asked(NamedTuple):
    """What is to be printed, beside its kind."""

    paper: str = "A4"
    units: Units = Units.MM
    lesson: str = "01"
    recipe: str = PLAN


Maker = Callable[[Asked], list]


def _pages(module: str, name: str) -> Callable[..., list]:
    """Fetch a maker of pages when it is asked for: matplotlib takes a second."""
    return getattr(importlib.import_module(f"kit.classroom.paper.{module}"), name)


def _plain(module: str, name: str) -> Maker:
    return lambda asked: _pages(module, name)(paper=asked.paper)


def _in_units(module: str, name: str) -> Maker:
    def made(asked: Asked) -> list:
        units = asked.units
        return _pages(module, name)(paper=asked.paper, units=units)

    return made


def _of_recipe(module: str, name: str, *, units: bool = True) -> Maker:
    def made(asked: Asked) -> list:
        more = {"units": asked.units} if units else {}
        return _pages(module, name)(given(asked.recipe), paper=asked.paper, **more)

    return made


def _of_lesson(module: str, name: str) -> Maker:
    def made(asked: Asked) -> list:
        number = "" if asked.lesson == ALL else asked.lesson
        return _pages(module, name)(paper=asked.paper, number=number)

    return made


def _handout(asked: Asked) -> list:
    from kit.classroom.paper.handout import LESSONS, answers, handout  # noqa: PLC0415

    numbers = LESSONS if asked.lesson == ALL else [asked.lesson]
    sides = [page for one in numbers for page in handout(one, asked.paper)]
    return [*sides, *(page for one in numbers for page in answers(one, asked.paper))]


def _drawings(asked: Asked) -> list:
    units = asked.units
    about = given(asked.recipe)
    laid = _pages("drawings", "drawings")(about, asked.paper, units)
    if not isinstance(about, Plan):  # a recipe has its own pages only
        return laid
    return [*laid, *_pages("blade_lines", "blade_lines")(asked.paper, units)]


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
    return recipe_of(words)
