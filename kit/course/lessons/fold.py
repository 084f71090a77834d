"""Lesson 02: stack and fold. Every fold multiplies."""

from __future__ import annotations

from typing import ClassVar

from kit.basics.declare import choice, quantity
from kit.basics.units import Units, format_length
from kit.course.lessons import drawing, fold_chart
from kit.course.lessons.eye import EYE_300
from kit.course.lessons.fold_ideas import working
from kit.course.lessons.job import Job as Base
from kit.course.lessons.scene import Number, Panel, Scene
from kit.forge.billet import Billet, fold_and_draw
from kit.forge.stack import Stack
from kit.metal import etch
from kit.section.picture import ACCENT, QUIET, Sheet
from kit.section.surface import cut
from kit.section.trace import see

BAR = 3.175  # mm, 1/8 in stock
GRAIN = 348  # rows of the end grain: always as high, however thick the bar
GRAIN_AT = (20, 52)
GRAIN_WIDE = 240
LOUPE = 150
LOUPE_AT = (345, 52)
MAGNIFIED = 20
MOST_MARKS = 64

LEGEND = 20  # folds, as the legends tell
JOINS = ("hinge fold", "restack in 2", "restack in 3", "restack in 4", "restack in 5")


class Job(Base):
    """A stack of 1/8 in bars, and how it is folded."""

    pieces: int = quantity(
        "Pieces in the stack", "bars of 1/8 in, 1084 and 15N20 in turn", low=2, high=25,
        default=7,
    )  # fmt: skip
    folds: int = quantity(
        "Folds", "each fold: lay the bar on itself, weld, draw out again", low=0,
        high=LEGEND, default=4,
    )  # fmt: skip
    join: int = choice("Way of joining", JOINS)
    thickness: float = quantity(
        "Bar thickness afterwards", "the finished bar", low=3, high=30, unit="mm",
        default=6,
    )  # fmt: skip

    gives: ClassVar = ("folds",)

    def check(self, units: Units) -> None:
        """Refuse layers thinner than an atom."""
        del units  # the bar's own sentence
        forged(**self.model_dump())


def forged(*, pieces: int, folds: int, join: int = 0, thickness: float) -> Billet:
    """Stack 1/8 in bars of 1084 and 15N20 in turn, fold, and draw to a thickness.

    Parameters
    ----------
    pieces : int
        Bars in the stack.
    folds : int
        0 to 20.
    join : int
        Index into `JOINS`.
    thickness : float
        Of the finished bar, mm.
    """
    stack = Stack.alternate("1084", "15N20", pieces=pieces, thickness=BAR)
    restack = None if join == 0 else join + 1
    return fold_and_draw(
        Billet(source=stack), folds=folds, thickness=thickness, pieces=restack
    )


def scene(*, units: Units = Units.MM, sunlit: bool = False, **values: float) -> Scene:
    """Forge the bar; show its end grain, a piece of it × 20, and the count.

    `values` are those of `Job`; what is left out stands as it is there.
    """
    job = Job.asked(values, units)
    pieces, folds, join, thickness = job.pieces, job.folds, job.join, job.thickness
    billet = forged(**job.model_dump())
    sheet = Sheet(drawing.COLUMNS, drawing.ROWS, sunlit=sunlit)
    panels = (_end_grain(sheet, billet, units), _loupe(sheet, billet, units))
    leaves = 2 if join == 0 else join + 1
    fold_chart.draw(sheet, (590, 10), pieces, folds, leaves, thickness)
    numbers = _numbers(billet, pieces, folds, leaves, units)
    return Scene(
        image=sheet.image,
        alt=_alt(panels[0], folds, join, units),
        numbers=numbers,
        panels=panels,
    )


def doubled(billet: Billet) -> int:
    """Count the places where like steel met like, so that two layers are one band."""
    return billet.layers - billet.bands


def _end_grain(sheet: Sheet, billet: Billet, units: Units) -> Panel:
    plane = cut(
        billet.size,
        angle=90,
        columns=GRAIN_WIDE,
        rows=GRAIN,
        pixel=billet.size.thickness / GRAIN,
    )
    sheet.text("End grain of the bar", (GRAIN_AT[0], 10), size=18)
    thick = format_length(billet.size.thickness, units)
    sheet.text(f"always drawn this high: {thick}", (GRAIN_AT[0], 31), size=15, ink=QUIET)
    seen = see(billet, plane, etch.tones(billet.source.steels))
    sheet.steel(seen, GRAIN_AT)
    _mark_doubles(sheet, billet)
    sheet.box(
        (GRAIN_AT[0] - 1, GRAIN_AT[1] - 1),
        (GRAIN_AT[0] + GRAIN_WIDE, GRAIN_AT[1] + GRAIN),
    )
    return Panel.drawn(billet, plane, GRAIN_AT, seen)


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


def _loupe(sheet: Sheet, billet: Billet, units: Units) -> Panel:
    """Look at a small square in the middle of the end grain, 20 times larger."""
    pixel = billet.size.thickness / GRAIN / MAGNIFIED
    plane = cut(billet.size, angle=90, columns=LOUPE, rows=LOUPE, pixel=pixel)
    left, top = LOUPE_AT
    sheet.text(f"The middle, {MAGNIFIED} times larger", (left, 10), size=18)
    sheet.steel(see(billet, plane, etch.tones(billet.source.steels)), LOUPE_AT)
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
            sheet.text(text, (left + 17, y - 9 + 20 * line), size=15, ink=ACCENT)
    return Panel(billet, plane, LOUPE_AT)


def _numbers(
    billet: Billet, pieces: int, folds: int, leaves: int, units: Units
) -> tuple[Number, ...]:
    given = {"n": pieces, "k": folds, "m": leaves}
    layer = billet.mean_layer
    numbers = [
        Number("Layers (pieces of steel)", f"{billet.layers:,}", working(given)),
        Number("Bands (stripes there are)", f"{billet.bands:,}", _band_lines(billet)),
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
    if doubled(billet):
        double = format_length(2 * layer, units)
        lines = ["double band = 2 × one layer", f"= {format_length(2 * layer, Units.MM)}"]
        numbers.append(Number("A double band", double, lines))
    return (*numbers, _seen(layer, units))


def _seen(layer: float, units: Units) -> Number:
    seen = "yes" if layer >= EYE_300 else "no"
    return Number(
        f"Seen at {format_length(300, units)}, cut square?",
        f"{seen} (a good eye splits {format_length(EYE_300, units)})",
        [
            "a good eye splits one minute of arc",
            "300 mm × tan(1/60°)",
            f"= {format_length(EYE_300, Units.MM)}",
        ],
    )


def _band_lines(billet: Billet) -> list[str]:
    like = doubled(billet)
    return [
        "bands = layers - welds where like meets like",
        f"= {billet.layers:,} - {like:,}",
        f"= {billet.bands:,}",
    ]


def _alt(grain: Panel, folds: int, join: int, units: Units) -> str:
    billet = grain.billet
    pieces = len(billet.source.layers)
    layer = format_length(billet.mean_layer, units)
    way = JOINS[join]
    times = "not folded" if folds == 0 else f"{way}, {folds} times"
    fine = ""
    if billet.layers > GRAIN:
        fine = "; the layers are finer than the picture can split"
    like = doubled(billet)
    double = f" Little wedges mark {like} double bands." if 0 < like <= MOST_MARKS else ""
    return (
        f"End grain of a bar {format_length(billet.size.thickness, units)} thick: {pieces} "
        f"pieces, {times}, gives {billet.layers:,} layers of {layer} and {billet.bands:,} "
        f"bands. It shows {grain.shows}{fine}.{double} Beside it the middle, 20 times "
        f"larger, and a chart of layers after each fold."
    )


def remark(changed: str, state: dict[str, float]) -> str:
    """Say what a change of one control did, where that is the point of it."""
    if changed == "folds" and state["folds"] == 0:
        return "No fold: the stack as it was welded."
    if changed == "join" and state["join"]:
        return (
            "Cut and restacked the same way up: an even stack loses no band, since "
            "unlike steels meet. Hinge folds lay like on like."
        )
    return ""
