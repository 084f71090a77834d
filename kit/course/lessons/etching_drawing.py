"""What lesson 09 draws: the etch in section, and faces as an eye sees them from afar."""

import math
from collections.abc import Mapping
from functools import lru_cache
from typing import Protocol

import numpy as np
from PIL import Image

from kit.basics.units import Units, format_length
from kit.course.lessons.etching_ideas import BANDS
from kit.course.lessons.scene import Panel
from kit.forge.billet import Billet
from kit.metal.bite import Bitten
from kit.metal.colour import contrast_ratio
from kit.metal.eye import EYE, SPREAD, seen_from
from kit.section.finish import Lamp, etched, lit
from kit.section.half import apart, filled_up
from kit.section.picture import ACCENT, GHOST, INK, QUIET, SEEN, STEEL, Sheet, to_srgb
from kit.section.surface import Plane
from kit.section.trace import Face, see

TIMES = 100  # how many times too high the relief is drawn
SECTION = (40, 70, 330, 250)  # left, top, width, height
NAMED = 4  # metals, of which the names stand in one row below the section
MM = 70.0  # pixels a mm along the section
FACE = 24.0  # mm of it that a strip shows
STRIPS = (420, 54, 540, 90)  # left, top of the first, width, height
APART = 117
ABOVE = Lamp(raised=90, near=0)
LOW = Lamp(turned=180, raised=10, near=0)
# Of the height of a step that is drawn, a µm: far too steep, so that the eye can see it,
# as in `kit.section.finish`; illustrative.
TALL = 0.08
ROWS = 8  # of bands that are measured
END = 124.0  # column of a tile where its blades end: words have the rest
WORDS = {0: "none", 1: "only 2.0 mm", 2: "0.8 and 2.0 mm", 3: "all three"}


class Stands(Protocol):
    """What of the lesson says how a face is seen."""

    distance: float
    light: int

    @property
    def worn(self) -> float:
        """How much of its steps is worn away, 0 … 1."""


def section(sheet: Sheet, found: Mapping[str, Bitten], worn: float) -> None:
    """Draw the steps between steels, far too high, below the first ground face.

    Parameters
    ----------
    sheet : Sheet
    found : mapping
        Of each, in turn, how deep it was eaten (µm) and how bright it is.
    worn : float
        How much of the steps is worn away, 0 … 1.
    """
    left, top, wide, high = SECTION
    sheet.text("In section", (left, 12), size=18)
    words = f"height x {TIMES}"
    sheet.text(words, (left + wide, 14), size=15, ink=ACCENT, anchor="ra")
    turns = [*found.items()] * (1 if len(found) > 2 else 4 // len(found))
    each, rows = wide / len(turns), 1 + (len(turns) > NAMED)
    scale = MM * TIMES / 1000  # pixels a µm
    greatest = max(part.depth for part in found.values())
    for number, (name, part) in enumerate(turns):
        # wear takes the high steel down to the low one
        depth = greatest - (greatest - part.depth) * (1 - worn)
        y = top + min(depth * scale, high - 20)
        x = left + number * each
        grey = int(to_srgb(np.array([part.tone]))[0])
        fill = f"#{grey:02x}{grey:02x}{grey:02x}"
        sheet.box((x, y), (x + each, top + high), fill=fill, ink=INK)
        below = top + high + 8 + sheet.row * (number % rows)
        sheet.text(name, (x + each / 2, below), size=15, ink=QUIET, anchor="ma")
    sheet.dashes((left - 14, top), (left + wide + 14, top), ink=ACCENT, width=2)
    sheet.text("ground face, before", (left, top - sheet.row - 2), ink=ACCENT)
    foot = (left, top + high + 8 + rows * sheet.row)
    sheet.text("greys: bare tone of each", foot, size=15, ink=QUIET)


def strip(
    sheet: Sheet,
    number: int,
    face: tuple[Billet, Plane],
    found: Mapping[str, Bitten],
    stands: Stands,
    units: Units,
) -> Panel:
    """Draw a face with bands `BANDS[number]` mm wide as seen from a distance.

    What is told of it leaves both ends out, and the grain of the steel.
    """
    left, top, wide, high = STRIPS
    place = (left, top + APART * number)
    bar, plane = face
    step = apart(plane.rows, plane.columns)
    blurred = (
        seen_from(one[::step, ::step].copy(), stands.distance, step * plane.pixel)
        for one in lighted(bar, plane, found, stands, grained=sheet.look == STEEL)
    )
    shape = plane.rows, plane.columns
    told, drawn = (
        Face(filled_up(one, *shape), *2 * (np.ones(shape, one.dtype),)) for one in blurred
    )
    sheet.steel(drawn, place)
    sheet.image.info[SEEN] = sheet.look
    sheet.box(place, (left + wide, place[1] + high), ink=GHOST)
    sheet.above(place, f"bands of {format_length(BANDS[number], units)}")
    if number == len(BANDS) - 1:
        sheet.scale_bar((left + wide - 140, place[1] + high + 28), plane.pixel, units)
    return Panel(bar, plane, place, told._replace(cover=_inner(stands.distance, plane)))


def lighted(
    bar: Billet,
    plane: Plane,
    found: Mapping[str, Bitten],
    stands: Stands,
    *,
    grained: bool = False,
) -> tuple[np.ndarray, np.ndarray]:
    """Give how bright a face is in the lesson's light: as it is told, and as drawn."""
    step = apart(plane.rows, plane.columns)
    tones = tuple((name, part.tone) for name, part in found.items())
    tone = _seen(bar, plane, tones, step).tone
    if not (stands.light or grained):
        return tone, tone
    high = _seen(bar, plane, tuple(_heights(found, stands).items()), step)
    high = Face(*(part[::step, ::step] for part in high))
    lamp = LOW if stands.light else ABOVE
    told = drawn = tone
    if stands.light:
        told = drawn = tone * filled_up(_steps(high, step * plane.pixel), *tone.shape)
    if grained:
        drawn = tone * filled_up(etched(high, plane, lamp).light, *tone.shape)
    return told, drawn


@lru_cache(maxsize=12)  # of three faces, whole and half as fine: who steps back moves none
def _seen(
    bar: Billet, plane: Plane, tones: tuple[tuple[str, float], ...], _step: int
) -> Face:
    return see(bar, plane, dict(tones))


def edges(found: Mapping[str, Bitten], stands: Stands, band: float) -> float:
    """Say how many times as bright as the darkest the brightest line is, in the low lamp.

    Measured on straight bands `band` mm wide, as an eye sees them from where it is.
    """
    _, _, columns, _ = STRIPS
    pixel = FACE / columns
    turn = (np.arange(columns) * pixel // band).astype(int) % len(found)
    heights = np.array([*_heights(found, stands).values()])[turn]
    tones = np.array([one.tone for one in found.values()])[turn]
    high = Face(*(np.tile(one, (ROWS, 1)) for one in (heights, *2 * (np.ones(columns),))))
    far = seen_from(_steps(high, pixel) * tones, stands.distance, pixel)
    inner = far[ROWS // 2, columns // 4 : -columns // 4]
    return float(contrast_ratio(inner.max(), inner.min()))


def _steps(high: Face, pixel: float) -> np.ndarray:
    """Give the low lamp's light against that on a flat face: no grain, only steps."""
    flat = high._replace(tone=np.full_like(high.tone, high.tone.mean()))
    stepped, even = (
        lit(one, pixel=pixel, grain="", lamp=LOW).light for one in (high, flat)
    )
    return stepped / even


def _heights(found: Mapping[str, Bitten], stands: Stands) -> dict[str, float]:
    """Say how high each steel stands for the lamp, 0 … 1: drawn far too steep."""
    depths = [part.depth for part in found.values()]
    middle = (max(depths) + min(depths)) / 2
    return {
        name: float(np.clip(0.5 - TALL * (part.depth - middle) * (1 - stands.worn), 0, 1))
        for name, part in found.items()
    }


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
