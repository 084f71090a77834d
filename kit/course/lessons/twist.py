"""Lesson 04: twist. Stripes outside, stars inside."""

from __future__ import annotations

import math
from functools import cached_property
from typing import Any, ClassVar

import numpy as np

from kit.basics.declare import choice, quantity
from kit.basics.errors import KitError
from kit.basics.units import Units, format_length
from kit.course.lesson import Given
from kit.course.lessons import drawing
from kit.course.lessons.job import Job as Base
from kit.course.lessons.lost import steel_gone
from kit.course.lessons.scene import Number, Scene
from kit.course.lessons.twist_drawing import depths, face, sections, solid
from kit.course.lessons.twist_ideas import angle_working, lines_working
from kit.course.lessons.twist_measures import (
    face_away,
    line_angle,
    lines_a_turn,
    round_height,
    widened,
)
from kit.forge.billet import Billet
from kit.forge.bundle import Bundle
from kit.forge.stack import Stack
from kit.forge.steps import DrawOut, GrindRound, SquareUp, Twist
from kit.section.described import Described
from kit.section.picture import Sheet

LENGTH = 200.0
HANDS = ("right", "left")
STACKS = ("odd number of layers", "even number of layers")
EVEN_STARS = (
    "An even stack has a weld on its axis. On the axis each star is half dark, half "
    "bright, the next its mirror image; a little off it dark and bright stars take turns."
)
NEIGHBOURS = ("none", "same hand", "opposite hand")
# Shear strain over root 3, at which hot torsion tests report steel to fail: about 3
# (Metals 15(2) 219, 2025, abstract). A warning only: forging is not a torsion test.
MOST_STRAIN = 3.0
HAIR = 1e-7  # mm: a line along a weld does not cross it


class Job(Base):
    """A round bar, twisted, perhaps beside a second, drawn out and ground."""

    across: float = quantity(
        "Bar across", "diameter of the round bar", low=8, high=30, unit="mm", default=16
    )
    stack: int = choice("Stacked from an", STACKS)
    layer: float = quantity(
        "Layer thickness", "as near as a whole number of layers allows", low=0.25, high=2,
        unit="mm", default=0.5,
    )  # fmt: skip
    turn: float = quantity(
        "Length for one turn", "a short turn is a tight twist", low=10, high=200, unit="mm",
        default=50,
    )  # fmt: skip
    hand: int = choice("Hand", HANDS)
    drawn: float = quantity(
        "Draw out after twisting", "times as long, at the same width; squared up first",
        low=1, high=2, unit="×", default=1,
    )  # fmt: skip
    neighbour: int = choice("Second bar beside it", NEIGHBOURS)
    ground: float = quantity(
        "Grind off", "from the top, down to the axis at most", low=0, high=15, unit="mm",
        default=0,
    )  # fmt: skip

    gives: ClassVar = ("ground",)

    @cached_property
    def billet(self) -> Billet:
        """The bar before it is ground."""
        return forged(**self.forging)

    @property
    def forging(self) -> dict[str, Any]:
        """All that is done before grinding."""
        return self.model_dump(exclude={"ground"})

    @property
    def height(self) -> float:
        """Height of the ground face above the axis, mm."""
        return max(self.billet.size.thickness / 2 - self.ground, 0.0)

    def check(self, units: Units) -> None:
        """Refuse to grind beyond the axis."""
        half = self.billet.size.thickness / 2
        if self.ground > half + 1e-6:
            msg = (
                f"You can grind off at most half the bar, {format_length(half, units)}. "
                f"Given: {format_length(self.ground, units)}."
            )
            raise KitError(msg)


def bar(*, across: float, layer: float, stack: int, turn: float, hand: int) -> Billet:
    """Stack a square bar, grind it round and twist it.

    Parameters
    ----------
    across : float
        Diameter, mm.
    layer : float
        Thickness of a layer, mm, as near as a whole number of layers allows.
    stack : int
        Index into `STACKS`.
    turn : float
        Length for one full turn, mm.
    hand : int
        Index into `HANDS`.
    """
    layers = max(2, round(across / layer))
    if layers % 2 == stack:  # 0 asks for odd, 1 for even
        layers += 1
    square = Stack.alternate(
        "1084",
        "15N20",
        pieces=layers,
        thickness=across / layers,
        length=LENGTH,
        width=across,
    )
    twist = Twist(turn_length=turn, hand=HANDS[hand])
    return Billet(source=square).then(GrindRound(), twist)


def forged(*, drawn: float, neighbour: int, **one: Any) -> Billet:
    """Make the bar, alone or with a second beside it, and draw it out if asked.

    A bar that is welded to another is squared up first; one that is drawn out alone,
    at the same width, becomes oval.
    """
    billet = bar(**one)
    if neighbour:
        hand = one["hand"] if neighbour == 1 else 1 - one["hand"]
        second = bar(**{**one, "hand": hand})
        bars = (billet.then(SquareUp()), second.then(SquareUp()))
        billet = Billet(source=Bundle(bars=bars))
    if drawn == 1:
        return billet
    return billet.then(DrawOut(thickness=billet.size.thickness / drawn))


def scene(
    *, units: Units = Units.MM, sunlit: bool = False, inside: bool = True, **values: float
) -> Scene:
    """Grind the twisted bar flat and show it; with `inside`, other depths and slices.

    `values` are those of `Job`; what is left out stands as it is there.
    """
    job = Job.asked(values, units)
    billet, height, forging = job.billet, job.height, job.forging
    sheet = Sheet(drawing.COLUMNS, drawing.ROWS, sunlit=sunlit)
    panels = (
        solid(sheet, billet, height, units),
        face(sheet, billet, height, units),
    )
    if inside:
        depths(sheet, billet, height, units)
        sections(sheet, billet, forging["turn"] * forging["drawn"])
    return Scene(
        image=sheet.image,
        alt=_alt(job, panels[-1].shows, units, inside=inside),
        numbers=_numbers(billet, forging, height, units),
        says=_strain(forging),
        panels=panels,
    )


def _numbers(
    billet: Billet, forging: dict, height: float, units: Units
) -> tuple[Number, ...]:
    turn = forging["turn"] * forging["drawn"]
    angle = line_angle(billet, height)
    lines = lines_a_turn(billet, height, turn)
    given = _given(billet, forging, height)
    star = turn / 2
    return (
        Number("Line angle on the middle line", f"{angle:.1f}°", angle_working(given)),
        Number("Lines in one turn, counted", f"{lines}", lines_working(given)),
        Number(
            "Stars apart",
            format_length(star, units),
            ["one star every half turn", f"= {turn:g} mm / 2", f"= {star:g} mm"],
        ),
        Number(
            "Turns in 100 mm",
            f"{100 / turn:.3g}",
            ["turns = 100 mm / length of a turn", f"= 100 / {turn:g}"],
        ),
        steel_gone(billet, face=face_away(billet, height)),
    )


def _given(billet: Billet, forging: dict, height: float) -> Given:
    """Give what the workings need of the round bar, as it was before it was squared up."""
    h = round_height(billet, height)
    stack = bar(**_plain(forging)).source
    welds = np.cumsum([layer.thickness for layer in stack.layers])[:-1]
    return {
        "h": h,
        "p": forging["turn"],
        "wide": widened(forging["across"], h) if forging["neighbour"] else 1,
        "long": forging["drawn"],
        "welds": int(np.count_nonzero(np.abs(welds - stack.thickness / 2) < h - HAIR)),
    }


def _plain(forging: dict) -> dict:
    return {key: forging[key] for key in ("across", "layer", "stack", "turn", "hand")}


def _strain(forging: dict) -> str:
    strain = math.pi * forging["across"] / forging["turn"] / math.sqrt(3)
    if strain <= MOST_STRAIN:
        return ""
    return (
        f"Take care: this twist strains the skin by {strain:.1f}; hot torsion tests report "
        f"steel to fail at about {MOST_STRAIN:g}. It is drawn all the same."
    )


def _alt(job: Job, shows: Described | None, units: Units, *, inside: bool) -> str:
    billet, height = job.billet, job.height
    off = format_length(billet.size.thickness / 2 - height, units)
    turn = format_length(job.turn * job.drawn, units)
    beside = {
        0: "",
        1: " with a second of the same hand",
        2: " with a second of the other hand",
    }
    lean = f"; on the middle line they lean {line_angle(billet, height):.0f} degrees"
    shape = f"{shows}{lean}"
    if height < 0.05 * billet.size.thickness:  # the end grain, lying down
        shape = "rows of stars"
    layers = bar(**_plain(job.forging)).layers
    below = (
        " Below, five slices in which the layers turn, and five faces, from the skin, "
        "striped, to the axis, with stars."
        if inside
        else ""
    )
    return (
        f"A bar {format_length(job.across, units)} across with {layers} layers, "
        f"{HANDS[job.hand]} hand twist, one turn in {turn}{beside[job.neighbour]}, "
        f"ground flat, {off} off the top: its face shows {shape}.{below}"
    )


def remark(changed: str, state: dict[str, Any]) -> str:
    """Say what a change of one control did, where that is the point of it."""
    if changed == "ground" and state["ground"] >= state["across"] / 2 - 0.05:
        return (
            "Down to the axis: the end grain, turned, lies flat in front of you as stars."
        )
    if changed == "stack" and state["stack"] == 1:
        return EVEN_STARS
    if changed == "neighbour" and state["neighbour"] == 2:
        if state["ground"] > state["across"] / 4:
            return (
                "Opposite hands: near the skin the lines meet on the seam as chevrons: see "
                "the strip with 0 mm off. So deep the stars of one bar mirror the other's."
            )
        return "Opposite hands: the lines meet on the seam as chevrons."
    return ""
