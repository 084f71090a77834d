"""The unfolded pile: a forged bar with every fold opened, stack upon stack.

Heights in it are counted in whole stacks, layers from 0 at the bottom.
"""

from dataclasses import dataclass
from functools import cached_property

import numpy as np


@dataclass(frozen=True, kw_only=True, eq=False)  # arrays do not compare
class Unfolded:
    """How the bars of a stack lie in the pile.

    Parameters
    ----------
    edges : array (bars + 1,)
        Where each bar begins and ends, 0 … 1 through the stack.
    stacks : int
        How many stacks lie on each other in the unfolded pile.
    before_fold : int or None
        How many of them, all the same way up, lay there before the first fold; None
        if there was none.
    upside_down : bool
        Whether these lie with the stack's first bar on top.
    """

    edges: np.ndarray
    stacks: int
    before_fold: int | None
    upside_down: bool = False

    @cached_property
    def lying(self) -> np.ndarray:
        """Edges from the bottom up, as the lowest stack lies."""
        return 1 - self.edges[::-1] if self.upside_down else self.edges

    @property
    def bars(self) -> int:
        """Of a stack."""
        return len(self.edges) - 1

    def opened(self, height: np.ndarray) -> np.ndarray:
        """Undo the turning over: height in the pile as it lay before its first fold."""
        turn = self.before_fold
        if turn is None:
            return height.copy()
        place = height * (0.5 / turn)
        place -= np.floor(place)
        place *= 2 * turn
        return turn - np.abs(turn - place)

    def bar_at(self, height: np.ndarray) -> np.ndarray:
        """Find which bar of the stack lies at each height of the pile, 0 at the bottom."""
        return self.bar_of(self.number_at(height))

    def number_at(self, height: np.ndarray) -> np.ndarray:
        """Find the number of the layer at each height of the pile."""
        # what was pushed out beside the pile can only be its outermost bar
        inside = np.clip(height.astype(float), 1e-12, self.stacks * (1 - 1e-12))
        stack = np.floor(inside).astype(np.int64)
        place = inside - stack
        turned = self.turned(stack)
        place = np.where(turned, 1 - place, place)
        bar = np.searchsorted(self.lying, place, side="right") - 1
        bar = np.clip(bar, 0, self.bars - 1)
        return stack * self.bars + np.where(turned, self.bars - 1 - bar, bar)

    def bar_of(self, number: np.ndarray) -> np.ndarray:
        """Say which bar of the stack each layer is, 0 the first that was laid."""
        stack, bar = np.divmod(number, self.bars)
        turned = self.turned(stack) != self.upside_down
        return np.where(turned, self.bars - 1 - bar, bar)

    def edge_below(self, number: np.ndarray) -> np.ndarray:
        """Give the height of the lower edge of each layer, in stacks."""
        stack, bar = np.divmod(number, self.bars)
        turned = self.turned(stack)
        edge = self.lying[np.where(turned, self.bars - bar, bar)]
        return stack + np.where(turned, 1 - edge, edge)

    def turned(self, stack: np.ndarray) -> np.ndarray:
        """Tell which stacks lie the other way up than the lowest."""
        if self.before_fold is None:
            return np.zeros(stack.shape, bool)
        return stack // self.before_fold % 2 == 1
