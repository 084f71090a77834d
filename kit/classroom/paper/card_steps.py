"""The second side of a recipe card: step by step, and what to wear."""

from __future__ import annotations

from collections.abc import Sequence

from kit.basics.units import Units
from kit.classroom.paper.operations import Operation
from kit.classroom.paper.page import LIVE, Page
from kit.classroom.paper.protect import KINDS, LOCAL, letters
from kit.classroom.paper.tables import BOX, Table
from kit.classroom.paper.told import size_in_words

HEATS, UNKNOWN = 3, "–"
COLUMNS = {  # and their widths, mm
    "": 7,
    "Do": 30,
    "T × W × L": 49,
    "Heats": 36,
    "Mass": 15,
    "Layers": 16,
    "Measured": 24,
    "Wear": 13,
}
COLUMNS_WITHOUT_HEATS = {
    "": 7,
    "Do": 49,
    "T × W × L": 58,
    "Mass": 17,
    "Layers": 16,
    "Measured": 30,
    "Wear": 13,
}
FEW = 13  # steps: so many leave room for larger letters


def steps_side(
    name: str, rows: Sequence[Operation], paper: str, units: Units
) -> list[Page]:
    """Give a card's second side: every step with a box to write in, and what to wear."""
    few = len(rows) <= FEW
    title = f"{name[0].upper()}{name[1:]}"
    left = [_line(at, row, units) for at, row in enumerate(rows, 1)]
    columns = COLUMNS
    if all(row[HEATS] == UNKNOWN for row in left):
        columns = COLUMNS_WITHOUT_HEATS
        left = [(*row[:HEATS], *row[HEATS + 1 :]) for row in left]
    pages = []
    while left:
        page = Page(paper, f"{title}: step by step")
        page.write("Sizes and weights are as they should be after each step.", size=10)
        size, least = (10, 9) if few else (8.5, 7.4)
        steps = Table(tuple(columns), tuple(columns.values()), size, least, rows=left)
        left = steps.draw(page)
        pages.append(page)
    wear = Table(("", "Work", "Wear and mind"), (7, 33, 150), size=9 if few else 7.7)
    wear.rows = [(kind.letter, kind.name, kind.wear) for kind in KINDS]
    if pages[-1].y + 3 + wear.tall > LIVE[1]:
        pages.append(Page(paper, f"{title}: what to wear"))
    wear.draw(pages[-1], pages[-1].y + 3)
    pages[-1].foot(LOCAL)
    return pages


def _line(number: int, row: Operation, units: Units) -> Sequence[str]:
    size, weighs = size_in_words(*reversed(row.size), units), f"{row.grams:.0f} g"
    layers = UNKNOWN if row.layers is None else f"{row.layers:,}"
    first = (str(number), row.told, size, row.heat, weighs, layers)
    return (*first, BOX, letters(row.done_at))
