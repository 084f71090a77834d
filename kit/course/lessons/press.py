"""Lesson 05: press and cut. The pattern is a contour map."""

import math
from functools import cached_property, partial
from typing import Any, ClassVar

from kit.basics.declare import choice, quantity
from kit.basics.errors import KitError
from kit.basics.told import one_way
from kit.basics.units import Units, format_beside, format_length, in_figures
from kit.course.lessons import press_blade as blade
from kit.course.lessons import press_drawing as drawing
from kit.course.lessons import press_feather as feather
from kit.course.lessons import press_ideas as ideas
from kit.course.lessons.base import Lesson
from kit.course.lessons.press_ideas import BALL, DRILL, GROOVE, WEDGE, survives
from kit.course.lessons.scene import FORGED, Number, Panel, Part, Scene, steel_gone
from kit.forge.billet import Billet
from kit.forge.stack import Stack
from kit.forge.steps import Dent, Drill, Grind, Groove
from kit.forge.steps.drill import drill_depth
from kit.forge.steps.hollows import Hollows
from kit.section.picture import LAYERS, Sheet
from kit.section.surface import fitting

LENGTH = 200.0  # mm, of a bar of our own
LEAST_LEFT = 0.2  # mm, after grinding
FILLS = 0.95  # hollow to picture: once it is level, its rings are a little smaller

TOOLS = ("drill point 118°", "ball", "round groove (ladder)", "wedge (feather)")
NAMES = ("drill points", "bowls of a ball", "grooves")
WAYS = ("cut, then forge flat", "press, then grind flat")
BESIDE = ("nothing", "the other way")
SHOWN = ("the bar, from above", "a blade, ground on both sides")
FACES = ("top only", "both, staggered", "both, opposite")
ORDER = ("the deepest layer", "the top layer")
_BAR, BLADE = range(2)
ENDS = ("the far face", "the far face before it was ground", "halfway through the bar")
STRAIGHT_DOWN = (
    "A simple rule: metal is squeezed straight down here, never aside. Narrow dents in "
    "thick bars stay shallower than this. Check against clay."
)


class PressLesson(Lesson):
    """A bar with hollows, made level both ways, and ground."""

    key: ClassVar = "05"
    title: ClassVar = "The pattern is a contour map"
    main: ClassVar = "ground"
    phone: ClassVar = (Part(235, 50, 765, 463),)
    look: ClassVar = LAYERS
    cues: ClassVar = ("ground", "line", "way", "beside", "shown")
    fine: ClassVar = STRAIGHT_DOWN

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
        "Grind off afterwards", "from the top; from each side of a blade", low=0, high=6,
        unit="mm", default=0, step=0.1, inch=1 / 32,
    )  # fmt: skip
    line: float = quantity(
        "Section line",
        "0 runs through the middle of the hollows, 100 half a spacing beside",
        low=0, high=100, unit="%", default=0, step=5,
    )  # fmt: skip
    beside: int = choice("Beside it", BESIDE)
    shown: int = choice("Look at", SHOWN)

    stations: ClassVar = {
        "1 One hollow": ("across", "layer", "line"),
        "2 Cut or pressed": ("way", "beside"),
        "3 Other tools": ("tool", "depth", "spacing", "faces"),
        "4 Bar and blade": ("before", "after", "ground", "shown"),
    }
    gives: ClassVar = ("ground", "depth", "across")
    shuts: ClassVar = ideas.SHUTS

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
        size = kind(**wanted).size_after(Billet(source=self.source).size)
        left = in_figures(size.thickness, way="ROUND_DOWN")
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
        return feather.split(self.source, self.drag, self.across)

    @property
    def deep(self) -> float:
        """Depth of a hollow, mm."""
        return drill_depth(self.across) if self.tool == DRILL else self.depth

    @property
    def drag(self) -> float:
        """How far the wedge drags the layers of the tall block, mm."""
        return self.depth * feather.TALL

    @property
    def rings(self) -> float:
        """Rings, by the first-order rule: depth over layer."""
        return self.deep / self.layer

    @property
    def left(self) -> float:
        """Rings that grinding leaves, by the first-order rule."""
        return self.rings * max(1 - self.ground / self.fades, 0)

    @property
    def fades(self) -> float:
        """How deep under the face the pattern of its hollows ends, mm.

        Evenly at the far face; between opposite hollows in the middle; and where dents
        of the far face were ground level, that face was farther off.
        """
        thick, step = self.billet.size.thickness, self.billet.steps[0]
        if step.faces == "opposite":
            return thick / 2
        if step.faces == "top" or step.cut:
            return thick
        return thick * (1 + step.deep / step.levels(self.billet.sizes[0]).left)

    def whole(self, depth: float = 0.0) -> int:
        """Count the rings of a hollow of the top on a face so deep, mm, as it is drawn."""
        return drawing.crossed(self.billet, self.layer, depth)

    @property
    def as_blade(self) -> bool:
        """Whether a blade is looked at; the wedge's feather is one already."""
        return self.shown == BLADE and self.tool != WEDGE

    @cached_property
    def kept(self) -> blade.Kept:
        """The rings that a blade keeps on each side."""
        name, thick = ideas.NAMES[self.tool == GROOVE], self.billet.size.thickness
        return blade.kept(self.whole, thick, self.ground, name, both=self.faces > 0)

    def check(self, units: Units) -> None:
        """Refuse hollows that do not fit the bar, and to grind it or its blade away."""
        # the tools' own sentences
        size = self.billet.size
        if self.as_blade:
            blade.refuse_thin(size, self.ground)

    def draw(self, units: Units, *, told: bool = True, **paper: Any) -> Scene:
        """Hollow the bar both ways, level it, grind it; or split it for a feather."""
        sheet = Sheet(drawing.COLUMNS, drawing.ROWS, **paper)
        if self.tool == WEDGE:
            drawn = feather.drawn_out(self.billet)
            made = self.billet, drawn, self.drag, self.layer * feather.TALL
            panels = feather.draw(sheet, *made[:2], made[-1], units)
            words = {
                "alt": lambda: feather.alt(self.billet, self.drag, panels[-1], units),
                "numbers": feather.numbers(*made, units),
                "says": feather.BARBS,
            }
        elif self.as_blade:
            ground = blade.ground(self.billet, self.ground)
            panels = blade.both_sides(sheet, ground, self.kept, units)
            words = {
                "alt": lambda: one_way(
                    partial(blade.alt, ground, panels, self.kept), units
                ),
                "numbers": (
                    self._rings(),
                    *blade.numbers(ground, self.kept, self.ground, units),
                ),
                "says": blade.told(self.kept),
            }
        else:
            panels = self._bars(sheet, units)
            at = drawing.LEFTS[self.way if self.beside else 0]
            framed = next(panel for panel in panels if panel.corner[0] == at)
            words = {
                "alt": lambda: one_way(partial(self._alt, framed), units),
                "numbers": self._numbers(units),
                "says": ideas.left_at(self, units) or survives(self),
            }
        return Scene(image=sheet.image, panels=panels, **words)

    def remark(self, changed: str, units: Units = Units.MM) -> str:
        """Say what the change did, as `press_ideas` has it."""
        return ideas.moved(self, changed, units)

    def _bars(self, sheet: Sheet, units: Units) -> tuple[Panel, ...]:
        """Draw the bar, or the two ways beside each other, the chosen one framed."""
        columns = drawing.WIDE if self.beside else drawing.ALONE
        pixel = self._pixel(columns)
        looked = drawing.Cut(pixel, self.layer, self.ground, self.line / 100, columns)
        panels = []
        ways = range(len(WAYS)) if self.beside else (self.way,)
        for way, left in zip(ways, drawing.LEFTS, strict=False):
            sheet.above(
                (left, drawing.FACE_TOP - 3), f"{WAYS[way].capitalize()}; from above"
            )
            if way == self.way:
                panels += drawing.one_way(sheet, self.billet, looked, left)
                if self.beside:
                    drawing.chosen(sheet, left)
                continue
            try:
                panels += drawing.one_way(sheet, self.bar(way), looked, left)
            except KitError as error:  # it can be impossible where the other is not
                drawing.impossible(sheet, str(error), left)
        words = drawing.FOOT_GROUND if self.ground else drawing.FOOT
        drawing.foot(sheet, words, pixel, units)
        return tuple(panels)

    def _pixel(self, columns: int) -> float:
        """Go as near, mm a pixel, as shows two rungs or a whole ring, and all the bar."""
        ring, rungs = self.across * FILLS / drawing.FACE, 2.5 * self.spacing / columns
        near = rungs if self.tool == GROOVE else ring
        near *= drawing.spread(self.billet)
        return fitting(near, self.after / (drawing.SECTION - 4))

    def _alt(self, face: Panel, units: Units) -> str:
        deep = format_length(self.deep, units)
        across = format_length(self.across, units)
        ground = f", {format_length(self.ground, units)} ground off" if self.ground else ""
        hollows = f"{NAMES[self.tool]} {across} wide and {deep} deep"
        order = [f"{way}, with {ORDER[n]} in the middle" for n, way in enumerate(WAYS)]
        bars = f"A bar seen from above and, below that, in section: {hollows}; "
        bars += f"{order[self.way]}{ground}. "
        if self.beside:
            bars = (
                f"Two bars side by side, each seen from above and, below that, in section: "
                f"{hollows}; left {order[0]}, right {order[1]}. "
                f"Framed: {WAYS[self.way]}{ground}. "
            )
        layer = format_beside(self.layer, self.before, units)
        return (
            f"{bars}Each layer was {layer} thick. {survives(self)} "
            f"The face shows {face.shows}. "
            f"The section runs {format_length(self.line / 200 * self.spacing, units)} "
            f"beside the middle of the hollows."
        )

    def _numbers(self, units: Units) -> tuple[Number, ...]:
        before, deepest = self.before, self.billet.steps[0].dents.deepest
        thinnest = Number(
            "Thinnest place, before it is level",
            format_length(before - deepest, units),
            [
                "= thickness before - hollows at their deepest, both faces together",
                f"= {before:g} mm - {deepest:.3f} mm",
            ],
        )
        left = self.billet.then(Grind(top=self.ground)) if self.ground else self.billet
        spacing = self._rungs() if self.tool == GROOVE else self._spacing(units)
        return self._rings(), spacing, self._left(), thinnest, steel_gone(left)

    def _rings(self) -> Number:
        solid = drawing.pattern_depth(self.billet, 0) / self.layer
        deep, why = f"depth: {self.deep:.3f} mm, as chosen", ideas.RISEN[self.way]
        if self.tool == DRILL:
            deep = (
                f"depth: {self.across / 2:g} mm / tan(59°) = {self.deep:.3f} mm, because a "
                "common drill's point is 118°"
            )
        return Number(
            "Lines in half a rung" if self.tool == GROOVE else "Rings",
            f"{self.whole()}",
            [
                deep,
                "depth / layer",
                f"= {self.deep:.3f} mm / {self.layer:g} mm = {self.rings:.3g}",
                f"on the solid drawn here: {solid:.2f}; {why}",
                f"whole ones, counted on the face = {self.whole()}",
            ],
            (FORGED, ideas.POINTED) if self.tool == DRILL else (FORGED,),
        )

    def _left(self) -> Number:
        solid = drawing.pattern_depth(self.billet, self.ground) / self.layer
        rings = f"{self.deep:.3f} mm / {self.layer:g} mm"
        return Number(
            "Left after grinding",
            f"{self.whole(self.ground)} of {self.whole()}",
            [
                f"depth / layer × (1 - ground off / where it ends: {ENDS[self.faces]})",
                f"= {rings} × (1 - {self.ground:g} mm / {self.fades:.4g} mm)",
                f"= {self.left:.3g}",
                f"on the solid: {solid:.2f}",
                f"whole ones, counted on the face = {self.whole(self.ground)}",
            ],
            (FORGED, ideas.EVENLY),
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
        return Number(
            f"Ring spacing, as {ideas.MADE[self.way]}"
            if self.tool == DRILL
            else "Ring spacing, mean",
            format_length(first, units) if first else "no rings",
            [
                "= radius × layer / depth (for a drill point = layer × tan(59°))",
                f"= {half:.4g} mm × {self.layer:g} mm / {self.deep:.3f} mm",
                f"= {first:.3g} mm",
                (
                    f"on the solid drawn here: {solid:.3g} mm. "
                    f"{ideas.LEVELLED[self.way]} forging thinner spreads everything "
                    f"× {drawing.spread(self.billet):.2f}"
                ),
            ],
            (FORGED, ideas.POINTED),
        )
