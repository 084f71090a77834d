"""Drawings that more than one lesson needs: a sawn block beside its cut face."""

import itertools
import math
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Any

import numpy as np

from kit.basics.typed import MM_PER_INCH
from kit.basics.units import Units
from kit.course.lessons.scene import Panel, keep
from kit.forge.billet import Billet
from kit.metal import etch
from kit.section.block import Block
from kit.section.picture import ACCENT, GHOST, QUIET, Sheet
from kit.section.surface import Look, Moved, Plane, cut, cut_normal

COLUMNS, ROWS = 1000, 412  # pixels
BLOCK = (570, 350)  # columns and rows of the block
FACE = (270, 344)
# mm a pixel, by the CSS definition: about true on most screens
TRUE_SIZE = MM_PER_INCH / 96
GHOST_COLUMNS, GHOST_WIDE = 40, 80  # of the strip, and with its words
GHOST_ABOVE = 22  # rows of it for words that stand higher than the strip
LEAST_SHOWN = 160.0  # mm of a long bar
SQUARE = 90.0


@dataclass(frozen=True)
class Still(Moved):
    """A surface that most moves of a lesson leave as it was: looked at once, and kept."""

    surface: Any

    def look(self, first: int, last: int, dtype: type = np.float32) -> Look:
        """See pixel rows, as the other does."""
        return _looked(self.surface, first, last, dtype)

    def leans(self) -> tuple[np.ndarray | float, np.ndarray | float]:
        """Say how steeply the steel rises, mm a mm, as the other does."""
        return _leaning(self.surface)


@lru_cache(maxsize=12)  # two sides and a section of a blade: seen, outlined and measured
def _looked(surface: Any, first: int, last: int, dtype: type) -> Look:
    return surface.look(first, last, dtype)


@lru_cache(maxsize=3)
def _leaning(surface: Any) -> tuple[np.ndarray | float, np.ndarray | float]:
    return surface.leans()


def sawn_block(
    sheet: Sheet, billet: Billet, angle: float, position: float, units: Units
) -> tuple[Panel, ...]:
    """Draw a bar sawn through, and the cut face beside it, about true size.

    Of a long bar only the part around the cut is shown.

    Parameters
    ----------
    sheet : Sheet
    billet : Billet
    angle : float
        Of the saw to the layers, degrees; 90 is square.
    position : float
        Of the cut along the bar, % of its length.
    units : Units
        Of the rulers.
    """
    normal = cut_normal(angle)
    point = (position / 100 * billet.size.length, 0.0, 0.0)
    block = Block.fitted(
        billet.size, *BLOCK, cut=(normal, point), span=_around(billet, point[0])
    )
    corner = (10, 40)
    sheet.text(f"The bar, sawn at {angle:g}° to its layers", (20, 4), size=18)
    keep(sheet, corner, BLOCK, _outline, replace(block, cut=None))
    bar = Panel.laid(sheet, billet, block, corner)
    _cut_edge(sheet, block, corner)
    sheet.scale_bar((24, ROWS - 14), block.pixel, units)

    columns, rows = FACE
    face = cut(
        billet.size,
        angle=angle,
        position=position,
        columns=columns,
        rows=rows,
        pixel=TRUE_SIZE,
    )
    left, top = 670, 52
    sheet.text("The cut face, with its ruler", (left - 56, 4), size=18)
    ghost = left - 16 - (GHOST_COLUMNS + GHOST_WIDE) // 2, top - GHOST_ABOVE
    keep(sheet, ghost, (GHOST_WIDE, rows + GHOST_ABOVE), _square_ghost, billet)
    end = Panel.laid(sheet, billet, face, (left, top))
    bottom = _face_edge(sheet, face, (left, top))
    sheet.ruler((left + columns + 6, bottom), bottom - top - 12, face.pixel, units)
    return bar, end


def stretch(units: Units) -> tuple[float, str]:
    """Give a round length to count along, mm, and how it is said."""
    return (100.0, "100 mm") if units is Units.MM else (4 * MM_PER_INCH, "4 in")


def _around(billet: Billet, middle: float) -> tuple[float, float]:
    """Choose the part of a long bar to show: enough to see what it is."""
    length, width, thickness = billet.size
    shown = min(length, max(LEAST_SHOWN, 1.3 * width, 1.3 * thickness))
    low = min(max(0.0, middle - shown / 2), length - shown)
    return low, low + shown


def _square_ghost(sheet: Sheet, billet: Billet) -> None:
    """Draw a strip of the same bar cut straight across, faint, to compare with."""
    rows = FACE[1]
    plane = cut(
        billet.size, angle=SQUARE, columns=GHOST_COLUMNS, rows=rows, pixel=TRUE_SIZE
    )
    face = etch.seen(billet, plane)
    left = (GHOST_WIDE - GHOST_COLUMNS) // 2
    sheet.steel(face._replace(cover=face.cover * 0.6), (left, GHOST_ABOVE), plane)
    top = max(0, rows / 2 - billet.size.thickness / plane.pixel / 2) + GHOST_ABOVE - 6
    room = top > 2 * sheet.row  # else the picture's title stands there
    for words, above in (("square", 0), ("cut", sheet.row))[: 1 + room]:
        place = GHOST_WIDE / 2, top - above
        sheet.text(words, place, size=15, anchor="ms", ink=QUIET)


def _face_edge(sheet: Sheet, face: Plane, at: tuple[int, int]) -> float:
    """Frame the visible part of the cut face as on the block; give its lower edge."""
    length, width, thickness = face.size
    half_wide = min(width / 2 / face.pixel, face.columns / 2)
    rise, run = face.up[2], face.up[0]
    limits = [thickness / 2 / rise] if rise else []
    low = high = face.rows / 2 * face.pixel
    for limit in limits:
        low, high = min(low, limit), min(high, limit)
    if run:
        high = min(high, face.centre[0] / -run)
        low = min(low, (length - face.centre[0]) / -run)
    middle = at[0] + face.columns / 2, at[1] + face.rows / 2
    sheet.box(
        (middle[0] - half_wide - 2, middle[1] - high / face.pixel - 2),
        (middle[0] + half_wide + 1, middle[1] + low / face.pixel + 1),
        ink=ACCENT,
        width=2,
    )
    return middle[1] + low / face.pixel


def _outline(sheet: Sheet, block: Block) -> None:
    """Draw the whole bar in faint dashes, so that the sawn-off part is remembered."""
    for one, other in _bar_edges(block):
        start, end = block.place(one), block.place(other)
        sheet.dashes(start, end, ink=GHOST)


def _cut_edge(sheet: Sheet, block: Block, at: tuple[int, int]) -> None:
    """Draw the outline of the cut face: where the plane meets the bar's edges."""
    normal, point = (np.array(part) for part in block.cut)
    met = []
    for one, other in _bar_edges(block):
        start, end = np.array(one), np.array(other)
        down = float((end - start) @ normal)
        if abs(down) < 1e-12:
            continue
        share = float((point - start) @ normal) / down
        if 0 <= share <= 1:
            met.append(start + share * (end - start))
    if len(met) < 3:
        return
    places = [_on(block, tuple(spot), at) for spot in met]
    middle = np.mean(places, axis=0)
    places.sort(key=lambda place: math.atan2(place[1] - middle[1], place[0] - middle[0]))
    sheet.line([*places, places[0]], ink=ACCENT, width=3)


def _bar_edges(block: Block) -> list[tuple]:
    return [
        (one, other)
        for one, other in itertools.combinations(block.corners, 2)
        if sum(a != b for a, b in zip(one, other, strict=True)) == 1
    ]


def _on(block: Block, point: tuple, at: tuple[int, int]) -> tuple[float, float]:
    column, row = block.place(point)
    return column + at[0], row + at[1]
