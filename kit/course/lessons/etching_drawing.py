"""What lesson 09 draws: the etch in section, and faces as an eye sees them from afar."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import TYPE_CHECKING

import numpy as np

from kit.basics.units import Units, format_length
from kit.course.lessons.etching_ideas import BANDS
from kit.course.lessons.scene import Panel
from kit.forge.billet import Billet
from kit.metal.bite import Bitten
from kit.metal.eye import EYE, SPREAD, seen_from
from kit.section.picture import ACCENT, GHOST, INK, QUIET, Sheet, to_srgb
from kit.section.surface import Plane
from kit.section.trace import Face, see

if TYPE_CHECKING:
    from PIL import Image

TIMES = 100  # how many times too high the relief is drawn
SECTION = (40, 70, 330, 250)  # left, top, width, height
SHOWN = 6  # bands in the section
MM = 70.0  # pixels a mm along the section
STRIPS = (420, 58, 540, 92)  # left, top of the first, width, height
APART = 118
END = 132.0  # column of a tile where its blades end: words have the rest
WORDS = {0: "none", 1: "only 2.0 mm", 2: "0.8 and 2.0 mm", 3: "all three"}


def section(
    sheet: Sheet, names: tuple[str, str], found: Mapping[str, Bitten], wear: float
) -> None:
    """Draw the steps between two steels, far too high, below the first ground face.

    Parameters
    ----------
    sheet : Sheet
    names : tuple
        Of the two steels, which lie in turn.
    found : mapping
        Of each, how deep it was eaten (µm) and how bright it is.
    wear : float
        How much of the step is worn away, 0 … 100 %.
    """
    left, top, wide, high = SECTION
    sheet.text("In section", (left, 12), size=18)
    words = f"height x {TIMES}"
    sheet.text(words, (left + wide, 14), size=15, ink=ACCENT, anchor="ra")
    each = wide / SHOWN
    scale = MM * TIMES / 1000  # pixels a µm
    worn = 1 - wear / 100
    greatest = max(part.depth for part in found.values())
    for number in range(SHOWN):
        name = names[number % 2]
        part = found[name]
        # wear takes the high steel down to the low one
        depth = greatest - (greatest - part.depth) * worn
        y = top + min(depth * scale, high - 20)
        x = left + number * each
        grey = int(to_srgb(np.array([part.tone]))[0])
        fill = f"#{grey:02x}{grey:02x}{grey:02x}"
        sheet.box((x, y), (x + each, top + high), fill=fill, ink=INK)
    sheet.dashes((left - 14, top), (left + wide + 14, top), ink=ACCENT, width=2)
    sheet.text("ground face, before", (left, top - sheet.row - 2), ink=ACCENT)
    words = " and ".join(dict.fromkeys(names))
    sheet.text(words + " in turn", (left, top + high + 8), size=15, ink=QUIET)
    sheet.text(
        "greys: bare tone of each", (left, top + high + 8 + sheet.row), size=15, ink=QUIET
    )


def strip(
    sheet: Sheet,
    number: int,
    face: tuple[Billet, Plane],
    tones: Mapping[str, float],
    distance: float,
    units: Units,
) -> Panel:
    """Draw a face with bands `BANDS[number]` mm wide as seen from a distance, mm.

    Tones are linear light, 0 … 1. What is told of it leaves both ends out.
    """
    left, top, wide, high = STRIPS
    place = (left, top + APART * number)
    bar, plane = face
    bare = see(bar, plane, tones)
    blurred = seen_from(bare.tone, distance, plane.pixel)
    far = Face(blurred, np.ones_like(blurred), np.ones_like(blurred))
    sheet.steel(far, place)
    sheet.box(place, (left + wide, place[1] + high), ink=GHOST)
    words = f"bands of {format_length(BANDS[number], units)}"
    sheet.above(place, words)
    if number == len(BANDS) - 1:
        sheet.scale_bar((left + wide - 140, place[1] + high + 24), plane.pixel, units)
    return Panel.drawn(bar, plane, place, far._replace(cover=_inner(distance, plane)))


def _inner(distance: float, plane: Plane) -> np.ndarray:
    """Leave out both ends, where blurring counts a band double: no eye sees that."""
    margin = math.ceil(3 * SPREAD * EYE.finest(distance) / plane.pixel)
    inner = np.zeros((plane.rows, plane.columns))
    inner[:, margin:-margin] = 1
    return inner


def tile(still: float) -> tuple[Image.Image, str]:
    """Draw three small blades from afar, so many of them (0 … 3) still patterned."""
    sheet = Sheet(200, 150)
    for number, band in enumerate(BANDS):
        y = 12 + 44 * number
        kept = number >= len(BANDS) - round(still)
        x, width = 12.0, max(2.0, band * 8)
        sheet.box((12, y), (END, y + 34), fill="#8c8c8c", ink=INK)
        dark = True
        while kept and x < END - 1:
            right = min(END, x + width)
            sheet.box(
                (x, y), (right, y + 34), fill="#303030" if dark else "#dedede", ink=None
            )
            x, dark = right, not dark
        sheet.box((12, y), (END, y + 34), ink=INK)
        sheet.text(f"{band:g} mm", (END + 5, y + 17), size=14, anchor="lm")
    words = WORDS[round(still)]
    return sheet.image, f"Three faces from afar; still patterned: {words}."
