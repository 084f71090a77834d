"""A bar standing on the bench, whole or sawn, as a solid with its visible faces."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass, replace
from functools import cached_property, lru_cache

import numpy as np

from kit.forge.steps import Size
from kit.section.surface import Look, check_picture, fitting, size_of, told_place

EDGE_INK = 0.8  # how dark the line along an edge of the block is drawn
LIGHT_FROM = np.array([0.25, -0.5, 0.83])  # unit vector towards the lamp


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
    span : (low, high), optional
        Only this part of the bar's length is shown, mm; left out, all of it.
    turned, raised : float
        Where the eye is, degrees: turned from the bar's side towards its end, raised
        above the bench.
    columns, rows, pixel : int, int, float
        Size of the picture in pixels, and mm per pixel.
    """

    size: Size
    cut: tuple[tuple[float, float, float], tuple[float, float, float]] | None = None
    span: tuple[float, float] | None = None
    turned: float = 32.0
    raised: float = 28.0
    columns: int = 640
    rows: int = 400
    pixel: float = 0.3

    def __post_init__(self) -> None:
        check_picture(self.columns, self.rows, self.pixel)
        object.__setattr__(self, "size", size_of(self.size))

    @classmethod
    def fitted(
        cls,
        size: Size,
        columns: int,
        rows: int,
        cut: tuple[tuple[float, float, float], tuple[float, float, float]] | None = None,
        span: tuple[float, float] | None = None,
    ) -> Block:
        """Stand so far off that what is shown of the bar just fills the picture.

        Places and scale are rounded to as many figures as are told.
        """
        span, cut = span and told_place(span), cut and (cut[0], told_place(cut[1]))
        near = cls(size=size, cut=cut, span=span, columns=columns, rows=rows, pixel=1.0)
        places = np.array([near.place(corner) for corner in near.corners])
        wide, high = np.ptp(places, axis=0)
        return replace(near, pixel=fitting(wide / (columns - 12), high / (rows - 12)))

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
        x, y, up = self.eye.tolist()
        level = math.hypot(x, y)
        x, y = x / level, y / level
        return np.array([-y, x, 0.0]), np.array([-up * x, -up * y, level])

    @cached_property
    def middle(self) -> np.ndarray:
        """The point of the bar in the middle of the picture."""
        return np.array([sum(self._ends) / 2, 0.0, 0.0])

    @property
    def grain(self) -> str:
        """Which way the sanding ran in the picture: each face has a way of its own."""
        return ""

    def sanded(self, first: int, last: int) -> tuple[np.ndarray, np.ndarray]:
        """Tell how far along the sanding of its face each pixel lies, and across it, mm.

        Long faces were sanded along the bar, ends and cuts across it.
        """
        corners = np.array(self.corners, np.float32)
        low, high = corners.min(axis=0), corners.max(axis=0)
        look = self.look(first - 1, last + 1, np.float32)
        seen = [part[1:-1, 1:-1] for part in look.points]
        # beside the bar nobody looks
        x, y, z = (np.clip(*three) for three in zip(seen, low, high, strict=True))
        along, across = x.copy(), y * math.copysign(1, self.eye[1]) - z  # round an edge
        for normal, distance in self._half_spaces:
            right, aside, up = normal.tolist()
            if right:
                off = x * right + y * aside + z * up - float(distance)
                here = np.abs(off) < self.pixel / 8
                np.copyto(along, y, where=here)
                np.copyto(across, z * right - x * up, where=here)
        return along, across

    def leans(self) -> tuple[float, float]:
        """Give 0 mm a mm: how each face leans to the lamp is in `look` already."""
        return 0.0, 0.0

    @property
    def corners(self) -> list[tuple[float, float, float]]:
        """The eight corners of what is shown, mm."""
        half_width, half_thick = self.size.width / 2, self.size.thickness / 2
        return list(
            itertools.product(
                self._ends, (-half_width, half_width), (-half_thick, half_thick)
            )
        )

    @property
    def _ends(self) -> tuple[float, float]:
        return self.span or (0.0, self.size.length)

    def place(self, point: tuple[float, float, float]) -> tuple[float, float]:
        """Give the picture's column and row of a point of the bar."""
        right, up = self.axes
        away = np.asarray(point) - self.middle
        return (
            float((self.columns - 1) / 2 + away @ right / self.pixel),
            float((self.rows - 1) / 2 - away @ up / self.pixel),
        )

    @lru_cache(maxsize=1)  # noqa: B019  (its steel is seen, and then how it was sanded)
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
            (start + down * row).astype(dtype)[:, None] + (side * column).astype(dtype)
            for start, side, down in self._faces[0]
        ]
        front = len(self._lights)
        top = np.minimum.reduce(heights[:front])
        cover, ridge = self._edges(heights, top)
        light = np.zeros_like(top)
        for height, brightness in zip(heights[:front], self._lights, strict=True):
            np.copyto(light, dtype(brightness), where=height == top)
        if self.size.round:
            top = self._skin(column, row, heights, top, cover, ridge, light)
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
        _, width, thickness = self.size
        low, high = self._ends
        box = np.eye(3)
        spaces = [(box[0], high), (-box[0], -low)]
        if not self.size.round:
            for axis, side in ((1, width), (2, thickness)):
                spaces += [(box[axis], side / 2), (-box[axis], side / 2)]
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
                    apart = heights[one] - heights[other]
                    apart /= top.dtype.type(steep)
                    np.minimum(cover, apart, out=cover)
        cover += top.dtype.type(0.5)
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

    def _skin(self, column, row, heights, top, cover, ridge, light) -> np.ndarray:
        """Round the bar: cut the sight lines at its skin too, in place; give the top.

        In half-widths and half-thicknesses the skin is the unit circle, and along a
        sight line q + s w it is met where a s² + 2 b s + c = 0.
        """
        half = self.size.width / 2, self.size.thickness / 2
        rights, ups = ([axis[i + 1] / half[i] for i in (0, 1)] for axis in self.axes)
        wy, wz = (float(self.eye[i + 1]) / half[i] for i in (0, 1))  # numpy's are double
        y, z = (
            (rights[i] * column).astype(top.dtype)
            + (ups[i] * row).astype(top.dtype)[:, None]
            for i in (0, 1)
        )
        steep = wy * wy + wz * wz
        b = y * wy + z * wz
        aside = (y * wz - z * wy) / math.sqrt(steep)  # how far the line misses the axis
        change = [
            (step[0] * wz - step[1] * wy) / math.sqrt(steep) for step in (rights, ups)
        ]
        chord = np.sqrt(np.maximum(1 - aside * aside, 0) / steep)
        skin = chord - b / steep
        back = np.maximum.reduce([*heights[len(self._lights) :], -chord - b / steep])
        outline = (1 - np.abs(aside)) / (math.hypot(*change) * self.pixel)
        np.minimum(cover, outline + 0.5, out=cover)
        np.minimum(cover, (np.minimum(top, skin) - back) / self.pixel + 0.5, out=cover)
        on_skin = skin < top
        np.copyto(ridge, 9, where=on_skin)  # edges that lie outside the round are not there
        np.minimum(ridge, np.abs(top - skin) / self.pixel, out=ridge)
        outwards = (y + skin * wy) / half[0], (z + skin * wz) / half[1]
        lamp = outwards[0] * float(LIGHT_FROM[1]) + outwards[1] * float(LIGHT_FROM[2])
        far = np.sqrt(outwards[0] * outwards[0] + outwards[1] * outwards[1])
        shade = 0.45 + 0.55 * np.maximum(lamp / far, 0)
        np.copyto(light, np.minimum(shade, 1), where=on_skin)
        return np.where(on_skin, skin, top)
