"""Lesson 03: draw out. Steel is moved, not made."""

import math
from functools import cached_property
from typing import Any, ClassVar

import numpy as np
from PIL import Image

from kit.basics.declare import quantity
from kit.basics.units import Units, format_length, in_figures
from kit.course.lesson import Given
from kit.course.lessons import draw_ideas as ideas
from kit.course.lessons import drawing
from kit.course.lessons.base import Lesson
from kit.course.lessons.draw_drawing import (
    DOT,
    Marks,
    bar_words,
    before_and_after,
    ink,
    pair,
)
from kit.course.lessons.scene import Number, Panel, Part, Scene
from kit.forge.billet import Billet
from kit.forge.stack import Stack
from kit.forge.steps import DrawOut
from kit.metal import etch
from kit.section.picture import Sheet
from kit.section.surface import Plane

PIECES = 10  # in the lesson's stack, ours
TILE_PIXEL = 0.12  # mm
OWN = "Common practice, no source: weigh your own."
PLACEHOLDER = (
    "A loss of 8 % is a placeholder until you have your own number: common practice, no "
    "source. Weigh a bar before and after."
)


def dot_shape(ratio: float) -> tuple[float, float]:
    """Give the length and height, mm, of a dot that somebody expects.

    Below one it stayed round and shrank by so much. Otherwise it keeps its area, as a
    dot on the side does while the width is held.
    """
    if ratio < 1:
        return DOT * ratio, DOT * ratio
    return DOT * math.sqrt(ratio), DOT / math.sqrt(ratio)


def tile(ratio: float) -> tuple[Image.Image, str]:
    """Draw the dot on the drawn-out bar that somebody with this idea expects."""
    billet = DrawLesson().billet
    size, middle = billet.size, billet.size.length / 2
    centre = (middle, -size.width / 2, 0.0)  # tiles are cropped at both ends
    plane = Plane.facing(size, "side", centre, (200, 150), TILE_PIXEL)
    long, high = dot_shape(ratio)
    around = np.linspace(0, 2 * math.pi, 73)
    x, z = middle + long / 2 * np.cos(around), high / 2 * np.sin(around)
    sheet = Sheet(200, 150)
    sheet.steel(etch.seen(billet, plane), (0, 0))
    ink(sheet, plane, (0, 0), Marks(((x, z, z),)))
    return sheet.image, f"A flat-layered bar; the dot {_words(ratio)}."


def _words(ratio: float) -> str:
    if ratio < 1:
        return "still round, but smaller"
    return "unchanged" if ratio == 1 else f"{ratio:.1f} times as long as high"


def _show(ratio: float) -> str:
    if ratio < 1:
        return "smaller dot"
    return "unchanged" if ratio == 1 else f"{ratio:.1f} : 1"


class DrawLesson(Lesson):
    """A billet that is drawn out, seen from the side."""

    key: ClassVar = "03"
    title: ClassVar = "Steel is moved, not made"
    main: ClassVar = "thickness"
    phone: ClassVar = (  # the bar before and after, and the dot
        Part(10, 34, 380, 109, 0.5),
        Part(10, 140, 1000, 216, 0.5),
        Part(0, 268, 238, 412),
        Part(240, 296, 712, 412),
    )
    cues: ClassVar = ("thickness", "spread")

    thickness: float = quantity(
        "Draw to thickness", "of the bar afterwards", low=4, high=32, unit="mm",
        default=12, step=0.5,
    )  # fmt: skip
    spread: float = quantity(
        "Let it spread", "how much wider the bar may get; 0 % holds the width", low=0,
        high=40, unit="%", default=0, step=5,
    )  # fmt: skip
    loss: float = quantity(
        "Scale and trim loss", PLACEHOLDER, low=0, high=40, unit="%", default=8
    )
    length: float = quantity(
        "Start length", "of the billet", low=50, high=400, unit="mm", default=150,
        inch=1 / 4,
    )  # fmt: skip
    width: float = quantity(
        "Start width", "of the billet", low=15, high=80, unit="mm", default=38,
        inch=1 / 8,
    )  # fmt: skip
    start: float = quantity(
        "Start thickness", "of the billet: ten pieces, all alike", low=10, high=60,
        unit="mm", default=32, inch=1 / 8,
    )  # fmt: skip

    stations: ClassVar = {
        "1 Billet": ("length", "width", "start"),
        "2 Draw out": ("thickness", "spread", "loss"),
    }
    opens: ClassVar = 1  # the billet is there: the next thing is to draw it out
    fine: ClassVar = PLACEHOLDER

    question: ClassVar = ideas.TOLD.question(
        given={"T": 32.0, "t": 12.0, "W": 38.0, "w": 38.0},
        tiles=(ideas.SHRUNK, ideas.ONE_WAY, ideas.BOTH_WAYS, ideas.UNCHANGED),
        right=ideas.BOTH_WAYS,
        show=_show,
        draw=tile,
    )
    # the billet is drawn out, heat by heat, and loses scale as it goes
    film: ClassVar = tuple(
        {
            "thickness": round(22 + 10 * math.cos(math.pi * frame / 15), 2),
            "loss": float(round(8 * frame / 15)),
        }
        for frame in range(16)
    )
    checks: ClassVar = (ideas.BAR_LENGTH, ideas.DOT_RATIO, ideas.LINE_ANGLE)

    shuts: ClassVar = {
        "Nothing is drawn out yet, so nothing is lost.": (lambda job: not job.moved, "loss")
    }

    @property
    def moved(self) -> bool:
        """Whether anything is forged at all; if not, nothing is lost either."""
        return self.spread > 0 or self.thickness != self.start

    @property
    def given(self) -> Given:
        """The values that the formulas know, mm and per cent."""
        return {
            "L": self.length,
            "W": self.width,
            "T": self.start,
            "w": in_figures(self.width * (1 + self.spread / 100)),
            "t": self.thickness,
            "loss": self.loss if self.moved else 0,
        }

    @cached_property
    def billet(self) -> Billet:
        """Ten pieces of 1084 and 15N20 in turn, drawn out."""
        stack = Stack.alternate(
            "1084",
            "15N20",
            pieces=PIECES,
            thickness=self.start / PIECES,
            length=self.length,
            width=self.width,
        )
        width = self.given["w"] if self.spread else None
        draw = DrawOut(thickness=self.thickness, width=width)
        return Billet(source=stack).then(draw)

    def draw(self, units: Units, *, told: bool = True, **paper: Any) -> Scene:
        """Draw the bar from the side, before and after, with its numbers."""
        # told or not: until then it is as thick as it was, which gives nothing away
        sheet = Sheet(drawing.COLUMNS, drawing.ROWS, **paper)
        panels = before_and_after(sheet, self.billet, self.given, units)
        return Scene(
            image=sheet.image,
            alt=lambda: self._alt(panels[3], units),
            numbers=self._numbers(units),
            says=self._says(),
            panels=panels,
        )

    def remark(self, changed: str, units: Units = Units.MM) -> str:
        """Say what nothing, spreading, upsetting and losing do."""
        if not self.moved:
            return (
                "Drawn to the thickness it had: nothing moved. Not heated, so nothing is "
                "lost."
            )
        if changed in {"loss", "spread"}:
            return self._left(changed, units)
        if changed in {"length", "width"}:
            size = format_length(getattr(self, changed), units)
            if changed == "length":
                return (
                    f"Start length {size}: the dot and the line do not care. They follow "
                    "how much, not how large."
                )
            return (
                f"Start width {size}, and the bar is as long as before! Only what is "
                "squeezed away comes out as length."
            )
        if self.thickness > self.start:
            return (
                "Thicker than it was. That is upsetting: shorter bar, dots that stand up."
            )
        return self._squared() if changed == "start" else self._grown(units) or self._says()

    def _squared(self) -> str:
        """Say that the dot's shape goes with the square, where the width is held."""
        given = self.given
        times = 1 / ideas.thinner(given)
        if self.spread:
            return self._says()
        return (
            f"{times:.3g} times thinner, {times:.3g} times longer: the dot feels both and "
            f"is {times * times:.3g} times as long as high."
        )

    def _grown(self, units: Units) -> str:
        """Say what the last millimetre made, against the first ones."""
        given, each = self.given, ideas.thinner_by(units)
        grown = ideas.growth(given, units)
        slow = ideas.outgrown(given, each) if grown else 0
        if slow < 2 * each:
            return ""
        many = ideas.steps_told(slow, units)
        ratio = ideas.BOTH_WAYS.value(given)
        return (
            f"The last {grown.step} alone made the bar {grown.last} longer: more than the "
            f"first {many} together. The dot is {ratio:.3g} times as long as high."
        )

    def _left(self, changed: str, units: Units) -> str:
        """Say what spreading and losing leave of the length."""
        full = format_length(ideas.full_length(self.given), units)
        kept = format_length(ideas.kept_length(self.given), units)
        if changed == "loss":
            left = f"{self.loss:g} % lost: {kept} of {full} is left"
            return f"{left if self.loss else f'Nothing lost: all {full} is there'}. {OWN}"
        if not self.spread:
            return f"The width is held: all goes into the length, {full} before losses."
        held = ideas.full_length({**self.given, "w": self.width})
        lacks = format_length(held - ideas.full_length(self.given), units)
        wider = f"{self.spread:g} % wider, and {lacks} of length are gone"
        return f"{wider}: {full} before losses."

    def _says(self) -> str:
        given = self.given
        along, through = ideas.longer(given), ideas.thinner(given)
        if along == through == 1:
            return "Not drawn out yet: as long and as thick as before, the dot still round."
        return (
            f"{along:.3g} times as long and {through:.3g} times as thick, so the dot is "
            f"{along / through:.3g} times as long as high."
        )

    def _numbers(self, units: Units) -> tuple[Number, ...]:
        given = self.given
        along, through = ideas.longer(given), ideas.thinner(given)
        layer = given["T"] / PIECES
        return (
            self._length(units),
            Number(
                "Stretch",
                f"× {along:.3g}",
                [
                    "stretch = length after / length before, nothing lost",
                    f"= {ideas.full_length(given):.5g} mm / {given['L']:g} mm",
                    f"= {along:.3g}",
                ],
            ),
            Number(
                "One layer",
                pair(layer, layer * through, units).replace("by", "→"),
                [
                    "layers get thinner as the bar does",
                    f"= {layer:.4g} mm × {given['t']:g} mm / {given['T']:g} mm",
                    f"= {format_length(layer * through)}",
                ],
            ),
            Number(
                f"Dot of {format_length(DOT, units)}",
                pair(DOT * along, DOT * through, units).replace("by", "×"),
                [
                    f"longer: {DOT:g} mm × {along:.4g} = {format_length(DOT * along)}",
                    f"thinner: {DOT:g} mm × {through:.4g} = {format_length(DOT * through)}",
                    *ideas.dot_working(given)[2:],
                ],
            ),
            Number(
                "Line at 45°",
                f"{ideas.angle_after(given):.1f}°",
                ideas.angle_working(given),
            ),
        )

    def _length(self, units: Units) -> Number:
        given = self.given
        full = format_length(ideas.full_length(given), units)
        if not given["loss"]:
            return Number("Length", full, ideas.length_working(given))
        both = pair(ideas.full_length(given), ideas.kept_length(given), units)
        name = f"Length → less {given['loss']:g} %"
        return Number(name, both.replace("by", "→"), ideas.length_working(given))

    def _ends(self, units: Units) -> str:
        """Tell of the marks on the ruler."""
        grown = ideas.growth(self.given, units)
        if not grown:
            return ""
        return (
            f"; marks on the ruler show its end, nothing lost, each {grown.step} thinner, "
            f"at first {grown.first} apart, at last {grown.last}"
        )

    def _alt(self, close: Panel, units: Units) -> str:
        given = self.given
        along, through = ideas.longer(given), ideas.thinner(given)
        layer = given["T"] / PIECES * through
        loss = ""
        if given["loss"]:
            kept = format_length(ideas.kept_length(given), units)
            loss = f", of which {given['loss']:g} percent is lost and {kept} is left"
        size, dot = bar_words(given, units), format_length(DOT, units)
        lean = f"{ideas.angle_after(given):.1f} degrees"
        return (
            f"Side view of a bar of {PIECES} layers, to scale. Before, faint: {size[0]}, "
            f"with a line at 45 degrees and two round dots of {dot}. After: "
            f"{size[1]}{loss}{self._ends(units)}; the line lies at {lean}, each dot is "
            f"{format_length(DOT * along, units)} long and "
            f"{format_length(DOT * through, units)} high, each layer "
            f"{format_length(layer, units)} thick. Below, the end of the bar, and one dot "
            f"closer, before and after: there the bar shows {close.shows}."
        )
