"""Lesson 11, a bar you bought: the blade out of it, and what its face will be."""

from __future__ import annotations

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
from kit.course.lessons import bevels
from kit.course.lessons.base import Lesson
from kit.course.lessons.scene import FORGED, Number, Panel, Scene
from kit.metal.bath import BITES, Strength
from kit.metal.bite import BITE, ILLUSTRATIVE, Etch, between, bitten
from kit.metal.etch import TONES
from kit.metal.hardening import TEMPERED, WINDOW
from kit.metal.pairs import pair
from kit.metal.transformation import STARTS
from kit.metal.working_heat import SCALE, scale_loss
from kit.section.blade import Blade, Section, Spine
from kit.section.grind import KINDS, BladeGrind
from kit.section.outline import Outline
from kit.section.picture import QUIET, Sheet
from kit.section.surface import Plane
from kit.section.trace import see
from kit.shop.bought import BOUGHT, FLAT, STEELS, bar

if TYPE_CHECKING:
    from kit.forge.billet import Billet

STRENGTHS = get_args(Strength)
AS_SOLD = Etch(wear=30)  # etched in the usual way and handled since: illustrative
SURVIVE = "the grind takes you to another cut below the face you saw."
LEAST_EDGE = 0.1  # mm, after the fire: our choice, as are the bevel and the wheel below
SHEET = 1000, 480
BAR = (20, 34, 720, 140)  # left, top, columns, most rows
BLADE = (20, 236, 720, 190)
SECTION = (800, 60, 180, 330)
HAIR = 1e-4  # mm: just inside the skin


def tones(etch: Etch) -> dict[str, float]:
    """Give each steel's tone after an etch: illustrative."""
    return {name: found.tone for name, found in bitten(STEELS, etch).items()}


class BoughtLesson(Lesson):
    """The bar as it was bought, the blade wanted, the fire and the bath."""

    key: ClassVar = "bought"
    number: ClassVar = "11"
    title: ClassVar = "A bar you bought"
    main: ClassVar = "thickness"
    cues: ClassVar = ("bought", "spine", "celsius", "minutes")

    bought: int = choice("Sold as", BOUGHT, default=1)
    layers: int = quantity(
        "Layers", "told by the seller", low=20, high=320, default=60, step=5
    )
    thickness: float = quantity(
        "Bar thickness", "as you bought it", low=2.5, high=10, unit="mm", default=6,
        step=0.1, inch=1 / 64,
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
        "1 Bar": ("bought", "layers", "thickness"),
        "2 Blade": ("spine", "edge", "height", "kind"),
        "3 Fire and bath": ("celsius", "hot", "minutes", "strength"),
    }
    gives: ClassVar = ("spine", "edge")

    def check(self, units: Units) -> None:
        """Refuse what cannot be ground.

        Raises
        ------
        KitError
            A spine thicker than the bar, an edge that the scale would eat.
        """
        if self.spine > self.thickness + 1e-6:
            msg = (
                f"The spine can be at most as thick as the bar, "
                f"{format_length(self.thickness, units)}. "
                f"Given: {format_length(self.spine, units)}."
            )
            raise KitError(msg)
        least = LEAST_EDGE + 2 * self.scale
        if self.edge < least:
            msg = (
                f"The fire would eat the edge: leave at least "
                f"{format_length(least, units)} before hardening. "
                f"Given: {format_length(self.edge, units)}."
            )
            raise KitError(msg)
        if self.edge > self.spine:
            msg = (
                f"The edge must be thinner than the spine, "
                f"{format_length(self.spine, units)}. "
                f"Given: {format_length(self.edge, units)}."
            )
            raise KitError(msg)

    @property
    def bar(self) -> Billet:
        """The bar as it was bought: with the blade's width to spare."""
        return bar(self.layers, self.bought, self.thickness, self.height + bevels.BESIDE)

    @cached_property
    def scale(self) -> float:
        """What the hardening heat takes off each face as scale, mm."""
        return scale_loss(self.celsius, self.hot) if self.hot else 0.0

    @property
    def off(self) -> float:
        """What is ground off each flat in all, before and after the fire, mm."""
        return (self.thickness - self.spine) / 2 + self.scale

    @property
    def grind(self) -> BladeGrind:
        """The finished blade: ground, hardened, its scale taken off."""
        spine = self.spine - 2 * self.scale
        edge = self.edge - 2 * self.scale
        return BladeGrind(
            outline=Outline(family="drop", length=bevels.LENGTH, height=self.height),
            kind=KINDS[self.kind],
            spine=spine,
            edge=edge,
            bevel=0.6 * self.height,
            wheel=200,
            ricasso=bevels.RICASSO,
            plunge=max((spine - edge) / 2, 0.1),
        )

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

    @property
    def heats(self) -> tuple[float, float] | None:
        """Between what heats both steels harden together, °C."""
        return pair(*STEELS).hardening.heats

    @property
    def hardening(self) -> str:
        """What the chosen heat does."""
        heats = self.heats
        if heats is None:
            return pair(*STEELS).hardening.sentence
        if self.celsius < heats[0]:
            return "too cold: it would stay soft"
        if self.celsius > heats[1]:
            return "too hot: grains grow, and it turns brittle"
        return "both steels harden; temper at once"

    def draw(self, units: Units, *, told: bool = True, **paper: Any) -> Scene:
        """Grind the bar to a blade, harden, temper, clean and etch it; show both faces."""
        del told
        sheet = Sheet(*SHEET, **paper)
        panels = self._bar(sheet, units), self._blade(sheet, units)
        self._sawn(sheet, units)
        return Scene(
            image=sheet.image,
            alt=self._alt(*panels, units),
            numbers=self._numbers(units),
            says=ILLUSTRATIVE,
            panels=panels,
        )

    def remark(self, changed: str, units: Units = Units.MM) -> str:
        """Say what the change did to blade, pattern, fire or bath."""
        if changed in ("celsius", "hot"):
            scale = format_length(self.scale, units) if self.scale else "nothing"
            return f"Hardening: {self.hardening}. Its scale takes {scale} off every face."
        if changed in ("minutes", "strength"):
            return self._etched(units)
        if changed == "bought":
            flat = (
                "only the grind's slant brings lines." if self.bought == FLAT else SURVIVE
            )
            return f"Sold as {BOUGHT[self.bought]}: {flat}"
        crossed, off = self.grind.crossed(self.layer), format_length(self.off, units)
        met = counted(round(crossed.lines), "layer") if crossed.lines else "no layer"
        if changed in ("thickness", "spine"):
            deeper = "the deeper, the less it is like the bar."
            flat = "flat layers show only where it slants."
            return f"{off} goes from each flat: {flat if self.bought == FLAT else deeper}"
        size = getattr(self, changed)
        told = KINDS[size].capitalize() if changed == "kind" else self._told(changed, units)
        return f"{told}: the bevel meets {met}."

    def _etched(self, units: Units) -> str:
        if self.minutes == 0:
            return (
                f"Not etched, in whatever bath ({self.etch.strength}): the pattern waits."
            )
        step = format_thin(self.relief[0] / 1000, units)
        return f"{counted(self.minutes, 'minute')}, {self.etch.strength}: a step of {step}."

    def _told(self, key: str, units: Units) -> str:
        value, field = getattr(self, key), type(self).model_fields[key]
        shown = f"{value:g}" if key == "layers" else format_length(value, units)
        return f"{field.title} {shown}"

    def _bar(self, sheet: Sheet, units: Units) -> Panel:
        left, top, columns, most = BAR
        billet = self.bar
        length, width, thickness = billet.size
        pixel = max(150 / columns, width / most)
        rows = min(most, int(width / pixel) + 2)
        face = Plane(
            size=billet.size,
            centre=(length / 2, 0.0, thickness / 2 - HAIR),
            right=(1.0, 0.0, 0.0),
            up=(0.0, 1.0, 0.0),
            columns=columns,
            rows=rows,
            pixel=pixel,
        )
        thick = format_length(self.thickness, units)
        sheet.text(
            f"As you bought it: {BOUGHT[self.bought]}, {thick} thick", (left, 6), size=18
        )
        seen = see(billet, face, tones(AS_SOLD))
        sheet.steel(seen, (left, top), face)
        sheet.scale_bar((left + columns - 120, top - 10), pixel, units, most=115)
        return Panel.drawn(billet, face, (left, top), seen)

    def _blade(self, sheet: Sheet, units: Units) -> Panel:
        left, top, columns, most = BLADE
        billet, own = self.bar, tones(self.etch)
        view = Blade.fitted(self.grind, billet.size, columns, most)
        words = "The blade, ground, hardened, tempered, etched"
        sheet.above((left, top - 4), words)
        seen = see(billet, view, own)
        sheet.steel(seen, (left, top), view)
        spine = Spine(
            grind=self.grind, size=billet.size, columns=columns, rows=40, pixel=view.pixel
        )
        below = top + view.rows + 4
        sheet.text("its spine", (left, below), ink=QUIET)
        sheet.steel(see(billet, spine, own), (left, below + sheet.row + 3), spine)
        sheet.scale_bar((left + columns - 120, top - 12), view.pixel, units, most=115)
        return Panel.drawn(billet, view, (left, top), seen)

    def _sawn(self, sheet: Sheet, units: Units) -> None:
        left, top, columns, rows = SECTION
        pixel = max(self.height / (rows - 12), self.thickness / (columns - 12))
        view = Section(
            grind=self.grind,
            size=self.bar.size,
            at=60,
            columns=columns,
            rows=rows,
            pixel=pixel,
        )
        sheet.text("Sawn across", (left, 6), size=18)
        sheet.text("dashed: the bar", (left, 28), size=16, ink=QUIET)
        sheet.steel(see(self.bar, view, tones(self.etch)), (left, top), view)
        half = self.thickness / 2 / pixel
        middle = left + columns / 2
        for side in (-half, half):
            edge = middle + side
            sheet.dashes((edge, top + 4), (edge, top + rows - 4), ink=QUIET)
        sheet.scale_bar((left, top + rows + 40), pixel, units, most=110)

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
            Number(
                "Scale in the hardening heat, each face",
                format_length(self.scale, units),
                self._scale_working(),
                (SCALE,),
            ),
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
                [f"{self.minutes:g} min, {bath}"],
                (TONES, BITE, BITES),
            ),
        )

    def _scale_working(self) -> list[str]:
        return [
            f"bare, in air, {self.hot:g} min at {self.celsius:g} °C (lesson 08)",
            f"= {self.scale:.4f} mm",
        ]

    def _off_working(self) -> list[str]:
        return [
            "(bar - spine) / 2 + scale of the hardening heat",
            f"= ({self.thickness:g} mm - {self.spine:g} mm) / 2 + {self.scale:.3f} mm",
            f"= {self.off:.3f} mm",
        ]

    def _window_working(self) -> list[str]:
        heats = self.heats
        if heats is None:
            return [self.hardening]
        low, high = (format_temperature(heat, "C") for heat in heats)
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
            f"Above, a bought {bought}, {format_length(self.thickness, units)} thick: it "
            f"shows {bar.shows}. Below, the blade out of it, hardened and tempered, "
            f"{off} gone from each flat, etched {counted(self.minutes, 'minute')}: it "
            f"shows {blade.shows}. A bevel cuts {lines:.0f} layers. Its spine lies below "
            f"it, and beside them the blade is sawn across."
        )
