"""The one base of all views: picture, controls, status line, numbers, undo, units."""

from collections.abc import Collection, Iterable
from typing import Any

import ipywidgets as widgets

from kit.basics.errors import KitError
from kit.basics.units import Units
from kit.course.as_code import as_code, call_as_code
from kit.course.lessons.base import Lesson
from kit.course.lessons.scene import Scene, aloud
from kit.course.own_bar import own_bar
from kit.course.views.controls import (
    MOST_UNDO,
    Choice,
    Code,
    Looks,
    Numbers,
    Picture,
    Slider,
    Stations,
    button,
    fold_away,
    in_a_row,
)
from kit.course.views.kept import Kept
from kit.course.views.line import Counting
from kit.course.views.said import Says, Text, numbers_panel, small_print, spoken
from kit.course.views.settings import Pick, Setting, give_way, settings_of, take_typed
from kit.forge.billet import Billet
from kit.section.half import half_as_fine, whole
from kit.section.picture import encode

State = dict[str, Any]

MOST_BLANKS = 2  # lines of a working, ours


class View(widgets.VBox):
    """A picture that answers its controls at once.

    A wish that cannot be granted is answered with one sentence; the control goes back
    and the old picture stays. A page that needs more than its lesson says has a view of
    its own.

    Parameters
    ----------
    lesson : type of Lesson
        It says what can be set, what is drawn and what is said.

    Attributes
    ----------
    job : Lesson
        The lesson as its controls stand: one object a move, so that what is drawn and
        what is said share what it has forged.
    shown : Scene
        What is on the screen.
    """

    lesson: type[Lesson]

    def __init__(self, lesson: type[Lesson]) -> None:
        super().__init__()
        self.lesson, self.name, self.cues = lesson, lesson.__name__, lesson.cues
        self.settings = settings_of(lesson)
        self.add_class("kit-view")
        self.picture = Picture()
        self.picture.on_msg(self._heard)
        self.line = Counting(self)
        self.says, self.numbers = Says(), Numbers()
        self.controls = {setting.key: self._control(setting) for setting in self.settings}
        self._good: State = {setting.key: setting.start for setting in self.settings}
        self._past: list[State] = []
        self._moved = ""  # the control that moves, until it rests
        self._opened = 0  # how often the working was asked for
        self._busy = self.locked = False
        self.typed_in: Units | None = None  # of the text being read
        self.looks = Looks(self._new_look, lesson.look)
        self.checks: list[Any] = []  # of its page: cleared with it for the next person
        self.code = Code()
        self.code.observe(self._show_code, names="opened")
        self.code.on_msg(self._read_code)
        self._own: Billet | None = None  # a bar of the reader's own, in the lesson's place
        self.main = self.controls.get(lesson.main)
        rest = [one for one in self.controls.values() if one is not self.main]
        self.panel = widgets.Box(rest)
        self.panel.add_class("kit-controls")
        head = [self.picture, self.says, self.panel]
        if self.main:
            first = widgets.Box([self.main])
            first.add_class("kit-main-control")
            self.add_class("kit-sliding")
            head = [self.picture, first, self.says, self.panel]
        self.bench = widgets.VBox(head)  # while it is in sight, so is its picture
        self.bench.add_class("kit-bench")
        self.children = [self.bench, self.code, *self._foot(), self.looks]
        self._next = self.cues[:1]
        self.refresh()
        Kept(self)
        self._furnish(lesson)

    def _furnish(self, lesson: type[Lesson]) -> None:
        """Add what only some lessons have: stations, folds, and a line of doubt."""
        fold_away(self)
        if lesson.stations:
            self.stations = Stations(self, dict(lesson.stations))
            self.stations.value = lesson.opens
            self.show_cue()
        if lesson.fine:
            self.children = [*self.children, Text(small_print(lesson.fine))]

    def draw(self, job: Lesson, *, moving: bool = False) -> Scene:
        """Draw a state, half as fine while it moves."""
        with half_as_fine() if moving else whole():
            return job.as_seen(self.units, **self.how(job), **self.looks.paper)

    def how(self, job: Lesson) -> dict[str, Any]:
        """Say what else a drawing is told; what gives an answer away, only afterwards."""
        return {"told": not self.locked}

    @property
    def units(self) -> Units:
        """How lengths are shown."""
        return self.looks.units

    @property
    def state(self) -> State:
        """The settings by key, as the controls stand."""
        fields, controls = self.lesson.model_fields, self.controls.items()
        return {key: fields[key].annotation(control.value) for key, control in controls}

    def set(self, **values: float) -> None:
        """Move controls, all at once, as one step that can be undone."""
        self._remember("")
        self.place({**self._good, **values})
        self._try("", values)

    def begin(self, state: State) -> None:
        """Show a state as the first one: there is nothing before it to go back to."""
        self.place({**self._good, **state})
        self._try("")

    @property
    def bar(self) -> Billet:
        """The bar that the bench's controls make, even while another lies on it.

        So code that begins with it does the same whenever it is run.

        Raises
        ------
        KitError
            If this picture shows no bar.
        """
        if not self._made.panels:
            msg = "This bench holds no bar to take: its picture is worked out, not forged."
            raise KitError(msg)
        return self._made.panels[0].billet

    def take(self, bar: Billet) -> None:
        """Lay a bar of one's own on the bench.

        Moving a control brings the lesson's back, and so does laying the lesson's own bar.

        Before the prediction it is not laid, and nothing is given away.

        Raises
        ------
        KitError
            If it is no bar.
        """
        if not isinstance(bar, Billet):
            msg = f"The bench takes a bar, a Billet. Given: {str(bar)[:40]}."
            raise KitError(msg)
        if self.locked:
            return  # the bench says already what to do first
        if self._made.panels and bar == self.bar:
            self.refresh()
        else:
            self._lay(bar)

    def _lay(self, bar: Billet) -> None:
        self._own = bar
        self._put(own_bar(bar, self.units, **self.looks.paper), moving=False)
        self.say(self.shown.says)
        self.line.follow()

    def undo(self, _button: Any = None) -> None:
        """Go back one step; a whole drag of a slider is one step."""
        if not self._past:
            self.say("Nothing to undo: this is where you began.")
            return
        self.place(self._past.pop())
        self._moved = ""
        self._try("")
        self.say("One step undone.")

    def reset(self, _button: Any = None) -> None:
        """Go back to the first settings; this, too, can be undone."""
        self._cue()
        self.set(**{setting.key: setting.start for setting in self.settings})
        self.say("Back to the beginning. Undo brings your settings back.")

    def lock(self, locked: bool) -> None:
        """Keep the controls shut, until a prediction was made."""
        self.locked = self.picture.shut = locked
        for one in self.buttons.children:
            one.disabled = locked
        self.show_cue()

    def afresh(self, state: State) -> None:
        """Shut the controls and show a state as at first, for the next person.

        What was set before stays in the history: once the controls are open, undo goes
        back to it.
        """
        self._remember("")
        self.lock(True)
        self._opened = 0
        self.code.opened, self.code.changed, self.code.text = False, [], ""
        self.picture.film = []
        if self.lesson.stations:
            self.stations.value = self.lesson.opens
        self._cue()
        self.begin(state)

    def play(self, states: Iterable[State]) -> None:
        """Show a short film of states and stay at the last."""
        states = list(states)
        self._remember("")
        jobs = [self.lesson.asked({**self._good, **s}, self.units) for s in states]
        film = [encode(self.draw(job, moving=True).image, moving=True) for job in jobs]
        self.place({**self._good, **states[-1]})
        self._try("")
        self.picture.film = film

    def refresh(self) -> None:
        """Draw the present state."""
        self.show(self.lesson.asked(self.state, self.units), moving=False)

    def show(self, job: Lesson, *, moving: bool, changed: str = "") -> None:
        """Draw what the controls stand at, and say something about it.

        Raises
        ------
        KitError
            If it cannot be drawn; nothing is changed then.
        """
        self._made = scene = self.draw(job, moving=moving)
        self.job, self._good, self._own = job, job.values, None
        self._put(scene, moving=moving)
        self.show_cue()
        self._show_readouts()
        remark = job.remarked(changed, self.units) if changed else ""
        self.say(remark or scene.says or scene.invites)
        if not moving:
            self.line.follow()

    def _put(self, scene: Scene, *, moving: bool) -> None:
        """Show a scene: its picture, words, numbers and, if they are open, its lines."""
        self.shown = scene
        self.line.wait()
        self.picture.lay(scene, moving=moving)
        self._show_numbers()
        self._show_code()

    def rest(self) -> None:
        """Put the clean picture in place of the quick one, once nothing moves."""
        self._moved = ""
        if self._own is None:
            self._made = self.draw(self.job)
            self._put(self._made, moving=False)
        self.line.follow()

    def say(self, words: str, *, refused: bool = False) -> None:
        """Write one sentence in the status line, which screen readers read out."""
        self.said, self.says.value = words, spoken(words, refused=refused)

    def read_out(self, _button: Any = None) -> None:
        """Put the numbers into the status line, for those who listen."""
        self.say(aloud(self.shown.numbers))

    def work_out(self, _button: Any = None) -> None:
        """Open or shut the working; each time, one line more is left to the reader."""
        self._opened += 1
        self.numbers.fold.opened = True
        self._show_numbers()

    def _show_code(self, _change: Any = None) -> None:
        if self.code.opened:
            told = [as_code(one.billet, one.surface) for one in self.shown.panels[:1]]
            self.code.tell(*told or [call_as_code(self.job)])

    def _read_code(self, _widget: Any, message: dict, _buffers: Any) -> None:
        if message.get("event") == "read":
            self.say(self.code.text)

    def _control(self, setting: Setting | Pick) -> Slider | Choice:
        key, control = setting.key, setting.control()
        if isinstance(control, Slider):
            control.on_msg(lambda _w, message, _b: take_typed(self, key, message))
        control.observe(lambda _change: self._changed(key), names="value")
        return control

    def _foot(self) -> list[widgets.Widget]:
        undo = button("Undo step (U)", self.undo, "kit-undo")
        reset = button("Reset (R)", self.reset, "kit-reset")
        self.how_button = button("How are these worked out?", self.work_out)
        self.read_button = button("Numbers in words (?)", self.read_out, "kit-read")
        self.buttons = in_a_row(undo, reset, self.how_button, self.read_button)
        return [self.numbers, self.buttons, self.looks.note]

    def _changed(self, key: str) -> None:
        if self._busy:
            return
        self._remember(key)
        self._cue(key)
        self._try(key)

    def _try(self, changed: str, meant: Collection[str] = ()) -> None:
        moved, is_meant = meant or {changed}, bool(meant or self.typed_in)
        try:
            job, gave = give_way(self, moved, meant=is_meant)
            self.show(job, moving=bool(changed), changed=changed)
            if gave:
                self.say(gave)
        except KitError as error:
            self.place(self._good)
            self.show_cue()
            self._show_readouts()
            self.say(str(error), refused=True)

    def _heard(self, _widget: Any, message: dict, _buffers: Any) -> None:
        if message.get("event") == "rest":
            self.rest()
        elif message.get("event") == "point":
            place = (float(message["x"]), float(message["y"]))
            self.say(self.shown.at(*place, self.units))

    def _new_look(self) -> None:
        self.looks.dress(self)
        for setting in self.settings:
            if isinstance(setting, Setting):
                control = self.controls[setting.key]
                control.stops = setting.stops(self.units, control.value)
        if self._own is not None:
            self._lay(self._own)
        else:
            self.refresh()

    def _remember(self, key: str) -> None:
        if not key or key != self._moved:
            self._past = [*self._past[-MOST_UNDO:], dict(self._good)]
        self._moved = key

    def place(self, state: State) -> None:
        """Set the controls, without drawing."""
        self._busy = True
        for key, value in state.items():
            self.controls[key].value = value
        self._busy = False

    def _cue(self, moved: str = "") -> None:
        """Go on to the control that the text names next; to the first if none was moved."""
        if not moved or moved in self.cues:
            place = self.cues.index(moved) + 1 if moved else 0
            self._next = self.cues[place : place + 1]

    def show_cue(self) -> None:
        """Mark the control that is next, or its station; shut those that change nothing."""
        named = () if self.locked else self._next
        idle = {} if self.locked else self.job.idle
        for key, control in self.controls.items():
            control.cue, control.why = key in named, idle.get(key, "")
            control.disabled = self.locked or key in idle
        if hasattr(self, "stations"):
            seen = (self.main, *self.panel.children)
            self.stations.cue = any(self.controls[key] not in seen for key in named)

    def _show_readouts(self) -> None:
        for setting in self.settings:
            if isinstance(setting, Setting):
                control = self.controls[setting.key]
                control.readout = setting.show(control.value, self.units)

    def _show_numbers(self) -> None:
        opened = self._opened % 2 == 1
        self.how_button.description = (
            "Hide the working" if opened else "How are these worked out?"
        )
        blanks = min(MOST_BLANKS, self._opened // 2) if opened else None
        self.numbers.value = numbers_panel(self.shown.numbers, blanks, self.units)
