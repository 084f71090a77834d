"""How lesson 08 lays its metals: in turn, about a thick core, or with nickel foil between.

All thicknesses go with that of a layer, so times to even out go with its square whatever
is laid. A stack is mirrored at its ends, as every fold mirrors it.
"""

import math
from typing import NamedTuple

import numpy as np

from kit.basics.declare import allowed_range
from kit.basics.told import listed
from kit.basics.units import Units, format_length, format_thin
from kit.forge.stack import Layer, Stack
from kit.forge.steps import DrawOut
from kit.metal.evening import contents_of, minutes_to_even, minutes_until

IN_TURN, CORE, FOIL = range(3)
LAID = ("in turn", "about a thick core of A", "with nickel foil between")
NICKEL = "nickel"
THICK = 8  # times as thick as a layer is a core; ours
THIN = 0.5  # of a layer is a foil; ours
THINNEST = allowed_range(DrawOut.model_fields["thickness"])[0]  # of a bar, mm


class Laid(NamedTuple):
    """A stack, and the part of it that is shown.

    Attributes
    ----------
    stack : Stack
    unit : Stack
        What repeats in it, its own mirror image: it evens out as the whole does.
    start, span : float
        Where the shown part begins, and how high it is, mm.
    equal : bool
        Two metals in equal layers.
    """

    stack: Stack
    unit: Stack
    start: float
    span: float
    equal: bool

    @property
    def bounds(self) -> np.ndarray:
        """Where shown layers begin and end, mm from where the part begins."""
        edges = self.stack.edges * self.stack.thickness - self.start
        inside = edges[(edges > 1e-6) & (edges < self.span - 1e-6)]
        return np.concatenate([[0.0], inside, [self.span]])

    @property
    def steels(self) -> tuple[str, ...]:
        """The metals of the shown layers, from the left."""
        bounds = self.bounds
        heights = (bounds[1:] + bounds[:-1]) / 2 + self.start
        edges = self.stack.edges * self.stack.thickness
        bars = np.searchsorted(edges, heights) - 1
        return tuple(self.stack.steels[bar] for bar in bars)

    def minutes_even(self, element: str, celsius: float, layer: float) -> float:
        """Give the time until an element is 95 % even, minutes.

        Of two metals in turn, and where none of it differs, the lessons' own formula for
        equal layers.
        """
        if self.equal or np.ptp(contents_of(self.unit, element)) == 0:
            return minutes_to_even(layer, element, celsius)
        return minutes_until(self.unit, element, celsius)


def laid(metals: tuple[str, ...], how: int, layer: float) -> Laid:
    """Lay two or three metals in layers so thick, mm, as `LAID` names it.

    Of three the middle one lies between the others: A, B, C, B, A, so that a fold's
    mirror leaves it as it is.
    """
    first, second, *_ = metals
    turns = [(name, layer) for name in (*metals, second)[: 2 * len(metals) - 2]]
    if how == CORE:
        half = [(metals[-1] if len(metals) > 2 else first, layer / 2), (second, layer)]
        unit, shown, off = [*half, (first, THICK * layer), *reversed(half)], 1, 0.0
    elif how == FOIL:
        foil = (NICKEL, THIN * layer)
        between = [part for turn in turns[1:] for part in (turn, foil)]
        ends = (first, layer / 2)
        unit, shown, off = [ends, foil, *between, ends], 4 - len(metals), 0.0
    elif len(metals) > 2:
        ends = (first, layer / 2)
        unit, shown, off = [ends, *turns[1:], ends], 2, 0.0
    else:  # half a layer of B lies outside of what is shown
        ends = (second, layer / 2)
        unit, shown, off = [ends, turns[0], ends], 3, layer / 2
    high = sum(thick for _, thick in unit)
    count = max(shown + (off > 0), math.floor(THINNEST / high) + 1)
    start = (count - shown) // 2 * high + off
    equal = how == IN_TURN and len(metals) == 2
    return Laid(_stack(unit * count), _stack(unit), start, shown * high, equal)


def lies(metals: tuple[str, ...], how: int, layer: float, units: Units) -> str:
    """Say what lies how in a stack that was `laid` so, its layers `layer` mm thick."""
    first, second, *third = metals
    if len(set(metals)) == 1 and how != FOIL:
        return f"{first} alone"
    if how == IN_TURN:
        thick = f"in turn, each {format_length(layer, units)} thick"
        if third:
            return f"Layers of {listed((*metals, second))} {thick}"
        return f"Six layers of {first} and {second} {thick}"
    thick = f"each {format_thin(layer, units)} thick"
    if how == CORE:
        core, rim = format_thin(THICK * layer, units), (*third, first)[0]
        return (
            f"A core of {first}, {core} thick, amid layers of {second} and {rim}, {thick}"
        )
    foil = format_thin(THIN * layer, units)
    return f"Layers of {listed(metals)}, {thick}, with nickel foil of {foil} between them"


def _stack(parts: list[tuple[str, float]]) -> Stack:
    """Make a stack of metals and thicknesses; like ones on each other are one layer.

    One metal alone stays a stack of its pieces.
    """
    alone = len({name for name, _ in parts}) == 1
    layers: list[Layer] = []
    for name, thick in parts:
        if layers and layers[-1].steel == name and not alone:
            thick += layers.pop().thickness  # noqa: PLW2901
        layers.append(Layer(steel=name, thickness=thick))
    return Stack(layers=layers, length=100, width=30)
