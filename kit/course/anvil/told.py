"""What an act did to the layers, in one sentence; and a stage in the history's list."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise

from kit.basics.errors import KitError
from kit.basics.told import counted, listed
from kit.basics.units import Units, format_length
from kit.course.anvil.acts import Act
from kit.course.anvil.clay import clays
from kit.course.anvil.history import History, Stage
from kit.course.anvil.laid import Laid
from kit.course.anvil.sentence import sizes, spoken
from kit.forge.billet import Billet
from kit.forge.steels import steel
from kit.forge.steps import Layers, Size
from kit.metal import etch
from kit.metal.colour import contrast_ratio
from kit.metal.diffusion import spread
from kit.metal.eye import LEAST_CONTRAST
from kit.metal.soak import check_heats
from kit.metal.working_heat import too_hot
from kit.shop.losses import weight

ALIKE = 1e-3  # share of a length: nobody measures nearer


def entry(history: History, stage: int, units: Units) -> str:
    """Write a stage as the list of the history has it: what was done, and the bar after.

    A screen reader reads just this.
    """
    if stage == 0:
        done = f"{len(history.source.steels)} bars stacked."
    else:
        done = spoken(history.acts[stage - 1], units).removeprefix("Now ")
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
    told = _did(history.acts[stage - 1], history.stages[stage - 1], here, units)
    hot = "" if as_clay else _hot(history.acts[stage - 1], here.bar, units)
    return f"{told} {counts(here).capitalize()}; {bar}.{twins}{hot}"


def alike(names: Iterable[str]) -> str:
    """Name the metals of a stack that can hardly be told apart once they are etched.

    A sentence after a blank, or nothing.
    """
    tones = etch.tones(names)
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
        return f" No heat is in this picture: {refused}"
    return f" In its heat {listed(far)} far. {too_hot(heat.celsius, names)}".rstrip()


def _did(act: Act, before: Stage, after: Stage, units: Units) -> str:
    if isinstance(act, Laid):
        return f"{act.pieces} pieces of the bar lie {act.laid}, each with all its layers."
    if after.tally.layers > before.tally.layers:
        times = after.tally.layers / before.tally.layers
        again = {2: "Twice", 3: "Three times"}.get(times, f"{times:.3g} times")
        met = after.tally.bands < times * before.tally.bands
        like = ", like meets like in the weld" if met else ""
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
    """Write a stage in two or three words, below its small picture."""
    if stage == 0:
        return "the stack"
    act = history.acts[stage - 1]
    return "lay together" if isinstance(act, Laid) else act.step
