"""A check as data: what each number would be told, found by asking the answer engine.

The page that gets it knows no rule of its own. The line of all numbers is cut wherever the
engine's verdict can change: at the ends of what is near enough to the right answer, to a
slip's number, or to either in a wrong unit. Each piece between two cuts is asked about
once; what is left over is what no idea explains.
"""

import math
from collections.abc import Iterator
from itertools import pairwise
from typing import Any

from kit.basics.errors import KitError
from kit.basics.told import in_units
from kit.basics.units import Units
from kit.course.answers import HAIR, LARGEST, SLIP_SHARE, Kind
from kit.course.check import EXAMPLE, EXAMPLE_FROM, NOT_THIS, NOT_YET, STANDS, Check

READ = "{read}"  # stands where the page says again what was typed
ANYTHING = "?"  # no number: what is refused with it is refused with any such words
ODD = 1.2345678e11  # an answer that nothing explains


def judging(check: Check, units: Units) -> dict[str, Any]:
    """Give a check as a page needs it, its words in the reader's units.

    Parameters
    ----------
    check : Check
    units : Units

    Returns
    -------
    dict
        "zones" are lists of lowest, highest and the index of what is said; a number in
        none of them is told "else". Numbers are in the question's own unit, whose size
        is 1; "units" are the names and sizes of those that may be typed.
    """
    kind = check.answers
    says: list[dict[str, Any]] = []
    zones: list[list[float]] = []
    other = _said(check, ODD, units)
    for low, high in pairwise(_cuts(check)):
        told = _said(check, (low + high) / 2, units)
        if told == other:
            continue
        if told not in says:
            says.append(told)
        at = says.index(told)
        if zones and zones[-1][1] == low and zones[-1][2] == at:
            zones[-1][1] = high
        else:
            zones.append([low, high, at])
    return {
        "ask": in_units(check.ask, units),
        "units": _units(kind, units),
        "whole": bool(_refused(check, "1.5", units)),
        "nothing": _refused(check, "", units),
        "unread": _refused(check, ANYTHING, units),
        "zones": zones,
        "says": says,
        "else": other,
        "example": _example(check, units),
        "notYet": NOT_YET,
        "notThis": NOT_THIS,
        "stands": STANDS,
        "exampleFrom": EXAMPLE_FROM,
    }


def _units(kind: Kind, units: Units) -> list[list[Any]]:
    """Give the units an answer may be in, the reader's own first."""
    spelt = dict(kind.spelt) or {kind.unit: 1.0}
    first = units.unit if kind.unit == "mm" else kind.unit
    names = [first, *(name for name in spelt if name != first)]
    return [[name, spelt[name]] for name in names]


def _cuts(check: Check) -> list[float]:
    """Give where the verdict may change, from the least to the largest number."""
    kind, right = check.answers, check.answer(check.given)
    values = [right, *filter(math.isfinite, check.slip_values(check.given).values())]
    cuts = {edge for value in values for edge in _edges(kind, value)}
    for factor in kind.factors:
        for value in (right * factor, right / factor):
            cuts |= {*_edges(kind, value)}
        for one in kind.rounded(right):
            cuts |= {
                edge for value in (one * factor, one / factor) for edge in _hair(value)
            }
    return [-LARGEST, *sorted(cut for cut in cuts if abs(cut) < LARGEST), LARGEST]


def _edges(kind: Kind, value: float) -> Iterator[float]:
    """Give the ends of what is near enough to a value, or that value rounded."""
    wide = kind.tolerance(value)
    for near in (wide, min(wide, SLIP_SHARE * abs(value))):
        reach = near + HAIR * abs(value)
        yield from (value - reach, value + reach)
    if value > 0:
        for one in kind.rounded(value):
            yield from _hair(one)


def _hair(value: float) -> Iterator[float]:
    yield from (value * (1 - HAIR), value * (1 + HAIR))


def _said(check: Check, answer: float, units: Units) -> dict[str, Any]:
    """Ask the engine about one number."""
    found = check.judge(check.given, answer)
    words = check.words(found, check.given, units=units)
    if not found.earns:
        words = words.removeprefix(NOT_YET).strip()
    read = in_units(check.written(answer, units), units)
    return {
        "right": found.earns,
        "code": found.code,
        "words": words.replace(f"read as {read}", f"read as {READ}"),
    }


def _example(check: Check, units: Units) -> str:
    """Give the worked example that the engine adds from some try on."""
    found = check.judge(check.given, ODD)
    words = check.words(found, check.given, tries=EXAMPLE_FROM, units=units)
    return words[words.index(EXAMPLE) :].strip()


def _refused(check: Check, text: str, units: Units) -> str:
    """Give what is said of a text that is no answer, or nothing if it is one."""
    try:
        check.read(text, units)
    except KitError as refused:
        return str(refused)
    return ""
