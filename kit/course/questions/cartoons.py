"""Sketches for the cards: what cannot be computed is drawn, and says so."""

from __future__ import annotations

import numpy as np

from kit.course.lessons.scene import Scene
from kit.course.questions.card import Measures
from kit.forge.billet import Billet
from kit.forge.stack import Stack
from kit.metal import etch
from kit.section.picture import ACCENT, INK, QUIET, Sheet
from kit.section.surface import cut
from kit.section.trace import see

WIDE = 1000  # pixels
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
    sheet.steel(see(billet, plane, etch.tones(billet.source.steels)), (20, 40), plane)
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
