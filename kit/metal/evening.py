"""How carbon and nickel even out between the layers of one real stack.

A fold lays a stack on its own mirror image, so nothing crosses the weld, and one stack's
solution is exact for all copies: with e_j the heights at which content steps by Δ_j,

    a_k = -(2 / k π) Σ Δ_j sin(k π e_j) exp(-k² π² τ),    τ = Σ D(T) t / h²

are the cosines of the content above its mean. τ counts every heat with the thickness h
that the stack had in it (see `soak.py`). Mirrored at its outer faces the staircase repeats
with a period of two stacks, and is then a sum of saw-teeth, one for each step; time blurs
every one of them alike. Long times: a few sine waves are left of each (Fourier). Short
times: an error function at each step (Crank, *The Mathematics of Diffusion*, 2nd ed. 1975,
chapter 2, gives both forms). At the change-over both are exact to rounding. Heights and
periods are in stacks; a `soak` is D t / h², with the stack's thickness h.

Cut and stack before any fold lays stacks on each other the same way up. Then content
repeats from stack to stack, and where one stack's top meets the next one's bottom it
steps once more. Each step spreads for as long as it has been there; exact for the
copies inside, but as if the joint were as old as the first stacking, as if the
outermost faces were joints too, and as if nothing that was spreading had reached the
face before. Of a stack with the same steel on both faces, evenly built, both ways give
the same.

Leaves out: one D for the whole stack at one temperature, and carbon's preference for plain
steel over nickel steel (see `activity.py` for both), carbon lost at the faces of the bar
and that nickel sheet is a seventh denser than steel: content is counted
by thickness.
"""

import math
from typing import NamedTuple

import numpy as np

from kit.basics.claim import beside
from kit.basics.errors import KitError
from kit.forge.stack import Stack
from kit.forge.steels import steel
from kit.metal.diffusion import diffusivity
from kit.metal.soak import Evened, Soak, evened

(EVENED,) = beside(__file__).values()

# How finely it is reckoned; ours.
WAVES = 26  # a blur wider than so small a part of the period is left to the waves
FAR = 6.0  # beyond it the error function is 1 to the last figure


class Stairs(NamedTuple):
    """Steps in content through a stack.

    Attributes
    ----------
    places, jumps : arrays (k,)
        Where each step is, and how high.
    period : float
        After which all repeats.
    """

    places: np.ndarray
    jumps: np.ndarray
    period: float


def staircase(
    heights: np.ndarray, stairs: Stairs, soak: float, *, summed: bool = False
) -> np.ndarray:
    """Add up blurred saw-teeth, one for each step in content.

    Parameters
    ----------
    heights : array (n,)
        Where to look.
    stairs : Stairs
        The jumps of all calls whose results are added must sum to zero, or the slopes of
        the saw-teeth do not cancel.
    soak : float
        D t / h².
    summed : bool
        Give the integral over height instead, from which means of cells follow.

    Returns
    -------
    array (n,)
        Content above its mean over a period (or the integral of that).
    """
    wide = math.sqrt(soak) * WAVES > stairs.period
    return (_waves if wide else _steps)(heights, stairs, soak, summed=summed)


def error_function(x: np.ndarray) -> np.ndarray:
    """Give erf for every number of an array (`math.erf`, and 1 beyond 6)."""
    value = np.sign(x)
    near = np.abs(x) < FAR
    value[near] = [math.erf(number) for number in x[near]]
    return value


def _waves(heights: np.ndarray, stairs: Stairs, soak: float, *, summed: bool) -> np.ndarray:
    order = np.arange(1, WAVES + 1)
    turn = 2j * np.pi / stairs.period * order
    strength = np.exp(-turn[:, None] * stairs.places) @ stairs.jumps
    strength *= np.exp((turn * turn).real * soak) / (np.pi * order)
    if summed:
        strength /= turn
    return (np.exp(heights[:, None] * turn) @ strength).imag


def _steps(heights: np.ndarray, stairs: Stairs, soak: float, *, summed: bool) -> np.ndarray:
    places, jumps, period = stairs
    off = heights[:, None] - places
    off -= period * np.round(off / period)
    width = 2 * math.sqrt(soak)
    if width == 0:
        side, bell = np.sign(off), 0.0
    else:
        side = error_function(off / width)
        bell = width / math.sqrt(math.pi) * np.exp(-((off / width) ** 2))
    if not summed:
        return (side / 2 - off / period) @ jumps
    return ((off * side + bell) / 2 - off * off / (2 * period)) @ jumps


# How finely it is reckoned; ours.
EVEN = 0.05  # of the difference left: "95 % even"
LOOKS = 8  # places in a bar where extremes are looked for
LONGEST = 1e12  # minutes


def contents_of(stack: Stack, element: str) -> np.ndarray:
    """Give an element's nominal content in each bar of a stack, weight per cent."""
    return np.array([steel(name).nominal.get(element, 0.0) for name in stack.steels])


def content_at(stack: Stack, element: str, even: Evened, heights: np.ndarray) -> np.ndarray:
    """Give an element's content at heights in the stack, weight per cent.

    Parameters
    ----------
    stack : Stack
    element : str
    even : Evened
        How far the element has come: `evened(element, heats_of(billet))`.
    heights : array (n,)
        0 (bottom) to 1 (top).
    """
    return _solution(stack, contents_of(stack, element), even, heights, summed=False)


def mean_contents(
    stack: Stack, element: str, even: Evened, edges: np.ndarray
) -> np.ndarray:
    """Give an element's mean content in cells of the stack, weight per cent.

    Parameters
    ----------
    edges : array (n + 1,)
        Where cells begin and end, 0 to 1 rising.
    """
    contents = contents_of(stack, element)
    sums = _solution(stack, contents, even, edges, summed=True)
    return np.diff(sums) / np.diff(edges)


def contrast_left(stack: Stack, element: str, even: Evened) -> float:
    """Say how much of the greatest difference is left, 1 (as stacked) to 0 (even).

    It is looked for at the edges of bars and at seven places within each. A stack
    without a difference has none left.
    """
    contents = contents_of(stack, element)
    start = float(np.ptp(contents))
    if start == 0:
        return 0.0
    edges = stack.edges
    inside = np.arange(LOOKS) / LOOKS
    heights = (edges[:-1, None] + np.diff(edges)[:, None] * inside).ravel()
    seen = content_at(stack, element, even, np.append(heights, 1.0))
    return float(np.ptp(seen)) / start


def minutes_to_even(thickness: float, element: str, celsius: float) -> float:
    """Give the lessons' "time to 95 % even" for equal layers of two steels, minutes.

    It is the time in which the slowest wave between the layers sinks to one twentieth:
    t = ln 20 · h² / (π² D). Half the layer takes a quarter of the time. The middles of the
    layers then still differ by 6.4 % of what they did; by 5 % a twelfth later.

    Parameters
    ----------
    thickness : float
        Of one layer, mm.

    Raises
    ------
    KitError
        A layer that is no layer; as `diffusivity`.

    Examples
    --------
    >>> round(minutes_to_even(0.25, "C", 1150), 1)
    3.7
    """
    if not (math.isfinite(thickness) and thickness > 0):
        msg = f"A layer must be thicker than 0 mm. Given: {thickness}."
        raise KitError(msg)
    square = (thickness * 1e-3) ** 2
    speed = float(diffusivity(element, celsius))
    return -math.log(EVEN) * square / (math.pi**2 * speed) / 60


def minutes_until(
    stack: Stack, element: str, celsius: float, *, left: float = EVEN
) -> float:
    """Give the time until a real stack has only so much contrast left, minutes.

    It takes longer than the layers would in an endless pile: at each weld of a fold two
    like bars lie on each other, a layer twice as thick.

    Parameters
    ----------
    stack : Stack
        Its thickness as it is in this heat, mm.
    left : float
        Of the greatest difference, see `contrast_left`: above 0, below 1.

    Raises
    ------
    KitError
        A stack without a difference; a share out of range; as `diffusivity`.
    """
    if not 0 < left < 1:
        msg = f"What is left must be between 0 and 1. Given: {left}."
        raise KitError(msg)
    if np.ptp(contents_of(stack, element)) == 0:
        msg = f"All bars hold the same {element}: there is nothing to even out."
        raise KitError(msg)
    low, high = 1e-9, LONGEST
    while high / low > 1 + 1e-9:
        middle = math.sqrt(low * high)
        soak = Soak(celsius, middle, stack.thickness)
        if contrast_left(stack, element, evened(element, [soak])) > left:
            low = middle
        else:
            high = middle
    return math.sqrt(low * high)


def _solution(
    stack: Stack, contents: np.ndarray, even: Evened, heights: np.ndarray, *, summed: bool
) -> np.ndarray:
    """Add the mean and the spread steps; summed: their integral from some height."""
    edges = stack.edges
    mean = float(np.diff(edges) @ contents)
    level = mean * heights if summed else np.full(heights.shape, mean)
    places, jumps = edges[1:-1], np.diff(contents)
    places, jumps = places[jumps != 0], jumps[jumps != 0]
    if even.joint is None:
        both = Stairs(np.append(places, 2 - places), np.append(jumps, -jumps), 2)
        return level + staircase(heights, both, even.inside, summed=summed)
    joint = Stairs(np.array([0.0]), np.array([contents[0] - contents[-1]]), 1)
    level += staircase(heights, Stairs(places, jumps, 1), even.inside, summed=summed)
    return level + staircase(heights, joint, even.joint, summed=summed)
