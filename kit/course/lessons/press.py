"""Lesson 05: press and cut. The pattern is a contour map."""

from __future__ import annotations

import math
from functools import cached_property, partial
from typing import Any, ClassVar

from kit.basics.declare import choice, quantity
from kit.basics.errors import KitError
from kit.basics.told import one_way
from kit.basics.units import Units, format_beside, format_length
from kit.course.lessons import press_drawing as drawing
from kit.course.lessons import press_ideas as ideas
from kit.course.lessons import press_told
from kit.course.lessons.base import Lesson
from kit.course.lessons.press_told import figure
from kit.course.lessons.scene import Number, Panel, Scene, steel_gone
from kit.forge.billet import Billet
from kit.forge.stack import Layer, Stack
from kit.forge.steps import Dent, DrawOut, Drill, Grind, Groove, Split
from kit.forge.steps.drill import drill_depth
from kit.forge.steps.hollows import Hollows
from kit.section.picture import LAYERS, Sheet

LENGTH = 200.0  # mm, of a bar of our own
LEAST_LEFT = 0.2  # mm, after grinding
TALL = 10  # times the bar: the block that a feather is split in
BLOCK = 84.0  # mm, its width
FEATHER = 40.0  # mm, its width once it is drawn out
STRETCH = 2.5  # how much longer it is drawn along the split
LONGEST = 200.0  # mm

TOOLS = ("drill point 118°", "ball", "round groove (ladder)", "wedge (feather)")
NAMES = ("drill points", "bowls of a ball", "grooves")
WAYS = ("cut, then forge flat", "press, then grind flat")
FACES = ("top only", "both, staggered", "both, opposite")
DRILL, BALL, GROOVE, WEDGE = range(4)
STRAIGHT_DOWN = (
    "A simple rule: metal is squeezed straight down here, never aside. Narrow dents in "
    "thick bars stay shallower than this. Check against clay."
)
FOOT = "Numbers: the layer, counted from the top. Dashes: rim and middle of the hollow."
RISEN = (
    "the same, if no hollow of the other face lies below",
    "metal pushed out of the dents lifts what is between them before it is ground",
)
BARBS = (
    "The barbs of the feather are layers that the wedge dragged along. Their curve is "
    "illustrative: no measured one was found."
)


class PressLesson(Lesson):
    """A bar with hollows, made level both ways, and ground."""

    key: ClassVar = "05"
    number: ClassVar = "05"
    title: ClassVar = "The pattern is a contour map"
    main: ClassVar = "ground"
    look: ClassVar = LAYERS
    cues: ClassVar = ("way", "line", "ground")

    before: float = quantity(
        "Thickness before", "of the welded bar", low=4, high=20, unit="mm", default=8,
        step=0.5,
    )  # fmt: skip
    layer: float = quantity(
        "Layer thickness", "of every layer", low=0.05, high=1, unit="mm", default=0.3,
        step=0.05, inch=1 / 500,
    )  # fmt: skip
    tool: int = choice("Tool", TOOLS)
    across: float = quantity(
        "Tool across", "width of the hollow at the face", low=3, high=20, unit="mm",
        default=6, step=0.5,
    )  # fmt: skip
    depth: float = quantity(
        "Depth", "of ball, groove and wedge; a drill point's follows from its width",
        low=0, high=10, unit="mm", default=1.8, step=0.1, inch=1 / 32,
    )  # fmt: skip
    way: int = choice("How the hollow is made", WAYS)
    spacing: float = quantity(
        "Spacing", "from hollow to hollow along the bar", low=6, high=40, unit="mm",
        default=12,
    )  # fmt: skip
    faces: int = choice("Faces", FACES)
    after: float = quantity(
        "Thickness after", "level, forged to this", low=3, high=15, unit="mm", default=6,
        step=0.5,
    )  # fmt: skip
    ground: float = quantity(
        "Grind off afterwards", "from the top", low=0, high=4, unit="mm", default=0,
        step=0.1, inch=1 / 32,
    )  # fmt: skip
    line: float = quantity(
        "Section line",
        "0 runs through the middle of the hollows, 100 half a spacing beside",
        low=0, high=100, unit="%", default=0, step=5,
    )  # fmt: skip

    stations: ClassVar = {
        "1 Bar": ("before", "layer"),
        "2 Tool": ("tool", "across", "depth"),
        "3 Lay out": ("way", "spacing", "faces"),
        "4 Level and look": ("after", "ground", "line"),
    }
    gives: ClassVar = ("ground", "depth", "across")

    question: ClassVar = ideas.QUESTION
    # a plain face, then the drill goes in until its whole point is
    film: ClassVar = (
        {"tool": BALL, "depth": 0.0},
        *({"across": 3 + step / 2, "depth": 0.0} for step in range(6)),
        {},
    )
    checks: ClassVar = (
        ideas.RING_COUNT,
        ideas.RING_SPACING,
        ideas.RELIEF_LEFT,
        ideas.HALF_LEFT,
    )

    @cached_property
    def source(self) -> Stack:
        """The welded bar."""
        return drawing.layered(self.before, self.layer, LENGTH)

    def press(self, way: int) -> Hollows:
        """Make the step one way or the other."""
        wanted = {
            "across": self.across,
            **({} if self.tool == DRILL else {"depth": self.depth}),
            "spacing": self.spacing,
            "way": ("cut and forged", "pressed and ground")[way],
            "faces": ("top", "staggered", "opposite")[self.faces],
        }
        kind = (Drill, Dent, Groove)[self.tool]
        left = kind(**wanted).size_after(Billet(source=self.source).size).thickness
        return kind(**wanted, thickness=min(self.after, left))

    def bar(self, way: int) -> Billet:
        """Forge the bar one way or the other; refuse to grind it away."""
        billet = Billet(source=self.source).then(self.press(way))
        most = billet.size.thickness - LEAST_LEFT
        if self.ground > most:
            msg = (
                f"Grind off must be from 0 to {most:.2f} mm of this bar. "
                f"Given: {self.ground:g} mm."
            )
            raise KitError(msg)
        return billet

    @cached_property
    def billet(self) -> Billet:
        """The bar the way that was chosen, or the split block, before it is ground."""
        if self.tool != WEDGE:
            return self.bar(self.way)
        bars = [
            Layer(steel=bar.steel, thickness=bar.thickness * TALL)
            for bar in self.source.layers
        ]
        block = Stack(layers=bars, length=30, width=BLOCK)
        step = Split(drag=self.drag, reach=self.across)
        return Billet(source=block).then(step)

    @cached_property
    def feather(self) -> Billet:
        """The split block, drawn out along the split."""
        long = min(STRETCH * self.billet.size.thickness, LONGEST)
        return self.billet.then(DrawOut(thickness=long, width=FEATHER))

    @property
    def deep(self) -> float:
        """Depth of a hollow, mm."""
        return drill_depth(self.across) if self.tool == DRILL else self.depth

    @property
    def drag(self) -> float:
        """How far the wedge drags the layers of the tall block, mm."""
        return self.depth * TALL

    @property
    def rings(self) -> float:
        """Rings, by the first-order rule: depth over layer."""
        return self.deep / self.layer

    @property
    def left(self) -> float:
        """Rings that grinding leaves, by the first-order rule."""
        return self.rings * (1 - self.ground / self.billet.size.thickness)

    def check(self, units: Units) -> None:
        """Refuse hollows that do not fit the bar, and to grind it away."""
        del units  # the tools' own sentences
        self.billet.size  # noqa: B018  (it refuses)

    def draw(self, units: Units, *, told: bool = True, **paper: Any) -> Scene:
        """Hollow the bar both ways, level it, grind it; or split it for a feather."""
        del told
        sheet = Sheet(drawing.COLUMNS, drawing.ROWS, **paper)
        if self.tool == WEDGE:
            billets, layer = (self.billet, self.feather), self.layer * TALL
            panels = drawing.feather(sheet, *billets, layer, units)
            words = {
                "alt": self._feather_alt(panels[-1], units),
                "numbers": self._feather_numbers(units),
                "says": BARBS,
            }
        else:
            panels = self._both(sheet, units)
            at = drawing.LEFTS[self.way]
            framed = next(panel for panel in panels if panel.corner[0] == at)
            words = {
                "alt": one_way(partial(self._alt, framed), units),
                "numbers": self._numbers(units),
                "says": self._thinner(units) or STRAIGHT_DOWN,
            }
        return Scene(image=sheet.image, panels=panels, **words)

    def remark(self, changed: str, units: Units = Units.MM) -> str:
        """Say what the change did, as `press_told` has it."""
        return press_told.moved(self, changed, units)

    def _both(self, sheet: Sheet, units: Units) -> tuple[Panel, ...]:
        """Draw the two ways beside each other; the chosen one is framed."""
        shown = 2.5 * self.spacing if self.tool == GROOVE else 1.9 * self.across
        wide = shown * drawing.spread(self.billet) / drawing.WIDE
        pixel = max(wide, self.after / (drawing.SECTION - 4))
        looked = drawing.Cut(pixel, self.layer, self.ground, self.line / 100)
        panels = []
        for way, left in enumerate(drawing.LEFTS):
            sheet.above(
                (left, drawing.FACE_TOP - 3), f"{WAYS[way].capitalize()}; from above"
            )
            if way == self.way:
                panels += drawing.one_way(sheet, self.billet, looked, left)
                drawing.chosen(sheet, left)
                continue
            try:
                panels += drawing.one_way(sheet, self.bar(way), looked, left)
            except KitError as error:  # it can be impossible where the other is not
                drawing.impossible(sheet, str(error), left)
        drawing.foot(sheet, FOOT, pixel, units)
        return tuple(panels)

    def _alt(self, face: Panel, units: Units) -> str:
        deep = format_length(self.deep, units)
        across = format_length(self.across, units)
        ground = f", {format_length(self.ground, units)} ground off" if self.ground else ""
        lines = "rungs with lines" if self.tool == GROOVE else "rings"
        left = f"{figure(self.left)} {lines} are left of each hollow"
        if self.deep == 0:
            left = "there is no hollow"
        order = ("the deepest layer", "the top layer")
        return (
            f"Two bars side by side, each seen from above and, below that, in section: "
            f"{NAMES[self.tool]} {across} wide and {deep} deep in layers of "
            f"{format_beside(self.layer, self.before, units)}; left {WAYS[0]}, with "
            f"{order[0]} in the middle, right {WAYS[1]}, with {order[1]} in the middle. "
            f"Framed: {WAYS[self.way]}{ground}; {left}, and the face shows {face.shows}. "
            f"The section runs {format_length(self.line / 200 * self.spacing, units)} "
            f"beside the middle of the hollows."
        )

    def _numbers(self, units: Units) -> tuple[Number, ...]:
        before, deepest = self.before, self.billet.steps[0].dents.deepest
        thinnest = Number(
            "Thinnest place, with its hollows",
            format_length(before - deepest, units),
            [
                "= thickness before - hollows at their deepest, both faces together",
                f"= {before:g} mm - {deepest:.2f} mm",
            ],
        )
        left = self.billet.then(Grind(top=self.ground)) if self.ground else self.billet
        spacing = self._rungs() if self.tool == GROOVE else self._spacing(units)
        return self._rings(), spacing, self._left(), thinnest, steel_gone(left)

    def _rings(self) -> Number:
        solid = drawing.pattern_depth(self.billet, 0) / self.layer
        deep, why = f"depth: {self.deep:.2f} mm, as chosen", RISEN[self.way]
        if self.tool == DRILL:
            deep = (
                f"depth: {self.across / 2:g} mm / tan(59°) = {self.deep:.2f} mm, because a "
                "common drill's point is 118°"
            )
        return Number(
            "Lines in half a rung" if self.tool == GROOVE else "Rings",
            figure(self.rings),
            [
                deep,
                "rings = depth / layer",
                f"= {self.deep:.2f} mm / {self.layer:g} mm = {self.rings:.2f}",
                f"on the solid drawn here: {solid:.2f}; {why}",
            ],
        )

    def _left(self) -> Number:
        solid = drawing.pattern_depth(self.billet, self.ground) / self.layer
        thick = self.billet.size.thickness
        return Number(
            "Left after grinding",
            figure(self.left),
            [
                "= rings × (1 - ground off / bar)",
                f"= {self.rings:.2f} × (1 - {self.ground:g} mm / {thick:.3g} mm)",
                f"= {self.left:.2f}",
                f"on the solid: {solid:.2f}",
            ],
        )

    def _rungs(self) -> Number:
        """Count the whole rungs on one side of the bar."""
        first = (self.spacing + self.across) / 2
        rungs = math.floor((LENGTH - first) / self.spacing) + 1
        return Number(
            "Whole rungs a side, on 200 mm",
            f"{rungs}",
            [
                f"200 mm / {self.spacing:g} mm = {200 / self.spacing:.1f}",
                "the first half a spacing from the end; cut ones do not count",
            ],
        )

    def _spacing(self, units: Units) -> Number:
        half, rings = self.across / 2, self.rings
        first = half / rings if rings else 0.0
        solid = drawing.rim(self.billet) / rings if rings else 0.0
        solid = (
            f"on the solid drawn here: {solid:.2f} mm. Levelling moves metal into the "
            f"hollows, and forging thinner spreads everything × "
            f"{drawing.spread(self.billet):.2f}"
        )
        return Number(
            "Ring spacing, as cut" if self.tool == DRILL else "Ring spacing, mean",
            format_length(first, units) if first else "no rings",
            [
                "= radius / rings (for a drill point = layer × tan(59°))",
                f"= {half:g} mm / {rings:.2f} = {first:.2f} mm",
                solid,
            ],
        )

    def _thinner(self, units: Units) -> str:
        thick = self.billet.size.thickness
        if thick > self.after - 1e-6:
            return ""
        return (
            f"Once it is level this bar is only {format_length(thick, units)} thick, so it "
            "is left at that."
        )

    def _feather_alt(self, face: Panel, units: Units) -> str:
        drag = format_length(self.drag, units)
        return (
            f"Left, the end of a tall block of {self.billet.layers} flat layers. In the "
            f"middle, the same after a wedge was driven down it: from both sides the "
            f"layers sweep in and down to the split, by {drag}. Right, a piece of it drawn "
            f"out: on the blade's face they run into a quill in the middle like the "
            f"barbs of a feather, ever steeper. That face shows {face.shows}."
        )

    def _feather_numbers(self, units: Units) -> tuple[Number, ...]:
        drag, layer = self.drag, self.layer * TALL
        tall, left = self.billet.source.thickness, self.billet.size.thickness
        long = self.feather.size.thickness
        return (
            Number(
                "Drag of the wedge",
                format_length(drag, units),
                [f"{TALL} × the depth set"],
            ),
            Number(
                "Layers that one barb crosses",
                figure(drag / layer),
                ["= drag / layer", f"= {drag:g} mm / {layer:g} mm"],
            ),
            Number(
                "Height left after grinding true",
                format_length(left, units),
                [
                    "= block - drag: notch above and ridge below come off",
                    f"= {tall:g} mm - {drag:g} mm",
                ],
            ),
            Number(
                "Length of the feather, drawn out",
                format_length(long, units),
                [f"= height × {long / left:.3g}", f"= {left:g} mm × {long / left:.3g}"],
            ),
            steel_gone(self.billet),
        )
