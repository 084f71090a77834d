"""A table on a page: rows under headings, ruled with thin lines."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

from kit.basics.errors import KitError
from kit.classroom.paper.page import HAIR, LIVE, Page

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
    foot : float
        How far down a page it may reach, mm.
    rows : list of sequences of str
    """

    headings: Sequence[str]
    widths: Sequence[float]
    size: float = 9
    least: float = 0
    foot: float = LIVE[1]
    rows: list[Sequence[str]] = field(default_factory=list)

    def draw(self, page: Page) -> list[Sequence[str]]:
        """Draw what fits below what is on a page; give the rows that are left over.

        Raises
        ------
        KitError
            If not one row fits.
        """
        if not self._begins(page):
            msg = "A row of a table does not fit on its page."
            raise KitError(msg)
        self._row(page, self.headings, bold=True)
        for done, row in enumerate(self.rows):
            if page.y + self._height(page, row) > self.foot + 1e-6:
                return self.rows[done:]
            self._row(page, row)
        return []

    def run(self, pages: list[Page], turn: Callable[[], Page]) -> list[Page]:
        """Draw all of it from the last page on; give the pages, with those it added.

        `turn` gives a new page. `KitError` if a row fits on none.
        """
        while self.rows:
            if not pages or not self._begins(pages[-1]):
                pages.append(turn())
            self.rows = self.draw(pages[-1])
        return pages

    def tall(self, page: Page) -> float:
        """Give how far down a page all of it would reach, mm."""
        rows = sum(self._height(page, row) for row in self.rows)
        return rows + self._height(page, self.headings, bold=True)

    def _begins(self, page: Page) -> bool:
        """Tell whether headings and a row fit below what is on a page."""
        head = self._height(page, self.headings, bold=True)
        return page.y + head + self._height(page, self.rows[0]) <= self.foot + 1e-6

    def _height(self, page: Page, row: Sequence[str], *, bold: bool = False) -> float:
        cells = zip(row, self.widths, strict=True)
        tall = max(
            page.tall(cell.replace(BOX, ""), wide - 2 * PAD, self.size, bold=bold)
            for cell, wide in cells
        )
        return max(tall + 1.5 * PAD, 0 if bold else self.least)

    def _row(self, page: Page, row: Sequence[str], *, bold: bool = False) -> None:
        x, y, tall = 0.0, page.y, self._height(page, row, bold=bold)
        for cell, wide in zip(row, self.widths, strict=True):
            if cell.startswith(BOX):
                page.box((x + 0.6, y + 0.8), (wide - 1.2, tall - 1.6))
            place, room = (x + PAD, y + PAD), wide - 2 * PAD
            page.write(cell.replace(BOX, ""), place, room, size=self.size, bold=bold)
            x += wide
        page.y = y + tall
        page.line((0, page.y), (x, page.y), width=2 * HAIR if bold else HAIR)
