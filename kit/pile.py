"""The tones of a stack, summed up, so that any stretch of a pile can be averaged."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

TABLE = 65536  # entries: half a micrometre of a 32 mm stack


@dataclass(frozen=True)
class Pile:
    """The tones of one stack, ready to be averaged over any stretch of the pile.

    Parameters
    ----------
    edges : array (bars + 1,)
        Where each bar begins and ends, 0 … 1 through the stack.
    tones : array (bars,)
        Tone of each bar.
    stacks : int
        How many stacks lie on each other in the unfolded pile.
    before_turn : int or None
        How many of them, all the same way up, lay there before the first fold turned
        the pile over; None if it was never folded.
    """

    edges: np.ndarray
    tones: np.ndarray
    stacks: int
    before_turn: int | None

    @cached_property
    def mean(self) -> float:
        """Mean tone of the stack."""
        return float(np.diff(self.edges) @ self.tones)

    @cached_property
    def _excess(self) -> tuple[np.ndarray, np.ndarray]:
        """Tone above the mean, summed up from the bottom; and its steps."""
        sums = np.concatenate(
            [[0.0], np.cumsum(np.diff(self.edges) * (self.tones - self.mean))]
        )
        table = np.interp(np.linspace(0, 1, TABLE + 1), self.edges, sums)
        table[-1] = table[0] = 0
        return table, np.append(np.diff(table), 0)

    @cached_property
    def _single(self) -> tuple[np.ndarray, np.ndarray]:
        table, steps = self._excess
        return table.astype(np.float32), steps.astype(np.float32)

    @cached_property
    def _twice(self) -> tuple[np.ndarray, np.ndarray, float]:
        """Sum `_excess` once more: the table, its steps, and its value at the top."""
        table, _ = self._excess
        twice = np.concatenate([[0.0], np.cumsum(table[1:] + table[:-1]) / 2 / TABLE])
        return twice, np.append(np.diff(twice), 0), float(twice[-1])

    def bar_at(self, height: np.ndarray) -> np.ndarray:
        """Find which bar of the stack lies at each height of the pile, 0 at the bottom."""
        place, _ = self._opened(height)
        place -= np.floor(place)
        bar = np.searchsorted(self.edges, place, side="right") - 1
        return np.clip(bar, 0, len(self.tones) - 1)

    def excess(self, height: np.ndarray) -> np.ndarray:
        """Sum tone minus mean from the bottom of the pile to a height (in stacks)."""
        table, steps = self._single if height.dtype == np.float32 else self._excess
        place, sign = self._opened(height)
        if self.before_turn != 1:
            place -= np.floor(place)
        value = _looked_up(table, steps, place)
        return value if sign is None else value * np.sign(sign)

    def excess_twice(self, height: np.ndarray) -> np.ndarray:
        """Sum `excess` up to a height; it grows by `top` with every stack."""
        table, steps, top = self._twice
        place, _ = self._opened(height)
        stacks = np.floor(place)
        place -= stacks
        value = _looked_up(table, steps, place)
        value += stacks * top
        return value

    def _opened(self, height: np.ndarray) -> tuple[np.ndarray, np.ndarray | None]:
        """Undo the turning over: height in the pile as it lay before its first fold.

        The second value is negative where the leaf lies upside down.
        """
        turn = self.before_turn
        if turn is None:
            return height.copy(), None
        place = height * (0.5 / turn)
        place -= np.floor(place)
        place *= 2 * turn
        sign = turn - place
        np.abs(sign, out=place)
        np.subtract(turn, place, out=place)
        return place, sign


def _looked_up(table: np.ndarray, steps: np.ndarray, place: np.ndarray) -> np.ndarray:
    """Read a table at places 0 … 1, straight lines between its entries."""
    place *= TABLE
    index = place.astype(np.int32)
    place -= index
    place *= steps.take(index, mode="clip")
    place += table.take(index, mode="clip")
    return place
