"""The blade of lesson 07: three bars in one, ground, and its core followed to the skin."""

from __future__ import annotations

from functools import cached_property
from typing import ClassVar

import numpy as np
from pydantic import Field, model_validator

from kit.basics.declare import quantity
from kit.basics.errors import KitError
from kit.basics.units import Units
from kit.course.lesson import Given
from kit.course.lessons.job import Job as Base
from kit.forge.billet import Billet
from kit.forge.stack import Layer, Stack
from kit.forge.steps import DrawOut, Groove
from kit.section.grind import KINDS, BladeGrind
from kit.section.outline import Outline

CORE, CLADDING, NICKEL = "1084", "wrought iron", "nickel 200"
LENGTH = 150.0  # mm, of the blade
SPARE = 10.0  # mm of bar beyond each end of it, and 1 mm beyond its back and edge
SAWN = 60.0  # mm from the heel: where the section is
PART_HEIGHT = 0.6  # of the blade's height, for all grinds but the full flat one
LEAST = 0.1  # mm of cladding after forging; ours: less would not outlive the grinding
WIDEST_DIE = 20.0  # mm
PLUNGE = 0.1  # mm: the bevel runs out at the heel


class Job(Base):
    """Three bars welded into one, and the blade that is ground from it."""

    left: float = quantity(
        "Left cladding", "before forging", low=0, high=20, unit="mm", default=4.2
    )
    core: float = quantity("Core", "before forging", low=1, high=20, unit="mm", default=3.6)
    right: float = quantity(
        "Right cladding", "before forging", low=0, high=20, unit="mm", default=4.2
    )
    nickel: float = quantity(
        "Nickel sheet between", "before forging; 0: none", low=0, high=0.5, unit="mm",
        default=0,
    )  # fmt: skip
    thickness: float = quantity(
        "Forge to", "the spine of the blade", low=2, high=10, unit="mm", default=4
    )
    off: float = quantity(
        "Core off centre",
        "after forging and grinding; more than 0 is towards the left side",
        low=-1,
        high=1,
        unit="mm",
        default=0,
    )
    edge: float = quantity(
        "Edge before sharpening", "its thickness", low=0.1, high=1.5, unit="mm", default=0.4
    )
    height: float = quantity(
        "Blade height", "from edge to spine", low=15, high=60, unit="mm", default=32
    )
    kind: int = Field(0, ge=0, le=3, title="Grind", description=", ".join(KINDS))
    wave: float = quantity(
        "Dies: depth", "grooves pressed into both claddings", low=0, high=0.5, unit="mm",
        default=0,
    )  # fmt: skip
    spacing: float = quantity(
        "Dies: spacing", "from groove to groove", low=6, high=40, unit="mm", default=15
    )

    gives: ClassVar = ("off", "edge", "thickness", "height")

    @model_validator(mode="after")
    def _possible(self) -> Job:
        stack = self.stack
        if self.thickness > stack * (1 + 1e-9):
            msg = (
                f"Forge to must be at most {stack:g} mm, the height of the stack. "
                f"Given: {self.thickness:g}."
            )
            raise KitError(msg)
        if self.forged_core <= self.edge:
            msg = (
                f"The forged core must be thicker than the edge, {self.edge:g} mm, or "
                f"cladding is the edge from the start. Given: a core that ends "
                f"{self.forged_core:.2f} mm thick."
            )
            raise KitError(msg)
        thin = min(self.sides)
        if self.clad and thin < LEAST * (1 - 1e-9):
            msg = (
                f"Each cladding must be left at least {LEAST:g} mm thick, or the core "
                f"comes out through the side. Given: {max(thin, 0):.2f} mm."
            )
            raise KitError(msg)
        return self

    def check(self, units: Units) -> None:
        """Refuse a bevel that can not be ground."""
        del units  # the grinder's own sentence
        self.grind  # noqa: B018  (it refuses)

    @property
    def stack(self) -> float:
        """Height of the stack, mm; a nickel sheet lies under each cladding there is."""
        sheets = (self.left > 0) + (self.right > 0)
        return self.left + self.core + self.right + sheets * self.nickel

    @property
    def clad(self) -> bool:
        """Whether there is cladding on both sides; if not, the core can not move."""
        return self.left > 0 and self.right > 0

    @property
    def dies(self) -> Groove | None:
        """The grooves, if there are any; pressed, then ground level."""
        if not self.wave:
            return None
        return Groove(
            across=min(self.spacing, WIDEST_DIE),
            depth=self.wave,
            spacing=self.spacing,
            way="pressed and ground",
            faces="staggered",
        )

    @property
    def forged(self) -> float:
        """Thickness of the bar after forging, mm; what dies cost is ground off later."""
        dies = self.dies
        if dies is None:
            return self.thickness
        return self.thickness + 2 * dies.deep - dies.dents.mean(self.height)

    @property
    def scale(self) -> float:
        """How thick a layer is after forging, for each mm before."""
        return self.forged / self.stack

    @property
    def forged_core(self) -> float:
        """Thickness of the core after forging, mm."""
        return self.core * self.scale

    @property
    def offset(self) -> float:
        """How far the core lies towards the left side, mm: uneven bars, uneven work."""
        if not self.clad:
            return 0.0
        return self.off + (self.right - self.left) / 2 * self.scale

    @property
    def sides(self) -> tuple[float, float]:
        """Thickness of the left and the right cladding after forging, mm."""
        moved = self.off if self.clad else 0.0
        return self.left * self.scale - moved, self.right * self.scale + moved

    @property
    def given(self) -> Given:
        """The values that the formulas know, mm."""
        return {
            "c": self.forged_core,
            "S": self.thickness,
            "e": self.edge,
            "H": self.height,
            "d": self.offset,
        }

    @cached_property
    def billet(self) -> Billet:
        """Left cladding at the bottom, forged, with dies if there are any."""
        scale, sides = self.scale, self.sides
        sheet = [(NICKEL, self.nickel)]
        bars = [
            *([(CLADDING, sides[0] / scale), *sheet] if self.left else []),
            *([(CORE, self.core)] if self.left or self.right else []),
            *([*sheet, (CLADDING, sides[1] / scale)] if self.right else []),
        ]
        bars = bars or [(CORE, self.core / 2)] * 2  # no cladding: core steel throughout
        layers = tuple(Layer(steel=name, thickness=size) for name, size in bars if size)
        stack = Stack(
            layers=layers,
            length=(LENGTH + 2 * SPARE) * scale,
            width=self.height + 2,
        )
        dies = () if self.dies is None else (self.dies,)
        return Billet(source=stack).then(DrawOut(thickness=self.forged), *dies)

    @cached_property
    def grind(self) -> BladeGrind:
        """The blade; flat up to the spine, or some other bevel up to part of it."""
        kind = KINDS[self.kind]
        bevel = None if kind == "flat" else PART_HEIGHT * self.height
        outline = Outline(family="drop", length=LENGTH, height=self.height)
        return BladeGrind(
            outline=outline,
            kind=kind,
            spine=self.billet.size.thickness * (1 - 1e-9),  # rounding must not refuse it
            edge=self.edge,
            bevel=bevel,
            plunge=PLUNGE,
        )

    @property
    def faces(self) -> tuple[float, float]:
        """Where the core's left and right face lie in the stack, mm from its middle."""
        stack = self.billet.source
        heights = (stack.edges - 0.5) * stack.thickness
        core = [number for number, name in enumerate(stack.steels) if name == CORE]
        return float(heights[core[0]]), float(heights[core[-1] + 1])

    @cached_property
    def centred(self) -> tuple[np.ndarray, np.ndarray]:
        """How far the faces of a centred core lie from the middle, left and right, mm.

        Followed through the forging and the dies, along the straight edge.
        """
        side = (self.left + self.right) / 2
        job = Job(**{**self.model_dump(), "left": side, "right": side, "off": 0.0})
        along = np.linspace(0.1, 0.6, 400) * job.billet.sizes[0].length
        y = np.full_like(along, -self.height / 2)
        low, high = (
            job.billet.do((along, y, np.full_like(along, face)))[2] for face in job.faces
        )
        return -low, high

    @property
    def permissible(self) -> float:
        """How far off centre the core may lie and still fill the whole edge, mm."""
        return float(np.min(self.centred)) - self.edge / 2

    @property
    def reach(self) -> float:
        """How far from the middle a face of the core may come at the most, mm."""
        return float(np.max(self.centred)) + self.permissible
