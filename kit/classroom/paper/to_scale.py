"""Drawn at true size if it fits, otherwise at a round scale that is said beside it.

A stack from its end, and the picture of what a recipe is to become.
"""

import math
from dataclasses import dataclass, replace
from typing import NamedTuple

from PIL import Image

from kit.basics.typed import MM_PER_INCH
from kit.basics.units import Units
from kit.classroom.paper.page import HAIR, Page, Place
from kit.course.anvil import void
from kit.course.anvil.void import Flaws
from kit.course.own_bar import ground_off
from kit.forge.billet import Billet
from kit.forge.stack import Stack
from kit.forge.steels import steel
from kit.metal import etch
from kit.section.picture import STEEL, Sheet, to_srgb
from kit.section.surface import Plane, cut, shown_at
from kit.shop.patterns import PATTERNS

SCALES = (1.0, 1 / 2, 1 / 4, 1 / 5, 1 / 10, 1 / 20, 1 / 50, 1 / 100)  # ours: round ones
LABEL = 3.7  # mm from label to label
MOST_LABELS = 17


def scale_for(wide: float, tall: float, room: Place) -> float:
    """Give the largest of `SCALES` at which something fits into a room, mm."""
    fits = [
        scale for scale in SCALES if wide * scale <= room[0] and tall * scale <= room[1]
    ]
    return fits[0] if fits else SCALES[-1]


def in_words(scale: float) -> str:
    """Say a scale.

    Examples
    --------
    >>> in_words(1), in_words(0.25)
    ('true size (1 : 1)', 'drawn smaller (1 : 4)')
    """
    return "true size (1 : 1)" if scale == 1 else f"drawn smaller (1 : {1 / scale:.0f})"


def grey_of(name: str) -> str:
    """Give the grey of an etched steel (illustrative), light enough to write on."""
    tone = int(to_srgb(etch.reflectance(steel(name))))
    light = 110 + tone * 145 // 255
    return f"#{light:02X}{light:02X}{light:02X}"


@dataclass(frozen=True)
class StackEnd:
    """The end of a stack, bars as they lie, each with its name and thickness."""

    stack: Stack
    words: list[str]  # of each bar, bottom first

    def draw(self, page: Page, at: Place, room: Place) -> float:
        """Draw it as large as true size allows; give its foot, mm down the page."""
        stack = self.stack
        scale = scale_for(stack.width, stack.thickness, room)
        wide, foot = stack.width * scale, at[1] + stack.thickness * scale
        lower, middles = foot, []
        for layer in stack.layers:
            tall = layer.thickness * scale
            lower -= tall
            fill = grey_of(layer.steel)
            page.box((at[0], lower), (wide, tall), fill=fill, width=HAIR)
            middles.append(lower + tall / 2)
        page.box(at, (wide, foot - at[1]))
        low = self._labels(page, at[0] + wide, middles) if self._few else foot
        says = f"{in_words(scale)}, from the end"
        return page.write(says, (at[0], max(foot, low) + 1), 60, size=8)

    @property
    def _few(self) -> bool:
        return len(self.words) <= MOST_LABELS

    def _labels(self, page: Page, x: float, middles: list[float]) -> float:
        """Write a label to each bar, spread out so that they do not touch."""
        count = len(middles)
        centre = (middles[0] + middles[-1]) / 2
        first = centre + LABEL * (count - 1) / 2
        top = first - LABEL * (count - 1)
        shift = max(0.0, min(middles) - LABEL / 2 - top)
        for number, (middle, words) in enumerate(zip(middles, self.words, strict=True)):
            y = first + shift - number * LABEL
            page.line((x, middle), (x + 6, y), (x + 8, y), width=HAIR)
            page.write(f"{number + 1:>2}  {words}", (x + 9, y - 1.6), 50, size=8)
        return first + shift + 1


DOT = MM_PER_INCH / 300  # mm: 300 dots an inch
MOST = 400  # mm
GREY = 8  # of 255, from grey to grey: no eye tells them on paper, and the file is small


class Goal(NamedTuple):
    """A picture, its width on paper in mm, and in words which cut it is, and why."""

    image: Image.Image
    width: float
    cut: str
    why: str = ""

    @property
    def says(self) -> str:
        """The words under it."""
        return f"{self.cut}, true size. {self.why}Tones and light illustrative."


def goal(
    billet: Billet,
    room: tuple[float, float],
    name: str = "",
    dot: float = DOT,
    units: Units = Units.MM,
    found: Flaws = ((),),
) -> Goal:
    """See what is to come out, as much as fits into a room of mm × mm at true size.

    A bar whose layers still lie flat shows nothing on its face, so it is cut on a slant
    from edge to edge, as a bevel is. A named pattern is looked at where it shows.
    """
    if billet.level == len(billet):
        return _bevel(billet, room, dot, found)
    known = next((p for p in PATTERNS if p.name == name), None)
    shown = known.shown if known else "face"
    plane = shown_at(billet, shown, 100, 100)
    wide, tall = (_extent(billet, plane.right), _extent(billet, plane.up))
    says = {
        "face": f"The face{ground_off(billet, units)}",
        "end": "The end",
        "side": "Cut lengthwise through the middle",
        "split": "Along the split",
    }[shown]
    image, width = _seen(
        billet, plane, (min(wide, room[0]), min(tall, room[1])), dot, found
    )
    return Goal(image, width, says)


def _bevel(billet: Billet, room: tuple[float, float], dot: float, found: Flaws) -> Goal:
    """Cut from edge to edge through the whole thickness: lines run along the bar."""
    size = billet.size
    lean = math.atan2(size.thickness, size.width)
    plane = replace(
        cut(size, angle=90), right=(1.0, 0.0, 0.0), up=(0.0, math.cos(lean), math.sin(lean))
    )
    run = math.hypot(size.thickness, size.width)
    extent = (min(size.length, room[0]), min(run, room[1]))
    image, width = _seen(billet, plane, extent, dot, found)
    steep = math.degrees(lean)
    return Goal(
        image,
        width,
        f"Cut at {steep:.1f}° to the layers, from edge to edge",
        "So it runs through all layers; a blade's bevel has an angle of its own, and the "
        "flatter it is, the wider the lines. ",
    )


def _seen(
    billet: Billet,
    plane: Plane,
    extent: tuple[float, float],
    dot: float,
    found: Flaws,
) -> tuple[Image.Image, float]:
    """Draw a plane of so many mm; its width on paper with it."""
    columns, rows = (max(2, round(side / dot)) for side in extent)
    middle = list(plane.centre)
    if plane.right[0] == 1.0:
        middle[0] = billet.size.length / 2
    plane = replace(plane, columns=columns, rows=rows, pixel=dot, centre=tuple(middle))
    sheet = Sheet(columns, rows, sunlit=True, look=STEEL)
    seen = void.marked(etch.seen(billet, plane), billet, plane, found)
    sheet.steel(seen, (0, 0), plane)
    few = sheet.image.point([GREY * round(tone / GREY) for tone in range(256)] * 3)
    return few, columns * dot


def _extent(billet: Billet, way: tuple[float, float, float]) -> float:
    """Give how far the bar reaches along one of its axes, mm."""
    axis = max(range(3), key=lambda one: abs(way[one]))
    return min(MOST, billet.size[axis])
