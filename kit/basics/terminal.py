"""What a terminal is told: a line that fills up while something long is made, plain words.

A terminal, or a file, that does not know all signs gets plainer ones: nothing stops on a ✓.
"""

import codecs
import sys
import unicodedata
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


NAME = "plain words"
# Each to something that nothing else is written by: a ? is a mark of its own in the table.
_SIGNS = {
    "✓": "+", "✗": "x", "–": "-", "—": "-", "−": "-", "×": "x", "·": ".", "█": "#",
    "…": "...", "→": "->", "≈": "~", "≤": "<=", "≥": ">=", "±": "+/-", "√": "root ",
    "“": '"', "”": '"', "„": '"', "‘": "'", "’": "'", "′": "'", "″": '"', "°": " deg ",
    "µ": "u", "μ": "u", "π": "pi", "Δ": "D", "½": "1/2", "¼": "1/4", "¾": "3/4",
    "⁄": "/", "ß": "ss", "æ": "ae", "ø": "o", "ł": "l", "◀": "<", "▶": ">",
}  # fmt: skip


def plainly(stream: TextIO) -> None:
    """Let a stream write what its encoding lacks in plainer signs instead of failing."""
    if hasattr(stream, "reconfigure"):
        stream.reconfigure(errors=NAME)


def _plainer(error: UnicodeError) -> tuple[str, int]:
    if not isinstance(error, UnicodeEncodeError):
        raise error
    there = error.object[error.start : error.end]
    return "".join(_plain(sign, error.encoding) for sign in there), error.end


def _plain(sign: str, encoding: str) -> str:
    """Give a sign in plainer ones: a letter without its accent, or else its number."""
    apart = unicodedata.normalize("NFKD", sign)
    bare = "".join(one for one in apart if not unicodedata.combining(one))
    for words in (_SIGNS.get(sign, ""), bare):
        try:
            words.encode(encoding)
        except UnicodeEncodeError:
            continue
        if words:
            return words
    return sign.encode("ascii", "backslashreplace").decode("ascii")


codecs.register_error(NAME, _plainer)
