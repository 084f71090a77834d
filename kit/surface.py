"""What is looked at: a flat cut through the bar, or the bar itself as a block.

A surface answers one question: for these rows of pixels, which points of the bar do
we see, how much of each pixel do they fill, and how much light falls there?
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import cached_property
from typing import NamedTuple

import numpy as np

from kit.errors import KitError
from kit.steps import Points, Size

LEAST_ANGLE = 2.0
EDGE_INK = 0.8  # how dark the line along an edge of the block is drawn
LIGHT_FROM = np.array([0.25, -0.5, 0.83])  # unit vector towards the lamp


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

    def look(self, first: int, last: int, dtype: type = np.float32) -> Look:
        """See pixel rows first … last - 1, and one more pixel left and right."""
        column = np.arange(-1, self.columns + 1) - (self.columns - 1) / 2
        row = (self.rows - 1) / 2 - np.arange(first, last)
        right = np.outer(self.right, column * self.pixel)
        up = np.outer(self.up, row * self.pixel) + np.array(self.centre)[:, None]
        points = tuple(
            up[axis].astype(dtype)[:, None] + right[axis].astype(dtype)
            for axis in range(3)
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
            if tilt < 1e-9:  # the face runs parallel to this side of the bar
                continue
            middle, half = (low + high) / 2, (high - low) / 2
            inside = (half - np.abs(points[axis] - middle)) / (tilt * self.pixel)
            np.minimum(cover, inside + 0.5, out=cover)
        return np.clip(cover, 0, 1)


def cut(
    size: Size,
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
    size : Size
        The bar, mm.
    angle : float
        Between the cut and the flat layers, degrees, 2 … 90. 90 is straight across.
    position : float
        Where the cut crosses the bar's axis, per cent of the length, 0 … 100.
    columns, rows, pixel : int, int, float
        Size of the picture in pixels, and mm per pixel.

    Raises
    ------
    KitError
        An angle or position out of its range.
    """
    normal = cut_normal(angle)
    if not 0 <= position <= 100:
        msg = f"Position of the cut must be from 0 to 100 %. Given: {position:g}."
        raise KitError(msg)
    return Plane(
        size=size,
        centre=(position / 100 * size.length, 0.0, 0.0),
        right=(0.0, 1.0, 0.0),
        up=(-normal[2], 0.0, normal[0]),
        columns=columns,
        rows=rows,
        pixel=pixel,
    )


def cut_normal(angle: float) -> tuple[float, float, float]:
    """Give the direction that the cut face looks in, for a cut at `angle` degrees."""
    if not LEAST_ANGLE <= angle <= 90:
        msg = (
            f"Cut angle must be from {LEAST_ANGLE:g} to 90 degrees to the layers. "
            f"Given: {angle:g}. At 0 the cut runs along the layers and crosses none."
        )
        raise KitError(msg)
    lean = math.radians(angle)
    return math.sin(lean), 0.0, math.cos(lean) if angle < 90 else 0.0


def corners(size: Size) -> list[tuple[float, float, float]]:
    """Give the eight corners of a bar, mm."""
    length, width, thickness = size
    return [
        (x, y, z)
        for x in (0.0, length)
        for y in (-width / 2, width / 2)
        for z in (-thickness / 2, thickness / 2)
    ]


@dataclass(frozen=True, kw_only=True)
class Block:
    """A bar standing on the bench, seen from one corner, perhaps cut.

    Seen from far away (parallel rays), so that lengths along one direction stay true
    to each other.

    Parameters
    ----------
    size : Size
        The bar, mm.
    cut : (normal, point), optional
        Everything on the side that `normal` points to is sawn off at `point`.
    turned, raised : float
        Where the eye is, degrees: turned from the bar's side towards its end, raised
        above the bench.
    columns, rows, pixel : int, int, float
        Size of the picture in pixels, and mm per pixel.
    """

    size: Size
    cut: tuple[tuple[float, float, float], tuple[float, float, float]] | None = None
    turned: float = 32.0
    raised: float = 28.0
    columns: int = 640
    rows: int = 400
    pixel: float = 0.3

    @classmethod
    def fitted(
        cls,
        size: Size,
        columns: int,
        rows: int,
        cut: tuple[tuple[float, float, float], tuple[float, float, float]] | None = None,
    ) -> Block:
        """Stand so far off that the whole bar just fills the picture."""
        near = cls(size=size, cut=cut, columns=columns, rows=rows, pixel=1.0)
        places = np.array([near.place(corner) for corner in corners(size)])
        wide, high = np.ptp(places, axis=0)
        pixel = max(wide / (columns - 12), high / (rows - 12))
        return replace(near, pixel=float(pixel))

    @cached_property
    def eye(self) -> np.ndarray:
        """Unit vector from the bar towards the eye."""
        turned, raised = math.radians(self.turned), math.radians(self.raised)
        level = math.cos(raised)
        return np.array(
            [level * math.sin(turned), -level * math.cos(turned), math.sin(raised)]
        )

    @cached_property
    def axes(self) -> tuple[np.ndarray, np.ndarray]:
        """Unit vectors of the picture's right and top."""
        right = np.cross([0.0, 0.0, 1.0], self.eye)
        right /= np.linalg.norm(right)
        return right, np.cross(self.eye, right)

    @cached_property
    def middle(self) -> np.ndarray:
        """The point of the bar in the middle of the picture."""
        return np.array([self.size.length / 2, 0.0, 0.0])

    def place(self, point: tuple[float, float, float]) -> tuple[float, float]:
        """Give the picture's column and row of a point of the bar."""
        right, up = self.axes
        away = np.asarray(point) - self.middle
        return (
            float((self.columns - 1) / 2 + away @ right / self.pixel),
            float((self.rows - 1) / 2 - away @ up / self.pixel),
        )

    def look(self, first: int, last: int, dtype: type = np.float32) -> Look:
        """See pixel rows first … last - 1, and one more pixel left and right.

        A sight line is inside the bar while it is below every face that looks at
        the eye and above every face that looks away (the slab test, common to texts
        on ray casting); the lowest of the first is the face we see.
        """
        column = np.arange(-1, self.columns + 1) - (self.columns - 1) / 2
        row = (self.rows - 1) / 2 - np.arange(first, last)
        column, row = column * self.pixel, row * self.pixel
        heights = [
            (start + down * row).astype(dtype)[:, None]
            + (side * column).astype(dtype)
            for start, side, down in self._faces[0]
        ]
        front = len(self._lights)
        top = np.minimum.reduce(heights[:front])
        cover, ridge = self._edges(heights, top)
        light = np.zeros_like(top)
        for height, brightness in zip(heights[:front], self._lights, strict=True):
            np.copyto(light, dtype(brightness), where=height == top)
        light *= 1 - EDGE_INK * np.clip(1.2 - np.minimum(ridge, cover), 0, 1)
        right, up = self.axes
        points = tuple(
            (self.middle[axis] + right[axis] * column).astype(dtype)
            + (up[axis] * row).astype(dtype)[:, None]
            + top * dtype(self.eye[axis])
            for axis in range(3)
        )
        return Look(points, np.clip(cover, 0, 1), light)

    @cached_property
    def _half_spaces(self) -> list[tuple[np.ndarray, float]]:
        """Outward normals n and distances c: the bar is where n·p <= c."""
        length, width, thickness = self.size
        box = np.eye(3)
        spaces = [
            (box[0], length),
            (-box[0], 0.0),
            (box[1], width / 2),
            (-box[1], width / 2),
            (box[2], thickness / 2),
            (-box[2], thickness / 2),
        ]
        if self.cut is not None:
            normal, point = (np.asarray(part, float) for part in self.cut)
            spaces.append((normal, float(normal @ point)))
        return spaces

    @cached_property
    def _faces(self) -> tuple[list[tuple[float, float, float]], int]:
        """Height of each face above the picture plane: start, per mm right, per mm up.

        Those that look at the eye come first; their number is the second value.
        """
        front, back = [], []
        for normal, distance in self._half_spaces:
            facing = float(normal @ self.eye)
            if abs(facing) < 1e-9:
                facing = 1e-9  # seen edge-on: all but infinitely steep, never on top
            start = (distance - normal @ self.middle) / facing
            slope = [-float(normal @ axis) / facing for axis in self.axes]
            (front if facing > 0 else back).append((float(start), *slope))
        return front + back, len(front)

    @cached_property
    def _lights(self) -> list[float]:
        """Light on each face that looks at the eye: lamp above, and some all round."""
        facing = [
            0.45 + 0.55 * max(0.0, float(normal @ LIGHT_FROM))
            for normal, _ in self._half_spaces
            if float(normal @ self.eye) >= 0
        ]
        return [min(1.0, light) for light in facing]

    def _edges(
        self, heights: list[np.ndarray], top: np.ndarray
    ) -> tuple[np.ndarray, np.ndarray]:
        """Give the distance in pixels inside the outline (+ ½) and from an edge."""
        faces, front = self._faces
        cover = np.full_like(top, 9)
        ridge = np.full_like(top, 9)

        def steepness(one: int, other: int) -> float:
            apart = np.subtract(faces[one][1:], faces[other][1:])
            return float(np.hypot(*apart)) * self.pixel

        for one in range(front):
            for other in range(front, len(faces)):
                steep = steepness(one, other)
                if steep > 1e-9:
                    apart = (heights[one] - heights[other]) / top.dtype.type(steep)
                    np.minimum(cover, apart + 0.5, out=cover)
        for one in range(front):
            nearest = np.full_like(top, 9)
            for other in range(front):
                steep = steepness(one, other)
                if steep > 1e-9:
                    apart = heights[other] - heights[one]
                    apart /= top.dtype.type(steep)
                    np.minimum(nearest, apart, out=nearest)
            np.copyto(ridge, nearest, where=heights[one] == top)
        return cover, ridge
