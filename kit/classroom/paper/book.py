"""Pages bound together in one file, written whole or not at all."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path

import matplotlib as mpl
from matplotlib.backends.backend_pdf import PdfPages

from kit.basics.whole import whole
from kit.classroom.paper.page import Page

STYLE = {
    "pdf.fonttype": 42,  # real letters: a reader can search and copy them
    "font.family": "DejaVu Sans",  # comes with matplotlib: nothing is fetched
    "text.parse_math": False,
}


def bind(
    pages: Sequence[Page],
    path: Path,
    title: str,
    progress: Callable[[float], None] | None = None,
) -> Path:
    """Write pages to a PDF. A half-written file is never left behind.

    Parameters
    ----------
    pages : sequence of Page
    path : Path
    title : str
        In the file's properties.
    progress : callable, optional
        Told the share that is done.

    Raises
    ------
    KitError
        If the file can not be written.
    """
    about = {"Title": title, "Creator": "pattern-welding kit", "CreationDate": None}
    with (
        whole(path) as part,
        mpl.rc_context(STYLE),
        PdfPages(part, metadata=about) as book,
    ):
        for number, page in enumerate(pages, 1):
            book.savefig(page.figure)
            if progress:
                progress(number / len(pages))
    return path
