"""A bar sold for a forged one, its pattern only skin deep, to hold beside it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from pydantic import Field, model_validator

from kit.basics.declare import Declared, quantity
from kit.basics.errors import KitError
from kit.forge.billet import Billet
from kit.forge.steps import Size
from kit.section.surface import Look, Moved
from kit.section.trace import Face, Surface, by_bands, see, share_inside

SLACK = 1e-6  # mm, for roundings; ours


class Engraved(Declared):
    """A plain bar with a pattern engraved, etched or printed on its top face only.

    It looks like the top face of `pattern` down to `depth` under the top of `billet`;
    what lies deeper is the plain bar. The depth is illustrative.

    Raises
    ------
    KitError
        If the face of `pattern` is smaller than the bar's.
    """

    billet: Billet = Field(title="Bar", description="a billet")
    pattern: Billet = Field(title="Pattern", description="a billet")
    depth: float = quantity(
        "Depth", "of the engraving", low=0.001, high=2, unit="mm", default=0.05
    )

    @model_validator(mode="after")
    def _covers(self) -> Engraved:
        bar, face = self.billet.size, self.pattern.size
        if min(face.length - bar.length, face.width - bar.width) < -SLACK:
            msg = (
                f"The pattern must cover the bar's face, {bar.length:.4g} × "
                f"{bar.width:.4g} mm. Given: {face.length:.4g} × {face.width:.4g} mm."
            )
            raise KitError(msg)
        return self

    def see(self, surface: Surface, tones: dict[str, float]) -> Face:
        """See it as `kit.see` sees a forged billet."""
        plain = see(self.billet, surface, tones)
        printed = see(self.pattern, OnTop(surface, self.pattern.size), tones)
        floor = self.billet.size.thickness / 2 - self.depth
        skin = by_bands(surface, lambda points: share_inside(points[2] - floor + SLACK))
        tone = plain.tone + skin * (printed.tone - plain.tone)
        return plain._replace(tone=tone.astype(plain.tone.dtype))


@dataclass(frozen=True)
class OnTop(Moved):
    """A surface laid flat on the top of a bar: what a stamp would print on it."""

    surface: Surface
    size: Size

    def look(self, first: int, last: int, dtype: type) -> Look:
        """Give its points on the bar's top, for rows `first` up to but not `last`."""
        seen = self.surface.look(first, last, dtype)
        x, y, z = seen.points
        return seen._replace(points=(x, y, np.full_like(z, self.size.thickness / 2)))
