"""What a pixel shows: the tone of a pile, averaged over the steel the pixel covers.

Heights come with a margin of one pixel all round, in stacks (see trace.py); tones go
without it.
"""

from __future__ import annotations

import numpy as np

from kit.section.pile import Pile

ROUNDINGS = 256  # a stretch must be longer than so many rounding errors of a height


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
