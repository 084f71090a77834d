"""What a person reads of hand-ins: words, claims, sheets; and the marks for them."""

from __future__ import annotations

from collections.abc import Iterable

from kit.basics.errors import KitError
from kit.classroom.homework.judged import RUBRIC
from kit.classroom.homework.marking import Marks
from kit.classroom.homework.record import Row


def to_read(marks: Iterable[Marks], code: str) -> list[tuple[str, str, tuple[int, ...]]]:
    """Lay what students wrote side by side.

    Returns
    -------
    list of (student, text, own ratings)
        By student, what was ticked of sellers' claims before the text; each to be
        rated 0, 1 or 2 for each line of `RUBRIC`.
    """
    return [
        (one.done.student, "\n".join([*claims(one), one.done.words]), one.done.ratings)
        for one in marks
        if one.done.set == code and one.done.written
    ]


def claims(one: Marks, *, told: bool = True) -> list[str]:
    """Say what was ticked of each seller's claim, and, if `told`, whether it is right."""
    lines = []
    asked = one.paper.homework.judged.claims
    for claim, tier in zip(asked, one.done.claims, strict=False):
        verdict = {True: "Possible", False: "Not possible", None: "(not ticked)"}
        reason = "(not ticked)" if tier.reason is None else claim.reasons[tier.reason]
        sign = "✓" if claim.right(tier.possible, tier.reason) else "✗"
        line = f"{claim.words} {verdict[tier.possible]}: {reason}"
        lines.append(f"{line} ({sign})" if told and tier.whole else line)
    return lines


def sheets(marks: Iterable[Marks]) -> list[tuple[str, Row]]:
    """Lay the capstone's sheets side by side; a person judges the reasons in them."""
    return [(one.done.student, row) for one in marks for row in one.done.sheet]


def rated(keys: str) -> tuple[int, ...]:
    """Read the teacher's keystrokes for one answer: three figures of 0, 1 or 2.

    Raises
    ------
    KitError
        If they are something else.

    Examples
    --------
    >>> rated("210")
    (2, 1, 0)
    """
    plain = str(keys).strip()
    if len(plain) != len(RUBRIC) or any(key not in "012" for key in plain):
        msg = f"Three keys of 0, 1 or 2, one for each question. Given: {plain[:20]!r}."
        raise KitError(msg)
    return tuple(int(key) for key in plain)
