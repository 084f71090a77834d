"""Lesson 05's blade: a bar with hollows, ground on both sides, and what each side keeps."""

from collections.abc import Callable
from typing import NamedTuple

from kit.basics.errors import KitError
from kit.basics.told import counted
from kit.basics.units import Units, format_length, in_figures
from kit.course.lessons.bevels_drawing import RICASSO, Ground, seen_blade
from kit.course.lessons.scene import Number, Panel
from kit.forge.billet import Billet
from kit.forge.steps import Grind
from kit.forge.steps.base import Size
from kit.section.blade import Blade
from kit.section.grind import BladeGrind
from kit.section.outline import Outline
from kit.section.picture import Sheet

LONG, HIGH, EDGE = 150.0, 30.0, 0.4  # mm, of the blade; as lesson 06 has it
LEAST_SPINE = 1.0  # mm, ours
WIDE, ROWS = 976, 216  # pixels, as those below
LEFT, TOPS = 12, (32, 284)


class Kept(NamedTuple):
    """Rings of one hollow, and how many of them each side keeps at spine and edge."""

    name: str
    both: bool
    whole: int
    spine: tuple[int, int]
    edge: tuple[int, int]


def refuse_thin(size: Size, off: float) -> None:
    """Refuse a blade thinner than a blade, where so much, mm, is ground off each side."""
    most = (size.thickness - LEAST_SPINE) / 2
    if off > most + 1e-9:
        msg = (
            f"A blade's spine must be at least {LEAST_SPINE:g} mm thick, so at most "
            f"{max(most, 0):.2f} mm can go off each side of this bar. Given: {off:g} mm."
        )
        raise KitError(msg)


def kept(
    count: Callable[[float], int], thick: float, off: float, name: str, *, both: bool
) -> Kept:
    """Count what each side keeps at the spine, where so much, mm, is off, and at the edge.

    `count` counts the rings of a hollow of the top on a face so deep; with hollows in
    both faces each side keeps as many of its own.
    """
    sides = (off, thick - off), ((thick - EDGE) / 2, (thick + EDGE) / 2)
    spine, edge = ((count(near), count(near if both else far)) for near, far in sides)
    return Kept(name, both, count(0.0), spine, edge)


def ground(billet: Billet, off: float) -> Ground:
    """Grind the bar's two sides, and a blade from it: flat from spine to edge."""
    bar = billet.then(Grind(top=off, bottom=off)) if off else billet
    spine = in_figures(bar.size.thickness, way="ROUND_DOWN")
    grind = BladeGrind(
        outline=Outline(family="drop", length=LONG, height=HIGH),
        kind="flat",
        spine=spine,
        edge=EDGE,
        ricasso=RICASSO,
        plunge=in_figures((spine - EDGE) / 2),
    )
    return Ground(bar, grind, 1.0)


def both_sides(
    sheet: Sheet, made: Ground, rings: Kept, units: Units
) -> tuple[Panel, Panel]:
    """Draw the two sides of the blade below each other."""
    panels = []
    for number, (side, top) in enumerate(zip(("right", "left"), TOPS, strict=True)):
        view = Blade.fitted(made.grind, made.billet.size, WIDE, ROWS, side=side)
        face, surface = seen_blade(made.billet, view, made.share)
        sheet.above((LEFT, top), _side(rings, number))
        sheet.blade(face, (LEFT, top), surface)
        panels.append(Panel(made.billet, surface, (LEFT, top), face))
    sheet.scale_bar((850, TOPS[0] - 4), view.pixel, units)
    return tuple(panels)


def _side(rings: Kept, number: int) -> str:
    name = ("The side with the hollows", "The far side")[number]
    if rings.both:
        name = ("One side", "The other side")[number]
    return f"{name}: {_keeps(rings, number)}"


def _keeps(rings: Kept, number: int) -> str:
    spine, edge = rings.spine[number], rings.edge[number]
    first = f"{spine or 'none'}"
    if not number:
        of = "all " if spine == rings.whole else f"{first} of "
        first = f"{of}{counted(rings.whole, rings.name)}"
    return f"{first} at the spine, {edge or 'none'} at the edge"


def told(rings: Kept) -> str:
    """Answer the smith's question for both sides."""
    if not rings.whole:
        return "No hollow so deep as a layer: both sides show only the lines of the bevel."
    side = _keeps(rings, 0)
    if rings.both:
        return f"Will it survive my grind? Each side keeps {side}."
    other = _keeps(rings, 1)
    return (
        f"Will it survive my grind? The hollowed side keeps {side}; the far side {other}."
    )


def alt(made: Ground, panels: tuple[Panel, ...], rings: Kept, units: Units) -> str:
    """Tell the picture of both sides in words."""
    thick = format_length(made.grind.spine, units)
    return (
        f"The two sides of a blade ground from the bar: {format_length(HIGH, units)} high, "
        f"{thick} thick at the spine, {format_length(EDGE, units)} at the edge. "
        f"{told(rings)} The upper one shows {panels[0].shows}; the lower one "
        f"{panels[1].shows}."
    )


def numbers(made: Ground, rings: Kept, off: float, units: Units) -> tuple[Number, ...]:
    """Give what is kept, and what the two grinds leave of the bar's thickness."""
    spine = made.grind.spine
    deep = (spine - EDGE) / 2
    pairs = (("spine", rings.spine, off), ("edge", rings.edge, off + deep))
    found = [
        Number(
            f"Kept at the {place}, each side",
            f"{near} and {far} of {rings.whole}",
            [
                f"so deep is ground there: {depth:.2f} mm",
                "counted on a flat face so deep, from a hollow's rim to its middle",
            ],
        )
        for place, (near, far), depth in pairs
    ]
    thick = spine + 2 * off
    working = ["bar less both sides", f"= {thick:.3g} mm - 2 × {off:g} mm"]
    return *found, Number("Spine", format_length(spine, units), working)
