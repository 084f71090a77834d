"""The thickness of a blade: how its outline is ground, from the spine to the edge."""

from __future__ import annotations

import math
from typing import Literal, NamedTuple, get_args

import numpy as np
from pydantic import Field, model_validator

from kit.basics.declare import Declared, quantity
from kit.basics.errors import KitError
from kit.section.outline import Outline

Kind = Literal["flat", "part-height", "hollow", "convex"]
KINDS = get_args(Kind)


class Crossed(NamedTuple):
    """The lines that one bevel makes of flat layers.

    Attributes
    ----------
    lines : float
        Layers crossed on one side, from the spine's thickness down to the edge's.
    spacing : float
        From line to line along the ground surface, mm; endless if none is crossed.
    spread : float
        The spacing against the thickness of a layer.
    """

    lines: float
    spacing: float
    spread: float


class BladeGrind(Declared):
    """How a blade is ground: thickness at every place.

    Both sides are ground alike. The bevel keeps its height along the edge (measured
    square to it), so that towards the tip, where the blade is lower, a high bevel runs
    out over the spine and thins it. Along the ricasso the blade keeps its full
    thickness; at the plunge a straight ramp leads down to the bevel.

    Leaves out: the sharpened edge itself, the radius that a wheel's rim leaves in the
    plunge, and any slip of the hand.

    Raises
    ------
    KitError
        A bevel higher than the blade, an edge thicker than the spine, a wheel too
        small for the hollow, a ricasso and plunge that leave nothing to grind.

    Examples
    --------
    >>> knife = Outline(length=150, height=30)
    >>> BladeGrind(outline=knife, spine=4, edge=0.4).crossed(0.05)
    Crossed(lines=36.0, spacing=0.835, spread=16.7)
    """

    outline: Outline = Field(title="Outline", description="an Outline")
    kind: Kind = Field(
        "flat", title="Grind", description="flat, part-height, hollow or convex"
    )
    spine: float = quantity(
        "Spine", "thickness of the back at the heel", low=0.5, high=20, unit="mm",
        default=4,
    )  # fmt: skip
    edge: float = quantity(
        "Edge before sharpening", "thickness left along the edge", low=0, high=20,
        unit="mm", default=0.4,
    )  # fmt: skip
    bevel: float | None = quantity(
        "Bevel height",
        "from the edge up; flat always goes up to the spine, and so does a bevel "
        "without a height", low=1, high=150, unit="mm", default=None,
    )  # fmt: skip
    wheel: float = quantity(
        "Wheel radius", "of a hollow grind", low=10, high=2000, unit="mm", default=300
    )
    taper: float = quantity(
        "Taper to the tip", "how much of the spine's thickness is gone there", low=0,
        high=60, unit="%", default=0,
    )  # fmt: skip
    ricasso: float = quantity(
        "Ricasso", "unground length in front of the heel", low=0, high=500, unit="mm",
        default=0,
    )  # fmt: skip
    plunge: float = quantity(
        "Plunge", "length of the ramp from the ricasso down to the bevel", low=0.1,
        high=100, unit="mm", default=3,
    )  # fmt: skip

    @model_validator(mode="after")
    def _possible(self) -> BladeGrind:
        height, thin = self.outline.height, self.spine * (1 - self.taper / 100)
        if self.kind != "flat" and self.bevel is not None and self.bevel > height:
            msg = (
                f"Bevel height must be from 1 to {height:g} mm, the height of the blade. "
                f"Given: {self.bevel:g} mm."
            )
            raise KitError(msg)
        if self.edge > thin:
            where = " at the tip, tapered" if self.taper else ""
            msg = (
                f"Edge before sharpening must be from 0 to {thin:g} mm, the thickness of "
                f"the spine{where}. Given: {self.edge:g} mm."
            )
            raise KitError(msg)
        if self.ricasso + self.plunge >= self.outline.length:
            msg = (
                f"Ricasso and plunge together must be shorter than the blade, "
                f"{self.outline.length:g} mm. Given: {self.ricasso + self.plunge:g} mm."
            )
            raise KitError(msg)
        most = _highest_hollow(self.wheel, (self.spine - self.edge) / 2)
        if self.kind == "hollow" and self.spine > self.edge and self.height > most:
            msg = (
                f"Bevel height must be at most {most:.1f} mm with a wheel of "
                f"{self.wheel:g} mm radius: a higher hollow would leave the steel above "
                f"the edge thinner than the edge. Given: {self.height:g} mm."
            )
            raise KitError(msg)
        return self

    @property
    def height(self) -> float:
        """Height of the bevel, mm: up to the spine unless it is given and not flat."""
        full = self.kind == "flat" or self.bevel is None
        return self.outline.height if full else self.bevel

    def crossed(self, layer: float) -> Crossed:
        """Count the lines that one bevel makes of flat layers, at the heel.

        The bevel of length l goes down through (spine - edge) / 2 of steel, so it
        crosses that many layers; a face at an angle spreads them (lesson 01).

        Parameters
        ----------
        layer : float
            Thickness of a layer, mm, more than 0.
        """
        if not layer > 0:
            msg = f"A layer must be thicker than 0 mm. Given: {str(layer)[:40]}."
            raise KitError(msg)
        lines = (self.spine - self.edge) / 2 / layer
        spacing = self.bevel_length / lines if lines else math.inf
        return Crossed(lines, spacing, spacing / layer)

    @property
    def bevel_length(self) -> float:
        """From the edge to the top of the bevel along the ground surface, mm."""
        depth = (self.spine - self.edge) / 2
        chord = math.hypot(self.height, depth)
        if depth == 0 or self.kind in ("flat", "part-height"):
            return chord
        convex = (chord**2 / 2) / depth  # of a bow that runs out level into the flat
        radius = convex if self.kind == "convex" else self.wheel
        return 2 * radius * math.asin(chord / 2 / radius)

    def half(self, along: np.ndarray, above: np.ndarray) -> np.ndarray:
        """Give half the blade's thickness, from its middle plane to a side, mm.

        Parameters
        ----------
        along : array
            From the heel towards the tip, mm.
        above : array
            Above the lowest point of the blade, mm. Beside the outline the surface is
            thought to go on; `thickness` says where there is steel.
        """
        edge = self.outline.edge(along)
        dtype = np.asarray(above).dtype.type
        square = (1 / np.hypot(1, edge.slope)).astype(dtype)
        up = np.maximum(above - edge.above.astype(dtype), 0) * square
        share = np.clip(np.asarray(along, float) / self.outline.length, 0, 1)
        spine = self.spine / 2 * (1 - self.taper / 100 * share)
        ramp = np.clip((np.asarray(along, float) - self.ricasso) / self.plunge, 0, 1)
        taken = self._taken(up, spine - self.edge / 2)
        return spine.astype(dtype) - ramp.astype(dtype) * taken

    def _taken(self, up: np.ndarray, depth: np.ndarray) -> np.ndarray:
        """Give what the grinder took off one side, mm, `up` mm above the edge.

        `depth` is what it took off at the edge. The arcs are written so that no two
        large numbers are subtracted: a loupe would show their rounding as steps.
        """
        dtype, height = up.dtype.type, self.height
        if self.spine == self.edge:
            return np.zeros_like(up)
        if self.kind == "convex":  # a bow that runs out level into the flat
            bend = (2 * depth / (height**2 + depth**2)).astype(dtype)
            down = np.maximum(height - up, 0) ** 2 * bend
            return down / (1 + np.sqrt(1 - down * bend))
        if self.kind == "hollow":  # a bow of the wheel, through the edge and the top
            height = np.minimum(height, _highest_hollow(self.wheel, depth))
            chord = np.maximum(np.hypot(height, depth), 1e-9)
            middle = height / 2 - np.sqrt(self.wheel**2 - chord**2 / 4) * depth / chord
            base = np.sqrt(self.wheel**2 - middle**2).astype(dtype)
            up = np.minimum(up, height.astype(dtype))
            middle, depth = middle.astype(dtype), depth.astype(dtype)
            arc = np.sqrt(dtype(self.wheel**2) - (up - middle) ** 2)
            return depth - up * (up - 2 * middle) / (base + arc)
        return np.maximum(1 - up / dtype(height), 0) * depth.astype(dtype)


def _highest_hollow(wheel: float, depth: np.ndarray | float) -> np.ndarray:
    """Say how high a wheel's hollow of a depth can be before it undercuts the edge.

    There the bow leaves the edge along the blade's middle plane: by Pythagoras
    wheel² = height² + (wheel - depth)².
    """
    return np.sqrt(np.maximum((2 * wheel - depth) * depth, 0))
