"""Half as fine: what of a picture is seen while a control moves.

Of every four pixels one is seen, and laid four times, so that what is drawn stands where
it will stand at rest. It holds for `see` and what is built on it; what is measured on a
face, or kept, asks for the whole one.
"""

from collections.abc import Iterator
from contextlib import AbstractContextManager, contextmanager
from contextvars import ContextVar
from dataclasses import replace
from typing import Any

import numpy as np

from kit.section.surface import Moved

SMALL = 20_000  # pixels: of so small a picture none is left out
_apart: ContextVar[int] = ContextVar("pixels from one that is seen to the next", default=1)


@contextmanager
def _every(pixels: int) -> Iterator[None]:
    before = _apart.set(pixels)
    try:
        yield
    finally:
        _apart.reset(before)


def half_as_fine() -> AbstractContextManager[None]:
    """See in here one pixel of four: for a picture that moves."""
    return _every(2)


def whole() -> AbstractContextManager[None]:
    """See in here every pixel, even while a picture moves."""
    return _every(1)


def apart(rows: int, columns: int) -> int:
    """How far one seen pixel is from the next in a picture so large: 1 or 2."""
    return _apart.get() if rows * columns > SMALL else 1


def thinned(surface: Any) -> Any:
    """Give a surface with as many pixels as are to be seen of it now."""
    if isinstance(surface, Moved):
        inner = thinned(surface.surface)
        return surface if inner is surface.surface else replace(surface, surface=inner)
    step = apart(surface.rows, surface.columns)
    if step == 1:
        return surface
    columns, rows = (-(-count // step) for count in (surface.columns, surface.rows))
    return replace(surface, columns=columns, rows=rows, pixel=step * surface.pixel)


def filled_up(part: np.ndarray, rows: int, columns: int) -> np.ndarray:
    """Make what was seen of a thinned surface as large as the surface."""
    if part.shape == (rows, columns):
        return part
    wide = np.empty((len(part), 2 * part.shape[1]), part.dtype)  # faster than to repeat
    wide[:, ::2] = wide[:, 1::2] = part
    return wide.repeat(2, axis=0)[:rows, :columns]
