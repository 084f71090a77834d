"""A working, line by line: what of it is left to the reader, and how it ends."""

from __future__ import annotations

import re

BLANK = "…  (your turn: what comes here, and why?)"
_RECKONED = re.compile(r"\d.*[-+×/^²]")  # a sum with figures in it


def faded(lines: list[str], blanks: int) -> list[str]:
    """Leave the last lines of a working for the reader to fill in.

    The first always stays.

    Examples
    --------
    >>> faded(["layers = 9 × 2^5", "= 9 × 32"], 0)
    ['layers = 9 × 2^5', '= 9 × 32']
    >>> faded(["layers = 9 × 2^5", "= 9 × 32"], 1)[1] == BLANK
    True
    """
    if not blanks:
        return lines
    kept = lines[: max(1, len(lines) - blanks)]
    return kept + [BLANK] * (len(lines) - len(kept))


def last_sum(lines: list[str]) -> str:
    """Give the end of a working: its last sum, or what its last line follows from.

    Parameters
    ----------
    lines : list of str
        One that begins with "=" goes on from the one before.

    Examples
    --------
    >>> last_sum(["layers = pieces × 2 for every fold", "= 9 × 2^5", "= 9 × 32", "= 288"])
    '9 × 32 = 288'
    >>> last_sum(["rings = 2.40 / 0.25 = 9.6", "whole rings: 9"])
    '2.40 / 0.25 = 9.6, whole rings: 9'
    """
    sums: list[list[str]] = []
    for line in lines:
        parts = line.removeprefix("= ").split(" = ")
        if line.startswith("= "):
            sums[-1] += parts
        else:
            sums.append(parts)
    *before, last = sums
    if len(last) > 1 and _RECKONED.search(last[-2]):
        return " = ".join(last[-2:])
    if len(last) > 2 or not before:
        return " = ".join(last[-3:])
    return f"{' = '.join(before[-1][-2:]).removeprefix('so ')}, {' = '.join(last)}"
