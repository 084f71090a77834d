"""Tables: rows under headings, with boxes to write in, from page to page."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from kit.basics.errors import KitError
from kit.classroom.paper.page import HAIR, LIVE, Page
from kit.classroom.paper.widths import height_of

PAD = 1.2  # mm, inside a cell
BOX = "□"  # a cell that is left empty, to write in


@dataclass
class Table:
    """Rows under headings, ruled with thin lines; runs on from page to page.

    Parameters
    ----------
    headings : sequence of str
    widths : sequence of float
        Of the columns, mm.
    size : float
        Of the letters, points.
    least : float
        Least height of a row, mm: room to write by hand.
    left : float
        Where it begins, mm.
    """

    headings: Sequence[str]
    widths: Sequence[float]
    size: float = 9
    least: float = 0
    left: float = 0
    foot: float = LIVE[1]
    rows: list[Sequence[str]] = field(default_factory=list)

    def draw(self, page: Page, y: float | None = None) -> list[Sequence[str]]:
        """Draw what fits on a page, below `y`; give the rows that are left over.

        Raises
        ------
        KitError
            If not one row fits.
        """
        top = page.y if y is None else y
        first = self._height(self.headings, bold=True) + self._height(self.rows[0])
        if top + first > self.foot + 1e-6:
            msg = "A row of a table does not fit on its page."
            raise KitError(msg)
        page.y = self._row(page, top, self.headings, bold=True)
        for done, row in enumerate(self.rows):
            if page.y + self._height(row) > self.foot + 1e-6:
                return self.rows[done:]
            page.y = self._row(page, page.y, row)
        return []

    @property
    def tall(self) -> float:
        """How far down a page all of it would reach, mm."""
        rows = sum(self._height(row) for row in self.rows)
        return rows + self._height(self.headings, bold=True)

    def _height(self, row: Sequence[str], *, bold: bool = False) -> float:
        cells = zip(row, self.widths, strict=True)
        tall = max(
            height_of(cell.replace(BOX, ""), wide - 2 * PAD, self.size, bold=bold)
            for cell, wide in cells
        )
        return max(tall + 1.5 * PAD, 0 if bold else self.least)

    def _row(
        self, page: Page, y: float, row: Sequence[str], *, bold: bool = False
    ) -> float:
        x, tall = self.left, self._height(row, bold=bold)
        for cell, wide in zip(row, self.widths, strict=True):
            if cell.startswith(BOX):
                page.box((x + 0.6, y + 0.8), (wide - 1.2, tall - 1.6))
            page.write(
                cell.replace(BOX, ""),
                (x + PAD, y + PAD),
                wide - 2 * PAD,
                size=self.size,
                bold=bold,
            )
            x += wide
        page.line((self.left, y + tall), (x, y + tall), width=2 * HAIR if bold else HAIR)
        return y + tall
