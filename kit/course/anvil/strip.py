"""The ends, or faces, of a bar after every act, at one common scale, in one strip."""

from __future__ import annotations

import math
import time
from itertools import takewhile
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


class Row:
    """All stages side by side on white, drawn some at a time; the n-th cell is the n-th.

    Attributes
    ----------
    history : History, optional
        Whose stages they are.
    """

    def __init__(self) -> None:
        self.history: History | None = None
        self._drawn_as: tuple = ()
        self._cells: list[Image.Image] = []

    def begin(
        self, history: History, *, faces: bool = False, as_clay: bool = False
    ) -> None:
        """Take up another history: what is drawn of the same acts, in the same way, stays.

        Parameters
        ----------
        history : History
        faces : bool
            The top faces, from above, not the ends.
        as_clay : bool
            The metals as clay.
        """
        before, drawn_as = self.history, (history.source, scale(history), faces, as_clay)
        same = 0
        if before is not None and drawn_as == self._drawn_as:
            both = zip(before.acts, history.acts, strict=False)
            same = 1 + sum(1 for _ in takewhile(lambda acts: acts[0] == acts[1], both))
        self._cells, self._drawn_as, self.history = self._cells[:same], drawn_as, history

    def draw(self, seconds: float = math.inf) -> bool:
        """Draw on for some seconds, a cell at least; tell whether the row is whole."""
        source, pixel, faces, as_clay = self._drawn_as
        tones = (clay if as_clay else etch).tones(source.steels)
        end = time.monotonic() + seconds
        for stage in self.history.stages[len(self._cells) :]:
            if stage.refused:
                self._cells.append(self._cells[-1])
                continue
            sheet = Sheet(*CELL, sunlit=True)
            sheet.steel(see(stage.bar, _surface(stage, pixel, faces=faces), tones), (0, 0))
            self._cells.append(sheet.image)
            if time.monotonic() > end:
                break
        return len(self._cells) == len(self.history.stages)

    @property
    def image(self) -> Image.Image:
        """What is drawn of it."""
        columns, rows = CELL
        whole = Sheet(columns * len(self._cells), rows, sunlit=True).image
        for place, cell in enumerate(self._cells):
            whole.paste(cell, (place * columns, 0))
        return whole


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
