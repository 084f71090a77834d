"""Give your own talk: what you say at each step, and the pictures full width."""

import html
from dataclasses import replace
from typing import Any

import anywidget
import ipywidgets as widgets
import traitlets

from kit.basics.errors import KitError
from kit.basics.files import address_of
from kit.course.anvil.class_talk import plans
from kit.course.anvil.look import COLUMNS, ROWS, Look, title
from kit.course.anvil.sentence import short
from kit.course.lessons.scene import Scene
from kit.course.views.controls import HERE, button, in_a_row
from kit.course.views.forge import Forge
from kit.course.views.said import SHOWN, Says, Text, small_print, table
from kit.section.picture import Sheet, encode, seen_as
from kit.shop.recipes.talk import BEATS, MOST_LETTERS, Cue

PLAYER = HERE.parent / "player.js"
NO_TALK = (
    "No step has a question or a sentence yet: go to one, open What you say here, and "
    "write what you would say."
)
BEGIN = "Right arrow, Space or Enter goes on, Left goes back, Esc leaves."
OVER = "That was the talk."
NO_PICTURE = "There is no picture here."
PLACE, WIDE = (24, 40), 610  # where that is written: an upright screen shows 664 pixels
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
    """The player, laid out as one picture over the whole page with words below it.

    It is open as long as it has a piece, and sends ``{"over": True}`` when that was left.
    """

    _esm = "".join(file.read_text("utf-8") for file in (PLAYER, HERE / "talk.js"))
    _css = HERE / "talk.css"
    piece = traitlets.Dict().tag(**SHOWN)  # talk: what is said; stops: a picture to each


class Talk(widgets.VBox):
    """The talk about the bar on a forge.

    Parameters
    ----------
    forge : Forge
        Whose bar it is.
    """

    def __init__(self, forge: Forge) -> None:
        super().__init__()
        self.add_class("kit-view")
        self.forge = forge
        self.words, self.stage = Words(), Stage()
        self.give_button = button("Give the talk", self.begin, "kit-main")
        self.says = Says()
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
        self.words.words = {"at": desk.at} | cue.said

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
        history = self.forge.desk.history
        cues = [cue for cue in history.talk if not history.stages[cue.stage].refused]
        if not cues:
            self.says.tell(NO_TALK, refused=True)
            return
        self.says.tell(BEGIN)
        stops = [self._drawn(cue) for cue in cues]
        self.stage.piece = {"talk": [cue.said for cue in cues], "stops": stops}

    def leave(self) -> None:
        """Take the picture away."""
        self.stage.piece = {}
        self.says.tell(OVER)

    def rehearse(self) -> None:
        """Write, give the talk, and leave."""
        self.begin()
        for kind in BEATS:
            self.write(kind, "<b>How many?</b>")
        self.write("ask", "x" * (MOST_LETTERS + 1))  # refused
        self.begin()
        self.leave()
        self.forge.undo()

    def _drawn(self, cue: Cue) -> dict[str, str]:
        desk = replace(self.forge.desk, at=cue.stage, look=Look(**dict(cue.look)))
        try:
            shown = self.forge.drawn(desk)
        except KitError as refused:  # in its place; the talk goes on
            sheet = Sheet(COLUMNS, ROWS, **self.forge.looks.paper)
            sheet.lines(f"{NO_PICTURE} {refused}", PLACE, WIDE)
            shown = Scene(image=sheet.image, alt=f"{NO_PICTURE} {refused}", numbers=())
        picture = address_of(encode(shown.image), "image/png")
        return {"seen": picture, "alt": shown.alt + seen_as(shown.image)}

    def _titled(self, cue: Cue) -> str:
        words = title(Look(**dict(cue.look)), self.forge.bar, self.forge.units)
        return words[0].lower() + words[1:]

    def _written(self, message: dict) -> None:
        if message.get("set") in BEATS:
            self.write(message["set"], str(message.get("to", ""))[: MOST_LETTERS + 1])

    def _heard(self, message: dict) -> None:
        if message.get("over"):
            self.leave()


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
