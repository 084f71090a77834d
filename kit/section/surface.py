"""What is looked at: a flat cut through the bar (the bar as a block: block.py).

A surface answers one question: for these rows of pixels, which points of the bar do
we see, how much of each pixel do they fill, and how much light falls there?
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from decimal import ROUND_DOWN, ROUND_UP
from numbers import Integral, Real
from types import MappingProxyType
from typing import Any, NamedTuple

import numpy as np

from kit.basics.errors import KitError
from kit.basics.units import in_figures
from kit.forge.steps import Points, Size

LEAST_ANGLE = 2.0  # °: flatter, a cut is 29 times as long as the bar is thick
MOST_PIXELS = 50_000  # of a side: two metres in print
# What of a bar can be looked at: what lies to the right in the picture, and what up.
SHOWN = MappingProxyType(
    {
        "face": ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0)),
        "end": ((0.0, 1.0, 0.0), (0.0, 0.0, 1.0)),
        "side": ((1.0, 0.0, 0.0), (0.0, 0.0, 1.0)),
        "split": ((0.0, 0.0, -1.0), (0.0, 1.0, 0.0)),
    }
)
ROUND_SKIN = 0.1  # of a round bar's thickness: less has no face to look at; ours
LEAST_LEFT = 0.02  # mm of a bar, below the deepest face that can be looked at
ALONG = math.sin(math.radians(45))  # a face that runs more along a bar than across it
STRAIGHT = 1e-6  # how far from unit length, or from square, two directions may be


class Look(NamedTuple):
    """What some rows of pixels see.

    Attributes
    ----------
    points : three arrays (rows, columns), mm, in the bar's axes
    cover : array, 0 … 1
        Share of the pixel that is steel.
    light : array, 0 … 1
        Light falling there.
    """

    points: Points
    cover: np.ndarray
    light: np.ndarray


def check_picture(columns: Any, rows: Any, pixel: Any) -> None:
    """Refuse a picture that is none, with one sentence; every surface asks this.

    Parameters
    ----------
    columns, rows : int
        Pixels, 1 to 50,000.
    pixel : float
        Width of a pixel, mm, above 0.
    """
    for name, count in (("Columns", columns), ("Rows", rows)):
        whole = isinstance(count, Integral) and not isinstance(count, bool)
        if not whole or not 1 <= count <= MOST_PIXELS:
            msg = (
                f"{name} of a picture must be a whole number from 1 to {MOST_PIXELS:,}. "
                f"Given: {str(count)[:40]}."
            )
            raise KitError(msg)
    number = isinstance(pixel, Real) and not isinstance(pixel, bool)
    if not number or not 0 < pixel < math.inf:
        msg = f"A pixel must be wider than 0 mm. Given: {str(pixel)[:40]}."
        raise KitError(msg)


def size_of(bar: Any) -> Size:
    """Give the size of a bar, whether the bar or its size was given.

    Raises
    ------
    KitError
        Something that is neither.
    """
    size = getattr(bar, "size", bar)
    if not isinstance(size, Size):
        msg = f"A bar is needed, or its size as bar.size. Given: {str(bar)[:40]}."
        raise KitError(msg)
    return size


def told_place(point: Iterable[float]) -> tuple[float, ...]:
    """Give a place, mm, in as many figures as are told; none comes to lie outside a bar."""
    return tuple(in_figures(part, way=ROUND_DOWN) for part in point)


def fitting(*pixels: float) -> float:
    """Give a round scale, mm a pixel, at which all fits that does at one of these."""
    return in_figures(max(pixels), 3, ROUND_UP)


class Moved:
    """A surface as large as another, `surface`, that sees its points elsewhere."""

    surface: Any

    @property
    def columns(self) -> int:
        """Width in pixels."""
        return self.surface.columns

    @property
    def rows(self) -> int:
        """Height in pixels."""
        return self.surface.rows

    @property
    def pixel(self) -> float:
        """Width of a pixel, mm."""
        return self.surface.pixel

    @property
    def middle(self) -> Any:
        """Where the sanding is, as the other has it."""
        return self.surface.middle

    @property
    def grain(self) -> str:
        """Which way the sanding ran, as the other has it."""
        return self.surface.grain

    def leans(self) -> tuple[np.ndarray | float, np.ndarray | float]:
        """Say how steeply the steel rises, mm a mm, as the other does."""
        return self.surface.leans()


@dataclass(frozen=True, kw_only=True)
class Plane:
    """A flat face through a bar, seen square on.

    Parameters
    ----------
    size : Size
        The bar's size, mm: beyond it there is nothing.
    centre : (x, y, z)
        The point in the middle of the picture, mm.
    right, up : (x, y, z)
        Unit vectors in the face: where the picture's right and top point.
    columns, rows : int
        Pixels.
    pixel : float
        Width of a pixel, mm.
    """

    size: Size
    centre: tuple[float, float, float]
    right: tuple[float, float, float]
    up: tuple[float, float, float]
    columns: int
    rows: int
    pixel: float

    def __post_init__(self) -> None:
        check_picture(self.columns, self.rows, self.pixel)
        object.__setattr__(self, "size", size_of(self.size))
        try:
            given = np.array([self.centre, self.right, self.up], float)
        except (TypeError, ValueError):
            given = np.empty(0)
        if given.shape != (3, 3) or not np.isfinite(given).all():
            msg = "A plane's centre, right and up are three numbers each: x, y and z."
            raise KitError(msg)
        _, right, up = given
        off = np.abs([right @ right - 1, up @ up - 1, right @ up]).max()
        if off > STRAIGHT:
            msg = (
                "A plane's right and up must be one long and square to each other. Given: "
                f"{tuple(map(float, right))} and {tuple(map(float, up))}."
            )
            raise KitError(msg)

    @classmethod
    def facing(
        cls,
        bar: Any,
        shown: str,
        centre: tuple[float, float, float],
        shape: tuple[int, int],
        pixel: float,
    ) -> Plane:
        """Look straight at a bar, as `SHOWN` has it; columns and rows, mm a pixel.

        The place is rounded to as many figures as are told.
        """
        right, up = SHOWN[shown]
        columns, rows = shape
        return cls(
            size=bar, centre=told_place(centre), right=right, up=up,
            columns=columns, rows=rows, pixel=pixel,
        )  # fmt: skip

    @property
    def middle(self) -> tuple[float, float]:
        """The middle of the picture in mm to the right and up: where the sanding is."""
        centre = np.asarray(self.centre)
        return float(centre @ self.right), float(centre @ self.up)

    @property
    def grain(self) -> str:
        """Which way the sanding ran: along the bar, on a cut across it to the side."""
        return "up" if abs(self.up[0]) > ALONG else "right"

    def leans(self) -> tuple[float, float]:
        """Say how steeply the steel rises towards the eye, mm a mm: it is flat."""
        return 0.0, 0.0

    def look(self, first: int, last: int, dtype: type = np.float32) -> Look:
        """See pixel rows first … last - 1, and one more pixel left and right."""
        column = np.arange(-1, self.columns + 1) - (self.columns - 1) / 2
        row = (self.rows - 1) / 2 - np.arange(first, last)
        right = np.outer(self.right, column * self.pixel)
        up = np.outer(self.up, row * self.pixel) + np.array(self.centre)[:, None]
        points = tuple(
            up[axis].astype(dtype)[:, None] + right[axis].astype(dtype) for axis in range(3)
        )
        cover = self._cover(points)
        return Look(points, cover, np.ones((), dtype))

    def _cover(self, points: Points) -> np.ndarray:
        """Fill each pixel by its distance, in pixels, from the nearest face."""
        length, width, thickness = self.size
        ends = ((0, length), (-width / 2, width / 2), (-thickness / 2, thickness / 2))
        cover = np.ones_like(points[0])
        for axis, (low, high) in enumerate(ends):
            tilt = math.hypot(self.right[axis], self.up[axis])
            middle, half = (low + high) / 2, (high - low) / 2
            if tilt < 1e-9:  # the face runs parallel to this side of the bar
                if abs(self.centre[axis] - middle) > half * (1 + 1e-9):
                    cover[:] = 0  # and beside it
                continue
            inside = (half - np.abs(points[axis] - middle)) / (tilt * self.pixel)
            np.minimum(cover, inside + 0.5, out=cover)
        if self.size.round:
            np.minimum(cover, self._inside_round(points) + 0.5, out=cover)
        return np.clip(cover, 0, 1)

    def _inside_round(self, points: Points) -> np.ndarray:
        """Distance inside the skin of a round or oval bar, in pixels along the face."""
        wide, thick = self.size.width / 2, self.size.thickness / 2
        y, z = points[1] / wide, points[2] / thick
        share = np.maximum(np.hypot(y, z), 1e-9)  # 1 on the skin
        tilt = np.hypot(
            y * (self.right[1] / wide) + z * (self.right[2] / thick),
            y * (self.up[1] / wide) + z * (self.up[2] / thick),
        )
        return (1 - share) / (np.maximum(tilt / share, 1e-4) * self.pixel)


def cut(
    bar: Any,
    *,
    angle: float,
    position: float = 50,
    columns: int = 400,
    rows: int = 400,
    pixel: float = 0.2,
) -> Plane:
    """Saw through the bar at an angle to its faces and look at the fresh face.

    Parameters
    ----------
    bar : Billet or Size
        The bar, or its size in mm.
    angle : float
        Between the cut and the flat layers, degrees, 2 … 90. 90 is straight across.
    position : float
        Where the cut crosses the bar's axis, per cent of the length, 0 … 100.
    columns, rows, pixel : int, int, float
        Size of the picture in pixels, and mm per pixel.

    Its place in mm is rounded to as many figures as are told.

    Raises
    ------
    KitError
        An angle or position out of its range; no bar; a picture without pixels.
    """
    size, normal = size_of(bar), cut_normal(angle)
    if not _between(0, position, 100):
        msg = f"Position of the cut must be from 0 to 100 %. Given: {str(position)[:40]}."
        raise KitError(msg)
    return Plane(
        size=size,
        centre=told_place((position / 100 * size.length, 0.0, 0.0)),
        right=(0.0, 1.0, 0.0),
        up=(-normal[2], 0.0, normal[0]),
        columns=columns,
        rows=rows,
        pixel=pixel,
    )


def face_depth(bar: Any, ground: float = 0.0) -> float:
    """Give how deep below its top a bar's face lies, mm.

    The top of a round bar is a line: its face is a flat that was ground on it.

    Parameters
    ----------
    bar : Billet or Size
    ground : float
        What is to be ground off, mm; something of the bar is always left.
    """
    size = size_of(bar)
    least = ROUND_SKIN * size.thickness if size.round else 0.0
    return max(min(ground, size.thickness - max(least, LEAST_LEFT)), least)


def shown_at(
    bar: Any, shown: str, columns: int, rows: int, *, ground: float = 0.0
) -> Plane:
    """Look at the face, the end or the lengthwise cut of a bar, as large as fits.

    Parameters
    ----------
    bar : Billet or Size
    shown : str
        "face", "end", "side" or "split": see patterns.py.
    columns, rows : int
        Size of the picture in pixels.
    ground : float
        What is ground off to see the face, mm: see `face_depth`.
    """
    size = size_of(bar)
    length, width, thickness = size
    top = thickness / 2 - 1e-3 - face_depth(size, ground)
    if shown not in SHOWN:
        msg = f"A bar can be looked at by its {', '.join(SHOWN)}. Given: {shown!s:.30}."
        raise KitError(msg)
    height, wide, tall = {
        "face": (top, 90.0, width),
        "end": (0.0, width, thickness),
        "side": (0.0, 90.0, thickness),
        "split": (0.0, thickness, width),
    }[shown]
    pixel = fitting(1.05 * wide / columns, 1.05 * tall / rows)
    # the rows beside a split must not lie alike, or they take each other for one layer
    aside = pixel / 4 if shown == "split" else 0.0
    centre = (length * 0.4, aside, height)
    return Plane.facing(size, shown, centre, (columns, rows), pixel)


def cut_normal(angle: float) -> tuple[float, float, float]:
    """Give the direction that the cut face looks in, for a cut at `angle` degrees."""
    if not _between(LEAST_ANGLE, angle, 90):
        msg = (
            f"Cut angle must be from {LEAST_ANGLE:g} to 90 degrees to the layers. "
            f"Given: {str(angle)[:40]}. At 0 the cut crosses no layer."
        )
        raise KitError(msg)
    lean = math.radians(angle)
    return math.sin(lean), 0.0, math.cos(lean) if angle < 90 else 0.0


def _between(low: float, value: object, high: float) -> bool:
    return isinstance(value, Real) and low <= value <= high
