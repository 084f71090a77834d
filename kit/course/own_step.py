"""A step of a reader's own: two formulas, asked so that no mistake in them does harm.

Whatever a formula does wrong is told in one sentence: what, where, and what is allowed.
It stays a pair of functions in the reader's notebook: no recipe holds it, none makes it.
"""

from __future__ import annotations

import inspect
import warnings
from collections.abc import Callable
from dataclasses import dataclass, replace
from types import CodeType
from typing import Any

import numpy as np

from kit.basics.errors import KitError
from kit.basics.units import Units, format_length
from kit.forge.steps import Points, Size

FARTHEST = 10_000.0  # mm, that a formula may move steel to
SAME = 1e-6  # mm: two answers nearer than this are one
AXES = ("x", "y", "z")
KINDS = {"c": "complex numbers", "b": "True or False", "U": "text", "M": "dates"}
# What Python says of the two mistakes that beginners make most, and what helps.
HELP = {
    "truth value of an array": "x, y and z are many numbers at once: "
    "write np.where(…) in the place of if",
    "converted to Python scalar": "x, y and z are many numbers at once: "
    "write np.sin, np.cos, … in the place of math.sin, math.cos, …",
    "read-only": "it changes what it was given: write x = x + 1 and not x += 1",
}


@dataclass(frozen=True)
class OwnStep:
    """Two formulas and how strongly they are used; asked like any step.

    Parameters
    ----------
    formulas : (do, undo)
        Functions of x, y, z (arrays, mm) and strength that give x, y, z.
    strength : float
        0 must be nothing.

    Raises
    ------
    KitError
        On anything that is no such pair, and when a formula goes wrong.
    """

    formulas: tuple[Callable, Callable]
    strength: float

    def __post_init__(self) -> None:
        for name, formula in zip(("do", "undo"), self.formulas, strict=True):
            if not callable(formula):
                msg = f"{name} must be a formula, a def. Given: {_kind(formula)}."
                raise KitError(msg)
            _check_takes(name, formula)

    @property
    def nothing(self) -> OwnStep:
        """The same with strength 0."""
        return replace(self, strength=0.0)

    def do(self, points: Points, size: Size) -> Points:
        """Ask the first formula where points (mm) of the bar go."""
        return self._known("do", points)

    def undo(self, points: Points, size: Size) -> Points:
        """Ask the second formula where points (mm) came from."""
        return self._known("undo", points)

    def came_from(self, points: Points) -> Points:
        """Ask the second formula beside the bar too (mm): no number is no steel there."""
        return tuple(
            np.where(np.abs(axis) <= FARTHEST, axis, np.nan)
            for axis in self._asked("undo", points)
        )

    def check_steady(self, points: Points) -> None:
        """Refuse formulas whose answer at points (mm) hangs on more than the place."""
        moved = self._known("do", points)
        for name, given in (("do", points), ("undo", moved)):
            first, again = self._known(name, given), self._known(name, given)
            if _apart(first, again) > SAME:
                msg = (
                    f"{self._at(name)} gives another answer each time it is asked. "
                    "Allowed: a formula without chance, that remembers nothing."
                )
                raise KitError(msg)
            few = _some(given)
            alone = self._known(name, tuple(axis[few] for axis in given))
            if _apart(alone, tuple(axis[few] for axis in first)) > SAME:
                msg = (
                    f"{self._at(name)} moves a point otherwise when other points are "
                    "asked with it. Allowed: a formula that looks at each point's own x, y "
                    "and z, not at x.max(), x[0] or the order of the points."
                )
                raise KitError(msg)

    def _at(self, name: str) -> str:
        return f"Your {name}, at strength {self.strength:g},"

    def _known(self, name: str, points: Points) -> Points:
        """Ask a formula where all must be known."""
        found = self._asked(name, points)
        for axis, part in zip(AXES, found, strict=True):
            wrong = ~(np.abs(part) <= FARTHEST)  # what is no number is not less either
            if wrong.any():
                first = int(np.argmax(wrong))
                place = where_is(tuple(float(one[first]) for one in points), Units.MM)
                msg = (
                    f"{self._at(name)} gives {part[first]:.3g} as {axis}, {place}. "
                    f"Allowed: at every place a number within {FARTHEST:,.0f} mm of 0."
                )
                raise KitError(msg)
        return found

    def _asked(self, name: str, points: Points) -> Points:
        """Ask a formula; three arrays of its own, as long as those given."""
        formula = self.formulas[name == "undo"]
        shape = points[0].shape
        given = [_unchangeable(axis) for axis in points]
        try:
            with np.errstate(all="ignore"), warnings.catch_warnings():
                warnings.simplefilter("ignore")
                found = formula(*given, self.strength)
                numbers = _numbers(name, found, given[0].size)
        except (KitError, KeyboardInterrupt):
            raise
        except BaseException as error:  # noqa: BLE001  (it is the reader's: anything)
            raise KitError(self._failed(name, formula, error)) from None
        return tuple(part.reshape(shape) for part in numbers)

    def _failed(self, name: str, formula: Callable, error: BaseException) -> str:
        """Say in which line of a formula Python stopped, and why."""
        why = _said(error)
        helps = next((help_ for sign, help_ in HELP.items() if sign in why), why)
        line = _line(formula, error)
        return (
            f"{self._at(name)} cannot be worked out{line}: {helps}. Allowed: sums of "
            "x, y, z and strength, and of what is named above it."
        )


def where_is(point: tuple[float, float, float], units: Units) -> str:
    """Say in words where a point of the bar (mm) is."""
    along, y, z = (
        format_length(abs(part), units.fine) if abs(part) >= 0.05 else "" for part in point
    )
    words = f"{along or '0'} along the bar, "
    side, over = (
        f"{far} {names[part > 0]}" if far else ""
        for far, part, names in (
            (y, point[1], ("left of", "right of")),
            (z, point[2], ("below", "above")),
        )
    )
    if side and over:
        return f"{words}{side} its axis and {over} it"
    return f"{words}{side or over or 'on'} its axis"


def _some(points: Points) -> np.ndarray:
    """Choose points of one corner, last first: no edge, mean or order is as for all."""
    chosen = np.ones(points[0].shape, bool)
    for axis in points:
        low, span = axis.min(), np.ptp(axis)
        chosen &= (axis >= low + 0.15 * span) & (axis <= low + 0.6 * span)
    return np.flatnonzero(chosen)[::-1] if chosen.any() else np.array([1, 0])


def _check_takes(name: str, formula: Callable) -> None:
    """Refuse a formula that does not take x, y, z and strength."""
    try:
        signature = inspect.signature(formula)
    except (TypeError, ValueError):  # not written in Python; asking it will tell
        return
    try:
        signature.bind(*AXES, "strength")
    except TypeError:
        msg = f"{name} must take x, y, z, strength. Given: {name}{signature!s:.60}."
        raise KitError(msg) from None


def _unchangeable(axis: np.ndarray) -> np.ndarray:
    """Give a row of numbers that no formula can write into."""
    own = np.asarray(axis, float).flatten()
    own.flags.writeable = False
    return own[:]  # of a part, unlike its owner, this cannot be taken back


def _numbers(name: str, found: Any, count: int) -> list[np.ndarray]:
    """Copy what a formula gave into three rows of numbers, or say what it is."""
    if hasattr(found, "close") and not isinstance(found, np.ndarray):
        found.close()  # of an `async def`, which would grumble later
    three = isinstance(found, (tuple, list, np.ndarray)) and np.ndim(len(found)) == 0
    if not three or len(found) != len(AXES):
        given = f"{len(found)} things" if three else _kind(found)
        msg = f"{name} must end with return and three things: x, y, z. Given: {given}."
        raise KitError(msg)
    rows = []
    for axis, part in zip(AXES, found, strict=True):
        row = np.ma.asarray(part)
        if row.dtype.kind not in "fiu":
            given = KINDS.get(row.dtype.kind, _kind(part))
            msg = f"{name} must give numbers. Given as {axis}: {given}."
            raise KitError(msg)
        if row.shape != (count,):
            given = f"{row.size:,} numbers" if row.ndim else "one number for all"
            msg = (
                f"{name} must give one number for each point, as many as x has: {count:,}. "
                f"Given as {axis}: {given}{', in a table' if row.ndim > 1 else ''}."
            )
            raise KitError(msg)
        rows.append(np.array(row.astype(float).filled(np.nan)))
    return rows


def _kind(thing: Any) -> str:
    """Name what something is, without asking it."""
    kind = type(thing).__name__
    return {"NoneType": "nothing (None)", "str": "text"}.get(kind, f"a {kind:.30}")


def _said(error: BaseException) -> str:
    """Give what an error says of itself, if it can speak."""
    try:
        words = " ".join(str(error).split())
    except Exception:  # noqa: BLE001  (an error of the reader's own making)
        words = ""
    kind = type(error).__name__
    return (f"{kind}: {words}" if words else kind)[:160].rstrip(".")


def _line(formula: Callable, error: BaseException) -> str:
    """Name the line of a formula that was being worked out."""
    code, at = getattr(formula, "__code__", None), None
    trace = error.__traceback__
    while isinstance(code, CodeType) and trace:
        if trace.tb_frame.f_code is code:
            at = trace.tb_lineno
        trace = trace.tb_next
    if at is None:
        return ""
    try:
        lines = inspect.getsourcelines(formula)[0]
        written = f", “{lines[at - code.co_firstlineno].strip()[:80]}”"
    except (OSError, TypeError, IndexError):  # typed where no text is kept
        written = ""
    return f" in its line {at - code.co_firstlineno + 1}{written}"


def _apart(one: Points, other: Points) -> float:
    return max(float(np.max(np.abs(a - b))) for a, b in zip(one, other, strict=True))
