"""Lesson 07: san mai. A core, a line, and how far off you may be."""

import math
from functools import cached_property, lru_cache, partial
from typing import Any, ClassVar

import numpy as np
from PIL import Image
from pydantic import model_validator

from kit.basics.declare import choice, quantity
from kit.basics.errors import KitError
from kit.basics.told import one_way
from kit.basics.units import Units, format_length, in_figures
from kit.course.lesson import Given
from kit.course.lessons import san_mai_drawing as drawing
from kit.course.lessons import san_mai_ideas as ideas
from kit.course.lessons import san_mai_line as cored
from kit.course.lessons.base import Lesson
from kit.course.lessons.scene import Number, Part, Scene
from kit.forge.billet import Billet
from kit.forge.stack import Layer, Stack
from kit.forge.steps import DrawOut, Groove
from kit.forge.steps.base import Heat
from kit.section.grind import KINDS, BladeGrind
from kit.section.outline import Outline
from kit.section.picture import Sheet

PART_HEIGHT = 0.6  # of the blade's height, for all grinds but the full flat one
LEAST = 0.1  # mm of cladding after forging; ours: less would not outlive the grinding
WIDEST_DIE = 20.0  # mm


def expected(lower: float) -> "SanMaiLesson":
    """Make the blade whose right line is that of an idea, and its left line, too."""
    higher, up = ideas.OTHER_LINE[round(lower, 6)], ideas.spread(ideas.GIVEN)
    begun = SanMaiLesson()
    core = (higher + lower) / up + begun.edge
    clad = (begun.thickness - core) / 2 / begun.scale
    off = (higher - lower) / up / 2
    return SanMaiLesson(left=clad, core=core / begun.scale, right=clad, off=off, minutes=0)


def tile(lower: float) -> tuple[Image.Image, str]:
    """Draw both sides of the blade, opened out, as somebody with this idea expects."""
    image = drawing.tile(expected(lower).blade, ideas.compared(lower))
    told = f"left above, right below: {ideas.told(lower)}"
    return image, f"Both sides of a blade, opened out at the edge, {told}."


class SanMaiLesson(Lesson):
    """Three bars welded into one, and the blade that is ground from it."""

    key: ClassVar = "07"
    title: ClassVar = "A core, a line, and how far off you may be"
    main: ClassVar = "off"
    phone: ClassVar = (Part(0, 38, 640, 159), Part(0, 242, 640, 523))
    cues: ClassVar = ("off", "nickel", "wave")

    off: float = quantity(
        "Core off centre",
        "after forging and grinding; more than 0 is towards the left side",
        low=-1, high=1, unit="mm", default=0, step=0.05, inch=1 / 500,
    )  # fmt: skip
    thickness: float = quantity(
        "Forge to", "the spine of the blade", low=2, high=10, unit="mm", default=4,
        step=0.1, inch=1 / 32,
    )  # fmt: skip
    minutes: float = quantity(
        "Time at heat", "all heats together, at 1150 °C (2102 °F)", low=0, high=60,
        unit="min", default=10, step=1,
    )  # fmt: skip
    edge: float = quantity(
        "Edge before sharpening", "its thickness", low=0.1, high=1.5, unit="mm",
        default=0.4, step=0.1, inch=1 / 500,
    )  # fmt: skip
    height: float = quantity(
        "Blade height", "from edge to spine", low=15, high=60, unit="mm", default=32
    )
    kind: int = choice("Grind", KINDS)
    left: float = quantity(
        "Left cladding", "before forging", low=0, high=20, unit="mm", default=4.2, step=0.1,
        inch=1 / 32,
    )  # fmt: skip
    core: float = quantity(
        "Core", "before forging", low=1, high=20, unit="mm", default=3.6, step=0.1,
        inch=1 / 32,
    )  # fmt: skip
    right: float = quantity(
        "Right cladding", "before forging", low=0, high=20, unit="mm", default=4.2,
        step=0.1, inch=1 / 32,
    )  # fmt: skip
    nickel: float = quantity(
        "Nickel sheet between", "before forging; 0: none", low=0, high=0.5, unit="mm",
        default=0, step=0.05, inch=1 / 500,
    )  # fmt: skip
    wave: float = quantity(
        "Dies: depth", "grooves pressed into both claddings", low=0, high=0.5, unit="mm",
        default=0, step=0.05, inch=1 / 500,
    )  # fmt: skip
    spacing: float = quantity(
        "Dies: spacing", "from groove to groove", low=6, high=40, unit="mm", default=15
    )

    stations: ClassVar = {
        "1 Stack": ("left", "core", "right", "nickel"),
        "2 Forge": ("thickness", "off", "minutes"),
        "3 Dies": ("wave", "spacing"),
        "4 Grind": ("edge", "height", "kind"),
    }
    opens: ClassVar = 1  # the stack is there: the next thing is the offset
    gives: ClassVar = ("off", "edge", "thickness", "height", "core")
    shuts: ClassVar = {
        "No dies are pressed in.": (lambda job: not job.wave, "spacing"),
        "A core moves only between two claddings.": (lambda job: not job.clad, "off"),
        "There is no joint.": (lambda job: not job.left + job.right, "minutes", "nickel"),
    }
    question: ClassVar = ideas.TOLD.question(
        given=ideas.GIVEN,
        tiles=(ideas.LOWER, ideas.SAME, ideas.ADDED, ideas.COUNTED_TWICE),
        right=ideas.LOWER,
        show=ideas.told,
        draw=tile,
    )
    film: ClassVar = tuple(  # the core goes off centre
        {"off": round(0.15 - 0.15 * math.cos(math.pi * at / 13), 4)} for at in range(14)
    )
    checks: ClassVar = (ideas.LINE_HEIGHT, ideas.OFF_CENTRE, ideas.HIGHER_LINE)

    @model_validator(mode="after")
    def _possible(self) -> "SanMaiLesson":
        stack, thin = self.stack, min(self.sides)
        msg = ""
        if self.thickness > stack * (1 + 1e-9):
            msg = (
                f"Forge to must be at most {stack:g} mm, the height of the stack. "
                f"Given: {self.thickness:g} mm."
            )
        elif self.forged_core <= self.edge:
            msg = (
                f"The forged core must be thicker than the edge, {self.edge:g} mm, or "
                f"cladding is the edge from the start. Given: a core of "
                f"{self.forged_core:.2f} mm."
            )
        elif self.clad and thin < LEAST * (1 - 1e-9):
            msg = (
                f"Each cladding must be left at least {LEAST:g} mm thick, or the core "
                f"comes out through the side. Given: {max(thin, 0):.2f} mm."
            )
        if msg:
            raise KitError(msg)
        return self

    def check(self, units: Units) -> None:
        """Refuse a bevel that cannot be ground."""
        # the grinder's own sentence
        self.blade  # noqa: B018  (it refuses)

    @property
    def stack(self) -> float:
        """Height of the stack, mm; a nickel sheet lies under each cladding there is."""
        sheets = (self.left > 0) + (self.right > 0)
        return self.left + self.core + self.right + sheets * self.nickel

    @property
    def clad(self) -> bool:
        """Whether there is cladding on both sides; if not, the core cannot move."""
        return self.left > 0 and self.right > 0

    @property
    def dies(self) -> Groove | None:
        """The grooves, if there are any; pressed, then ground level."""
        if not self.wave:
            return None
        return Groove(
            across=min(self.spacing, WIDEST_DIE),
            depth=self.wave,
            spacing=self.spacing,
            way="pressed and ground",
            faces="staggered",
        )

    @property
    def forged(self) -> float:
        """Thickness of the bar after forging, mm; what dies cost is ground off later."""
        if (dies := self.dies) is None:
            return self.thickness
        pressed = self.thickness + 2 * dies.deep - dies.dents.mean(self.height)
        return in_figures(pressed, way="ROUND_UP")

    @property
    def scale(self) -> float:
        """How thick a layer is after forging, for each mm before."""
        return self.forged / self.stack

    @property
    def forged_core(self) -> float:
        """Thickness of the core after forging, mm."""
        return self.core * self.scale

    @property
    def offset(self) -> float:
        """How far the core lies towards the left side, mm: uneven bars, uneven work."""
        if not self.clad:
            return 0.0
        return self.off + (self.right - self.left) / 2 * self.scale

    @property
    def sides(self) -> tuple[float, float]:
        """Thickness of the left and the right cladding after forging, mm."""
        moved = self.off if self.clad else 0.0
        return self.left * self.scale - moved, self.right * self.scale + moved

    @property
    def given(self) -> Given:
        """The values that the formulas know, mm."""
        core, spine, off = self.forged_core, self.thickness, self.offset
        return {"c": core, "S": spine, "e": self.edge, "H": self.height, "d": off}

    @cached_property
    def billet(self) -> Billet:
        """Left cladding at the bottom, forged, with dies if there are any."""
        scale, sides = self.scale, self.sides
        sheet = [(drawing.NICKEL, self.nickel)]
        bars = [
            *([(drawing.CLADDING, sides[0] / scale), *sheet] if self.left else []),
            *([(cored.CORE, self.core)] if self.left or self.right else []),
            *([*sheet, (drawing.CLADDING, sides[1] / scale)] if self.right else []),
        ]
        # without cladding: core steel throughout
        bars = bars or [(cored.CORE, self.core / 2)] * 2
        layers = tuple(Layer(steel=one, thickness=in_figures(mm)) for one, mm in bars if mm)
        long = in_figures((cored.LENGTH + 2 * cored.SPARE) * scale)
        stack = Stack(layers=layers, length=long, width=self.height + 2)
        done = [dies] if (dies := self.dies) else []
        heat = Heat(celsius=ideas.HOT, minutes=self.minutes) if self.minutes else None
        return Billet(source=stack).then(DrawOut(thickness=self.forged, heat=heat), *done)

    @cached_property
    def blade(self) -> cored.Clad:
        """The blade; flat up to the spine, or some other bevel up to part of it."""
        kind = KINDS[self.kind]
        grind = BladeGrind(
            outline=Outline(family="drop", length=cored.LENGTH, height=self.height),
            kind=kind,
            spine=self.thickness,
            edge=self.edge,
            bevel=None if kind == "flat" else in_figures(PART_HEIGHT * self.height),
            plunge=cored.PLUNGE,
        )
        return cored.Clad(self.billet, grind)

    @cached_property
    def lines(self) -> dict[str, cored.Traced]:
        """The core's line on both sides, followed on the solid."""
        return {name: cored.traced(self.blade, name) for name in drawing.SIDES}

    @cached_property
    def centred(self) -> tuple[np.ndarray, np.ndarray]:
        """How far the faces of a centred core lie from the middle, left and right, mm."""
        side = (self.left + self.right) / 2
        sides = {"left": side, "right": side, "off": 0.0}
        return _faces(SanMaiLesson(**{**self.values, **sides}))

    @property
    def permissible(self) -> float:
        """How far off centre the core may lie and still fill the whole edge, mm."""
        return float(np.min(self.centred)) - self.edge / 2

    @property
    def reach(self) -> float:
        """How far from the middle a face of the core may come at the most, mm."""
        return float(np.max(self.centred)) + self.permissible

    def draw(self, units: Units, *, told: bool = True, **paper: Any) -> Scene:
        """Show both sides of the blade; when told, how far off the core may be."""
        blade, lines = self.blade, self.lines
        sheet = Sheet(drawing.COLUMNS, drawing.ROWS, **paper)
        sawn = drawing.section(sheet, blade, lines)
        drawing.legend(sheet, blade)
        flat, pixel = drawing.sides(sheet, blade, lines, units)
        if told and self.clad:
            drawing.tolerance(sheet, sawn, self.permissible, self.offset, units)
        if told:
            reach = self.reach if self.clad else 0.0
            drawing.band(sheet, blade, lines, pixel, reach, units)
        return Scene(
            image=sheet.image,
            alt=lambda: one_way(partial(self._alt, told=told), units),
            numbers=self._numbers(units, told=told),
            says=self._says(),
            panels=(sawn, *flat),
        )

    def remark(self, changed: str, units: Units = Units.MM) -> str:
        """Point out what the change did to the line, the nickel, the dies."""
        heights = [drawing.height(line, self.height, units) for line in self.lines.values()]
        return ideas.moved(self, changed, heights, self._says(), units)

    @property
    def lost(self) -> list[str]:
        """The sides on which the cladding has become the edge, at least in places."""
        return [name for name, one in self.lines.items() if one.heights[0] <= cored.LOST]

    def _says(self) -> str:
        if not self.left and not self.right:
            return ideas.NO_CLADDING
        if not self.clad:
            return (
                f"No cladding on the {'right' if self.left else 'left'} side: the core "
                "lies against it and cannot be moved off centre."
            )
        if not (gone := self.lost):
            return ideas.HELD
        if max(line.far.max() for line in self.lines.values()) > cored.LOST:
            return ideas.ALL_CLADDING
        where = "both sides" if len(gone) == 2 else f"the {gone[0]} side"
        return (
            f"The core leaves the edge on {where}: there cladding has become the edge, "
            "too soft to stay sharp."
        )

    def _alt(self, units: Units, *, told: bool) -> str:
        size = partial(format_length, system=units)
        fine = partial(drawing.hundredths, units=units.fine)
        each = "; ".join(
            f"{name} side: {drawing.heights(line, self.height, units)}"
            for name, line in self.lines.items()
        )
        sheets = f" Stacked with nickel sheets of {size(self.nickel)}." * bool(self.nickel)
        deep, apart = size(self.wave), size(self.spacing)
        dies = f" It is waved by dies {deep} deep, {apart} apart." * bool(self.wave)
        words = (
            f"A blade {size(self.height)} high with a {KINDS[self.kind]} grind, spine "
            f"{size(self.thickness)}, edge {size(self.edge)}.{sheets}{dies} "
            f"A core of {cored.CORE}, {fine(self.forged_core)} thick, "
            f"{fine(abs(self.offset))} off centre"
            f"{ideas.towards(self.offset)}, in {drawing.CLADDING}. Above, sawn "
            f"across; below, both sides opened out at the edge. {each.capitalize()}. "
            f"{ideas.seam(self, units)}"
        )
        if told and self.clad:
            most = drawing.hundredths(self.permissible, units)
            words += f" A band shows that the core may be {most} off centre."
        if self.clad and self.lost:
            gone = " and ".join(self.lost)
            words += f" Hatched at the edge, {gone}: cladding has become the edge."
        return words

    def _numbers(self, units: Units, *, told: bool) -> tuple[Number, ...]:
        core = Number(
            "Core after forging",
            drawing.hundredths(self.forged_core, units),
            ideas.core_working(self.core, self.stack, self.forged),
        )
        heights = [drawing.height(line, self.height, units) for line in self.lines.values()]
        words = " / ".join(heights)
        if words.endswith(" mm"):
            words = words.replace(" mm", "") + " mm"
        flat = KINDS[self.kind] == "flat"
        by_rule = flat and self.clad and not self.wave
        working = ideas.pair_working(self.given) if by_rule else ideas.TRACED
        pair = Number("Line left / right", words, working)
        if not told:
            return core, pair
        most, working = "none: no cladding to move in", ideas.NO_ROOM
        if self.clad:
            most = drawing.hundredths(self.permissible, units)
            wavy = [*ideas.WAVY, f"= {most}"]
            working = wavy if self.wave else ideas.permissible_working(self.given)
        by_work = self.off if self.clad else 0.0
        far = drawing.hundredths(abs(self.offset), units)
        towards = ideas.towards(self.offset, " ")
        off_centre = ideas.off_centre_working(self.offset, by_work, towards)
        numbers = [
            core,
            pair,
            Number("Largest permissible offset", most, working),
            Number("Core off centre, in all", f"{far}{towards}", off_centre),
        ]
        if flat:
            up = ideas.spread(self.given)
            lean = math.degrees(math.atan(1 / up))
            name, value = "What is across, up the bevel", f"× {up:.1f} ({lean:.1f}°)"
            numbers.append(Number(name, value, ideas.spread_working(self.given)))
        return tuple(numbers)


@lru_cache(maxsize=4)  # a core that is moved leaves the centred one where it is
def _faces(even: SanMaiLesson) -> tuple[np.ndarray, np.ndarray]:
    """Follow the core's faces through forging and dies, along the straight edge, mm."""
    billet = even.billet
    along = np.linspace(0.1, 0.6, 400) * billet.sizes[0].length
    y = np.full_like(along, -even.height / 2)
    low, high = (
        billet.do((along, y, np.full_like(along, face)))[2] for face in even.blade.faces
    )
    return -low, high
