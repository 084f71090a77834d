"""Drawings of a blade: its side, its section, and what four loupes show of it."""

import itertools
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import NamedTuple

import numpy as np
from PIL import Image

from kit.basics.units import Units, format_length
from kit.course.lessons.scene import Panel
from kit.forge.billet import Billet
from kit.metal import etch
from kit.section.blade import Blade, Section, Spine
from kit.section.blade_view import BladeView
from kit.section.grind import BladeGrind
from kit.section.picture import ACCENT, QUIET, Sheet
from kit.section.surface import Look, Moved, fitting, told_place
from kit.section.trace import Face, see
from kit.shop.bought import STEELS

COLUMNS, ROWS = 1000, 508  # pixels, as all below that is not in mm
SIDE = (976, 250)  # columns, and at most so many rows
SIDE_AT = (12, 30)
RICASSO = 16.0  # mm
LOW = 318  # the top of the lower row
LOUPE = (176, 150)
LOUPES_AT = 254
LOUPE_WIDE = 10.0  # mm
LOUPE_HIGH = LOUPE_WIDE * LOUPE[1] / LOUPE[0]
SECTION = 176
CLOSER, CLOSER_WIDE = 150, 4.4  # pixels, mm
TONES = etch.tones(STEELS)
HAIR = 1e-5  # of the bar's thickness: inside its skin, not on it


@dataclass(frozen=True)
class InBar(Moved):
    """A blade's surface, each point where it was in the bar before its bevel was forged.

    Between the middle plane and the surface a column is squeezed as a whole; what it
    gives aside is left out (in flat layers it makes no difference).
    """

    surface: BladeView
    share: float

    def look(self, first: int, last: int, dtype: type = np.float32) -> Look:
        """See pixel rows, as the view does."""
        look = self.surface.look(first, last, dtype)
        x, y, z = look.points
        scale = dtype(1 - HAIR)
        if self.share < 1:
            grind, size = self.surface.grind, self.surface.size
            above = y + grind.outline.height / 2
            half = grind.half(x - self.surface.heel, np.asarray(above, dtype))
            full = size.thickness / 2
            scale = (full - self.share * (full - half)) / half * (1 - HAIR)
        return look._replace(points=(x, y, (z * scale).astype(dtype)))


class Ground(NamedTuple):
    """A bar, the blade ground from it, and how much of its bevel was not forged in."""

    billet: Billet
    grind: BladeGrind
    share: float


class Seen(NamedTuple):
    """A face, and the surface that it was traced on."""

    face: Face
    surface: InBar


def seen_blade(billet: Billet, view: BladeView, share: float) -> Seen:
    """See a blade ground from a bar, or forged to its bevel."""
    surface = InBar(view, share)
    return Seen(see(billet, surface, TONES), surface)


def side(sheet: Sheet, ground: Ground, units: Units, *, spots: bool) -> Panel:
    """Draw the blade from its side; with `spots`, marks where the loupes look."""
    view, at = _fitted(sheet, ground, "The blade, from its right side", units)
    face, surface = seen_blade(ground.billet, view, ground.share)
    sheet.blade(face, at, surface)
    for spot in _spots(ground.grind) if spots else ():
        _mark(sheet, view, spot, at)
    return Panel(ground.billet, surface, at, face)


def _fitted(
    sheet: Sheet, ground: Ground, words: str, units: Units
) -> tuple[Blade, tuple[int, int]]:
    """Find the view of the blade that fills its place, and where that begins."""
    view = Blade.fitted(ground.grind, ground.billet.size, *SIDE)
    sheet.text(words, (12, 0), size=18)
    sheet.scale_bar((COLUMNS - 150, 24), view.pixel, units, most=130)
    columns, rows = SIDE_AT
    return view, (columns, rows + (SIDE[1] - view.rows) // 2)


def before(sheet: Sheet, ground: Ground, units: Units) -> Panel:
    """Draw the bar in the blade's place, and dashed the blade that comes out of it."""
    words = "The bar before grinding; dashed: where the blade will be"
    view, at = _fitted(sheet, ground, words, units)
    billet, plane = ground.billet, view.before
    skin = plane.centre[2] * (1 - HAIR)
    plane = replace(plane, centre=told_place((*plane.centre[:2], skin)))
    panel = Panel.laid(sheet, billet, plane, at)
    outline(sheet, view, at)
    return panel


def outline(sheet: Sheet, view: Blade, at: tuple[int, int]) -> None:
    """Draw a blade's outline, dashed, where it lies in the picture of its bar."""
    shape = view.grind.outline
    along = np.linspace(0, shape.length, 40)
    low, high = shape.edge(along).above, shape.spine(along).above
    points = [*zip(along, low, strict=True), *zip(along[::-1], high[::-1], strict=True)]
    places = [
        view.place((view.heel + x, y - shape.height / 2, 0.0))
        for x, y in (*points, (0.0, low[0]))
    ]
    for run in itertools.pairwise(places):
        if all(0 <= x <= view.columns and 0 <= y <= view.rows for x, y in run):
            start, end = ((at[0] + x, at[1] + y) for x, y in run)
            sheet.line([start, end], ink=sheet.page, width=5)
            sheet.dashes(start, end, ink=ACCENT, width=3)


class Spot(NamedTuple):
    """A place to look at closer: letter, name, mm from the heel, mm above the middle."""

    letter: str
    name: str
    along: float
    up: float


def _spots(grind: BladeGrind) -> tuple[Spot, ...]:
    low = -grind.outline.height / 2
    return (
        Spot("a", "ricasso", RICASSO / 2 - 1, 0.0),
        Spot("b", "plunge, 45°", RICASSO + 2, low + LOUPE_HIGH / 2 + 0.5),
        Spot("c", "bevel", 60.0, low + grind.height / 2),
        Spot("d", "spine", 60.0, -low),
    )


def _mark(sheet: Sheet, view: Blade, spot: Spot, at: tuple[int, int]) -> None:
    """Mark on the blade where a loupe looks."""
    wide, high = LOUPE_WIDE / 2, LOUPE_HIGH / 2
    if spot.name == "spine":
        high = 1.0
    x = view.heel + spot.along
    left, top = view.place((x - wide, spot.up + high, 0.0))
    right, low = view.place((x + wide, spot.up - high, 0.0))
    corner, opposite = (at[0] + left, at[1] + top), (at[0] + right, at[1] + low)
    sheet.box(corner, opposite, ink=sheet.page, width=4)
    sheet.box(corner, opposite, ink=ACCENT, width=2)
    wide, high = sheet.letters, sheet.letters + 2
    tag = corner[0] + wide, corner[1] + high
    sheet.box(corner, tag, fill=sheet.page, ink=ACCENT)
    middle = corner[0] + wide / 2, corner[1] + high / 2
    sheet.text(spot.letter, middle, size=16, anchor="mm", ink=ACCENT)


def loupe(ground: Ground, number: int) -> Panel:
    """See what one of the four loupes shows."""
    billet, grind, share = ground
    spot = _spots(grind)[number]
    heel = (billet.size.length - grind.outline.length) / 2
    spine = spot.name == "spine"
    view = (Spine if spine else Blade)(
        grind=grind,
        size=billet.size,
        centre=told_place((heel + spot.along, 0.0 if spine else spot.up)),
        columns=LOUPE[0],
        rows=LOUPE[1],
        pixel=LOUPE_WIDE / LOUPE[0],
    )
    face, surface = seen_blade(billet, view, share)
    corner = LOUPES_AT + number * (LOUPE[0] + 11), LOW
    return Panel(billet, surface, corner, face)


@lru_cache(maxsize=8)  # two of the four stay as they were while a bevel is ground
def _lit(panel: Panel, sunlit: bool, look: str) -> Image.Image:
    part = Sheet(*LOUPE, sunlit=sunlit, look=look)
    part.steel(panel.face, (0, 0), panel.surface)
    return part.image


def loupes(
    sheet: Sheet, ground: Ground, panels: Sequence[Panel], units: Units
) -> tuple[Panel, ...]:
    """Draw ten millimetres of ricasso, plunge, bevel and spine, all alike magnified."""
    for spot, panel in zip(_spots(ground.grind), panels, strict=True):
        at, lit = panel.corner, _lit(panel, sheet.sunlit, sheet.look)
        sheet.above(at, f"{spot.letter}  {spot.name}")
        sheet.image.paste(lit, at)
        sheet.image.info |= lit.info
        sheet.box((at[0] - 1, LOW - 1), (at[0] + LOUPE[0], LOW + LOUPE[1]), ink=QUIET)
    wide = format_length(LOUPE_WIDE, units)
    words = f"Four loupes, each {wide} wide, on the same layers"
    sheet.text(words, (LOUPES_AT, ROWS - 14), size=16, ink=QUIET, anchor="ls")
    return tuple(panels)


def sections(sheet: Sheet, ground: Ground, units: Units) -> tuple[Panel, ...]:
    """Draw the blade sawn across, whole, and closer at its edge."""
    billet, grind, share = ground
    height = grind.outline.height
    whole = Section(grind=grind, size=billet.size, at=60.0, columns=70, rows=SECTION)
    whole = replace(whole, pixel=fitting(max(height, 20) / (SECTION - 8)))
    low = -height / 2
    near = replace(
        whole, columns=CLOSER, rows=LOUPE[1], pixel=fitting(CLOSER_WIDE / CLOSER)
    )
    middle = low + near.rows * near.pixel / 2 - 0.15
    near = replace(near, centre=told_place((0.0, middle)))
    sheet.above((12, LOW), "Sawn across")
    panels = []
    for view, left in ((whole, 6), (near, 84)):
        panels.append(Panel.laid(sheet, billet, InBar(view, share), (left, LOW)))
    sheet.box((83, LOW - 1), (84 + CLOSER, LOW + LOUPE[1]), ink=QUIET)
    sheet.text("edge", (84, ROWS - 14), size=16, ink=QUIET, anchor="ls")
    sheet.scale_bar((84 + 74, ROWS - 10), near.pixel, units, most=76)
    return tuple(panels)
