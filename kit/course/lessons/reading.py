"""Lesson 11: read a face backwards. Two measurements, two unknowns; a third checks."""

from __future__ import annotations

from functools import cached_property, lru_cache
from typing import ClassVar

import numpy as np

from kit.basics.declare import choice, quantity
from kit.basics.errors import KitError
from kit.basics.units import Units, format_length
from kit.course.lessons.job import Job as Base
from kit.course.lessons.reading_ideas import height
from kit.forge.billet import Billet
from kit.forge.stack import Stack
from kit.forge.steps import GrindRound, Twist
from kit.metal import etch
from kit.section.surface import Plane
from kit.section.trace import Face, see

LAYER = 0.5  # mm, of every bar here
LENGTH = 120.0
SHOWN, WIDE = 100.0, 10.0  # mm of a face, that was trimmed to one width
COLUMNS, ROWS = 940, 94
DARK = min(etch.tones(("1084", "15N20")).values())  # plain steel: illustrative
PRINTED = 0.05  # mm: so deep does a print go; illustrative, as in lesson 06

# What lies on the bench, and nobody is told.
TURN, ACROSS, LEAN = 44.0, 16.5, 38.0
HEIGHT = height(TURN / 2, LEAN)
THICKER = 20.5  # another bar that gives the same face

MAKINGS = ("my guess", "a thicker bar, ground deeper", "a print, skin deep")
GUESS, THICK, PRINT = range(3)
EVIDENCE = ("the face alone", "its back, not ground", "its end")
FACE, BACK, END = range(3)


@lru_cache(maxsize=8)
def bar(across: float, turn: float) -> Billet:
    """Twist a round bar of layers all alike, a dark one on its axis.

    Parameters
    ----------
    across : float
        Diameter, mm; taken as the nearest that layers of `LAYER` fill with a dark one
        in the middle: 8.5, 10.5, 12.5 …
    turn : float
        Length for one turn, mm.
    """
    layers = 4 * round((across / LAYER - 1) / 4) + 1
    square = Stack.alternate(
        "1084",
        "15N20",
        pieces=layers,
        thickness=LAYER,
        length=LENGTH,
        width=layers * LAYER,
    )
    return Billet(source=square).then(GrindRound(), Twist(turn_length=turn))


class Job(Base):
    """What was measured on the unknown face, and what is guessed of its making."""

    start: float = quantity(
        "Ruler, from", "the left end of the ruler", low=0, high=99, unit="mm", default=10
    )
    end: float = quantity(
        "Ruler, to", "the right end of the ruler", low=1, high=100, unit="mm", default=40
    )
    lean: float = quantity(
        "Protractor", "the line in the middle of the ruler", low=0, high=80, unit="°",
        default=20,
    )  # fmt: skip
    turn: float = quantity(
        "One turn", "length of a turn, as you think", low=20, high=120, unit="mm",
        default=30,
    )  # fmt: skip
    across: float = quantity(
        "Bar across", "before grinding, as you think", low=8.5, high=28.5, unit="mm",
        default=12.5,
    )  # fmt: skip
    ground: float = quantity(
        "Ground off", "from the top, as you think", low=0, high=14, unit="mm", default=2
    )
    overlay: float = quantity(
        "Lay it over", "your bar over the unknown", low=0, high=100, unit="%", default=0
    )
    deeper: float = quantity(
        "Grind both deeper", "and etch again", low=0, high=2, unit="mm", default=0
    )
    making: int = choice("Could anything else make this?", MAKINGS)
    evidence: int = choice("Look at", EVIDENCE)

    gives: ClassVar = ("start", "end", "ground")

    def check(self, units: Units) -> None:
        """Refuse a ruler that runs backwards, and to grind beyond the axis."""
        if self.ruled < 1:
            start, end = (format_length(part, units) for part in (self.start, self.end))
            msg = (
                "The ruler runs from left to right and is at least "
                f"{format_length(1, units)} long. Given: from {start} to {end}."
            )
            raise KitError(msg)
        if self.ground > self.across / 2:
            half, ground = (
                format_length(part, units) for part in (self.across / 2, self.ground)
            )
            msg = f"At most half the bar, {half}, can be ground off. Given: {ground}."
            raise KitError(msg)

    @property
    def ruled(self) -> float:
        """What the ruler says, mm."""
        return self.end - self.start

    @property
    def size(self) -> tuple[float, float]:
        """Diameter and length of a turn of the bar that is compared, mm."""
        if self.making == GUESS:
            return self.across, self.turn
        return (THICKER if self.making == THICK else ACROSS), TURN

    @property
    def level(self) -> float:
        """How high above its axis the compared face lies, mm."""
        first = self.across / 2 - self.ground if self.making == GUESS else HEIGHT
        return max(first - self.deeper, 0.0)

    @property
    def bar(self) -> Billet:
        """The bar that is compared."""
        return bar(*self.size)

    @property
    def unknown(self) -> Billet:
        """The bar on the bench."""
        return bar(ACROSS, TURN)

    @property
    def printed_through(self) -> bool:
        """Whether the compared bar is a print that was ground away."""
        return self.making == PRINT and self.deeper >= PRINTED

    @cached_property
    def faces(self) -> tuple[Face, Face]:
        """The unknown face and the compared one, both ground deeper alike."""
        ours = self._printed if self.making == PRINT else face(self.bar, self.level)
        return face(self.unknown, HEIGHT - self.deeper), ours

    @property
    def _printed(self) -> Face:
        there = face(self.unknown, HEIGHT)
        return there.plain(DARK) if self.printed_through else there

    @property
    def match(self) -> float:
        """Share of the two faces, 0 … 1, that is the same steel; half is chance."""
        one, other = self.faces
        dark, bright = sorted(etch.tones(self.unknown.source.steels).values())
        apart = np.abs(one.tone - other.tone) / (bright - dark)
        both = np.minimum(one.cover, other.cover)
        either = np.maximum(one.cover, other.cover)
        return float((both * (1 - apart)).sum() / either.sum())


@lru_cache(maxsize=8)
def face(billet: Billet, level: float) -> Face:
    """See the trimmed face from above: from where the twist began, to the right."""
    surface = Plane(
        size=billet.size,
        centre=(SHOWN / 2, 0.0, level),
        right=(1.0, 0.0, 0.0),
        up=(0.0, 1.0, 0.0),
        columns=COLUMNS,
        rows=ROWS,
        pixel=SHOWN / COLUMNS,
    )
    return see(billet, surface, etch.tones(billet.source.steels))
