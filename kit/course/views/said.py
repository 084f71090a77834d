"""Words on a page: sentences, HTML, numbers and how they are known, links to files.

What is shown keeps each number in one line with its unit (`kit.basics.told.kept`); in
Python the words stay as they were written.
"""

import html
from collections.abc import Callable, Collection, Iterable, Sequence
from pathlib import Path
from typing import Any

import anywidget
import ipywidgets as widgets
import traitlets
from IPython.display import display
from PIL import Image

from kit.basics.claim import Claim, legend, marks
from kit.basics.errors import KitError
from kit.basics.files import address_of
from kit.basics.told import NO_BREAK, kept
from kit.basics.units import Units
from kit.course.answers import faded
from kit.course.lessons.scene import Number
from kit.section.picture import encode

HERE = Path(__file__).parent


def _shown(value: Any, _widget: Any = None) -> Any:
    """Give what a page gets of words, or of all words in a list or a mapping."""
    if isinstance(value, str):
        return kept(value)
    if isinstance(value, list):
        return [_shown(one) for one in value]
    return (
        {k: _shown(one) for k, one in value.items()} if isinstance(value, dict) else value
    )


SHOWN = {"sync": True, "to_json": _shown}  # how a trait is tagged whose words are read


class Text(widgets.HTML):
    """Words as HTML."""

    value = traitlets.CUnicode("").tag(**SHOWN)


class Says(anywidget.AnyWidget):
    """A sentence that a screen reader speaks, once, when the page has come to rest.

    Its value is HTML as `spoken` writes it.
    """

    _esm = HERE / "says.js"
    value = traitlets.Unicode("").tag(**SHOWN)

    def tell(self, words: str, *, refused: bool = False) -> None:
        """Write one sentence."""
        self.value = spoken(words, refused=refused)

    def tried(self, work: Callable[[], Any]) -> bool:
        """Do what may be refused, and tell why; say whether it was done."""
        try:
            work()
        except KitError as refused:
            self.tell(str(refused), refused=True)
            return False
        return True


def numbers_panel(
    numbers: Collection[Number], blanks: int | None, units: Units = Units.MM
) -> str:
    """Write the numbers as HTML; with `blanks`, the working, that many lines left out.

    Working is in mm; on a page in inches it says so.
    """
    parts = []
    for number in numbers:
        rows = [] if blanks is None else faded(number.working, blanks)
        items = "".join(f"<li>{html.escape(row)}</li>" for row in rows)
        lines = f"<ol>{items}</ol>" * bool(items)
        name, value = html.escape(number.name), html.escape(number.value)
        dd = f"<dd>{value} {mark_of(number.claims)}</dd>"
        parts.append(f"<div><dt>{name}</dt>{dd}{lines}</div>")
    note = (
        "" if blanks is None or units is Units.MM else "<p>Worked out in millimetres.</p>"
    )
    used = dict.fromkeys(claim for number in numbers for claim in number.claims)
    known = "" if blanks is None else how_known(used)  # across the whole row, once
    return f'<div class="kit-numbers"><dl>{"".join(parts)}</dl>{known}{note}</div>'


def mark_of(claims: Iterable[Claim]) -> str:
    """Write as HTML the small mark beside a number; a line breaks after a dot alone."""
    told = marks(claims).replace(" ", NO_BREAK).replace(f"·{NO_BREAK}", "· ")
    return f'<small class="kit-kind">{told}</small>'


def how_known(claims: Iterable[Claim]) -> str:
    """Write as HTML what opens: each claim, how it is known, and what the marks mean."""
    claims = tuple(claims)
    if not claims:
        return ""
    told = (
        f'<li><b class="kit-kind">{claim.kind.value}</b> {html.escape(claim.says)} '
        f"<small>{html.escape(claim.how)}</small></li>"
        for claim in claims
    )
    return (
        '<details class="kit-known"><summary>How do you know?</summary>'
        f"<ul>{''.join(told)}</ul><p>{html.escape(legend(claims))}</p></details>"
    )


def spoken(words: str, *, refused: bool = False) -> str:
    """Write a sentence as HTML, for `Says`.

    Lines, as code has them, stand on the page already: they are for the ear alone, for
    the sentence stays in sight and would lie on what is below.
    """
    mark = " kit-refused" if refused else ""
    text = html.escape(words)
    if "\n" in words:
        heard = text.replace("\n", "<br>")
        text = f'Read out to those who listen. <span class="kit-heard">{heard}</span>'
    return f'<div class="kit-says{mark}"><p>{text}</p></div>'


def download(words: str, name: str, kind: str, data: bytes) -> str:
    """Write a link that hands a file over from inside the page: no network is needed.

    Parameters
    ----------
    words, name : str
        Of the link, and the file's name.
    kind : str
        Its media type, such as "application/pdf".
    """
    return (
        f'<p><a class="kit-button" download="{html.escape(name)}" '
        f'href="{address_of(data, kind)}">{html.escape(words)}</a></p>'
    )


def small_print(*said: str) -> str:
    """Write as HTML what is guessed, or disputed, below a picture."""
    words = " ".join(filter(None, said))
    return f'<p class="kit-fine">{html.escape(words)}</p>'


def table(
    head: Iterable[str], rows: Iterable[Sequence[str]], caption: str = "", chosen: str = ""
) -> str:
    """Write a table as HTML; the row that begins with `chosen` is marked."""
    top = "".join(f'<th scope="col">{html.escape(cell)}</th>' for cell in head)
    named = f"<caption>{html.escape(caption)}</caption>" if caption else ""
    return (
        f"<table>{named}<thead><tr>{top}</tr></thead>"
        f"<tbody>{table_rows(rows, chosen)}</tbody></table>"
    )


def table_rows(rows: Iterable[Sequence[str]], chosen: str = "") -> str:
    """Write the rows of a table; the first cell of each is its heading."""
    told = []
    for first, *cells in rows:
        mark = ' class="kit-chosen" aria-current="true"' if first == chosen else ""
        others = "".join(f"<td>{html.escape(cell)}</td>" for cell in cells)
        told.append(f'<tr{mark}><th scope="row">{html.escape(first)}</th>{others}</tr>')
    return "".join(told)


WAITS = "<p>Predict first: then the picture comes by itself.</p>"
CONTROL = "application/vnd.jupyter.widget-view+json"


def put(image: Image.Image, alt: str, bench: Any = None) -> None:
    """Show a picture in the cell that is run, but not while its bench is shut.

    As a control: it is there as long as the page's Python, and never in the page's file.
    """
    picture = (
        f'<img alt="{html.escape(alt)}" style="max-width:100%" '
        f'src="{address_of(encode(image), "image/png")}">'
    )
    shown = Text()

    def tell(_change: Any = None) -> None:
        shown.value = WAITS if bench is not None and bench.locked else picture

    if bench is not None:
        bench.picture.observe(tell, "shut")
    tell()
    mark = {"version_major": 2, "version_minor": 0, "model_id": shown.model_id}
    display({CONTROL: mark}, raw=True)
