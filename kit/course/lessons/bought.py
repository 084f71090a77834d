"""Lesson 11, a bar you bought: the blade out of it, and what its face will be."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING, ClassVar, get_args

from pydantic import Field

from kit.basics.declare import quantity
from kit.basics.errors import KitError
from kit.basics.units import Units, format_length
from kit.course.lessons import bevels
from kit.course.lessons.job import Job as Base
from kit.metal.bath import Strength
from kit.metal.bite import Etch, between, bitten
from kit.metal.pairs import pair
from kit.metal.scale import scale_loss
from kit.section.grind import KINDS, BladeGrind
from kit.section.outline import Outline
from kit.shop.bought import STEELS, bar

if TYPE_CHECKING:
    from kit.forge.billet import Billet

STRENGTHS = get_args(Strength)
AS_SOLD = Etch(wear=30)  # etched in the usual way and handled since: illustrative
LEAST_EDGE = 0.1  # mm, after the fire: our choice, as are the bevel and the wheel below


class Job(Base):
    """The bar as it was bought, the blade wanted, the fire and the bath."""

    bought: int = Field(1, ge=0, le=3, title="Pattern", description="of the bar")
    layers: int = quantity("Layers", "told by the seller", low=20, high=320, default=60)
    thickness: float = quantity(
        "Bar, thick", "as you bought it", low=2.5, high=10, unit="mm", default=6
    )
    spine: float = quantity(
        "Grind the spine to", "before hardening", low=1.5, high=10, unit="mm", default=4
    )
    edge: float = quantity(
        "Edge before hardening", "its thickness", low=0.2, high=2, unit="mm", default=0.8
    )
    height: float = quantity(
        "Blade height", "from edge to spine", low=15, high=40, unit="mm", default=28
    )
    kind: int = Field(0, ge=0, le=3, title="Bevel", description=", ".join(KINDS))
    celsius: float = quantity(
        "Hardening heat", "of the whole blade", low=700, high=1000, unit="°C", default=810
    )
    hot: float = quantity(
        "Time at heat", "in air, bare", low=0, high=30, unit="min", default=5
    )
    minutes: float = quantity(
        "Etch time", "in the bath", low=0, high=30, unit="min", default=10
    )
    strength: int = Field(1, ge=0, le=2, title="Etchant", description="weak … strong")

    gives: ClassVar = ("spine", "edge")

    def check(self, units: Units) -> None:
        """Refuse what can not be ground.

        Raises
        ------
        KitError
            A spine thicker than the bar, an edge that the scale would eat.
        """
        if self.spine > self.thickness + 1e-6:
            msg = (
                f"The spine can be at most as thick as the bar, "
                f"{format_length(self.thickness, units)}. "
                f"Given: {format_length(self.spine, units)}."
            )
            raise KitError(msg)
        least = LEAST_EDGE + 2 * self.scale
        if self.edge < least:
            msg = (
                f"The fire would eat the edge: leave at least "
                f"{format_length(least, units)} before hardening. "
                f"Given: {format_length(self.edge, units)}."
            )
            raise KitError(msg)
        if self.edge > self.spine:
            msg = (
                f"The edge must be thinner than the spine, "
                f"{format_length(self.spine, units)}. "
                f"Given: {format_length(self.edge, units)}."
            )
            raise KitError(msg)

    @property
    def bar(self) -> Billet:
        """The bar as it was bought: with the blade's width to spare."""
        return bar(
            round(self.layers), self.bought, self.thickness, self.height + bevels.BESIDE
        )

    @cached_property
    def scale(self) -> float:
        """What the hardening heat takes off each face as scale, mm."""
        return scale_loss(self.celsius, self.hot) if self.hot else 0.0

    @property
    def off(self) -> float:
        """What is ground off each flat in all, before and after the fire, mm."""
        return (self.thickness - self.spine) / 2 + self.scale

    @property
    def grind(self) -> BladeGrind:
        """The finished blade: ground, hardened, its scale taken off."""
        spine = self.spine - 2 * self.scale
        edge = self.edge - 2 * self.scale
        return BladeGrind(
            outline=Outline(family="drop", length=bevels.LENGTH, height=self.height),
            kind=KINDS[self.kind],
            spine=spine,
            edge=edge,
            bevel=0.6 * self.height,
            wheel=200,
            ricasso=bevels.RICASSO,
            plunge=max((spine - edge) / 2, 0.1),
        )

    @property
    def layer(self) -> float:
        """Thickness of a layer in the bar, mm."""
        return self.thickness / round(self.layers)

    @property
    def etch(self) -> Etch:
        """The last etch."""
        return Etch(minutes=self.minutes, strength=STRENGTHS[self.strength])

    @property
    def relief(self) -> tuple[float, float]:
        """Step between the two steels, µm, and their contrast, after the last etch."""
        found = between(*STEELS, self.etch)
        return found.relief, found.contrast

    @property
    def heats(self) -> tuple[float, float] | None:
        """Between what heats both steels harden together, °C."""
        return pair(*STEELS).hardening.heats

    @property
    def hardening(self) -> str:
        """What the chosen heat does."""
        heats = self.heats
        if heats is None:
            return pair(*STEELS).hardening.sentence
        if self.celsius < heats[0]:
            return "too cold: it would stay soft"
        if self.celsius > heats[1]:
            return "too hot: grains grow, and it turns brittle"
        return "both steels harden; temper at once"


def tones(etch: Etch) -> dict[str, float]:
    """Give each steel's tone after an etch: illustrative."""
    return {name: found.tone for name, found in bitten(STEELS, etch).items()}
