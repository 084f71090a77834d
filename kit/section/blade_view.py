"""What all ways to see a blade share; the ways themselves are in blade.py."""

from __future__ import annotations

import math
from abc import ABC, abstractmethod
from dataclasses import dataclass, replace
from operator import mul
from typing import Any, NamedTuple

import numpy as np

from kit.basics.errors import KitError
from kit.forge.steps import Points, Size
from kit.section.grind import BladeGrind
from kit.section.surface import Look, Plane, check_picture, fitting, size_of, told_place

MARGIN = 6  # pixels around a fitted blade

Place = tuple[float, float, float]


class Frame(NamedTuple):
    """How a picture stands in the bar: its middle, its right and its top."""

    centre: Place
    right: Place
    up: Place


@dataclass(frozen=True, kw_only=True)
class BladeView(ABC):
    """What all ways to see a blade share.

    The blade lies in the middle of the bar's width and thickness, edge towards -y, tip
    towards the bar's far end. A loupe is the same view with smaller pixels and another
    centre.

    Parameters
    ----------
    grind : BladeGrind
        The blade.
    size : Size
        The bar it is ground from, mm.
    heel : float, optional
        Where along the bar the blade begins, mm; left out, the blade lies midway.
    centre : (float, float), optional
        The middle of the picture, mm in the bar: see each view for the axes. Left out,
        the middle of the blade.
    columns, rows, pixel : int, int, float
        Size of the picture in pixels, and mm per pixel.

    Raises
    ------
    KitError
        A blade that does not fit into the bar.
    """

    grind: BladeGrind
    size: Size
    heel: float | None = None
    centre: tuple[float, float] | None = None
    columns: int = 640
    rows: int = 160
    pixel: float = 0.25

    def __post_init__(self) -> None:
        check_picture(self.columns, self.rows, self.pixel)
        object.__setattr__(self, "size", size_of(self.size))
        outline = self.grind.outline
        pairs = (
            ("long", outline.length, self.size.length),
            ("high", outline.height, self.size.width),
            ("thick", self.grind.spine, self.size.thickness),
        )
        for word, wanted, there in pairs:
            if wanted > there * (1 + 1e-9):
                msg = (
                    f"A blade ground from this bar can be at most {there:.4g} mm {word}. "
                    f"Given: {wanted:g} mm."
                )
                raise KitError(msg)
        spare = max(0.0, self.size.length - outline.length)
        if self.heel is None:
            object.__setattr__(self, "heel", *told_place([spare / 2]))
        if not 0 <= self.heel <= spare:
            msg = (
                f"The heel must lie from 0 to {spare:.4g} mm along the bar, or the blade "
                f"runs out of it. Given: {self.heel:g} mm."
            )
            raise KitError(msg)
        if self.centre is None:
            object.__setattr__(self, "centre", self._home)

    @classmethod
    def fitted(
        cls, grind: BladeGrind, size: Size, columns: int, rows: int, **more: Any
    ) -> BladeView:
        """Stand so far off that the blade just fills the picture.

        The picture gets no more rows than the blade needs, and at most `rows`.
        """
        near = cls(grind=grind, size=size, columns=columns, **more)
        wide, high = near._extent
        pixel = fitting(wide / (columns - 2 * MARGIN), high / (rows - 2 * MARGIN))
        needed = math.ceil(high / pixel) + 2 * MARGIN
        return replace(near, pixel=pixel, rows=min(rows, needed))

    @property
    def before(self) -> Plane:
        """The bar before grinding, in the same place of the same picture."""
        return Plane(
            size=self.size,
            **self.frame._asdict(),
            columns=self.columns,
            rows=self.rows,
            pixel=self.pixel,
        )

    @property
    @abstractmethod
    def frame(self) -> Frame:
        """How the picture stands in the bar."""

    @property
    def middle(self) -> tuple[float, float]:
        """The middle of the picture in mm to the right and up: where the sanding is."""
        centre, right, up = self.frame
        return sum(map(mul, centre, right)), sum(map(mul, centre, up))

    def place(self, point: Place) -> tuple[float, float]:
        """Give the picture's column and row of a point of the bar."""
        centre, right, up = np.array(self.frame)
        away = (np.array(point) - centre) / self.pixel
        return (
            float((self.columns - 1) / 2 + away @ right),
            float((self.rows - 1) / 2 - away @ up),
        )

    def look(self, first: int, last: int, dtype: type = np.float32) -> Look:
        """See pixel rows first … last - 1, and one more pixel left and right.

        The light is even: a lamp shines in finish.py.
        """
        points = self._points(first, last, dtype)
        cover = self._cover(*self._grid(first, last), dtype)
        return Look(points, cover, np.ones((), dtype))

    @property
    def grain(self) -> str:
        """Which way the sanding ran: along the blade."""
        return "right"

    def leans(self) -> tuple[np.ndarray | float, np.ndarray | float]:
        """Say how steeply the steel rises towards the eye, to the right and up, mm a mm."""
        return 0.0, 0.0

    def _grid(self, first: int, last: int) -> tuple[np.ndarray, np.ndarray]:
        """Give mm to the right of each column, and up of each row, with the margin."""
        column = np.arange(-1, self.columns + 1) - (self.columns - 1) / 2
        row = (self.rows - 1) / 2 - np.arange(first, last)
        right, up = self.middle
        return right + self.pixel * column, (up + self.pixel * row)[:, None]

    @property
    def _home(self) -> tuple[float, float]:
        """The middle of the blade, with the axes of `centre`."""
        return self.heel + self.grind.outline.length / 2, 0.0

    @property
    @abstractmethod
    def _extent(self) -> tuple[float, float]:
        """Width and height of what there is to see, mm."""

    @abstractmethod
    def _points(self, first: int, last: int, dtype: type) -> Points:
        """Give the points of the bar that are seen in some rows, with the margin."""

    @abstractmethod
    def _cover(self, right: np.ndarray, up: np.ndarray, dtype: type) -> np.ndarray:
        """Give the share of each pixel that is steel."""


def filled(low: np.ndarray, high: np.ndarray, pixel: float) -> np.ndarray:
    """Say how much of a pixel lies between two lines, 0 … 1.

    Parameters
    ----------
    low, high : arrays, mm
        How far the pixel's middle is inside of each line.
    """
    share = np.clip(low / pixel + 0.5, 0, 1) + np.clip(high / pixel + 0.5, 0, 1) - 1
    return np.maximum(share, 0)
