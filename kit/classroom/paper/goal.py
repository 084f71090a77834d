"""The picture of what a recipe is to become, at true size on paper."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING, NamedTuple

from kit.forge.billet import Billet
from kit.forge.patterns import PATTERNS
from kit.metal import etch
from kit.section.picture import Sheet
from kit.section.surface import Plane, cut, shown_at
from kit.section.trace import see

if TYPE_CHECKING:
    from PIL import Image

DOT = 25.4 / 300  # mm: 300 dots an inch
MOST = 400  # mm
LONGEST_BEVEL = 120.0  # mm, of the slanting cut that shows flat layers


class Goal(NamedTuple):
    """A picture, its width on paper in mm, and words under it."""

    image: Image.Image
    width: float
    says: str


def goal(
    billet: Billet, room: tuple[float, float], name: str = "", dot: float = DOT
) -> Goal:
    """See what is to come out, as much as fits into a room of mm × mm at true size.

    A bar whose layers still lie flat shows nothing on its face, so it is cut on a slant,
    as a bevel cuts it. A named pattern is looked at where it shows.
    """
    if billet.level == len(billet):
        return _bevel(billet, room, dot)
    known = next((p for p in PATTERNS if p.name == name), None)
    shown = known.shown if known else "face"
    plane = shown_at(billet, shown, 100, 100)
    wide, tall = (
        _extent(billet, plane.right),
        _extent(billet, plane.up),
    )
    says = {
        "face": "The face",
        "end": "The end",
        "side": "Cut lengthwise through the middle",
        "split": "Along the split",
    }[shown]
    image, width = _seen(billet, plane, (min(wide, room[0]), min(tall, room[1])), dot)
    return Goal(image, width, f"{says}, true size. Tones illustrative.")


def _bevel(billet: Billet, room: tuple[float, float], dot: float) -> Goal:
    steep = min(1.0, billet.size.thickness / LONGEST_BEVEL)
    slant = max(2.0, math.degrees(math.asin(steep)))
    plane = cut(billet.size, angle=slant)
    run = billet.size.thickness / math.sin(math.radians(slant))
    plane = replace(plane, right=plane.up, up=plane.right)
    extent = (min(run, room[0]), min(billet.size.width, room[1]))
    image, width = _seen(billet, plane, extent, dot)
    says = f"Cut at {slant:.1f}° to the layers, as a long bevel cuts them; true size. "
    return Goal(image, width, says + "Tones illustrative.")


def _seen(
    billet: Billet, plane: Plane, extent: tuple[float, float], dot: float
) -> tuple[Image.Image, float]:
    """Draw a plane of so many mm; its width on paper with it."""
    columns, rows = (max(2, round(side / dot)) for side in extent)
    middle = list(plane.centre)
    if plane.right[0] == 1.0:
        middle[0] = billet.size.length / 2
    plane = replace(plane, columns=columns, rows=rows, pixel=dot, centre=tuple(middle))
    sheet = Sheet(columns, rows, sunlit=True)
    sheet.steel(see(billet, plane, etch.tones(billet.source.steels)), (0, 0))
    return sheet.image, columns * dot


def _extent(billet: Billet, way: tuple[float, float, float]) -> float:
    """Give how far the bar reaches along one of its axes, mm."""
    axis = max(range(3), key=lambda one: abs(way[one]))
    return min(MOST, billet.size[axis])
