"""Pictures for the show page: steel by the kit's own engine, as PNG of 16 greys."""

from __future__ import annotations

import io
import math
from typing import TYPE_CHECKING

import numpy as np

from kit.metal import etch
from kit.section.block import Block
from kit.section.picture import to_srgb
from kit.section.trace import Face, see

if TYPE_CHECKING:
    from collections.abc import Iterable

    from kit.forge.billet import Billet
    from kit.section.trace import Surface

COLUMNS, ROWS = 1200, 375  # pixels of a face
TILE = (600, 188)  # pixels of a tile to choose
THEMES = ("indoor", "sunlight")
GREYS = 15  # the sixteenth sign of the palette is clear: no steel there
CLEAR = 0.02  # less steel than this share of a pixel is none
SKIN = 0.7  # light on what was not ground, indoors: illustrative
EDGE = 250  # part of the picture's height that half an edge's line is wide
# Sunlight: 11.6 : 1 by the contrast ratio of WCAG 2.2, and no glare of pure white.
SUN_DARK, SUN_BRIGHT = 0x2B, 0xE8


def tones(steels: Iterable[str], theme: str) -> dict[str, float]:
    """Give the tone of each steel for a theme, linear light, 0 … 1; illustrative.

    Indoors as everywhere in the kit; in sunlight the darkest and the brightest steel
    are as far apart as glass in the sun allows, and the rest lie between.

    Examples
    --------
    >>> tones(["1084", "15N20"], "sunlight")
    {'1084': 0.0242, '15N20': 0.8070}
    """
    known = etch.tones(steels)
    if theme != "sunlight":
        return known
    dark, bright = (_linear(grey) for grey in (SUN_DARK, SUN_BRIGHT))
    low, high = min(known.values()), max(known.values())
    wide = max(high - low, 1e-9)
    return {
        name: dark + (bright - dark) * (tone - low) / wide for name, tone in known.items()
    }


def _linear(grey: int) -> float:
    """Give the reflectance that an 8-bit grey of a screen stands for (IEC 61966-2-1)."""
    share = grey / 255
    return share / 12.92 if share <= 0.04045 else ((share + 0.055) / 1.055) ** 2.4


def seen(
    billet: Billet,
    surface: Surface,
    theme: str,
    greys: int = GREYS,
    *,
    ground_shows: bool = True,
) -> bytes:
    """Draw a surface of a billet in a theme, as the bytes of a PNG.

    There are no gradients, which 15 greys would break into steps. If it is to show where
    a round bar was ground, what was not is dull indoors, and the edge is a dark line.
    """
    face = see(billet, surface, tones(billet.source.steels, theme))
    light = np.ones((surface.rows, 1))
    if ground_shows and isinstance(surface, Block) and billet.size.round:
        light = _skin(surface, SKIN if theme == "indoor" else 1.0)
    ends = (SUN_DARK, SUN_BRIGHT) if theme == "sunlight" else (0, 255)
    return png(face._replace(light=light), ends, greys)


def _skin(bar: Block, dull: float) -> np.ndarray:
    """Give the light on each row of a round bar seen from above, ground or not."""
    half = bar.size.thickness / 2
    height = bar.cut[1][2] if bar.cut else half
    chord = math.sqrt(max(half**2 - height**2, 0.0)) * bar.size.width / (2 * half)
    row = np.abs(np.arange(bar.rows) - (bar.rows - 1) / 2) * bar.pixel
    light = np.where(row < chord, 1.0, dull)
    if bar.cut:
        light[np.abs(row - chord) < bar.pixel * bar.rows / EDGE] = 0.0
    return light[:, None]


def png(face: Face, ends: tuple[int, int] = (0, 255), greys: int = GREYS) -> bytes:
    """Write a face as a PNG of a few greys, clear where there is no steel.

    Parameters
    ----------
    face : Face
    ends : (int, int)
        Darkest and brightest grey, 0 … 255.
    greys : int
        How many, 2 … 15.
    """
    from PIL import Image  # noqa: PLC0415  (keeps the core's import quick)

    low, high = ends
    grey = np.clip(to_srgb(face.tone * face.light).astype(float), low, high)
    index = np.round((grey - low) * ((greys - 1) / (high - low))).astype(np.uint8)
    index[face.cover < CLEAR] = greys
    image = Image.fromarray(index, "P")
    levels = [round(low + (high - low) * level / (greys - 1)) for level in range(greys)]
    image.putpalette([part for level in (*levels, 255) for part in (level,) * 3])
    out = io.BytesIO()
    image.save(out, "PNG", bits=4, transparency=greys, optimize=True)
    return out.getvalue()
