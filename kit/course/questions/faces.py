"""Pictures of ground faces and blades for the cards, drawn by the engine."""

from collections.abc import Iterable, Sequence
from functools import cache

import numpy as np
from PIL import Image

from kit.course.lessons import twist
from kit.course.lessons.bevels import BEFORE, BLADE, BevelsLesson
from kit.course.lessons.bevels_drawing import seen_blade
from kit.course.lessons.drawing import TRUE_SIZE
from kit.course.lessons.scene import Panel, Scene
from kit.course.lessons.twist_drawing import along
from kit.course.questions.card import Measures, Values
from kit.forge.billet import Billet
from kit.forge.stack import Layer, Stack
from kit.forge.steels import steel as find_steel
from kit.metal import etch
from kit.metal.bite import Etch, bitten
from kit.metal.eye import EYE_300
from kit.section.blade import Blade
from kit.section.block import Block
from kit.section.picture import ACCENT, QUIET, Sheet
from kit.section.surface import Plane
from kit.section.trace import Face, see
from kit.shop import patterns
from kit.shop.bought import Engraved

WIDE = 1000  # columns of every picture
SHOWN = (466, 124)  # columns and rows of one of four blades
SIDE = 290  # rows of a scene of lesson 06 that show the blade's side


def finer_and_finer(layers: Sequence[int], measures: Measures) -> Scene:
    """Draw one blade with more and more layers, about true size."""
    sheet = Sheet(WIDE, 376, **measures.paper)
    panels, words = [], []
    for number, count in enumerate(layers):
        job = BevelsLesson(layers=count)
        left, top = 20 + (number % 2) * 490, 34 + (number // 2) * 176
        panels.append(_near_the_tip(sheet, job, (left, top)))
        spacing = job.crossed.spacing
        fine = spacing < EYE_300
        apart = f"lines {measures.fine(spacing)} apart" + (": too fine" if fine else "")
        sheet.text(f"{count:,} layers: {apart}", (left, top - 28), size=19)
        words.append(f"{count:,} layers, {apart}")
    note = "The same blade, about true size at full width; the finish is illustrative."
    sheet.text(note, (20, 372), size=16, ink=QUIET, anchor="ls")
    alt = (
        "One blade drawn four times, each with flat layers of two steels through the same "
        f"thickness: {'; '.join(words)}. The more layers, the closer the lines on its "
        "bevel, until the face is even grey."
    )
    return Scene(image=sheet.image, alt=alt, numbers=(), panels=tuple(panels))


def _near_the_tip(sheet: Sheet, job: BevelsLesson, at: tuple[int, int]) -> Panel:
    size = job.billet.size
    columns, rows = SHOWN
    tip = (size.length + job.grind.outline.length) / 2
    view = Blade(
        grind=job.grind,
        size=size,
        centre=(tip - (columns / 2 - 12) * TRUE_SIZE, 0.0),
        columns=columns,
        rows=rows,
        pixel=TRUE_SIZE,
    )
    face, surface = seen_blade(job.billet, view, job.share)
    sheet.blade(face, at, surface)
    return Panel(job.billet, surface, at)


def bar_and_blade(bought: int, measures: Measures) -> Scene:
    """Draw a bar as it is bought, and below it the blade that is ground from it."""
    sheet = Sheet(WIDE, 2 * SIDE, **measures.paper)
    both = [
        BevelsLesson.scene(
            bought=bought, shown=shown, told=False,
            units=measures.units, **measures.paper,
        )
        for shown in (BEFORE, BLADE)
    ]  # fmt: skip
    panels = []
    for number, scene in enumerate(both):
        top = number * SIDE
        sheet.image.paste(scene.image.crop((0, 0, WIDE, SIDE)), (0, top))
        (left, row), first = scene.panels[0].corner, scene.panels[0]
        panels.append(Panel(first.billet, first.surface, (left, row + top)))
    alt = f"Above: {both[0].alt} Below: {both[1].alt}"
    return Scene(image=sheet.image, alt=alt, numbers=(), panels=tuple(panels))


STRIP = (960, 120)  # columns and rows of a face
PIXEL = 0.075  # mm
POLISHED = 0.6  # reflectance of a plain polished face; illustrative
WORN = 80.0  # per cent of wear
CHANGED = 0.5  # of the step between the two steels: more is another steel
OFF = 0.2  # mm that are ground off
ETCHED = ("1084", "15N20")
Row = tuple[str, Plane, Face]  # its words, where it lies, what is seen there


def bar(layer: float, turn: float, across: float = 16.0) -> Billet:
    """Twist a round bar of an even number of layers, each about so thick; all in mm."""
    return twist.bar(across=across, layer=layer, stack=1, turn=turn, hand=0)


def face(
    billet: Billet, height: float, tones: dict[str, float] | None = None
) -> tuple[Plane, Face]:
    """See a strip of a bar, ground flat at a height above its axis, mm."""
    columns, rows = STRIP
    plane = along(billet, height, columns=columns, rows=rows, pixel=PIXEL)
    return plane, see(billet, plane, tones or etch.tones(billet.source.steels))


def polished_away(billet: Billet, high: float, low: float, measures: Measures) -> Scene:
    """Draw a face etched, polished, and etched again a little lower; heights in mm."""
    first, again = face(billet, high), face(billet, low)
    plain = again[1]._replace(tone=np.full_like(again[1].tone, POLISHED))
    off = measures.fine(high - low)
    rows = (
        ("Etched", *first),
        (f"{off} ground off and polished: faint at most", again[0], plain),
        ("Etched again: it is back, and it has moved", *again),
    )
    alt = (
        "A strip of one twisted bar drawn three times, one below another: etched, with "
        f"slanting lines; ground {off} deeper and polished, plain grey; etched again, "
        "with slanting lines again, not quite in their old places."
    )
    return _three(billet, rows, alt, measures)


def worn_and_back(billet: Billet, high: float, off: float, measures: Measures) -> Scene:
    """Draw a face new, worn, and cleaned and etched again; height, loss in mm."""
    new, worn = (
        {name: eaten.tone for name, eaten in bitten(ETCHED, done).items()}
        for done in (Etch(polished=True), Etch(polished=True, wear=WORN))
    )
    rows = (
        ("New", *face(billet, high, new)),
        ("Worn by use: relief and dark oxide are rubbed down", *face(billet, high, worn)),
        (
            f"Cleaned, sanded evenly, etched again: {measures.fine(off)} less of it",
            *face(billet, high - off, new),
        ),
    )
    alt = (
        "A strip of one twisted bar drawn three times, one below another: new, with "
        "clear dark and bright lines; worn, pale, with the same lines faint; sanded and "
        "etched again, with clear lines in nearly the same places."
    )
    return _three(billet, rows, alt, measures)


def _three(billet: Billet, rows: Sequence[Row], alt: str, measures: Measures) -> Scene:
    """Draw three strips below one another, each with its words."""
    sheet = Sheet(WIDE, 510, **measures.paper)
    numbered = [(f"{number}  {row[0]}", *row[1:]) for number, row in enumerate(rows, 1)]
    panels = _strips(sheet, billet, numbered)
    sheet.scale_bar((20, 504), PIXEL, measures.units, most=200)
    return Scene(image=sheet.image, alt=alt, numbers=(), panels=panels)


def _strips(sheet: Sheet, billet: Billet, rows: Iterable[Row]) -> tuple[Panel, ...]:
    """Draw strips of a bar from the top of a sheet down, each with its words."""
    panels = []
    columns, high = STRIP
    for number, (words, plane, seen) in enumerate(rows):
        at = (20, 36 + 160 * number)
        sheet.text(words, (20, at[1] - 29), size=19)
        sheet.steel(seen, at, plane)
        sheet.box((at[0] - 1, at[1] - 1), (at[0] + columns, at[1] + high))
        panels.append(Panel(billet, plane, at))
    return tuple(panels)


def changed(billet: Billet, high: float, low: float) -> np.ndarray:
    """Say where faces at two heights, mm, show another steel: array of bool."""
    tones = etch.tones(billet.source.steels)
    step = max(tones.values()) - min(tones.values())
    off = np.abs(face(billet, high)[1].tone - face(billet, low)[1].tone)
    return off > CHANGED * step


def two_slices(billet: Billet, high: float, low: float, measures: Measures) -> Scene:
    """Draw faces at two heights, mm, of one bar, and below them where they differ."""
    sheet = Sheet(WIDE, 510, **measures.paper)
    heights = [measures.fine(height) for height in (high, low)]
    rows = [
        (f"Blade {blade}: a face {told} above the axis", *face(billet, height))
        for blade, told, height in zip("AB", heights, (high, low), strict=True)
    ]
    panels = _strips(sheet, billet, rows)
    other = changed(billet, high, low)
    share = f"{100 * other.mean():.0f} %"
    at = (20, 356)
    sheet.text(f"Marked: where they differ, {share} of the face", (20, 327), size=19)
    _mark(sheet, other, at)
    sheet.scale_bar((20, 504), PIXEL, measures.units, most=200)
    alt = (
        f"Two faces of one twisted bar, {heights[0]} and {heights[1]} above its axis: "
        "the same kind of curved lines, but no line in the same place. Below, marked in "
        f"one colour, where the two differ: {share} of the face."
    )
    return Scene(image=sheet.image, alt=alt, numbers=(), panels=panels)


def _mark(sheet: Sheet, where: np.ndarray, at: tuple[int, int]) -> None:
    mask = Image.fromarray((where * 255).astype(np.uint8))
    sheet.image.paste(ACCENT, at, mask)
    columns, rows = STRIP
    sheet.box((at[0] - 1, at[1] - 1), (at[0] + columns, at[1] + rows))


@cache
def forged_and_skin() -> tuple[Billet, Engraved]:
    """Forge a bar of random pattern, and put its face on a plain bar."""
    forged = patterns.random()
    length, width, thickness = forged.size
    sheet_steel = (Layer(steel="1084", thickness=thickness / 2),) * 2
    plain = Billet(source=Stack(layers=sheet_steel, length=length, width=width))
    return forged, Engraved(billet=plain, pattern=forged)


def left_below() -> Values:
    """Say how much patterned steel is left of the two bars, once a little is ground off."""
    forged, skin = forged_and_skin()
    thick = forged.size.thickness
    return {"thick": thick, "off": OFF, "left": thick - OFF, "skin": skin.depth}


def solid_or_skin(measures: Measures) -> Scene:
    """Draw a forged bar and one patterned on its face only, before and after grinding."""
    forged, skin = forged_and_skin()
    sheet = Sheet(WIDE, 536, **measures.paper)
    off = measures.fine(OFF)
    titles = (("Welded all through", forged), ("Only on the face", skin))
    for column, (title, made) in enumerate(titles):
        left = 14 + 496 * column
        sheet.text(title, (left + 6, 8), size=20)
        for row, ground in enumerate((0.0, OFF)):
            at = (left, 36 + 250 * row)
            block = _corner(forged, ground)
            tones = etch.tones(ETCHED)
            seen = see(made, block, tones) if made is forged else made.see(block, tones)
            sheet.steel(seen, at, block)
            words = f"{off} ground off, etched again" if row else "as it was bought"
            sheet.text(words, (left + 6, at[1] + 222), size=17, ink=QUIET)
    alt = (
        "Two bars of random pattern, each seen from a corner, above as bought and below "
        f"with {off} ground off its top. Left, welded all through: lines run round the "
        "corners on to side and end, and after grinding they are still there. Right, a "
        "pattern on the face only: side and end are plain, and after grinding the top "
        "is plain, too."
    )
    return Scene(image=sheet.image, alt=alt, numbers=())


def _corner(billet: Billet, ground: float) -> Block:
    top = (0.0, 0.0, billet.size.thickness / 2 - ground)
    cut = ((0.0, 0.0, 1.0), top) if ground else None
    return Block.fitted(billet.size, 476, 220, cut=cut, span=(0.0, 90.0))


def twice(billet: Billet, rows: Iterable[Row], note: str, measures: Measures) -> Sheet:
    """Draw one place of a bar two times, one below the other, each with its words."""
    sheet = Sheet(WIDE, 350, **measures.paper)
    _strips(sheet, billet, rows)
    sheet.scale_bar((20, 344), PIXEL, measures.units, most=200)
    sheet.text(note, (980, 340), size=17, ink=QUIET, anchor="rs")
    return sheet


def swapped(steels: tuple[str, str], other: str, measures: Measures) -> Scene:
    """Draw one face twice: of two steels, and with another in place of the second."""
    billet, rows, words = bar(0.5, 50.0), [], []
    for second in (steels[1], other):
        known = etch.tones((steels[0], second))
        tones = {steels[0]: known[steels[0]], steels[1]: known[second]}
        nickel = find_steel(second).nominal.get("Ni", 0.0)
        holds = f"with {nickel:g} %" if nickel else "without"
        name = f"{steels[0]} and {second}, {holds} nickel"
        rows.append((name, *face(billet, 4.0, tones)))
        words.append(
            f"{name}: lines {'bright and dark' if nickel else 'hardly to be seen'}"
        )
    sheet = twice(billet, rows, "The tones are illustrative.", measures)
    alt = f"The same face of a twisted bar drawn twice. {'. '.join(words)}."
    return Scene(image=sheet.image, alt=alt, numbers=())
