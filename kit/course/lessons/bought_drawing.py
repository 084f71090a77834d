"""A bar you bought, drawn: bar and blade in four states, the edge larger, and sawn."""

from __future__ import annotations

import itertools
from typing import Any

import numpy as np

from kit.basics.units import Units, format_length
from kit.course.lessons.scene import Panel
from kit.forge.billet import Billet
from kit.metal.bite import Etch, bitten
from kit.section.blade import Blade, Section
from kit.section.picture import ACCENT, QUIET, Sheet
from kit.section.surface import Plane
from kit.section.trace import Face, see

SHEET = 1000, 500  # pixels
COLUMNS, HIGH = 490, 136  # of each state
LEFT, RIGHT, FIRST, SECOND = 5, 505, 34, 194  # where the states stand
EDGE_AT, EDGE, FINE = (5, 346), (700, 126), 0.06  # and mm a pixel
SECTION_AT, SECTION = (760, 346), (220, 126)
SEEN_LONG = 176.0  # mm of the bar
# How bright bare steel is, ground, and grey from the fire: illustrative, as in lesson 06.
GROUND, TEMPERED = 0.6, 0.25
AS_SOLD = Etch(wear=30)  # etched in the usual way and handled since: illustrative
HAIR = 1e-4  # mm: just inside the skin


def tones(billet: Billet, etch: Etch) -> dict[str, float]:
    """Give the tone of each steel of a bar after an etch: illustrative."""
    steels = tuple(dict.fromkeys(billet.source.steels))
    return {name: found.tone for name, found in bitten(steels, etch).items()}


def drawn(sheet: Sheet, job: Any, units: Units) -> tuple[Panel, Panel]:
    """Draw all; give the bar as it was sold and the blade as it was etched."""
    billet, pixel = job.bar, SEEN_LONG / COLUMNS
    rows = min(HIGH, int(billet.size.width / pixel) + 2)
    view = Blade(grind=job.grind, size=billet.size, columns=COLUMNS, rows=rows, pixel=pixel)
    bar = _bar(sheet, job, view, units)
    etched = see(billet, view, tones(job.bar, job.etch))
    bare = {
        (RIGHT, FIRST): ("Ground: bright and bare", etched.plain(GROUND)),
        (LEFT, SECOND): ("Hardened and tempered", etched.plain(TEMPERED)),
        (RIGHT, SECOND): ("Etched again", etched),
    }
    for at, (words, face) in bare.items():
        sheet.above(at, words)
        sheet.blade(face, at, view)
    sheet.scale_bar((RIGHT + COLUMNS - 125, FIRST - 12), pixel, units, most=115)
    _edge(sheet, job, units)
    _sawn(sheet, job, units)
    return bar, Panel(billet, view, (RIGHT, SECOND), etched)


def _bar(sheet: Sheet, job: Any, view: Blade, units: Units) -> Panel:
    """Draw the bar's face and, on it, the outline that will be cut."""
    billet, at = job.bar, (LEFT, FIRST)
    face = face_of(billet, view.columns, view.rows, view.pixel)
    thick = format_length(job.thickness, units)
    sheet.above((LEFT, FIRST), f"Bought, {thick} thick")
    seen = see(billet, face, tones(billet, AS_SOLD))
    sheet.steel(seen, at, face)
    outline(sheet, view, at)
    return Panel(billet, face, at, seen)


def face_of(billet: Billet, columns: int, rows: int, pixel: float) -> Plane:
    """Look down on the middle of a bar's face; pixel in mm."""
    centre = (billet.size.length / 2, 0.0, billet.size.thickness / 2 - HAIR)
    return Plane.facing(billet, "face", centre, (columns, rows), pixel)


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


def _edge(sheet: Sheet, job: Any, units: Units) -> None:
    """Draw the lowest part of the etched blade larger: what is left there counts."""
    (left, top), (columns, rows) = EDGE_AT, EDGE
    low = -job.height / 2 + 0.46 * rows * FINE
    middle = job.bar.size.length / 2 - 5
    view = Blade(
        grind=job.grind,
        size=job.bar.size,
        centre=(middle, low),
        columns=columns,
        rows=rows,
        pixel=FINE,
    )
    sheet.above((left, top), "Its edge, larger: edge down")
    seen: Face = see(job.bar, view, tones(job.bar, job.etch))
    sheet.steel(seen, (left, top), view)
    sheet.scale_bar((left + columns - 125, top - 12), FINE, units, most=115)


def _sawn(sheet: Sheet, job: Any, units: Units) -> None:
    """Draw the blade sawn across, ground on both sides out of the dashed bar."""
    (left, top), (columns, rows) = SECTION_AT, SECTION
    pixel = max((job.height + 2) / rows, job.thickness / (columns - 12))
    view = Section(
        grind=job.grind,
        size=job.bar.size,
        at=60,
        columns=columns,
        rows=rows,
        pixel=pixel,
    )
    sheet.above((left - 20, top), "Sawn; dashed: the bar")
    sheet.steel(see(job.bar, view, tones(job.bar, job.etch)), (left, top), view)
    for side in (-1, 1):
        x = left + columns / 2 + side * job.thickness / 2 / pixel
        sheet.dashes((x, top), (x, top + rows), ink=QUIET)
    sheet.scale_bar((left + 150, top + rows + 12), pixel, units, most=70)
