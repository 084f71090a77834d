"""A bar you bought: how thick to buy it, the blade out of it, and what its face will be."""

from __future__ import annotations

import math
from functools import cached_property
from typing import TYPE_CHECKING, Any, ClassVar, get_args

from kit.basics.declare import choice, quantity
from kit.basics.errors import KitError
from kit.basics.told import counted
from kit.basics.units import (
    Units,
    format_beside,
    format_length,
    format_temperature,
    format_thin,
)
from kit.course.lessons import bevels, bought_drawing, bought_told
from kit.course.lessons.base import Lesson
from kit.course.lessons.scene import FORGED, Number, Panel, Scene
from kit.metal.bath import BITES, Strength
from kit.metal.bite import BITE, ILLUSTRATIVE, Etch, between
from kit.metal.etch import TONES
from kit.metal.hardening import TEMPERED, WINDOW
from kit.metal.pairs import pair
from kit.metal.transformation import STARTS
from kit.metal.working_heat import SCALE, scale_loss
from kit.section.grind import KINDS, BladeGrind
from kit.section.outline import Outline
from kit.section.picture import Sheet
from kit.shop.bought import AS_BOUGHT, BOUGHT, DEEP, FLAT, RAINDROP, STEELS, TWIST, bar

if TYPE_CHECKING:
    from kit.forge.billet import Billet

STRENGTHS = get_args(Strength)
LEAST_EDGE = 0.1  # mm, after the fire: our choice, as are the bevel and the wheel below
WHEEL = 200.0  # mm


class BoughtLesson(Lesson):
    """The bar as it was bought, the blade wanted, the fire and the bath."""

    key: ClassVar = "bought"
    number: ClassVar = "bought"
    title: ClassVar = "A bar you bought"
    main: ClassVar = "thickness"
    fine: ClassVar = ILLUSTRATIVE
    cues: ClassVar = ("thickness", "bought", "spine", "celsius", "minutes")

    bought: int = choice("Sold as", BOUGHT, default=RAINDROP)
    layers: int = quantity(
        "Layers", "told by the seller", low=20, high=320, default=40, step=5
    )
    thickness: float = quantity(
        "How thick to buy", "the bar, before anything is ground", low=2.5,
        high=bought_told.MOST, unit="mm", default=6, step=0.1, inch=1 / 32,
    )  # fmt: skip
    skin: float = quantity(
        "Surface grinding", "off each face, till bar and blade are clean and flat", low=0,
        high=0.6, unit="mm", default=0.3, step=0.05, inch=1 / 64,
    )  # fmt: skip
    spine: float = quantity(
        "Grind the spine to", "before hardening", low=1.5, high=10, unit="mm", default=4,
        step=0.1, inch=1 / 64,
    )  # fmt: skip
    edge: float = quantity(
        "Edge before hardening", "its thickness", low=0.2, high=2, unit="mm", default=0.8,
        step=0.05, inch=1 / 64,
    )  # fmt: skip
    height: float = quantity(
        "Blade height", "from edge to spine", low=15, high=40, unit="mm", default=28
    )
    kind: int = choice("Bevel", KINDS)
    celsius: float = quantity(
        "Hardening heat", "of the whole blade", low=700, high=1000, unit="°C", default=810,
        step=5,
    )  # fmt: skip
    hot: float = quantity(
        "Time at heat", "in air, bare", low=0, high=30, unit="min", default=5
    )
    minutes: float = quantity(
        "Etch time", "in the bath", low=0, high=30, unit="min", default=10
    )
    strength: int = choice("Etchant", STRENGTHS, default=1)

    stations: ClassVar = {
        "1 Bar": ("bought", "layers", "skin"),
        "2 Blade": ("spine", "edge", "height", "kind"),
        "3 Fire and bath": ("celsius", "hot", "minutes", "strength"),
    }
    gives: ClassVar = ("edge",)
    shuts: ClassVar = {
        "It is not etched: there is no bath.": (lambda job: not job.minutes, "strength"),
        "The edge is as thick as the spine: no bevel.": (
            lambda job: job.back <= job.edge,
            "kind",
        ),
    }

    def check(self, units: Units) -> None:
        """Refuse what cannot be ground.

        Raises
        ------
        KitError
            An edge that the scale would eat, or thicker than the spine.
        """
        least = LEAST_EDGE + 2 * self.scale
        if self.edge < least:
            msg = (
                f"The fire would eat the edge: leave at least "
                f"{format_length(least, units)} before hardening. "
                f"Given: {format_length(self.edge, units)}."
            )
            raise KitError(msg)
        if self.edge > self.back:
            msg = (
                f"The edge must be thinner than the spine, "
                f"{format_length(self.back, units)}. "
                f"Given: {format_length(self.edge, units)}."
            )
            raise KitError(msg)

    @property
    def bar(self) -> Billet:
        """The bar as it was bought, alike from both faces, with width to spare."""
        width = self.height + bevels.BESIDE
        return bar(self.layers, self.bought, self.thickness, width, "opposite")

    @cached_property
    def scale(self) -> float:
        """What the hardening heat takes off each face as scale, mm."""
        return scale_loss(self.celsius, self.hot) if self.hot else 0.0

    @property
    def back(self) -> float:
        """The spine before hardening, mm: as wished, or what grinding leaves of the bar."""
        return min(self.spine, self.thickness - 2 * self.skin)

    @property
    def off(self) -> float:
        """What is ground off each flat in all, before and after the fire, mm."""
        return (self.thickness - self.back) / 2 + self.scale

    @property
    def finished(self) -> float:
        """The edge with its scale taken off, before it is sharpened, mm."""
        return self.edge - 2 * self.scale

    @cached_property
    def grind(self) -> BladeGrind:
        """The finished blade: ground, hardened, its scale taken off."""
        spine, deep = self.back - 2 * self.scale, (self.back - self.edge) / 2
        bevel = 0.6 * self.height
        if KINDS[self.kind] == "hollow" and deep:  # no higher than the wheel allows
            bevel = min(bevel, 0.999 * math.sqrt((2 * WHEEL - deep) * deep))
        return BladeGrind(
            outline=Outline(family="drop", length=bevels.LENGTH, height=self.height),
            kind=KINDS[self.kind],
            spine=spine,
            edge=self.finished,
            bevel=bevel,
            wheel=WHEEL,
            ricasso=bevels.RICASSO,
            plunge=max(deep, 0.1),
        )

    @property
    def least(self) -> float:
        """The thinnest bar that has the wished spine in it, mm."""
        return self.spine + 2 * self.skin

    @property
    def left(self) -> float:
        """How many layers of its pattern the bar keeps at the edge.

        Of rungs and drops, the layers met from their middle to beside them: as many as
        on the face, and evenly fewer towards the middle plane, where those of the other
        face begin. A twist goes to the middle. Of flat layers, those that a bevel meets.
        """
        if self.bought == TWIST:
            return math.inf
        if self.bought == FLAT:
            return (self.back - self.edge) / 2 / self.layer
        return self.shown * self.finished / self.thickness

    @property
    def shown(self) -> float:
        """Layers met on the face of the bar, from a drop's middle to beside it."""
        return DEEP * self.layers

    @property
    def most(self) -> float:
        """The thickest bar that still keeps a layer of its pattern at the edge, mm."""
        if self.bought == TWIST:
            return math.inf
        if self.bought == FLAT:
            return self.layers * max(self.spine - self.edge, 0) / 2
        return self.shown * self.finished

    @property
    def steep(self) -> float:
        """The same, should a pattern fade with the square of the depth; see `Hollows`."""
        return math.sqrt(self.shown) * self.finished

    @property
    def layer(self) -> float:
        """Thickness of a layer in the bar, mm."""
        return self.thickness / self.layers

    @property
    def etch(self) -> Etch:
        """The last etch."""
        return Etch(minutes=self.minutes, strength=STRENGTHS[self.strength])

    @property
    def relief(self) -> tuple[float, float]:
        """Step between the two steels, µm, and their contrast, after the last etch."""
        found = between(STEELS, self.etch)
        return found.relief, found.contrast

    @cached_property
    def heats(self) -> tuple[float, float]:
        """Between what heats both steels harden together, °C."""
        return pair(*STEELS).hardening.heats

    @property
    def hardening(self) -> str:
        """What the chosen heat does."""
        coldest, hottest = self.heats
        if self.celsius < coldest:
            return "too cold: it would stay soft"
        if self.celsius > hottest:
            return "too hot: grains grow, and it turns brittle"
        return "both steels harden; temper at once"

    def draw(self, units: Units, *, told: bool = True, **paper: Any) -> Scene:
        """Show bar and blade in four states at one scale, the edge larger, and sawn."""
        del told
        sheet = Sheet(*bought_drawing.SHEET, **paper)
        panels = bought_drawing.drawn(sheet, self, units)
        return Scene(
            image=sheet.image,
            alt=self._alt(*panels, units),
            numbers=self._numbers(units),
            says=bought_told.advice(self, units),
            panels=panels,
        )

    def remark(self, changed: str, units: Units = Units.MM) -> str:
        """Say how thick to buy, or what fire and bath do."""
        if changed in ("celsius", "hot"):
            scale = format_length(self.scale, units) if self.scale else "nothing"
            return f"Hardening: {self.hardening}. Its scale takes {scale} off every face."
        if changed in ("minutes", "strength"):
            return self._etched(units)
        if changed in ("kind", "height"):
            met = counted(round(self.grind.crossed(self.layer).lines), "layer")
            named = f"Height {format_length(self.height, units)}"
            name = KINDS[self.kind].capitalize() if changed == "kind" else named
            return f"{name}: the bevel meets {met}."
        return bought_told.advice(self, units)

    def _etched(self, units: Units) -> str:
        if self.minutes == 0:
            return (
                f"Not etched, in whatever bath ({self.etch.strength}): the pattern waits."
            )
        step = format_thin(self.relief[0] / 1000, units)
        return f"{counted(self.minutes, 'minute')}, {self.etch.strength}: a step of {step}."

    def _numbers(self, units: Units) -> tuple[Number, ...]:
        crossed = self.grind.crossed(self.layer)
        relief, contrast = self.relief
        celsius, fahrenheit = (format_temperature(self.celsius, unit) for unit in "CF")
        spacing = format_length(crossed.spacing, units) if crossed.lines else "none"
        off = format_length(self.off, units)
        lines = [
            f"layer = {self.thickness:g} mm / {self.layers:g} = {self.layer:.3f} mm",
            "lines = (spine - edge) / 2 / layer",
            f"= {crossed.lines:.1f}",
        ]
        bath = f"bath {self.etch.strength}, otherwise as usual (lesson 09)"
        return (
            Number("Gone from each flat", off, self._off_working(), (FORGED, SCALE)),
            self._left(),
            Number(
                "Layers met on a bevel; mean spacing",
                f"{crossed.lines:.0f}; {spacing}",
                lines,
            ),
            Number(
                f"At {celsius} ({fahrenheit})",
                self.hardening,
                self._window_working(),
                (WINDOW, STARTS, TEMPERED),
            ),
            Number(
                "Etched relief, contrast (illustrative)",
                f"{relief:.1f} µm, {contrast:.2f}",
                [f"{self.minutes:g} min, {bath}" if self.minutes else "not etched"],
                (TONES, BITE, BITES),
            ),
        )

    def _left(self) -> Number:
        """Give what is left of the pattern at the edge."""
        left = self.left
        name = "Left of the pattern at the edge"
        if self.bought == TWIST:
            return Number(name, "all of it", ["a twist goes to the middle of the bar"])
        if self.bought == FLAT:
            working = [
                "layers that a bevel meets = (spine - edge) / 2 / layer",
                f"= ({self.back:g} mm - {self.edge:g} mm) / 2 / {self.layer:.4g} mm",
                f"= {left:.1f}",
            ]
            return Number(name, f"{left:.1f} layers", working)
        working = [
            f"on the face {DEEP:g} x {self.layers:g} = {self.shown:g} layers",
            "evenly fewer to the middle: x finished edge / bar",
            f"= {self.shown:g} x {self.finished:.3f} mm / {self.thickness:g} mm",
            f"should it fade with the square of the depth: lost above {self.steep:.2f} mm",
            f"= {left:.2f}",
        ]
        return Number(
            name, f"{left:.1f} of {self.shown:g} layers", working, (FORGED, AS_BOUGHT)
        )

    def _off_working(self) -> list[str]:
        return [
            f"scale: bare, in air, {self.hot:g} min at {self.celsius:g} °C (lesson 08)",
            "(bar - spine) / 2 + scale of the hardening heat",
            f"= ({self.thickness:g} mm - {self.back:g} mm) / 2 + {self.scale:.3f} mm",
            f"= {self.off:.3f} mm",
        ]

    def _window_working(self) -> list[str]:
        low, high = (format_temperature(heat, "C") for heat in self.heats)
        return [
            "1084 and 15N20, carbon evened out: a window from both steels' Ac1 (lesson 08)",
            f"{low} to {high}",
            self.hardening,
        ]

    def _alt(self, bar: Panel, blade: Panel, units: Units) -> str:
        lines = self.grind.crossed(self.layer).lines
        name = BOUGHT[self.bought]
        bought = f"bar of {name}" if self.bought == FLAT else f"{name} bar"
        off = format_beside(self.off, self.thickness, units)
        return (
            f"Four states at one scale. A bought {bought}, "
            f"{format_length(self.thickness, units)} thick, a blade's outline on it: it "
            f"shows {bar.shows}. Ground, the blade is bright and bare; hardened and "
            f"tempered, grey and bare; etched again {counted(self.minutes, 'minute')}, "
            f"{off} gone from each flat, it shows {blade.shows}. A bevel cuts {lines:.0f} "
            f"layers. Below, its edge larger, and the blade sawn across inside the bar."
        )
