"""The print room: pages at true size, films and posters, from a notebook."""

from __future__ import annotations

from pathlib import Path

import ipywidgets as widgets

from kit.basics.units import UNITS
from kit.classroom.film import Film, Grinding, poster, write
from kit.classroom.paper.handout import LESSONS
from kit.classroom.paper.kinds import ALL, PLAN, Asked, kinds
from kit.classroom.paper.page import PAPERS, bind
from kit.course.views.controls import Choice
from kit.course.views.making import Make, Making, Progress
from kit.forge.patterns import PATTERNS
from kit.section.surface import shown_at

NAMED = ("mm", "in")
FILMS = ("a forging, step by step", "ground deeper and deeper")
POSTERS = {"A4": (2480, 1754), "A3": (3508, 2480), "A2": (4960, 3508)}  # 300 dots an inch


def pages() -> Making:
    """Make pages to print: what, on which paper, in which units, about what."""
    known = list(kinds().values())
    first = next(at for at, kind in enumerate(known) if kind.name == "handout")
    lessons = [*LESSONS, ALL]
    recipes = [PLAN, *(pattern.name for pattern in PATTERNS)]
    choices = (
        Choice("Print", [f"{kind.name}: {kind.words}" for kind in known], value=first),
        Choice("Paper", list(PAPERS), value=0),
        Choice("Lengths in", list(NAMED), value=0),
        Choice("Of lesson, where there is one", lessons, value=0),
        Choice(
            "Of recipe, where there is one",
            ["the class's plan, lesson 10", *recipes[1:]],
            value=0,
        ),
        widgets.Text(
            description="Or your own:",
            placeholder="a recipe file, or the line of a recipe or of a plan",
            continuous_update=False,
            layout={"width": "100%"},
        ),
    )

    def make(kind: int, paper: int, units: int, lesson: int, recipe: int, own: str) -> Make:
        asked = Asked(
            paper=list(PAPERS)[paper],
            units=UNITS[NAMED[units]],
            lesson=lessons[lesson],
            recipe=own.strip() or recipes[recipe],
        )

        def work(path: Path, progress: Progress) -> Path:
            return bind(known[kind].pages(asked), path, known[kind].words, progress)

        return work

    return Making(choices, lambda kind, *_rest: f"{known[kind].name}.pdf", make)


def films() -> Making:
    """Make a looped film of a named pattern, as a GIF."""
    choices = (
        Choice("Pattern", [pattern.name for pattern in PATTERNS], value=1),
        Choice("Film", list(FILMS), value=1),
    )

    def make(pattern: int, kind: int) -> Make:
        def work(path: Path, progress: Progress) -> Path:
            billet = PATTERNS[pattern].forge()
            size = {"columns": 640, "rows": 360}
            frames = Film(billet, **size) if kind == 0 else Grinding(billet, **size)
            return write(frames, path, progress=progress)

        return work

    return Making(choices, lambda pattern, _kind: f"{_file(pattern)}.gif", make)


def posters() -> Making:
    """Make a face large enough for the wall."""
    choices = (
        Choice("Pattern", [pattern.name for pattern in PATTERNS], value=2),
        Choice("Size", list(POSTERS), value=0),
    )

    def make(pattern: int, size: int) -> Make:
        def work(path: Path, progress: Progress) -> Path:
            known = PATTERNS[pattern]
            billet = known.forge()
            face = shown_at(billet, known.shown, *list(POSTERS.values())[size])
            return poster(billet, face, path, progress)

        return work

    return Making(choices, lambda pattern, _size: f"{_file(pattern)}.png", make)


def _file(pattern: int) -> str:
    return PATTERNS[pattern].name.replace(" ", "-").replace(",", "")


def room() -> tuple[Making, Making, Making]:
    """Give the three parts of the print room."""
    return pages(), films(), posters()
