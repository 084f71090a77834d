"""The tasks of a homework paper on the screen: a part, and a design that is forged."""

import html
from collections.abc import Callable, Mapping
from typing import Any

import ipywidgets as widgets
from pydantic.fields import FieldInfo

from kit.basics.declare import allowed_range
from kit.basics.errors import KitError
from kit.basics.told import in_units
from kit.classroom.homework.paper import Paper
from kit.classroom.homework.sitting import Sitting
from kit.classroom.homework.tasks import NAMED, Design, Part
from kit.course.check import RIGHT
from kit.course.views.controls import Choice, Slider, as_inches, button, in_a_row
from kit.course.views.said import Says, Text, spoken
from kit.course.views.settings import Pick, Setting, declared

MEASURED = 0  # of the ways to a length


def asked(words: str) -> widgets.HTML:
    """Write a question."""
    return Text(f'<p class="kit-ask">{html.escape(words)}</p>')


def on_enter(box: widgets.Text, work: Callable[[], None]) -> None:
    """Do some work when Enter is pressed in a box, and not when it is only left."""

    def heard(_box: widgets.Text, content: dict, _buffers: list) -> None:
        if content.get("event") == "submit":
            work()

    box.on_msg(heard)


class PartRow(widgets.VBox):
    """One part: the question, a box or choices for the answer, what the kit says to it.

    Parameters
    ----------
    sitting : Sitting
    part : Part
    told : callable
        Called after every answer that counted.
    """

    def __init__(self, sitting: Sitting, part: Part, told: Callable[[], None]) -> None:
        super().__init__()
        self.add_class("kit-check")
        self.sitting, self.part, self._told = sitting, part, told
        self.ask, self.says = asked(""), Says()
        self.answer = widgets.Text(
            description=f"Answer {part.number}:", continuous_update=False
        )
        self.answer.observe(self.mark, names="value")
        self.send_button = button("Check my answer", self.mark, "kit-main")
        self.ruler = Choice("How did you get it?", ["read off a ruler", "worked out"])
        self.ruler.observe(self._unsure, names="value")
        named = f"Answer {part.number}"
        self.offered = Choice(named, list(part.options), weighed=True)
        self.offered.add_class("kit-answer")
        self.offered.observe(self._picked, names="value")
        self._marked: tuple[str, int] | None = None
        self._verdict = ""
        row = in_a_row(self.answer, self.send_button)
        lanes = [self.ruler] if part.is_length else []
        middle = [self.offered] if part.options else [*lanes, row]
        self.children = [self.ask, *middle, self.says]
        self.show()

    def show(self) -> None:
        """Write the question in the units of the page."""
        words = self.part.ask(self.sitting.paper.values, self.sitting.units)
        self.ask.value = asked(f"{self.part.number}. {words}").value

    def mark(self, _change: Any = None) -> None:
        """Mark what was typed; the same answer twice is one try."""
        typed = self.answer.value, self.ruler.value
        if not typed[0].strip():
            self.says.value = spoken("Nothing is typed yet.", refused=True)
        elif typed != self._marked:
            self._marked = typed
            self._mark(typed[0], measured=typed[1] == MEASURED)
        else:
            self._say(self._verdict)

    def _picked(self, change: dict) -> None:
        if change["new"] >= 0:
            self._mark(str(change["new"] + 1))

    def _mark(self, text: str, *, measured: bool = False) -> None:
        try:
            marked = self.sitting.answer(self.part.number, text, measured=measured)
        except KitError as refused:
            self._say(spoken(str(refused), refused=True))
            return
        sign = "✓ " if marked.right else "✗ "
        note = ""
        if self.part.is_length:
            note = f" {as_inches(text, self.sitting.units)}".rstrip()
        self._say(spoken(sign + marked.words + note))
        self._told()

    def _say(self, words: str) -> None:
        """Write a verdict, anew also if it is the same: the page may have taken it back."""
        self._verdict = words
        self.says.value = ""
        self.says.value = words

    def _unsure(self, _change: Any) -> None:
        """Take back a verdict on an answer that was got in another way."""
        if self._marked is not None and self._marked[1] != self.ruler.value:
            self.says.value = spoken("Not checked yet. Press Check my answer.")

    def restore(self) -> None:
        """Show how the part stands in a draft that was opened again."""
        found = self.sitting.results.get(self.part.number)
        if found is None:
            return
        if not self.part.options:
            self._marked = found.text, self.ruler.value  # to show it is no new try
            self.answer.value = found.text
        told = "✓ Answered right" if found.mark else "✗ Not yet right"
        told = f"{told}, from your draft."
        if found.found.outcome == RIGHT:  # not of a carried value: it would give that away
            why = self.part.why(self.sitting.paper.values)
            told = f"{told} {in_units(why, self.sitting.units)}"
        self._say(spoken(told))


MOST_NAMED = 9  # ours


def setting_of(owner: type, key: str) -> Setting | Pick:
    """Make a control of a number that a design declares; of named ones, a choice."""
    field: FieldInfo = owner.model_fields[key]
    names = NAMED.findall(field.description or "")
    if len(names) > 1 and all(int(number) < MOST_NAMED for number, _ in names):
        low = int(names[0][0])
        start = int(field.default) - low
        options = tuple(words for _, words in names)
        return Pick(key=key, label=str(field.title), options=options, start=start)
    unit = (field.json_schema_extra or {}).get("unit", "")
    low, high = allowed_range(field)
    if field.annotation is int or unit == "":
        step = 1.0
    else:
        step = next(s for s in (0.01, 0.1, 0.5, 1, 5) if (high - low) / s <= 400 or s == 5)
    more = {}
    if low > 0 and high / low > 1000:  # 0.1 to 2000 minutes: by ratios
        more["all_stops"] = tuple(
            float(f"{low * (high / low) ** (part / 120):.3g}") for part in range(121)
        )
    return declared(owner, key, step, **more)


class DesignBox(widgets.VBox):
    """A design task: controls, *Forge it*, and what became of it."""

    def __init__(self, sitting: Sitting, told: Callable[[], None]) -> None:
        super().__init__()
        self.add_class("kit-check")
        self.sitting, self._told = sitting, told
        design: Design = sitting.paper.homework.design
        self.ask, self.says, self.picture = asked(""), Says(), Text()
        self.picture.add_class("kit-as-above")
        self.settings = [
            setting_of(design.choices, key) for key in design.choices.model_fields
        ]
        self.controls: Mapping[str, Slider | Choice] = {
            setting.key: setting.control() for setting in self.settings
        }
        for setting in self.settings:
            if isinstance(setting, Setting):
                self._wire(setting)
        for control in self.controls.values():
            control.observe(self._changed, names="value")
        panel = widgets.Box(list(self.controls.values()))
        panel.add_class("kit-controls")
        self.make_button = button("Forge it and measure", self.make, "kit-main")
        row = in_a_row(self.make_button)
        self.children = [self.ask, panel, row, self.says, self.picture]
        self.show()

    def _wire(self, setting: Setting) -> None:
        control = self.controls[setting.key]

        def typed(_widget: Any, message: dict, _buffers: Any) -> None:
            refused = setting.take(control, message, self.sitting.units)
            if refused:
                self.says.value = spoken(refused, refused=True)

        control.on_msg(typed)
        control.observe(lambda _change: self._read_out(setting), names="value")

    def _read_out(self, setting: Setting) -> None:
        control = self.controls[setting.key]
        control.readout = setting.show(control.value, self.sitting.units)

    def show(self) -> None:
        """Write question and controls in the units of the page."""
        paper: Paper = self.sitting.paper
        design = paper.homework.design
        words = design.ask(paper.values, self.sitting.units)
        self.ask.value = asked(f"{design.title}. {words}").value
        for setting in self.settings:
            if isinstance(setting, Pick):
                continue
            control = self.controls[setting.key]
            control.stops = setting.stops(self.sitting.units, control.value)
            self._read_out(setting)

    def _changed(self, _change: Any) -> None:
        """Take back what was said of another design."""
        if self.says.value:
            self.says.value = spoken("Changed since. Forge it, and see.")
            self.picture.value = ""

    def make(self, _button: Any = None) -> None:
        """Forge what the controls say."""
        chosen = {
            key: control.value + self._lowest(key) for key, control in self.controls.items()
        }
        judged = self.sitting.make(chosen)
        sign = "✓ It meets the brief: " if judged.passed else "✗ Not yet: "
        self.says.value = spoken(sign + judged.reason)
        paper, units = self.sitting.paper, self.sitting.units
        made = paper.homework.design.picture(paper.values, chosen, units)
        self.picture.value = made._repr_html_() if made else ""
        self._told()

    def _lowest(self, key: str) -> int:
        """Give the number that a choice's first name stands for; 0 for a slider."""
        if not isinstance(self.controls[key], Choice):
            return 0
        field = self.sitting.paper.homework.design.choices.model_fields[key]
        return int(allowed_range(field)[0])

    def restore(self, chosen: Mapping[str, float]) -> None:
        """Set the controls as in a draft, and forge it."""
        for key, value in chosen.items():
            if key in self.controls:
                control = self.controls[key]
                whole = isinstance(control, Choice)
                control.value = int(value) - self._lowest(key) if whole else float(value)
        if chosen:
            self.make()
