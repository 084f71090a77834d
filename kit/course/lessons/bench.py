"""The first forging: rack, stack, fold, cut, all on one page."""

from __future__ import annotations

import math
from typing import Any, ClassVar

from kit.basics.declare import allowed_range, choice, quantity
from kit.basics.units import Units, format_length
from kit.course.lessons import drawing
from kit.course.lessons.cut import ANGLE, POSITION
from kit.course.lessons.fold import JOINS
from kit.course.lessons.job import Job as Base
from kit.course.lessons.lost import steel_gone
from kit.course.lessons.scene import Number, Scene
from kit.forge.billet import Billet, fold_and_draw
from kit.forge.stack import DEMO_INNER, DEMO_OUTER, Stack, demo_stack
from kit.forge.steps import DrawOut, Grind, Hammer
from kit.metal.described import Described, counts
from kit.section.picture import Sheet

# What the evening class keeps on its rack.
RACK = ("1084", "1075", "1095", "5160", "52100", "O1", "1018", "15N20", "L6")
FIRST, SECOND = RACK.index(DEMO_OUTER.steel), RACK.index(DEMO_INNER.steel)
LENGTH, WIDTH = 120.0, 38.1
SPACING = 25.0  # mm between blows: about the width of a hammer face
DEEPEST = 0.22  # of the thickness, how far the hammer waves may go
MOST_WAVES = allowed_range(Hammer.model_fields["depth"])[1]  # mm


def _rack(name: str, default: float) -> Any:
    words = "stock as it lies on the rack"
    return quantity(name, words, low=0.5, high=12.7, unit="mm", default=default)


class Job(Base):
    """Two steels of the rack, forged, and a cut through the bar."""

    first: int = choice("First steel", RACK, default=FIRST)
    first_bar: float = _rack("Its bars", DEMO_OUTER.thickness)
    second: int = choice("Second steel", RACK, default=SECOND)
    second_bar: float = _rack("Its bars ", DEMO_INNER.thickness)
    pieces: int = quantity(
        "Pieces in the stack", "the two steels in turn", low=2, high=25,
        default=len(demo_stack().layers),
    )  # fmt: skip
    folds: int = quantity(
        "Folds", "lay the bar on itself, weld, draw out again", low=0, high=8, default=0
    )
    join: int = choice("Way of joining", JOINS)
    hammer: float = quantity(
        "Uneven hammering",
        "how far the layers wave, of what the kit allows; illustrative",
        low=0, high=100, unit="%", default=0,
    )  # fmt: skip
    thickness: float = quantity(
        "Draw out to a thickness of", "thickness of the finished bar", low=3, high=40,
        unit="mm", default=demo_stack().thickness,
    )  # fmt: skip
    trued: float = quantity(
        "Crop and grind true", "taken off all six sides of the forged bar", low=0, high=2,
        unit="mm", default=0,
    )  # fmt: skip
    angle: float = ANGLE
    position: float = POSITION
    magnified: int = quantity("Look closer", "times true size", low=1, high=40, default=2)

    gives: ClassVar = ("trued",)

    @property
    def forging(self) -> dict[str, Any]:
        """All that is done before the bar is sawn."""
        return self.model_dump(exclude={"angle", "position", "magnified"})

    def check(self, units: Units) -> None:
        """Refuse to grind the bar away."""
        del units  # the grinder's own sentence
        forged(**self.forging)


def forged(  # noqa: PLR0913  (one argument a control)
    *,
    first: int,
    second: int,
    first_bar: float,
    second_bar: float,
    pieces: int,
    folds: int,
    join: int,
    hammer: float,
    thickness: float,
    trued: float = 0.0,
    seed: int = 1,
) -> Billet:
    """Forge a bar from two steels of the rack.

    Parameters
    ----------
    first, second : int
        Index into `RACK`; the first lies at the bottom.
    first_bar, second_bar : float
        Thickness of each steel's bars, mm.
    pieces, folds, join, thickness
        As in lesson 02.
    hammer : float
        How uneven the hammering is, 0 … 100 % of what the kit allows.
    trued : float
        Ground off every face and cropped off both ends at last, mm.
    seed : int
        Another number, another hand.
    """
    stack = Stack.alternate(
        RACK[first],
        RACK[second],
        pieces=pieces,
        thickness=(first_bar, second_bar),
        length=LENGTH,
        width=WIDTH,
    )
    billet = Billet(source=stack)
    restack = None if join == 0 else join + 1
    depth = hammer / 100 * min(DEEPEST * stack.thickness, MOST_WAVES)
    if hammer:
        billet = billet.then(Hammer(depth=depth, spacing=SPACING, seed=seed))
    for fold in range(folds):
        billet = fold_and_draw(billet, folds=1, pieces=restack)
        if hammer:
            blows = Hammer(depth=depth, spacing=SPACING, seed=seed + fold + 1)
            billet = billet.then(blows)
    billet = billet.then(DrawOut(thickness=thickness))
    if not trued:
        return billet
    return billet.then(Grind(top=trued, bottom=trued, sides=trued, ends=trued))


def scene(*, units: Units = Units.MM, sunlit: bool = False, **values: float) -> Scene:
    """Forge the bar, saw it, and show it with its numbers.

    `values` are those of `Job`; what is left out stands as it is there.
    """
    job = Job.asked(values, units)
    forging, magnified = job.forging, job.magnified
    billet = forged(**forging)
    sheet = Sheet(drawing.COLUMNS, drawing.ROWS, sunlit=sunlit)
    panels = drawing.sawn_block(
        sheet, billet, job.angle, job.position, units, magnified=magnified
    )
    return Scene(
        image=sheet.image,
        alt=_alt(billet, forging, job, panels[-1].shows, units),
        numbers=_numbers(billet, forging, job.angle, units),
        says=_says(billet),
        panels=panels,
    )


def first_forging() -> Scene:
    """Draw the README's picture: the demo's stack, three folds, one shallow cut."""
    return scene(folds=3, hammer=100, thickness=12, angle=4, magnified=4)


def _alt(
    billet: Billet, forging: dict, job: Job, shows: Described | None, units: Units
) -> str:
    names = billet.source.steels
    times = forging["folds"]
    way = f"{JOINS[forging['join']]}, {times} times" if times else "not folded"
    wavy = ", hammered so that the layers wave" if forging["hammer"] else ""
    thick = format_length(billet.size.thickness, units)
    trued = forging.get("trued", 0.0)
    if trued:
        wavy += f", cropped and ground true by {format_length(trued, units)} all round"
    return (
        f"A bar {thick} thick from {len(names)} pieces of {names[0]} and {names[1]}, {way}"
        f"{wavy}: {counts(billet.layers, billet.bands)}. It is sawn at "
        f"{job.angle:g} degrees to its layers; beside it the cut face, {job.magnified} "
        f"times true size: it shows {shows}. Next to it a faint strip of the same bar cut "
        "square."
    )


def _numbers(
    billet: Billet, forging: dict, angle: float, units: Units
) -> tuple[Number, ...]:
    off = 2 * forging.get("trued", 0.0)  # of the thickness
    thick = billet.size.thickness + off
    layer = thick / billet.layers
    sine = math.sin(math.radians(angle))
    in_mm = format_length(layer, Units.MM)
    gone = [f"about {off / layer:,.0f} of them went with the ground faces"] if off else []
    return (
        Number(
            "Layers (pieces of steel)",
            f"{billet.layers:,}",
            [f"{len(billet.source.layers)} pieces, multiplied at every fold", *gone],
        ),
        Number(
            "Bands (stripes there are)",
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


def _says(billet: Billet) -> str:
    names = set(billet.source.steels)
    if len(names) == 1:
        return (
            "Both bars are one steel: the layers are there, but the etch has nothing to "
            "tell apart: no pattern. (A thin line may show at the welds of real steel.)"
        )
    stacked, size = billet.sizes[0], billet.size
    if abs(size.thickness - stacked.thickness) < 0.05:
        return f"Stacked: {len(billet.source.steels)} bars. Click on the steel to ask."
    return (
        f"The stack was {stacked.thickness:.1f} mm high and {stacked.length:.0f} mm long. "
        f"The bar is {size.thickness:.1f} mm thick and {size.length:.0f} mm long; the "
        "picture shows the piece around the cut."
    )
