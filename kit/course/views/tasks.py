"""Make this: four faces to make oneself, and a judge for the bar that lies on the anvil."""

import html
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import ipywidgets as widgets

from kit.basics.errors import KitError
from kit.basics.told import in_units
from kit.basics.units import Units
from kit.course.anvil import void
from kit.course.anvil.tasks import TASKS, Judged, Task, lying
from kit.course.anvil.tasks_drawing import beside
from kit.course.views.controls import Choice, Picture, button, in_a_row
from kit.course.views.forge import Forge
from kit.course.views.said import Says, Text, small_print, table
from kit.forge.billet import Billet

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
            judged = self.task.judged(bar, void.flaws(desk.history, desk.at))
        except KitError as error:
            told = str(error)
            self.say(lambda _units: told, refused=True)
            return
        now.judged, now.bar = judged, lying(bar, judged.turned)
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
            task, now.bar, units, as_clay=self.forge.as_clay, **self.forge.looks.paper
        )
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
