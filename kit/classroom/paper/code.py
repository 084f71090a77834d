"""A square code that a telephone reads, drawn as vector squares on a page."""

from functools import lru_cache
from itertools import groupby

import segno

from kit.classroom.paper.page import Page, Place

QUIET = 4  # modules of white around it: ISO/IEC 18004
LEAST = 0.5  # mm a module: fine enough for paper, coarse enough for a telephone
MOST = 1_200  # bytes: beyond, modules become too small for a card


@lru_cache(maxsize=16)
def _code(words: str) -> segno.QRCode:
    """Make the code: a card asks for its side first, and care cards draw it four times."""
    return segno.make_qr(words, error="m", boost_error=False)


def square_code(page: Page, words: str, at: Place, module: float = LEAST) -> float | None:
    """Draw the code of some words; `at` is its upper left corner, with its white rim.

    Error correction M: 15 % may be dirty (ISO/IEC 18004).

    Parameters
    ----------
    page : Page
    words : str
    at : (float, float)
        mm.
    module : float
        Side of a smallest square, mm.

    Returns
    -------
    float or None
        Its side with the rim, mm; None if there are no words, or too many for a card.
    """
    if not 0 < len(words.encode()) <= MOST:
        return None
    rows, boxes = _code(words).matrix, []
    for down, row in enumerate(rows):
        across = 0
        for dark, run in groupby(row):
            wide = len(list(run))
            if dark:
                left, top = (
                    at[0] + (QUIET + across) * module,
                    at[1] + (QUIET + down) * module,
                )
                # a hair of overlap, or some printers leave white lines between rows
                boxes.append(((left, top), (wide * module, module * 1.02)))
            across += wide
    page.squares(boxes)
    return (len(rows) + 2 * QUIET) * module


def side_of(words: str, module: float = LEAST) -> float:
    """Give the side of the code with its rim, mm; 0 if there are none, or too many."""
    if not 0 < len(words.encode()) <= MOST:
        return 0.0
    return (_code(words).symbol_size(border=QUIET)[0]) * module
