"""Make this: four faces to make oneself, judged on what the bar on the anvil really gives.

Each asks for some properties, measured by `kit.course.anvil.judge`, within limits that are
said on the page. No bar is compared with another: the one that is drawn is only an example,
and is judged like any other. A bar may lie on any of its sides.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

from kit.basics.errors import KitError
from kit.basics.units import Units, format_length
from kit.course.anvil import judge, void
from kit.course.anvil.acts import Laid
from kit.course.anvil.look import Look
from kit.course.anvil.void import Flaws
from kit.course.worded import words_beside
from kit.forge.billet import Billet
from kit.forge.stack import Stack
from kit.forge.steps import (
    CutAndStack,
    DrawOut,
    Grind,
    QuarterTurn,
    RoundUp,
    SquareUp,
    Twist,
)

Values = tuple[float, ...]  # of one property, of each side of a seam; none: not there
ALIKE = 1e-9  # nobody comes nearer by less
NONE = "not there"


class Seen:
    """A bar as it is measured: its face, how the lines run on it, its open welds."""

    def __init__(self, bar: Billet, flaws: Flaws = ()) -> None:
        self.bar, self.flaws, self.height = bar, flaws, judge.face_height(bar)

    @property
    def open_welds(self) -> int:
        """How many welds that did not take its end still shows, to a pixel or two."""
        one_by_one = (
            [[flaw] if at == level else [] for at in range(len(self.flaws))]
            for level, some in enumerate(self.flaws)
            for flaw in some
        )
        return sum(void.seen(self.bar, one) for one in one_by_one)

    @cached_property
    def sides(self) -> tuple[judge.Side, ...]:
        """The parts of its face on which the lines slant one way."""
        return judge.sides(self.bar, self.height)

    @cached_property
    def through(self) -> judge.Bands | None:
        """The bands on its end."""
        return judge.through(self.bar)

    def on_each_side(self, measure: Callable) -> Values:
        """Measure along the middle line of each side; none if one of them has none."""
        found = [measure(self.bar, self.height, side.aside) for side in self.sides]
        return () if None in found else tuple(found)


@dataclass(frozen=True)
class Wanted:
    """One property that is asked for.

    Parameters
    ----------
    name : str
        As a sentence names it: "the lines' slant".
    measure : callable
        From a `Seen` to its values.
    low, high : float
        What it may be, these limits too; mm or degrees.
    unit : str
        "mm", "°", or nothing for a count.
    """

    name: str
    measure: Callable[[Seen], Values]
    low: float
    high: float
    unit: str = ""

    def off(self, values: Values) -> float:
        """Say how far beyond its limits the worst value lies; 0 if none does."""
        beyond = (max(self.low - one, one - self.high, 0.0) for one in values)
        return max(beyond, default=math.inf)

    def worst(self, values: Values, units: Units) -> str:
        """Write the value that is farthest off."""
        if not values:
            return NONE
        return self.shown(max(values, key=lambda one: self.off((one,))), units)

    def shown(self, value: float, units: Units) -> str:
        """Write one value."""
        if self.unit == "mm":
            return format_length(value, units.fine)
        return f"{value:.3g}{self.unit}"

    def limits(self, units: Units) -> str:
        """Write what it may be."""
        if self.low == self.high:
            return f"just {self.shown(self.low, units)}"
        if not self.low:
            return f"at most {self.shown(self.high, units)}"
        return f"{self.shown(self.low, units)} to {self.shown(self.high, units)}"


@dataclass(frozen=True)
class Judged:
    """What became of a bar.

    Parameters
    ----------
    wanted : tuple of Wanted
    values : tuple of Values
        Of each property that is wanted.
    turned : int
        By how many quarters the bar was turned to be it.
    """

    wanted: tuple[Wanted, ...]
    values: tuple[Values, ...]
    turned: int = 0

    @property
    def offs(self) -> tuple[float, ...]:
        """How far each property is off."""
        return tuple(w.off(v) for w, v in zip(self.wanted, self.values, strict=True))

    @property
    def met(self) -> bool:
        """Whether it is what was asked for."""
        return not any(self.offs)

    def told(self, before: Judged | None, units: Units = Units.MM) -> str:
        """Say why a bar is not it; after another try, whether it is nearer, and why.

        First the property is named that is off, then or now, and has changed; after it
        all others that are off.
        """
        first = self._named(before)
        others = (place for place, off in enumerate(self.offs) if off and place != first)
        more = (
            f" And {wanted.name} is {wanted.worst(self.values[place], units)}; "
            f"wanted: {wanted.limits(units)}."
            for place in others
            for wanted in (self.wanted[place],)
        )
        return self._first_told(first, before, units) + "".join(more)

    def _first_told(self, place: int, before: Judged | None, units: Units) -> str:
        wanted, now = self.wanted[place], self.values[place]
        limits, value = wanted.limits(units), wanted.worst(now, units)
        if before is None:
            return f"Not yet, because {wanted.name} is {value}; wanted: {limits}."
        way = _way(before.offs[place], self.offs[place])
        if not way:
            return f"No nearer, because {wanted.name} is {value} still; wanted: {limits}."
        old = wanted.worst(before.values[place], units)
        return (
            f"{way}, because {wanted.name} is {value} now and was {old}; wanted: {limits}."
        )

    def _named(self, before: Judged | None) -> int:
        unmet = [place for place, off in enumerate(self.offs) if off]
        if before is None:
            return unmet[0]
        pairs = enumerate(zip(before.offs, self.offs, strict=True))
        changed = [place for place, (old, new) in pairs if _way(old, new)]
        return (changed or unmet)[0]


def _way(before: float, now: float) -> str:
    if before == now or abs(before - now) <= ALIKE:
        return ""
    return "Nearer" if now < before else "Further"


@dataclass(frozen=True)
class Task:
    """One face to make.

    Parameters
    ----------
    name, asks : str
        What is asked for in one sentence; lengths in mm.
    wanted : tuple of Wanted
        The first is the one to mend first.
    look : Look
        At what the bar is looked at.
    example : callable
        Makes a bar that is it, to be drawn and for nothing else.
    hints : tuple of str
        How many layers that takes; what makes it.
    why : str
        Why it is so, to be read after it was made.
    quarters : int
        On how many of its sides the bar may lie: 2 or 4.
    """

    name: str
    asks: str
    wanted: tuple[Wanted, ...]
    look: Look
    example: Callable[[], Billet]
    hints: tuple[str, str]
    why: str
    quarters: int = 4

    def judged(self, bar: Billet, flaws: Flaws = ()) -> Judged:
        """Judge a bar on the first of its sides that is it; else as it lies.

        Raises
        ------
        KitError
            A bar that takes too long to measure.
        """
        judge.refuse_long(bar)
        as_it_lies = self._measured(Seen(bar, flaws), 0)
        for turned in range(1, 1 if as_it_lies.met else self.quarters):
            try:
                seen = Seen(lying(bar, turned), flaws)
            except KitError:  # as many steps as there can be: it stays as it lies
                break
            if not any(one.off(one.measure(seen)) for one in self.wanted):
                return self._measured(seen, turned)
        return as_it_lies

    def _measured(self, seen: Seen, turned: int) -> Judged:
        return Judged(self.wanted, tuple(one.measure(seen) for one in self.wanted), turned)


def lying(bar: Billet, quarters: int) -> Billet:
    """Turn a bar by so many quarters."""
    return bar.then(QuarterTurn(quarters=quarters)) if quarters else bar


def _one(value: float | None) -> Values:
    return () if value is None else (value,)


def _slants(seen: Seen) -> Values:
    return tuple(abs(side.slant) for side in seen.sides)


def _seams(seen: Seen) -> Values:
    hands = [side.slant > 0 for side in seen.sides]
    return (float(sum(one != other for one, other in pairwise(hands))),)


BANDS = Wanted(
    "the number of bands", lambda seen: _one(seen.through and seen.through.number), 28, 36
)
THICK = Wanted(
    "a band's thickness",
    lambda seen: _one(seen.through and seen.through.each),
    0.4,
    0.6,
    "mm",
)
LEAN = Wanted("the layers' lean", lambda seen: (judge.lean_on_end(seen.bar),), 0, 3, "°")
ONE_HAND = Wanted("the number of seams", _seams, 0, 0)
ONE_SEAM = Wanted("the number of seams", _seams, 1, 1)
SLANT = Wanted("the lines' slant", _slants, 36, 44, "°")
GENTLE = Wanted("the lines' slant", _slants, 26, 34, "°")
EVERY = Wanted(
    "the distance from band to band",
    lambda seen: seen.on_each_side(judge.line_every),
    2,
    3,
    "mm",
)
STARS = Wanted(
    "the distance from star to star",
    lambda seen: seen.on_each_side(judge.stars_apart),
    18,
    22,
    "mm",
)
WHOLE = Wanted("the number of open welds", lambda seen: (float(seen.open_welds),), 0, 0)
ACROSS = Wanted(
    "the number of bands across the seam",
    lambda seen: _one(judge.bands_across(seen.bar, seen.height)),
    12,
    16,
)


def _stacked(pieces: int, thickness: float) -> Billet:
    stack = Stack.alternate(
        "1084", "15N20", pieces=pieces, thickness=thickness, length=150, width=38
    )
    return Billet(source=stack)


def _twisted(pieces: int, thickness: float, side: float, turn: float) -> Billet:
    return _stacked(pieces, thickness).then(
        DrawOut(thickness=side, width=side), RoundUp(), Twist(turn_length=turn), SquareUp()
    )


def _chevrons() -> Billet:
    laid = Laid(pieces=2, turned="every second of the other hand")
    return laid.done_to(_twisted(11, 2.5, 15, 58.06)).then(Grind(top=3))


WORDS = words_beside(__file__)
TASKS = (
    Task(
        **WORDS["FLAT_BANDS"],
        wanted=(BANDS, THICK, LEAN, WHOLE),
        look=Look(kind="end"),
        example=lambda: _stacked(8, 3).then(CutAndStack(pieces=4), DrawOut(thickness=16)),
        quarters=2,
    ),
    Task(
        **WORDS["ONE_SLANT"],
        wanted=(SLANT, ONE_HAND, EVERY, WHOLE),
        look=Look(kind="face"),
        example=lambda: _twisted(21, 1.5, 15, 98),
    ),
    Task(
        **WORDS["STARS"],
        wanted=(STARS, GENTLE, ONE_HAND, WHOLE),
        look=Look(kind="face"),
        example=lambda: _twisted(11, 2.5, 16, 40).then(Grind(top=4.4)),
    ),
    Task(
        **WORDS["CHEVRONS"],
        wanted=(ONE_SEAM, GENTLE, ACROSS, WHOLE),
        look=Look(kind="face"),
        example=_chevrons,
    ),
)
