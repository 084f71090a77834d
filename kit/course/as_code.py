"""The bench's second face: the lines of Python that make exactly what is shown.

Only what differs from the defaults is written. What a recipe brought is written as what
it is, a number or a quoted word, so that a hostile one stays data.
"""

from __future__ import annotations

import dataclasses
import itertools
import math
from collections.abc import Iterable, Sequence
from fractions import Fraction
from inspect import signature
from itertools import takewhile
from typing import Any

import kit
from kit.basics.declare import Declared
from kit.basics.typed import MM_PER_INCH, parse_length
from kit.basics.units import FIGURES, Units, format_length, in_figures
from kit.forge.billet import Billet
from kit.forge.bundle import Bundle
from kit.forge.stack import Stack
from kit.forge.steps import Size
from kit.section.surface import LEAST_ANGLE, Plane, cut, cut_normal

WIDE = 88  # letters in a line
MOST_PARTS = 10_000  # of a number that is told as a fraction
FINEST_INCH = 96  # of an inch: a pixel, by the CSS definition; rules have 64
MOST_LEADS = 4  # steps that may be done over and over, told as one
INDENT = "    "


def as_code(billet: Billet, surface: Any = None) -> str:
    """Write the lines of Python that make a bar, and what is looked at.

    Parameters
    ----------
    billet : Billet
    surface : optional
        A `Plane`, `Block` or `Blade` of it.

    Returns
    -------
    str
        Lines that leave the bar in ``bar`` and the surface in ``face``, and show them.

    Examples
    --------
    >>> from kit import Fold
    >>> nine = Stack.alternate("1084", "15N20", pieces=9, thickness=4)
    >>> bar = Billet(source=nine).then(Fold())
    >>> print(as_code(bar, cut(bar, angle=30)))
    from kit import Billet, Fold, Stack, cut, show
    <BLANKLINE>
    stack = Stack.alternate("1084", "15N20", pieces=9, thickness=4)
    bar = Billet(source=stack).then(Fold())
    face = cut(bar, angle=30)
    show(bar, face)
    """
    return _Writer().written(billet, surface)


def call_as_code(job: Declared) -> str:
    """Write the lines that make a lesson's picture, where it is worked out and not forged.

    Parameters
    ----------
    job : Lesson
        Only what differs from the beginning is written.
    """
    lesson, writer = type(job), _Writer()
    head = _Told(f"{lesson.__name__}.scene(", writer.fields(job), ").image")
    place = f"from {lesson.__module__} import {lesson.__name__}"
    return "\n".join([place, "", *head.lines("picture = "), "picture"])


class _Writer:
    """Writes one bar, and remembers what was named on the way."""

    def __init__(self) -> None:
        self.places: dict[str, set[str]] = {}  # from a module to the names taken from it
        self.lines: list[str] = []
        self.named: list[tuple[Any, str]] = []  # what has a name in the code already

    def written(self, billet: Billet, surface: Any) -> str:
        self._bar(billet, "bar")
        if surface is not None:
            self.named = [(billet.size, "bar.size"), *self.named]
            self._let("face", self._surface(billet, surface))
            self._take("show")
            self.lines.append("show(bar, face)")
        taken = [
            line
            for place, names in sorted(self.places.items(), key=_from_python_first)
            for line in _import(place, sorted(names))
        ]
        return "\n".join([*taken, "", *self.lines])

    def _take(self, name: str, module: str = "") -> str:
        """Note that a name is needed, and give it."""
        place = "kit" if name in kit.__all__ else module
        self.places.setdefault(place, set()).add(name)
        return name

    def _let(self, name: str, told: _Told) -> None:
        self.lines += told.lines(f"{name} = ")

    def _bar(self, billet: Billet, name: str) -> None:
        """Write a bar and all that it is laid of, under a name."""
        source, (begun, done) = self._source(billet, name), self._begun(billet)
        if not begun:
            begun = f"{self._take('Billet')}(source={source})"
        made = _Told(begun)
        if billet.steps[done:]:
            steps = [self._value(step) for step in billet.steps[done:]]
            made = _Told(f"{begun}.then(", _gathered(steps), ")")
        self._let(name, made)
        self.named.append((billet, name))

    def _begun(self, billet: Billet) -> tuple[str, int]:
        """Find what has a name and begins as this bar does; how many steps it has."""
        starts = [
            (name, len(one))
            for one, name in self.named
            if isinstance(one, Billet) and one.source == billet.source
            if one.steps and one.steps == billet.steps[: len(one)]
        ]
        return max(starts, key=lambda start: start[1], default=("", 0))

    def _source(self, billet: Billet, name: str) -> str:
        """Write a stack, or a bundle's bars, and give its name."""
        source = billet.source
        known = self._known(source)
        if known:
            return known
        if isinstance(source, Bundle):
            for place, start in enumerate(_starts(source.bars)):
                begun = f"begun_{'abcdefghijklmnop'[place]}" if place else "begun"
                self._part(start, begun if name == "bar" else f"{name}_{begun}")
            bars = [self._part(bar, f"{name}_{n}") for n, bar in enumerate(source.bars, 1)]
            fields = self.fields(source, leave_out={"bars"})
            one = "," * (len(bars) == 1)
            told = _Told(f"bars=({', '.join(bars)}{one})")
            kind = type(source)
            made = _Told(
                f"{self._take(kind.__name__, kind.__module__)}(", [told, *fields], ")"
            )
            called = "bundle" if name == "bar" else f"{name}_bundle"
        else:
            made = self._stack(source)
            first = all(called != "stack" for _one, called in self.named)
            called = "stack" if first else f"{name}_stack"
        self._let(called, made)
        self.named.append((source, called))
        return called

    def _part(self, bar: Billet, name: str) -> str:
        known = self._known(bar)
        if not known:
            self._bar(bar, name)
        return known or name

    def _known(self, value: Any) -> str:
        """Give the name of what is in the code already; nothing if it is not."""
        return next(
            (name for one, name in self.named if type(one) is type(value) and one == value),
            "",
        )

    def _stack(self, stack: Stack) -> _Told:
        """Write two steels in turn as a smith says it, any other stack bar by bar."""
        self._take("Stack")
        rest = self.fields(stack, leave_out={"layers"})
        first, second, *_ = (*stack.layers, None, None)
        if second and len(stack.layers) > 2:
            thick = (first.thickness, second.thickness)
            whole = {"length": stack.length, "width": stack.width, "thickness": thick}
            pieces = len(stack.layers)
            made = Stack.alternate(first.steel, second.steel, pieces=pieces, **whole)
            if made == stack:
                steels = [self._value(first.steel), self._value(second.steel)]
                said = [_Told(f"pieces={len(stack.layers)}"), self._each(stack, thick)]
                return _Told("Stack.alternate(", [*steels, *said, *rest], ")")
        bars = _gathered([self._value(layer) for layer in stack.layers])
        told = _Told("layers=(", bars, ",)" if len(bars) == 1 else ")")
        return _Told("Stack(", [told, *rest], ")")

    def _each(self, stack: Stack, thick: tuple[float, float]) -> _Told:
        """Write how thick its bars are; as a share if only the whole stack is round."""
        one, pieces = thick[0], len(stack.layers)
        whole = float(f"{one * pieces:.12g}")
        if thick[1] != one:
            told = self._value(thick)
        elif float(_decimal(one)) != one == whole / pieces:
            told = _Told(f"{self._number(whole)} / {pieces}")
        else:
            told = self._value(one)
        return told.after("thickness=")

    def _surface(self, billet: Billet, surface: Any) -> _Told:
        """Write a saw's cut as one; any other surface by its values."""
        if isinstance(surface, Plane):
            sawn = _sawn(billet, surface)
            if sawn:
                self._take("cut")
                given = [self._value(sawn[key]).after(f"{key}=") for key in sawn]
                return _Told("cut(", [_Told("bar"), *given], ")")
        return self._value(surface)

    def _value(self, value: Any) -> _Told:
        known = self._known(value) if isinstance(value, (Size, Billet)) else ""
        if known:
            return _Told(known)
        told, parts = isinstance(value, Declared) or dataclasses.is_dataclass(value), ()
        if isinstance(value, (tuple, list)):
            parts = [self._value(part) for part in value]
        if told or hasattr(value, "_fields"):
            name = self._take(type(value).__name__, type(value).__module__)
            return _Told(f"{name}(", self.fields(value) if told else parts, ")")
        if isinstance(value, (tuple, list)):
            row = _Told("(", parts, ",)" if len(parts) == 1 else ")")
            return self._leaning(value) or row
        return _Told(self._number(value) if isinstance(value, float) else _quoted(value))

    def _number(self, value: float) -> str:
        """Write a decimal if it is short, inches as typed, else the parts: 16 / 33."""
        short = _decimal(value)
        if float(short) == value or not math.isfinite(value):
            return short if float(short) == value else repr(value)
        inches = value / MM_PER_INCH
        parts = Fraction(inches).limit_denominator(FINEST_INCH)
        mixed = format_length(value, Units.INCH_FRACTION)
        for said in (mixed, f"{parts} in", f"{_decimal(inches)} in"):
            if parse_length(said) == value:
                return f'{self._take("parse_length", "kit.basics.typed")}("{said}")'
        part = Fraction(value).limit_denominator(MOST_PARTS)
        said = f"{part.numerator} / {part.denominator}"
        exact = part and part.numerator / part.denominator == value
        return said if exact and len(said) < len(repr(value)) else repr(value)

    def _leaning(self, way: Sequence[Any]) -> _Told | None:
        """Write a direction that leans by a round angle as that; None if it does not.

        Its sine and cosine are no short numbers, and rounded they would be another's.
        """
        lean = [abs(part) for part in way if isinstance(part, float) and part]
        for up, along in itertools.permutations(lean) if len(lean) == 2 else ():
            angle = _decimal(math.degrees(math.atan2(up, along)))
            turned = math.radians(float(angle))
            if (math.sin(turned), math.cos(turned)) != (up, along):
                continue
            if tuple(way) == (up, 0.0, along):  # as a saw's cut has it
                return _Told(f"{self._take('cut_normal', cut_normal.__module__)}({angle})")
            for name in ("cos", "radians", "sin"):
                self._take(name, "math")
            words = {up: f"sin(radians({angle}))", along: f"cos(radians({angle}))"}
            return _Told(
                "(",
                [_Told("-" * (part < 0) + words.get(abs(part), "0")) for part in way],
                ")",
            )
        return None

    def fields(self, value: Any, leave_out: Iterable[str] = ()) -> list[_Told]:
        """Write what differs from the defaults."""
        found = []
        for name, default in _defaults(value):
            own = getattr(value, name)
            usual = own == default and isinstance(own, bool) == isinstance(default, bool)
            if name in leave_out or usual or _found(value, name, default):
                continue
            found.append(self._value(own).after(f"{name}="))
        return found


def _starts(bars: Sequence[Billet]) -> list[Billet]:
    """Give what unlike bars have in common, shortest first: told once, they go on."""
    unlike, found = list(dict.fromkeys(bars)), []
    for bar in unlike:
        alike = [one for one in unlike if one is not bar and one.source == bar.source]
        start = bar[: max((_shared(bar.steps, one.steps) for one in alike), default=0)]
        if start.steps and start not in found and start not in unlike:
            found.append(start)
    return sorted(found, key=len)


def _shared(some: Sequence[Any], others: Sequence[Any]) -> int:
    """Count with how many alike two rows begin."""
    pairs = zip(some, others, strict=False)
    return sum(1 for _ in takewhile(lambda pair: pair[0] == pair[1], pairs))


@dataclasses.dataclass(frozen=True)
class _Told:
    """A piece of code: words, or words around parts that may have lines of their own."""

    head: str
    parts: Sequence[_Told] = ()
    foot: str = ""

    def after(self, words: str) -> _Told:
        return dataclasses.replace(self, head=words + self.head)

    @property
    def flat(self) -> str:
        return self.head + ", ".join(part.flat for part in self.parts) + self.foot

    def lines(self, before: str = "", deep: int = 0) -> list[str]:
        """Break what is too long for a line, part by part."""
        indent = INDENT * deep
        whole = f"{indent}{before}{self.flat}"
        if len(whole) < WIDE or not self.parts:  # a comma may follow
            return [whole]
        inner = []
        for part in self.parts:
            *above, last = part.lines(deep=deep + 1)
            inner += [*above, f"{last},"]
        return [f"{indent}{before}{self.head}", *inner, f"{indent}{self.foot.lstrip(',')}"]


def _from_python_first(taken: tuple[str, set[str]]) -> tuple[bool, str]:
    return taken[0].startswith("kit"), taken[0]


def _import(place: str, names: list[str]) -> list[str]:
    line = f"from {place} import {', '.join(names)}"
    if len(line) <= WIDE:
        return [line]
    told = _Told(f"from {place} import (", [_Told(name) for name in names], ")")
    return told.lines()


def _gathered(parts: list[_Told]) -> list[_Told]:
    """Tell what is done over and over as one: ``*[Fold(), DrawOut(…)] * 5``."""
    found, place = [], 0
    flat = [part.flat for part in parts]
    while place < len(parts):
        for long in range(1, MOST_LEADS + 1):
            lead, times = flat[place : place + long], 1
            while flat[place + times * long : place + (times + 1) * long] == lead:
                times += 1
            if times > 2:
                group = parts[place : place + long]
                found.append(_Told("*[", group, f"] * {times}"))
                place += times * long
                break
        else:
            found.append(parts[place])
            place += 1
    return found


def _defaults(value: Any) -> list[tuple[str, Any]]:
    """Give the names of what a value is made of, each with what it is if left out."""
    if isinstance(value, Declared):
        return [(name, field.default) for name, field in type(value).model_fields.items()]
    return [(part.name, part.default) for part in dataclasses.fields(value) if part.init]


def _found(value: Any, name: str, default: Any) -> bool:
    """Tell whether a surface, left alone, finds just this value by itself."""
    if default is not None or not dataclasses.is_dataclass(value):
        return False
    return dataclasses.replace(value, **{name: None}) == value


def _sawn(billet: Billet, surface: Plane) -> dict[str, float]:
    """Find the saw's angle and place that give just this cut; nothing if none does."""
    up, size = surface.up, billet.size
    angle = math.degrees(math.atan2(up[2], -up[0]))
    position = 100 * surface.centre[0] / size.length
    if not LEAST_ANGLE <= angle <= 90:
        return {}
    usual = {name: part.default for name, part in signature(cut).parameters.items()}
    for figures in (3, FIGURES):
        given = {
            "angle": in_figures(angle, figures),
            "position": in_figures(position, figures),
            "columns": surface.columns,
            "rows": surface.rows,
            "pixel": surface.pixel,
        }
        if cut(billet, **given) == surface:
            return {key: value for key, value in given.items() if usual[key] != value}
    return {}


def _decimal(value: float) -> str:
    """Write a number in as many figures as are told."""
    return f"{value:.{FIGURES}g}"


def _quoted(value: Any) -> str:
    """Write words in quotes, anything else as Python does."""
    if isinstance(value, str):
        quoted = repr(str(value))
        return f'"{quoted[1:-1]}"' if quoted[0] == "'" and '"' not in quoted else quoted
    return repr(value)
