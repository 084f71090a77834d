"""A stack after its heats, cut into cells fine enough for the engine.

Cells are narrow where steels meet, so that the thousandths of a millimetre over which
nickel blurs are seen, and wide inside the bars. Each holds the exact mean of each element,
so nothing is lost or won.
"""

from collections.abc import Iterable
from math import sqrt
from typing import NamedTuple

import numpy as np

from kit.forge.billet import Billet
from kit.forge.stack import Stack
from kit.forge.steels import steel
from kit.metal.diffusion import TABLE
from kit.metal.evening import contents_of, mean_contents
from kit.metal.soak import Evened, Soak, evened, heats_of

# How finely it is reckoned; ours.
MOST_CELLS = 900  # about; a stack with more bars than half of it has two cells a bar
FIRST = 0.2  # width of a cell beside an interface, in blurs of the slowest element
NEAR = 12  # so many of that width: out to where next to nothing of the blur is left
GROWTH = 1.3  # beyond, each cell to the one before it, up to FIRST of the farthest blur
FEWEST = 8  # cells in half a bar, if there is room
NARROWEST = 1e-6  # of the stack


class Cells(NamedTuple):
    """A stack cut into cells.

    Attributes
    ----------
    edges : array (n + 1,)
        Where cells begin and end, 0 to 1 through the stack.
    contents : dict of str to array (n,)
        Mean content of each element in each cell, weight per cent.
    """

    edges: np.ndarray
    contents: dict[str, np.ndarray]


def cells(billet: Billet, later: Iterable[Soak] = ()) -> Cells:
    """Give the contents of one stack after all heats of a billet.

    Elements without a published diffusivity in `diffusion.TABLE` (silicon, vanadium,
    tungsten, phosphorus) stay where they were stacked; they take the place of iron atoms
    as nickel does and get no farther by more than a few times. Without heats the cells
    are the bars.

    Parameters
    ----------
    billet : Billet
        Of a stack. For a bundle see `soak.bars_of`.
    later : iterable of Soak
        Heats after bundling.

    Raises
    ------
    KitError
        As `heats_of`.
    """
    stack, soaks = billet.source, heats_of(billet, later)
    names = sorted({name for bar in stack.steels for name in steel(bar).nominal})
    still = Evened(0.0)
    even = {name: evened(name, soaks) if name in TABLE else still for name in names}
    edges = _edges(stack, even)
    found = {name: mean_contents(stack, name, even[name], edges) for name in names}
    return Cells(edges, found)


def _edges(stack: Stack, even: dict[str, Evened]) -> np.ndarray:
    """Cut each bar, finest beside an interface."""
    blurs = [sqrt(each.inside) for each in even.values() if each.inside > 0]
    if not blurs:
        return stack.edges
    bars = len(stack.layers)
    room = max(1, MOST_CELLS // (2 * bars))  # cells in half a bar
    joint = any(each.joint is not None for each in even.values())
    steps = _steps(stack, even, joint=joint)
    cuts = [0.0]
    narrow = max(FIRST * min(blurs), NARROWEST)
    for bar, (low, high) in enumerate(zip(stack.edges, stack.edges[1:], strict=False)):
        half = _half(float(high - low) / 2, narrow, FIRST * max(blurs), room)
        up = half if steps[bar] else _plain(half)
        down = half if steps[bar + 1] else _plain(half)
        cuts += [*(low + up), *(high - down[-2::-1]), high]
    return np.array(cuts)


def _half(width: float, narrow: float, widest: float, room: int) -> np.ndarray:
    """Cut half a bar into growing cells: heights of their upper ends above its edge."""
    narrow = min(narrow, width / FEWEST)
    growing = narrow * GROWTH ** np.maximum(np.arange(room) - NEAR + 1, 0)
    ends = np.cumsum(np.minimum(growing, max(narrow, widest)))
    if ends[-1] < width:
        ends = narrow * np.cumsum(_growth(width / narrow, room) ** np.arange(room))
    ends = ends[: np.searchsorted(ends, width) + 1]
    return ends / ends[-1] * width


def _growth(ratio: float, count: int) -> float:
    """Find the growth with which so many cells, the first 1 wide, fill a width."""
    low, high = 1.0, ratio ** (1 / max(count - 1, 1))  # the last one alone fills it
    for _ in range(60):
        middle = sqrt(low * high)
        if np.sum(middle ** np.arange(count)) < ratio:
            low = middle
        else:
            high = middle
    return low


def _plain(half: np.ndarray) -> np.ndarray:
    """Cut half a bar with no interface at its edge as coarsely as its inside."""
    width = half[-1]
    widest = width - half[-2] if len(half) > 1 else width
    return np.linspace(0, width, max(1, round(width / widest)) + 1)[1:]


def _steps(stack: Stack, even: dict[str, Evened], *, joint: bool) -> list[bool]:
    """Say at which edges of bars any element steps; the outer faces only if joined."""
    steps = np.zeros(len(stack.layers) + 1, bool)
    for name in even:
        contents = contents_of(stack, name)
        steps[1:-1] |= np.diff(contents) != 0
        steps[[0, -1]] |= joint and contents[0] != contents[-1]
    return list(steps)
