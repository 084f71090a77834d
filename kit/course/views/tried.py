"""What came of a step that was tried out, under its cell: a picture with its words."""

from __future__ import annotations

import html
from typing import TYPE_CHECKING

from IPython.display import display

from kit.basics.files import address_of
from kit.course.views.said import Text
from kit.section.picture import encode

if TYPE_CHECKING:
    from PIL import Image

CONTROL = "application/vnd.jupyter.widget-view+json"


def put(image: Image.Image, alt: str) -> None:
    """Show a picture in the cell that is run.

    As a control: it is there as long as the page's Python, and never in the page's file.
    """
    shown = Text(
        f'<img alt="{html.escape(alt)}" style="max-width:100%" '
        f'src="{address_of(encode(image), "image/png")}">'
    )
    mark = {"version_major": 2, "version_minor": 0, "model_id": shown.model_id}
    display({CONTROL: mark}, raw=True)
