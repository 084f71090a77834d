"""The class as a whole: who is missing."""

from __future__ import annotations

from collections.abc import Iterable

from kit.classroom.homework.drawing import normalised
from kit.classroom.homework.marking import Marks


def missing(marks: Iterable[Marks], students: Iterable[str]) -> list[str]:
    """Say who of a roster handed in nothing, and who handed in but is not on it.

    A line for each set that somebody handed in.
    """
    on_it = {normalised(name): name for name in students}
    sets: dict[str, dict[str, str]] = {}
    for one in marks:
        sets.setdefault(one.done.set, {})[one.done.who] = one.done.student
    lines = []
    for code, there in sorted(sets.items()):
        gone = [name for who, name in on_it.items() if who not in there]
        strange = [name for who, name in there.items() if who not in on_it]
        if gone:
            lines.append(f"{code}: nothing from {', '.join(gone)}.")
        if strange:
            lines.append(f"{code}: not on the roster: {', '.join(map(repr, strange))}.")
    return lines
