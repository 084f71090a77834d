"""Lesson 06: bevels. The blade is one long shallow cut."""

import math
from functools import cached_property, lru_cache, partial
from typing import Any, ClassVar

from PIL import Image

from kit.basics.declare import choice, quantity
from kit.basics.told import counted, one_way
from kit.basics.units import Units, format_length, in_figures
from kit.course.lesson import Given
from kit.course.lessons import bevels_drawing as drawing
from kit.course.lessons import bevels_ideas as ideas
from kit.course.lessons.base import Lesson
from kit.course.lessons.bevels_drawing import RICASSO, Ground
from kit.course.lessons.press_ideas import EVENLY
from kit.course.lessons.scene import FORGED, Number, Panel, Part, Scene
from kit.forge.billet import Billet
from kit.metal.eye import EYE_300, ONE_MINUTE
from kit.section.blade import Blade
from kit.section.grind import KINDS, BladeGrind, Crossed
from kit.section.half import apart
from kit.section.outline import Outline
from kit.section.picture import QUIET, Sheet
from kit.shop.bought import BOUGHT, FLAT, LADDER, RAINDROP, bar

LENGTH = 150.0  # of the blade, mm
BESIDE = 8.0  # mm: so much wider is the bar than the blade is high
SHOWN = ("the blade", "the bar before grinding")
BLADE, BEFORE = range(2)
TOO_FINE = "too fine at 300 mm"
OPENS_LATER = "The blade, sawn across and in four loupes, opens after your prediction."
TILE = (220, 165)
MARGIN = 1.5  # mm, above and below the blade


def tile(lines: float) -> tuple[Image.Image, str]:
    """Draw the blade that somebody who expects this many lines expects.

    The kit's own blade, in layers so thick that its bevel crosses that many; for no
    lines, the face of the bar.
    """
    made = BevelsLesson() if lines else BevelsLesson(edge=4.0)
    layers = round(lines * made.spine / made.depth) if lines else made.layers
    billet = bar(layers, made.bought, made.spine, made.height + BESIDE)
    pixel = (made.height + 2 * MARGIN) / TILE[1]
    heel = (billet.size.length - LENGTH) / 2
    view = Blade(
        grind=made.grind, size=billet.size, columns=TILE[0], rows=TILE[1], pixel=pixel,
        centre=(heel + RICASSO / 2 + 0.4 * TILE[0] * pixel, 0.0),
    )  # fmt: skip
    sheet = Sheet(*TILE)
    sheet.steel(drawing.seen_blade(billet, view, made.share).face, (0, 0))
    shown = _shown(lines)
    return sheet.image, f"Part of a blade with its ricasso; on its side {shown}."


def _shown(lines: float) -> str:
    if not lines:
        return "plain, like the bar's face"
    apart = BevelsLesson().grind.bevel_length / lines
    count = "lines" if apart < 0.1 else counted(round(lines), "line")
    return f"{count}, {apart:.2f} mm apart"


class BevelsLesson(Lesson):
    """A bar, the blade ground from it, and four loupes."""

    key: ClassVar = "06"
    title: ClassVar = "The blade is one long shallow cut"
    main: ClassVar = "edge"
    phone: ClassVar = (Part(360, 45, 1000, 270), Part(625, 295, 1000, 475))
    cues: ClassVar = ("edge", "bought", "shown")

    edge: float = quantity(
        "Edge before sharpening", "as thick as the spine: no bevel", low=0.1, high=4,
        unit="mm", default=0.4, step=0.1, inch=1 / 64,
    )  # fmt: skip
    spine: float = quantity(
        "Spine", "thickness of bar and blade", low=2, high=8, unit="mm", default=4, step=0.1
    )
    height: float = quantity(
        "Blade height", "from edge to spine", low=15, high=60, unit="mm", default=30,
        inch=1 / 8,
    )  # fmt: skip
    kind: int = choice("Grind", KINDS)
    bevel: float = quantity(
        "Bevel height",
        "of part-height, hollow and convex grinds; flat goes up to the spine",
        low=5, high=60, unit="mm", default=18, inch=1 / 8,
    )  # fmt: skip
    wheel: float = quantity(
        "Wheel radius", "of a hollow grind", low=50, high=300, unit="mm", default=200,
        step=10, inch=1.0,
    )  # fmt: skip
    taper: float = quantity(
        "Taper to the tip", "how much of the spine's thickness is gone there", low=0,
        high=60, unit="%", default=0, step=5,
    )  # fmt: skip
    layers: int = quantity(
        "Layers through the thickness", "dark and bright in turn, as many as show", low=10,
        high=1000, default=80, step=10,
    )  # fmt: skip
    bought: int = choice("Bar", BOUGHT)
    shown: int = choice("View", SHOWN)
    forged: float = quantity(
        "Bevel forged in", "the rest of it is ground", low=0, high=100, unit="%", default=0,
        step=10,
    )  # fmt: skip
    cleaned: float = quantity(
        "Clean-up after forging",
        "of each side, counted in the bar's thickness before it was forged",
        low=0, high=1, unit="mm", default=0.4, step=0.1, inch=1 / 100,
    )  # fmt: skip

    stations: ClassVar = {
        "1 Bar": ("layers", "bought", "shown"),
        "2 Forge": ("forged", "cleaned"),
        "3 Blade": ("spine", "edge", "height"),
        "4 Grind": ("kind", "bevel", "wheel", "taper"),
    }
    opens: ClassVar = 2  # the bar is there: the next thing is the blade
    gives: ClassVar = ("bevel", "edge")
    shuts: ClassVar = ideas.SHUTS

    question: ClassVar = ideas.TOLD.question(
        given={"S": 4.0, "E": 0.4, "B": 30.0, "t": 0.05},
        tiles=(ideas.LIKE_FACE, ideas.LIKE_SPINE, ideas.LINES, ideas.BOTH_SIDES),
        right=ideas.LINES,
        show=_shown,
        draw=tile,
    )
    # the bar, the outline cut from it, and the wheel going down
    film: ClassVar = (
        {"shown": BEFORE, "edge": 4.0},
        *({"edge": (40 - 4 * step) / 10} for step in range(10)),
    )
    checks: ClassVar = (ideas.LINE_COUNT, ideas.LINE_SPACING)

    @property
    def billet(self) -> Billet:
        """The bar, as thick as the blade's spine."""
        return bar(self.layers, self.bought, self.spine, in_figures(self.height + BESIDE))

    @cached_property
    def grind(self) -> BladeGrind:
        """The blade: its plunge leans 45° where it is deepest."""
        return BladeGrind(
            outline=Outline(family="drop", length=LENGTH, height=self.height),
            kind=self.ground_as,
            spine=self.spine,
            edge=self.edge,
            bevel=self.bevel,
            wheel=self.wheel,
            taper=self.taper,
            ricasso=RICASSO,
            plunge=max(self.depth, 0.1),
        )

    @property
    def ground_as(self) -> str:
        """How it is ground; without a bevel there is nothing to tell grinds apart by."""
        return KINDS[self.kind] if self.depth else "flat"

    @property
    def layer(self) -> float:
        """Thickness of a layer in the bar, mm."""
        return self.spine / self.layers

    @property
    def depth(self) -> float:
        """Steel that a side loses at the edge, forged or ground, mm."""
        return in_figures(max(self.spine - self.edge, 0.0) / 2)

    @property
    def share(self) -> float:
        """How much of that depth, counted in layers, is ground and not forged.

        What was forged in bends the layers along. The clean-up goes through some again:
        counted, as it must be for layers, in the thickness they had in the bar.
        """
        if self.depth == 0:
            return 1.0
        forged = self.forged / 100
        return in_figures(1 - forged + forged * min(1.0, self.cleaned / self.depth))

    @property
    def ground(self) -> Ground:
        """Bar, blade and share, to be drawn."""
        return Ground(self.billet, self.grind, self.share)

    @cached_property
    def crossed(self) -> Crossed:
        """Lines, spacing and spread on one side, of flat layers, at the heel."""
        plain = self.grind.crossed(self.layer)
        lines = plain.lines * self.share
        spacing = self.grind.bevel_length / lines if lines else math.inf
        return Crossed(lines, spacing, spacing / self.layer)

    @property
    def left(self) -> float:
        """Share of the pattern depth of a bought bar's hollows left at the edge, 0 … 1.

        Columns give way alike from face to face, so it falls evenly (lesson 05).
        """
        return 1 - self.depth * self.share / self.spine

    @property
    def given(self) -> Given:
        """The values that the formulas know, mm."""
        height = self.grind.height
        return {"S": self.spine, "E": self.edge, "B": height, "t": self.layer}

    @property
    def unground(self) -> "BevelsLesson":
        """Without all that ricasso and spine do not show, so that they are drawn once."""
        if self.taper and self.forged:
            return self  # some of the taper is forged in: as much as of the bevel
        kept = {"layers", "bought", "spine", "height", "taper"}
        return BevelsLesson(**self.model_dump(include=kept))

    def check(self, units: Units) -> None:
        """Refuse a bevel that cannot be ground."""
        # the grinder's own sentence
        self.grind  # noqa: B018  (it refuses)

    def draw(self, units: Units, *, told: bool = True, **paper: Any) -> Scene:
        """Grind the blade; show its side and, when told, sawn across and in loupes."""
        sheet = Sheet(drawing.COLUMNS, drawing.ROWS, **paper)
        ground = self.ground
        if self.shown == BEFORE:
            panels = (drawing.before(sheet, ground, units),)
        else:
            panels = (drawing.side(sheet, ground, units, spots=told),)
        if told:
            closer = (self.unground, self, self, self.unground)
            step = apart(*drawing.LOUPE)
            seen = [loupe(of, number, step) for number, of in enumerate(closer)]
            panels += drawing.sections(sheet, ground, units)
            panels += drawing.loupes(sheet, ground, seen, units)
        else:
            sheet.text(OPENS_LATER, (500, 400), size=18, anchor="mm", ink=QUIET)
        return Scene(
            image=sheet.image,
            alt=lambda: one_way(partial(self._alt, panels), units),
            numbers=self._numbers(units),
            panels=panels,
        )

    def remark(self, changed: str, units: Units = Units.MM) -> str:
        """Say what the change did, as `bevels_ideas` has it."""
        return ideas.moved(self, changed, units)

    def _alt(self, panels: tuple[Panel, ...], units: Units) -> str:
        shows, thick = panels[0].shows, format_length(self.spine, units)
        name = BOUGHT[self.bought]
        bar = f"a {name} bar, {thick} thick"
        if self.bought == FLAT:
            bar = f"a bar of {name}, {self.layers} through {thick}"
        if self.shown == BEFORE:
            return f"The face of {bar}: it shows {shows}. Dashed on it, a blade's outline."
        tapered = f", tapered {self.taper:g} percent to the tip" if self.taper else ""
        forged = f", its bevel {self.forged:g} percent forged in" if self.forged else ""
        words = (
            f"The side of a blade from {bar}: {format_length(self.height, units)} high, "
            f"{self.ground_as} grind, {thick} at the spine, "
            f"{format_length(self.edge, units)} at the edge{tapered}{forged}. "
            f"It shows {shows}. {self._bevel(units)}"
        )
        if len(panels) == 1:
            return words
        ricasso, _, bevel, spine = (panel.shows for panel in panels[-4:])
        return (
            f"{words} Below: the blade sawn across, and four loupes on ricasso, plunge, "
            f"bevel and spine. The ricasso shows {ricasso}; the bevel {bevel}; the spine "
            f"{spine}."
        )

    def _bevel(self, units: Units) -> str:
        lines, spacing, _ = self.crossed
        if not lines:
            return "There is no bevel: this is the face of the bar."
        if self.bought == FLAT:
            count, apart = _figure(lines), fine(spacing, units)
            return f"The bevel lays bare {count} lines along the edge, {apart} apart."
        return (
            "The bevel cuts deeper into the bar, and its shallow cut draws the pattern out "
            "across the blade."
        )

    def _numbers(self, units: Units) -> tuple[Number, ...]:
        lines, spacing, spread = self.crossed
        flat = "" if self.bought == FLAT else ", were the layers flat"
        mean = ", mean" if self.ground_as in ("hollow", "convex") else ""
        some = not math.isinf(spacing)
        lean = math.degrees(math.atan2(self.depth, self.grind.height))
        steps = "spread = spacing / layer", f"on a flat bevel 1 / sin of its {lean:.2f}°"
        found = [
            Number(f"Lines on each side{flat}", _figure(lines), self._lines_working()),
            Number(
                f"Line spacing on the bevel{mean}{flat}",
                fine(spacing, units),
                self._spacing_working() if some else ["nothing is ground: no lines"],
                (FORGED, ONE_MINUTE),
            ),
            Number("Spread", f"× {spread:.1f}" if some else "none", list(steps)),
            Number(
                f"Line spacing on the spine{flat}",
                fine(self.layer, units),
                [
                    "the spine cuts the layers square: spacing = spine / layers",
                    f"= {self.spine:g} mm / {self.layers}",
                    f"a good eye resolves {EYE_300:.4f} mm at 300 mm (one minute of arc)",
                ],
                (FORGED, ONE_MINUTE),
            ),
        ]
        if self.bought in {LADDER, RAINDROP}:
            off = self.depth * self.share
            working = [
                "left = 1 - ground off / bar: the kit's rule, evenly to the far face",
                f"= 1 - {off:.3g} mm / {self.spine:g} mm",
                f"= {self.left:.2f}",
            ]
            left = f"{100 * self.left:.0f} %"
            found.append(
                Number("Pattern depth left at the edge", left, working, (FORGED, EVENLY))
            )
        return tuple(found)

    def _lines_working(self) -> list[str]:
        if self.depth == 0:
            return ["edge = spine: nothing is ground, so no layer is crossed"]
        plain = ideas.lines_working(self.given)
        if self.forged == 0:
            return plain
        off, layer = min(self.cleaned, self.depth), self.layer
        return [
            f"ground from the bar: {plain[-1].removeprefix('= ')} lines",
            f"clean-up alone: {off:g} mm / {layer:.3g} mm = {off / layer:.3g} lines",
            (
                f"{self.forged:g} % forged in: so much goes by the clean-up, the rest by "
                "the wheel"
            ),
            f"= {self.crossed.lines:.3g}",
        ]

    def _spacing_working(self) -> list[str]:
        lines, spacing, spread = self.crossed
        long = self.grind.bevel_length
        most = math.floor(spread * self.spine / EYE_300)
        square = math.floor(self.spine / EYE_300)
        return [
            f"along the bevel, edge to top: {long:.2f} mm",
            f"spacing = {long:.2f} mm / {lines:.3g} lines = {spacing:.3f} mm",
            f"an eye resolves up to {most:,} layers on this bevel, {square} on the spine",
        ]


@lru_cache(maxsize=16)
def loupe(of: BevelsLesson, number: int, _step: int = 1) -> Panel:
    """See what a loupe shows; kept, since moving a control does not change them all."""
    return drawing.loupe(of.ground, number)


def fine(mm: float, units: Units) -> str:
    """Write a small length in one unit throughout, and say if it is too fine to see."""
    if math.isinf(mm):
        return "no lines"
    shown = f"{mm:.3f}".rstrip("0").rstrip(".") + " mm"
    if units is not Units.MM:
        shown = format_length(mm, Units.INCH_DECIMAL)  # 1/32 in would be too coarse
    return shown + ("" if mm >= EYE_300 else f" ({TOO_FINE})")


def _figure(value: float) -> str:
    return f"{round(value, 1):g}"
