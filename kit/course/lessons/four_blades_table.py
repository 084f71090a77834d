"""Four blades on a table, and what each test shows of them.

Nothing here is known by name: what a test shows is looked for on the traced steel, as
an eye would see it from where it is held.
"""

from dataclasses import dataclass
from functools import lru_cache
from itertools import combinations
from typing import NamedTuple

import numpy as np

from kit.forge.billet import Billet
from kit.forge.bundle import Bundle
from kit.forge.stack import Layer, Stack
from kit.forge.steps import DrawOut
from kit.forge.steps.hollows import Hollows
from kit.metal import etch
from kit.metal.eye import LEAST_CONTRAST, seen_from
from kit.section.blade import Blade, Spine
from kit.section.blade_view import BladeView
from kit.section.grind import BladeGrind
from kit.section.half import whole
from kit.section.outline import Outline
from kit.section.surface import Look, Moved
from kit.section.trace import Face, see
from kit.shop import bought
from kit.shop.bought import OnTop

NAMES = ("A", "B", "C", "D")
TESTS = (
    "the sides, as they are",
    "the spine, as it is",
    "the spine, etched again",
    "a good 0.2 mm (0.008 in) off the side, etched again",
    "low on the bevel",
    "a magnet",
)
SIDE, SPINE, SPINE_AGAIN, DEEPER, BEVEL, MAGNET = range(6)
# Blades of our own, mm.
LENGTH, HEIGHT, THICK, EDGE, OFF = 120.0, 28.0, 4.0, 0.5, 0.22
REPEAT, FROM = 40.0, 20.0  # mm of a print, and where in its pattern it begins
WIDE, CORE = 36.0, 1.8
POLISHED = 0.6  # how bright bare steel is: illustrative, as in lesson 06
PATCH, FINE = 4.0, 0.02  # mm of steel that is looked at, and mm a pixel of it


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
        x, *beside = seen.points
        again = (self.length / 2 + x) % REPEAT + FROM
        return seen._replace(points=(again.astype(dtype), *beside))


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
    printed = OnTop(_Again(view, billet.size.length), billet.size)
    return see(billet, printed, tones())


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
