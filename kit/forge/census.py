"""Count by looking: follow a straight line through a bar, whatever was done to it."""

from collections.abc import Callable, Sequence
from itertools import pairwise
from typing import NamedTuple

import numpy as np

from kit.basics.errors import KitError
from kit.forge.stack import Source
from kit.forge.steps import Points, Size
from kit.forge.unfolded import Unfolded

PLACES = 4096  # looked at along a line, at least
PLACES_A_LEAF = 16  # for each time the bar lies on itself
MOST_PLACES = 2**18  # for the memory's sake, ours
MOST_LAYERS = 1_000_000  # on one line
SKIN = 1e-9  # share of the line by which its ends are kept inside the steel
MIXER = np.uint64(0x9E3779B97F4A7C15)  # large and odd: codes of pieces stay apart
HALVINGS = 44  # of a stretch in which a weld lies: down to roundings


class Followed(NamedTuple):
    """What lies at some places of a bar, whole arrays of one shape.

    Attributes
    ----------
    piece : array of whole numbers
        The same number within one piece of steel between two welds that are no longer
        parallel to its layers, or between bars of a bundle.
    source : array of whole numbers
        Which stack the steel comes from: a place in the list of the bar's stacks.
    height : array
        Through the unfolded pile of that stack, in stacks.
    """

    piece: np.ndarray
    source: np.ndarray
    height: np.ndarray


def scattered(code: np.ndarray) -> np.ndarray:
    """Scatter codes of pieces: with those of pieces in them added, no two sums agree."""
    code = code * MIXER
    return (code ^ (code >> np.uint64(32))) * MIXER


At = Callable[[np.ndarray], Followed]  # from places along a line to what lies there


class Laid(NamedTuple):
    """A stack in a bar, and its unfolded pile."""

    pile: Unfolded
    stack: Source


class Census(NamedTuple):
    """What a straight line through a bar meets.

    Attributes
    ----------
    layers : int
        Pieces of steel, each time the line enters one.
    bands : int
        Stripes that can be told apart: like steel on like is one.
    thinnest, mean : float
        Thickness of a layer along the line, mm.
    borders : array (layers + 1,)
        Where each layer begins and ends, mm from the first point in the steel.
    steels : tuple of str
        The steel of each layer.
    """

    layers: int
    bands: int
    thinnest: float
    mean: float
    borders: np.ndarray
    steels: tuple[str, ...]


def taken(
    follow: Callable[[Points], Followed],
    stacks: Sequence[Laid],
    size: Size,
    line: tuple[Sequence[float], Sequence[float]],
    leaves: int,
) -> Census:
    """Count along a line from its first to its second point (mm, in the finished bar).

    Steps are followed at no fewer than 4,096 places; where a weld, an edge of a layer or
    a turning point lies between two of them, it is found there. A layer that comes in and
    goes out between two places, thinner than the line is long by 4,096, can be missed
    only where the layers were tilted.

    Raises
    ------
    KitError
        A line beside the bar or of no length; more than a million layers.
    """
    start, end = _inside(size, *(np.asarray(point, float) for point in line))
    length = float(np.linalg.norm(end - start))

    def at(share: np.ndarray) -> Followed:
        return follow(tuple(a + (b - a) * share for a, b in zip(start, end, strict=True)))

    count = min(max(PLACES, PLACES_A_LEAF * leaves), MOST_PLACES)
    share = np.linspace(SKIN, 1 - SKIN, count + 1)
    seen = at(share)  # every place is followed once: that is what takes the time
    for found in (_turns, _welds):
        more = found(share, seen, at)
        both = (np.concatenate(parts) for parts in zip(seen, at(more), strict=True))
        share = np.concatenate([share, more])
        order = np.argsort(share, kind="stable")  # quick where two rows are in order
        share, seen = share[order], _part(Followed(*both), order)
    return _counted(share, seen, stacks, length)


def _inside(size: Size, start: np.ndarray, end: np.ndarray) -> tuple:
    """Give the part of a line that lies in the bar."""
    if start.shape != (3,) or end.shape != (3,) or not np.isfinite([start, end]).all():
        msg = "A line goes from one point to another, each x, y and z in mm."
        raise KitError(msg)
    way = end - start
    centre = np.array([size.length / 2, 0.0, 0.0])
    half = np.array(size) / 2
    spans = []
    for axis in range(1 if size.round else 3):
        off = start[axis] - centre[axis]
        spans.append(_span(way[axis], off, half[axis]))
    if size.round:
        # |(off + t way) / half| = 1 in the section
        flow, off = way[1:] / half[1:], start[1:] / half[1:]
        square, mixed, rest = flow @ flow, flow @ off, off @ off - 1
        root = mixed * mixed - square * rest
        if square == 0:
            spans.append((-np.inf, np.inf) if rest <= 0 else (1.0, 0.0))
        else:
            wide = np.sqrt(root) if root > 0 else -1.0
            spans.append(((-mixed - wide) / square, (-mixed + wide) / square))
    low = max(0.0, *(span[0] for span in spans))
    high = min(1.0, *(span[1] for span in spans))
    if (high - low) * np.linalg.norm(way) <= SKIN:
        where = " to ".join(
            "(" + ", ".join(f"{part:.4g}" for part in point) + ")" for point in (start, end)
        )
        msg = (
            f"The line must go through the bar, x from 0 to {size.length:.4g}, y to "
            f"± {half[1]:.4g} and z to ± {half[2]:.4g} mm. Given: {where}."
        )
        raise KitError(msg)
    return start + low * way, start + high * way


def _span(way: float, off: float, half: float) -> tuple[float, float]:
    if way == 0:
        return (-np.inf, np.inf) if abs(off) <= half else (1.0, 0.0)
    first, last = sorted(((-half - off) / way, (half - off) / way))
    return first, last


def _same(one: Followed, other: Followed) -> np.ndarray:
    return (one.piece == other.piece) & (one.source == other.source)


def _part(seen: Followed, where: object) -> Followed:
    return Followed(*(part[where] for part in seen))


def _turns(share: np.ndarray, seen: Followed, _at: At) -> np.ndarray:
    """Find where the height goes up no more but down, or the other way, between places."""
    one, other = np.diff(seen.height)[:-1], np.diff(seen.height)[1:]
    whole = _same(_part(seen, slice(None, -2)), _part(seen, slice(2, None)))
    turn = np.flatnonzero(whole & (one * other < 0))
    one, other = one[turn], other[turn]
    # the top of the parabola through three places, counted in steps from the middle one
    off = 0.5 * (one + other) / (one - other)
    return share[turn + 1] + off * (share[1] - share[0])


def _welds(share: np.ndarray, seen: Followed, at: At) -> np.ndarray:
    """Close in on every change from piece to piece: the places just before and after."""
    changed = ~_same(_part(seen, slice(None, -1)), _part(seen, slice(1, None)))
    low, high = share[:-1][changed], share[1:][changed]
    for _ in range(HALVINGS if len(low) else 0):
        middle = (low + high) / 2
        low, high = np.concatenate([low, middle]), np.concatenate([middle, high])
        changed = ~_same(at(low), at(high))
        low, high = low[changed], high[changed]
    return np.concatenate([low, high])


def _counted(
    share: np.ndarray, seen: Followed, stacks: Sequence[Laid], length: float
) -> Census:
    number = _numbers(seen, stacks)
    same = _same(_part(seen, slice(None, -1)), _part(seen, slice(1, None)))
    change = np.where(same, np.diff(number), 0)
    crossed = int(np.abs(change).sum())
    if crossed > MOST_LAYERS:
        msg = f"At most {MOST_LAYERS:,} layers can be followed. The line meets {crossed:,}."
        raise KitError(msg)
    # each change of layer between two places is a border; so is each new piece
    times = np.where(same, np.abs(change), 1)
    index = np.repeat(np.arange(len(times)), times)
    order = np.arange(len(index)) - np.repeat(np.cumsum(times) - times, times)
    up = change[index] > 0
    lower = np.where(up, number[index] + 1 + order, number[index] - order)
    border = np.empty(len(index))
    entered = number[1:][index].copy()  # of a new piece
    for place, laid in enumerate(stacks):
        here = np.flatnonzero(same[index] & (seen.source[index] == place))
        at = index[here]
        first, last = seen.height[at], seen.height[at + 1]
        part = (laid.pile.edge_below(lower[here]) - first) / (last - first)
        border[here] = share[at] + np.clip(part, 0, 1) * (share[at + 1] - share[at])
        entered[here] = np.where(up[here], lower[here], lower[here] - 1)
    new = ~same[index]
    border[new] = (share[index[new]] + share[index[new] + 1]) / 2
    numbers = np.concatenate([number[:1], entered])
    sources = np.concatenate([seen.source[:1], seen.source[1:][index]])
    borders = np.concatenate([[0.0], border, [1.0]]) * length
    steels = _named(numbers, sources, stacks)
    thick = np.diff(borders)
    return Census(
        layers=len(steels),
        bands=1 + sum(one != other for one, other in pairwise(steels)),
        thinnest=float(thick.min()),
        mean=float(thick.mean()),
        borders=borders,
        steels=steels,
    )


def _numbers(seen: Followed, stacks: Sequence[Laid]) -> np.ndarray:
    """Give the number of the layer at each place, in its own pile."""
    number = np.zeros(len(seen.height), np.int64)
    for place, laid in enumerate(stacks):
        here = seen.source == place
        number[here] = laid.pile.number_at(seen.height[here])
    return number


def _named(
    numbers: np.ndarray, sources: np.ndarray, stacks: Sequence[Laid]
) -> tuple[str, ...]:
    names = np.empty(len(numbers), object)
    for place, laid in enumerate(stacks):
        here = sources == place
        names[here] = np.array(laid.stack.steels, object)[laid.pile.bar_of(numbers[here])]
    return tuple(names)
