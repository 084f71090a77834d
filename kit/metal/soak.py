"""What a billet's heats add up to: temperature, minutes, and how thick its layers were.

An element's content evens out with D t / h². Every heat adds to it with the temperature
it had and the thickness that one stack had *then*: a late heat, with the layers drawn
thin, counts most.
"""

import math
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from kit.basics.errors import KitError
from kit.forge.billet import Billet
from kit.forge.stack import Stack
from kit.forge.steels import steel
from kit.forge.steps import Layers, Size, Step, Tally
from kit.forge.steps.hollows import Hollows
from kit.metal.diffusion import check_minutes, diffusivity
from kit.metal.transformation import check_heat


class Soak(NamedTuple):
    """One heat, as the stack met it.

    Attributes
    ----------
    celsius, minutes : float
    thickness : float
        Of one stack in the bar, mm.
    joined : bool
        Whether stacks lie on each other the same way up, so that the top of one has met
        the bottom of the next.
    """

    celsius: float
    minutes: float
    thickness: float
    joined: bool = False


class Evened(NamedTuple):
    """How far an element has come, in D t / h².

    Attributes
    ----------
    inside : float
        Within the stack, since the first heat.
    joint : float or None
        Between stacks that lie the same way up; None where they do not.
    """

    inside: float
    joint: float | None = None


class Bar(NamedTuple):
    """One bar of a bundle: its billet, and the heats it met in the bundle."""

    billet: Billet
    later: tuple[Soak, ...]


def heats_of(billet: Billet, later: Iterable[Soak] = ()) -> tuple[Soak, ...]:
    """List the heats of a stack's billet, each with the stack's thickness in it.

    A step's heat comes before it is forged; of a fold or a cut and stack, with the pieces
    laid together. The first step's heat is the one that welds the stack.

    Layers get thinner where a step forges the whole section (DrawOut, Upset, and hollows
    once they are level). Once they are tilted the square root of the section counts. Left
    out: what twisting, rounding, squaring and splitting do to their thickness.

    Parameters
    ----------
    billet : Billet
        Of a stack. For a bundle see `bars_of`.
    later : iterable of Soak
        Heats that came after, as `bars_of` gives them.

    Raises
    ------
    KitError
        A heat that melts one of the steels or leaves it too cold; a bundle.

    Examples
    --------
    >>> from kit.forge.steps import Fold
    >>> from kit.forge.stack import demo_stack
    >>> fold = Fold(heat={"celsius": 1200, "minutes": 5})
    >>> billet = Billet(source=demo_stack(), steps=(fold,))
    >>> heats_of(billet)[0]
    Soak(celsius=1200.0, minutes=5.0, thickness=26.9875, joined=False)
    """
    if not isinstance(billet.source, Stack):
        msg = "A bundle has no heats of its own layers: ask for each bar (see bars_of)."
        raise KitError(msg)
    soaks: list[Soak] = []
    joined = folded = False
    for step, stage in _history(billet):
        flat = stage.tally.flat and step is not None and step.leaves > 1
        folded |= flat and step.folds_over
        joined |= flat and not folded
        soaks += _soak(step, stage, joined=joined)
    soaks += [soak._replace(joined=joined) for soak in later]
    for soak in soaks:
        for name in dict.fromkeys(billet.source.steels):
            check_heat(soak.celsius, steel(name))
    return tuple(soaks)


def check_heats(billet: Billet) -> None:
    """Refuse a billet, or a bundle, with a heat that a steel in it does not bear.

    Raises
    ------
    KitError
        As `heats_of`.
    """
    for bar in bars_of(billet):  # the next may not bear what the first does
        heats_of(*bar)


def bars_of(billet: Billet) -> Iterator[Bar]:
    """Take a bundle apart into the billets of its stacks, bundles in bundles too.

    They come in the order of `Bundle.bars`, each with the heats it met since it was
    bundled, for `heats_of`. A stack's billet is its own only bar.
    """
    for bar, _stage in _leaves(billet):
        yield bar


def evened(element: str, soaks: Iterable[Soak]) -> Evened:
    """Add up D t / h² over heats: inside the stack, and between stacks once they met.

    Raises
    ------
    KitError
        As `diffusivity`; less than no time.
    """
    inside, joint = 0.0, None
    for celsius, minutes, thickness, joined in soaks:
        check_minutes(minutes)
        square_metre = (thickness * 1e-3) ** 2
        share = float(diffusivity(element, celsius)) * 60 * minutes / square_metre
        inside += share
        if joined:
            joint = (joint or 0.0) + share
    return Evened(inside, joint)


class _Stage(NamedTuple):
    tally: Tally
    thickness: float  # of one stack, mm


def _history(
    billet: Billet, stage: _Stage | None = None
) -> list[tuple[Step | None, _Stage]]:
    """List each step with the layers as it meets them; at the end, as they are left."""
    if stage is None:
        stage = _Stage(billet.source.tally, billet.source.thickness)
    listed: list[tuple[Step | None, _Stage]] = []
    for step, before, after in zip(
        billet.steps, billet.sizes, billet.sizes[1:], strict=False
    ):
        listed.append((step, stage))
        thinner = _thinner(step, before, after, stage.tally)
        stage = _Stage(step.tally(stage.tally, before), stage.thickness * thinner)
    return [*listed, (None, stage)]


def _leaves(billet: Billet) -> Iterator[tuple[Bar, _Stage]]:
    if isinstance(billet.source, Stack):
        yield Bar(billet, ()), _history(billet)[-1][1]
        return
    for inner in billet.source.bars:
        for bar, bundled in _leaves(inner):
            history = _history(billet, bundled)
            met = [soak for step, stage in history for soak in _soak(step, stage)]
            yield bar._replace(later=(*bar.later, *met)), history[-1][1]


def _soak(step: Step | None, stage: _Stage, *, joined: bool = False) -> list[Soak]:
    if step is None or step.heat is None:
        return []
    heat = step.heat
    return [Soak(heat.celsius, heat.minutes, stage.thickness, joined)]


def _thinner(step: Step, before: Size, after: Size, tally: Tally) -> float:
    """Say by how much a step thins the layers: 0.5 for half as thick."""
    if isinstance(step, Hollows):
        return after.thickness / step.levels(before).left
    if step.keeps is not Layers.FLAT or step.leaves > 1:
        return 1.0
    through = after.thickness / before.thickness
    across = after.width / before.width
    if not tally.even:
        return math.sqrt(through * across)
    return across if tally.rolled else through
