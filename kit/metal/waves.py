"""The exact spreading of steps in content, in two forms that suit long and short times.

Content through a stack is a staircase. Mirrored at its outer faces it repeats with a
period of two stacks, and is then a sum of saw-teeth, one for each step; time blurs every
one of them alike. Long times: a few sine waves are left of each (Fourier). Short times: an
error function at each step (Crank, *The Mathematics of Diffusion*, 2nd ed. 1975, chapter
2, gives both forms). At the change-over both are exact to rounding.

Heights and periods are in stacks; a `soak` is D t / h², with the stack's thickness h.
"""

from __future__ import annotations

import math

import numpy as np

WAVES = 26  # a blur wider than so small a part of the period is left to the waves
FAR = 6.0  # beyond it the error function is 1 to the last figure


def staircase(
    heights: np.ndarray,
    places: np.ndarray,
    jumps: np.ndarray,
    soak: float,
    period: float,
    *,
    summed: bool = False,
) -> np.ndarray:
    """Add up blurred saw-teeth, one for each step in content.

    Parameters
    ----------
    heights : array (n,)
        Where to look.
    places, jumps : arrays (k,)
        Where each step is, and how high. The jumps of all calls whose results are added
        must sum to zero, or the slopes of the saw-teeth do not cancel.
    soak : float
        D t / h².
    period : float
        After which all repeats.
    summed : bool
        Give the integral over height instead, from which means of cells follow.

    Returns
    -------
    array (n,)
        Content above its mean over a period (or the integral of that).
    """
    if math.sqrt(soak) * WAVES > period:
        return _waves(heights, places, jumps, soak, period, summed=summed)
    return _steps(heights, places, jumps, soak, period, summed=summed)


def error_function(x: np.ndarray) -> np.ndarray:
    """Give erf for every number of an array (`math.erf`, and 1 beyond 6)."""
    value = np.sign(x)
    near = np.abs(x) < FAR
    value[near] = [math.erf(number) for number in x[near]]
    return value


def _waves(
    heights: np.ndarray,
    places: np.ndarray,
    jumps: np.ndarray,
    soak: float,
    period: float,
    *,
    summed: bool,
) -> np.ndarray:
    order = np.arange(1, WAVES + 1)
    turn = 2j * np.pi / period * order
    strength = np.exp(-turn[:, None] * places) @ jumps
    strength *= np.exp((turn * turn).real * soak) / (np.pi * order)
    if summed:
        strength /= turn
    return (np.exp(heights[:, None] * turn) @ strength).imag


def _steps(
    heights: np.ndarray,
    places: np.ndarray,
    jumps: np.ndarray,
    soak: float,
    period: float,
    *,
    summed: bool,
) -> np.ndarray:
    off = heights[:, None] - places
    off -= period * np.round(off / period)
    width = 2 * math.sqrt(soak)
    if width == 0:
        side, bell = np.sign(off), 0.0
    else:
        side = error_function(off / width)
        bell = width / math.sqrt(math.pi) * np.exp(-((off / width) ** 2))
    if not summed:
        return (side / 2 - off / period) @ jumps
    return ((off * side + bell) / 2 - off * off / (2 * period)) @ jumps
