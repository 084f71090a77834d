"""Hammer blows: no face is struck twice alike, and layers inside go wavy."""

from __future__ import annotations

import math
import random
from functools import cached_property
from typing import ClassVar, Literal

import numpy as np

from kit.declare import quantity
from kit.errors import KitError
from kit.steps.base import Layers, Points, Size, Step

WAVES = 5
STEEPEST = 0.9
NEWTON_TURNS = 40


class Blows(Step):
    """Forge by hand and dress the faces flat again: the layers between stay wavy.

    The waviness is a sum of a few waves of different lengths and directions, drawn
    from the seed, so that no two forgings are alike and each can be made again.
    Layers move most half-way between the faces and not at all on them.

    How it keeps volume: along the bar (and then across it) the metal is moved by
    a generating function S = X z + F(X) g(z) with g = T/4 - z²/T. Such a map is
    area-preserving whatever F is (Goldstein, *Classical Mechanics*, canonical
    transformations, type 2), and undoing it is one quadratic equation.

    Leaves out: where real dies leave their marks (that is Press); the depth is the
    user's, no published figure is known: illustrative.
    """

    step: Literal["blows"] = "blows"
    depth: float = quantity(
        "Depth of the waves",
        "how far a layer half-way in is pushed at most",
        low=0,
        high=20,
        unit="mm",
    )
    spacing: float = quantity(
        "Distance between blows", "typical, along the bar", low=2, high=200, unit="mm"
    )
    seed: int = quantity(
        "Seed", "another number, another forging", low=0, high=2**31, default=1
    )

    keeps: ClassVar[Layers] = Layers.WAVY

    def size_after(self, size: Size) -> Size:
        """Keep the size; refuse waves too steep for the thickness."""
        most = STEEPEST * size.thickness / 4
        if self.depth > most:
            msg = (
                f"Depth of the waves must be from 0 to {most:.2f} mm in a bar "
                f"{size.thickness:.2f} mm thick. Given: {self.depth:g}."
            )
            raise KitError(msg)
        return size

    def do(self, points: Points, size: Size) -> Points:
        """Push across the bar, then along it."""
        x, y, z = points
        y, z = _push(y, z, size.thickness, lambda new: self._across(new, x, size))
        x, z = _push(x, z, size.thickness, lambda new: self._along(new, y, size))
        return x, y, z

    def undo(self, points: Points, size: Size) -> Points:
        """Push back along the bar, then across it."""
        x, y, z = points
        x, z = _pull(x, z, size.thickness, self._along(x, y, size))
        y, z = _pull(y, z, size.thickness, self._across(y, x, size))
        return x, y, z

    def _along(self, x: np.ndarray, y: np.ndarray, size: Size) -> tuple:
        return _waves(x, y, self._strength(size), self._table[0])

    def _across(self, y: np.ndarray, x: np.ndarray, size: Size) -> tuple:
        return _waves(y, x, self._strength(size), self._table[1])

    def _strength(self, size: Size) -> float:
        # each of the two pushes does half the depth; a slope p moves by p T/4
        return 2 * self.depth / size.thickness

    @cached_property
    def _table(self) -> tuple[tuple[tuple[float, ...], ...], ...]:
        """Draw (share, wave number, wave number aside, phase) of each wave."""
        # random.Random().random() is the one stream Python promises not to change
        draw = random.Random(self.seed).random  # noqa: S311
        return tuple(
            tuple(
                (
                    1 / WAVES,
                    2 * math.pi / (self.spacing * (0.6 + 1.8 * draw())),
                    2 * math.pi / (self.spacing * 1.5) * (2 * draw() - 1),
                    2 * math.pi * draw(),
                )
                for _ in range(WAVES)
            )
            for _ in range(2)
        )


def _waves(along: np.ndarray, aside: np.ndarray, strength: float, table: tuple) -> tuple:
    """Give F and its slope p along `along`; |p| never exceeds `strength`."""
    total, slope = 0, 0
    for share, number, number_aside, phase in table:
        angle = along * number + (aside * number_aside + phase)
        total = total + np.sin(angle) * (strength * share / number)
        slope = slope + np.cos(angle) * (strength * share)
    return total, slope


def _pull(along: np.ndarray, z: np.ndarray, thickness: float, wave: tuple) -> tuple:
    """Undo one push: the root of a quadratic that lies in the bar."""
    total, slope = wave
    b = z - slope * (thickness / 4)
    # inside the bar the root is real; points beside it have no past and stay quiet
    root = np.sqrt(np.maximum(1 - slope * b * (4 / thickness), 0))
    z = 2 * b / (1 + root)
    return along - total * z * (2 / thickness), z


def _push(along: np.ndarray, z: np.ndarray, thickness: float, wave_at) -> tuple:
    """Do one push: find the new place by Newton's rule, then the new height."""
    lean = z * (-2 / thickness)
    new = along
    for _ in range(NEWTON_TURNS):
        total, slope = wave_at(new)
        change = (new + total * lean - along) / (1 + slope * lean)
        new = new - change
        if np.max(np.abs(change), initial=0) < 1e-13 * thickness:
            break
    _, slope = wave_at(new)
    return new, z + slope * (thickness / 4 - z * z / thickness)
