"""Tables as CSV that no spreadsheet takes for a formula."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence

# A cell that begins with one of these is worked out by spreadsheets: OWASP, "CSV
# Injection". An apostrophe before it makes it text.
_FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠")


def safe(cell: object) -> str:
    """Give a cell's text as nothing but text; numbers stay as they are.

    Examples
    --------
    >>> safe("=2+2"), safe("Student One"), safe(-0.5)
    ("'=2+2", 'Student One', '-0.5')
    """
    if isinstance(cell, (int, float)):
        return f"{cell:.6g}" if isinstance(cell, float) else str(cell)
    text = " ".join(str(cell).replace("\0", "").splitlines())
    return f"'{text}" if text.lstrip().startswith(_FORMULA) else text


def to_csv(head: Sequence[str], rows: Iterable[Sequence[object]]) -> str:
    """Write a table as CSV, every cell safe."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    for row in (head, *rows):
        writer.writerow([safe(cell) for cell in row])
    return out.getvalue()
