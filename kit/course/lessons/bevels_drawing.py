"""Drawings of a blade: its side, its section, and what four loupes show of it."""

from __future__ import annotations

import itertools
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import NamedTuple

import numpy as np

from kit.basics.units import Units, format_length
from kit.course.lessons.bevels import BEFORE, RICASSO, Job
from kit.course.lessons.scene import Panel
from kit.forge.billet import Billet
from kit.metal import etch
from kit.section.blade import Blade, Section, Spine
from kit.section.blade_view import BladeView
from kit.section.finish import lay, lit
from kit.section.picture import ACCENT, PAGE, QUIET, Sheet
from kit.section.surface import Look, Moved
from kit.section.trace import Face, see
from kit.shop.bought import STEELS

COLUMNS, ROWS = 1000, 508
SIDE = (976, 250)  # columns, and at most so many rows
SIDE_AT = (12, 30)
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


class Lit(NamedTuple):
    """A face under the lamp, and the surface that it was traced on."""

    face: Face
    surface: InBar


def lit_blade(billet: Billet, view: BladeView, share: float) -> Lit:
    """See a blade etched, under the lamp."""
    surface = InBar(view, share)
    face = see(billet, surface, TONES)
    lamp = {"pixel": view.pixel, "middle": view.middle, "leans": view.leans()}
    return Lit(lit(face, **lamp), surface)


def side(sheet: Sheet, job: Job, units: Units, *, spots: bool) -> Panel:
    """Draw the blade from its side, or in the same place the bar that it is ground from."""
    billet = job.bar
    view = Blade.fitted(job.grind, billet.size, *SIDE)
    columns, rows = SIDE_AT
    at = (columns, rows + (SIDE[1] - view.rows) // 2)
    if job.shown == BEFORE:
        panel = _before(sheet, billet, view, at)
        words = "The bar before grinding; dashed: where the blade will be"
    else:
        face, surface = lit_blade(billet, view, job.share)
        lay(sheet, face, at)
        panel = Panel.drawn(billet, surface, at, face)
        words = "The blade, from its right side"
    sheet.text(words, (12, 4), size=18)
    sheet.scale_bar((COLUMNS - 150, 24), view.pixel, units, most=130)
    if spots and job.shown != BEFORE:
        for spot in _spots(job):
            _mark(sheet, view, spot, at)
    return panel


def _before(sheet: Sheet, billet: Billet, view: Blade, at: tuple[int, int]) -> Panel:
    plane = view.before
    skin = plane.centre[2] * (1 - HAIR)
    plane = replace(plane, centre=(*plane.centre[:2], skin))
    face = see(billet, plane, TONES)
    sheet.steel(lit(face, pixel=view.pixel, middle=view.middle), at)
    outline, heel = view.grind.outline, view.heel
    along = np.linspace(0, outline.length, 40)
    low, high = outline.edge(along).above, outline.spine(along).above
    half = outline.height / 2
    points = [
        *zip(along, low, strict=True),
        *zip(along[::-1], high[::-1], strict=True),
        (0.0, low[0]),
    ]
    places = [view.place((heel + x, y - half, 0.0)) for x, y in points]
    places = [(at[0] + column, at[1] + row) for column, row in places]
    for start, end in itertools.pairwise(places):
        sheet.line([start, end], ink=PAGE, width=5)
        sheet.dashes(start, end, ink=ACCENT, width=3)
    return Panel.drawn(billet, plane, at, face)


class Spot(NamedTuple):
    """A place to look at closer: letter, name, mm from the heel, mm above the middle."""

    letter: str
    name: str
    along: float
    up: float


def _spots(job: Job) -> tuple[Spot, ...]:
    low = -job.height / 2
    return (
        Spot("a", "ricasso", RICASSO / 2 - 1, 0.0),
        Spot("b", "plunge, 45°", RICASSO + 2, low + LOUPE_HIGH / 2 + 0.5),
        Spot("c", "bevel", 60.0, low + job.grind.height / 2),
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
    sheet.box(corner, opposite, ink=PAGE, width=4)
    sheet.box(corner, opposite, ink=ACCENT, width=2)
    tag = corner[0] + 18, corner[1] + 20
    sheet.box(corner, tag, fill=PAGE, ink=ACCENT)
    sheet.text(
        spot.letter, (corner[0] + 9, corner[1] + 10), size=16, anchor="mm", ink=ACCENT
    )


def loupes(sheet: Sheet, job: Job, units: Units) -> tuple[Panel, ...]:
    """Draw ten millimetres of ricasso, plunge, bevel and spine, all alike magnified."""
    panels = []
    for number, spot in enumerate(_spots(job)):
        at = LOUPES_AT + number * (LOUPE[0] + 11), LOW
        of_bevel = spot.letter in "bc"
        face, surface = _loupe(job if of_bevel else _unground(job), number)
        sheet.text(f"{spot.letter}  {spot.name}", (at[0], LOW - 26), size=17)
        sheet.steel(face, at)
        sheet.box((at[0] - 1, LOW - 1), (at[0] + LOUPE[0], LOW + LOUPE[1]), ink=QUIET)
        panels.append(Panel.drawn(job.bar, surface, at, face))
    wide = format_length(LOUPE_WIDE, units)
    words = f"Four loupes, each {wide} wide, on the same layers"
    sheet.text(words, (LOUPES_AT, ROWS - 14), size=16, ink=QUIET, anchor="ls")
    return tuple(panels)


def _unground(job: Job) -> Job:
    """Leave out all that ricasso and spine do not show, so that they are drawn once."""
    if job.taper and job.forged:
        return job  # some of the taper is forged in: as much as of the bevel
    return Job(
        layers=job.layers,
        bought=job.bought,
        spine=job.spine,
        height=job.height,
        taper=job.taper,
    )


@lru_cache(maxsize=16)
def _loupe(job: Job, number: int) -> Lit:
    """See what a loupe shows; kept, since moving a control does not change them all."""
    spot, billet = _spots(job)[number], job.bar
    heel = (billet.size.length - job.grind.outline.length) / 2
    spine = spot.name == "spine"
    view = (Spine if spine else Blade)(
        grind=job.grind,
        size=billet.size,
        centre=(heel + spot.along, 0.0 if spine else spot.up),
        columns=LOUPE[0],
        rows=LOUPE[1],
        pixel=LOUPE_WIDE / LOUPE[0],
    )
    return lit_blade(billet, view, job.share)


def sections(sheet: Sheet, job: Job, units: Units) -> tuple[Panel, ...]:
    """Draw the blade sawn across, whole, and closer at its edge."""
    billet = job.bar
    whole = Section(grind=job.grind, size=billet.size, at=60.0, columns=70, rows=SECTION)
    whole = replace(whole, pixel=max(job.height, 20) / (SECTION - 8))
    low = -job.height / 2
    near = replace(whole, columns=CLOSER, rows=LOUPE[1], pixel=CLOSER_WIDE / CLOSER)
    near = replace(near, centre=(0.0, low + near.rows * near.pixel / 2 - 0.15))
    sheet.text("Sawn across", (12, LOW - 26), size=17)
    panels = []
    for view, left in ((whole, 6), (near, 84)):
        surface = InBar(view, job.share)
        face = see(billet, surface, TONES)
        sheet.steel(face, (left, LOW))
        panels.append(Panel(billet, surface, (left, LOW)))
    sheet.box((83, LOW - 1), (84 + CLOSER, LOW + LOUPE[1]), ink=QUIET)
    sheet.text("its edge", (84, ROWS - 14), size=16, ink=QUIET, anchor="ls")
    sheet.scale_bar((84 + 74, ROWS - 14), near.pixel, units, most=76)
    return tuple(panels)
