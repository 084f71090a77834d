"""What a view was set to, kept beside the running kit: a restart loses nothing.

The launcher names a folder of its own for each launch. There every view keeps its
settings when it comes to rest. After *Start over*, or a kernel that died, the view has
one button more: it brings them back. Nothing is brought back unasked, since the settings
may be an answer that is still to be predicted.
"""

from __future__ import annotations

import json
import math
import os
from contextlib import suppress
from pathlib import Path
from typing import Any

from kit.course.views.controls import button

VARIABLE = "KIT_KEPT"
MOST_BYTES = 10_000


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
        self.path = Path(folder) / f"{view.name}.json"
        self.before = self._read()
        view.picture.on_msg(self._heard)
        if self.before and self.before != view.state:
            self.back_button = button("Bring back what I had", self.bring_back)
            view.buttons.children = [*view.buttons.children, self.back_button]

    def bring_back(self, _button: Any = None) -> None:
        """Set the view as it was before the restart; that can be undone."""
        if self.view.locked:
            self.view.say("First predict, and press Observe; then it comes back.")
            return
        self.view.set(**self.before)
        rest = [one for one in self.view.buttons.children if one is not self.back_button]
        self.view.buttons.children = rest

    def _heard(self, _widget: Any, message: dict, _buffers: Any) -> None:
        if message.get("event") == "rest" and not self.view.locked:
            with suppress(OSError):  # a full disk: never mind; half a file is not read
                self.path.write_text(json.dumps(self.view.state), "utf-8")

    def _read(self) -> dict[str, Any]:
        """Give what was kept, or nothing: each a known control and a plain number."""
        try:
            text = self.path.read_text("utf-8")
            found = json.loads(text) if len(text) <= MOST_BYTES else {}
        except (OSError, ValueError, RecursionError):
            return {}
        if not isinstance(found, dict) or set(found) != set(self.view.controls):
            return {}
        plain = all(
            isinstance(value, (int, float)) and math.isfinite(value)
            for value in found.values()
        )
        return found if plain else {}
