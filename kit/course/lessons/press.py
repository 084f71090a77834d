"""Lesson 05: press and cut. The pattern is a contour map."""

from __future__ import annotations

import math
from functools import cached_property
from typing import ClassVar

import numpy as np

from kit.basics.declare import choice, quantity
from kit.basics.errors import KitError
from kit.basics.units import Units
from kit.course.lessons.job import Job as Base
from kit.forge.billet import Billet
from kit.forge.stack import Layer, Stack
from kit.forge.steps import DrawOut, Grind, Press, Size, Split

LENGTH, WIDTH = 200.0, 40.0
LEAST_LEFT = 0.2  # mm, after grinding
TALL = 10  # times the bar: the block that a feather is split in
BLOCK = 84.0  # mm, its width
FEATHER = 40.0  # mm, its width once it is drawn out
STRETCH = 2.5  # how much longer it is drawn along the split
LONGEST = 200.0  # mm

TOOLS = ("drill point 118°", "ball", "round groove (ladder)", "wedge (feather)")
WAYS = ("cut, then forge flat", "press, then grind flat")
FACES = ("top only", "both, staggered", "both, opposite")
DRILL, BALL, GROOVE, WEDGE = range(4)


class Job(Base):
    """What is to be done to the bar."""

    before: float = quantity(
        "Bar before", "thickness of the welded bar", low=4, high=20, unit="mm", default=8
    )
    layer: float = quantity(
        "Layer thickness", "of every layer", low=0.05, high=1, unit="mm", default=0.3
    )
    tool: int = choice("Tool", TOOLS)
    across: float = quantity(
        "Tool across",
        "width of the hollow at the face",
        low=3,
        high=20,
        unit="mm",
        default=6,
    )
    depth: float = quantity(
        "Depth",
        "of ball, groove and wedge; a drill point's follows from its width",
        low=0,
        high=10,
        unit="mm",
        default=1.8,
    )
    way: int = choice("Way", WAYS)
    spacing: float = quantity(
        "Spacing",
        "from hollow to hollow along the bar",
        low=6,
        high=40,
        unit="mm",
        default=12,
    )
    faces: int = choice("Faces", FACES)
    after: float = quantity(
        "Bar afterwards", "level, forged to this", low=3, high=15, unit="mm", default=6
    )
    ground: float = quantity(
        "Grind off afterwards", "from the top", low=0, high=4, unit="mm", default=0
    )
    line: float = quantity(
        "Section line",
        "0 runs through the middle of the hollows, 100 half a spacing beside",
        low=0,
        high=100,
        unit="%",
        default=0,
    )

    gives: ClassVar = ("ground", "depth", "across")

    def check(self, units: Units) -> None:
        """Refuse hollows that do not fit the bar, and to grind it away."""
        del units  # the tools' own sentences
        if self.tool == WEDGE:
            self.split.size  # noqa: B018  (it refuses)
            return
        self.bar(self.way)

    @cached_property
    def source(self) -> Stack:
        """Thin bars of 1084 and 15N20 in turn, the face ground through half of one.

        On a joint there would be no telling which of two layers is seen.
        """
        layer, thick = self.layer, self.before
        whole = math.floor((thick - layer) / layer + 1e-9)
        heights = [layer / 2, *[layer] * whole]
        rest = thick - sum(heights)
        if rest > 1e-6:
            heights.append(max(rest, 0.01))
        names = ("1084", "15N20")
        bars = [
            Layer(steel=names[number % 2], thickness=height)
            for number, height in enumerate(heights)
        ]
        return Stack(layers=bars[::-1], length=LENGTH, width=WIDTH)

    def press(self, way: int) -> Press:
        """Make the step one way or the other."""
        wanted = {
            "tool": ("drill point", "ball", "groove")[self.tool],
            "across": self.across,
            "depth": None if self.tool == DRILL else self.depth,
            "spacing": self.spacing,
            "way": ("cut", "press")[way],
            "faces": ("top", "staggered", "opposite")[self.faces],
        }
        level = Press(**wanted)
        left = level.size_after(self.size).thickness
        return Press(**wanted, thickness=min(self.after, left))

    @property
    def size(self) -> Size:
        """The bar before."""
        return Size(LENGTH, WIDTH, self.source.thickness)

    def bar(self, way: int) -> Billet:
        """Forge the bar; refuse to grind it away."""
        billet = Billet(source=self.source).then(self.press(way))
        most = billet.size.thickness - LEAST_LEFT
        if self.ground > most:
            msg = (
                f"Grind off must be from 0 to {most:.2f} mm of this bar. "
                f"Given: {self.ground:g}."
            )
            raise KitError(msg)
        return billet

    @property
    def chosen(self) -> Press:
        """The step, the way that was chosen."""
        return self.press(self.way)

    @property
    def rings(self) -> float:
        """Rings, by the first-order rule: depth over layer."""
        return self.chosen.deep / self.layer

    @property
    def left(self) -> float:
        """Rings that grinding leaves, by the first-order rule."""
        return self.rings * (1 - self.ground / self.thickness)

    @property
    def thickness(self) -> float:
        """Thickness of the level bar before it is ground, mm."""
        return self.chosen.size_after(self.size).thickness

    @property
    def spread(self) -> float:
        """How much wider everything is after forging to thickness."""
        return self.chosen.size_after(self.size).width / WIDTH

    def relief(self, way: int, ground: float) -> float:
        """Measure the relief on the solid: hollow's middle against its rim, mm."""
        step = self.press(way)
        after = step.size_after(self.size)
        x = np.array([0.0, self.rim(way)]) + 0.5 * self.spacing * after.width / WIDTH
        z = np.full(2, after.thickness / 2 - ground)
        return float(np.ptp(step.undo((x, np.zeros(2), z), self.size)[2]))

    def rim(self, way: int) -> float:
        """Measure the hollow on the solid: from its middle to its rim on the face, mm."""
        step, half = self.press(way), self.across / 2
        wider = step.size_after(self.size).width / WIDTH
        if step.way == "press":
            return half * wider
        x = np.array([0.0, half]) + 0.5 * self.spacing
        z = np.array([self.size.thickness / 2 - step.deep, self.size.thickness / 2])
        moved, *_ = step.do((x, np.zeros(2), z), self.size)
        return float(np.ptp(moved))

    @property
    def rungs(self) -> int:
        """Whole rungs on one side of the bar of 200 mm."""
        return math.floor((LENGTH - (self.spacing + self.across) / 2) / self.spacing) + 1

    @property
    def split(self) -> Billet:
        """The tall block that a feather is split in; its layers ten times the bar's."""
        bars = [
            Layer(steel=bar.steel, thickness=bar.thickness * TALL)
            for bar in self.source.layers
        ]
        block = Stack(layers=bars, length=30, width=BLOCK)
        step = Split(drag=self.depth * TALL, reach=self.across)
        return Billet(source=block).then(step)

    @property
    def feather(self) -> Billet:
        """The split block, drawn out along the split."""
        split = self.split
        long = min(STRETCH * split.size.thickness, LONGEST)
        return split.then(DrawOut(thickness=long, width=FEATHER))

    @property
    def ground_bar(self) -> Billet:
        """The bar the chosen way, ground."""
        left = self.bar(self.way)
        return left.then(Grind(top=self.ground)) if self.ground else left
