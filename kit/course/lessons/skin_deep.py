"""Lesson 06, painted on or all the way through: a forged bar and an engraved one."""

from functools import cached_property, lru_cache
from typing import Any, ClassVar

import numpy as np
from PIL import Image

from kit.basics.claim import Claim, Kind
from kit.basics.declare import choice, quantity
from kit.basics.units import Units, format_length, format_thin
from kit.course.lessons import skin_deep_ideas as ideas
from kit.course.lessons.base import Lesson
from kit.course.lessons.scene import Number, Panel, Part, Scene
from kit.course.lessons.twist_drawing import line_angle
from kit.forge.billet import Billet
from kit.forge.stack import Stack
from kit.forge.steps import RoundUp, SquareUp, Twist
from kit.metal import etch
from kit.section.block import Block
from kit.section.half import whole
from kit.section.picture import ACCENT, INK, QUIET, STEEL, Sheet
from kit.section.surface import Plane
from kit.section.trace import Face, Surface, by_bands, see, share_inside
from kit.shop.bought import Engraved
from kit.shop.patterns import ground as grind
from kit.shop.patterns import raindrop, random, square

PATTERNS = ("twisted", "hammered by hand", "raindrop")
TWISTED, HAMMERED, RAINDROP = range(3)
ETCHED = ("etched again", "not etched yet")
AGAIN, NOT_YET = range(2)
# How the three were forged is ours: common practice, no source.
PIECES, TURN = 17, 40.0  # layers of the twisted bar, and mm for one turn
OFF = (2.0, 0.15, 0.15)  # mm ground off each to begin with, as a bar is sold
PLAIN = "1084"
THIN_SKIN = Claim(
    says="An engraved or printed pattern is some hundredths of a millimetre deep; it "
    "may repeat, or stop at corners.",
    kind=Kind.OURS,
    source="illustrative",
    unit="mm",
    holds=("DEPTH",),
    told=("engraved bar is ours", "mark on the surface"),
)
DEPTH = 0.05  # of the engraving, mm: illustrative
ASKED = {"skin": DEPTH, "ground": 0.1, "thick": 13.6}  # mm, of the twisted bar
TILE, HEADED = (200, 150), 26  # pixels
TILE_PIXEL = 0.126  # mm: the bar's width fills the tile
POLISHED = 0.6  # how bright ground steel is before it is etched, both alike: illustrative
HAIR = 1e-5  # mm: inside the face, not on it
SKIN = 1e-3  # mm: what belongs to the ground face

COLUMNS, ROWS = 1000, 524  # pixels
LEFT = {"forged": 10, "engraved": 510}
TITLES = {
    "forged": "Forged: layers all the way through",
    "engraved": "Engraved or printed: a skin on plain steel",
}
WIDE = 480  # pixels
BAR, BAR_AT = 168, 34  # rows and top
FACE, FACE_AT = 120, 232
FACE_PIXEL = 40 / WIDE  # mm: 40 mm of the bar
SLICE, SLICE_AT = 96, 398
SLICE_LONG, SLICE_DEEP = 12.0, 0.6  # mm
SHOWN = 60.0  # mm of the bar
GHOST = 0.3  # what is ground away, faint


@lru_cache(maxsize=3)
def bar(pattern: int) -> Billet:
    """Forge one of the bars, its top face flat."""
    if pattern == TWISTED:
        forged = square(PIECES).then(RoundUp(), Twist(turn_length=TURN), SquareUp())
    else:
        forged = random() if pattern == HAMMERED else raindrop()
    return grind(forged, OFF[pattern])


@lru_cache(maxsize=6)
@whole()
def tones_at(pattern: int, ground: float = 0.0) -> np.ndarray:
    """See the etched face of a forged bar, so many mm down: 0 dark steel, 1 bright."""
    plane = SkinDeepLesson(pattern=pattern, ground=ground).face(
        600, round(0.95 * bar(pattern).size.width / 0.1), 0.1
    )
    return see(bar(pattern), plane, {"1084": 0.0, "15N20": 1.0}).tone


@lru_cache(maxsize=3)
def engraved(pattern: int) -> Engraved:
    """Make a bar of plain steel that looks the same as the forged one from above."""
    length, width, thickness = bar(pattern).size
    halves = Stack.alternate(
        PLAIN, PLAIN, pieces=2, thickness=thickness / 2, length=length, width=width
    )
    return Engraved(billet=Billet(source=halves), pattern=bar(pattern), depth=DEPTH)


@lru_cache(maxsize=6)
@whole()
def sliced(first: "SkinDeepLesson", plane: Plane, made: str) -> Face:
    """See a slice as it was at first; kept, since grinding does not change it.

    Depth is drawn too large: what lies side by side is averaged.
    """
    shape = SLICE, WIDE, plane.columns // WIDE
    return Face(*(part.reshape(shape).mean(axis=2) for part in first.seen(plane, made)))


def tile(left: float) -> tuple[Image.Image, str]:
    """Draw both faces, with a pattern on those alone that are expected to show one."""
    begun, after = SkinDeepLesson(), SkinDeepLesson(ground=ASKED["ground"])
    sheet = Sheet(*TILE, look=STEEL)
    wide = TILE[0] // 2 - 6
    for at, made in ((0, "forged"), (TILE[0] - wide, "engraved")):
        shown = round(left) & (ideas.FORGED if made == "forged" else ideas.ENGRAVED)
        job = begun if shown else after
        plane = job.face(wide, TILE[1] - HEADED, TILE_PIXEL)
        sheet.steel(job.seen(plane, made if shown else "engraved"), (at, HEADED), plane)
        sheet.text(made, (at, 3))
    return sheet.image, f"Two ground faces. A pattern is on: {ideas.SHOWN[round(left)]}."


class SkinDeepLesson(Lesson):
    """A forged bar, an engraved one, and a grinder that takes the same off both."""

    key: ClassVar = "skin deep"
    number: ClassVar = "06"
    title: ClassVar = "Painted on, or all the way through?"
    main: ClassVar = "ground"
    phone: ClassVar = (Part(0, 0, 500, 194), Part(500, 0, 1000, 194))
    cues: ClassVar = ("ground", "etched")
    question: ClassVar = ideas.TOLD.question(
        given=ASKED,
        tiles=(ideas.STAYS, ideas.ALL_SKIN, ideas.THROUGH, ideas.CUT_IN),
        right=ideas.THROUGH,
        show=lambda left: ideas.SHOWN[round(left)],
        draw=tile,
    )
    checks: ClassVar = (ideas.HOW_OFTEN, ideas.WHAT_IS_LEFT)
    film: ClassVar = tuple({"ground": ground} for ground in (0.0, 0.05, ASKED["ground"]))

    ground: float = quantity(
        "Ground away", "off the top of both bars", low=0, high=0.5, unit="mm", default=0,
        step=0.01, inch=1 / 1000,
    )  # fmt: skip
    etched: int = choice("After grinding", ETCHED)
    pattern: int = choice("Pattern", PATTERNS)

    shuts: ClassVar = {
        "Nothing is ground off yet: both are etched.": (
            lambda job: not job.ground, "etched"
        ),
    }  # fmt: skip

    @property
    def billet(self) -> Billet:
        """The forged bar before it is ground."""
        return bar(self.pattern)

    @property
    def first(self) -> "SkinDeepLesson":
        """The same two bars as they were at first."""
        return SkinDeepLesson(pattern=self.pattern)

    @property
    def level(self) -> float:
        """Height of the face above the bar's axis, mm."""
        return self.billet.size.thickness / 2 - self.ground

    @property
    def gone(self) -> bool:
        """Whether the engraving is ground away."""
        return self.ground >= DEPTH

    def bright(self, made: str) -> bool:
        """Whether the face of the "forged" or "engraved" bar shows nothing yet."""
        off = self.gone if made == "engraved" else self.ground > 0
        return off and self.etched == NOT_YET

    def seen(self, surface: Surface, made: str) -> Face:
        """See the "forged" or the "engraved" bar; not etched yet, its face is bright."""
        tones = etch.tones(self.billet.source.steels)
        forged = made == "forged"
        face = (
            see(self.billet, surface, tones)
            if forged
            else engraved(self.pattern).see(surface, tones)
        )
        if not self.bright(made):
            return face
        floor = self.level - SKIN
        top = by_bands(surface, lambda points: share_inside(points[2] - floor))
        tone = face.tone + top * (POLISHED - face.tone)
        return face._replace(tone=tone.astype(face.tone.dtype))

    def face(self, columns: int, rows: int, pixel: float) -> Plane:
        """Look at the ground face from straight above; pixel in mm."""
        size = self.billet.size
        centre = (size.length / 2, 0.0, self.level - HAIR)
        return Plane.facing(size, "face", centre, (columns, rows), pixel)

    @cached_property
    def changed(self) -> float:
        """Share of the forged face, 0 … 1, that is the other steel than at first."""
        return float(
            np.abs(tones_at(self.pattern, self.ground) - tones_at(self.pattern)).mean()
        )

    @property
    def lean(self) -> float:
        """How much the metal leans on the middle of the twisted face, degrees."""
        return line_angle(self.billet, self.level - HAIR)

    def draw(self, units: Units, *, told: bool = True, **paper: Any) -> Scene:
        """Grind both bars alike; show both, and a slice of each."""
        sheet = Sheet(COLUMNS, ROWS, **paper)
        forged, engraved = (
            self._column(sheet, made, left, units) for made, left in LEFT.items()
        )
        alike = "From above they look alike. Look at the sides; then grind."
        return Scene(
            image=sheet.image,
            alt=lambda: self._alt(forged[1], engraved[1], units),
            numbers=self._numbers(units),
            says=alike,
            panels=forged,  # only its steel can be asked about
        )

    def remark(self, changed: str, units: Units = Units.MM) -> str:
        """Say what grinding took and what etching brings back."""
        if changed == "pattern":
            return self._named()
        if not self.ground:
            bare = "Nothing is ground off yet, so both are still etched as they were."
            whole = "Etched, and nothing ground off: from above the two are alike."
            return bare if self.etched == NOT_YET else whole
        if self.etched == NOT_YET:
            bright = (
                "Ground bright, both are bare: grinding takes the etch off. Etch again."
            )
            deep = "The forged face is bare; the engraving is deeper than that. Grind on."
            return bright if self.gone else deep
        return self._again(changed, units)

    def _named(self) -> str:
        name = PATTERNS[self.pattern].capitalize()
        if self.gone and self.etched == AGAIN:
            return f"{name}: the forged one has its pattern still, the engraved one none."
        return f"{name}: the engraved twin copies its face, and its sides are plain."

    def _again(self, changed: str, units: Units) -> str:
        """Say what is left once it is etched again."""
        if not self.gone:
            left = format_thin(DEPTH - self.ground, units)
            return f"A little is off: {left} of the engraving is left, and not for long."
        if changed == "etched":
            return "Etched again: the forged pattern is back. On plain steel there is none."
        deeper = "you are deeper"
        if self.pattern == RAINDROP:
            deeper = "between the drops, too, other layers lie bare now"
        return (
            "The engraving is gone. The forged pattern is still there, "
            f"{100 * self.changed:.0f} % of its face changed: {deeper}."
        )

    def _column(
        self, sheet: Sheet, made: str, left: int, units: Units
    ) -> tuple[Panel, Panel]:
        """Draw one of the two bars, its face and a slice, one below another."""
        sheet.text(TITLES[made], (left, 8), size=19)
        middle = self.billet.size.length / 2
        ground = ((0.0, 0.0, 1.0), (0.0, 0.0, self.level)) if self.ground else None
        span = (middle - SHOWN / 2, middle + SHOWN / 2)
        block = Block.fitted(self.billet.size, WIDE, BAR, cut=ground, span=span)
        sheet.steel(self.seen(block, made), (left, BAR_AT), block)
        plane = self.face(WIDE, FACE, FACE_PIXEL)
        sheet.above((left, FACE_AT), "From above, larger")
        seen = self.seen(plane, made)
        sheet.steel(seen, (left, FACE_AT), plane)
        sheet.scale_bar((left + WIDE - 130, FACE_AT - 8), FACE_PIXEL, units, most=125)
        self._slice(sheet, made, left, units)
        above = Panel(self.billet, plane, (left, FACE_AT), seen)
        return Panel(self.billet, block, (left, BAR_AT)), above

    def _slice(self, sheet: Sheet, made: str, left: int, units: Units) -> None:
        """Draw a slice along the bar, down through its top; what is ground is faint."""
        deep, along, size = SLICE_DEEP / SLICE, SLICE_LONG / WIDE, self.billet.size
        times = round(along / deep)
        centre = (size.length / 2, 0.0, size.thickness / 2 - SLICE_DEEP / 2)
        plane = Plane.facing(size, "side", centre, (WIDE * times, SLICE), deep)
        words = (
            f"A slice, {format_thin(SLICE_DEEP, units)} deep, drawn {times} times too deep"
        )
        sheet.above((left, SLICE_AT), words)
        gone = round(self.ground / deep)
        inside = sliced(self.first, plane, made)
        cover = inside.cover.copy()
        cover[:gone] *= GHOST
        inside = inside._replace(cover=cover)
        sheet.steel(inside, (left, SLICE_AT))
        sheet.box((left - 1, SLICE_AT - 1), (left + WIDE, SLICE_AT + SLICE), ink=QUIET)
        level, foot = SLICE_AT + self.ground / deep, SLICE_AT + SLICE + 5
        sheet.line([(left - 6, level), (left + WIDE + 6, level)], ink=ACCENT, width=4)
        sheet.text("ground to this line", (left, foot), size=16, ink=ACCENT)
        if made == "engraved":
            words = f"skin: {format_thin(DEPTH, units)} (illustrative)"
            sheet.text(words, (left + WIDE, foot), size=16, ink=INK, anchor="ra")

    def _alt(self, forged: Panel, engraved: Panel, units: Units) -> str:
        ground = self.ground
        off = (
            f"{format_thin(ground, units)} ground off both"
            if ground
            else "nothing ground off"
        )
        again = f", {100 * self.changed:.0f} percent of it changed" if ground else ""
        bare = "is bright and bare, "
        one = (
            f"{bare}{forged.shows}"
            if self.bright("forged")
            else f"shows {forged.shows}{again}"
        )
        other = f"{bare if self.bright('engraved') else 'shows '}{engraved.shows}"
        if not self.bright("engraved") and str(engraved.shows) == str(forged.shows):
            other = "shows the same"
        return (
            f"Two bars side by side, {off}. Left, forged, {PATTERNS[self.pattern]}: its "
            f"face {one}; its sides and end show the layers too. Right, engraved: its face "
            f"{other}; its sides and end are plain. Below each, a slice through its "
            f"top: in the forged bar the layers run on down, in the other a thin skin lies "
            f"on plain steel."
        )

    def _numbers(self, units: Units) -> tuple[Number, ...]:
        thick, left = self.billet.size.thickness, max(DEPTH - self.ground, 0.0)
        numbers = [
            Number(
                "Forged: pattern left below the face",
                f"{format_length(thick - self.ground, units)}, all of it",
                [
                    "layers go all the way through: left = bar - ground away",
                    f"= {thick:.2f} mm - {self.ground:g} mm",
                    f"= {thick - self.ground:.2f} mm",
                ],
            ),
            Number(
                "Engraved: skin left (illustrative)",
                "none" if self.gone else format_thin(left, units),
                [
                    "left = depth of the engraving - ground away, or none",
                    f"= {DEPTH:g} mm - {self.ground:g} mm",
                    "none" if self.gone else f"= {left:.3g} mm",
                ],
                (THIN_SKIN,),
            ),
            Number(
                "Forged face: now the other steel",
                f"{100 * self.changed:.0f} %",
                [
                    "compare the etched face, place by place, with what it was at first",
                    f"share that changed from dark to bright or back: {self.changed:.3f}",
                ],
            ),
        ]
        if self.pattern == TWISTED:
            lean = f"{self.lean:.1f}°"
            working = [
                "nearer to the axis the steel moved less for the same turn (lesson 04)",
                f"two specks of steel, followed through the twist: {lean}",
            ]
            both = f"{lean}, at first {self.first.lean:.1f}°"
            numbers.append(Number("Lean of the lines, in the middle", both, working))
        return tuple(numbers)
