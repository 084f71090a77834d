"""A bar you bought: how thick to buy it, the blade out of it, and what its face will be."""

import itertools
import math
from functools import cached_property
from typing import Any, ClassVar, get_args

from PIL import Image

from kit.basics.declare import choice, quantity
from kit.basics.errors import KitError
from kit.basics.told import counted
from kit.basics.units import Units, format_beside, format_length, format_thin, in_figures
from kit.course.lessons import bevels, bought_drawing
from kit.course.lessons import bought_ideas as ideas
from kit.course.lessons.base import Lesson
from kit.course.lessons.scene import Panel, Part, Scene
from kit.forge.billet import Billet
from kit.metal.bath import Strength
from kit.metal.bite import ILLUSTRATIVE, Etch, between
from kit.metal.pairs import pair
from kit.metal.working_heat import scale_loss
from kit.section.grind import KINDS, BladeGrind, Crossed
from kit.section.outline import Outline
from kit.section.picture import Sheet
from kit.shop.bought import DEEP, FLAT, OTHER, SOLD, TWIST, Inside, inside, made_as, sold

STRENGTHS = get_args(Strength)
LEAST_EDGE = 0.1  # mm, after the fire: our choice, as are the bevel and the wheel below
WHEEL = 200.0  # mm
# Layers of a drop on the face, and mm.
ASKED = {"shown": 12.0, "edge": 0.77, "first": 6.0, "thick": 10.0}


def tile(left: float) -> tuple[Image.Image, str]:
    """Draw the edge that somebody expects who expects so many layers of a drop there."""
    whole = left >= ASKED["shown"]
    fading = ASKED["shown"] * ASKED["edge"] / left  # so thick is a bar that leaves these
    job = BoughtLesson(thickness=ASKED["thick"] if whole else fading)
    alt = f"Steel near the edge: {round(left, 1):g} of 12 layers of each drop."
    return bought_drawing.expected_edge(job, whole=whole), alt


class BoughtLesson(Lesson):
    """The bar as it was bought, the blade wanted, the fire and the bath."""

    key: ClassVar = "bought"
    title: ClassVar = "A bar you bought"
    main: ClassVar = "thickness"
    phone: ClassVar = (
        Part(0, 0, 500, 158), Part(500, 158, 1000, 300), Part(0, 296, 680, 472)
    )  # fmt: skip
    question: ClassVar = ideas.TOLD.question(
        given=ASKED,
        tiles=(
            ideas.FADES,
            ideas.AS_ON_THE_FACE,
            ideas.STAYS_AS_IT_WAS,
            ideas.MORE_WITH_MORE,
        ),
        right=ideas.FADES,
        show=lambda left: f"{round(left, 1):g} of 12 layers",
        draw=tile,
    )
    checks: ClassVar = (ideas.LEAST_BAR, ideas.MOST_BAR)
    film: ClassVar = tuple({"thickness": thick} for thick in (6.0, 8.0, 10.0))
    fine: ClassVar = ILLUSTRATIVE
    cues: ClassVar = ("thickness", "bought", "spine", "celsius", "minutes")

    bought: int = choice("Sold as", SOLD, default=SOLD.index("raindrop"))
    layers: int = quantity(
        "Layers", "told by the seller", low=20, high=320, default=40, step=5
    )
    thickness: float = quantity(
        "How thick to buy", "the bar, before anything is ground", low=bought_drawing.LEAST,
        high=bought_drawing.MOST, unit="mm", default=6, step=0.1, inch=1 / 32,
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
        "It has the layers that its pattern is forged of.": (
            lambda job: job.made == OTHER,
            "layers",
        ),
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
        width = in_figures(self.height + bevels.BESIDE)
        return sold(self.name, self.layers, self.thickness, width, "opposite")

    @property
    def steels(self) -> tuple[str, ...]:
        """What it is forged of, each once."""
        return tuple(dict.fromkeys(self.bar.source.steels))

    @property
    def name(self) -> str:
        """What it is sold as."""
        return SOLD[self.bought]

    @property
    def made(self) -> int:
        """How it is forged; see `made_as`."""
        return made_as(self.name)

    @property
    def inside(self) -> Inside | None:
        """What is met inside it, followed on the solid; None where a formula says it."""
        return inside(self.name) if self.made == OTHER else None

    @property
    def cored(self) -> bool:
        """Whether its face is plain, and a bevel shows what lies below."""
        return self.made == FLAT or bool(self.inside and self.inside.plain)

    @cached_property
    def scale(self) -> float:
        """What the hardening heat takes off each face as scale, mm."""
        return round(scale_loss(self.celsius, self.hot), 5) if self.hot else 0.0

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
            spine=in_figures(spine),
            edge=in_figures(self.finished),
            bevel=in_figures(bevel),
            wheel=WHEEL,
            ricasso=bevels.RICASSO,
            plunge=in_figures(max(deep, 0.1)),
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
        if self.cored:
            return self.crossed.lines
        if self.made in (TWIST, OTHER):
            return math.inf
        return self.shown * self.finished / self.thickness

    @cached_property
    def crossed(self) -> Crossed:
        """Layers that a bevel meets, and how far apart they are."""
        if self.made == FLAT:
            return self.grind.crossed(self.layer)
        if self.cored:
            lines = self.met(self.thickness)
        else:
            lines = bought_drawing.met_up(self) if self.back > self.edge else 0.0
        spacing = self.grind.bevel_length / lines if lines else math.inf
        return Crossed(lines, spacing, math.nan)

    def met(self, thickness: float) -> float:
        """How many layers a bevel meets in a bar so thick, mm, followed on the solid."""
        back = min(self.spine, thickness - 2 * self.skin)
        low, high = (min(one / thickness, 1.0) for one in (self.edge, max(back, self.edge)))
        return self.inside.met(high) - self.inside.met(low)

    @property
    def shown(self) -> float:
        """Layers met on the face of the bar, from a drop's middle to beside it."""
        return DEEP * self.layers

    @property
    def most(self) -> float:
        """The thickest bar that still keeps a layer of its pattern at the edge, mm."""
        if self.made == FLAT:
            return self.layers * max(self.spine - self.edge, 0) / 2
        if self.cored:
            least = bought_drawing.LEAST_MET
            return max(
                (t for t in bought_drawing.THICK if self.met(t) >= least), default=0.0
            )
        if self.made in (TWIST, OTHER):
            return math.inf
        return self.shown * self.finished

    @property
    def kept(self) -> float:
        """Bands met along the finished edge, as a share of those on the bar's face."""
        return self.inside.kept(self.finished / self.thickness)

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
        found = between(self.steels, self.etch)
        return found.relief, found.contrast

    @cached_property
    def heats(self) -> tuple[float, float]:
        """Between what heats its steels harden together, °C."""
        pairs = itertools.combinations(self.steels, 2)
        low, high = zip(*(pair(*two).hardening.heats for two in pairs), strict=True)
        return max(low), min(high)

    @property
    def hardening(self) -> str:
        """What the chosen heat does."""
        coldest, hottest = self.heats
        if self.celsius < coldest:
            return "too cold: it would stay soft"
        if self.celsius > hottest:
            return "too hot: grains grow, and it turns brittle"
        return "its steels harden; temper at once"

    def draw(self, units: Units, *, told: bool = True, **paper: Any) -> Scene:
        """Show bar and blade in four states at one scale, the edge larger, and sawn."""
        sheet = Sheet(*bought_drawing.SHEET, **paper)
        panels = bought_drawing.drawn(sheet, self, units)
        return Scene(
            image=sheet.image,
            alt=lambda: self._alt(*panels, units),
            numbers=bought_drawing.numbers(self, units),
            says=bought_drawing.advice(self, units),
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
            met = counted(round(self.crossed.lines), "layer")
            named = f"Height {format_length(self.height, units)}"
            name = KINDS[self.kind].capitalize() if changed == "kind" else named
            return f"{name}: the bevel meets {met}."
        return bought_drawing.advice(self, units)

    def _etched(self, units: Units) -> str:
        if self.minutes == 0:
            return (
                f"Not etched, in whatever bath ({self.etch.strength}): the pattern waits."
            )
        step = format_thin(self.relief[0] / 1000, units)
        return f"{counted(self.minutes, 'minute')}, {self.etch.strength}: a step of {step}."

    def _alt(self, bar: Panel, blade: Panel, units: Units) -> str:
        lines = self.crossed.lines
        name = self.name
        bought = f"bar of {name}" if self.made in (FLAT, OTHER) else f"{name} bar"
        cut = counted(round(lines), "layer")
        off = format_beside(self.off, self.thickness, units)
        return (
            f"Four states at one scale. A bought {bought}, "
            f"{format_length(self.thickness, units)} thick, a blade's outline on it: it "
            f"shows {bar.shows}. Ground, the blade is bright and bare; hardened and "
            f"tempered, grey and bare; etched again {counted(self.minutes, 'minute')}, "
            f"{off} gone from each flat, it shows {blade.shows}. A bevel cuts {cut}. "
            f"Below, its edge larger, and the blade sawn across inside the bar."
        )
