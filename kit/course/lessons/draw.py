"""Lesson 03: draw out. Steel is moved, not made."""

from __future__ import annotations

from kit.basics.declare import quantity
from kit.basics.units import Units, format_length
from kit.course.lesson import Given
from kit.course.lessons import draw_side, drawing
from kit.course.lessons.draw_ideas import (
    angle_after,
    angle_working,
    dot_working,
    full_length,
    kept_length,
    length_working,
    longer,
    thinner,
)
from kit.course.lessons.draw_marks import DOT
from kit.course.lessons.job import Job as Base
from kit.course.lessons.scene import Number, Panel, Scene
from kit.forge.billet import Billet
from kit.forge.stack import Stack
from kit.forge.steps import DrawOut
from kit.section.picture import Sheet

PIECES = 10
PLACEHOLDER = (
    "A loss of 8 % is a placeholder until you have your own number: common practice, no "
    "source. Weigh a bar before and after."
)


class Job(Base):
    """A billet, and what it is to be drawn out to."""

    length: float = quantity(
        "Start length", "of the billet", low=50, high=400, unit="mm", default=150
    )
    width: float = quantity(
        "Start width", "of the billet", low=15, high=80, unit="mm", default=38
    )
    start: float = quantity(
        "Start thickness",
        "of the billet: ten pieces, all alike",
        low=10,
        high=60,
        unit="mm",
        default=32,
    )
    thickness: float = quantity(
        "Draw to thickness", "of the bar afterwards", low=4, high=32, unit="mm", default=12
    )
    spread: float = quantity(
        "Let it spread",
        "how much wider the bar may get; 0 % holds the width",
        low=0,
        high=40,
        unit="%",
        default=0,
    )
    loss: float = quantity(
        "Scale and trim loss", PLACEHOLDER, low=0, high=40, unit="%", default=8
    )

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
            "w": self.width * (1 + self.spread / 100),
            "t": self.thickness,
            "loss": self.loss if self.moved else 0,
        }

    @property
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


def scene(*, units: Units = Units.MM, sunlit: bool = False, **settings: float) -> Scene:
    """Draw the billet out; show it from the side, before and after, with its numbers.

    `settings` are those of `Job`; what is left out stands as it is there.
    """
    job = Job.asked(settings, units)
    billet, given = job.billet, job.given
    sheet = Sheet(drawing.COLUMNS, drawing.ROWS, sunlit=sunlit)
    panels = draw_side.draw(sheet, billet, given, units)
    return Scene(
        image=sheet.image,
        alt=_alt(given, panels[3], units),
        numbers=_numbers(given, units),
        panels=panels,
    )


def _numbers(given: Given, units: Units) -> tuple[Number, ...]:
    along, through = longer(given), thinner(given)
    layer = given["T"] / PIECES
    return (
        _length(given, units),
        Number(
            "Stretch",
            f"× {along:.3g}",
            [
                "stretch = length after / length before, nothing lost",
                f"= {format_length(full_length(given))} / {given['L']:g} mm",
                f"= {along:.3g}",
            ],
        ),
        Number(
            "One layer",
            draw_side.pair(layer, layer * through, units).replace("by", "→"),
            [
                "layers get thinner as the bar does",
                f"{layer:.3g} mm × {given['t']:g} / {given['T']:g}",
                f"= {format_length(layer * through)}",
            ],
        ),
        Number(
            f"Dot of {format_length(DOT, units)}",
            draw_side.pair(DOT * along, DOT * through, units).replace("by", "×"),
            [
                f"longer: {DOT:g} mm × {along:.3g} = {format_length(DOT * along)}",
                f"thinner: {DOT:g} mm × {through:.3g} = {format_length(DOT * through)}",
                *dot_working(given)[2:],
            ],
        ),
        Number(
            "Line at 45°",
            f"{angle_after(given):.1f}°",
            angle_working(given),
        ),
    )


def _length(given: Given, units: Units) -> Number:
    full = format_length(full_length(given), units)
    if not given["loss"]:
        return Number("Length", full, length_working(given))
    kept = format_length(kept_length(given), units)
    name = f"Length (with {given['loss']:g} % lost)"
    return Number(name, f"{full} ({kept})", length_working(given))


def _alt(given: Given, close: Panel, units: Units) -> str:
    along, through = longer(given), thinner(given)
    layer = given["T"] / PIECES * through
    loss = ""
    if given["loss"]:
        kept = format_length(kept_length(given), units)
        loss = f", of which {given['loss']:g} percent is lost and {kept} is left"
    size, dot = draw_side.bar_words(given, units), format_length(DOT, units)
    return (
        f"Side view of a bar of {PIECES} layers, to scale. "
        f"Before, faint: {size[0]}, with a line at 45 degrees and two round dots of {dot}. "
        f"After: {size[1]}{loss}; the line lies at {angle_after(given):.1f} degrees, "
        f"each dot is {format_length(DOT * along, units)} long and "
        f"{format_length(DOT * through, units)} high, each layer "
        f"{format_length(layer, units)} thick. Below, the end of the bar, and one dot "
        f"closer, before and after: there the bar shows {close.shows}."
    )


def remark(changed: str, state: dict[str, float]) -> str:
    """Say what a change of one control did, where that is the point of it."""
    job = Job(**state)
    if not job.moved:
        return (
            "Drawn to the thickness it had: nothing moved. Not heated, so nothing is lost."
        )
    if changed == "loss":
        return PLACEHOLDER
    if job.thickness > job.start:
        return "Thicker than it was. That is upsetting: shorter bar, dots that stand up."
    if changed == "spread" and job.spread:
        return "What goes into the width does not go into the length."
    if changed in {"length", "width"}:
        return "The dot and the line do not care: they follow how much, not how large."
    return ""
