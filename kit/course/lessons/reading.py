"""Lesson 11: read a face backwards. Two measurements, two unknowns; a third checks."""

from functools import cached_property, lru_cache
from typing import Any, ClassVar

import numpy as np
from PIL import Image

from kit.basics.declare import choice, quantity
from kit.basics.errors import KitError
from kit.basics.units import Units, format_length
from kit.course.lessons import reading_drawing as drawn
from kit.course.lessons import reading_ideas as ideas
from kit.course.lessons.base import Lesson
from kit.course.lessons.reading_drawing import (
    DARK,
    EVIDENCE,
    GUESS,
    LEAN,
    PRINT,
    THICK,
    TURN,
    face,
)
from kit.course.lessons.reading_ideas import height
from kit.course.lessons.scene import Number, Part, Scene
from kit.course.lessons.twist_drawing import from_above
from kit.forge.billet import Billet
from kit.forge.stack import Stack
from kit.forge.steps import GrindRound, Twist
from kit.metal import etch
from kit.metal.described import Described
from kit.section.picture import QUIET, Sheet
from kit.section.trace import Face

LAYER = 0.5  # mm, of every bar here
LENGTH = 120.0
PRINTED = 0.05  # mm: so deep does a print go; illustrative, as in lesson 06
SHEET = (1000, 474)
TILE = (200, 150)

# What lies on the bench, and nobody is told.
ACROSS = 16.5
HEIGHT = height(TURN / 2, LEAN)
THICKER = 20.5  # another bar that gives the same face
BARS = tuple(8.5 + 2 * part for part in range(11))  # a dark layer on the axis

MAKINGS = ("my guess", "a thicker bar, ground deeper", "a print, skin deep")
GIVES = (
    "What your guess gives",
    "What a thicker bar gives, ground deeper",
    "What a print on plain steel gives",
)


@lru_cache(maxsize=64)
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
        "1084", "15N20", pieces=layers, thickness=LAYER, length=LENGTH, width=layers * LAYER
    )
    return Billet(source=square).then(GrindRound(), Twist(turn_length=turn))


def tile(turn: float) -> tuple[Image.Image, str]:
    """Draw the round bar, not ground yet, one turn in so many mm; 0: unknown."""
    sheet = Sheet(*TILE)
    if not turn:
        sheet.text("?", (TILE[0] / 2, TILE[1] / 2), size=90, anchor="mm", ink=QUIET)
        return sheet.image, "A question mark: it cannot be told."
    billet = bar(ACROSS, turn)
    above = from_above(billet, billet.size.thickness / 2, *TILE, pixel=90 / TILE[0])
    sheet.steel(etch.seen(billet, above), (0, 0))
    return sheet.image, f"A round bar, not ground yet, twisted one turn in {turn:.0f} mm."


class ReadingLesson(Lesson):
    """What was measured on the unknown face, and what is guessed of its making."""

    key: ClassVar = "11"
    title: ClassVar = "Read it backwards, then make it to order"
    main: ClassVar = "turn"
    phone: ClassVar = (Part(0, 0, 556, 190), Part(0, 190, 550, 345))
    cues: ClassVar = (
        "start", "end", "lean", "turn", "across", "ground", "overlay", "making", "evidence"
    )  # fmt: skip

    start: float = quantity(
        "Ruler, from", "the left end of the ruler", low=0, high=99, unit="mm", default=10,
        step=0.5,
    )  # fmt: skip
    end: float = quantity(
        "Ruler, to", "the right end of the ruler", low=1, high=100, unit="mm", default=40,
        step=0.5,
    )  # fmt: skip
    lean: float = quantity(
        "Protractor", "the line in the middle of the ruler", low=0, high=80, unit="°",
        default=20, step=0.5,
    )  # fmt: skip
    turn: float = quantity(
        "One turn", "length of a turn, as you think", low=20, high=120, unit="mm",
        default=30,
    )  # fmt: skip
    across: float = quantity(
        "Bar diameter", "before grinding, as you think", low=8.5, high=28.5, unit="mm",
        default=12.5, stops=BARS,
    )  # fmt: skip
    ground: float = quantity(
        "Ground off", "from the top, as you think", low=0, high=14, unit="mm", default=2,
        step=0.1,
    )  # fmt: skip
    overlay: float = quantity(
        "Lay it over", "your bar over the unknown", low=0, high=100, unit="%", default=0,
        step=5,
    )  # fmt: skip
    making: int = choice("Could anything else make this?", MAKINGS)
    deeper: float = quantity(
        "Grind both deeper", "and etch again", low=0, high=2, unit="mm", default=0,
        step=0.1, inch=1 / 32,
    )  # fmt: skip
    evidence: int = choice("Look at", EVIDENCE)

    stations: ClassVar = {
        "1 Measure": ("start", "end", "lean"),
        "2 Guess": ("turn", "across", "ground", "overlay"),
        "3 Doubt": ("making", "deeper", "evidence"),
    }
    gives: ClassVar = ("start", "end", "ground")

    question: ClassVar = ideas.TOLD.question(
        given={"s": TURN / 2, "a": LEAN},
        tiles=(ideas.STAR_IS_TURN, ideas.TURN, ideas.QUARTER_TURN, ideas.CANNOT_TELL),
        right=ideas.TURN,
        show=lambda turn: f"one turn in {turn:g} mm" if turn else "cannot be told",
        draw=tile,
    )
    # ruler and protractor are laid on; the guess is left to be made
    film: ClassVar = tuple(
        {
            "start": round(10 + 12 * part / 13, 2),
            "end": round(40 + 4 * part / 13, 2),
            "lean": round(20 + (LEAN - 20) * part / 13, 2),
        }
        for part in range(14)
    )
    checks: ClassVar = (ideas.HEIGHT_CHECK, ideas.DEEPER_CHECK, ideas.SHADE_CHECK)

    shuts: ClassVar = {
        "Another bar lies there, not the one you guess.": (
            lambda job: job.making != GUESS, "turn", "across", "ground"
        ),
        "A print is the face itself: laid over it, nothing changes.": (
            lambda job: job.making == PRINT and not job.printed_through, "overlay"
        ),
    }  # fmt: skip

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

    @cached_property
    def match(self) -> float:
        """Share of the two faces, 0 … 1, that is the same steel; half is chance."""
        one, other = self.faces
        dark, bright = sorted(etch.tones(self.unknown.source.steels).values())
        apart = np.abs(one.tone - other.tone) / (bright - dark)
        both = np.minimum(one.cover, other.cover)
        either = np.maximum(one.cover, other.cover)
        return float((both * (1 - apart)).sum() / either.sum())

    def draw(self, units: Units, *, told: bool = True, **paper: Any) -> Scene:
        """Measure the unknown face, lay a guess beside it, look at other evidence.

        Unless `told`, what follows from the measurements is left out.
        """
        sheet = Sheet(*SHEET, **paper)
        there, ours = self.faces
        deeper = format_length(self.deeper, units) if self.deeper else ""
        mixed = drawn.overlaid(there, ours, self.overlay / 100)
        bars = (self.unknown, HEIGHT - self.deeper), (self.bar, self.level)
        one, other = (drawn.plane(*bar) for bar in bars)
        first = drawn.unknown(sheet, mixed, one, deeper)
        drawn.ruler(sheet, self.start, self.end, self.lean, units)
        second = drawn.guess(sheet, ours, other, GIVES[self.making], self.match)
        drawn.evidence(sheet, self.evidence, bars, printed=self.making == PRINT)
        numbers = self._numbers(units)
        return Scene(
            image=sheet.image,
            alt=lambda: self._alt(first, second, units),
            numbers=numbers if told else numbers[:1],
            says=f"{drawn.agreed(self)}." if told else "",
        )

    def remark(self, changed: str, units: Units = Units.MM) -> str:
        """Say what the change did, as `reading_drawing` has it."""
        return drawn.moved(self, changed, units)

    def _numbers(self, units: Units) -> tuple[Number, ...]:
        given = {"s": self.ruled, "a": self.lean, "q": 0.0}
        read = height(self.ruled, self.lean)
        return (
            Number(
                "Ruler and protractor",
                f"{format_length(self.ruled, units)}, {self.lean:g}°",
                [
                    "ruler = right end - left end",
                    f"= {self.end:g} mm - {self.start:g} mm = {self.ruled:g} mm",
                ],
            ),
            Number(
                "If that is one star to the next, one turn is",
                format_length(2 * self.ruled, units),
                ideas.turn_working(given),
            ),
            Number(
                "and the face lies above the axis",
                format_length(read, units),
                ideas.height_working(given),
            ),
            Number(
                "The bar compared: above its axis",
                format_length(self.level, units),
                self._level_working(),
            ),
            Number(
                "Same steel",
                f"{100 * self.match:.0f} %",
                [
                    "compare place by place: how much of both faces is the same steel",
                    "two faces that have nothing in common agree on half",
                    f"= {100 * self.match:.1f} %",
                ],
            ),
        )

    def _level_working(self) -> list[str]:
        off = self.size[0] / 2 - self.level - self.deeper
        return [
            "height = half the bar - all that was ground off",
            f"= {self.size[0] / 2:g} mm - {off:.2f} mm - {self.deeper:g} mm",
            f"= {self.level:.2f} mm",
        ]

    def _alt(self, first: Described, second: Described, units: Units) -> str:
        deeper = (
            f", ground {format_length(self.deeper, units)} deeper" if self.deeper else ""
        )
        over = (
            f", the other laid over it by {self.overlay:g} percent" if self.overlay else ""
        )
        across, turn, off = (
            format_length(part, units) for part in (self.across, self.turn, self.ground)
        )
        mine = f"your guess, a bar {across} across, one turn in {turn}, {off} ground off"
        other = (mine, MAKINGS[THICK], "a print on plain steel")[self.making]
        looked = f" Below, for both: {EVIDENCE[self.evidence]}." if self.evidence else ""
        return (
            f"A long face with a row of stars{deeper}{over}: it shows {first}. A ruler on "
            f"it runs over {format_length(self.ruled, units)}, a line leans {self.lean:g} "
            f"degrees. Under it the face of {other}: it shows {second}, and "
            f"{100 * self.match:.0f} percent is the same steel.{looked}"
        )
