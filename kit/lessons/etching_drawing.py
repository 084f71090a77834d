"""The relief in section, and three faces as they are seen from where the reader stands."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from kit.lessons.eye_ideas import BANDS
from kit.lessons.scene import Panel
from kit.picture import ACCENT, GHOST, INK, QUIET, Sheet, to_srgb
from kit.sight.blur import seen_from
from kit.trace import Face, see
from kit.units import Units, format_length

if TYPE_CHECKING:
    from collections.abc import Mapping

    from kit.etch.bite import Bitten
    from kit.lessons.etching import Job

TIMES = 100  # how many times too high the relief is drawn
SECTION = (40, 70, 330, 250)  # left, top, width, height
SHOWN = 6  # bands in the section
MM = 70.0  # pixels a mm along the section
STRIPS = (420, 58, 540, 92)  # left, top of the first, width, height
APART = 118


def draw(
    sheet: Sheet, job: Job, found: Mapping[str, Bitten], units: Units
) -> tuple[Panel, ...]:
    """Draw both parts; give the faces, so that they can be asked about."""
    section(sheet, job, found)
    away = format_length(job.distance, units)
    sheet.text(f"The face, as seen from {away}", (STRIPS[0], 12), size=18)
    panels = []
    for number, band in enumerate(BANDS):
        panels.append(_strip(sheet, job, found, band, number, units))
    return tuple(panels)


def section(sheet: Sheet, job: Job, found: Mapping[str, Bitten]) -> None:
    """Draw steps between the steels, far too high, with the first ground face above."""
    left, top, wide, high = SECTION
    sheet.text("In section", (left, 12), size=18)
    words = f"height x {TIMES}: far too high"
    sheet.text(words, (left + wide, 14), size=15, ink=ACCENT, anchor="ra")
    each = wide / SHOWN
    scale = MM * TIMES / 1000  # pixels a µm
    worn = 1 - job.etch.wear / 100
    greatest = max(part.depth for part in found.values())
    for number in range(SHOWN):
        name = job.names[number % 2]
        part = found[name]
        # wear takes the high steel down to the low one
        depth = greatest - (greatest - part.depth) * worn
        y = top + min(depth * scale, high - 20)
        x = left + number * each
        grey = int(to_srgb(np.array([part.tone]))[0])
        fill = f"#{grey:02x}{grey:02x}{grey:02x}"
        sheet.box((x, y), (x + each, top + high), fill=fill, ink=INK)
    sheet.dashes((left - 14, top), (left + wide + 14, top), ink=ACCENT, width=2)
    sheet.text("ground face, before", (left, top - 22), size=15, ink=ACCENT)
    words = " and ".join(dict.fromkeys(job.names))
    sheet.text(words + " in turn", (left, top + high + 8), size=15, ink=QUIET)
    sheet.text("greys: bare tone of each", (left, top + high + 30), size=15, ink=QUIET)


def _strip(
    sheet: Sheet,
    job: Job,
    found: Mapping[str, Bitten],
    band: float,
    number: int,
    units: Units,
) -> Panel:
    """Draw one face as it is seen from afar."""
    from kit.lessons.etching import face  # noqa: PLC0415  (they know each other)

    left, top, wide, high = STRIPS
    place = (left, top + APART * number)
    bar, plane = face(job, band, wide, high)
    tones = {name: part.tone for name, part in found.items()}
    bare = see(bar, plane, tones)
    blurred = seen_from(bare.tone, job.distance, plane.pixel)
    sheet.steel(Face(blurred, np.ones_like(blurred), np.ones_like(blurred)), place)
    sheet.box(place, (left + wide, place[1] + high), ink=GHOST)
    sheet.text(f"bands of {format_length(band, units)}", (left, place[1] - 20), size=15)
    if number == len(BANDS) - 1:
        sheet.scale_bar((left + wide - 140, place[1] + high + 24), plane.pixel, units)
    return Panel(bar, plane, place)


def far_tile(still: int) -> Sheet:
    """Draw three small blades as somebody expects them from afar: a tile."""
    sheet = Sheet(200, 150)
    for number, band in enumerate(BANDS):
        y = 12 + 44 * number
        kept = number >= len(BANDS) - still
        x, width = 12.0, max(2.0, band * 8)
        sheet.box((12, y), (150, y + 34), fill="#8c8c8c", ink=INK)
        dark = True
        while kept and x < 149:
            right = min(150.0, x + width)
            sheet.box(
                (x, y), (right, y + 34), fill="#303030" if dark else "#dedede", ink=None
            )
            x, dark = right, not dark
        sheet.box((12, y), (150, y + 34), ink=INK)
        sheet.text(f"{band:g} mm", (155, y + 17), size=14, anchor="lm")
    return sheet
