"""Read a stranger's small JSON file with bounds, before anything of it is used."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

from kit.errors import KitError

MOST_BYTES = 256 * 1024
MOST_DEPTH = 12  # of brackets in brackets
MOST_DIGITS = 30  # of a number
_IN_QUOTES = re.compile(r'"(?:[^"\\]|\\.)*"', re.DOTALL)


def text(path: Path, what: str) -> str:
    """Read a file's text, if it is not too large.

    Parameters
    ----------
    path : Path
    what : str
        To name it in a sentence: "a hand-in".

    Raises
    ------
    KitError
        If it is no file, too large, or no text.
    """
    try:
        if not path.is_file():
            msg = f"'{path.name[:60]}' can not be read as {what}: it is no file."
            raise KitError(msg)
        with path.open("rb") as file:
            content = file.read(MOST_BYTES + 1)
        _check_size(len(content), what)
        return content.decode("utf-8-sig")
    except (OSError, UnicodeDecodeError):
        msg = f"'{path.name[:60]}' can not be read as {what}."
        raise KitError(msg) from None


def values(written: str, what: str, form: str, version: int) -> dict[str, Any]:
    """Read JSON of one format and one version; refuse as `of_format` does."""
    found = of_format(written, what, form)
    made = found.pop("version", None)
    if isinstance(made, bool) or made != version:
        msg = f"This kit reads version {version} of {what}. Given: {str(made)[:20]}."
        raise KitError(msg)
    return found


def of_format(
    written: str, what: str, form: str, *, depth: int = MOST_DEPTH
) -> dict[str, Any]:
    """Read JSON: no deep brackets, no name twice, no endless numbers; of one format.

    Parameters
    ----------
    written : str
    what : str
        To name it in a sentence: "a hand-in".
    form : str
        What it must call its "format"; the rest is given back.
    depth : int
        How deep brackets may lie in one another.

    Raises
    ------
    KitError
        In one sentence, whatever is wrong with it.
    """
    _check_size(len(written), what)
    _check_size(len(written.encode("utf-8", "replace")), what)
    if _depth(written) > depth:
        msg = f"That is not {what}: its brackets lie too deep in one another."
        raise KitError(msg)
    try:
        found = json.loads(
            written,
            object_pairs_hook=_once,
            parse_constant=_no_constant,
            parse_int=_short_int,
        )
    except (ValueError, RecursionError):
        msg = f"That is not {what}: it can not be read as JSON."
        raise KitError(msg) from None
    if not isinstance(found, dict) or found.pop("format", None) != form:
        msg = f"That is not {what} of this kit: it must say 'format': '{form}'."
        raise KitError(msg)
    return found


def _check_size(size: int, what: str) -> None:
    if size > MOST_BYTES:
        msg = f"As {what} a file has at most {MOST_BYTES // 1024} kilobytes."
        raise KitError(msg)


def _once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    named = dict(pairs)
    if len(named) < len(pairs):
        msg = "a name comes twice"
        raise ValueError(msg)
    return named


def _no_constant(name: str) -> None:
    msg = f"{name} is no number"
    raise ValueError(msg)


def _short_int(digits: str) -> int:
    if len(digits) > MOST_DIGITS:
        msg = "a number has too many figures"
        raise ValueError(msg)
    return int(digits)


def _depth(text: str) -> int:
    """Count how deep brackets lie in one another; those in a student's text are none."""
    deep = deepest = 0
    for sign in _IN_QUOTES.sub("", text):
        if sign in "[{":
            deep += 1
            deepest = max(deepest, deep)
        elif sign in "]}":
            deep -= 1
    return deepest
