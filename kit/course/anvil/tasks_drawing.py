"""A face that is asked for, and the reader's own beside it, at one scale."""

from dataclasses import replace
from functools import lru_cache
from typing import Any

from kit.basics.units import Units
from kit.course.anvil import clay
from kit.course.anvil.tasks import TASKS, Task, lying
from kit.course.lessons.scene import Panel, Scene
from kit.forge.billet import Billet
from kit.metal import etch
from kit.section.picture import GHOST, QUIET, Sheet
from kit.section.trace import see

SHEET = (1000, 246)  # pixels
PLACES = ((12, 32), (516, 32))  # left and top of the two
COLUMNS, ROWS = 472, 176
WORDS = ("Asked for", "Your last try")


def beside(
    task: Task,
    bar: Billet | None,
    units: Units = Units.MM,
    *,
    as_clay: bool = False,
    **paper: Any,
) -> Scene:
    """Draw what is asked for, and beside it a bar, as it lies.

    Parameters
    ----------
    task : Task
    bar : Billet, optional
        Left out, an empty place is drawn.
    units : Units
    as_clay : bool
        Whether the metals are shown as clay.
    **paper
        As of `kit.section.picture.Sheet`.
    """
    sheet = Sheet(*SHEET, **paper)
    bars = [one for one in (_example(TASKS.index(task)), bar) if one is not None]
    planes = [task.look.plane(one, COLUMNS, ROWS) for one in bars]
    pixel = max(plane.pixel for plane in planes)
    panels = []
    for (left, top), words in zip(PLACES, WORDS, strict=True):
        sheet.above((left, top), words)
        sheet.box((left, top), (left + COLUMNS, top + ROWS), ink=GHOST)
    for one, plane, (left, top) in zip(bars, planes, PLACES, strict=False):
        surface = replace(plane, pixel=pixel)
        seen = see(one, surface, (clay if as_clay else etch).tones(one.source.steels))
        sheet.steel(seen, (left, top), None if as_clay else surface)
        sheet.scale_bar((left + 6, top + ROWS + 24), pixel, units)
        panels.append(Panel(one, surface, (left, top), seen))
    if bar is None:
        left, top = PLACES[1]
        middle = (left + COLUMNS / 2, top + ROWS / 2)
        sheet.text("none yet", middle, size=18, anchor="mm", ink=QUIET)
    shows = [f"It shows {panel.shows}." for panel in panels] + ["None yet."]
    return Scene(
        image=sheet.image,
        alt=f"The {task.look.kind} that is asked for. {shows[0]} Your last try. {shows[1]}",
        numbers=(),
        panels=tuple(panels),
    )


@lru_cache(maxsize=len(TASKS))
def _example(number: int) -> Billet:
    """Make the bar that is drawn, lying so that it is seen."""
    task = TASKS[number]
    bar = task.example()
    return lying(bar, task.judged(bar).turned)
