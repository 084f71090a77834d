"""The class as a whole: who is missing, and whose answers are the same."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from kit.homework.drawing import normalised

if TYPE_CHECKING:
    from kit.homework.marking import Marks


def alike(marks: Iterable[Marks]) -> list[str]:
    """Find students whose answers are the same though their papers are not.

    Word for word the same last answers, to three parts or more, under different given
    values. It is a reason for a talk and proves nothing.
    """
    same: dict[tuple[object, ...], list[Marks]] = {}
    for one in marks:
        last = {answer.part: answer.text for answer in one.done.answers}
        if len(last) >= 3:
            same.setdefault((one.done.set, *sorted(last.items())), []).append(one)
    remarks = []
    for group in same.values():
        papers = {tuple(one.paper.values.values()) for one in group}
        if len(group) > 1 and len(papers) > 1:
            names = ", ".join(repr(one.done.student) for one in group)
            remarks.append(
                f"For a talk, not as proof: {names} gave the same answers in "
                f"{group[0].done.set} to papers with different values."
            )
    return remarks


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
