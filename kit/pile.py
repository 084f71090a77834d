"""The tones of a stack, summed up, so that any stretch of a pile can be averaged."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from kit.unfolded import Unfolded

TABLE = 65536  # entries, a power of two: half a micrometre of a 32 mm stack


@dataclass(frozen=True, kw_only=True, eq=False)  # arrays do not compare
class Pile(Unfolded):
    """The tones of an unfolded pile, ready to be averaged over any stretch of it.

    Parameters
    ----------
    tones : array (bars,)
        Tone of each bar of the stack, in the order in which they were laid.
    """

    tones: np.ndarray

    @cached_property
    def mean(self) -> float:
        """Mean tone of the stack."""
        return float(np.diff(self.edges) @ self.tones)

    @cached_property
    def _excess(self) -> tuple[np.ndarray, np.ndarray]:
        """Tone above the mean, summed up from the bottom; and its steps."""
        edges = self.lying
        tones = self.tones[::-1] if self.upside_down else self.tones
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
        place = self.opened(height)
        stacks = np.floor(place)
        place -= stacks
        value = _looked_up(table, steps, place)
        value += stacks * top
        return value


def _looked_up(table: np.ndarray, steps: np.ndarray, place: np.ndarray) -> np.ndarray:
    """Read a table at places 0 … 1, straight lines between its entries."""
    place *= TABLE
    index = place.astype(np.int32)
    place -= index
    place *= steps.take(index, mode="clip")
    place += table.take(index, mode="clip")
    return place
