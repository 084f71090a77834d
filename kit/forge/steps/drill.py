"""Drill points: cones, in a grid, their depth as their width."""

import math
from typing import ClassVar, Literal

import numpy as np

from kit.forge.steps.hollows import BY_HAND, Hollows
from kit.forge.steps.marks import Line, Mark, Summed

POINT = 118.0  # degrees, of a common twist drill (common practice, no source)


class Drill(Hollows):
    """Sink the points of a drill of 118° in a triangular grid, and level the faces.

    The depth of the cone follows from its width. See Hollows for how the metal moves.
    Its rim is as sharp as the drill's lips cut it, at an angle of 149°: no shoulder of a
    wheel and no radius of a die is there to round it over. By hand a deeper cone is wider:
    the drill is taken for one whose lips do not reach the face. Leaves out: what Hollows
    leaves out; that the hammer rolls that edge over when it forges the face level, and
    for how far we found no source; a countersink (see Dent, which has a rim).

    Examples
    --------
    >>> round(Drill(way="cut and forged", across=6, spacing=12).deep, 2)
    1.8
    """

    step: Literal["drill"] = "drill"

    order = 114
    nothing = None
    usual: ClassVar[dict] = {
        **Hollows.usual,
        "across": lambda size: min(8, 1.5 * size.thickness),
    }
    says = " it, {way}: {across} across, " + BY_HAND

    def struck(self, share: float) -> Mark:
        """Leave a cone, as much wider as it is deeper."""
        return Cone(self.across / 2 * share, drill_depth(self.across) * share)


class Cone(Mark):
    """What a drill's point leaves."""

    def line(self, beside: np.ndarray) -> Line:
        """Sum √(u² + v²) with the inverse hyperbolic sine, written as a logarithm."""
        radius, steep = self.radius, self.depth / self.radius
        aside = np.clip(np.abs(beside), 1e-6 * radius, radius)
        square = aside * aside
        half = np.sqrt(np.maximum(radius * radius - square, 0))
        chord = steep * (radius * half - square * np.log((half + radius) / aside))

        def at(u: np.ndarray) -> Summed:
            near = np.minimum(np.abs(u), half)
            far = np.sqrt(near * near + square)
            total = (near + far) / aside
            np.log(total, out=total)
            total *= square
            total += near * far
            total *= -0.5 * steep
            total += near * (steep * radius)
            return steep * (radius - np.minimum(far, radius)), np.copysign(total, u)

        return Line(at, chord)

    def across(self, beside: np.ndarray) -> Summed:
        """Sum the chords; found by parts, see tests/test_press.py."""
        share = np.clip(beside / self.radius, -1, 1)
        half = np.sqrt(1 - share * share)
        aside = np.maximum(np.abs(share), 1e-6)
        bent = share * share * np.log((half + 1) / aside)
        total = (2 * half - bent) * share + np.arcsin(share)
        size = self.depth * self.radius
        return total * (size * self.radius / 3), (half - bent) * size


def drill_depth(across: float) -> float:
    """Say how deep a drill's point goes until its lips are level with the face, mm.

    `across` is the diameter of a common twist drill, mm.
    """
    return across / 2 / math.tan(math.radians(POINT / 2))
