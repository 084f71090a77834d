"""The ends, or faces, of a bar after every act, at one common scale, in one strip."""

from __future__ import annotations

from typing import TYPE_CHECKING

from kit.course.anvil import clay
from kit.course.anvil.history import History, Stage
from kit.metal import etch
from kit.section.picture import Sheet
from kit.section.surface import Plane
from kit.section.trace import see

if TYPE_CHECKING:
    from PIL import Image

CELL = (92, 56)  # columns, rows
MARGIN = 3


def scale(history: History) -> float:
    """Give the mm a pixel with which the largest end of a history fits its cell."""
    wide = max(stage.size.width for stage in history.stages)
    high = max(stage.size.thickness for stage in history.stages)
    return max(wide / (CELL[0] - 2 * MARGIN), high / (CELL[1] - 2 * MARGIN))


def strip(history: History, *, faces: bool = False, as_clay: bool = False) -> Image.Image:
    """Draw all stages side by side on white; the n-th cell is the n-th stage.

    Parameters
    ----------
    history : History
    faces : bool
        The top faces, from above, not the ends.
    as_clay : bool
        The metals as clay.
    """
    columns, rows = CELL
    sheet = Sheet(columns * len(history.stages), rows, sunlit=True)
    pixel = scale(history)
    tones = (clay if as_clay else etch).tones(history.source.steels)
    drawn = None
    for place, stage in enumerate(history.stages):
        if drawn is None or not stage.refused:
            drawn = see(stage.bar, _surface(stage, pixel, faces=faces), tones)
        sheet.steel(drawn, (place * columns, 0))
    return sheet.image


def _surface(stage: Stage, pixel: float, *, faces: bool) -> Plane:
    size = stage.size
    up, height = ((0.0, 0.0, 1.0), 0.0)
    right = (0.0, 1.0, 0.0)
    if faces:
        right, up, height = (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), size.thickness / 2 - 1e-3
    return Plane(
        size=size,
        centre=(size.length * 0.4, 0.0, height),
        right=right,
        up=up,
        columns=CELL[0],
        rows=CELL[1],
        pixel=pixel,
    )
