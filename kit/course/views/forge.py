"""The forge: stack, and do one thing after another, without a line of Python."""

from collections.abc import Callable
from dataclasses import replace
from time import monotonic
from typing import Any

from kit.basics.errors import KitError
from kit.course.anvil import void
from kit.course.anvil.acts import VERBS, Act, begun
from kit.course.anvil.desk import Desk, shortly
from kit.course.anvil.sentence import short
from kit.course.views import forge_lines as lines
from kit.course.views.controls import MOST_UNDO, button
from kit.course.views.forge_page import ForgePage
from kit.course.views.kept import KeptBar
from kit.course.views.settings import KINDS, Setting
from kit.forge.billet import Billet
from kit.shop.recipes.recipe import Recipe

DOUBLE = 0.5  # s, ours: so soon a second click is meant for what the first one was for
NO_MESSAGE = (KeyError, ValueError, IndexError, StopIteration)


class Forge(ForgePage):
    """A bar of one's own: its history, its picture, and the sentence of each step.

    A wish that the bar does not allow is answered with one sentence, and where something
    simple makes it possible, with a button that does that first.
    """

    def __init__(self, bar: Billet | None = None) -> None:
        super().__init__(bar)
        self._past: list[Desk] = []
        self._future: list[Desk] = []
        self._offered: tuple[tuple[Act, ...], bool] = ((), False)
        self._taken = -DOUBLE  # when an offer was taken, and what is below it moved up
        self.offer_button.on_click(self.do_first)
        self.out_button.on_click(lambda _b: self.set(self._gap, None))
        still = self._settled
        self.missed_button.on_click(still(self.miss))
        at, last = lambda: self.desk.at, lambda: len(self.desk.history.acts)
        self._shut = {  # when each button would do nothing
            button("Undo (U)", still(self.undo), "kit-undo"): lambda: not self._past,
            button("Redo", still(self.redo)): lambda: not self._future,
            button("◀ Move earlier", still(lambda _b: self.move(-1))): lambda: at() < 2,
            button("Move later ▶", still(lambda _b: self.move(1))): lambda: (
                at() in (0, last())
            ),
            button("Take this step out", still(self.take_out)): lambda: at() == 0,
            self.missed_button: lambda: not void.join_at(self.desk.history, at()),
            button("▶ Play it", self.play): lambda: at() == 0,
        }
        self.buttons.children = tuple(self._shut)
        self._listen()
        self.show(self.desk, moving=False)
        self._enable()
        KeptBar(self)

    def _settled(self, act: Callable) -> Callable:
        """Give an act that the second click of a double on an offer does not do."""
        return lambda one: monotonic() - self._taken >= DOUBLE and act(one)

    def _listen(self) -> None:
        self.strip.on_msg(lambda _w, message, _b: self._try(self._stripped, message))
        for line in (self.seen, self.sentence, self.next):
            line.on_msg(lambda w, message, _b: self._try(self._said, message, w))
        self.bars.on_msg(lambda w, message, _b: self._try(self._stacked, message, w))
        self.picture.on_msg(lambda _w, message, _b: self._try(self._heard, message))
        self.slider.observe(self._slid, names="value")
        self.slider.on_msg(lambda _w, message, _b: self._typed(message))
        self.code.observe(lambda _change: self._show_code(), names="opened")
        self.code.on_msg(lambda _w, _message, _b: self.say(self.code.text))
        for choice in (self.metal, self.ends):
            choice.observe(lambda _c: self.show(self.desk, moving=False), names="value")

    def take(self, bar: Billet) -> None:
        """Lay a bar of one's own on the anvil, with its history; it can be undone.

        Of the acts with which it begins as the bar before did, what was said stays, and
        which weld did not take.

        Raises
        ------
        KitError
            If it is no bar.
        """
        if not isinstance(bar, Billet):
            msg = f"The forge takes a bar, a Billet. Given: {str(bar)[:40]}."
            raise KitError(msg)
        if bar != self.bar:
            self.do(self.desk.with_bar(bar))
            self.strip.send({"see": True})

    def lay(self, recipe: Recipe) -> None:
        """Lay a recipe's bar on the anvil, with its talk and open welds.

        Raises
        ------
        KitError
            If it cannot be drawn; the old bar stays.
        """
        desk = replace(Desk.of_recipe(recipe), look=self.desk.look)
        if desk != self.desk:
            self.do(desk)

    def do(self, desk: Desk, *, of: str = "") -> None:
        """Show another state, as one act that can be undone.

        Parameters
        ----------
        desk : Desk
        of : str
            The gap that is being changed: a whole drag of its slider is one act.
        """
        before, moved = self.desk, self._moved
        lost = set(desk.no_longer) - set(before.no_longer) - {desk.at}
        self._moved = of
        try:
            self.show(desk, moving=True)
        except KitError:
            self._moved = moved
            raise
        if not of or of != moved:
            self._past = [*self._past[-MOST_UNDO:], before]
        self._future = []
        self._enable()
        if lost:
            at = min(lost)
            self.say(
                f"Step {at}, {short(desk.history, at)}, no longer fits; it is kept, and "
                f"not done: {desk.history.stages[at].refused}"
            )

    def undo(self, _button: Any = None) -> bool:
        """Go back one act; a whole drag of a slider is one. Tell whether there was one."""
        return self._back(
            self._past, self._future, "Nothing to undo: this is where you began."
        )

    def redo(self, _button: Any = None) -> bool:
        """Take back an undo; tell whether there was one."""
        return self._back(self._future, self._past, "Nothing to redo.")

    def add(self, name: str) -> None:
        """Do something next, with the values that a smith would begin with."""
        self._try(lambda: self._wish(name, here=False))

    def do_first(self, _button: Any = None) -> None:
        """Do what makes the refused wish possible, and then the wish."""
        acts, here = self._offered
        if not acts:
            return
        self._offered = (), False  # it is taken once
        desk = self.desk.without(self.desk.at) if here else self.desk
        self._try(lambda: self.do(desk.then(*acts)))
        self._taken = monotonic()

    def take_out(self, _button: Any = None) -> None:
        """Take the step that is looked at out of the history."""
        if self.desk.at == 0:
            self.say("The stack stays: change its bars instead.", refused=True)
        else:
            self._try(lambda: self.do(self.desk.without(self.desk.at)))

    def move(self, way: int) -> None:
        """Do the step that is looked at one place earlier, -1, or later, 1."""
        moved = self.desk.moved(self.desk.at, way)
        if moved is self.desk:
            self.say("This step cannot go further that way.", refused=True)
        else:
            self._try(lambda: self.do(moved))

    def miss(self, _button: Any = None) -> None:
        """Say that this weld did not take, or that it did."""
        if void.join_at(self.desk.history, self.desk.at):
            self._try(lambda: self.do(self.desk.toggled()))
        else:
            self.say(
                "Only a fold, or cut and stack, can be marked as a weld that did not take: "
                "go to one above.",
                refused=True,
            )

    def set(self, key: str, value: Any) -> None:
        """Fill a gap with another value.

        Parameters
        ----------
        key : str
            As "act:turn_length", "look:kind" or "stack:times".
        value : float, int, str or None
            Lengths in mm; None leaves it out.
        """
        self._try(lambda: self.do(lines.with_value(self.desk, key, value), of=key))
        if key == "look:kind":  # what is asked next is its depth, or its angle
            asked = [one for one in lines.numbers(self.desk) if one.startswith("look:")]
            if asked:
                self.pick(asked[0])

    def pick(self, key: str) -> None:
        """Bring the slider of a number, by its key (see `set`); "": the step's main one."""
        self._gap, self._moved = key, ""
        self._tell()

    def _nudge(self, way: int) -> None:
        """Move the slider by one stop, from the number in the sentence."""
        stops = self.slider.stops
        here = min(range(len(stops)), key=lambda one: abs(stops[one] - self.slider.value))
        self.slider.value = stops[min(max(here + way, 0), len(stops) - 1)]

    def _wish(self, name: str, *, here: bool) -> None:
        """Do something next, or in the place of this step; offer what must come first."""
        desk = self.desk
        if name not in VERBS:
            return
        if not (refused := desk.why_not(name, here=here)):
            self.do(desk.verb(name) if here else desk.then(begun(name, desk.stage.bar)))
        else:
            acts = desk.offers(name, here=here)
            self.say(refused, refused=True)
            self._offered = acts, here
            told = shortly(acts, desk.before if here else desk.stage.bar) if acts else ""
            self.offer_button.description = f"Do it: {told}" if acts else ""
            self.offer_button.layout.display = "" if acts else "none"

    def _try(self, answer: Callable, *given: Any) -> None:
        """Do what is asked; what cannot be is refused with one sentence."""
        try:
            answer(*given)
        except KitError as refused:
            self._tell_slider(lines.numbers(self.desk).get(self._gap))
            self.say(str(refused), refused=True)
        except NO_MESSAGE:
            pass  # nothing that a page of ours sends
        for part in given[1:]:
            part.send({"answered": True})

    def _stripped(self, message: dict) -> None:
        if "at" in message:
            desk = self.desk.goes(int(message["at"]))
            if desk.at == self.desk.at:
                self.pick("")  # its own main number
            else:
                self.do(desk)
        elif "move" in message:
            desk = self.desk.goes(int(message["move"]))
            moved = desk.moved(desk.at, 1 if message.get("way") == 1 else -1)
            if moved is not desk:
                self.do(moved)
        elif "remove" in message:
            self.do(self.desk.without(int(message["remove"])))
        elif "more" in message:
            self.draw_on()

    def _said(self, message: dict, _line: Any) -> None:
        if "pick" in message:
            self.pick(str(message["pick"]))
            if message.get("way") in (-1, 1):
                self._nudge(message["way"])
        elif message.get("set") in ("verb", "next"):
            self._wish(str(message["to"]), here=message["set"] == "verb")
        elif "set" in message:
            self.set(str(message["set"]), str(message["to"]))

    def _stacked(self, message: dict, _list: Any) -> None:
        self.do(lines.with_bars(self.desk, message, self.units, as_clay=self.as_clay))

    def _slid(self, change: dict) -> None:
        gap = lines.numbers(self.desk).get(self._gap)
        if gap is not None and not self._busy:
            value = change["new"]
            self.set(self._gap, int(value) if gap.whole else value)

    def _typed(self, message: dict) -> None:
        gap = lines.numbers(self.desk).get(self._gap)
        if gap is None:
            return
        setting = Setting(
            key=gap.key, label=gap.title, help=gap.meaning, kind=KINDS[gap.unit],
            low=gap.low, high=gap.high, step=1, start=0,
        )  # fmt: skip
        refused = setting.take(self.slider, message, self.units)
        if refused:
            self.say(refused, refused=True)

    def _heard(self, message: dict) -> None:
        if message.get("event") == "rest":
            self.rest()
        elif message.get("event") == "point":
            self.say(self.shown.at(float(message["x"]), float(message["y"]), self.units))

    def _back(self, take: list[Desk], put: list[Desk], nothing: str) -> bool:
        if not take:
            self.say(nothing)
            return False
        put.append(self.desk)
        self._moved = ""
        self.show(take.pop(), moving=True)
        self._enable()
        return True

    def _enable(self) -> None:
        """Shut the buttons that would do nothing now."""
        for one, shut in self._shut.items():
            one.disabled = shut()
