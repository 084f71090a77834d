"""A button that takes one file from the reader's computer, piece by piece.

A message above the server's limit (10 MiB, unless somebody raised it) would close the
connection without a word.
"""

from collections.abc import Callable
from typing import Any, NamedTuple

import anywidget
import traitlets

from kit.basics.errors import KitError
from kit.course.views.controls import HERE


class Given(NamedTuple):
    """A file that was handed over: its name, and what it holds."""

    name: str
    content: bytes


class Upload(anywidget.AnyWidget):
    """Choose a file.

    Parameters
    ----------
    label : str
        On the button.
    accept : str
        What the browser offers: endings, or a kind of file such as ``"image/*"``.
    most : int
        Bytes; a larger file is refused before it is sent.
    then : callable, optional
        Called when a file has come, or was refused: `given` tells which.
    """

    _esm = HERE / "upload.js"
    label = traitlets.Unicode().tag(sync=True)
    accept = traitlets.Unicode().tag(sync=True)

    def __init__(
        self, label: str, accept: str, most: int, then: Callable[[], None] | None = None
    ) -> None:
        super().__init__(label=label, accept=accept)
        self._most, self._then = most, then
        self._given: Given | None = None
        self._refused = ""
        self._key, self._name, self._size = "", "", 0  # of the file under way
        self._parts = bytearray()
        self.on_msg(self._heard)

    def given(self, missing: str = "Choose a file first.") -> Given:
        """Give the file that was chosen last.

        Raises
        ------
        KitError
            If it was too large; `missing` if none was chosen yet.
        """
        if self._given is None:
            raise KitError(self._refused or missing)
        return self._given

    def take(self, name: str, content: bytes) -> None:
        """Take a whole file, as when its last piece has come."""
        if self._bounded(name, len(content)):
            self._finish(Given(name, content))

    def _bounded(self, name: str, size: int) -> bool:
        """Refuse a file that is too large."""
        if size <= self._most:
            return True
        self._refused = (
            f"A file opened here can have at most {_shown(self._most)}. "
            f"Given: '{name[:60]}' with {_shown(size)}."
        )
        self._finish(None)
        return False

    def _finish(self, given: Given | None) -> None:
        self._given, self._parts = given, bytearray()
        if self._then is not None:
            self._then()

    def _heard(self, _widget: Any, message: dict, buffers: list) -> None:
        key = str(message.get("key"))
        if "name" in message:
            self._key, self._parts = key, bytearray()
            self._name, self._size = str(message["name"]), int(message["size"])
            if not self._bounded(self._name, self._size):
                self.send({"key": key, "taken": False})
                return
        elif key != self._key or message.get("at") != len(self._parts) or not buffers:
            return  # of a file that another one has taken the place of
        else:
            self._parts += buffers[0]
        if len(self._parts) < self._size:
            self.send({"key": key, "at": len(self._parts)})
            return
        self._key = ""
        self._finish(Given(self._name, bytes(self._parts[: self._size])))
        self.send({"key": key, "taken": True})


def _shown(size: int) -> str:
    """Write a size as people say it."""
    if size < 1_000_000:
        return f"{size / 1000:,.0f} kB"
    return f"{size / 1_000_000:,.0f} MB"
