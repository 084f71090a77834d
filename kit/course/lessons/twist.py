"""Lesson 04: twist. Stripes outside, stars inside."""

import math
from fractions import Fraction
from functools import cached_property, lru_cache
from typing import Any, ClassVar

import numpy as np
from PIL import Image

from kit.basics.declare import choice, quantity
from kit.basics.errors import KitError
from kit.basics.units import Units, format_length, in_figures
from kit.course.lessons import drawing
from kit.course.lessons import twist_ideas as ideas
from kit.course.lessons.base import Lesson
from kit.course.lessons.scene import Number, Part, Scene, steel_gone
from kit.course.lessons.twist_drawing import (
    depths,
    face,
    face_away,
    from_above,
    line_angle,
    lines_a_turn,
    round_height,
    sections,
    solid,
    widened,
)
from kit.forge.billet import Billet
from kit.forge.bundle import Bundle
from kit.forge.stack import Stack
from kit.forge.steps import DrawOut, GrindRound, SquareUp, Twist
from kit.metal import etch
from kit.metal.described import Described
from kit.metal.working_heat import too_tight
from kit.section.picture import Sheet

LENGTH = 200.0  # mm, of a bar of our own
HANDS = ("right", "left")
STACKS = ("odd", "even")
EVEN_STARS = (
    "An even stack: on the axis each star is half dark, half bright, the next its mirror "
    "image; a little off it dark and bright ones take turns."
)
STARRY = 0.05  # of the thickness: the end grain, lying down
NEIGHBOURS = ("none", "same hand", "opposite hand")
BESIDE = ("", " with a second of the same hand", " with a second of the other hand")
HAIR = 1e-7  # mm: a line along a weld does not cross it
TILE = (200, 150)


@lru_cache(maxsize=8)
def bar(*, across: float, layer: float, stack: int, turn: float, hand: int) -> Billet:
    """Stack a square bar, grind it round and twist it; kept, as grinding on needs it again.

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


def tile(lean: float) -> tuple[Image.Image, str]:
    """Draw the face that somebody with this idea of the lines' angle, degrees, expects.

    The kit's own bar, ground at the height, and twisted by the turn, at which lines
    lean so.
    """
    turn, across = (TwistLesson.begun()[key] for key in ("turn", "across"))
    height = math.tan(math.radians(lean)) * turn / (2 * math.pi)
    if height > across / 2 + 1e-6:  # steeper than its skin: a tighter twist
        turn, height = turn / 2, across / 2
    billet = TwistLesson(turn=turn).billet
    above = from_above(billet, height, *TILE, pixel=50 / TILE[0])
    sheet = Sheet(*TILE)
    sheet.steel(etch.seen(billet, above), (0, 0))
    words = "rows of stars" if lean == 0 else f"lines leaning {lean:.0f} degrees"
    return sheet.image, f"A long face ground on a twisted bar, with {words}."


class TwistLesson(Lesson):
    """A round bar, twisted, perhaps beside a second, drawn out and ground."""

    key: ClassVar = "04"
    title: ClassVar = "Stripes outside, stars inside"
    main: ClassVar = "ground"
    phone: ClassVar = (Part(10, 40, 500, 222), Part(545, 70, 1000, 255))
    cues: ClassVar = ("ground", "stack", "neighbour")

    across: float = quantity(
        "Bar diameter", "of the round bar", low=8, high=30, unit="mm", default=16,
        inch=1 / 8,
    )  # fmt: skip
    stack: int = choice("Layers", STACKS)
    layer: float = quantity(
        "Layer thickness", "as near as a whole number of layers allows", low=0.25, high=2,
        unit="mm", default=0.5, step=0.05,
    )  # fmt: skip
    turn: float = quantity(
        "Length for one turn", "a short turn is a tight twist", low=10, high=200, unit="mm",
        default=50, inch=1 / 8,
    )  # fmt: skip
    hand: int = choice("Hand", HANDS)
    drawn: float = quantity(
        "Draw out after twisting", "times as long, at the same width; squared up first",
        low=1, high=2, unit="×", default=1, step=0.05,
    )  # fmt: skip
    neighbour: int = choice("Second bar beside it", NEIGHBOURS)
    ground: float = quantity(
        "Grind off", "from the top, down to the axis at most", low=0, high=15, unit="mm",
        default=0, step=0.1, inch=1 / 32,
    )  # fmt: skip

    stations: ClassVar = {
        "1 Bar": ("across", "layer", "stack"),
        "2 Twist": ("turn", "hand", "drawn", "neighbour"),
        "3 Grind": ("ground",),
    }
    gives: ClassVar = ("ground",)

    question: ClassVar = ideas.TOLD.question(
        given={"d": 16.0, "p": 50.0, "q": 4.0},
        tiles=(ideas.SAME, ideas.STEEPER, ideas.STARS_ALREADY, ideas.ANGLE),
        right=ideas.ANGLE,
        show=lambda lean: "square stars" if lean == 0 else f"lines at {lean:.1f}°",
        draw=tile,
    )
    # the wheel goes down halfway to the axis
    film: ClassVar = tuple(
        {"ground": round(2 - 2 * math.cos(math.pi * frame / 13), 2)} for frame in range(14)
    )
    checks: ClassVar = (ideas.SKIN_ANGLE, ideas.GROUND_ANGLE, ideas.STAR_COUNT)

    @property
    def one(self) -> dict[str, Any]:
        """What the bar is by itself, by the names that `bar` knows."""
        return self.model_dump(include={"across", "layer", "stack", "turn", "hand"})

    @cached_property
    def billet(self) -> Billet:
        """The bar before it is ground, alone or with a second beside it.

        A bar that is welded to another is squared up first; one that is drawn out alone,
        at the same width, becomes oval.
        """
        billet = bar(**self.one)
        if self.neighbour:
            hand = self.hand if self.neighbour == 1 else 1 - self.hand
            second = bar(**{**self.one, "hand": hand})
            bars = (billet.then(SquareUp()), second.then(SquareUp()))
            billet = Billet(source=Bundle(bars=bars))
        if self.drawn == 1:
            return billet
        thin = billet.size.thickness / self.drawn
        if self.neighbour:  # squared up, it is no round number's part
            return billet.then(DrawOut(thickness=in_figures(thin)))
        exact = Fraction(str(self.across)) / Fraction(str(self.drawn))  # such as 32 / 3
        return billet.then(DrawOut(thickness=float(exact)))

    @property
    def height(self) -> float:
        """Height of the ground face above the axis, mm."""
        return max(self.billet.size.thickness / 2 - self.ground, 0.0)

    @property
    def later_turn(self) -> float:
        """Length of one turn after drawing out, mm."""
        return self.turn * self.drawn

    def check(self, units: Units) -> None:
        """Refuse to grind beyond the axis."""
        half = self.billet.size.thickness / 2
        if self.ground > half + 1e-6:
            msg = (
                f"You can grind off at most half the bar, {format_length(half, units)}. "
                f"Given: {format_length(self.ground, units)}."
            )
            raise KitError(msg)

    def draw(self, units: Units, *, told: bool = True, **paper: Any) -> Scene:
        """Grind the twisted bar flat and show it; when told, other depths and slices."""
        sheet = Sheet(drawing.COLUMNS, drawing.ROWS, **paper)
        panels = (
            solid(sheet, self.billet, self.height, units),
            face(sheet, self.billet, self.height, units),
        )
        if told:
            depths(sheet, self.billet, self.height, units)
            sections(sheet, self.billet, self.later_turn)
        return Scene(
            image=sheet.image,
            alt=lambda: self._alt(panels[-1].shows, units, told=told),
            numbers=self._numbers(units),
            says=self._says(),
            panels=panels,
        )

    def remark(self, changed: str, units: Units = Units.MM) -> str:
        """Say what twist, hand, neighbour and grinding do to lines and stars."""
        if changed == "ground":
            return self._ground(units)
        if changed == "stack":
            if self.stack == 0:
                return "An odd stack has a layer on its axis, so all its stars are alike."
            return EVEN_STARS
        if changed == "neighbour":
            return self._beside()
        skin = math.degrees(math.atan(math.pi * self.across / self.turn))
        lean = line_angle(self.billet, self.height)
        star = format_length(self.later_turn / 2, units)
        layers = bar(**self.one).layers
        longer = "As long as it was twisted"
        if self.drawn != 1:
            longer = f"{self.drawn:g} times as long as it was twisted"
        points = {
            "across": (
                f"{format_length(self.across, units)} across: its skin leans {skin:.0f}°."
            ),
            "turn": (
                f"One turn in {format_length(self.turn, units)} leans the skin {skin:.0f}°."
            ),
            "layer": f"{layers} layers: finer ones give more lines, at the same angle.",
            "hand": f"{HANDS[self.hand].capitalize()} hand: its mirror image leans alike.",
            "drawn": (
                f"{longer}: the middle line leans {lean:.1f}°, stars stand {star} apart."
            ),
        }
        return points.get(changed, "")

    @property
    def starry(self) -> bool:
        """Whether the face lies so near the axis that it shows stars, and no lines."""
        return self.height < STARRY * self.billet.size.thickness

    def _ground(self, units: Units) -> str:
        if self.starry:
            return (
                "Down to the axis: the end grain, turned, lies flat in front of you as "
                "stars."
            )
        lean = line_angle(self.billet, self.height)
        if not self.ground:
            return f"Nothing ground off: at the skin the lines lean most, {lean:.1f}°."
        off = format_length(self.ground, units)
        return (
            f"{off} off: on the middle line they lean {lean:.1f}°, less than at the skin."
        )

    def _beside(self) -> str:
        if not self.neighbour:
            return "One bar alone."
        lean = line_angle(self.billet, self.height)
        if self.neighbour == 1:
            alike = (
                "so are their stars" if self.starry else f"both lean {lean:.0f}° one way"
            )
            return f"The same hand twice: the bars are alike, and {alike}."
        if self.starry:
            return (
                "Opposite hands, but so deep there are no lines to meet: the stars of one "
                "bar mirror the other's."
            )
        return (
            f"Opposite hands: the lines lean {lean:.0f}° one way and the other, and meet "
            "on "
            "the seam as chevrons."
        )

    def _says(self) -> str:
        """Say what the ground face shows, or that the twist is a tight one."""
        lean = line_angle(self.billet, self.height)
        shows = "stars in rows" if self.starry else f"lines that lean {lean:.1f}°"
        tight = too_tight(self.across, self.turn)
        return tight or f"On its middle line the face shows {shows}."

    def _numbers(self, units: Units) -> tuple[Number, ...]:
        billet, turn, height = self.billet, self.later_turn, self.height
        given = self._round()
        star = turn / 2
        stretch, words = drawing.stretch(units)
        return (
            Number(
                "Line angle on the middle line",
                f"{line_angle(billet, height):.1f}°",
                ideas.angle_working(given),
            ),
            Number(
                "Lines in one turn, counted",
                f"{lines_a_turn(billet, height, turn)}",
                ideas.lines_working(given),
            ),
            Number(
                "Stars apart",
                format_length(star, units),
                ["one star every half turn", f"= {turn:g} mm / 2", f"= {star:.4g} mm"],
            ),
            Number(
                f"Turns in {words}",
                f"{stretch / turn:.3g}",
                [f"turns = {words} / length of a turn", f"= {words} / {turn:g} mm"],
            ),
            steel_gone(billet, face=face_away(billet, height)),
        )

    def _round(self) -> dict[str, float]:
        """Give what the workings need of the round bar, before it was squared up."""
        h = round_height(self.billet, self.height)
        stack = bar(**self.one).source
        welds = np.cumsum([layer.thickness for layer in stack.layers])[:-1]
        return {
            "h": h,
            "p": self.turn,
            "wide": widened(self.across, h) if self.neighbour else 1,
            "long": self.drawn,
            "welds": int(np.count_nonzero(np.abs(welds - stack.thickness / 2) < h - HAIR)),
        }

    def _alt(self, shows: Described | None, units: Units, *, told: bool) -> str:
        billet, height = self.billet, self.height
        off = format_length(billet.size.thickness / 2 - height, units)
        lean = f"; on the middle line they lean {line_angle(billet, height):.0f} degrees"
        shape = f"{shows}{lean}"
        if self.starry:
            shape = "rows of stars"
        below = (
            " Below, five slices in which the layers turn, and five faces, from the skin, "
            "striped, to the axis, with stars."
            if told
            else ""
        )
        return (
            f"A bar {format_length(self.across, units)} across with "
            f"{bar(**self.one).layers} layers, {HANDS[self.hand]} hand twist, one turn in "
            f"{format_length(self.later_turn, units)}{BESIDE[self.neighbour]}, ground "
            f"flat, {off} off the top: its face shows {shape}.{below}"
        )
