"""The tones of a stack, summed up, so that any stretch of a pile can be averaged."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

TABLE = 65536  # entries, a power of two: half a micrometre of a 32 mm stack


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
    before_fold : int or None
        How many of them, all the same way up, lay there before the first fold; None
        if there was none.
    upside_down : bool
        Whether these lie with the stack's first bar on top.
    """

    edges: np.ndarray
    tones: np.ndarray
    stacks: int
    before_fold: int | None
    upside_down: bool = False

    @cached_property
    def mean(self) -> float:
        """Mean tone of the stack."""
        return float(np.diff(self.edges) @ self.tones)

    @cached_property
    def _lying(self) -> tuple[np.ndarray, np.ndarray]:
        """Edges and tones from the bottom up, as the lowest stack lies."""
        if self.upside_down:
            return 1 - self.edges[::-1], self.tones[::-1]
        return self.edges, self.tones

    @cached_property
    def _excess(self) -> tuple[np.ndarray, np.ndarray]:
        """Tone above the mean, summed up from the bottom; and its steps."""
        edges, tones = self._lying
        excess = np.diff(edges) * (tones - self.mean)
        sums = np.concatenate([[0.0], np.cumsum(excess)])
        table = np.interp(np.linspace(0, 1, TABLE + 1), edges, sums)
        table[-1] = table[0] = 0
        return table, np.append(np.diff(table), 0)

    @cached_property
    def _period(self) -> tuple[np.ndarray, np.ndarray]:
        """`_excess` as far as it repeats: a stack, and once folded its mirror image."""
        table, steps = (part[:-1] for part in self._excess)
        if self.before_fold is None:
            return table, steps
        mirrored = -self._excess[0][:0:-1]
        return np.append(table, mirrored), np.append(steps, steps[::-1])

    @cached_property
    def _single(self) -> tuple[np.ndarray, np.ndarray]:
        table, steps = self._period
        return table.astype(np.float32), steps.astype(np.float32)

    @cached_property
    def _twice(self) -> tuple[np.ndarray, np.ndarray, float]:
        """Sum `_excess` once more: the table, its steps, and its value at the top."""
        table, _ = self._excess
        twice = np.concatenate([[0.0], np.cumsum(table[1:] + table[:-1]) / 2 / TABLE])
        return twice, np.append(np.diff(twice), 0), float(twice[-1])

    def bar_at(self, height: np.ndarray) -> np.ndarray:
        """Find which bar of the stack lies at each height of the pile, 0 at the bottom."""
        # what was pushed out beside the pile can only be its outermost bar
        inside = np.clip(height.astype(float), 1e-12, self.stacks * (1 - 1e-12))
        place = self._opened(inside)
        place -= np.floor(place)
        last = len(self.tones) - 1
        bar = np.searchsorted(self._lying[0], place, side="right") - 1
        bar = np.clip(bar, 0, last)
        return last - bar if self.upside_down else bar

    def excess(self, height: np.ndarray) -> np.ndarray:
        """Sum tone minus mean from the bottom of the pile to a height (in stacks)."""
        single = height.dtype == np.float32
        table, steps = self._single if single else self._period
        if self.before_fold in (None, 1):
            place = height * TABLE
        else:  # so many stacks the same way up, and then as many upside down
            place = height - np.floor(height)
            place += np.floor(height * (1 / self.before_fold)) % 2
            place *= TABLE
        entry = np.floor(place)
        place -= entry
        index = entry.astype(np.int32 if single else np.int64)
        index &= table.size - 1  # the table's size is a power of two
        place *= steps.take(index, mode="wrap")
        place += table.take(index, mode="wrap")
        return place

    def excess_twice(self, height: np.ndarray) -> np.ndarray:
        """Sum `excess` up to a height; it grows by `top` with every stack."""
        table, steps, top = self._twice
        place = self._opened(height)
        stacks = np.floor(place)
        place -= stacks
        value = _looked_up(table, steps, place)
        value += stacks * top
        return value

    def _opened(self, height: np.ndarray) -> np.ndarray:
        """Undo the turning over: height in the pile as it lay before its first fold."""
        turn = self.before_fold
        if turn is None:
            return height.copy()
        place = height * (0.5 / turn)
        place -= np.floor(place)
        place *= 2 * turn
        return turn - np.abs(turn - place)


def _looked_up(table: np.ndarray, steps: np.ndarray, place: np.ndarray) -> np.ndarray:
    """Read a table at places 0 … 1, straight lines between its entries."""
    place *= TABLE
    index = place.astype(np.int32)
    place -= index
    place *= steps.take(index, mode="clip")
    place += table.take(index, mode="clip")
    return place
