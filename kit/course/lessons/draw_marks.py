"""Dots and a line on the side of a billet, moved by the billet's own steps."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from kit.section.picture import ACCENT, Sheet

if TYPE_CHECKING:
    from PIL import Image

    from kit.forge.billet import Billet
    from kit.forge.steps import Points, Size
    from kit.section.surface import Plane

DOT = 5.0  # mm across
LEAN = 45.0  # degrees
DOTS_AT = ((0.42, 0.0), (0.54, 0.22))  # shares of length and thickness, from the axis
LINE_AT = 0.2
HALO = "#FFFFFF"  # around the ink, so that it stands out from dark layers
HALO_WIDE, INK_WIDE = 5.5, 2.5  # pixels
SMOOTH = 4  # samples a pixel, each way


class Marks(NamedTuple):
    """Outlines of dots, and a line: points of the bar, mm."""

    dots: tuple[Points, ...]
    line: Points | None = None


def marks(size: Size) -> Marks:
    """Put two round dots and a line at 45° on the side of a billet of this size.

    They lie where even the largest loss, taken off the right end, leaves them.
    """
    around = np.linspace(0, 2 * math.pi, 73)
    side = np.full_like(around, -size.width / 2)
    dots = tuple(
        (
            along * size.length + DOT / 2 * np.cos(around),
            side,
            up * size.thickness + DOT / 2 * np.sin(around),
        )
        for along, up in DOTS_AT
    )
    reach = min(size.thickness, 0.3 * size.length)
    run = np.linspace(-0.5, 0.5, len(around)) * reach
    rise = run * math.tan(math.radians(LEAN))
    return Marks(dots, (LINE_AT * size.length + run, side, rise))


def moved(billet: Billet, made: Marks) -> Marks:
    """Follow marks on the stack through the billet's steps."""
    line = None if made.line is None else billet.do(made.line)
    return Marks(tuple(billet.do(dot) for dot in made.dots), line)


def ink(
    sheet: Sheet, plane: Plane, corner: tuple[int, int], made: Marks, strength: float = 1
) -> None:
    """Draw marks on a side view whose top left corner lies at `corner`."""
    dots = [_places(plane, dot) for dot in made.dots]
    line = [] if made.line is None else _places(plane, made.line)
    for colour, edge, stroke in (
        (HALO, HALO_WIDE - INK_WIDE, HALO_WIDE),
        (ACCENT, 0, INK_WIDE),
    ):
        mask = _mask(plane, dots, line, edge, stroke)
        sheet.image.paste(colour, corner, mask.point(lambda share: int(share * strength)))


def _places(plane: Plane, points: Points) -> list[tuple[float, float]]:
    """Give pixel places, finer than pixels, as samples of the mask."""
    x, _, z = points
    column = plane.columns / 2 + (x - plane.centre[0]) / plane.pixel
    row = plane.rows / 2 - (z - plane.centre[2]) / plane.pixel
    return list(zip(column * SMOOTH, row * SMOOTH, strict=True))


def _mask(plane: Plane, dots: list, line: list, edge: float, stroke: float) -> Image.Image:
    """Draw in black and white at several samples a pixel, then take the mean."""
    from PIL import Image, ImageDraw  # noqa: PLC0415  (as in picture.py)

    mask = Image.new("L", (plane.columns * SMOOTH, plane.rows * SMOOTH))
    brush = ImageDraw.Draw(mask)
    brush.line(line, fill=255, width=round(stroke * SMOOTH))
    for dot in dots:
        brush.polygon(dot, fill=255)
        if edge:
            brush.line(dot, fill=255, width=round(edge * SMOOTH), joint="curve")
    return mask.reduce(SMOOTH)
