"""The sentences of the forge, and the list of steps and bars that it is handled by."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any, get_args

import anywidget
import traitlets

from kit.basics.typed import parse_length
from kit.basics.units import STOCK_THICKNESSES_INCH, Units, format_length
from kit.course.anvil import clay
from kit.course.anvil.acts import name_of
from kit.course.anvil.clay import Material
from kit.course.anvil.desk import Desk
from kit.course.anvil.look import Look
from kit.course.anvil.motif import MOST_BARS, Motif
from kit.course.anvil.play import CELL
from kit.course.anvil.sentence import Gap, gap, parts
from kit.course.views.controls import HERE
from kit.course.views.said import SHOWN
from kit.forge.stack import MOST_PIECES, Layer
from kit.shop.recipes.talk import Kind

STOCK_MM = (1.0, 1.5, 2.0, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0)  # common practice, no source
LIST = (HERE / "list.js").read_text("utf-8")  # how a list of words is gone through by key


class Strip(anywidget.AnyWidget):
    """The history, step after step.

    It sends ``{"at": place}``, ``{"move": place, "way": -1 or 1}``, ``{"remove": place}``;
    and ``{"more": True}`` where Python asks it to: between two stretches of drawing at a
    long row other wishes are heard. Whatever it is sent brings it in sight.
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


NEXT = "choose …"
ONCE_MORE = ("as they are", "the first once more on top")
AFTER = {"times": " times, ", "closed": "; ", "length": " long, ", "width": " wide."}
Verbs = dict[str, list[str]]


def verbs(desk: Desk, *, here: bool) -> Verbs:
    """Give what can be done, and what cannot yet, under their headings."""
    can, not_yet = desk.verbs(here=here)
    return {"this bar allows": can, "not on this bar yet": not_yet}


def next_line(can: Verbs) -> list[dict]:
    """Write the sentence that adds a step."""
    return [
        words("And then: "),
        chosen("next", "And then", NEXT, {"": [NEXT], **can}, acts=True),
    ]


def look_line(desk: Desk, units: Units) -> list[dict]:
    """Write how the bar is looked at."""
    kinds = {"": get_args(Kind)}
    line = [words("Look at its "), chosen("look:kind", "Look at", desk.look.kind, kinds)]
    return line + _filled("look", desk.look.parts(desk.stage.bar), units)


def act_line(desk: Desk, can: Verbs, units: Units) -> list[dict]:
    """Write the step that is looked at; of the stack, how its bars are laid."""
    if desk.act is not None:
        verb = chosen("verb", "What is done", name_of(desk.act), can, acts=True)
        line = [words(f"{desk.at}. Now "), verb]
        return line + _filled("act", parts(desk.act), units)
    if desk.motif is None:
        return [words("This stack came with its recipe and stays as it is.")]
    line = [words("Lay these bars ")]
    for one in stack_gaps(desk.motif):
        line += [told("stack", one, units), words(AFTER[one.key])]
    return line


def numbers(desk: Desk) -> dict[str, Gap]:
    """Give the numbers that a slider can be for, by their key, the main one first."""
    found: dict[str, Gap] = {}
    if desk.act is not None:
        found = {f"act:{one.key}": one for one in _gaps(parts(desk.act))}
    elif desk.motif:
        found = {f"stack:{one.key}": one for one in stack_gaps(desk.motif)}
    found |= {f"look:{one.key}": one for one in _gaps(desk.look.parts(desk.stage.bar))}
    return {key: one for key, one in found.items() if not one.options}


def stack_gaps(motif: Motif) -> tuple[Gap, ...]:
    """Give what can be set of a stack, but for its bars."""
    most = MOST_PIECES // len(motif.bars)
    times = Gap(
        "times", "Times", "how often these bars are laid", "", motif.times,
        low=1, high=most, whole=True,
    )  # fmt: skip
    closed = Gap(
        "closed", "On top", "whether both faces are alike", "",
        ONCE_MORE[int(motif.closed)], ONCE_MORE,
    )  # fmt: skip
    return times, closed, gap(motif.stack, "length"), gap(motif.stack, "width")


def with_value(desk: Desk, key: str, value: Any) -> Desk:
    """Fill a gap with another value.

    Raises
    ------
    KitError
        A value that is none, or that the bar does not allow.
    """
    kind, _, name = key.partition(":")
    if kind == "look":
        return desk.looking(Look(**{**dict(desk.look), name: value}))
    if kind == "act" and desk.act is not None:
        return desk.set(name, value)
    if kind == "stack" and desk.motif and name in AFTER:
        value = value == ONCE_MORE[1] if name == "closed" else value
        return desk.stacked(replace(desk.motif, **{name: value}))
    return desk


def with_bars(desk: Desk, message: dict, units: Units, *, as_clay: bool) -> Desk:
    """Lay the bars as a message of their list wants them; see `Bars`.

    Raises
    ------
    KitError
        A stack that is none.
    KeyError, ValueError, TypeError, IndexError, StopIteration
        A message that is none.
    """
    motif = desk.motif
    if motif is None:
        return desk
    if message.get("add"):  # in turn: as the last but one
        motif = motif.added(motif.bars[-2:][0])
    elif "remove" in message:
        motif = motif.removed(int(message["remove"]))
    elif "move" in message:
        motif = motif.moved(int(message["move"]), int(message["to"]))
    else:
        place = int(message["bar"]) % MOST_BARS
        values = dict(motif.bars[place])
        if "steel" in message:
            metals = clay.to_choose(motif.metals, as_clay=as_clay)
            wanted = str(message["steel"])
            values["steel"] = next(one for one, of in metals.items() if of.name == wanted)
        else:
            text = str(message["thickness"])[:40]
            values["thickness"] = parse_length(text, unit=units.unit)
        motif = motif.put(place, Layer(**values))
    return desk.stacked(motif)


def _gaps(line: list[str | Gap]) -> list[Gap]:
    return [part for part in line if isinstance(part, Gap)]


def _filled(prefix: str, line: list[str | Gap], units: Units) -> list[dict]:
    filled = [
        words(part) if isinstance(part, str) else told(prefix, part, units) for part in line
    ]
    return [*filled, words(".")]
