"""Work by hand: nothing lies quite where it was meant to, and none of it is chance.

Places on a plane are shifted a little, this way here and that way there, by waves drawn
from a seed. Each wave pushes along itself what lies on its crest: a shear, which keeps
every area and is undone by pushing back. Three at 60° to each other push every way.
How far a hand strays, and in what waves, is illustrative: we found no source.
"""

import math
import random
from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np

from kit.basics.declare import quantity

Places = tuple[np.ndarray, np.ndarray]

WAYS = 3  # at 60° to each other: the fewest that push every way alike (our choice)
SHORT, LONG = (2.2, 3.2), (3.8, 5.5)  # wave lengths, in spacings: illustrative
SHARES = 0.6, 0.4  # of the two waves of each way


def chance(seed: int) -> Callable[[], float]:
    """Give numbers from 0 to 1, drawn one by one: a seed's are the same for ever."""
    # random.Random().random() is the one stream Python promises not to change
    return random.Random(seed).random  # noqa: S311


def seed(what: str) -> Any:
    """Declare the seed of a step that is done by hand: a new one makes a new `what`."""
    return quantity("Dice throw", f"new throw, new {what}", low=0, high=2**31, default=1)


def wander(how_far: str, *, high: float) -> Any:
    """Declare how far a hand strays, in words; `high` is the most that is taken, mm."""
    return quantity("By hand", how_far, low=0, high=high, unit="mm", default=0)


@dataclass(frozen=True)
class Wander:
    """How far things lie from where they were meant to lie.

    Parameters
    ----------
    far : float
        At most, along each of the three ways, mm; typically things are half as far off.
    spacing : float
        Of what was to lie evenly, mm.
    seed : int
        Another number, another hand.

    Examples
    --------
    >>> hand = Wander(far=1, spacing=10, seed=3)
    >>> there = hand.moved(np.array([12.0]), np.array([5.0]))
    >>> [round(float(axis[0]), 9) for axis in hand.back(*there)]
    [12.0, 5.0]
    """

    far: float
    spacing: float
    seed: int

    def moved(self, x: np.ndarray, y: np.ndarray) -> Places:
        """Shift places from where they lie to where they were meant; mm."""
        for way in self._ways:
            x, y = _sheared(x, y, way, 1)
        return x, y

    def back(self, x: np.ndarray, y: np.ndarray) -> Places:
        """Shift them back; mm."""
        for way in reversed(self._ways):
            x, y = _sheared(x, y, way, -1)
        return x, y

    @cached_property
    def _ways(self) -> list[tuple[float, float, list[tuple[float, float, float]]]]:
        """Draw each way: its direction, and the push, number and phase of its waves."""
        draw = chance(self.seed)
        ways = []
        for index in range(WAYS):
            angle = math.pi * (index + 0.5 * draw()) / WAYS
            waves = []
            for (shortest, longest), share in zip((SHORT, LONG), SHARES, strict=True):
                long = self.spacing * (shortest + (longest - shortest) * draw())
                waves.append((share * self.far, 2 * math.pi / long, 2 * math.pi * draw()))
            ways.append((math.cos(angle), math.sin(angle), waves))
        return ways


def _sheared(x: np.ndarray, y: np.ndarray, way: tuple, sign: int) -> Places:
    """Push places along a way, by where they lie beside it."""
    right, up, waves = way
    beside = x * -up
    beside += y * right
    push, wave = np.zeros_like(beside), np.empty_like(beside)
    for far, number, phase in waves:
        np.multiply(beside, number, out=wave)
        wave += phase
        np.sin(wave, out=wave)
        wave *= sign * far
        push += wave
    np.multiply(push, right, out=wave)
    wave += x
    push *= up
    push += y
    return wave, push
