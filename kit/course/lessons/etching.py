"""Lesson 09: the etch develops it, the eye limits it."""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial
from typing import Any, ClassVar

import numpy as np

from kit.basics.declare import choice, quantity
from kit.basics.told import in_units, one_way
from kit.basics.typed import MM_PER_INCH
from kit.basics.units import Units, format_away, format_beside, format_length, format_thin
from kit.course.lesson import Question, Reason
from kit.course.lessons import drawing
from kit.course.lessons import etching_ideas as ideas
from kit.course.lessons.base import Lesson
from kit.course.lessons.carbon import CALLED, STEELS
from kit.course.lessons.etching_drawing import STRIPS, TIMES, WORDS, section, strip, tile
from kit.course.lessons.etching_ideas import BANDS
from kit.course.lessons.scene import Number, Panel, Scene
from kit.forge.billet import Billet
from kit.forge.stack import Stack
from kit.forge.steps import Hammer, QuarterTurn
from kit.metal.bath import BITES
from kit.metal.bite import BITE, GRAIN, Between, Bitten, Etch, between, bitten
from kit.metal.colour import COLOURS, colour_difference, contrast_ratio, lightness
from kit.metal.coupons import Coupon
from kit.metal.etch import TONES
from kit.metal.eye import COUNTED_AS_SEEN, EYE, ONE_MINUTE
from kit.section.picture import Sheet
from kit.section.surface import Plane

STRENGTHS = ("weak", "usual", "strong")
GRITS = tuple(GRAIN)
SINCE = (
    "nothing",
    "cleaned, etched again",
    "0.3 mm (0.012 in) ground off, etched again",
)
GROUND = 0.3  # mm
POLISHED = ("As they came out", "High spots polished")
# Twice the time: the step doubles, and the tones gain less than a third. Ours.
LONG, GAINED = 1.8, 1.33
# In inch mode: inch by inch as far as an arm, then by half feet.
FEET = tuple(MM_PER_INCH * inch for inch in (*range(10, 36), *range(36, 118, 6), 118))
WIDE = 24.0  # mm of face that a strip shows
ONE_GREY = "From here it is all one grey: the eye averages what it cannot resolve."
ALIKE = "These two etch nearly alike: without nickel or chromium there is little to see."
BOOK = "The ink wears, the book does not: the layers are still there."


class EtchingLesson(Lesson):
    """Two steels, an etch, what became of it, and where the reader stands."""

    key: ClassVar = "09"
    number: ClassVar = "09"
    title: ClassVar = "The etch develops it, the eye limits it"
    main: ClassVar = "distance"
    look: ClassVar = ""
    cues: ClassVar = ("distance", "wear", "since", "minutes", "grit", "first", "second")

    distance: float = quantity(
        "Seen from", "the eye's distance", low=250, high=3000, unit="mm", default=300,
        step=50, inch=FEET, away=True,
    )  # fmt: skip
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
    polished: int = choice("High spots", ("as they came out", "polished"))
    first: int = choice("Steel A", CALLED)
    second: int = choice("Steel B", CALLED, default=1)

    stations: ClassVar = {
        "1 Look": ("distance", "wear", "since"),
        "2 Etch": ("minutes", "strength", "grit", "polished"),
        "3 Steels": ("first", "second"),
    }

    question: ClassVar = Question(
        ask=(
            "Three blades, etched alike, with bands 0.3, 0.8 and 2.0 mm wide. Priya stands "
            "3 m away. On which of them does she still see a pattern?"
        ),
        given={"distance": ideas.FAR},
        tiles=(ideas.NONE, ideas.ONLY_WIDE, ideas.TWO, ideas.ALL),
        right=ideas.ONLY_WIDE,
        show=lambda still: WORDS[round(still)],
        draw=tile,
        observed=(
            "Only on the one with bands of 2.0 mm. From 3 m the eye resolves 0.87 mm; "
            "finer bands run together to an even grey."
        ),
        reasons=(
            Reason(
                "The eye averages what it cannot resolve: one arc-minute.",
                True,
                "Yes. That is 0.087 mm at 300 mm and ten times as much at ten times the "
                "distance. The steel has not changed.",
            ),
            Reason(
                "The etch is too weak to be seen from afar.",
                False,
                "Etch longer, in the stronger bath. Do the 0.8 mm bands come back?",
            ),
            Reason(
                "There is less light at 3 m.",
                False,
                "The lamp lights the blade, not the way to it. Step nearer: the same lamp.",
            ),
        ),
    )
    # step back
    film: ClassVar = tuple(
        {"distance": float(round(300 + 2700 * step / 14, -1))} for step in range(15)
    )
    checks: ClassVar = (ideas.STEEP, ideas.WALK)

    @property
    def names(self) -> tuple[str, str]:
        """The two grades."""
        return STEELS[self.first], STEELS[self.second]

    @property
    def etch(self) -> Etch:
        """The etch as it is to be seen: etched again, no wear is left."""
        made = Etch(
            minutes=self.minutes,
            strength=STRENGTHS[self.strength],
            grit=GRITS[self.grit],
            polished=bool(self.polished),
            wear=self.wear,
        )
        return made.again() if self.since else made

    @property
    def depth(self) -> float:
        """How deep below the first face the present one lies, mm."""
        return GROUND if self.since == 2 else 0.0

    def face(self, band: float, columns: int, rows: int) -> tuple[Billet, Plane]:
        """Cut a face on which bands of a width run up the picture, a little wavy."""
        pieces = max(2, round(WIDE / band))
        stack = Stack.alternate(
            *self.names, pieces=pieces, thickness=band, length=60, width=20
        )
        bar = Billet(source=stack).then(
            Hammer(depth=min(2.0, stack.thickness / 12), spacing=14, seed=5), QuarterTurn()
        )
        pixel = WIDE / columns
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
        del told
        found = bitten(self.names, self.etch, readings)
        both = between(*self.names, self.etch, readings)
        sheet = Sheet(drawing.COLUMNS, drawing.ROWS, **paper)
        section(sheet, self.names, found, self.etch.wear)
        away = format_away(self.distance, units)
        sheet.text(f"The face, as seen from {away}", (STRIPS[0], 6), size=18)
        tones = {name: part.tone for name, part in found.items()}
        panels = tuple(
            strip(sheet, number, self.face(band, *STRIPS[2:]), tones, self.distance, units)
            for number, band in enumerate(BANDS)
        )
        return Scene(
            image=sheet.image,
            alt=one_way(partial(self._alt, both, panels), units),
            numbers=self._numbers(found, both, units),
            says=one_way(partial(self._says, both), units),
            panels=panels,
        )

    def seen(self, both: Between) -> list[float]:
        """List the bands, mm, that an eye still sees: wide enough, unlike enough."""
        dark, bright = (both.unresolved * (1 + sign * both.contrast) for sign in (-1, 1))
        ratio = float(contrast_ratio(dark, bright))
        return [band for band in BANDS if EYE.sees(band, self.distance, ratio)]

    def remark(self, changed: str, units: Units = Units.MM) -> str:
        """Say what etch, wear, cleaning and distance do."""
        both = between(*self.names, self.etch)
        if self.first == self.second:
            return "One steel: nothing to tell apart, whatever the acid does."
        step = f"a step of {format_thin(both.relief / 1000, units)}"
        tones = f"a contrast of {both.contrast:.2f}"
        pair = ALIKE
        if both.contrast >= 0.15:
            pair = f"{self.names[0]} and {self.names[1]}: {tones} (illustrative)."
        points = {
            "distance": self._says(both, units),
            "first": pair,
            "second": pair,
            "since": self._kept(tones),
            "wear": self._worn(both),
            "minutes": self._bathed(both, units),
            "strength": f"In the {STRENGTHS[self.strength]} bath: {step} (illustrative).",
            "grit": f"Sanded to P{GRITS[self.grit]}: {tones} (illustrative).",
            "polished": f"{POLISHED[self.polished]}: {tones} (illustrative).",
        }
        return points.get(changed, "")

    def _kept(self, tones: str) -> str:
        if not self.since:
            return f"Left as it is, worn {self.wear:g} %: {tones} (illustrative)."
        return BOOK + " Deeper in, their lines lie a little elsewhere." * (self.since == 2)

    def _says(self, both: Between, units: Units) -> str:
        left = self.seen(both)
        if not left:
            return ONE_GREY
        away, limit = format_away(self.distance, units), EYE.finest(self.distance)
        bands = in_units(" and ".join(f"{band:g}" for band in left) + " mm", units)
        fine = format_beside(limit, left[0], units)
        return f"From {away} an eye resolves {fine}: it still sees bands of {bands}."

    def _worn(self, both: Between) -> str:
        if self.since:
            return f"Worn {self.wear:g} %, but etched again since: no wear is left to see."
        if self.wear >= 95:
            return (
                "Rubbed flat and bare: nearly one silver grey. Clean it and etch it again."
            )
        fresh = between(*self.names, self.etch.model_copy(update={"wear": 0.0}))
        if not self.wear:
            return "Fresh from the bath: nothing is rubbed off the high spots."
        return f"Worn: contrast {both.contrast:.2f}, fresh it was {fresh.contrast:.2f}."

    def _bathed(self, both: Between, units: Units) -> str:
        """Say whether so long a bath parted the tones, or only dug deeper."""
        if not self.minutes:
            return (
                "Not etched: ground steel, silver all over. The pattern is there, unseen."
            )
        step = format_thin(both.relief / 1000, units)
        half = self.etch.model_copy(update={"minutes": self.minutes / 2})
        before = between(*self.names, half)
        if both.relief > LONG * before.relief and both.contrast < GAINED * before.contrast:
            return (
                f"Twice as long has hardly parted the tones, and dug twice as deep, {step} "
                "(illustrative)."
            )
        return f"Etched {self.minutes:g} minutes: a step of {step} (illustrative)."

    def _numbers(
        self, found: Mapping[str, Bitten], both: Between, units: Units
    ) -> tuple[Number, ...]:
        (first, one), (second, other) = ((name, found[name]) for name in self.names)
        mean = "the mean of the two tones: what the eye makes of lines it cannot resolve"
        return (
            Number(
                "Relief (illustrative)",
                f"{both.relief:.1f} µm",
                [
                    "relief = difference of what the two steels lost, less what is worn",
                    f"{first} {one.depth:.1f} µm, {second} {other.depth:.1f} µm",
                    f"= {both.relief:.1f} µm",
                ],
                (BITE, BITES),
            ),
            Number(
                "Contrast (illustrative)",
                f"{both.contrast:.2f}",
                [
                    "contrast = (bright - dark) / (bright + dark)",
                    f"tones {one.tone:.2f} and {other.tone:.2f} of the light",
                    f"= {both.contrast:.2f}; to the eye {_unlike(one.tone, other.tone)}",
                ],
                (TONES, BITE, COLOURS),
            ),
            *self._eyesight(both, units),
            Number(
                "Tone where unsplit (illustrative)",
                f"{both.unresolved:.2f}",
                [
                    mean,
                    f"= ({one.tone:.2f} + {other.tone:.2f}) / 2 = {both.unresolved:.2f}",
                ],
                (TONES, BITE),
            ),
        )

    def _eyesight(self, both: Between, units: Units) -> tuple[Number, Number]:
        limit, left = EYE.finest(self.distance), self.seen(both)
        return (
            Number(
                f"Eye limit from {format_away(self.distance, units)}",
                format_length(limit, units),
                [
                    "one arc-minute: limit = distance × tan(1/60°)",
                    f"= {self.distance:g} mm × 0.000291",
                    f"= {limit:.3f} mm",
                ],
                (ONE_MINUTE,),
            ),
            Number(
                "Bands still seen",
                ", ".join(f"{band:g}" for band in left) + " mm" if left else "none",
                [f"as wide as {limit:.3f} mm or wider, and not alike in tone"],
                (ONE_MINUTE, COUNTED_AS_SEEN, TONES, BITE),
            ),
        )

    def _alt(self, both: Between, panels: tuple[Panel, ...], units: Units) -> str:
        one, other = self.names
        step = format_beside(both.relief / 1000, 1, units)
        fine, middle, wide = (panel.shows for panel in panels)
        pair = f"{one} and {other} in turn" if one != other else f"{one} alone"
        worn = f", {self.wear:g} percent worn" if self.wear and not self.since else ""
        since = f", {SINCE[self.since]}" if self.since else ""
        return (
            f"On the left the etched face in section, its height drawn "
            f"{TIMES} times too large: {pair}, a step of "
            f"{step} after {self.minutes:g} minutes in the "
            f"{STRENGTHS[self.strength]} bath{worn}{since}. On the right three faces with "
            f"layers of 0.3, 0.8 and 2 mm as an eye sees them from "
            f"{format_away(self.distance, units)}. The first shows {fine}; the second "
            f"{middle}; the third {wide}."
        )


def _unlike(one: float, other: float) -> str:
    """Say how light two greys look, and how different (CIE 1976 L*, CIEDE2000)."""
    levels = [float(lightness(tone)) for tone in (one, other)]
    labs = [np.array([level, 0.0, 0.0]) for level in levels]
    apart = float(colour_difference(*labs))
    return f"lightness L* {levels[0]:.0f} and {levels[1]:.0f}, ΔE00 = {apart:.0f}"
