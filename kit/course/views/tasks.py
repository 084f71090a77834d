"""Make this: four faces to make oneself, and a judge for the bar that lies on the anvil."""

import html
from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Any

import ipywidgets as widgets

from kit.basics.errors import KitError
from kit.basics.told import in_units
from kit.basics.units import Units
from kit.course.anvil import clay, void
from kit.course.anvil.tasks import TASKS, Judged, Task, lying
from kit.course.anvil.void import Flaws
from kit.course.lessons.scene import Panel, Scene
from kit.course.views.controls import Choice, Picture, button, in_a_row
from kit.course.views.forge import Forge
from kit.course.views.said import Says, Text, small_print, table
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
    found: Flaws = ((),),
    missed: str = "",
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
    found, missed : sequence of sequence of Flaw, str
        Welds of the bar that did not take, from `void.flaws`, and which they are.
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
        if one is bar:
            seen = void.marked(seen, one, surface, found)
        sheet.steel(seen, (left, top), None if as_clay else surface)
        sheet.scale_bar((left + 6, top + ROWS + 24), pixel, units)
        panels.append(Panel(one, surface, (left, top), seen))
    if bar is None:
        left, top = PLACES[1]
        middle = (left + COLUMNS / 2, top + ROWS / 2)
        sheet.text("none yet", middle, size=18, anchor="mm", ink=QUIET)
    shows = [f"It shows {panel.shows}." for panel in panels] + ["None yet."]
    said = f"The {task.look.kind} that is asked for. {shows[0]} Your last try. {shows[1]}"
    return Scene(
        image=sheet.image,
        alt=f"{said} {missed}".strip(),
        numbers=(),
        panels=tuple(panels),
    )


@lru_cache(maxsize=len(TASKS))
def _example(number: int) -> Billet:
    """Make the bar that is drawn, lying so that it is seen."""
    task = TASKS[number]
    bar = task.example()
    return lying(bar, task.judged(bar).turned)


HOW = (
    "A bar may lie on any of its sides. Lines are measured along the middle of a face, or "
    "of each side of a seam; any way to the same steel will do."
)
BEGIN = "Make it at the forge above, then ask: is it this?"
HINTS = ("A hint: how many layers", "A hint: what makes it", "No more hints")


@dataclass
class Tried:
    """What was done about one task so far."""

    bar: Billet | None = None
    judged: Judged | None = None
    found: Flaws = ((),)
    missed: str = ""
    hints: int = 0


class MakeThis(widgets.VBox):
    """The tasks of a forge.

    Parameters
    ----------
    forge : Forge
        The bar at the step that is looked at there is judged.
    """

    def __init__(self, forge: Forge) -> None:
        super().__init__()
        self.add_class("kit-view")
        self.add_class("kit-make-this")
        self.forge = forge
        self.tried = [Tried() for _ in TASKS]
        self.choice = Choice("Make this", [task.name for task in TASKS], value=0)
        self.picture = Picture()
        self.asked, self.measured, self.says = Text(), Text(), Says()
        self.hint_button = button(HINTS[0], self.hint)
        buttons = in_a_row(button("Is it this?", self.judge, "kit-main"), self.hint_button)
        how = Text(small_print(HOW))
        self.children = [
            self.choice, self.asked, self.picture, buttons, self.says, self.measured, how,
        ]  # fmt: skip
        self.choice.observe(lambda _change: self._open(), names="value")
        for one in (*forge.looks.choices, forge.metal):
            one.observe(lambda _change: self._new_look(), names="value")
        self._open()

    @property
    def task(self) -> Task:
        """The task that is open."""
        return TASKS[self.choice.value]

    @property
    def now(self) -> Tried:
        """What was done about it so far."""
        return self.tried[self.choice.value]

    def say(self, told: Callable[[Units], str], *, refused: bool = False) -> None:
        """Write a sentence in the status line, and again when the units are changed."""
        self._said = told
        self.says.tell(told(self.forge.units), refused=refused)

    def judge(self, _button: Any = None) -> None:
        """Judge the bar that lies on the anvil, and compare it with the last try."""
        now, desk = self.now, self.forge.desk
        before, bar = now.judged, desk.stage.bar
        try:
            judged = self.task.judged(bar, desk.flaws)
        except KitError as error:
            told = str(error)
            self.say(lambda _units: told, refused=True)
            return
        now.judged, now.bar = judged, lying(bar, judged.turned)
        now.found, now.missed = desk.flaws, void.told_of(desk.history, desk.at)
        if judged.met:
            self._say(f"This is it. {self.task.why}")
        else:
            self.say(lambda units: judged.told(before, units))
        self._show()

    def hint(self, _button: Any = None) -> None:
        """Give the next hint; there are two."""
        now = self.now
        if now.hints < len(self.task.hints):
            self._say(self.task.hints[now.hints])
            now.hints += 1
        self._show_hints()

    def rehearse(self) -> None:
        """Open every task, ask for both hints, and judge what lies on the anvil twice."""
        for number in (*range(len(TASKS)), 0):
            self.choice.value = number
            for press in (self.hint, self.hint, self.hint, self.judge, self.judge):
                press()

    def _say(self, sentence: str) -> None:
        """Say one of the task's own sentences, which stand in mm."""
        self.say(lambda units: in_units(sentence, units.fine))

    def _new_look(self) -> None:
        self.say(self._said)
        self._show()

    def _open(self) -> None:
        self._say(BEGIN)
        self._show()

    def _show(self) -> None:
        self.forge.looks.dress(self)
        now, task, units = self.now, self.task, self.forge.units
        shown = beside(
            task, now.bar, units, as_clay=self.forge.as_clay, found=now.found,
            missed=now.missed, **self.forge.looks.paper,
        )  # fmt: skip
        self.picture.lay(shown)
        asked = html.escape(in_units(task.asks, units.fine))
        self.asked.value = f'<p class="kit-ask">{asked}</p>'
        self.measured.value = self._table()
        self._show_hints()

    def _show_hints(self) -> None:
        given = self.now.hints
        self.hint_button.description = HINTS[given]
        self.hint_button.disabled = given == len(self.task.hints)

    def _table(self) -> str:
        """Write each property, what it may be, and what the last try has."""
        units, judged = self.forge.units, self.now.judged
        rows = []
        for place, wanted in enumerate(self.task.wanted):
            yours = "", ""
            if judged:
                fits = "not yet" if judged.offs[place] else "fits"
                yours = wanted.worst(judged.values[place], units), fits
            name = wanted.name.removeprefix("the ")
            rows.append((name.capitalize(), wanted.limits(units), *yours))
        head = ("Measured", "Wanted", "Your last try", "Does it fit?")
        return f'<div class="kit-table">{table(head, rows)}</div>'
