"""What every view is made of: picture, slider, choice, buttons, spoken sentences, the bar.

The first three are what ipywidgets lacks. Each is a few lines of JavaScript beside this
file, loaded from disk: no bundler, no network. Why they exist stands at the top of each.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from pathlib import Path
from typing import Any

import anywidget
import ipywidgets as widgets
import traitlets

from kit.basics.typed import is_bare_fraction, parse_length
from kit.basics.units import Units, format_length
from kit.course.lessons.scene import Scene
from kit.course.views.said import SHOWN, Text, small_print
from kit.metal import etch
from kit.section import finish
from kit.section.picture import BIG_LETTERS, LETTERS, LOOKS, STEEL, encode, seen_as

HERE = Path(__file__).parent
MOST_UNDO = 200  # ours


class Picture(anywidget.AnyWidget):
    """A picture with alt text; shows only the newest frame.

    It sends ``{"event": "rest"}`` when frames stop coming, and ``{"event": "point",
    "x": 0…1, "y": 0…1}`` when a place is clicked or reached with the arrow keys. Where a
    line can be counted (`counts`), ``{"event": "count"}`` asks for one, or puts it away.
    """

    _esm = (HERE / "line.js").read_text("utf-8") + (HERE / "picture.js").read_text("utf-8")
    _css = HERE / "look.css"
    frame = traitlets.Bytes(b"").tag(sync=True)
    film = traitlets.List(traitlets.Bytes()).tag(sync=True)
    holds = traitlets.List(traitlets.Int()).tag(sync=True)  # ms of each picture of it
    alt = traitlets.Unicode("").tag(**SHOWN)
    counts = traitlets.Bool(False).tag(sync=True)
    shut = traitlets.Bool(False).tag(sync=True)
    line = traitlets.List(traitlets.Float()).tag(sync=True)  # x, y, x, y as shares
    counted = traitlets.Dict().tag(**SHOWN)  # see line.py
    _scene: Scene | None = None

    def lay(self, scene: Scene, *, moving: bool = False) -> None:
        """Show a scene, a quick frame of it while it moves; told once, with its words.

        While it moves nobody can read them: they are sent once it rests.
        """
        self._scene = scene
        self._trait_values.pop("alt", None)  # made anew by `_told`, if it is asked for
        with self.hold_sync(), self.hold_trait_notifications():
            self.frame = encode(scene.image, moving=moving)
            if not moving:
                self.alt = self._told()

    @traitlets.default("alt")
    def _told(self) -> str:
        scene = self._scene
        return "" if scene is None else scene.alt + seen_as(scene.image)


class Slider(anywidget.AnyWidget):
    """A named slider with its own stops, and a box to type an exact value in.

    It sends ``{"typed": text}`` when something was typed.
    """

    _esm = HERE / "slider.js"
    label = traitlets.Unicode().tag(**SHOWN)
    help = traitlets.Unicode().tag(**SHOWN)
    stops = traitlets.List(traitlets.Float()).tag(sync=True)
    value = traitlets.Float().tag(sync=True, echo_update=False)  # its page has it already
    readout = traitlets.Unicode().tag(sync=True)
    disabled = traitlets.Bool(False).tag(sync=True)
    why = traitlets.Unicode("").tag(**SHOWN)  # it is shut
    cue = traitlets.Bool(False).tag(sync=True)


class Code(anywidget.AnyWidget):
    """The lines of code that make what is shown, folded away until asked for.

    It sends ``{"event": "read"}`` when they are to be read out.
    """

    _esm = HERE / "code.js"
    text = traitlets.Unicode("").tag(sync=True)
    changed = traitlets.List(traitlets.Int()).tag(sync=True)
    opened = traitlets.Bool(False).tag(sync=True)

    def tell(self, text: str) -> None:
        """Show other lines, those marked that were not there before."""
        if text == self.text:
            return
        before = set(self.text.splitlines())
        lines = text.splitlines()
        marked = [number for number, line in enumerate(lines) if line not in before]
        self.changed = marked if before else []
        self.text = text


class Choice(anywidget.AnyWidget):
    """One of several, as a radio group; with pictures, as tiles. -1: none yet.

    The arrow keys choose what they come to. Where every choice is a try (`weighed`) they
    only look, and Space or Enter chooses.
    """

    _esm = HERE / "choice.js"
    _css = HERE / "look.css"
    label = traitlets.Unicode().tag(**SHOWN)
    options = traitlets.List(traitlets.Unicode()).tag(**SHOWN)
    pictures = traitlets.List(traitlets.Bytes()).tag(sync=True)
    alts = traitlets.List(traitlets.Unicode()).tag(**SHOWN)
    value = traitlets.Int(-1).tag(sync=True)
    weighed = traitlets.Bool(False).tag(sync=True)
    disabled = traitlets.Bool(False).tag(sync=True)
    why = traitlets.Unicode("").tag(**SHOWN)  # it is shut
    cue = traitlets.Bool(False).tag(sync=True)

    def __init__(self, label: str, options: list[str], **more: Any) -> None:
        super().__init__(label=label, options=options, **more)
        self.add_class("kit-one-of-several")


class Stations(Choice):
    """Shows the controls of one station at a time, in the anvil's working order.

    Parameters
    ----------
    view : View
        It gets the choice above its controls.
    stations : dict
        From a station's name to the keys of its controls.
    """

    def __init__(self, view: Any, stations: dict[str, tuple[str, ...]]) -> None:
        super().__init__("Controls for", list(stations), value=0)
        self._view, self._keys = view, list(stations.values())
        self._above = Text('<p class="kit-fine">Its slider is below the picture.</p>')
        self.observe(self._go, names="value")
        _insert(view, 0, self)
        self._go()

    def _go(self, _change: Any = None) -> None:
        """Lay out the controls of the chosen station."""
        view = self._view
        asked = [view.controls[key] for key in self._keys[self.value]]
        rest = [one for one in asked if one is not view.main]
        view.panel.children = rest or [self._above]
        view.show_cue()
        said = view.job.turned_to(self.options[self.value], view.units)
        if said:
            view.say(said)
        elif "kit-refused" in view.says.value:  # it spoke of a control left behind
            view.say(view.shown.says or view.shown.invites)


class Fold(anywidget.AnyWidget):
    """A button that opens and shuts what stands after it in its box.

    `page` says which looks the page around it has, and has not.
    """

    _esm = HERE / "folding.js"
    label = traitlets.Unicode().tag(**SHOWN)
    opened = traitlets.Bool(False).tag(sync=True)
    page = traitlets.Dict().tag(sync=True)


class Folding(widgets.Box):
    """Parts of a page below a button that opens and shuts them.

    Attributes
    ----------
    fold : Fold
        Whether it is open, and what the button says.
    """

    def __init__(
        self, label: str, parts: Iterable[widgets.Widget], *, opened: bool = False
    ) -> None:
        self.fold = Fold(label=label, opened=opened)
        super().__init__()
        self.hold(parts)
        self.add_class("kit-folding")

    def hold(self, parts: Iterable[widgets.Widget]) -> None:
        """Put other parts below the button."""
        self.children = [self.fold, *parts]


def fold_away(view: Any) -> None:
    """Put the controls that a view's lesson has behind folds there, below the others."""
    for name, keys in view.lesson.behind.items():
        held = widgets.Box([view.controls[key] for key in keys])
        held.add_class("kit-controls")
        rest = [one for one in view.panel.children if one not in held.children]
        view.panel.children = rest
        _insert(view, 1, Folding(name, [held]))


def _insert(view: Any, after: int, part: widgets.Widget) -> None:
    """Put a part on a view's bench, before its panel or after it."""
    on_it = view.bench.children
    place = on_it.index(view.panel) + after
    view.bench.children = [*on_it[:place], part, *on_it[place:]]


class Numbers(Folding):
    """The numbers panel, open at first: often they are the point."""

    def __init__(self) -> None:
        self._shown = Text()
        super().__init__("Numbers", [self._shown], opened=True)

    @property
    def value(self) -> str:
        """What is written in it, as HTML."""
        return self._shown.value

    @value.setter
    def value(self, words: str) -> None:
        self._shown.value = words


def as_inches(text: str, units: Units) -> str:
    """Say that a bare fraction was read as one of an inch, on a page in mm; or nothing."""
    if units is not Units.MM or not is_bare_fraction(text):
        return ""
    mm = format_length(parse_length(text))
    return f"{text.strip()} is a fraction of an inch here: {mm}."


def blank(
    label: str, hint: str = "", wide: str = "100%", named: str = "", **more: Any
) -> widgets.Text:
    """Give a line to type on; `wide` is how wide it is, `named` its label, as CSS says."""
    style = {"description_width": named} if named else {}
    return widgets.Text(
        description=label, placeholder=hint, layout={"width": wide}, style=style, **more
    )


def every_option(choices: Iterable[widgets.Widget]) -> None:
    """Choose each option once, the first one last; what has no options is left alone."""
    for choice in choices:
        for option in reversed(range(len(getattr(choice, "options", ())))):
            choice.value = option


def button(words: str, press: Any, *classes: str) -> widgets.Button:
    """Make a button that calls `press`, if it is there yet, with CSS classes."""
    made = widgets.Button(description=words)
    if press:
        made.on_click(press)
    for name in classes:
        made.add_class(name)
    return made


def in_a_row(*parts: widgets.Widget) -> widgets.Box:
    """Lay buttons, and boxes that belong to them, in a row."""
    row = widgets.Box(list(parts))
    row.add_class("kit-row-of-buttons")
    return row


class Looks(Folding):
    """What is the same in all views.

    Parameters
    ----------
    changed : callable
        Called, without arguments, when one of them was changed.
    look : str, optional
        What steel is shown as at first, "layers" or "steel"; left out, none is shown.
    """

    def __init__(self, changed: Callable[[], None], look: str = "") -> None:
        self.unit_choice = Choice("Lengths in", [unit.value for unit in Units], value=0)
        self.light_choice = Choice("Light", ["indoors", "sunlight"], value=0)
        self.type_choice = Choice("Text size", ["normal", "big"], value=0)
        self.choices = (self.unit_choice, self.light_choice, self.type_choice)
        if look:
            self.look_choice = Choice("Steel as", list(LOOKS), value=LOOKS.index(look))
            self.choices = (*self.choices, self.look_choice)
            self.look_choice.observe(lambda _change: self._note(look), names="value")
        self.note = Text()
        self._note(look)
        for choice in self.choices:
            choice.observe(lambda _change: changed(), names="value")
        named = "Units, light, text size" + ", steel" * bool(look)
        super().__init__(named, self.choices)
        self.add_class("kit-bar")

    def _note(self, look: str) -> None:
        """Say below the picture what is guessed: of etched steel only where it is shown."""
        etched = finish.ILLUSTRATIVE if look and self.look == STEEL else ""
        self.note.value = small_print(etch.ILLUSTRATIVE, etched)

    def follow(self, other: Looks) -> None:
        """Keep the same units, light and text size as another bar on the same page."""
        for own, its in zip(self.choices, other.choices, strict=True):
            traitlets.link((its, "value"), (own, "value"))

    def dress(self, page: widgets.Widget) -> None:
        """Give a page the look that is chosen: sunlight, big text."""
        self.fold.page = {"kit-sunlight": self.sunlit, "kit-big": self.big}
        for name, on in self.fold.page.items():
            (page.add_class if on else page.remove_class)(name)

    @property
    def units(self) -> Units:
        """How lengths are shown."""
        return list(Units)[self.unit_choice.value]

    @property
    def sunlit(self) -> bool:
        """White paper and black ink, for outdoors."""
        return self.light_choice.value == 1

    @property
    def big(self) -> bool:
        """Big type, for a table."""
        return self.type_choice.value == 1

    @property
    def letters(self) -> int:
        """How high words in pictures are at least, pixels."""
        return BIG_LETTERS if self.big else LETTERS

    @property
    def look(self) -> str:
        """What steel is shown as."""
        return LOOKS[self.look_choice.value]

    @property
    def paper(self) -> dict[str, Any]:
        """What pictures are told of it."""
        look = {"look": self.look} if hasattr(self, "look_choice") else {}
        return {"sunlit": self.sunlit, "letters": self.letters, **look}
