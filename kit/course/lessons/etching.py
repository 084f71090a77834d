"""Lesson 09: the etch develops it, the eye limits it."""

from collections.abc import Mapping
from functools import partial
from typing import Any, ClassVar

from kit.basics.declare import choice, quantity
from kit.basics.told import counted, in_units, listed, one_way
from kit.basics.typed import MM_PER_INCH
from kit.basics.units import (
    Units,
    format_away,
    format_beside,
    format_length,
    format_thin,
    or_under,
)
from kit.course.lessons import drawing
from kit.course.lessons import etching_drawing as drawn
from kit.course.lessons import etching_ideas as ideas
from kit.course.lessons.base import Lesson
from kit.course.lessons.carbon import CALLED, STEELS
from kit.course.lessons.scene import Number, Panel, Part, Scene
from kit.forge.billet import Billet
from kit.forge.stack import Layer, Stack
from kit.forge.steps import Hammer, QuarterTurn
from kit.metal.bath import BITES
from kit.metal.bite import BITE, GRAIN, Between, Bitten, Etch, between, bitten
from kit.metal.colour import COLOURS, contrast_ratio, lightness
from kit.metal.coupons import Coupon
from kit.metal.etch import TONES
from kit.metal.eye import COUNTED_AS_SEEN, EYE, LEAST_CONTRAST, ONE_MINUTE
from kit.section.picture import Sheet
from kit.section.surface import Plane

STRENGTHS = ("weak", "usual", "strong")
GRITS = tuple(GRAIN)
SINCE = ("nothing", "cleaned, etched again", "0.3 mm (0.012 in) ground off, etched again")
GROUND = 0.3  # mm
MORE = ((), ("nickel",), ("nickel", "1018"), ("nickel", "1018", "O1"))
GUESS = "(illustrative)"
BESIDE = ("nothing more", "nickel", "nickel, mild 1018", "nickel, mild 1018, O1")
# In inch mode: inch by inch as far as an arm, then by half feet.
FEET = tuple(MM_PER_INCH * inch for inch in (*range(10, 36), *range(36, 118, 6), 118))


class EtchingLesson(Lesson):
    """Up to five metals, their finish and care; the light, and where the reader stands."""

    key: ClassVar = "09"
    title: ClassVar = "The etch develops it, the eye limits it"
    main: ClassVar = "distance"
    phone: ClassVar = (Part(405, 0, 985, 412),)
    cues: ClassVar = ("distance", "finish", "light", "more", "wear", "since")

    distance: float = quantity(
        "Seen from", "the eye's distance", low=250, high=3000, unit="mm", default=300,
        step=50, inch=FEET, away=True,
    )  # fmt: skip
    finish: int = choice("Finish", ideas.FINISHES, default=ideas.ETCHED)
    light: int = choice("Light on it", ideas.LIGHTS)
    first: int = choice("Steel A", CALLED)
    second: int = choice("Steel B", CALLED, default=1)
    more: int = choice("Beside them", BESIDE)
    wear: float = quantity(
        "Wear", "0 fresh, 100 rubbed flat", low=0, high=100, unit="%", default=0, step=5
    )
    since: int = choice("Care since", SINCE)
    minutes: float = quantity(
        "Etch time", "in the bath", low=0, high=30, unit="min", default=10
    )
    strength: int = choice("Etchant", STRENGTHS, default=1)
    grit: int = choice(
        "Grit before etching", [f"P{grit}" for grit in GRITS], default=GRITS.index(800)
    )

    stations: ClassVar = {
        "1 Finish": ("finish", "light"),
        "2 Metals": ("first", "second", "more"),
        "3 Care": ("wear", "since"),
    }
    shuts: ClassVar = {
        "It is not etched: there is no bath.": (
            lambda job: not job.finish, "minutes", "strength", "wear"
        ),
        "Not a minute in the bath: nothing is etched.": (
            lambda job: not job.minutes, "finish", "strength", "wear"
        ),
        "Etched again: no wear is left.": (lambda job: job.since, "wear"),
        "One metal alone, and not worn: nothing to bring back.": (
            lambda job: (
                len(job.names) == 1 and not (job.wear and job.finish and job.minutes)
            ),
            "since",
        ),
    }  # fmt: skip
    behind: ClassVar = {"Grit, bath and time": ("grit", "strength", "minutes")}

    question: ClassVar = ideas.TOLD.question(
        given={"distance": ideas.FAR},
        tiles=(ideas.NONE, ideas.ONLY_WIDE, ideas.TWO, ideas.ALL),
        right=ideas.ONLY_WIDE,
        show=lambda still: drawn.WORDS[round(still)],
        draw=drawn.tile,
    )
    # step back
    film: ClassVar = tuple(
        {"distance": float(round(300 + 2700 * step / 14, -1))} for step in range(15)
    )
    checks: ClassVar = (ideas.STEEP, ideas.WALK)

    @property
    def names(self) -> tuple[str, ...]:
        """The grades in turn, each once."""
        both = STEELS[self.first], STEELS[self.second]
        return tuple(dict.fromkeys((*both, *MORE[self.more])))

    @property
    def etch(self) -> Etch:
        """The etch as it is to be seen: etched again, no wear is left."""
        made = Etch(
            minutes=self.minutes if self.finish else 0,
            strength=STRENGTHS[self.strength],
            grit=GRITS[self.grit],
            polished=self.finish == ideas.POLISHED,
            bright=self.finish == ideas.RUBBED,
            wear=self.wear,
        )
        return made.again() if self.since else made

    @property
    def worn(self) -> float:
        """How much of its steps is worn away, 0 … 1."""
        return self.etch.wear / 100

    @property
    def depth(self) -> float:
        """How deep below the first face the present one lies, mm."""
        return GROUND if self.since == 2 else 0.0

    def face(self, band: float, columns: int, rows: int) -> tuple[Billet, Plane]:
        """Cut a face on which bands of a width run up the picture, a little wavy."""
        pieces = max(len(self.names), round(drawn.FACE / band))
        layers = [Layer(steel=name, thickness=band) for name in self.names]
        layers = (layers * pieces)[:pieces]
        stack = Stack(layers=layers, length=60, width=20)
        bar = Billet(source=stack).then(
            Hammer(depth=min(2.0, stack.thickness / 12), spacing=14, seed=5), QuarterTurn()
        )
        pixel = drawn.FACE / columns
        # turned on edge, the layers run up the picture; what is ground off lies behind
        plane = Plane(
            size=bar.size,
            centre=(30.0, 0.0, bar.size.thickness / 2 - 1.0 - self.depth),
            right=(0.0, 1.0, 0.0),
            up=(1.0, 0.0, 0.0),
            columns=columns,
            rows=rows,
            pixel=pixel,
        )
        return bar, plane

    def draw(
        self,
        units: Units,
        *,
        told: bool = True,
        readings: tuple[Coupon, ...] = (),
        **paper: Any,
    ) -> Scene:
        """Etch, wear, step back: the relief in section, three faces as they are seen.

        `readings` of somebody's own coupons go before our guesses.
        """
        found = bitten(self.names, self.etch, readings)
        both = between(self.names, self.etch, readings)
        sheet = Sheet(drawing.COLUMNS, drawing.ROWS, **paper)
        drawn.section(sheet, found, self.worn)
        words = f"The face from {format_away(self.distance, units)}, light: "
        sheet.text(words + ideas.LIGHTS[self.light], (drawn.STRIPS[0], 0), size=18)
        panels = tuple(
            drawn.strip(
                sheet, number, self.face(band, *drawn.STRIPS[2:]), found, self, units
            )
            for number, band in enumerate(ideas.BANDS)
        )
        return Scene(
            image=sheet.image,
            alt=lambda: one_way(partial(self._alt, both, panels), units),
            numbers=self._numbers(found, both, units),
            says=one_way(partial(self._says, found), units),
            panels=panels,
        )

    def shows(self, found: Mapping[str, Bitten], band: float) -> float:
        """Give how unlike a band is to its neighbours, 1 … 21: in tone, or in the lamp."""
        tones = [one.tone for one in found.values()]
        ratio = float(contrast_ratio(max(tones), min(tones)))
        return max(ratio, drawn.edges(found, self, band)) if self.light else ratio

    def seen(self, found: Mapping[str, Bitten]) -> list[float]:
        """List the bands, mm, that an eye still sees: wide enough, unlike enough."""
        return [
            band
            for band in ideas.BANDS
            if EYE.sees(band, self.distance, self.shows(found, band))
        ]

    def remark(self, changed: str, units: Units = Units.MM) -> str:
        """Say what finish, light, etch, wear, cleaning and distance do."""
        both, found = between(self.names, self.etch), bitten(self.names, self.etch)
        if len(found) == 1:
            return ideas.ONE_STEEL
        if not self.finish and changed in {"minutes", "strength"}:
            return ideas.NO_BATH
        step = f"a step of {format_thin(both.relief / 1000, units)}"
        tones = f"a contrast of {both.contrast:.2f}"
        points = {
            "distance": partial(self._says, found, units),
            "finish": partial(ideas.finished, self, step, tones),
            "light": partial(ideas.lit, self),
            **dict.fromkeys(
                ("first", "second", "more"), partial(ideas.told_apart, self.names)
            ),
            "since": partial(ideas.kept, self, tones),
            "wear": partial(ideas.worn, self, both),
            "minutes": partial(ideas.bathed, self, both, step),
            "strength": lambda: f"In the {STRENGTHS[self.strength]} bath: {step} {GUESS}.",
            "grit": lambda: f"Sanded to P{GRITS[self.grit]}: {tones} {GUESS}.",
        }
        return points[changed]() if changed in points else ""

    def _says(self, found: Mapping[str, Bitten], units: Units) -> str:
        left, limit = self.seen(found), EYE.finest(self.distance)
        if not left:
            return ideas.unseen(self, found, limit)
        fine = format_beside(limit, left[0], units)
        bands = in_units(listed(f"{band:g}" for band in left) + " mm", units)
        return f"From there an eye resolves {fine}: it still sees bands of {bands}."

    def _numbers(
        self, found: Mapping[str, Bitten], both: Between, units: Units
    ) -> tuple[Number, ...]:
        tones = sorted(one.tone for one in found.values())
        light = [f"{lightness(tone):.0f}" for tone in (tones[0], tones[-1])]
        lost = ", ".join(f"{name} {one.depth:.1f} µm" for name, one in found.items())
        sum_of = " + ".join(f"{one.tone:.3f}" for one in found.values())
        mean = "the mean of the tones: what the eye makes of lines it cannot resolve"
        return (
            Number(
                "Relief (illustrative)",
                or_under(f"{both.relief:.1f} µm", both.relief / 1000, units),
                [
                    "relief = difference of what the steels lost, less what is worn",
                    lost,
                    f"= {both.relief:.1f} µm",
                ],
                (BITE, BITES),
            ),
            Number(
                "Contrast (illustrative)",
                f"{both.contrast:.2f}",
                [
                    "contrast = (bright - dark) / (bright + dark)",
                    f"tones {tones[0]:.2f} and {tones[-1]:.2f} of the light",
                    f"= {both.contrast:.2f}; to the eye, L* {light[0]} and {light[1]}",
                ],
                (TONES, BITE, COLOURS),
            ),
            *self._eyesight(found, units),
            Number(
                "Tone where unsplit (illustrative)",
                f"{both.unresolved:.2f}",
                [mean, f"= ({sum_of}) / {len(found)} = {both.unresolved:.2f}"],
                (TONES, BITE),
            ),
        )

    def _eyesight(self, found: Mapping[str, Bitten], units: Units) -> tuple[Number, Number]:
        limit, left = EYE.finest(self.distance), self.seen(found)
        unlike = f"and unlike: {self.shows(found, ideas.BANDS[-1]):.2f} times as bright"
        return (
            Number(
                f"Eye limit from {format_away(self.distance, units)}",
                format_length(limit, units.fine),
                [
                    "one arc-minute: limit = distance × tan(1/60°)",
                    f"= {self.distance:g} mm × 0.0002909",
                    f"= {limit:.3f} mm",
                ],
                (ONE_MINUTE,),
            ),
            Number(
                "Bands still seen",
                ", ".join(f"{band:g}" for band in left) + " mm" if left else "none",
                [
                    f"as wide as {limit:.3f} mm or wider",
                    f"{unlike}, where {LEAST_CONTRAST:g} is seen (illustrative)",
                ],
                (ONE_MINUTE, COUNTED_AS_SEEN, TONES, BITE),
            ),
        )

    def _alt(self, both: Between, panels: tuple[Panel, ...], units: Units) -> str:
        step = format_beside(both.relief / 1000, 1, units)
        fine, middle, wide = (panel.shows for panel in panels)
        metals = f"{listed(self.names)} in turn"
        after = f"after {counted(self.minutes, 'minute')}"
        bath = f"{after} in the {STRENGTHS[self.strength]} bath"
        done = f"{ideas.FINISHES[self.finish]}, a step of {step} {bath}"
        worn = f", {self.wear:g} percent worn" if self.wear and not self.since else ""
        since = f", {SINCE[self.since]}" if self.since else ""
        return (
            f"On the left the face in section, its height drawn {drawn.TIMES} times too "
            f"large: {metals if len(self.names) > 1 else f'{self.names[0]} alone'}, "
            f"{done if self.finish else 'ground silver, flat'}{worn}{since}. "
            "On the right three faces with layers of 0.3, 0.8 and 2 mm as an eye sees "
            f"them. It is {format_away(self.distance, units)} away; light: "
            f"{ideas.LIGHTS[self.light]}. "
            f"The first shows {fine}; the second {middle}; the third {wide}."
        )
