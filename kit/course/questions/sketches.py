"""Plain pictures for the cards: bars to compare, a list, and what cannot be computed."""

import math
from collections.abc import Callable, Mapping, Sequence

import numpy as np

from kit.course.lessons.scene import Scene
from kit.course.questions.card import Measures
from kit.forge.billet import Billet
from kit.forge.stack import Stack
from kit.metal import etch
from kit.metal.frame import Frame
from kit.section.block import Block
from kit.section.picture import ACCENT, GHOST, INK, QUIET, Sheet
from kit.section.surface import cut

WIDE = 1000  # pixels
NAMES = 300  # pixels, for the names of bars
BESIDE = (400, 230)  # columns and rows of a drawing beside a list
SHOWN = 90.0  # mm of a bar
GREY, SHADE = "#B9B7B2", "#3A3937"
Draw = Callable[[Sheet, tuple[int, int]], None]


def compared(
    title: str, rows: Mapping[str, tuple[float, str]], note: str, measures: Measures
) -> Scene:
    """Draw values as bars, each with its name and how it is written."""
    sheet = Sheet(WIDE, 56 * len(rows) + 110, **measures.paper)
    sheet.text(title, (20, 10), size=20)
    most = max(value for value, _ in rows.values())
    for number, (name, (value, written)) in enumerate(rows.items()):
        y = 76 + 56 * number
        long = max(2.0, (WIDE - NAMES - 260) * value / most)
        sheet.text(name, (20, y), size=19, anchor="lm")
        sheet.box((NAMES, y - 17), (NAMES + long, y + 17), fill=GHOST, ink=INK, width=2)
        sheet.text(written, (NAMES + long + 12, y), size=19, anchor="lm")
    sheet.text(note, (20, 56 * len(rows) + 96), size=18, anchor="ls", ink=QUIET)
    each = "; ".join(f"{name} {written}" for name, (_, written) in rows.items())
    return Scene(image=sheet.image, alt=f"{title}, as bars: {each}. {note}", numbers=())


def listed(
    title: str, lines: Sequence[str], draw: Draw, drawn: str, measures: Measures
) -> Scene:
    """Draw something, with numbered lines beside it; `drawn` says what it is."""
    sheet = Sheet(WIDE, 330, **measures.paper)
    sheet.text(title, (20, 10), size=20)
    draw(sheet, (20, 50))
    sheet.text(drawn, (20, 310), size=18, anchor="lm", ink=QUIET)
    apart = min(48, 240 // len(lines))
    for number, line in enumerate(lines, 1):
        y = 44 + apart * number
        sheet.text(f"{number}", (456, y), size=20, anchor="mm", ink=ACCENT)
        sheet.text(line, (480, y), size=19, anchor="lm")
    return Scene(image=sheet.image, alt=f"{drawn}. {title} {'; '.join(lines)}.", numbers=())


def bar(billet: Billet) -> Draw:
    """Draw the middle of a bar as a solid."""

    def draw(sheet: Sheet, at: tuple[int, int]) -> None:
        middle = billet.size.length / 2
        half = min(middle, SHOWN / 2)
        span = (middle - half, middle + half)
        block = Block.fitted(billet.size, *BESIDE, span=span)
        sheet.steel(etch.seen(billet, block), at, block)

    return draw


def sky_iron(sheet: Sheet, at: tuple[int, int]) -> None:
    """Sketch the crossed bands of an iron meteorite, by eye."""
    left, top = at
    columns, rows = BESIDE
    sheet.box(at, (left + columns, top + rows), fill=GREY, ink=INK)
    along = np.linspace(-600, 600, 1201)
    for turn in (0.35, 1.4, 2.45):
        for apart in range(-300, 301, 60):
            x = columns / 2 + along * math.cos(turn) - apart * math.sin(turn)
            y = rows / 2 + along * math.sin(turn) + apart * math.cos(turn)
            within = np.flatnonzero((x > 0) & (x < columns) & (y > 0) & (y < rows))
            if within.size:
                ends = [(left + x[n], top + y[n]) for n in (within[0], within[-1])]
                sheet.line(ends, ink=SHADE, width=5)


def patterns(made: Mapping[str, Billet], measures: Measures) -> Scene:
    """Draw four bars with different patterns, side by side."""
    sheet = Sheet(WIDE, 560, **measures.paper)
    for number, (name, billet) in enumerate(made.items()):
        at = (20 + 490 * (number % 2), 40 + 260 * (number // 2))
        sheet.text(name, (at[0], at[1] - 30), size=20)
        bar(billet)(sheet, at)
    alt = f"Four bars, each seen from a corner, their patterns unlike: {', '.join(made)}."
    return Scene(image=sheet.image, alt=alt, numbers=())


def edges(angles: Sequence[float], up: float, measures: Measures) -> Scene:
    """Draw edges ground at some angles a side, and their thickness `up` mm behind."""
    sheet = Sheet(WIDE, 390, **measures.paper)
    scale, foot, told = 150.0, 335.0, []  # pixels a mm
    for number, angle in enumerate(angles):
        middle = 250 + 500 * number
        half = math.tan(math.radians(angle))
        high = 1.8 * scale
        ends = [(middle - half * high, foot - high), (middle + half * high, foot - high)]
        sheet.shape([(middle, foot), *ends], fill=GREY)
        y = foot - up * scale
        across = half * up * scale
        sheet.line([(middle - across, y), (middle + across, y)], ink=ACCENT, width=4)
        thick = measures.fine(2 * half * up)
        sheet.text(f"{angle:.0f}° a side", (middle, 26), size=20, anchor="mm")
        sheet.text(thick, (middle + across + 12, y), size=19, anchor="lm", ink=ACCENT)
        told.append(f"at {angle:.0f}° a side {thick}")
    behind = measures.fine(up)
    sheet.text(f"thick, {behind} behind the edge", (500, 368), size=18, anchor="mm")
    alt = f"Edges pointing down, much enlarged; {behind} behind: {'; '.join(told)}."
    return Scene(image=sheet.image, alt=alt, numbers=())


def doubling(folds: int, measures: Measures) -> Scene:
    """Draw how layers of one bar grow, fold by fold."""
    sheet = Sheet(WIDE, 400, **measures.paper)
    frame = Frame(
        sheet=sheet, corner=(110, 40), opposite=(960, 330), across=(0, folds),
        up=(0, 2.0**folds),
    )  # fmt: skip
    counts = [2.0**fold for fold in range(folds + 1)]
    frame.box()
    frame.curve(range(folds + 1), counts, ink=ACCENT, width=4)
    frame.scale_below(range(0, folds + 1, 2), "{:.0f}".format)
    frame.scale_left((0, 2.0 ** (folds - 1), 2.0**folds), "{:,.0f}".format)
    sheet.text("layers of one bar", (110, 10), size=19)
    sheet.text("folds", (540, 366), size=19, anchor="ma")
    told = ", ".join(f"{fold}: {2**fold:,}" for fold in range(2, folds + 1, 4))
    alt = f"A curve that doubles at each fold, ever steeper. Layers after folds: {told}."
    return Scene(image=sheet.image, alt=alt, numbers=())


def hard_edge(measures: Measures) -> Scene:
    """Sketch a blade of one steel, hardened along its edge only, etched."""
    sheet = Sheet(WIDE, 300, **measures.paper)
    back = [(60.0, 60.0), (820.0, 60.0), (940.0, 130.0)]
    wave = [(60.0 + 16 * n, 150 + 10 * math.sin(n / 1.7)) for n in range(50)]
    edge = [(940.0, 130.0), (860.0, 210.0), (60.0, 220.0)]
    sheet.shape([*back, *edge], fill=GREY)
    sheet.shape([*wave, (930.0, 138.0), *edge[1:]], fill=SHADE)
    sheet.text("soft: etched light", (80, 100), size=20, anchor="lm")
    sheet.text("hardened, then tempered: etched dark", (60, 244), size=20, anchor="lm")
    sheet.text("One steel, no layers. A sketch.", (20, 290), size=18, anchor="ls")
    alt = (
        "A sketch of a blade of one steel without layers: the hardened and tempered edge "
        "is etched dark, the soft back light, and between them runs a waving line."
    )
    return Scene(image=sheet.image, alt=alt, numbers=())


FIELD = (470, 300)  # columns and rows of one drawing
PIXEL = 0.001  # mm
STEEL, DARK, BRIGHT = "#8E8C88", "#2B2B2B", "#E8E8E8"
GLASS = "#D9C48F"


def two_steels(layer: float, measures: Measures) -> Scene:
    """Draw welded layers, so thick in mm, beside bands of carbides grown in one melt."""
    sheet = Sheet(WIDE, 420, **measures.paper)
    pieces = 2 * round(FIELD[1] * PIXEL / layer) + 1
    stack = Stack.alternate("1084", "15N20", pieces=pieces, thickness=layer)
    billet = Billet(source=stack)
    columns, rows = FIELD
    plane = cut(billet.size, angle=90, columns=columns, rows=rows, pixel=PIXEL)
    sheet.text("Pattern-welded: bars welded in layers", (20, 8), size=20)
    sheet.steel(etch.seen(billet, plane), (20, 40), plane)
    sheet.text("Crucible steel: carbides grown in bands", (510, 8), size=20)
    _carbides(sheet, (510, 40), layer)
    for left in (20, 510):
        sheet.box((left - 1, 39), (left + columns, 40 + rows))
        sheet.scale_bar((left + 4, 380), PIXEL, measures.units, most=120)
    sheet.text("worked out by the kit", (170, 380), size=17, ink=QUIET, anchor="lm")
    words = "by eye: the kit has no model of it"
    sheet.text(words, (660, 380), size=17, ink=QUIET, anchor="lm")
    alt = (
        "Two drawings to the same scale, much enlarged. Left, pattern-welded steel: even "
        f"dark and bright layers, {measures.fine(layer)} each. Right, a sketch of crucible "
        "steel: rows of small bright grains of carbide in dark steel."
    )
    return Scene(image=sheet.image, alt=alt, numbers=())


def _carbides(sheet: Sheet, at: tuple[int, int], apart: float) -> None:
    """Sketch rows of grains; how large and how far apart they are is made up."""
    left, top = at
    columns, rows = FIELD
    sheet.box(at, (left + columns - 1, top + rows - 1), fill=DARK, ink=None)
    chance = np.random.default_rng(5)
    for band in np.arange(0.5, rows * PIXEL / apart) * apart / PIXEL:
        for place in np.arange(6, columns - 6, 11.0):
            x, y = chance.normal((place, band), (4, 7))
            wide, high = chance.uniform((3, 2), (7, 4))
            if high < y < rows - high and wide < x < columns - wide:
                angle = np.linspace(0, 2 * np.pi, 12, endpoint=False)
                around = zip(
                    left + x + wide * np.cos(angle),
                    top + y + high * np.sin(angle),
                    strict=True,
                )
                sheet.shape([(float(a), float(b)) for a, b in around], fill=BRIGHT)


def soap_and_lid(measures: Measures) -> Scene:
    """Sketch what flux does between two bars: three stages."""
    sheet = Sheet(WIDE, 330, **measures.paper)
    stages = (
        ("1  Without: air gets in,", "and scale grows on the steel"),
        ("2  Flux melts over it, shuts", "the air out, takes up the scale"),
        ("3  Squeezed out, it leaves", "clean steel on clean steel"),
    )
    for number, words in enumerate(stages):
        left = 20 + 326 * number
        gap = 0 if number == 2 else 34
        _bars(sheet, left, gap)
        (_scale, _flux, _squeezed)[number](sheet, left)
        for line, text in enumerate(words):
            sheet.text(text, (left, 8 + 26 * line), size=20)
    sheet.text("A sketch, not to scale.", (20, 322), size=17, ink=QUIET, anchor="ls")
    alt = (
        "A sketch in three parts, each of two bars one above the other. First, air comes "
        "in from both sides and dark flakes of scale lie between the bars. Second, molten "
        "flux fills the gap, keeps the air out, and few flakes are left. Third, the bars "
        "are pressed together; flux and scale have run out at the sides."
    )
    return Scene(image=sheet.image, alt=alt, numbers=())


def _bars(sheet: Sheet, left: int, gap: int) -> None:
    middle = 182
    for top, low in ((middle - gap // 2 - 70, middle - gap // 2),
                     (middle + gap // 2, middle + gap // 2 + 70)):  # fmt: skip
        sheet.box((left + 30, top), (left + 270, low), fill=STEEL, ink=INK, width=2)


def _scale(sheet: Sheet, left: int) -> None:
    for number in range(15):
        x = left + 40 + 15.6 * number
        for y, way in ((165, 1), (199, -1)):
            flake = [(x - 8, y), (x + 8, y), (x + 3, y + 9 * way), (x - 4, y + 6 * way)]
            sheet.shape(flake, fill=DARK)
    for x, way in ((left + 4, 1), (left + 296, -1)):
        sheet.line([(x, 182), (x + 28 * way, 182)], ink=ACCENT, width=4)
        tip = x + 38 * way
        sheet.shape([(tip, 182), (tip - 14 * way, 173), (tip - 14 * way, 191)], fill=ACCENT)


def _flux(sheet: Sheet, left: int) -> None:
    for y in range(165, 200):
        bulge = 16 * (1 - ((y - 182) / 18) ** 2)
        ends = [(left + 30 - bulge, y), (left + 270 + bulge, y)]
        sheet.line(ends, ink=GLASS, width=1)
    for x, y in ((70, 176), (120, 190), (176, 173), (222, 188)):
        flake = [(left + x - 6, y), (left + x + 6, y + 2), (left + x, y + 6)]
        sheet.shape(flake, fill=DARK)


def _squeezed(sheet: Sheet, left: int) -> None:
    for way, edge in ((-1, left + 30), (1, left + 270)):
        around = [(edge, 172), (edge + 22 * way, 182), (edge + 20 * way, 214),
                  (edge + 8 * way, 226), (edge, 214)]  # fmt: skip
        sheet.shape(around, fill=GLASS)
        for y in (190, 206):
            spot = edge + 10 * way
            sheet.shape([(spot - 5, y), (spot + 5, y + 2), (spot, y + 6)], fill=DARK)
    for tip, way in ((104, 1), (260, -1)):
        x = left + 150
        sheet.line([(x, tip - 6 * way), (x, tip + 22 * way)], ink=ACCENT, width=4)
        point = tip + 34 * way
        sheet.shape([(x, point), (x - 9, point - 14 * way), (x + 9, point - 14 * way)],
                    fill=ACCENT)  # fmt: skip
