"""Give your own talk: what you say at each step, and the pictures full width."""

from __future__ import annotations

import html
from dataclasses import replace
from typing import Any

import anywidget
import ipywidgets as widgets
import traitlets

from kit.basics.errors import KitError
from kit.course.anvil.class_talk import plans
from kit.course.anvil.desk import Desk
from kit.course.anvil.look import Look, title
from kit.course.anvil.sentence import short
from kit.course.views.controls import HERE, button, in_a_row
from kit.course.views.forge import Forge
from kit.course.views.said import SHOWN, Says, Text, small_print, table
from kit.section.picture import encode, seen_as
from kit.shop.recipes.talk import MOST_LETTERS, Cue

BEATS = ("ask", "say", "clay")  # in the order in which they are said
NO_TALK = (
    "No step has a question or a sentence yet: go to one, open What you say here, and "
    "write what you would say."
)
BEGIN = "Right arrow, Space or Enter goes on, Left goes back, Esc leaves."
OVER = "That was the talk."
PLAN = "The class's talk, by the clock"
GUESS = "How long each part takes is the kit's own guess: time yours."


class Words(anywidget.AnyWidget):
    """Boxes for what is said at one step, folded away until asked for.

    It sends ``{"set": "ask", "say" or "clay", "to": text}``.
    """

    _esm = HERE / "cue.js"
    _css = HERE / "talk.css"
    about = traitlets.Unicode().tag(sync=True)  # which step they are for
    words = traitlets.Dict().tag(sync=True)  # and at, of which step they are
    most = traitlets.Int(MOST_LETTERS).tag(sync=True)


class Stage(anywidget.AnyWidget):
    """One picture over the whole page, with words below it.

    It sends ``{"go": 1}``, ``{"go": -1}`` and ``{"go": 0}``, which leaves.
    """

    _esm = HERE / "talk.js"
    _css = HERE / "talk.css"
    opened = traitlets.Bool(False).tag(sync=True)
    beat = traitlets.Dict().tag(**SHOWN)  # kind, words, before, count, alt
    frame = traitlets.Bytes(b"").tag(sync=True)


class Talk(widgets.VBox):
    """The talk about the bar on a forge.

    Parameters
    ----------
    forge : Forge
        Whose bar it is.

    Attributes
    ----------
    place : int
        Which of `beats` is on the screen; -1 where no talk is given.
    """

    def __init__(self, forge: Forge) -> None:
        super().__init__()
        self.add_class("kit-view")
        self.forge = forge
        self.words, self.stage = Words(), Stage()
        self.give_button = button("Give the talk", self.begin, "kit-main")
        self.says = Says()
        self.beats: list[tuple[Cue, str]] = []
        self.place = -1
        self._given: Desk = forge.desk  # the bar of the talk that is being given
        self._painted: Cue | None = None
        self.words.on_msg(lambda _w, message, _b: self._written(message))
        self.stage.on_msg(lambda _w, message, _b: self._heard(message))
        forge.followers.append(self.follow)
        plan = Text(_plans())
        self.children = [
            self.words, in_a_row(self.give_button), self.says, plan, self.stage,
        ]  # fmt: skip
        self.follow()

    def follow(self) -> None:
        """Show what is said at the step that the forge shows."""
        desk = self.forge.desk
        cue = desk.history.cue(desk.at)
        shown = "" if cue.empty else f" It is shown so: {self._titled(cue)}."
        self.words.about = f"Step {desk.at}, {short(desk.history, desk.at)}.{shown}"
        self.words.words = {"at": desk.at} | {kind: getattr(cue, kind) for kind in BEATS}

    def write(self, kind: str, text: str) -> None:
        """Write the question (ask), the sentence (say) or the clay cue of this step.

        Words that are too long are refused with one sentence.
        """
        self.says.tried(lambda: self._write(kind, text))

    def _write(self, kind: str, text: str) -> None:
        desk = self.forge.desk
        told = desk.saying(**{kind: text})
        if told.history.talk != desk.history.talk:
            self.forge.do(told)
            self.says.tell("Kept.")

    def begin(self, _button: Any = None) -> None:
        """Show the first picture that has something to say, and its question."""
        self._given = self.forge.desk
        stages = self._given.history.stages
        self.beats = [
            (cue, kind)
            for cue in self._given.history.talk
            for kind in BEATS
            if getattr(cue, kind) and not stages[cue.stage].refused
        ]
        if not self.beats:
            self.says.tell(NO_TALK, refused=True)
            return
        self._painted = None
        self.says.tell(BEGIN)
        self._show(0)

    def go(self, way: int) -> None:
        """Go on, 1, or back, -1; on from the last leaves."""
        if self.place < 0:
            return
        if self.place + way >= len(self.beats):
            self.leave()
        else:
            self._show(max(self.place + way, 0))

    def leave(self) -> None:
        """Take the picture away."""
        self.place = -1
        self.stage.opened = False
        self.says.tell(OVER)

    def rehearse(self) -> None:
        """Write, give the talk to its end, back and on, and leave."""
        self.begin()
        for kind in BEATS:
            self.write(kind, "<b>How many?</b>")
        self.write("ask", "x" * (MOST_LETTERS + 1))  # refused
        self.begin()
        for way in (1, -1, -1, 1, 1, 1):
            self.go(way)
        self.forge.undo()

    def _show(self, place: int) -> None:
        cue, kind = self.beats[place]
        if cue != self._painted:
            desk = replace(self._given, at=cue.stage, look=Look(**dict(cue.look)))
            try:
                shown = self.forge.drawn(desk)
            except KitError as refused:
                self.leave()
                self.says.tell(str(refused), refused=True)
                return
            self.stage.frame = encode(shown.image, moving=False)
            self._alt = shown.alt + seen_as(shown.image)
            self._painted = cue
        self.place = place
        self.stage.beat = {
            "kind": kind,
            "words": getattr(cue, kind),
            "before": cue.ask if kind == "say" else "",
            "count": f"{place + 1} of {len(self.beats)}",
            "alt": self._alt,
            "last": place + 1 == len(self.beats),
        }
        self.stage.opened = True

    def _titled(self, cue: Cue) -> str:
        words = title(Look(**dict(cue.look)), self.forge.bar, self.forge.units)
        return words[0].lower() + words[1:]

    def _written(self, message: dict) -> None:
        if message.get("set") in BEATS:
            self.write(message["set"], str(message.get("to", ""))[: MOST_LETTERS + 1])

    def _heard(self, message: dict) -> None:
        way = message.get("go")
        if way == 0:
            self.leave()
        elif way in (1, -1):
            self.go(way)


def _plans() -> str:
    """Write the plans of the class's talk as tables, folded away."""
    head = ("At", "On the screen", "In clay, beside it")
    tables = (
        table(head, [(part.time, part.does, part.clay) for part in plan.parts], plan.name)
        for plan in plans()
    )
    return (
        f'<details class="kit-code kit-table"><summary>{html.escape(PLAN)}</summary>'
        f"{''.join(tables)}{small_print(GUESS)}</details>"
    )
