"""The flat shape of a blade: where its edge and its spine run, seen from the side."""

from typing import Literal, NamedTuple

import numpy as np
from pydantic import Field

from kit.basics.declare import Declared, quantity

Family = Literal["straight", "drop", "clip", "leaf"]

# Where the tip lies, of the height. Our own shapes: drawn to please, not measured.
_TIP = {"straight": 1.0, "drop": 0.62, "clip": 0.58, "leaf": 0.5}
_CLIP_BOW = 0.65  # 0: the clip is a straight line; 1: hollowed until it meets the tip flat
_WAIST = 0.3  # by so much of its height is a leaf narrower at the heel


class Line(NamedTuple):
    """A line along the blade.

    Attributes
    ----------
    above : array, mm
        How far it runs above the lowest point of the blade.
    slope : array
        How steeply it climbs towards the tip, mm a mm.
    """

    above: np.ndarray
    slope: np.ndarray


class Outline(Declared):
    """A blade's outline by a family and three numbers.

    Edge down, tip to the right. Straight back: the edge sweeps up to a straight spine.
    Drop: the spine falls in a bow to meet it. Clip: the spine is cut away hollow. Leaf:
    both sides alike, swelling from the heel to the point. The blade begins square at
    the heel; no tang is drawn.

    Examples
    --------
    >>> knife = Outline(family="drop", length=150, height=30)
    >>> edge, spine = knife.edge(150.0), knife.spine(150.0)
    >>> float(edge.above), float(spine.above)
    (18.6, 18.6)
    """

    family: Family = Field(
        "drop", title="Outline", description="straight, drop, clip or leaf"
    )
    length: float = quantity(
        "Blade length", "from the heel to the tip", low=20, high=1000, unit="mm"
    )
    height: float = quantity(
        "Blade height", "where the blade is highest", low=5, high=150, unit="mm"
    )
    point: float = quantity(
        "Length of the point",
        "the part over which the outline runs to the tip, of the blade's length", low=10,
        high=70, unit="%", default=40,
    )  # fmt: skip

    def edge(self, along: np.ndarray | float) -> Line:
        """Give the cutting edge at distances `along` the blade from the heel, mm."""
        share, run = self._share(along)
        if self.family == "leaf":
            half = self._leaf(along)
            return Line(self.height / 2 - half.above, -half.slope)
        tip = _TIP[self.family] * self.height
        return Line(tip * share**2, 2 * tip * share / run)

    def spine(self, along: np.ndarray | float) -> Line:
        """Give the back of the blade at distances `along` it from the heel, mm."""
        share, run = self._share(along)
        if self.family == "leaf":
            half = self._leaf(along)
            return Line(self.height / 2 + half.above, half.slope)
        fall = (1 - _TIP[self.family]) * self.height
        if self.family == "clip":
            bow = share * (1 + _CLIP_BOW * (1 - share))
            steep = (1 + _CLIP_BOW * (1 - 2 * share)) * ((share > 0) & (share < 1))
        else:
            bow, steep = share**2, 2 * share
        return Line(self.height - fall * bow, -fall * steep / run)

    def _share(self, along: np.ndarray | float) -> tuple[np.ndarray, float]:
        """Say how much of the point lies behind, 0 … 1, and how long the point is."""
        run = self.point / 100 * self.length
        behind = np.asarray(along, float) - (self.length - run)
        return np.clip(behind / run, 0, 1), run

    def _leaf(self, along: np.ndarray | float) -> Line:
        """Give half the height of a leaf: two bows that meet level."""
        share, run = self._share(along)
        rest = self.length - run
        ahead = 1 - np.clip(np.asarray(along, float) / rest, 0, 1)
        half = 1 - share**2 - _WAIST * ahead**2
        slope = 2 * _WAIST * ahead / rest - 2 * share / run
        return Line(self.height / 2 * half, self.height / 2 * slope)
