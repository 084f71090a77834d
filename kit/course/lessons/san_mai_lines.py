"""The core of a clad blade, followed to its skin: on the solid, by no formula."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from kit.course.lessons.san_mai_blade import LENGTH, PLUNGE, SPARE, Job
from kit.section.blade import Blade, Section
from kit.section.surface import Look

STRAIGHT = (5.0, 85.0)  # mm from the heel: past the plunge, before the point
LOST = 5e-3  # mm: a line no higher than this is where the core leaves the edge


class Traced(NamedTuple):
    """Where the core shows on one side of a blade, column by column, mm.

    Attributes
    ----------
    along : array
        From the heel.
    near : array
        Height of the line above the edge; 0 or less where the core has left the edge
        on this side.
    far : array
        The same for the core's other face: above 0 where it shows on this side, too.
    high : array
        Height of the blade.
    """

    along: np.ndarray
    near: np.ndarray
    far: np.ndarray
    high: np.ndarray

    @property
    def heights(self) -> tuple[float, float]:
        """The lowest and the highest place of the line along the straight edge."""
        straight = (self.along > STRAIGHT[0]) & (self.along < STRAIGHT[1])
        return float(self.near[straight].min()), float(self.near[straight].max())


def side(job: Job, name: str, pixel: float, columns: int, rows: int) -> Blade:
    """Look square on at one side of the blade."""
    return Blade(
        grind=job.grind, size=job.billet.size, heel=SPARE, side=name,
        columns=columns, rows=rows, pixel=pixel,
    )  # fmt: skip


def traced(job: Job, name: str, pixel: float = 0.25) -> Traced:
    """Follow the core's faces along one side of the blade, on the solid.

    Every point of the ground surface is taken back through the billet to the stack; a
    line is where it passes a face of the core.
    """
    rows = int(job.height / pixel) + 4
    blade = side(job, name, pixel, int(LENGTH / pixel), rows)
    x, y, _ = points = blade.look(0, rows, float).points
    depth = job.billet.undo(points)[2]
    along = x[0] - SPARE
    edge, spine = job.grind.outline.edge(along), job.grind.outline.spine(along)
    low, high = job.faces
    near, far = (high, low) if name == "right" else (-low, -high)
    depth = depth if name == "right" else -depth
    up, high = y + job.height / 2 - edge.above, spine.above - edge.above
    near_, far_ = (_crossings(up, depth, face, high) for face in (near, far))
    ground = (along > PLUNGE) & (along < LENGTH)
    return Traced(*(part[ground] for part in (along, near_, far_, high)))


def _crossings(
    up: np.ndarray, depth: np.ndarray, face: float, high: np.ndarray
) -> np.ndarray:
    """Find in each column how high above the edge the surface passes a depth.

    Rows run from the top down. Passed below the edge, the height is that of a bevel
    thought to go on, below 0; not passed at all, it is the blade's own.
    """
    rows, columns = depth.shape[0], np.arange(depth.shape[1])
    inside = (up > 0) & (up <= high)
    lowest = rows - 1 - np.argmax(inside[::-1], axis=0)  # the first row above the edge
    passed = inside & (depth > face)
    first = rows - 1 - np.argmax(passed[::-1], axis=0)
    upper = np.minimum(first, lowest - 1)  # two rows to draw a straight line through
    lower = upper + 1
    climb = depth[upper, columns] - depth[lower, columns]
    share = (face - depth[lower, columns]) / np.where(climb > 0, climb, 1)
    found = up[lower, columns] + share * (up[upper, columns] - up[lower, columns])
    return np.where(passed.any(axis=0), found, high)


@dataclass(frozen=True)
class Turned:
    """A view of a blade, turned on the sheet by quarter turns to the left."""

    view: Blade | Section
    quarters: int

    @property
    def columns(self) -> int:
        """Pixels across."""
        return self.view.rows if self.quarters % 2 else self.view.columns

    @property
    def rows(self) -> int:
        """Pixels down."""
        return self.view.columns if self.quarters % 2 else self.view.rows

    @property
    def pixel(self) -> float:
        """Width of a pixel, mm."""
        return self.view.pixel

    @property
    def middle(self) -> tuple[float, float]:
        """The middle of the picture: where the sanding is."""
        return self.view.middle

    def look(self, first: int, last: int, dtype: type = np.float32) -> Look:
        """See some rows, with a margin, of the turned picture."""
        whole = self.view.look(-1, self.view.rows + 1, dtype)
        shape = whole.cover.shape
        rows = slice(first + 1, last + 1)
        x, y, z, cover = (
            np.rot90(np.broadcast_to(part, shape), self.quarters)[rows]
            for part in (*whole.points, whole.cover)
        )
        return Look((x, y, z), cover, whole.light)

    def leans(self) -> tuple[np.ndarray | float, np.ndarray | float]:
        """Say how steeply the steel rises to the right and up; a sawn face lies flat."""
        right, up = self.view.leans()
        if self.quarters != 2:
            return 0.0, 0.0
        return -np.rot90(right, 2), -np.rot90(up, 2)

    def place(self, point: tuple[float, float, float]) -> tuple[float, float]:
        """Give the picture's column and row of a point of the bar."""
        column, row = self.view.place(point)
        width, height = self.view.columns, self.view.rows
        for _ in range(self.quarters % 4):
            column, row, width, height = row, width - 1 - column, height, width
        return column, row
