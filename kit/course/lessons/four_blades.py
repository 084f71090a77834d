"""Lesson 11, four blades on a table: the single test that tells which of them apart.

Nothing here is known by name: what a test shows is looked for on the traced steel, as
an eye would see it from where it is held.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from itertools import combinations
from typing import Any, ClassVar, NamedTuple

import numpy as np
from PIL import Image

from kit.basics.declare import choice, quantity
from kit.basics.told import one_way
from kit.basics.units import Units, format_length
from kit.course.lessons.base import Lesson
from kit.course.lessons.scene import FORGED, Number, Part, Scene
from kit.forge.billet import Billet
from kit.forge.bundle import Bundle
from kit.forge.stack import Layer, Stack
from kit.forge.steps import DrawOut
from kit.forge.steps.hollows import Hollows
from kit.metal import etch
from kit.metal.eye import (
    COUNTED_AS_SEEN,
    EYE,
    LEAST_CONTRAST,
    ONE_MINUTE,
    SAME_TO_THE_EYE,
    seen_from,
)
from kit.section.blade import Blade, Spine
from kit.section.blade_view import BladeView
from kit.section.grind import BladeGrind
from kit.section.half import whole
from kit.section.outline import Outline
from kit.section.picture import ACCENT, INK, QUIET, Sheet
from kit.section.surface import Look, Moved
from kit.section.trace import Face, see
from kit.shop import bought

# What is known of how a blade looks from afar.
KNOWN = (FORGED, etch.TONES, ONE_MINUTE, SAME_TO_THE_EYE, COUNTED_AS_SEEN)
NAMES = ("A", "B", "C", "D")
MADE = {
    "A": "a twisted bar all through; its spine was polished after the etch",
    "B": "plain steel with a pattern on its sides only, which comes again every 40 mm",
    "C": "flat layers with pressed grooves, all through, 0.05 mm each at the spine",
    "D": "layered sides on a plain core, which is the edge",
}
TESTS = (
    "the sides, as they are",
    "the spine, as it is",
    "the spine, etched again",
    "a good 0.2 mm (0.008 in) off the side, etched again",
    "low on the bevel",
    "a magnet",
)
SIDE, SPINE, SPINE_AGAIN, DEEPER, BEVEL, MAGNET = range(6)
BLAMED = {
    "A": "A's was polished after the etch",
    "C": "C's layers are too fine from here",
}
SAID = {  # of all but the spine as it is
    SIDE: "All four have lines on their sides. That tells nothing.",
    SPINE_AGAIN: "Etched, A's spine shows layers; C's are finer than the eye resolves.",
    DEEPER: "B's pattern is gone: it was skin deep. It takes the owner's leave to do.",
    BEVEL: "D is plain down there: its core is the edge. That is how it was meant.",
    MAGNET: "A magnet sticks to all four. It says nothing of layers.",
}
# Blades of our own, mm.
LENGTH, HEIGHT, THICK, EDGE, OFF = 120.0, 28.0, 4.0, 0.5, 0.22
REPEAT, FROM = 40.0, 20.0  # mm of a print, and where in its pattern it begins
WIDE, CORE = 36.0, 1.8
POLISHED = 0.6  # how bright bare steel is: illustrative, as in lesson 06
PATCH, FINE = 4.0, 0.02  # mm of steel that is looked at, and mm a pixel of it
SHEET = (1000, 440)
CELL = (500, 220)
LONG, HIGH = 344, 84  # of a blade's side
LOUPE = (370, 40, 110)  # left, top in its cell, and size
MANNERS = "A test says what is there, not what somebody meant. Ask before you judge."


@lru_cache(maxsize=4)
def bar(name: str) -> Billet:
    """Forge the bar of blade A, B, C or D; of B, the bar that is printed on its skin."""
    if name == "C":
        return bought.bar(80, bought.LADDER, THICK, WIDE)
    if name == "D":
        thin = (THICK - CORE) / 2
        side = bought.bar(25, bought.RAINDROP, thin, WIDE)
        side = side.then(DrawOut(thickness=thin, width=WIDE))  # forged back to the width
        core = Stack(
            layers=(Layer(steel="1095", thickness=CORE / 2),) * 2,
            length=side.size.length,
            width=WIDE,
        )
        bars = (side, Billet(source=core), side)
        return Billet(source=Bundle(bars=bars, laid="stacked"))
    return bought.bar(33, bought.TWIST, THICK, WIDE)


def grind(off: float = 0.0) -> BladeGrind:
    """Give the blade's shape, with so much ground off each side, mm."""
    return BladeGrind(
        outline=Outline(family="drop", length=LENGTH, height=HEIGHT),
        kind="part-height",
        bevel=18,
        spine=THICK - 2 * off,
        edge=EDGE - 2 * off,
        ricasso=14,
        plunge=2,
    )


@dataclass(frozen=True)
class _Again(Moved):
    """A surface whose points repeat along the bar, as a print from a roll does."""

    surface: BladeView
    length: float

    def look(self, first: int, last: int, dtype: type) -> Look:
        seen = self.surface.look(first, last, dtype)
        x, y, z = seen.points
        again = (self.length / 2 + x) % REPEAT + FROM
        return seen._replace(points=(again.astype(dtype), y, np.full_like(z, THICK / 2)))


def tones() -> dict[str, float]:
    """Give the tone of every steel on the table, linear light 0 … 1: illustrative."""
    return etch.tones(("1084", "15N20", "1095"))


def side(name: str, view: Blade, *, deeper: bool = False) -> Face:
    """See the side of a blade; `deeper` with the skin ground off and etched again."""
    billet = bar(name)
    if name != "B":
        return see(billet, view, tones())
    if deeper:  # OFF is four times a print's depth
        seen = see(billet, view, tones())
        return seen.plain(tones()["1084"])
    return see(billet, _Again(view, billet.size.length), tones())


def spine(name: str, view: Spine, *, again: bool = False) -> Face:
    """See the spine of a blade; `again` etched once more."""
    seen = see(bar(name), view, tones())
    if name == "B" or (name == "A" and not again):
        bare = POLISHED if name == "A" else tones()["1084"]
        return seen.plain(bare)
    return seen


class Seen(NamedTuple):
    """What a patch of steel shows under a test.

    Attributes
    ----------
    face : Face
        `PATCH` wide, `FINE` mm a pixel, as it is.
    view : BladeView
        What it was seen on.
    contrast : float
        Of what is left of it for the eye: bright against dark, 1 is none.
    """

    face: Face
    view: BladeView
    contrast: float

    @property
    def lines(self) -> bool:
        """Whether the eye finds lines there."""
        return self.contrast >= LEAST_CONTRAST


def _place(billet: Billet) -> float:
    """Say where along a bar it is looked at, mm: midway, on a rung if there are rungs.

    There its lines are widest; an eye that goes along the blade finds them there.
    """
    middle, made = billet.size.length / 2, billet.steps[-1:]
    if not made or not isinstance(made[0], Hollows):
        return middle
    apart = made[0].spacing * billet.size.width / billet.sizes[-2].width
    return (round(middle / apart - 0.5) + 0.5) * apart


@lru_cache(maxsize=48)
@whole()
def patch(name: str, test: int) -> tuple[Face, BladeView]:
    """Look closely, `FINE` mm a pixel, at the place that a test is about.

    Parameters
    ----------
    name : str
        Of the blade, A to D.
    test : int
        Index into `TESTS`.
    """
    count = round(PATCH / FINE)
    of_spine = test in (SPINE, SPINE_AGAIN)
    off = OFF if test == DEEPER else 0.0
    low = -HEIGHT / 2 + 3.0 if test == BEVEL else HEIGHT / 2 - 5.0
    kind = Spine if of_spine else Blade
    view = kind(
        grind=grind(off),
        size=bar(name).size,
        centre=(_place(bar(name)), 0.0 if of_spine else low),
        columns=count,
        rows=round(3.0 / FINE) if of_spine else count,
        pixel=FINE,
    )
    if of_spine:
        return spine(name, view, again=test == SPINE_AGAIN), view
    return side(name, view, deeper=test == DEEPER), view


@lru_cache(maxsize=128)
def seen(name: str, test: int, distance: float) -> Seen:
    """Say what an eye finds there from a distance, mm. A magnet shows nothing to it."""
    face, view = patch(name, test)
    light = seen_from(face.tone, distance, FINE)
    margin = len(light) // 8
    low, high = np.percentile(light[margin:-margin], (5, 95))
    return Seen(face, view, float(high / max(low, 1e-6)))


def told_apart(test: int, distance: float) -> tuple[tuple[str, str], ...]:
    """Give the pairs of blades that a test tells apart, held at a distance, mm."""
    if test == MAGNET:  # all four are carbon or low-alloy steels: it pulls at each
        return ()
    shows = {name: seen(name, test, distance).lines for name in NAMES}
    return tuple(
        pair for pair in combinations(NAMES, 2) if shows[pair[0]] != shows[pair[1]]
    )


class FourBladesLesson(Lesson):
    """Which test is done on all four, and from how far it is looked at."""

    key: ClassVar = "four blades"
    number: ClassVar = "11"
    title: ClassVar = "Four blades on a table"
    main: ClassVar = "distance"
    phone: ClassVar = (Part(0, 0, 500, 426),)  # A and C, which a bare spine would wrong
    film: ClassVar = tuple({"test": SPINE, "distance": far} for far in (600, 300, 100))
    cues: ClassVar = ("test", "distance")

    test: int = choice("One test", TESTS)
    distance: float = quantity(
        "Seen from", "how near you hold the blade", low=100, high=600, unit="mm",
        default=300, step=10, inch=1.0,
    )  # fmt: skip

    @property
    def pairs(self) -> tuple[tuple[str, str], ...]:
        """The pairs of blades that the test tells apart."""
        return told_apart(self.test, self.distance)

    def draw(self, units: Units, *, told: bool = True, **paper: Any) -> Scene:
        """Do one test on all four blades, and say which of them it tells apart."""
        del told
        sheet = Sheet(*SHEET, **paper)
        for index, name in enumerate(NAMES):
            self._blade(sheet, name, (CELL[0] * (index % 2), CELL[1] * (index // 2)))
        return Scene(
            image=sheet.image,
            alt=self._alt(units),
            numbers=self._numbers(units),
            says=f"{self._limit(units)} {MANNERS}",
        )

    def remark(self, changed: str, units: Units = Units.MM) -> str:
        """Say what a test is worth."""
        if self.test == SPINE:
            return self._spine_blamed()
        if changed == "test":
            return SAID[self.test]
        pairs = f"{len(self.pairs)} of 6 pairs" if self.pairs else "no pair"
        return f"{self._limit(units)} So this test tells {pairs} apart."

    def _spine_blamed(self) -> str:
        """Say whom a spine without lines would wrong."""
        far = self.distance
        wrong = [name for name in ("A", "C") if not seen(name, SPINE, far).lines]
        if not wrong:
            return "From so near even C's lines show. A's spine still shows none: polished."
        return (
            f"Judging by the spine alone condemns {' and '.join(wrong)} wrongly: "
            f"{'; '.join(BLAMED[name] for name in wrong)}."
        )

    def _result(self, name: str) -> str:
        if self.test == MAGNET:
            return "the magnet sticks"
        return "lines" if seen(name, self.test, self.distance).lines else "no lines seen"

    def _blade(self, sheet: Sheet, name: str, at: tuple[int, int]) -> None:
        left, top = at[0] + 14, at[1] + 8
        sheet.text(f"Blade {name}", (left, top), size=19)
        place = (left + LOUPE[0] + LOUPE[2], top + 2)
        sheet.text(self._result(name), place, size=17, anchor="ra", ink=ACCENT)
        size, deeper = bar(name).size, self.test == DEEPER
        shape = grind(OFF if deeper else 0.0)
        view = Blade.fitted(shape, size, LONG, HIGH + 20)
        sheet.steel(side(name, view, deeper=deeper), (left, top + 36), view)
        back = Spine(
            grind=shape, size=size, columns=LONG, rows=16, pixel=view.pixel
        )  # to one scale: a spine is narrow
        again = self.test == SPINE_AGAIN
        sheet.above((left, top + 172), "its spine, from above")
        sheet.steel(spine(name, back, again=again), (left, top + 170), back)
        self._marked(sheet, view, (left, top))
        self._loupe(sheet, name, (left + LOUPE[0], top + LOUPE[1]))

    def _marked(self, sheet: Sheet, view: Blade, at: tuple[int, int]) -> None:
        """Box the place that is looked at."""
        left, top = at
        middle = view.size.length / 2
        if self.test in (SPINE, SPINE_AGAIN):
            x, y = left + LONG / 2, top + 178
        else:
            low = -HEIGHT / 2 + 3 if self.test == BEVEL else HEIGHT / 2 - 5
            column, row = view.place((middle, low, 0.0))
            x, y = left + column, top + 36 + row
        sheet.box((x - 8, y - 8), (x + 8, y + 8), ink="#FFFFFF", width=4)
        sheet.box((x - 8, y - 8), (x + 8, y + 8), ink=ACCENT, width=2)

    def _loupe(self, sheet: Sheet, name: str, at: tuple[int, int]) -> None:
        """Draw the place under a loupe."""
        left, top = at
        test = SIDE if self.test == MAGNET else self.test
        patch, view, _ = seen(name, test, self.distance)
        small = Sheet(view.columns, view.rows, look=sheet.look)
        small.steel(patch, (0, 0), view)
        high = round(LOUPE[2] * view.rows / view.columns)
        lens = small.image.resize((LOUPE[2], high), Image.Resampling.BOX)
        sheet.image.paste(lens, (left, top))
        sheet.box((left - 1, top - 1), (left + LOUPE[2], top + high), ink=INK)
        words = "through a loupe"
        sheet.text(
            words, (left + LOUPE[2], top + high + 4), size=15, anchor="ra", ink=QUIET
        )

    def _limit(self, units: Units) -> str:
        def limit(units: Units) -> str:
            away, finest = self.distance, EYE.finest(self.distance)
            return (
                f"From {format_length(away, units)} a good eye resolves "
                f"{format_length(finest, units)}."
            )

        return one_way(limit, units)

    def _numbers(self, units: Units) -> tuple[Number, ...]:
        pairs = self.pairs
        rows = [
            Number(f"Blade {name}", self._result(name), self._working(name, units), KNOWN)
            for name in NAMES
        ]
        named = ", ".join(" and ".join(pair) for pair in pairs)
        told = [
            "of the six pairs of four blades, those of which one shows lines, one not",
            f"{len(pairs)} of 6: {named}" if pairs else "none of 6",
        ]
        return (*rows, Number("Tells apart", f"{len(pairs)} of 6 pairs", told, KNOWN))

    def _working(self, name: str, units: Units) -> list[str]:
        if self.test == MAGNET:
            return [
                "a magnet pulls at every carbon and low-alloy steel",
                "layered or plain, forged or printed: it sticks alike",
            ]
        contrast = seen(name, self.test, self.distance).contrast
        away = format_length(self.distance, units)
        return [
            f"{TESTS[self.test]}: bright against dark, as blurred from {away}",
            f"lines count as seen from a contrast of {LEAST_CONTRAST:g}",
            f"here {contrast:.2f}",
        ]

    def _alt(self, units: Units) -> str:
        told = "; ".join(f"{name}: {self._result(name)}" for name in NAMES)
        return (
            f"Four blades, {LENGTH:.0f} mm long, each from its side, from above its spine, "
            f"and one place of it through a loupe. Test: {TESTS[self.test]}, seen from "
            f"{format_length(self.distance, units)}. {told}."
        )
