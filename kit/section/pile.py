"""The tones of a stack, summed up, and averaged over the steel that a pixel covers."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from kit.forge.unfolded import Unfolded

TABLE = 65536  # entries, a power of two: half a micrometre of a 32 mm stack
ROUNDINGS = 256  # a stretch must be longer than so many rounding errors of a height


@dataclass(frozen=True, kw_only=True, eq=False)  # arrays do not compare
class Pile(Unfolded):
    """The tones of an unfolded pile, ready to be averaged over any stretch of it.

    Parameters
    ----------
    tones : array (bars,)
        Tone of each bar of the stack, in the order in which they were laid.
    exact : bool
        Whether sums are worked out at each height instead of read from a table: slower,
        for pixels that cover little more than an entry of it.
    """

    tones: np.ndarray
    exact: bool = False

    @cached_property
    def mean(self) -> float:
        """Mean tone of the stack."""
        return float(np.diff(self.edges) @ self.tones)

    @cached_property
    def _sums(self) -> tuple[np.ndarray, np.ndarray]:
        """Tone above the mean of each bar as the lowest stack lies, and summed up."""
        tones = self.tones[::-1] if self.upside_down else self.tones
        above = tones - self.mean
        sums = np.concatenate([[0.0], np.cumsum(np.diff(self.lying) * above)])
        sums[-1] = 0
        return above, sums

    @cached_property
    def _excess(self) -> tuple[np.ndarray, np.ndarray]:
        """Tone above the mean, summed up from the bottom; and its steps."""
        table = np.interp(np.linspace(0, 1, TABLE + 1), self.lying, self._sums[1])
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
    def _twice(self) -> np.ndarray:
        """Sum `_excess` once more."""
        table, _ = self._excess
        return np.concatenate([[0.0], np.cumsum(table[1:] + table[:-1]) / 2 / TABLE])

    def excess(self, height: np.ndarray) -> np.ndarray:
        """Sum tone minus mean from the bottom of the pile to a height (in stacks)."""
        if self.exact:
            stack = np.floor(height)
            place, turned = height - stack, self.turned(stack)
            found = np.interp(np.where(turned, 1 - place, place), self.lying, self._sums[1])
            return np.where(turned, -found, found)
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
        """Sum `excess` up to a height; it grows by as much with every stack."""
        place = self.opened(height)
        stacks = np.floor(place)
        place -= stacks
        value = self._curve(place) if self.exact else self._looked_up(place)
        value += stacks * self._twice[-1]
        return value

    def _looked_up(self, place: np.ndarray) -> np.ndarray:
        """Read the second sum at places 0 … 1: the excess runs straight in an entry."""
        table, steps = self._excess
        place *= TABLE
        index = place.astype(np.int32)
        place -= index
        value = steps.take(index, mode="clip")
        value *= place * 0.5
        value += table.take(index, mode="clip")
        value *= place * (1 / TABLE)
        value += self._twice.take(index, mode="clip")
        return value

    def _curve(self, place: np.ndarray) -> np.ndarray:
        """Work the second sum out: a parabola in every bar."""
        above, sums = self._sums
        edges = self.lying
        wide = np.diff(edges)
        whole = np.concatenate([[0.0], np.cumsum(wide * (sums[:-1] + sums[1:]) / 2)])
        bar = np.clip(np.searchsorted(edges, place, side="right") - 1, 0, self.bars - 1)
        inside = place - edges[bar]
        return whole[bar] + inside * (sums[bar] + inside * above[bar] / 2)


def point(pile: Pile, height: np.ndarray) -> np.ndarray:
    """Give the tone at each pixel's middle: moiré and all, to compare with."""
    return pile.tones[pile.bar_at(height[1:-1, 1:-1])]


def mean(pile: Pile, height: np.ndarray) -> np.ndarray:
    """Average over a stretch as long as the slope; the margin pixels are dropped."""
    across, down = _slopes(height, pile.stacks)
    stretch = np.sqrt(across * across + down * down)  # five times as quick as hypot
    half = stretch * 0.5
    # nothing lies beyond the outer faces: a stretch that would is moved inside
    middle = np.clip(height[1:-1, 1:-1], half, pile.stacks - half)
    tone = pile.excess(middle + half)
    tone -= pile.excess(middle - half)
    tone /= stretch
    return _mended(pile, tone)


def fine(pile: Pile, height: np.ndarray) -> np.ndarray:
    """Average over the pixel's square: one box for each direction of its slope."""
    across, down = _slopes(height, pile.stacks)
    middle = height[1:-1, 1:-1]
    least = 1e-3 * np.maximum(across, down)  # flatter than this is no second box
    across, down = np.maximum(across, least), np.maximum(down, least)
    far, near = (across + down) / 2, (across - down) / 2
    middle = np.clip(middle, far, pile.stacks - far)
    tone = pile.excess_twice(middle + far) + pile.excess_twice(middle - far)
    tone -= pile.excess_twice(middle + near) + pile.excess_twice(middle - near)
    tone /= across * down
    return _mended(pile, tone)


def _mended(pile: Pile, tone: np.ndarray) -> np.ndarray:
    """Add the mean; no pixel is darker or brighter than every bar, but for roundings."""
    tone += pile.mean
    return np.clip(tone, pile.tones.min(), pile.tones.max(), out=tone)


def _slopes(height: np.ndarray, stacks: int) -> tuple[np.ndarray, np.ndarray]:
    """Change of height from pixel to pixel, across and down the picture."""
    across, down = smaller_steps(height)
    # a face along the layers still needs a stretch that rounding does not drown
    shortest = ROUNDINGS * float(np.finfo(height.dtype).eps) * stacks
    np.maximum(down, shortest, out=down)
    # beside the bar steps run off to infinity; nobody looks there
    return np.minimum(across, stacks), np.minimum(down, stacks)


def smaller_steps(height: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Give the change to a neighbouring pixel, across and down, without the margin.

    Of the steps to the two neighbours the smaller counts, so that a jump from one
    face or facet to the next does not.
    """
    across = np.abs(np.diff(height[1:-1], axis=1))
    down = np.abs(np.diff(height[:, 1:-1], axis=0))
    across = np.minimum(across[:, 1:], across[:, :-1])
    return across, np.minimum(down[1:], down[:-1])
