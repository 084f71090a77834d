"""Small pieces that every view is made of: spoken sentences, numbers, buttons."""

from __future__ import annotations

import base64
import html
from collections.abc import Iterable
from typing import Any

import ipywidgets as widgets

from kit.basics.typed import is_bare_fraction, parse_length
from kit.basics.units import Units, format_length
from kit.course.check import faded
from kit.course.lessons.scene import Number


def numbers_panel(
    numbers: Iterable[Number], blanks: int | None, units: Units = Units.MM
) -> str:
    """Write the numbers as HTML; with `blanks`, the working, that many lines left out.

    Working is in mm; on a page in inches it says so.
    """
    parts = []
    for number in numbers:
        lines = "" if blanks is None else _lines(faded(number.working, blanks))
        name, value = html.escape(number.name), html.escape(number.value)
        parts.append(f"<div><dt>{name}</dt><dd>{value}</dd>{lines}</div>")
    note = (
        "" if blanks is None or units is Units.MM else "<p>Worked out in millimetres.</p>"
    )
    return f'<div class="kit-numbers"><dl>{"".join(parts)}</dl>{note}</div>'


def spoken(words: str, *, refused: bool = False) -> str:
    """Write a sentence as HTML that a screen reader speaks when it changes."""
    mark = " kit-refused" if refused else ""
    text = html.escape(words).replace("\n", "<br>")
    role = 'role="status" aria-live="polite"'
    return f'<div class="kit-says{mark}" {role}><p>{text}</p></div>'


def as_inches(text: str, units: Units) -> str:
    """Say that a bare fraction was read as one of an inch, on a page in mm; or nothing."""
    if units is not Units.MM or not is_bare_fraction(text):
        return ""
    mm = format_length(parse_length(text))
    return f"{text.strip()} is a fraction of an inch here: {mm}."


def download(words: str, name: str, kind: str, data: bytes) -> str:
    """Write a link that hands a file over from inside the page: no network is needed.

    Parameters
    ----------
    words, name : str
        Of the link, and the file's name.
    kind : str
        Its media type, such as "application/pdf".
    """
    coded = base64.b64encode(data).decode()
    return (
        f'<p><a class="kit-button" download="{html.escape(name)}" '
        f'href="data:{kind};base64,{coded}">{html.escape(words)}</a></p>'
    )


def button(words: str, press: Any, *classes: str) -> widgets.Button:
    """Make a button that calls `press`, with CSS classes."""
    made = widgets.Button(description=words)
    made.on_click(press)
    for name in classes:
        made.add_class(name)
    return made


def in_a_row(*parts: widgets.Widget) -> widgets.Box:
    """Lay buttons, and boxes that belong to them, in a row."""
    row = widgets.Box(list(parts))
    row.add_class("kit-row-of-buttons")
    return row


def _lines(lines: list[str]) -> str:
    items = "".join(f"<li>{html.escape(line)}</li>" for line in lines)
    return f"<ol>{items}</ol>"
