"""Write and read a hand-in: one small file, and nothing of the machine in it.

The reader trusts nothing: size, types, lengths and ranges are checked before anything is
used, and no text of a hand-in is ever run. Right or wrong is not in the file: marks are
worked out again from the answers.
"""

from __future__ import annotations

import json
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path

from kit.basics import files
from kit.basics.errors import KitError
from kit.basics.files import whole
from kit.classroom.homework.drawing import normalised
from kit.classroom.homework.record import HandIn, Row, Tier, Try

__all__ = ["HandIn", "Row", "Tier", "Try", "from_json", "read", "to_json", "write"]

FORMAT = "pattern-welding homework"
VERSION = 1
WHAT = "a hand-in"


def kit_version() -> str:
    """Give the version of the kit that is installed."""
    try:
        return version("pattern-welding-kit")
    except PackageNotFoundError:  # run from a plain folder
        return "unknown"


def to_json(done: HandIn) -> str:
    """Write a hand-in as text, always the same for the same hand-in."""
    values = {"format": FORMAT, "version": VERSION, **done.model_dump(mode="json")}
    values["kit"] = values["kit"] or kit_version()
    return json.dumps(values, indent=1, ensure_ascii=False, allow_nan=False) + "\n"


def write(done: HandIn, path: Path) -> Path:
    """Write a hand-in: whole, or not at all; `KitError` if it cannot be written."""
    with whole(path) as part:
        part.write_text(to_json(done), "utf-8", errors="replace")
    return path


def from_json(text: str, course: str | None = None) -> HandIn:
    """Read a hand-in from text.

    Parameters
    ----------
    text : str
    course : str, optional
        Given, a hand-in of another course is refused.

    Raises
    ------
    KitError
        In one sentence, whatever is wrong with it.
    """
    values = files.values(text, WHAT, FORMAT, VERSION)
    done = HandIn.model_validate_json(json.dumps(values), strict=True)
    check_course(done.course, course)
    return done


def check_course(given: str, course: str | None) -> None:
    """Refuse what is of another course, if one was named."""
    if course is not None and normalised(given) != normalised(course):
        msg = f"That is of another course. Given: {given[:40]!r}."
        raise KitError(msg)


def read(path: Path, course: str | None = None) -> HandIn:
    """Read a hand-in from a file; as `from_json`."""
    return from_json(files.text(path, WHAT), course)
