"""What the forge is handled by: the list of steps, sentences, the bars of the stack."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

import anywidget
import traitlets

from kit.basics.units import STOCK_THICKNESSES_INCH, Units, format_length
from kit.course.anvil.clay import Material
from kit.course.anvil.motif import Motif
from kit.course.anvil.play import CELL
from kit.course.anvil.sentence import Gap
from kit.course.views.controls import HERE
from kit.course.views.said import SHOWN

STOCK_MM = (1.0, 1.5, 2.0, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0)  # common practice, no source
LIST = (HERE / "list.js").read_text("utf-8")  # how a list of words is gone through by key


class Strip(anywidget.AnyWidget):
    """The history, step after step.

    It sends ``{"at": place}``, ``{"move": place, "way": -1 or 1}``, ``{"remove": place}``;
    and ``{"more": True}`` where Python asks it to: between two stretches of drawing at a
    long row other wishes are heard.
    """

    _esm = HERE / "strip.js"
    entries = traitlets.List(traitlets.Dict()).tag(**SHOWN)
    at = traitlets.Int(0).tag(sync=True)
    sprite = traitlets.Bytes(b"").tag(sync=True)
    drawn = traitlets.Int(0).tag(sync=True)
    cell = traitlets.List(traitlets.Int(), list(CELL)).tag(sync=True)
    asked = traitlets.Int(0).tag(sync=True)


class Sentence(anywidget.AnyWidget):
    """A sentence with gaps.

    It sends ``{"pick": key}`` for a number, and ``{"set": key, "to": word}``.
    """

    _esm = LIST + (HERE / "sentence.js").read_text("utf-8")
    parts = traitlets.List(traitlets.Dict()).tag(**SHOWN)
    picked = traitlets.Unicode("").tag(sync=True)

    def tell(self, parts: Sequence[dict], picked: str) -> None:
        """Write another sentence, or what has changed in it."""
        with self.hold_sync():
            self.parts, self.picked = list(parts), picked


class Bars(anywidget.AnyWidget):
    """The bars of a stack.

    It sends ``{"bar": place, "steel": name}``, ``{"bar": place, "thickness": text}``,
    ``{"move": place, "to": place}``, ``{"remove": place}``, ``{"add": True}``.
    """

    _esm = LIST + (HERE / "bars.js").read_text("utf-8")
    bars = traitlets.List(traitlets.Dict()).tag(sync=True)
    metals = traitlets.Dict().tag(sync=True)  # lists of names, each under its heading
    sizes = traitlets.List(traitlets.Unicode()).tag(sync=True)

    def tell(self, motif: Motif, units: Units, metals: Mapping[str, Material]) -> None:
        """Show the bars of a motif, the rack's sizes, and what a bar can be of."""
        headings = dict.fromkeys(one.heading for one in metals.values())
        self.metals = {
            heading: [one.name for one in metals.values() if one.heading == heading]
            for heading in headings
        }
        stock = STOCK_MM if units is Units.MM else STOCK_THICKNESSES_INCH
        self.sizes = [format_length(size, units) for size in stock]
        self.bars = [
            {
                "steel": metals[bar.steel].name,
                "thickness": format_length(bar.thickness, units),
            }
            for bar in motif.bars
        ]


def words(text: str) -> dict[str, Any]:
    """Give words of a sentence."""
    return {"text": text}


def told(prefix: str, gap: Gap, units: Units) -> dict[str, Any]:
    """Give a gap of a sentence, as the page knows it."""
    part = {
        "key": f"{prefix}:{gap.key}",
        "title": gap.title,
        "help": gap.meaning,
        "shown": gap.shown(units),
    }
    if gap.options:
        part["groups"] = {"": list(gap.options)}
    return part


def chosen(
    key: str,
    title: str,
    value: str,
    groups: dict[str, Sequence[str]],
    *,
    acts: bool = False,
) -> dict:
    """Give a word to choose from lists, each under its name.

    If choosing it does something (`acts`), going through the list by key does not yet.
    """
    return {
        "key": key,
        "title": title,
        "acts": acts,
        "help": "Enter does it" if acts else "",
        "shown": value,
        "groups": {name: list(names) for name, names in groups.items() if names},
    }
