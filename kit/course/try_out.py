"""Try a step out: a bar before and after, and which laws of forging the step keeps.

Steel is neither made nor lost, what was done can be taken back, and no strength is
nothing: what every step of the kit must keep (tests/test_laws.py) is asked here of a
reader's own two formulas, and of the kit's steps in the same way.
"""

import math
import sys
import textwrap
from collections.abc import Callable
from dataclasses import dataclass
from numbers import Real
from typing import Any, NamedTuple

import numpy as np
from PIL import Image

from kit.basics.errors import KitError
from kit.basics.told import kept, plain
from kit.basics.units import Units, format_length
from kit.course.own_step import OwnStep, where_is
from kit.course.try_out_drawing import Mark, drawn, said, size_after
from kit.forge.billet import Billet
from kit.forge.stack import demo_stack
from kit.forge.steps import Points, Size, Step
from kit.shop.losses import weight

POINTS = 60_000  # asked about, about evenly apart
CLOSER = (9, 3)  # points a side, and how often it is looked at more closely
EDGE, ASIDE = 3e-4, 1e-5  # mm: inside the skin, and beside creases in the middle
NUDGE = 1e-4  # mm, for differences
CREASE = 1e-3  # change of a slope over a nudge: more is a crease, not a bend
LEAST = 1e-3  # mm: less is none to a smith
LEAST_SHARE = 1e-4  # of a volume
WIDE = 76  # letters of a line
TIE = 1e-6  # of the worst: nearer than this is as bad
ALIKE = 0.98  # of the worst: if all is at least that bad, it is so everywhere

Measure = Callable[[Points], np.ndarray]


class Law(NamedTuple):
    """One law: whether it is kept; if not, by how much and where (mm, before the step)."""

    name: str
    kept: bool
    says: str
    short: str = ""
    place: tuple[float, float, float] | None = None


@dataclass(frozen=True)
class Tried:
    """What came of it: the picture, its words, the laws."""

    image: Image.Image
    alt: str
    sizes: str
    laws: tuple[Law, ...]
    bench: Any = None  # for whose prediction the picture waits: it would tell the answer

    def __str__(self) -> str:
        """Tell it in sentences, each on lines of its own."""
        lines = [self.sizes, *(f"{law.name}: {law.says}" for law in self.laws)]
        filled = (textwrap.fill(kept(line), WIDE) for line in lines)
        return plain("\n".join(filled))

    def _ipython_display_(self) -> None:
        """Show the picture in a notebook, and write the sentences under it."""
        from kit.course.views.said import put  # noqa: PLC0415  (widgets: only there)

        put(self.image, self.alt, self.bench)
        sys.stdout.write(f"{self}\n")


def try_out(
    step: Any, bar: Billet | None = None, *, strength: float = 1.0, bench: Any = None
) -> Tried:
    """Draw a bar before and after a step and tell which laws the step keeps.

    Parameters
    ----------
    step : (do, undo), or Step
        Two functions of ``x, y, z, strength`` that give ``x, y, z``: where the steel at a
        point goes, and where it came from; arrays, mm. Or a step of the kit.
    bar : Billet, optional
        Left out, the stack that the kit shows wherever nobody chose another.
    strength : float
        Handed to the formulas.
    bench : view, optional
        A lesson's, for its units and its light; the picture waits for the prediction.

    Raises
    ------
    KitError
        One sentence on anything wrong with the formulas; and when it was stopped.

    Examples
    --------
    >>> def do(x, y, z, strength):
    ...     return x + strength * z, y, z
    >>> def undo(x, y, z, strength):
    ...     return x - strength * z, y, z
    >>> print(try_out((do, undo), strength=0.5))
    Before: 150 × 38.1 × 27.0 mm. After: 163 × 38.1 × 27.0 mm.
    Taking it back: kept. Every bit of steel comes back to where it was.
    Volume: kept. No bit of steel swells or shrinks.
    Strength 0: kept. Nothing moves.
    """
    bar = Billet(source=demo_stack()) if bar is None else bar
    if not isinstance(bar, Billet):
        msg = f"Write try_out((do, undo), bar), with a Billet. Given: a {_kind(bar)}."
        raise KitError(msg)
    if not isinstance(strength, Real) or not math.isfinite(strength):
        msg = f"Strength must be a number. Given: {str(strength)[:40]}."
        raise KitError(msg)
    try:
        return _tried(_asked_for(step, float(strength)), bar, bench)
    except KeyboardInterrupt:
        msg = (
            "Stopped: the step had not come to an end. Look for a loop that never ends, "
            "change the formula and run the cell again; the bench is as it was."
        )
        raise KitError(msg) from None


def _asked_for(step: Any, strength: float) -> OwnStep | Step:
    if isinstance(step, Step):
        return step
    if not isinstance(step, (tuple, list)) or len(step) != 2:
        msg = (
            f"A step is two formulas, (do, undo), or one of the kit. Given: {_kind(step)}."
        )
        raise KitError(msg)
    return OwnStep(tuple(step), strength)


def _kind(thing: Any) -> str:
    return type(thing).__name__[:30]


def _tried(step: OwnStep | Step, bar: Billet, bench: Any) -> Tried:
    size = bar.size
    units, paper = Units.MM, {}
    if bench is not None:
        units, paper = bench.units, bench.looks.paper
    points, _ = _strewn(size)
    if isinstance(step, OwnStep):
        step.check_steady(points)
        step.nothing.check_steady(points)
    after = size_after(step, bar)
    laws = (
        _taken_back(step, size, units),
        _volume(step, bar, units),
        _strength_nothing(step, size, units),
    )
    marks = [
        Mark(law.short, law.place, _moved(step, law.place, size))
        for law in laws
        if law.place is not None
    ]
    image, alt = drawn(step, bar, after, marks, units, **paper)
    sizes = f"Before: {said(size, units)}. After: {said(after.size, units)}."
    return Tried(image, alt, sizes, laws, bench)


def _moved(step: OwnStep | Step, place: tuple, size: Size) -> tuple[float, float, float]:
    moved = step.do(tuple(np.array([part]) for part in place), size)
    return tuple(float(part[0]) for part in moved)


def _taken_back(step: OwnStep | Step, size: Size, units: Units) -> Law:
    """Tell whether undo undoes do."""

    def away(points: Points) -> np.ndarray:
        return _between(step.undo(step.do(points, size), size), points)

    worst, place, all_over = _worst(away, size)
    name = "Taking it back"
    if worst < LEAST:
        return Law(name, True, "kept. Every bit of steel comes back to where it was.")
    far = format_length(worst, units.fine)
    says = f"broken. {_at(place, all_over, units)} undo brings steel back {far} beside it."
    return Law(name, False, says, f"undo: {far} off", place)


def _volume(step: OwnStep | Step, bar: Billet, units: Units) -> Law:
    """Tell whether steel is neither made nor lost, at any place."""
    size = bar.size

    def grown(points: Points) -> np.ndarray:
        return _growth(lambda some: step.do(some, size), points)

    worst, place, all_over = _worst(lambda points: np.abs(grown(points)), size)
    name = "Volume"
    if worst < LEAST_SHARE:
        says = "kept. No bit of steel swells or shrinks."
        if isinstance(step, Step) and step.takes:
            gone = 1 - weight(bar.then(step)) / weight(bar)
            says += f" It takes steel away, {step.takes}: {100 * gone:.1f} % of the bar."
        return Law(name, True, says)
    share = float(grown(tuple(np.array([part]) for part in place))[0])
    how = "swells" if share > 0 else "shrinks"
    says = f"broken. {_at(place, all_over, units)} steel {how} by {abs(100 * share):.3g} %."
    return Law(name, False, says, f"volume: {100 * share:+.3g} %", place)


def _strength_nothing(step: OwnStep | Step, size: Size, units: Units) -> Law:
    """Tell whether nothing moves when nothing is asked."""
    name, nothing = "Strength 0", _nothing(step, size)
    if nothing is None:
        return Law(name, True, "not asked. This step is done or not done, never a little.")

    def moved(points: Points) -> np.ndarray:
        both = nothing.do(points, size), nothing.undo(points, size)
        return np.maximum(*(_between(one, points) for one in both))

    worst, place, all_over = _worst(moved, size)
    if worst < LEAST:
        return Law(name, True, "kept. Nothing moves.")
    far = format_length(worst, units.fine)
    says = f"broken. {_at(place, all_over, units)} steel moves by {far} all the same."
    return Law(name, False, says, f"strength 0: {far}", place)


def _nothing(step: OwnStep | Step, size: Size) -> OwnStep | Step | None:
    """Give the same step without strength, if it can have none."""
    if isinstance(step, OwnStep):
        return step.nothing
    if step.nothing is None:
        return None
    values = step.nothing.items()
    return type(step)(**{key: v(size) if callable(v) else v for key, v in values})


def _at(place: tuple, all_over: bool, units: Units) -> str:
    words = where_is(place, units)
    return f"Everywhere, as here, {words}," if all_over else f"Worst at {words}:"


def _between(one: Points, other: Points) -> np.ndarray:
    return np.sqrt(sum((a - b) ** 2 for a, b in zip(one, other, strict=True)))


def _growth(do: Callable[[Points], Points], points: Points) -> np.ndarray:
    """Tell how much larger (1 = twice) a crumb of steel becomes; 0 on a crease."""
    middle = np.array(do(points))
    slopes, smooth = [], np.ones(points[0].shape, bool)
    for axis in range(3):
        ahead, back = (
            np.array(
                do(tuple(p + sign * NUDGE * (n == axis) for n, p in enumerate(points)))
            )
            for sign in (1, -1)
        )
        one, other = (ahead - middle) / NUDGE, (middle - back) / NUDGE
        bend = np.abs(one - other).max(axis=0)
        smooth &= bend <= CREASE * (1 + np.abs(one).max(axis=0))
        slopes.append((one + other) / 2)
    if smooth.mean() < 0.5 and smooth.size > 1:
        msg = (
            "do jumps from place to place, so no volume can be measured. Allowed: a "
            "formula that runs on evenly, but for a few creases."
        )
        raise KitError(msg)
    volume = np.abs(np.linalg.det(np.array(slopes).transpose(2, 1, 0)))
    return np.where(smooth, volume - 1, 0.0)


def _worst(measure: Measure, size: Size) -> tuple[float, tuple, bool]:
    """Find the largest of a measure in the bar, its place, and whether all is alike.

    Of places as bad as each other, the one nearest the bar's middle is given.
    """
    points, spacing = _strewn(size)
    found = measure(points)
    all_over = bool(found.min() >= ALIKE * found.max())
    for _ in range(CLOSER[1]):
        best = _nearest_middle(points, found, size)
        points = _around(tuple(float(axis[best]) for axis in points), spacing, size)
        spacing /= (CLOSER[0] - 1) / 2
        found = measure(points)
    best = _nearest_middle(points, found, size)
    return float(found[best]), tuple(float(axis[best]) for axis in points), all_over


def _nearest_middle(points: Points, found: np.ndarray, size: Size) -> int:
    x, y, z = points
    away = (x - size.length / 2) ** 2 + y**2 + z**2
    return int(np.argmin(np.where(found >= found.max() * (1 - TIE), away, np.inf)))


def _strewn(size: Size) -> tuple[Points, float]:
    """Strew points through a bar, and say how far apart they are, mm."""
    spacing = (size.length * size.width * size.thickness / POINTS) ** (1 / 3)
    lows = (0.0, -size.width / 2, -size.thickness / 2)
    sides = []
    for low, long in zip(lows, size, strict=True):
        count = 2 * max(2, math.ceil(long / spacing / 2)) + 1
        sides.append(np.linspace(low + EDGE, low + long - EDGE, count))
    return _inside(np.meshgrid(*sides), size), spacing


def _around(place: tuple, spacing: float, size: Size) -> Points:
    """Strew points as closely as can be told apart around one of them, and keep it."""
    share = np.linspace(-1, 1, CLOSER[0])
    lows = (0.0, -size.width / 2, -size.thickness / 2)
    sides = [
        np.clip(at - ASIDE + spacing * share, low + EDGE, low + long - EDGE)
        for at, low, long in zip(place, lows, size, strict=True)
    ]
    near = _inside(np.meshgrid(*sides), size)
    return tuple(np.append(axis, at) for axis, at in zip(near, place, strict=True))


def _inside(points: Any, size: Size) -> Points:
    """Keep what lies in the bar, a hair beside its axis and middle."""
    x, y, z = (axis.ravel() for axis in points)
    if size.round:
        within = np.hypot(y / size.width, z / size.thickness) <= 0.5 - EDGE
        x, y, z = x[within], y[within], z[within]
    return x + ASIDE, y + ASIDE, z + ASIDE
