"""A line across the picture of a view, counted: what the browser draws, Python answers.

The browser's part is line.js. Before the prediction it is shut, as all controls are: it
would give the answer away. While a control moves the count waits; once it rests, the
line is counted anew, or taken off where another face is shown.
"""

import math
from functools import cached_property
from typing import Any

from kit.basics.errors import KitError
from kit.course.lessons.line import Counted, Lines

HOW = (
    "Drag for another line, or move an end: arrow keys, Tab for the other end, Esc when "
    "done."
)
GONE = "The line is taken off: another face is shown."
AWAY = "The line is put away."


class Counting:
    """Counts along the line that stands on a view's picture, if one does.

    Parameters
    ----------
    view : View
        Its picture gets the button, its status line the answer.
    """

    def __init__(self, view: Any) -> None:
        self.view, self.picture = view, view.picture
        self.picture.counts = True
        self._face: tuple = ()  # on which the line was counted last
        self._told = ""
        self.picture.observe(self._drawn, names="line")
        self.picture.observe(self._shut, names="shut")
        self.picture.on_msg(self._heard)

    def toggle(self) -> None:
        """Lay a line across the picture, or put it away."""
        if self.view.locked:
            return  # the bench says already what to do first
        if self.picture.line:
            self._put_away(AWAY)
            return
        try:
            offered = self._lines.offered()
        except KitError as refused:
            self.view.say(str(refused), refused=True)
            return
        self.picture.line = list(offered)
        self.view.say(f"{self.view.said} {HOW}")

    def wait(self) -> None:
        """Leave the old count: another scene is shown."""
        self.__dict__.pop("_lines", None)
        if self.picture.counted:
            self.picture.counted = {}

    def follow(self) -> None:
        """Count anew along the same line, now that nothing moves; it is said, too."""
        if not self.picture.line:
            return
        before = self.view.said.removesuffix(self._told).strip()
        before = "" if before in ("", self.view.shown.invites) else f"{before} "
        if self._face and not self._lines.shows(self._face):
            self._put_away(before + GONE)
            return
        self._told, refused = self._count()
        self.view.say(before + self._told, refused=refused)

    @cached_property
    def _lines(self) -> Lines:
        return Lines(self.view.shown)

    def _drawn(self, _change: Any) -> None:
        if self.picture.line:
            self._told, refused = self._count()
            self.view.say(self._told, refused=refused)

    def _heard(self, _widget: Any, message: dict, _buffers: Any) -> None:
        if message.get("event") == "count":
            self.toggle()

    def _shut(self, change: dict) -> None:
        """Leave no answer on the picture for the next person."""
        if change["new"]:
            self._clear()

    def _clear(self) -> None:
        self.picture.line, self.picture.counted, self._face = [], {}, ()

    def _put_away(self, says: str) -> None:
        self._clear()
        self.view.say(says)

    def _count(self) -> tuple[str, bool]:
        """Count, show the count beside the line, and give the sentence."""
        line = self.picture.line
        if len(line) != 4 or not all(map(math.isfinite, line)):
            return "A line goes from one place of the picture to another.", True
        try:
            counted = self._lines.count(tuple(line), self.view.units)
        except KitError as refused:
            self.picture.counted = {"words": ""}
            return str(refused), True
        self._face = self._lines.face(counted.stretch.place)
        self.picture.counted = _for_the_browser(counted)
        return counted.says, False


def _for_the_browser(counted: Counted) -> dict[str, Any]:
    part = counted.stretch
    return {
        "words": counted.short,
        "from": part.low,
        "to": part.high,
        "ticks": list(counted.ticks),
    }
