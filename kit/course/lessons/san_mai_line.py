"""The core of a clad blade, followed to its skin by no formula."""

from functools import lru_cache
from typing import NamedTuple

import numpy as np

from kit.forge.billet import Billet
from kit.forge.stack import Stack
from kit.forge.steps import Points
from kit.section.blade import Blade
from kit.section.grind import BladeGrind

CORE = "1084"
LENGTH = 150.0  # mm, of the blade
SPARE = 10.0  # mm of bar beyond each end of it, and 1 mm beyond its back and edge
PLUNGE = 0.1  # mm: the bevel runs out at the heel
STRAIGHT = (5.0, 85.0)  # mm from the heel: past the plunge, before the point
LOST = 5e-3  # mm: a line no higher than this is where the core leaves the edge


class Traced(NamedTuple):
    """Where the core shows on one side of a blade, column by column, mm.

    Attributes
    ----------
    along, high : array
        From the heel; height of the blade there.
    near : array
        Height of the line above the edge; 0 or less where the core has left the edge
        on this side.
    far : array
        The same for the core's other face: above 0 where it shows on this side, too.
    lost : array
        How much of the edge's thickness is this side's cladding.
    """

    along: np.ndarray
    near: np.ndarray
    far: np.ndarray
    high: np.ndarray
    lost: np.ndarray

    @property
    def straight(self) -> np.ndarray:
        """Which columns lie along the straight edge."""
        return (self.along > STRAIGHT[0]) & (self.along < STRAIGHT[1])

    @property
    def heights(self) -> tuple[float, float]:
        """The lowest and the highest place of the line along the straight edge, mm."""
        near = self.near[self.straight]
        return float(near.min()), float(near.max())


class Clad(NamedTuple):
    """A bar with a core, and the blade that is ground from it."""

    billet: Billet
    grind: BladeGrind

    @property
    def height(self) -> float:
        """Height of the blade, mm."""
        return self.grind.outline.height

    @property
    def faces(self) -> tuple[float, float]:
        """Where the core's left and right face lie in the stack, mm from its middle."""
        return core_faces(self.billet.source)

    def side(self, name: str, pixel: float, columns: int, rows: int) -> Blade:
        """Look square on at one side of the blade; pixel in mm."""
        return Blade(
            grind=self.grind, size=self.billet.size, heel=SPARE, side=name,
            columns=columns, rows=rows, pixel=pixel,
        )  # fmt: skip


def core_faces(stack: Stack) -> tuple[float, float]:
    """Give the core's left and right face, mm from the middle of the stack."""
    heights = (stack.edges - 0.5) * stack.thickness
    core = [number for number, name in enumerate(stack.steels) if name == CORE]
    return float(heights[core[0]]), float(heights[core[-1] + 1])


def traced(clad: Clad, name: str, pixel: float = 0.25) -> Traced:
    """Follow the core's faces along one side of the blade, on the solid; pixel in mm.

    Every point of the ground surface is taken back through the billet to the stack; a
    line is where it passes a face of the core.
    """
    rows = int(clad.height / pixel) + 4
    skin = _skin(clad.side(name, pixel, int(LENGTH / pixel), rows))
    depth = clad.billet.undo(skin.points)[2]
    low, high = clad.faces
    near, far = (high, low) if name == "right" else (-low, -high)
    depth = depth if name == "right" else -depth
    near_, far_ = (_crossings(skin, depth, face) for face in (near, far))
    lost = np.clip(-near_ * skin.thicker / pixel, 0, clad.grind.edge)
    ground = (skin.along > PLUNGE) & (skin.along < LENGTH)
    found = skin.along, near_, far_, skin.high, lost
    return Traced(*(part[ground] for part in found))


class _Skin(NamedTuple):
    """One side of a blade, as it is ground whatever the bar; rows from the top down, mm.

    Up is each place above the edge, high the blade; inside, what lies on it; lowest, each
    column's first row above the edge; thicker, how much so half the blade is a pixel up.
    """

    points: Points
    along: np.ndarray
    up: np.ndarray
    high: np.ndarray
    inside: np.ndarray
    lowest: np.ndarray
    thicker: np.ndarray


@lru_cache(maxsize=2)  # both sides stay as they were while the core moves
def _skin(blade: Blade) -> _Skin:
    grind, outline = blade.grind, blade.grind.outline
    points = blade.look(0, blade.rows, float).points
    along = points[0][0] - SPARE
    edge, spine = outline.edge(along).above, outline.spine(along).above
    up, high = points[1] + outline.height / 2 - edge, spine - edge
    inside = (up > 0) & (up <= high)
    low, above = (grind.half(along, edge + one) for one in (0.0, blade.pixel))
    return _Skin(points, along, up, high, inside, _last(inside), above - low)


def _last(marked: np.ndarray) -> np.ndarray:
    """Give each column's last row that is marked."""
    return len(marked) - 1 - np.argmax(marked[::-1], axis=0)


def _crossings(skin: _Skin, depth: np.ndarray, face: float) -> np.ndarray:
    """Find in each column how high above the edge the surface passes a depth.

    Passed below the edge, the height is that of a bevel thought to go on, below 0; not
    passed at all, it is the blade's own.
    """
    up, columns = skin.up, np.arange(depth.shape[1])
    passed = skin.inside & (depth > face)
    # two rows to draw a straight line through
    upper = np.minimum(_last(passed), skin.lowest - 1)
    lower = upper + 1
    climb = depth[upper, columns] - depth[lower, columns]
    share = (face - depth[lower, columns]) / np.where(climb > 0, climb, 1)
    found = up[lower, columns] + share * (up[upper, columns] - up[lower, columns])
    return np.where(passed.any(axis=0), found, skin.high)
