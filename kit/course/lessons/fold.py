"""Lesson 02: stack and fold. Every fold multiplies."""

from functools import cached_property, partial
from typing import Any, ClassVar

from PIL import Image

from kit.basics.claim import Claim, Kind
from kit.basics.declare import choice, quantity
from kit.basics.told import counted, one_way
from kit.basics.units import Units, format_beside, format_length, in_figures
from kit.course.lessons import drawing
from kit.course.lessons import fold_ideas as ideas
from kit.course.lessons.base import Lesson
from kit.course.lessons.scene import FORGED, Number, Panel, Part, Scene
from kit.forge.billet import IRON_ATOM, Billet, fold_and_draw
from kit.forge.stack import Stack
from kit.metal import etch
from kit.metal.eye import EYE_300, ONE_MINUTE
from kit.section.picture import ACCENT, INK, LAYERS, QUIET, Sheet
from kit.section.surface import cut

GRAIN = 348  # rows of the end grain: always as high, however thick the bar
GRAIN_AT = (20, 52)
GRAIN_WIDE = 240
LOUPE = 150
LOUPE_AT = (345, 52)
MAGNIFIED = 20
MOST_MARKS = 64
WIDE, HIGH = 380, 248  # of the chart


def doubled(billet: Billet) -> int:
    """Count the places where like steel met like, so that two layers are one band."""
    return billet.layers - billet.bands


def end_grain(sheet: Sheet, billet: Billet, units: Units) -> Panel:
    """Draw the end grain, always as high, however thick the bar."""
    plane = cut(
        billet.size,
        angle=90,
        columns=GRAIN_WIDE,
        rows=GRAIN,
        pixel=in_figures(billet.size.thickness / GRAIN),
    )
    thick = format_length(billet.size.thickness, units)
    sheet.above(GRAIN_AT, "End grain of the bar", f"always this high: {thick}")
    panel = Panel.laid(sheet, billet, plane, GRAIN_AT)
    _mark_doubles(sheet, billet)
    sheet.box(
        (GRAIN_AT[0] - 1, GRAIN_AT[1] - 1), (GRAIN_AT[0] + GRAIN_WIDE, GRAIN_AT[1] + GRAIN)
    )
    return panel


def _mark_doubles(sheet: Sheet, billet: Billet) -> None:
    """Point at every band where like met like at a weld."""
    count = doubled(billet)
    stacks = billet.layers // len(billet.source.layers)
    right = GRAIN_AT[0] + GRAIN_WIDE + 3
    if not 0 < count <= MOST_MARKS:
        return
    for weld in range(1, stacks):
        y = GRAIN_AT[1] + GRAIN * (1 - weld / stacks)
        sheet.shape([(right, y), (right + 11, y - 3), (right + 11, y + 3)], fill=ACCENT)


def loupe(sheet: Sheet, billet: Billet, units: Units) -> Panel:
    """Look at a small square in the middle of the end grain, 20 times larger."""
    pixel = in_figures(billet.size.thickness / GRAIN / MAGNIFIED)
    plane = cut(billet.size, angle=90, columns=LOUPE, rows=LOUPE, pixel=pixel)
    left, top = LOUPE_AT
    sheet.text(f"Its middle, {MAGNIFIED} times", (left, 5), size=18)
    panel = Panel.laid(sheet, billet, plane, LOUPE_AT)
    sheet.box((left - 2, top - 2), (left + LOUPE + 1, top + LOUPE + 1), width=2)
    sheet.scale_bar((left, top + LOUPE + 34), pixel, units, most=LOUPE)
    half = LOUPE / MAGNIFIED / 2
    x = GRAIN_AT[0] + GRAIN_WIDE / 2
    y = GRAIN_AT[1] + GRAIN / 2
    sheet.box((x - half, y - half), (x + half, y + half), ink=ACCENT, width=2)
    sheet.dashes((x + half, y - half), (left - 2, top), ink=ACCENT)
    sheet.dashes((x + half, y + half), (left - 2, top + LOUPE), ink=ACCENT)
    marks = doubled(billet)
    if marks:
        y = top + LOUPE + 79
        sheet.shape([(left, y), (left + 11, y - 3), (left + 11, y + 3)], fill=ACCENT)
        words = ["like met like here:", "one double band", f"({marks:,} in all)"]
        for line, text in enumerate(words):
            at = (left + 17, y - 9 + sheet.row * line)
            sheet.text(text, at, ink=ACCENT)
    return panel


def chart(sheet: Sheet, at: tuple[int, int], job: Any) -> None:
    """Draw one column a fold, to scale, and the straight line of "each fold adds".

    `job` is the lesson as it is set.

    Columns whose layers are finer than a good eye resolves at 300 mm, cut square, are
    left open; the others are solid.
    """
    left, top = at
    sheet.text("Layers after each fold", (left, top), size=18)
    sheet.dashes((left, top + 38), (left + 50, top + 38), ink=ACCENT, width=3, dash=9)
    words = "if each fold only added a stack"
    sheet.text(words, (left + 60, top + 38), size=16, ink=ACCENT, anchor="lm")
    counts = [job.pieces * job.leaves**fold for fold in range(job.folds + 1)]
    base, highest = top + 77 + HIGH, counts[-1]
    step = WIDE / len(counts)
    places = [
        (left + (fold + 0.5) * step, base - HIGH * count / highest)
        for fold, count in enumerate(counts)
    ]
    for fold, (count, (x, y)) in enumerate(zip(counts, places, strict=True)):
        fine = job.thickness / count < EYE_300
        half = min(18, step * 0.36)
        sheet.box(
            (x - half, min(y, base - 2)),
            (x + half, base),
            fill=sheet.page if fine else INK,
            ink=INK,
            width=2,
        )
        sheet.text(str(fold), (x, base + 5), anchor="ma", gives_way=True)
    sheet.text(f"{highest:,}", (places[-1][0], places[-1][1] - 5), anchor="mb")
    if job.folds:
        added = base - HIGH * job.pieces * len(counts) / highest
        sheet.dashes(places[0], (places[-1][0], added), ink=ACCENT, width=3, dash=9)
    words = "folds. Open: layers too fine for a good eye, cut square"
    sheet.lines(words, (left, base + 26), WIDE, ink=QUIET)


BAR = 3.175  # mm, 1/8 in stock
MOST = 12  # folds on the slider at first
LEGEND = 20  # folds, as the legend tells
JOINS = ("hinge fold", *(f"cut in {pieces} and stack" for pieces in range(2, 6)))
MANY_ATOMS = 40  # layers of so few are told in atoms: about 10 nm
ASKED = {"n": 7, "k": 4}
# What the hand and the eye know, mm.
KNOWN = (
    (0.76, "a bank card"),
    (0.1, "a sheet of paper"),
    (7.5e-3, "a red blood cell is wide"),
    (555e-6, "a wave of green light is long"),
)
COMPARED = Claim(
    says="How thick a bank card and paper are, how wide a red blood cell, how long a wave "
    "of green light.",
    kind=Kind.PRACTICE,
    source="Card: ISO/IEC 7810; cell: physiology texts; light: 555 nm, where the eye sees "
    "best, CIE 018; all from memory. Paper, about 0.1 mm (0.004 in): common practice, no "
    "source",
    unit="mm",
    holds=("KNOWN",),
    told=("green light", "bank card is", "figures are from memory"),
)


def tile(layers: float) -> tuple[Image.Image, str]:
    """Draw the end grain that somebody who expects this many layers expects."""
    # what folding really makes, double bands and all
    if layers == ideas.LAYERS.value(ASKED):
        billet = FoldLesson(pieces=ASKED["n"], folds=ASKED["k"]).billet
    else:
        stack = Stack.alternate("1084", "15N20", pieces=int(layers), thickness=BAR)
        billet = Billet(source=stack)
    thick = billet.size.thickness
    wide = billet.size._replace(width=2 * thick)  # fills the tile
    plane = cut(wide, angle=90, columns=200, rows=150, pixel=thick / 150)
    sheet = Sheet(200, 150)
    sheet.steel(etch.seen(billet, plane), (0, 0))
    return sheet.image, f"End grain with {int(layers)} flat layers, dark and bright."


class FoldLesson(Lesson):
    """A stack of 1/8 in bars that is folded again and again, seen at its end."""

    key: ClassVar = "02"
    title: ClassVar = "Folding multiplies"
    main: ClassVar = "folds"
    phone: ClassVar = (Part(0, 0, 575, 412),)
    look: ClassVar = LAYERS
    cues: ClassVar = ("join", "pieces", "folds")

    pieces: int = quantity(
        "Pieces in the stack", "bars of 3.2 mm (1/8 in), 1084 and 15N20 in turn", low=2,
        high=25, default=7,
    )  # fmt: skip
    folds: int = quantity(
        "Folds", "each fold: lay the bar on itself, weld, draw out again", low=0,
        high=LEGEND, default=4, stops=range(MOST + 1),
    )  # fmt: skip
    join: int = choice("How it is doubled", JOINS)
    thickness: float = quantity(
        "Thickness after", "of the finished bar", low=3, high=30, unit="mm",
        default=6, step=0.5,
    )  # fmt: skip

    gives: ClassVar = ("folds",)

    question: ClassVar = ideas.TOLD.question(
        given=ASKED,
        tiles=(ideas.FOLD_PLUS_N, ideas.FOLD_PLUS_2N, ideas.FOLD_TIMES_2N, ideas.LAYERS),
        right=ideas.LAYERS,
        show=lambda layers: f"{layers:.0f} layers",
        draw=tile,
    )
    # the bar is folded, drawn out, folded again
    film: ClassVar = tuple({"folds": frame // 4} for frame in range(20))
    checks: ClassVar = (ideas.LAYER_COUNT, ideas.BAND_COUNT, ideas.FEWEST_FOLDS)

    @cached_property
    def billet(self) -> Billet:
        """The bars, folded and drawn to the thickness."""
        stack = Stack.alternate("1084", "15N20", pieces=self.pieces, thickness=BAR)
        return fold_and_draw(
            Billet(source=stack),
            folds=self.folds,
            thickness=self.thickness,
            pieces=None if self.join == 0 else self.leaves,
        )

    @property
    def leaves(self) -> int:
        """How many leaves each fold makes of one."""
        return self.join + 1 if self.join else 2

    def check(self, units: Units) -> None:
        """Refuse layers thinner than an atom."""
        # the bar's own sentence
        self.billet  # noqa: B018  (forged once, and kept)

    def draw(self, units: Units, *, told: bool = True, **paper: Any) -> Scene:
        """Show the bar's end grain, a piece of it × 20, and the count."""
        # told or not: until then the stack is not folded, which gives nothing away
        sheet = Sheet(drawing.COLUMNS, drawing.ROWS, **paper)
        panels = (end_grain(sheet, self.billet, units), loupe(sheet, self.billet, units))
        chart(sheet, (590, 10), self)
        return Scene(
            image=sheet.image,
            alt=lambda: one_way(partial(self._alt, panels[0]), units),
            numbers=self._numbers(units),
            says=self._says(units),
            panels=panels,
        )

    def remark(self, changed: str, units: Units = Units.MM) -> str:
        """Say what folding, cutting and stacking, and drawing out do."""
        billet = self.billet
        layer = format_length(billet.mean_layer, units)
        if changed == "join":
            return self._joined()
        if changed == "pieces":
            gain = f"so {billet.layers:,} now"
            return (
                f"{self.pieces} pieces to begin with, {gain}: folding multiplies what is "
                "there."
            )
        if changed == "thickness":
            thick = format_length(billet.size.thickness, units)
            return f"Forged to {thick}: the same {billet.layers:,} layers, {_fine(billet)}."
        if self.folds == 0:
            return "No fold: the stack as it was welded."
        many = f"{billet.layers:,} layers of {layer}"
        if billet.mean_layer < IRON_ATOM * MANY_ATOMS:
            atoms = billet.mean_layer / IRON_ATOM
            return (
                f"{many}: {atoms:.1f} atoms of iron thick. On paper it can still be "
                "counted."
            )
        return f"{many}{_thinner(billet)}: {_fine(billet)}."

    def _joined(self) -> str:
        how, billet = JOINS[self.join], self.billet
        if not self.folds:
            return f"Set to {how}, but nothing is folded yet: give it a fold."
        like = doubled(billet)
        if not like:
            return (
                f"{how.capitalize()}: unlike steels meet at every weld: each layer is a "
                "band."
            )
        return (
            f"{how.capitalize()}: like meets like {counted(like, 'time')}, and is one "
            "band each time."
        )

    def _says(self, units: Units) -> str:
        billet = self.billet
        layer = format_length(billet.mean_layer, units)
        bands = counted(billet.bands, "band")
        return f"{billet.layers:,} layers of {layer} in {bands}."

    def _numbers(self, units: Units) -> tuple[Number, ...]:
        billet = self.billet
        given = {"n": self.pieces, "k": self.folds, "m": self.leaves}
        layer, like = billet.mean_layer, doubled(billet)
        numbers = [
            Number("Layers (pieces of steel)", f"{billet.layers:,}", ideas.working(given)),
            Number(
                "Bands (stripes you can tell apart)",
                f"{billet.bands:,}",
                [
                    "bands = layers - welds where like meets like",
                    f"= {billet.layers:,} - {like:,}",
                    f"= {billet.bands:,}",
                ],
            ),
            Number(
                "One layer",
                format_length(layer, units),
                [
                    "layer = bar thickness / layers",
                    f"= {billet.size.thickness:g} mm / {billet.layers:,}",
                    f"= {format_length(layer, Units.MM)}",
                ],
            ),
        ]
        if like:
            double = format_length(2 * layer, units)
            in_mm = format_length(2 * layer, Units.MM)
            lines = ["double band = 2 × one layer", f"= {in_mm}"]
            numbers.append(Number("A double band", double, lines))
        return (*numbers, _seen(layer, units))

    def _alt(self, grain: Panel, units: Units) -> str:
        billet = self.billet
        layer = format_beside(billet.mean_layer, billet.size.thickness, units)
        times = counted(self.folds, "time")
        way = f"{JOINS[self.join]}, {times}" if self.folds else "not folded"
        fine = ""
        if billet.layers > GRAIN:
            fine = "; the layers are finer than the picture can show"
        like = doubled(billet)
        double = ""
        if 0 < like <= MOST_MARKS:
            double = f" Little wedges mark {counted(like, 'double band')}."
        return (
            f"End grain of a bar {format_length(billet.size.thickness, units)} thick. "
            f"A stack of {self.pieces} pieces, {way}, gives {billet.layers:,} layers of "
            f"{layer} and {counted(billet.bands, 'band')}. "
            f"It shows {grain.shows}{fine}.{double} "
            f"Beside it the middle, 20 times larger, and a chart of layers after each fold."
        )


def _thinner(billet: Billet) -> str:
    """Say than what each layer is thinner: the finest thing that everybody knows."""
    coarser = [name for thick, name in KNOWN if billet.mean_layer < thick]
    return f", thinner than {coarser[-1]}" if coarser else ""


def _fine(billet: Billet) -> str:
    """Say whether an eye tells the layers apart, cut square."""
    if billet.mean_layer < EYE_300:
        return "cut square, too fine for a good eye"
    return "cut square, a good eye still tells them apart"


def _seen(layer: float, units: Units) -> Number:
    seen = "yes" if layer >= EYE_300 else "no"
    return Number(
        f"Seen at {format_length(300, units)}, cut square?",
        f"{seen} (a good eye resolves {format_length(EYE_300, units)})",
        [
            "a good eye resolves one minute of arc",
            "300 mm × tan(1/60°)",
            f"= {format_length(EYE_300, Units.MM)}",
        ],
        (FORGED, ONE_MINUTE),
    )
