"""Words for a terminal, or a file, that does not know all signs: nothing stops on a ✓."""

from __future__ import annotations

import codecs
import unicodedata
from typing import TextIO

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
