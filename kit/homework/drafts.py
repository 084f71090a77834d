"""Where a student's draft and hand-in are kept: one plain folder, small files, no more.

The folder is `pattern-welding homework` in the user's home, or what the environment
variable ``KIT_HOMEWORK`` names. A draft's file is named by a checksum of course and
student, so that no name, however strange, makes a path.
"""

from __future__ import annotations

import hashlib
import os
import re
import unicodedata
from pathlib import Path

from kit.errors import KitError
from kit.homework import hand_in
from kit.homework.drawing import normalised
from kit.homework.record import HandIn

VARIABLE = "KIT_HOMEWORK"
FOLDER = "pattern-welding homework"
MOST_LETTERS = 30


def folder() -> Path:
    """Give the folder; it need not be there yet."""
    named = os.environ.get(VARIABLE)
    return Path(named) if named else Path.home() / FOLDER


def mark_of(course: str, student: str) -> str:
    """Give eight letters and figures that stand for a student of a course.

    Examples
    --------
    >>> mark_of("FORGE-A", " student  ONE") == mark_of("FORGE-A", "Student One")
    True
    """
    text = f"{normalised(course)}|{normalised(student)}"
    return hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()[:8]


def hand_in_name(done: HandIn) -> str:
    """Name a hand-in so that a folder of them can be told apart, on any machine.

    Examples
    --------
    >>> hand_in_name(HandIn(course="A", set="H1", student="../Student One"))[:15]
    'H1 student-one '
    """
    bare = unicodedata.normalize("NFKD", normalised(done.student))  # ä is a and two dots
    bare = "".join(sign for sign in bare if not unicodedata.combining(sign))
    plain = re.sub(r"[^a-z0-9]+", "-", bare).strip("-")
    who = plain[:MOST_LETTERS].strip("-")
    code = re.sub(r"[^A-Za-z0-9]", "", done.set)[:8]
    parts = [code, who, mark_of(done.course, done.student)]
    return " ".join(part for part in parts if part) + ".json"


def draft_path(where: Path, code: str, course: str, student: str, redraw: int) -> Path:
    """Give the path of a student's draft of one paper."""
    fresh = f" fresh {redraw}" if redraw else ""
    return where / f"{code} {mark_of(course, student)}{fresh}.draft"


def save(where: Path, done: HandIn) -> Path:
    """Keep a draft: whole, or the one before stays.

    Raises
    ------
    KitError
        If it can not be written, in one sentence.
    """
    path = draft_path(where, done.set, done.course, done.student, done.redraw)
    made(where)
    return hand_in.write(done, path)


def keep(where: Path, done: HandIn) -> Path:
    """Write a hand-in into the folder; as `save`."""
    made(where)
    return hand_in.write(done, where / hand_in_name(done))


def load(
    where: Path, code: str, course: str, student: str, redraw: int = 0
) -> HandIn | None:
    """Give the draft of a paper, or None if there is none or it can not be read."""
    path = draft_path(where, code, course, student, redraw)
    try:
        found = hand_in.read(path, course)
    except KitError:
        return None
    return found if (found.set, found.redraw) == (code, redraw) else None


def made(where: Path) -> Path:
    """Make the folder if it is not there; `KitError` in one sentence if it can not be."""
    try:
        where.mkdir(parents=True, exist_ok=True)
    except OSError:
        msg = (
            f"The folder '{str(where)[-60:]}' can not be made, so nothing is kept there. "
            "Save your hand-in by its link."
        )
        raise KitError(msg) from None
    return where
