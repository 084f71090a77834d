"""An act as a sentence whose bold words are its controls, and what it did to the layers.

Both are made from what a step declares: a new one appears by itself.
"""

import math
import re
from collections.abc import Iterable
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Any, get_args

from kit.basics.declare import Declared, allowed_range, multiples
from kit.basics.errors import KitError
from kit.basics.told import counted, listed
from kit.basics.typed import MM_PER_INCH
from kit.basics.units import Units, both, format_length
from kit.course.anvil.acts import VERBS, Act, Laid, name_of
from kit.course.anvil.clay import clays
from kit.course.anvil.history import History, Stage
from kit.forge.billet import Billet
from kit.forge.steels import steel
from kit.forge.steps import Layers, Place, Size
from kit.forge.steps.base import Heat
from kit.metal import etch
from kit.metal.colour import contrast_ratio
from kit.metal.diffusion import spread
from kit.metal.eye import LEAST_CONTRAST
from kit.metal.soak import check_heats
from kit.metal.working_heat import too_hot, warned
from kit.shop.losses import taken, weight

GAP = re.compile(r"\{(\w+)\}")
MOST_STOPS = 120  # of a slider, ours
HELD = "as it comes"  # a value left out
NO_HEAT = "Add how long and how hot it was"  # until then borders are drawn sharp
NICE = (1, 2, 5)
SHARES = ((2, 0.05), (5, 0.1), (10, 0.2))  # of ten: up to where, and how far to the next
FAR = 60  # more than so many times the least is too far for even stops, ours
MOST_LONG = 2000.0  # mm, min: a slider goes no further; what is typed does
ALIKE = 1e-3  # share of a length: nobody measures nearer


@dataclass(frozen=True)
class Gap:
    """One bold word of a sentence: a value that can be set.

    Attributes
    ----------
    key, title, meaning : str
        As declared.
    unit : str
        "mm", "°", or nothing for a count.
    value : float, int, str or None
    options : tuple of str
        Of a word, what it can be; none for a number.
    low, high : float
        What a number may be.
    may_be_out : bool
        Whether it can be left out.
    held : str
        What is written then.
    """

    key: str
    title: str
    meaning: str
    unit: str
    value: Any
    options: tuple[str, ...] = ()
    low: float = -math.inf
    high: float = math.inf
    whole: bool = False
    may_be_out: bool = False
    held: str = HELD

    def shown(self, units: Units) -> str:
        """Write its value."""
        if self.value is None:
            return self.held
        if self.options:
            return str(self.value)
        if self.unit == "mm":
            return format_length(self.value, units)
        if self.unit == "°C":  # both, whatever the page is set to
            return both(self.value)
        return f"{self.value:g}{' min' if self.unit == 'min' else self.unit}"

    def stops(self, units: Units) -> list[float]:
        """Give where its slider stops; the same wherever it stands now, plus that."""
        if self.whole:
            low, high = int(self.low), int(min(self.high, max(self.low, 0) + MOST_STOPS))
            stops = {float(n) for n in range(low, high + 1)}
        else:
            stops = self._round(inch=self.unit == "mm" and units is not Units.MM)
        return sorted(stops | {float(self.value)})

    def _round(self, *, inch: bool) -> set[float]:
        """Space round values evenly; by shares, as stock is sold, where they go far."""
        low, high = self.low, min(self.high, MOST_LONG)
        one = MM_PER_INCH if inch else 1.0
        if high - low <= FAR * max(low, 1):
            step = _step((high - low) / MOST_STOPS, inch=inch)
            return {*multiples(step, low, high), low, high}
        found, value = {low, high}, 0.0
        while value < high:
            if value >= low:
                found.add(round(value, 9))
            value = round(value / one + _share(value / one, inch=inch), 9) * one
        return found


def _share(value: float, *, inch: bool) -> float:
    """Give the step to the next size: of some hundredths, round."""
    if inch:
        return max(2.0 ** math.floor(math.log2(value)) / 16, 1 / 64) if value else 1 / 64
    if value < 1:
        return 0.1
    ten = 10.0 ** math.floor(math.log10(value) + 1e-9)
    return ten * next(share for end, share in SHARES if value < end * ten - 1e-9)


def _step(least: float, *, inch: bool) -> float:
    """Find the next round step, mm: of 1, 2, 5 or of halves of an inch."""
    if inch:
        return MM_PER_INCH * 2.0 ** math.ceil(math.log2(max(least / MM_PER_INCH, 1 / 64)))
    ten = 10.0 ** math.floor(math.log10(least))
    return next(nice * ten for nice in (*NICE, 10) if nice * ten >= least * (1 - 1e-9))


def parts(act: Act) -> list[str | Gap]:
    """Give the sentence after its verb: words and gaps in turn."""
    return _done(act) + _heat(act)


def filled(act: Declared, template: str) -> list[str | Gap]:
    """Give a template as words and gaps in turn, filled from what has these values."""
    found: list[str | Gap] = []
    for place, piece in enumerate(GAP.split(template)):
        if place % 2:
            found.append(gap(act, piece))
        elif piece:
            found.append(piece)
    return found


def gap(act: Declared, key: str) -> Gap:
    """Give one value of an act as a gap."""
    field = type(act).model_fields[key]
    low, high = allowed_range(field)
    kinds = get_args(field.annotation)
    options = tuple(kind for kind in kinds if isinstance(kind, str))
    return Gap(
        key=key,
        title=field.title or key,
        meaning=field.description or "",
        unit=(field.json_schema_extra or {}).get("unit", ""),
        value=getattr(act, key),
        options=options,
        low=-math.inf if low is None else low,
        high=math.inf if high is None else high,
        whole=field.annotation is int,
        may_be_out=type(None) in kinds,
    )


def spoken(act: Act, units: Units = Units.MM, named: str = "") -> str:
    """Write the whole sentence: "Now twist it, one turn in 70 mm, right hand.".

    `named` is the trade's word for it where the bar is known: see `short`.
    """
    told = parts(act) if getattr(act, "heat", None) else _done(act)
    words = "".join(part if isinstance(part, str) else part.shown(units) for part in told)
    return f"Now {named or name_of(act)}{words}."


def _done(act: Act) -> list[str | Gap]:
    return filled(act, VERBS[name_of(act)].says or _of_titles(act))


def _heat(act: Act) -> list[str | Gap]:
    """Go on with how long, and how hot, it lay in the fire before an act."""
    heat = getattr(act, "heat", None)  # laying together has none: the next step's welds
    if not heat and (isinstance(act, Laid) or Place.FIRE not in act.done_at):
        return []
    minutes = replace(
        gap(heat or Heat(celsius=700, minutes=0), "minutes"),
        value=heat and heat.minutes,
        may_be_out=True,
        held=NO_HEAT,
    )
    return [", heat ", minutes, " at ", gap(heat, "celsius")] if heat else [". ", minutes]


def _of_titles(act: Act) -> str:
    """Make a sentence of the values' titles, for a step that says none."""
    told = [
        f"{(field.title or key).lower()} {{{key}}}"
        for key, field in type(act).model_fields.items()
        if key not in ("step", "heat")
    ]
    return ": " + ", ".join(told) if told else ""


def sizes(size: Size, units: Units) -> str:
    """Write a bar's size: length × width × thickness, or length and how thick round."""
    length, width, thickness = (format_length(part, units) for part in size)
    if size.round and size.even:
        return f"{length} long, {thickness} round"
    return f"{length} × {width} × {thickness}"


def entry(history: History, stage: int, units: Units) -> str:
    """Write a stage as the list of the history has it: what was done, and the bar after.

    A screen reader reads just this.
    """
    if stage == 0:
        done = f"{len(history.source.steels)} bars stacked."
    else:
        done = spoken(history.acts[stage - 1], units, short(history, stage))
        done = done.removeprefix("Now ")
        done = done[0].upper() + done[1:]
    here = history.stages[stage]
    if here.refused:
        return f"{done} Not done: {here.refused}"
    return f"{done} {counts(here)}; {sizes(here.size, units)}."


def counts(stage: Stage) -> str:
    """Write its layers and bands."""
    layers, bands = stage.tally.layers, stage.tally.bands
    told = counted(layers, "layer")
    return told if bands == layers else f"{told} in {counted(bands, 'band')}"


def does(history: History, stage: int, units: Units, *, as_clay: bool = False) -> str:
    """Say what the act of a stage did to the layers; of stage 0, what is stacked."""
    here = history.stages[stage]
    if here.refused:
        return f"Kept, but not done: {here.refused}"
    bar = sizes(here.size, units)
    if not as_clay:
        bar += f", {weight(here.bar):,.0f} g without scale"
    names = history.source.steels
    twins = "" if as_clay else alike(names)
    if stage == 0:
        metals = clays(names).values() if as_clay else dict.fromkeys(names)
        return f"Stacked: {counts(here)} of {listed(metals)}; {bar}.{twins}"
    act, before = history.acts[stage - 1], history.stages[stage - 1]
    missed = stage in history.missed
    many = counts(here).capitalize() + ", had it taken" * missed
    told = f"{_did(act, before, here, units, missed=missed)} {many}; {bar}.{twins}"
    if as_clay:
        return told
    gone, hot = taken(before.bar, here.bar, act.takes), _hot(act, here.bar, units)
    return " ".join(filter(None, (told, gone, warned(act, before.size), hot)))


def alike(names: Iterable[str]) -> str:
    """Name the metals of a stack that can hardly be told apart once they are etched.

    A sentence after a blank, or nothing; of one metal, that it is but one.
    """
    tones = etch.tones(names)
    if len(tones) == 1:
        only = next(iter(tones))
        return f" All of it is {only}: one steel shows faint weld lines at most, not drawn."
    order = sorted(tones, key=tones.__getitem__)
    groups = [order[:1]]
    for one, other in pairwise(order):
        if contrast_ratio(tones[one], tones[other]) < LEAST_CONTRAST:
            groups[-1].append(other)
        else:
            groups.append([other])
    told = (listed(group) for group in groups if len(group) > 1)
    return "".join(f" {group} etch nearly alike." for group in told)


def _hot(act: Act, bar: Billet, units: Units) -> str:
    """Say how far an act's heat brings what wanders in its steels, if one is told."""
    heat, names = getattr(act, "heat", None), bar.source.steels
    if not heat:
        return ""
    try:
        check_heats(bar)
        far = [
            told + format_length(spread(element, heat.celsius, heat.minutes), units)
            for element, told in (("C", "carbon got "), ("Ni", "nickel "))
            if any(steel(one).nominal.get(element) for one in names)
        ]
    except KitError as refused:
        return f"No heat is in this picture: {refused}"
    return f"In its heat {listed(far)} far. {too_hot(heat.celsius, names)}".rstrip()


def _did(act: Act, before: Stage, after: Stage, units: Units, *, missed: bool) -> str:
    if isinstance(act, Laid):
        return f"{act.pieces} pieces of the bar lie {act.laid}, each with all its layers."
    if after.tally.layers > before.tally.layers:
        times = after.tally.layers / before.tally.layers
        again = {2: "Twice", 3: "Three times"}.get(times, f"{times:.3g} times")
        met = after.tally.bands < times * before.tally.bands
        like = ", like meets like in the weld" if met else ""
        like = ", but this weld did not take" if missed else like
        return f"{again} as many layers{like}."
    if after.tally.layers < before.tally.layers:
        gone = before.tally.layers - after.tally.layers
        return f"{counted(gone, 'layer')} went with the faces that were taken off."
    if act.makes:
        return act.makes
    if act.keeps is Layers.FLAT and before.size != after.size:
        return _stretched(before.size, after.size, units)
    return f"The layers {act.keeps.value}."


def _stretched(before: Size, after: Size, units: Units) -> str:
    """Say how the bar's size changed, and the layers with it."""
    told = []
    for word, more, less, one, other in zip(
        ("long", "wide", "thick"),
        ("longer", "wider", "thicker"),
        ("shorter", "narrower", "thinner"),
        before,
        after,
        strict=True,
    ):
        if abs(other - one) <= ALIKE * one:
            continue
        way = more if other > one else less
        told.append(f"{way}, {format_length(other, units)} {word}")
    if not told:
        return "The bar is as it was."
    return f"The same layers in a bar that is {'; '.join(told)}."


def brief(stage: Stage, units: Units) -> str:
    """Write layers and thickness below a small picture."""
    if stage.refused:
        return "not done"
    thick = format_length(stage.size.thickness, units)
    return f"{stage.tally.layers:,} · {thick}"


def short(history: History, stage: int) -> str:
    """Write a stage in two or three words: the trade's for what it did to this bar."""
    if stage == 0:
        return "the stack"
    act, before = history.acts[stage - 1], history.stages[stage - 1]
    if isinstance(act, Laid) or history.stages[stage].refused:
        return name_of(act)
    return act.named(before.size)
