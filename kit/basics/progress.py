"""A line of text that fills up while something long is made."""

from __future__ import annotations

import sys
from typing import TextIO

WIDE = 30  # signs


class Progress:
    """Show how much is done, for work that calls it with a share from 0 to 1.

    Parameters
    ----------
    doing : str
        What is being made, in a few words.
    stream : text stream, optional
        Where to write; left out, the terminal's error stream. Only a terminal is
        written over; anything else (a file, a log) gets the last line alone.

    Examples
    --------
    >>> bar = Progress("Poster", stream=sys.stdout)
    >>> for share in (0.1, 0.5, 1.0):
    ...     bar(share)
    Poster: ██████████████████████████████ 100 %
    """

    def __init__(self, doing: str, stream: TextIO | None = None) -> None:
        self.doing = doing
        self.stream = stream or sys.stderr
        self._shown = ""

    def __call__(self, share: float) -> None:
        """Show a share, 0 … 1."""
        full = round(share * WIDE)
        line = f"{self.doing}: {'█' * full}{'·' * (WIDE - full)} {share:.0%}"
        line = line.replace("%", " %")
        done = share >= 1
        if line == self._shown or not (done or self.stream.isatty()):
            return
        self._shown = line
        start = "\r" if self.stream.isatty() else ""
        self.stream.write(f"{start}{line}" + ("\n" if done else ""))
        self.stream.flush()
