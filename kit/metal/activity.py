"""Why a small step in carbon stays between plain and nickel steel.

Carbon does not even out its percentage but its *activity*: how hard it pushes to get out.
Nickel and silicon raise it, chromium, manganese and molybdenum lower it. So carbon settles
a little higher in the plain steel, for ever.

That has no exact solution, nor has a diffusivity that changes from steel to steel or with
the carbon itself, nor a face that gives up its carbon. So the layers are cut into cells:
what flows between two neighbours is what leaves one and enters the other, and nothing is
lost or won. For one D in one stack `kit.metal.evening` is exact and a thousand times as
quick. Finite volumes (Patankar, *Numerical Heat Transfer and Fluid Flow*, 1980, harmonic
means at faces); in time the two-stage L-stable rule of Alexander, *SIAM Journal on
Numerical Analysis* 14 (1977) 1006 (both from memory; the tests measure the order).

Holds for a few per cent of alloy in austenite near 1000 °C. Leaves out: that most factors
shrink by a tenth to a quarter from 1000 to 1250 °C, what carbon itself does to them, and
carbides: in stainless steel they take up far more carbon.
"""

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import NamedTuple

import numpy as np

from kit.basics.claim import Claim, Kind
from kit.forge.billet import Billet
from kit.metal.cells import Cells, cells
from kit.metal.diffusion import agren, diffusivity
from kit.metal.evening import mean_contents
from kit.metal.soak import Evened, heats_of

# How finely it is reckoned; ours.
STEPS = 200  # in time, short at the start
GAMMA = 1 - 0.5**0.5  # Alexander's rule for two stages

Speed = float | np.ndarray | Callable[[np.ndarray], np.ndarray]


class Faces(NamedTuple):
    """What the content is held at on the two outer faces; None lets nothing through."""

    bottom: float | None = None
    top: float | None = None


CLOSED = Faces()


def spread_out(
    edges: np.ndarray,
    contents: np.ndarray,
    speed: Speed,
    minutes: float,
    *,
    faces: Faces = CLOSED,
    factors: np.ndarray | float = 1.0,
    steps: int = STEPS,
) -> np.ndarray:
    """Let an element spread for some minutes; give its content in each cell.

    Parameters
    ----------
    edges : array (n + 1,)
        Where cells begin and end, mm, rising.
    contents : array (n,)
        Mean content of each cell, weight per cent. Left as it is.
    speed : float, array (n,) or callable
        Diffusivity, m²/s: one for all, one a cell, or a function that gives one a cell
        from the contents.
    minutes : float
        0 or more.
    faces : Faces
        Contents held at the outer faces. Left out, nothing passes them.
    factors : array (n,) or float
        By how much each cell's alloy raises the activity of the element. Content times
        factor is what evens out.
    steps : int
        Steps in time. Twice as many make the error in time four times as small.

    Returns
    -------
    array (n,)
    """
    grid = _Grid(np.diff(edges), np.broadcast_to(factors, contents.shape), faces)
    times = 60 * minutes * np.linspace(0, 1, steps + 1) ** 2
    contents = np.array(contents, float)
    for step in np.diff(times):
        contents = _step(grid, contents, speed, float(step))
    return contents


def solve(side: np.ndarray, middle: np.ndarray, right: np.ndarray) -> np.ndarray:
    """Solve a symmetric band of three: each row coupled to its two neighbours.

    All rows at once: every pass doubles how far the neighbours of a row are away, until
    they are beyond the ends (parallel cyclic reduction: Hockney & Jesshope, *Parallel
    Computers*, 1981; from memory).

    Parameters
    ----------
    side : array (n - 1,)
        The number that couples rows i and i + 1.
    middle, right : array (n,)
        The number on row i itself; the right-hand side.
    """
    below, above = np.append(0.0, side), np.append(side, 0.0)
    reach = 1
    while reach < len(middle):
        from_below = -below[reach:] / middle[:-reach]
        from_above = -above[:-reach] / middle[reach:]
        new_middle, new_right = middle.copy(), right.copy()
        new_middle[reach:] += from_below * above[:-reach]
        new_middle[:-reach] += from_above * below[reach:]
        new_right[reach:] += from_below * right[:-reach]
        new_right[:-reach] += from_above * right[reach:]
        nothing = np.zeros(reach)
        below = np.append(nothing, from_below * below[:-reach])
        above = np.append(from_above * above[reach:], nothing)
        middle, right = new_middle, new_right
        reach *= 2
    return right / middle


class _Grid(NamedTuple):
    widths: np.ndarray
    factors: np.ndarray
    faces: Faces

    def conductances(self, speed: np.ndarray) -> np.ndarray:
        """Give what flows through each of the n + 1 faces for a step of 1 in activity."""
        resistance = self.widths / (2e6 * speed) * self.factors  # mm² and m²
        between = 1 / (resistance[1:] + resistance[:-1])
        ends = (
            0.0 if held is None else 1 / resistance[place]
            for held, place in zip(self.faces, (0, -1), strict=True)
        )
        bottom, top = ends
        return np.concatenate([[bottom], between, [top]])

    def outside(self) -> np.ndarray:
        """Give the activity at the bottom and at the top face; 0 where nothing passes."""
        held = [0.0 if face is None else face for face in self.faces]
        return np.array(held) * self.factors[[0, -1]]

    def set_right(self, contents: np.ndarray, before: np.ndarray) -> np.ndarray:
        """Give back, evenly, what rounding took of a stack with closed faces."""
        if self.faces != CLOSED:
            return contents
        return contents + self.widths @ (before - contents) / self.widths.sum()


def _step(grid: _Grid, start: np.ndarray, speed: Speed, time: float) -> np.ndarray:
    """Go one step in time, in two stages."""
    middle = _stage(grid, start, start, speed, time * GAMMA)
    known = start + (1 - GAMMA) / GAMMA * (middle - start)
    return _stage(grid, known, middle, speed, time * GAMMA)


def _stage(
    grid: _Grid, known: np.ndarray, guess: np.ndarray, speed: Speed, time: float
) -> np.ndarray:
    """Find contents that are what was known plus what flowed at those very contents."""
    for _ in range(2 if callable(speed) else 1):
        now = speed(guess) if callable(speed) else speed
        flowing = time * grid.conductances(np.broadcast_to(now, known.shape))
        right = grid.widths * known
        right[[0, -1]] += flowing[[0, -1]] * grid.outside()
        middle = grid.widths / grid.factors + flowing[1:] + flowing[:-1]
        guess = solve(-flowing[1:-1], middle, right) / grid.factors
    return grid.set_right(guess, known)


ALLOY_PUSHES = Claim(
    says="Nickel and silicon push carbon out of a steel; chromium, manganese and "
    "molybdenum hold it: each per cent adds so much to the logarithm of its activity.",
    kind=Kind.MEMORY,
    source="Gunnarson, Härterei-Technische Mitteilungen 22 (1967) 292; found again, to "
    "0.015, from published descriptions of austenite in the kit's own tests",
    unit="of the logarithm, base ten, for each weight per cent",
    within="a few per cent of alloy in austenite near 1000 °C (1832 °F)",
    holds=("FACTORS",),
    told=(
        "evens out (in what it feels|its activity)",
        "pushes carbon alike",
        "carbon ends level",
        "per cent, carbon goes quite level",
        "element holds it there",
    ),
)
FACTORS: Mapping[str, float] = MappingProxyType(
    {"Si": 0.055, "Mn": -0.013, "Cr": -0.040, "Ni": 0.014, "Mo": -0.013}
)


def activity_factor(contents: Mapping[str, float | np.ndarray]) -> float | np.ndarray:
    """Give by how much a steel's alloy multiplies the activity of its carbon.

    Parameters
    ----------
    contents : mapping
        Weight per cent by element, as `Grade.nominal`; arrays are taken cell by cell.
        Elements without a factor count as none.

    Examples
    --------
    >>> from kit.forge.steels import steel
    >>> plain, nickel = (activity_factor(steel(n).nominal) for n in ("1084", "15N20"))
    >>> round(float(nickel / plain), 3)
    1.08
    """
    known = (FACTORS[name] * part for name, part in contents.items() if name in FACTORS)
    return 10.0 ** sum(known, np.float64(0))


def carbon_by_activity(billet: Billet, *, follow_carbon: bool = True) -> Cells:
    """Give the contents of one stack after all heats, with carbon evened by activity.

    The other elements are those of `cells`; their final blur is taken for all heats.
    Between stacks that lie the same way up nothing passes (unlike in `cells`).

    Parameters
    ----------
    billet : Billet
        Of a stack.
    follow_carbon : bool
        Let the diffusivity follow the carbon (`agren`) instead of the simple table.

    Raises
    ------
    KitError
        As `heats_of`.
    """
    soaks = heats_of(billet)
    edges, contents = cells(billet)
    if not soaks:
        return Cells(edges, contents)
    others = {name: part for name, part in contents.items() if name != "C"}
    factors = np.broadcast_to(activity_factor(others), len(edges) - 1)
    carbon = mean_contents(billet.source, "C", Evened(0.0), edges)
    for celsius, minutes, thickness, _joined in soaks:
        speed = _speed(celsius, follow_carbon=follow_carbon)
        carbon = spread_out(
            edges * thickness, carbon, speed, minutes, factors=factors, steps=60
        )
    return Cells(edges, {**contents, "C": carbon})


def _speed(celsius: float, *, follow_carbon: bool) -> Speed:
    if not follow_carbon:
        return float(diffusivity("C", celsius))
    return lambda carbon: agren(celsius, carbon)
