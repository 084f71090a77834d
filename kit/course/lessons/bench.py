"""The first forging: rack, stack, fold, cut, all on one page."""

from __future__ import annotations

import math
from functools import cached_property
from typing import Any, ClassVar

from kit.basics.declare import allowed_range, choice, quantity
from kit.basics.errors import KitError
from kit.basics.units import STOCK_THICKNESSES_INCH, Units, format_length
from kit.course.lessons import drawing
from kit.course.lessons.base import Lesson
from kit.course.lessons.cut import ANGLE, POSITION
from kit.course.lessons.fold import JOINS
from kit.course.lessons.scene import Number, Scene, steel_gone
from kit.forge.billet import Billet, fold_and_draw
from kit.forge.stack import DEMO_INNER, DEMO_OUTER, Stack, demo_stack
from kit.forge.steps import DrawOut, Grind, Hammer
from kit.metal.described import Described, counts
from kit.metal.eye import EYE_300
from kit.metal.pairs import pair
from kit.section.picture import Sheet

# What the evening class keeps on its rack.
RACK = ("1084", "1075", "1095", "5160", "52100", "O1", "1018", "15N20", "L6")
FIRST, SECOND = RACK.index(DEMO_OUTER.steel), RACK.index(DEMO_INNER.steel)
LENGTH, WIDTH = 120.0, 38.1
SPACING = 25.0  # mm between blows: about the width of a hammer face
DEEPEST = 0.22  # of the thickness, how far the hammer waves may go
MOST_WAVES = allowed_range(Hammer.model_fields["depth"])[1]  # mm
MOST_FOLDED = allowed_range(DrawOut.model_fields["thickness"])[1]  # mm, drawn out again


def _rack(name: str, default: float) -> Any:
    return quantity(
        name, "stock as it lies on the rack", low=0.5, high=12.7, unit="mm",
        default=default, step=0.1, inch=STOCK_THICKNESSES_INCH,
    )  # fmt: skip


class BenchLesson(Lesson):
    """Two steels of the rack, forged, and a cut through the bar."""

    key: ClassVar = "00"
    number: ClassVar = "00"
    title: ClassVar = "Start here"
    main: ClassVar = "angle"

    first: int = choice("First steel", RACK, default=FIRST)
    first_bar: float = _rack("First bar thickness", DEMO_OUTER.thickness)
    second: int = choice("Second steel", RACK, default=SECOND)
    second_bar: float = _rack("Second bar thickness", DEMO_INNER.thickness)
    pieces: int = quantity(
        "Pieces in the stack", "the two steels in turn", low=2, high=25,
        default=len(demo_stack().layers),
    )  # fmt: skip
    folds: int = quantity(
        "Folds", "lay the bar on itself, weld, draw out again", low=0, high=8, default=0
    )
    join: int = choice("How it is doubled", JOINS)
    hammer: float = quantity(
        "Uneven hammering",
        "how far the layers wave, of what the kit allows; illustrative",
        low=0, high=100, unit="%", default=0, step=5,
    )  # fmt: skip
    thickness: float = quantity(
        "Draw out to a thickness of", "thickness of the finished bar", low=3, high=40,
        unit="mm", default=round(demo_stack().thickness, 6), step=0.5, inch=1 / 8,
    )  # fmt: skip
    trued: float = quantity(
        "Crop and grind true", "taken off all six sides of the forged bar", low=0, high=2,
        unit="mm", default=0, step=0.1, inch=1 / 64,
    )  # fmt: skip
    angle: float = ANGLE
    position: float = POSITION
    magnified: int = quantity("Look closer", "times true size", low=1, high=40, default=2)

    gives: ClassVar = ("trued", "pieces")
    stations: ClassVar = {
        "1 Rack": ("first", "first_bar", "second", "second_bar"),
        "2 Stack": ("pieces",),
        "3 Forge": ("folds", "join", "hammer", "thickness"),
        "4 Cut": ("trued", "angle", "position", "magnified"),
    }
    cues: ClassVar = ("folds", "hammer", "thickness", "angle", "trued", "second")

    @cached_property
    def stack(self) -> Stack:
        """The two steels in turn, the first at the bottom."""
        return Stack.alternate(
            RACK[self.first],
            RACK[self.second],
            pieces=self.pieces,
            thickness=(self.first_bar, self.second_bar),
            length=LENGTH,
            width=WIDTH,
        )

    @cached_property
    def billet(self) -> Billet:
        """The bar, before it is sawn; each fold is hammered by another hand."""
        billet = self._hammered(Billet(source=self.stack), seed=1)
        for fold in range(self.folds):
            pieces = None if self.join == 0 else self.join + 1
            billet = fold_and_draw(billet, folds=1, pieces=pieces)
            billet = self._hammered(billet, seed=fold + 2)
        billet = billet.then(DrawOut(thickness=self.thickness))
        off = self.trued
        if not off:
            return billet
        return billet.then(Grind(top=off, bottom=off, sides=off, ends=off))

    def _hammered(self, billet: Billet, *, seed: int) -> Billet:
        """Hammer it unevenly, if it is; another seed, another hand."""
        if not self.hammer:
            return billet
        depth = self.hammer / 100 * min(DEEPEST * self.stack.thickness, MOST_WAVES)
        return billet.then(Hammer(depth=depth, spacing=SPACING, seed=seed))

    def check(self, units: Units) -> None:
        """Refuse to fold a stack that is too high, or to grind the bar away."""
        high = self.stack.thickness
        if self.folds and high > MOST_FOLDED:
            msg = (
                f"A stack that is to be folded may be {format_length(MOST_FOLDED, units)} "
                f"high at most. Given: {format_length(high, units)}."
            )
            raise KitError(msg)
        self.billet  # noqa: B018  (forged once, and kept)

    def draw(self, units: Units, *, told: bool = True, **paper: Any) -> Scene:
        """Saw the bar, and show it with its numbers."""
        del told  # nothing is predicted
        sheet = Sheet(drawing.COLUMNS, drawing.ROWS, **paper)
        panels = drawing.sawn_block(
            sheet, self.billet, self.angle, self.position, units, magnified=self.magnified
        )
        return Scene(
            image=sheet.image,
            alt=self._alt(panels[-1].shows, units),
            numbers=self._numbers(units),
            says=_says(self.billet, units),
            panels=panels,
        )

    def remark(self, changed: str, units: Units = Units.MM) -> str:
        """Say what the change did to the bar, or to what is seen of it."""
        names, billet = self.stack.steels, self.billet
        if changed in {"first", "second"} and names[0] != names[1]:
            both = pair(names[0], names[1])
            contrast = both.contrasts[both.evens_out]
            return f"{both}: contrast {contrast} in the etch (illustrative)."
        points = {
            "first_bar": self._bars,
            "second_bar": self._bars,
            "pieces": self._stacked,
            "folds": self._folded,
            "join": self._doubled,
            "hammer": self._waved,
            "thickness": self._drawn,
            "trued": self._trued,
            "angle": self._sawn,
            "position": self._along,
            "magnified": self._nearer,
        }
        return points[changed](units, billet) if changed in points else ""

    def _bars(self, units: Units, _billet: Billet) -> str:
        one, other = (
            format_length(bar, units) for bar in (self.first_bar, self.second_bar)
        )
        if self.first_bar == self.second_bar:
            return f"Both steels {one} thick: their bands are alike."
        times = max(self.first_bar, self.second_bar) / min(self.first_bar, self.second_bar)
        return (
            f"Bars of {one} and {other} in turn: the thicker steel makes bands "
            f"{times:.3g} times as wide."
        )

    def _stacked(self, units: Units, _billet: Billet) -> str:
        high = format_length(self.stack.thickness, units)
        faces = "the same steel" if self.pieces % 2 else "unlike steels"
        return f"{self.pieces} pieces, {high} high: its two faces are {faces}."

    def _folded(self, units: Units, billet: Billet) -> str:
        if not self.folds:
            return f"Not folded: the {billet.layers} layers of the stack as it was welded."
        layer = format_length(billet.mean_layer, units)
        fine = " Cut square, no eye tells them apart." * (billet.mean_layer < EYE_300)
        return f"{billet.layers:,} layers, each {layer} thick on average.{fine}"

    def _doubled(self, _units: Units, billet: Billet) -> str:
        how = JOINS[self.join]
        if not self.folds:
            return f"Set to {how}, but nothing is folded yet: give it a fold."
        like = billet.layers - billet.bands
        if not like:
            return (
                f"{how.capitalize()}: unlike steels meet at every weld: each layer is a "
                "band."
            )
        return (
            f"{how.capitalize()}: like meets like, {billet.layers:,} layers, "
            f"{billet.bands:,} bands."
        )

    def _waved(self, _units: Units, _billet: Billet) -> str:
        if not self.hammer:
            return "Hammered evenly: the layers lie flat and the bands run straight."
        return (
            f"Hammered unevenly by {self.hammer:g} %: the layers wave, and so do the bands."
        )

    def _drawn(self, units: Units, billet: Billet) -> str:
        thick = format_length(billet.size.thickness, units)
        long = format_length(billet.size.length, units)
        return f"{thick} thick, it is {long} long: what leaves the thickness makes length."

    def _trued(self, units: Units, billet: Billet) -> str:
        if not self.trued:
            return "Nothing is ground off: the skin is the outermost layer still."
        off = format_length(self.trued, units)
        gone = self.trued * billet.layers / (billet.size.thickness + 2 * self.trued)
        return f"{off} ground off each side: on top alone about {gone:.1f} layers went."

    def _sawn(self, _units: Units, _billet: Billet) -> str:
        if self.angle == drawing.SQUARE:
            return "A square cut shows the layers at their true thickness."
        wide = 1 / math.sin(math.radians(self.angle))
        return (
            f"At {self.angle:g}° each band is {wide:.3g} times as wide as its layer is "
            "thick."
        )

    def _along(self, _units: Units, _billet: Billet) -> str:
        where = f"Sawn at {self.position:g} % of its length"
        if self.hammer:
            return f"{where}: waving layers give every place a face of its own."
        return f"{where}: flat layers are alike all along the bar."

    def _nearer(self, _units: Units, _billet: Billet) -> str:
        if self.magnified == 1:
            return "True size on most screens: this is what your eye has to tell apart."
        return f"{self.magnified} times true size: the same cut, seen from nearer."

    def _alt(self, shows: Described | None, units: Units) -> str:
        billet = self.billet
        names = billet.source.steels
        way = f"{JOINS[self.join]}, {self.folds} times" if self.folds else "not folded"
        wavy = ", hammered so that the layers wave" if self.hammer else ""
        thick = format_length(billet.size.thickness, units)
        if self.trued:
            off = format_length(self.trued, units)
            wavy += f", cropped and ground true by {off} all round"
        return (
            f"A bar {thick} thick from {len(names)} pieces of {names[0]} and {names[1]}, "
            f"{way}{wavy}: {counts(billet.layers, billet.bands)}. It is sawn at "
            f"{self.angle:g} degrees to its layers; beside it the cut face, "
            f"{self.magnified} times true size: it shows {shows}. Next to it a faint strip "
            "of the same bar cut square."
        )

    def _numbers(self, units: Units) -> tuple[Number, ...]:
        billet, angle = self.billet, self.angle
        off = 2 * self.trued  # of the thickness
        thick = billet.size.thickness + off
        layer = thick / billet.layers
        sine = math.sin(math.radians(angle))
        in_mm = format_length(layer, Units.MM)
        gone = (
            [f"about {off / layer:,.0f} of them went with the ground faces"] if off else []
        )
        return (
            Number(
                "Layers (pieces of steel)",
                f"{billet.layers:,}",
                [f"{len(billet.source.layers)} pieces, multiplied at every fold", *gone],
            ),
            Number(
                "Bands (stripes you can tell apart)",
                f"{billet.bands:,}",
                ["layers less the welds where like met like"],
            ),
            Number(
                "One layer, on average",
                format_length(layer, units),
                [f"{thick:g} mm / {billet.layers:,} = {in_mm}"],
            ),
            Number(
                "One layer on the cut",
                format_length(layer / sine, units),
                [f"{in_mm} / sin({angle:g}°) = {format_length(layer / sine, Units.MM)}"],
            ),
            steel_gone(billet),
        )


def first_forging() -> Scene:
    """Draw the README's picture: the demo's stack, three folds, one shallow cut."""
    return BenchLesson.scene(folds=3, hammer=100, thickness=12, angle=4, magnified=4)


def _says(billet: Billet, units: Units) -> str:
    names = set(billet.source.steels)
    if len(names) == 1:
        return (
            "Both bars are one steel: the layers are there, but the etch has nothing to "
            "tell apart: no pattern. (A thin line may show at the welds of real steel.)"
        )
    stacked, size = billet.sizes[0], billet.size
    if abs(size.thickness - stacked.thickness) < 0.05:
        return (
            f"Stacked: {len(billet.source.steels)} bars. Click the steel to see which bar "
            "it came from."
        )
    high, long, thick, end = (
        format_length(part, units)
        for part in (stacked.thickness, stacked.length, size.thickness, size.length)
    )
    return (
        f"The stack was {high} high and {long} long. The bar is {thick} thick and {end} "
        "long; the picture shows the piece around the cut."
    )
