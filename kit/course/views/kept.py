"""What a view was set to, kept beside the running kit: a restart loses nothing.

The launcher names a folder of its own for each launch. There every view of each page keeps
its settings when it comes to rest, once something was changed. After *Start over*, or a
kernel that died, the view has one button more: it brings them back. Nothing is brought
back unasked, since the settings may be an answer that is still to be predicted.
"""

import json
import math
import os
import re
from contextlib import suppress
from pathlib import Path
from typing import Any

from kit.basics.told import counted
from kit.course.anvil.desk import Desk
from kit.course.views.controls import button
from kit.shop.recipes.recipe import Recipe, from_json, to_json

VARIABLE = "KIT_KEPT"
PAGE = "JPY_SESSION_NAME"  # Jupyter's name for the page that a kernel runs
MOST_LETTERS = 160  # of a page's name and place: a file's name has at most 255
MOST_BYTES = 256 * 1024  # of a long history


class Kept:
    """Keeps the settings of one view; does nothing where no folder is named.

    Parameters
    ----------
    view : View
        It gets the button, if there is something to bring back.
    """

    def __init__(self, view: Any) -> None:
        folder = os.environ.get(VARIABLE)
        if not folder:
            return
        self.view = view
        page = re.sub(r"\W+", "_", os.environ.get(PAGE, ""))[-MOST_LETTERS:]
        self.path = Path(folder) / f"{page}{view.name}.json"
        self.untouched: str | None = self._text()
        before = self._read()
        view.picture.on_msg(self._heard)
        if before is not None:
            self.before = before
            self.back_button = button(self._named(before), self.bring_back)
            view.buttons.children = [*view.buttons.children, self.back_button]

    def bring_back(self, _button: Any = None) -> None:
        """Set the view as it was before the restart; that can be undone."""
        if self.view.locked:
            self.view.say("First predict, and press Observe; then it comes back.")
            return
        self._bring(self.before)
        rest = [one for one in self.view.buttons.children if one is not self.back_button]
        self.view.buttons.children = rest

    def _heard(self, _widget: Any, message: dict, _buffers: Any) -> None:
        if message.get("event") != "rest" or self.view.locked:
            return
        text = self._text()
        if text == self.untouched:  # nothing was made here: what was kept stays
            return
        self.untouched = None
        with suppress(OSError):  # a full disk: never mind; half a file is not read
            self.path.write_text(text, "utf-8")

    def _read(self) -> Any:
        """Give what was kept, or None: nothing, or nothing that can be used."""
        try:
            text = self.path.read_text("utf-8")
            return self._found(text) if len(text) <= MOST_BYTES else None
        except (OSError, ValueError, RecursionError):
            return None

    def _text(self) -> str:
        return json.dumps(self.view.state)

    def _named(self, _found: Any) -> str:
        """Name the button by what comes back."""
        return "Bring back my settings"

    def _bring(self, found: Any) -> None:
        self.view.set(**found)

    def _found(self, text: str) -> dict[str, Any] | None:
        """Give the settings if each is a known control's, a plain number, and another."""
        found = json.loads(text)
        if not isinstance(found, dict) or set(found) != set(self.view.controls):
            return None
        plain = all(
            isinstance(value, (int, float)) and math.isfinite(value)
            for value in found.values()
        )
        return found if plain and found != self.view.state else None


class KeptBar(Kept):
    """Keeps the bar of a forge: its history, its talk, its open welds."""

    def _text(self) -> str:
        return to_json(self.view.desk.recipe("kept"))

    def _named(self, found: Recipe) -> str:
        steps = len(Desk.of_recipe(found).history.acts)
        return f"Bring back my bar of {counted(steps, 'step')}"

    def _bring(self, found: Recipe) -> None:
        self.view.lay(found)

    def _found(self, text: str) -> Recipe | None:
        found = from_json(text)
        new = Desk.of_recipe(found).history != self.view.desk.history
        return found if new else None
