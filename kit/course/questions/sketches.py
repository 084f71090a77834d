"""Plain pictures for the cards: bars to compare, and a list beside a drawing."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence

import numpy as np

from kit.course.lessons.scene import Scene
from kit.course.questions.card import Measures
from kit.forge.billet import Billet
from kit.metal import etch
from kit.metal.frame import Frame
from kit.section.block import Block
from kit.section.picture import ACCENT, GHOST, INK, QUIET, Sheet
from kit.section.trace import see

WIDE = 1000  # pixels
NAMES = 300  # pixels, for the names of bars
BESIDE = (400, 230)  # columns and rows of a drawing beside a list
SHOWN = 90.0  # mm of a bar
GREY, DARK = "#B9B7B2", "#3A3937"
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
        sheet.steel(see(billet, block, etch.tones(billet.source.steels)), at, block)

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
                sheet.line(ends, ink=DARK, width=5)


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
    sheet.shape([*wave, (930.0, 138.0), *edge[1:]], fill=DARK)
    sheet.text("soft: etched light", (80, 100), size=20, anchor="lm")
    sheet.text("hardened, then tempered: etched dark", (60, 244), size=20, anchor="lm")
    sheet.text("One steel, no layers. A sketch.", (20, 290), size=18, anchor="ls")
    alt = (
        "A sketch of a blade of one steel without layers: the hardened and tempered edge "
        "is etched dark, the soft back light, and between them runs a waving line."
    )
    return Scene(image=sheet.image, alt=alt, numbers=())
