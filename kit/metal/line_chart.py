"""A chart of fine lines to measure one's own eye with.

Each row has four fields of lines of one width, some upright and some flat, as chance has
it. Whoever can name all four splits lines so wide: by guessing alone one in fourteen
would. The width and the distance make an `Eye`.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from kit.basics.errors import KitError
from kit.basics.typed import MM_PER_INCH
from kit.basics.units import Units, format_length
from kit.section.picture import Sheet

if TYPE_CHECKING:
    from PIL import Image

PRINTED = MM_PER_INCH / 600  # mm, the dot of a common printer
FINEST_PIXEL, COARSEST_PIXEL = 0.02, 0.3  # mm

# Round numbers by even steps: ISO 3, series R10. mm
_WIDTHS = 0.05, 0.063, 0.08, 0.1, 0.125, 0.16, 0.2, 0.25, 0.315, 0.4, 0.5, 0.63, 0.8, 1.0
_FIELDS = 4
_FIELD, _PITCH = 10, 13  # mm
_WIDE, _LABEL, _MARGIN = 172, 26, 6
_TOP = 46  # where the rows begin
_TEXT = 3.6
_TRUE = 100  # mm, the bar to check the print by


class LineChart(NamedTuple):
    """The chart and its key: row by row, the coarsest first.

    Attributes
    ----------
    image : Image
        True to scale at `pixel` mm a pixel: `kit.section.picture.save` it with that.
    alt : str
        What it shows, without the answers.
    widths : tuple of float
        Of the lines in each row, mm: whole pixels.
    upright : tuple of tuple of bool
        The answers: whether the lines of each field stand upright.
    pixel : float
        mm.
    """

    image: Image.Image
    alt: str
    widths: tuple[float, ...]
    upright: tuple[tuple[bool, ...], ...]
    pixel: float


def line_chart(
    pixel: float = PRINTED, *, seed: int = 0, units: Units = Units.MM
) -> LineChart:
    """Draw the chart, lines of 1 mm down to 0.05 mm, or to one pixel.

    Parameters
    ----------
    pixel : float
        How wide a pixel is on paper or screen, 0.02 to 0.3 mm.
    seed : int
        Another number gives another order of upright and flat.

    Raises
    ------
    KitError
        For other pixels.

    Examples
    --------
    >>> chart = line_chart(0.1)
    >>> [round(width, 1) for width in chart.widths]
    [1.0, 0.8, 0.6, 0.5, 0.4, 0.3, 0.2, 0.1]
    """
    if not FINEST_PIXEL <= pixel <= COARSEST_PIXEL:
        msg = (
            f"A pixel of the line chart must be {FINEST_PIXEL} to {COARSEST_PIXEL} mm "
            f"wide. Given: {pixel:g} mm."
        )
        raise KitError(msg)
    strokes = sorted({max(1, round(width / pixel)) for width in _WIDTHS}, reverse=True)
    chance = np.random.default_rng(seed).integers(1, 2**_FIELDS - 1, len(strokes))
    answers = (chance[:, None] >> np.arange(_FIELDS) & 1).astype(bool)
    half = -(-len(strokes) // 2)
    rows = _TOP + half * _PITCH + 2 * _MARGIN
    sheet = Sheet(round(_WIDE / pixel), round(rows / pixel), sunlit=True)
    widths = tuple(stroke * pixel for stroke in strokes)
    for row, (stroke, answer) in enumerate(zip(strokes, answers, strict=True)):
        corner = (
            _MARGIN + row // half * (_WIDE / 2),
            _TOP + row % half * _PITCH,
        )
        words = _fine(widths[row], units)
        _write(sheet, words, (corner[0], corner[1] + _FIELD / 2), pixel, anchor="lm")
        _row(sheet, (corner[0] + _LABEL, corner[1]), stroke, answer, pixel)
    _instruct(sheet, pixel, units, rows - _MARGIN)
    key = tuple(tuple(map(bool, answer)) for answer in answers)
    return LineChart(sheet.image, _alt(widths, units), widths, key, pixel)


def _row(
    sheet: Sheet,
    corner: tuple[float, float],
    stroke: int,
    upright: np.ndarray,
    pixel: float,
) -> None:
    """Lay four fields beside each other; black begins and ends each."""
    from PIL import Image  # noqa: PLC0415  (keeps the core's import quick)

    lines = round(_FIELD / pixel / (2 * stroke))
    paper = np.arange((2 * lines - 1) * stroke) // stroke % 2
    flat = np.repeat((255 * paper).astype(np.uint8)[:, None], len(paper), axis=1)
    for place, stands in enumerate(upright):
        field = flat.T if stands else flat
        at = round((corner[0] + place * _PITCH) / pixel), round(corner[1] / pixel)
        sheet.image.paste(Image.fromarray(np.ascontiguousarray(field)).convert("RGB"), at)


def _instruct(sheet: Sheet, pixel: float, units: Units, low: float) -> None:
    """Say how it is done, and draw the bar to check the print by."""
    off = format_length(1000, units)
    lines = (
        f"1  On paper or screen the bar below must be {_bar(units)} long. Do not scale it.",
        f"2  Hang it up in good light. Stand off and measure how far: {off}, say.",
        "3  From the widest lines on, name all four in a row: upright or flat?",
        "4  The last row without a mistake is yours. Type its width and your distance.",
        f"Printers smear lines below {_fine(0.1, units)} or so: stand off, use wider ones.",
    )
    for place, words in enumerate(lines):
        at = _MARGIN, _MARGIN + place * 2 * _TEXT
        _write(sheet, words, at, pixel)
    left, right = _MARGIN / pixel, (_MARGIN + _TRUE) / pixel
    thick = max(1, round(0.3 / pixel))
    for start, end in (
        ((left, low), (right, low)),
        ((left, low - 2), (left, low + 2)),
        ((right, low - 2), (right, low + 2)),
    ):
        sheet.line([(start[0], start[1] / pixel), (end[0], end[1] / pixel)], width=thick)
    _write(sheet, _bar(units), (_MARGIN + _TRUE + 4, low), pixel, anchor="lm")


def _fine(width: float, units: Units) -> str:
    """Write a width so that no rounding hides it: no fractions of an inch here."""
    if units is Units.MM:
        return f"{width:.3g} mm"
    return f"{width / MM_PER_INCH:.4f} in"


def _bar(units: Units) -> str:
    inches = "" if units is Units.MM else f" ({_TRUE / MM_PER_INCH:.2f} in)"
    return f"{_TRUE} mm{inches}"


def _write(
    sheet: Sheet,
    words: str,
    at: tuple[float, float],
    pixel: float,
    *,
    anchor: str = "la",
) -> None:
    """Write at a place given in mm."""
    place = at[0] / pixel, at[1] / pixel
    sheet.text(words, place, size=round(_TEXT / pixel), anchor=anchor)


def _alt(widths: tuple[float, ...], units: Units) -> str:
    return (
        f"A chart to measure an eye: {len(widths)} rows of four fields of black lines, "
        f"upright or flat, from {_fine(widths[0], units)} wide down to "
        f"{_fine(widths[-1], units)}, and a bar of {_bar(units)} to check the "
        "print by."
    )
