"""Lesson 06: bevels. The blade is one long shallow cut."""

from __future__ import annotations

import math
from typing import ClassVar

from kit.basics.declare import choice, quantity
from kit.basics.units import Units
from kit.course.lesson import Given
from kit.course.lessons.job import Job as Base
from kit.forge.billet import Billet
from kit.section.grind import KINDS, BladeGrind, Crossed
from kit.section.outline import Outline
from kit.shop.bought import BOUGHT, bar

LENGTH = 150.0  # of the blade, mm
BESIDE = 8.0  # mm: so much wider is the bar than the blade is high
RICASSO = 16.0

SHOWN = ("the blade", "the bar before grinding")
BLADE, BEFORE = range(2)


class Job(Base):
    """A bar and the blade that is ground from it."""

    layers: int = quantity(
        "Layers through the thickness", "dark and bright in turn, as many as show", low=10,
        high=1000, default=80,
    )  # fmt: skip
    bought: int = choice("Bar", BOUGHT)
    shown: int = choice("Show", SHOWN)
    forged: float = quantity(
        "Bevel forged in", "the rest of it is ground", low=0, high=100, unit="%", default=0
    )
    cleaned: float = quantity(
        "Clean-up after forging",
        "of each side, counted in the bar's thickness before it was forged",
        low=0, high=1, unit="mm", default=0.4,
    )  # fmt: skip
    spine: float = quantity(
        "Spine", "thickness of bar and blade", low=2, high=8, unit="mm", default=4
    )
    edge: float = quantity(
        "Edge before sharpening",
        "as thick as the spine: no bevel",
        low=0.1,
        high=4,
        unit="mm",
        default=0.4,
    )
    height: float = quantity(
        "Blade height", "from edge to spine", low=15, high=60, unit="mm", default=30
    )
    kind: int = choice("Grind", KINDS)
    bevel: float = quantity(
        "Bevel height",
        "of part-height, hollow and convex grinds; flat goes up to the spine",
        low=5,
        high=60,
        unit="mm",
        default=18,
    )
    wheel: float = quantity(
        "Wheel radius", "of a hollow grind", low=50, high=300, unit="mm", default=200
    )
    taper: float = quantity(
        "Taper to the tip",
        "how much of the spine's thickness is gone there",
        low=0,
        high=60,
        unit="%",
        default=0,
    )

    gives: ClassVar = ("bevel", "edge")

    def check(self, units: Units) -> None:
        """Refuse a bevel that can not be ground."""
        del units  # the grinder's own sentence
        self.grind  # noqa: B018  (it refuses)

    @property
    def grind(self) -> BladeGrind:
        """The blade: its plunge leans 45° where it is deepest."""
        return BladeGrind(
            outline=Outline(family="drop", length=LENGTH, height=self.height),
            kind=KINDS[self.kind],
            spine=self.spine,
            edge=self.edge,
            bevel=self.bevel,
            wheel=self.wheel,
            taper=self.taper,
            ricasso=RICASSO,
            plunge=max(self.depth, 0.1),
        )

    @property
    def layer(self) -> float:
        """Thickness of a layer in the bar, mm."""
        return self.spine / self.layers

    @property
    def depth(self) -> float:
        """Steel that a side loses at the edge, forged or ground, mm."""
        return max(self.spine - self.edge, 0.0) / 2

    @property
    def share(self) -> float:
        """How much of that depth, counted in layers, is ground and not forged.

        What was forged in bends the layers along. The clean-up goes through some again:
        counted, as it must be for layers, in the thickness they had in the bar.
        """
        if self.depth == 0:
            return 1.0
        forged = self.forged / 100
        return 1 - forged + forged * min(1.0, self.cleaned / self.depth)

    @property
    def crossed(self) -> Crossed:
        """Lines, spacing and spread on one side, of flat layers, at the heel."""
        plain = self.grind.crossed(self.layer)
        lines = plain.lines * self.share
        spacing = self.grind.bevel_length / lines if lines else math.inf
        return Crossed(lines, spacing, spacing / self.layer)

    @property
    def left(self) -> float:
        """Relief of a bought bar's hollows that is left at the edge, 0 … 1.

        Columns give way alike from face to face, so it falls evenly (lesson 05).
        """
        return 1 - self.depth * self.share / self.spine

    @property
    def given(self) -> Given:
        """The values that the formulas know, mm."""
        return {
            "S": self.spine,
            "E": self.edge,
            "B": self.grind.height,
            "t": self.layer,
            "N": self.layers,
        }

    @property
    def bar(self) -> Billet:
        """The bar, as thick as the blade's spine."""
        return bar(self.layers, self.bought, self.spine, self.height + BESIDE)
