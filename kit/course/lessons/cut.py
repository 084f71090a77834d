"""Lesson 01: where the cut meets the layers."""

from __future__ import annotations

import math
from typing import Any

from kit.basics.declare import quantity
from kit.basics.units import Units, format_length
from kit.course.lesson import Given
from kit.course.lessons import drawing
from kit.course.lessons.cut_ideas import SPREAD, working
from kit.course.lessons.job import Job as Base
from kit.course.lessons.scene import Number, Scene
from kit.forge.billet import Billet
from kit.forge.stack import Stack
from kit.section.described import Described
from kit.section.picture import Sheet

WIDTH = 60.0
LEAST_LENGTH = 160.0


def angle() -> Any:
    """Declare the angle of a cut."""
    words = "90° is straight across; near 0° the saw runs along the layers"
    name = "Cut angle to the layers"
    return quantity(name, words, low=2, high=90, unit="°", default=90)


def position() -> Any:
    """Declare where a cut is made."""
    words = "where the cut crosses the bar's middle"
    name = "Cut position along the bar"
    return quantity(name, words, low=0, high=100, unit="%", default=50)


class Job(Base):
    """A block of flat layers, and a cut through it."""

    angle: float = angle()
    position: float = position()
    layers: int = quantity(
        "Layers in the stack", "dark and bright in turn", low=3, high=25, default=9
    )
    thickness: float = quantity(
        "Layer thickness", "of every layer", low=0.5, high=6, unit="mm", default=4
    )


def block(*, layers: int, thickness: float) -> Billet:
    """Stack a block of 1084 and 15N20 in turn, flat, as clay sheets lie in a brick.

    Parameters
    ----------
    layers : int
        2 to 1000.
    thickness : float
        Of each layer, mm.
    """
    length = max(LEAST_LENGTH, 1.2 * layers * thickness)
    stack = Stack.alternate(
        "1084", "15N20", pieces=layers, thickness=thickness, length=length, width=WIDTH
    )
    return Billet(source=stack)


def scene(*, units: Units = Units.MM, sunlit: bool = False, **values: float) -> Scene:
    """Saw the block and show it, its cut face, and the numbers.

    `values` are those of `Job`; what is left out stands as it is there.
    """
    job = Job.asked(values, units)
    angle, position, thickness = job.angle, job.position, job.thickness
    billet = block(layers=job.layers, thickness=thickness)
    sheet = Sheet(drawing.COLUMNS, drawing.ROWS, sunlit=sunlit)
    panels = drawing.sawn_block(sheet, billet, angle, position, units)
    given = {"t": thickness, "a": angle}
    width = SPREAD.value(given)
    return Scene(
        image=sheet.image,
        alt=_alt(billet, angle, width, panels[-1].shows, units),
        numbers=_numbers(given, units),
        panels=panels,
    )


def bands_met(billet: Billet, angle: float, position: float) -> int:
    """Count the layers that the cut crosses before it leaves the block's ends."""
    length, _, height = billet.size
    where = position / 100 * length
    steep = math.tan(math.radians(angle))
    top = min(height / 2, where * steep)
    bottom = max(-height / 2, -(length - where) * steep)
    each = billet.mean_layer
    first = math.floor((bottom + height / 2) / each + 1e-9)
    last = math.ceil((top + height / 2) / each - 1e-9)
    return max(1, last - first)


def _alt(
    billet: Billet, angle: float, width: float, shows: Described | None, units: Units
) -> str:
    layer = format_length(billet.mean_layer, units)
    return (
        f"A block of {billet.layers} alternating dark and bright layers, each {layer} "
        f"thick, sawn at {angle:g} degrees to the layers. Beside it the cut face shows "
        f"{shows}; each band is {format_length(width, units)} wide. Next to it a faint "
        f"strip of the same block cut square, with bands of {layer}."
    )


def _numbers(given: Given, units: Units) -> tuple[Number, ...]:
    t, a = given["t"], given["a"]
    sine = math.sin(math.radians(a))
    width = t / sine
    stretch, words = (100, "100 mm") if units is Units.MM else (101.6, "4 in")
    return (
        Number("Band width on the cut", format_length(width, units), working(given)),
        Number(
            "Spread",
            f"× {1 / sine:.3g}",
            ["spread = 1 / sin(angle)", f"= 1 / sin({a:g}°)", f"= {1 / sine:.3g}"],
        ),
        Number(
            f"Bands in {words} of face",
            f"{stretch / width:.3g}",
            [
                f"bands = {words} / band width",
                f"= {stretch:g} mm / {width:.3g} mm",
                f"= {stretch / width:.3g}",
            ],
        ),
    )


def remark(changed: str, state: dict[str, float]) -> str:
    """Say what a change of one control did, where that is the point of it."""
    if changed == "position":
        return (
            "The saw moved along and the face did not change: flat layers are alike "
            "everywhere along the bar."
        )
    if changed == "angle" and state["angle"] == drawing.SQUARE:
        return "A square cut shows the layers at their true thickness."
    return ""
