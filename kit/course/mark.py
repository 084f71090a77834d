"""The kit's mark: a stack met by one slanting cut, as the engine sees it.

No drawing of ours: the billet below is forged and cut like any other. What is a thin line
on its side is a wide band on the cut, which is what all the lessons are about.
"""

import io
import math
from dataclasses import replace
from functools import cache

import numpy as np
from PIL import Image

from kit.forge.billet import Billet
from kit.forge.stack import Stack
from kit.metal import etch
from kit.section.block import Block
from kit.section.picture import Sheet

NAME = "Pattern-welded steel"
SENTENCE = "A pattern is what you meet when you cut through a history."
TOLD = "The kit's mark: a stack met by one slanting cut."
WIDE = 1.16  # times as wide as high
ANGLE, TURNED, RAISED = 30.0, 30.0, 26.0  # degrees: of the cut, and where the eye is
FINER = 4  # drawn so many times larger, then reduced: its edges are smooth
SIDE, HIGH = 30.0, 24.0  # mm of the stack
ICON = 128  # pixels


def billet() -> Billet:
    """Give the stack of the mark: five bars of two steels."""
    return Billet(
        source=Stack.alternate(
            "1084", "15N20", pieces=5, thickness=HIGH / 5, length=SIDE, width=SIDE
        )
    )


@cache
def mark(high: int, ground: str = "") -> Image.Image:
    """Draw the mark.

    Parameters
    ----------
    high : int
        Pixels; at 32 its bands are still told apart.
    ground : str
        A colour; left out, what lies behind is seen beside it.
    """
    bar, slant = billet(), math.radians(ANGLE)
    columns, rows = round(high * WIDE) * FINER, high * FINER
    solid = Block(
        size=bar.size,
        cut=((math.sin(slant), 0.0, math.cos(slant)), (SIDE / 2, 0.0, HIGH / 10)),
        turned=TURNED,
        raised=RAISED,
        columns=columns,
        rows=rows,
        pixel=1.0,
    )
    wide, tall = np.ptp([solid.place(corner) for corner in solid.corners], axis=0)
    solid = replace(solid, pixel=float(max(wide / columns, tall / rows)))
    face = etch.seen(bar, solid)
    sheet = Sheet(columns, rows)
    sheet.steel(face._replace(cover=np.ones_like(face.cover)), (0, 0))
    whole = sheet.image.convert("RGBA")
    whole.putalpha(Image.fromarray((face.cover * 255).astype(np.uint8)))
    whole = whole.crop(whole.getbbox()).reduce(FINER)
    if not ground:
        return whole
    laid = Image.new("RGB", whole.size, ground)
    laid.paste(whole, (0, 0), whole)
    return laid


def png(high: int = ICON) -> bytes:
    """Give the mark as a PNG that is clear beside it."""
    out = io.BytesIO()
    mark(high).quantize(32).save(out, "PNG", optimize=True)
    return out.getvalue()
