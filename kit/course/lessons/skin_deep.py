"""Lesson 06, painted on or all the way through: a forged bar and an engraved one."""

from __future__ import annotations

from functools import cached_property, lru_cache

import numpy as np

from kit.basics.declare import choice, quantity
from kit.course.lessons.job import Job as Base
from kit.course.lessons.twist_drawing import line_angle
from kit.forge.billet import Billet
from kit.forge.pattern_recipes import ground as grind
from kit.forge.pattern_recipes import raindrop, random, square
from kit.forge.stack import Stack
from kit.forge.steps import RoundUp, Size, SquareUp, Twist
from kit.metal import etch
from kit.section.engraved import Engraved
from kit.section.footprint import by_bands, share_inside
from kit.section.surface import Plane
from kit.section.trace import Face, Surface, see

PATTERNS = ("twisted", "hammered by hand", "raindrop")
TWISTED, HAMMERED, RAINDROP = range(3)
ETCHED = ("etched again", "not etched yet")
AGAIN, NOT_YET = range(2)
# How the three were forged is ours: common practice, no source.
PIECES, TURN = 17, 40.0  # layers of the twisted bar, and mm for one turn
OFF = (2.0, 0.15, 0.15)  # mm ground off each to begin with, as a bar is sold
PLAIN = "1084"
DEPTH = 0.05  # of the engraving, mm: illustrative
POLISHED = 0.6  # how bright ground steel is before it is etched, both alike: illustrative
HAIR = 1e-5  # mm: inside the face, not on it
SKIN = 1e-3  # mm: what belongs to the ground face


@lru_cache(maxsize=3)
def bar(pattern: int) -> Billet:
    """Forge one of the bars, its top face flat."""
    if pattern == TWISTED:
        forged = square(PIECES).then(RoundUp(), Twist(turn_length=TURN), SquareUp())
    else:
        forged = random() if pattern == HAMMERED else raindrop()
    return grind(forged, OFF[pattern])


@lru_cache(maxsize=3)
def engraved(pattern: int) -> Engraved:
    """Make a bar of plain steel that looks the same as the forged one from above."""
    length, width, thickness = bar(pattern).size
    halves = Stack.alternate(
        PLAIN, PLAIN, pieces=2, thickness=thickness / 2, length=length, width=width
    )
    return Engraved(billet=Billet(source=halves), pattern=bar(pattern), depth=DEPTH)


class Job(Base):
    """Two bars that look alike, and how much is ground off both."""

    ground: float = quantity(
        "Ground away", "off the top of both bars", low=0, high=0.5, unit="mm", default=0
    )
    etched: int = choice("After grinding", ETCHED)
    pattern: int = choice("Pattern", PATTERNS)

    @property
    def bar(self) -> Billet:
        """The forged bar."""
        return bar(self.pattern)

    @property
    def size(self) -> Size:
        """The size of both bars before grinding, mm."""
        return self.bar.size

    @property
    def level(self) -> float:
        """Height of the face above the bar's axis, mm."""
        return self.size.thickness / 2 - self.ground

    @property
    def gone(self) -> bool:
        """Whether the engraving is ground away."""
        return self.ground >= DEPTH

    def bright(self, made: str) -> bool:
        """Whether the face of the "forged" or "engraved" bar shows nothing yet."""
        off = self.gone if made == "engraved" else self.ground > 0
        return off and self.etched == NOT_YET

    def seen(self, surface: Surface, made: str) -> Face:
        """See the "forged" or the "engraved" bar; not etched yet, its face is bright."""
        tones = etch.tones(self.bar.source.steels)
        forged = made == "forged"
        face = (
            see(self.bar, surface, tones)
            if forged
            else engraved(self.pattern).see(surface, tones)
        )
        if not self.bright(made):
            return face
        floor = self.level - SKIN
        top = by_bands(surface, lambda points: share_inside(points[2] - floor))
        tone = face.tone + top * (POLISHED - face.tone)
        return face._replace(tone=tone.astype(face.tone.dtype))

    def face(self, columns: int, rows: int, pixel: float) -> Plane:
        """Look at the ground face from straight above."""
        return Plane(
            size=self.size,
            centre=(self.size.length / 2, 0.0, self.level - HAIR),
            right=(1.0, 0.0, 0.0),
            up=(0.0, 1.0, 0.0),
            columns=columns,
            rows=rows,
            pixel=pixel,
        )

    @cached_property
    def changed(self) -> float:
        """Share of the forged face, 0 … 1, that is the other steel than at first."""
        first, now = (job.tones for job in (Job(pattern=self.pattern), self))
        return float(np.abs(now - first).mean())

    @property
    def tones(self) -> np.ndarray:
        """The etched forged face: 0 dark steel, 1 bright."""
        rows = round(0.95 * self.size.width / 0.1)
        plane = self.face(600, rows, 0.1)
        return see(self.bar, plane, {"1084": 0.0, "15N20": 1.0}).tone

    @property
    def lean(self) -> float:
        """How much the metal leans on the middle of the twisted face, degrees."""
        return line_angle(self.bar, self.level - HAIR)
