"""Charts for the cards: what a mixture is, where the steel goes, how hot is hot."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

import numpy as np

from kit.basics.units import format_temperature, in_fahrenheit
from kit.course.lessons.scene import Scene
from kit.course.questions.card import Measures
from kit.metal.glow import seen
from kit.section.picture import ACCENT, INK, QUIET, Sheet, to_srgb

WIDE = 1000
LEFT, RIGHT = 190, 940  # columns where the scales begin and end
STAIRS = "#B9B3A6"
SHADE = "#DDD3BF"
GLOW = 34  # rows of the strip that glows


class Between(NamedTuple):
    """A property of two steels and of the two together, per cent."""

    name: str
    first: float
    second: float
    both: float


def between(rows: Sequence[Between], names: tuple[str, str], measures: Measures) -> Scene:
    """Draw each property as a scale with the two steels at its ends."""
    sheet = Sheet(WIDE, 110 * len(rows) + 60, sunlit=measures.sunlit)
    sheet.text("What the welded whole is: always between its steels", (20, 8), size=20)
    words = []
    for number, row in enumerate(rows):
        y = 96 + 110 * number
        ends = sorted(zip((row.first, row.second), names, strict=True))
        low, high = ends[0][0], ends[1][0]
        sheet.text(row.name, (20, y), size=20, anchor="lm")
        sheet.line([(LEFT, y), (RIGHT, y)], width=3)
        for (value, name), x, anchor in zip(ends, (LEFT, RIGHT), ("la", "ra"), strict=True):
            sheet.line([(x, y - 14), (x, y + 14)], width=3)
            sheet.text(f"{name}: {value:.3g} %", (x, y + 18), size=18, anchor=anchor)
        x = LEFT + (RIGHT - LEFT) * (row.both - low) / (high - low)
        sheet.shape([(x, y - 4), (x - 11, y - 24), (x + 11, y - 24)], fill=ACCENT)
        told = f"together: {row.both:.3g} %"
        sheet.text(told, (x, y - 28), size=18, anchor="ms", ink=ACCENT)
        words.append(
            f"{row.name}: {ends[0][1]} {low:.3g} percent at one end, {ends[1][1]} "
            f"{high:.3g} percent at the other, together {row.both:.3g} percent between them"
        )
    return Scene(image=sheet.image, alt=f"Scales, one for each. {'. '.join(words)}.",
                 numbers=())  # fmt: skip


def staircase(
    start: float, losses: Mapping[str, float], end: float, measures: Measures
) -> Scene:
    """Draw where the steel goes: from stock to bar, one stair a loss, grams."""
    sheet = Sheet(WIDE, 430, sunlit=measures.sunlit)
    sheet.text("Where the steel goes, grams", (20, 8), size=20)
    base, top = 372, 66
    step = (WIDE - 40) / (len(losses) + 2)

    def level(grams: float) -> float:
        return base - (base - top) * grams / start

    def column(number: int, low: float, high: float, name: str, fill: str) -> None:
        left = 20 + number * step
        right = left + step - 14
        sheet.box((left, level(high)), (right, level(low)), fill=fill, ink=INK, width=2)
        sheet.text(name, (left + (step - 14) / 2, base + 10), size=19, anchor="ma")
        told = f"{high - low:.0f}" if fill == INK else f"- {high - low:.0f}"
        sheet.text(told, (left + (step - 14) / 2, level(high) - 6), size=20, anchor="ms")

    column(0, 0, start, "stock", INK)
    left_over = start
    for number, (name, lost) in enumerate(losses.items(), 1):
        x = 20 + number * step
        y = level(left_over)
        sheet.dashes((x - 14, y), (x + step - 14, y))
        column(number, left_over - lost, left_over, name, STAIRS)
        left_over -= lost
    column(len(losses) + 1, 0, end, "bar", INK)
    each = ", ".join(f"{name} {lost:.0f}" for name, lost in losses.items())
    alt = (
        f"A staircase going down: from {start:.0f} grams of stock, the losses are {each} "
        f"grams; {end:.0f} grams of bar are left."
    )
    return Scene(image=sheet.image, alt=alt, numbers=())


def thermometer(
    ranges: Mapping[str, tuple[float, float]], top: float, measures: Measures
) -> Scene:
    """Draw one scale with both units, and the heats of a smith's work on it."""
    sheet = Sheet(WIDE, 62 * len(ranges) + 216, sunlit=measures.sunlit)
    base, first, last = 62 * len(ranges) + 90, 70, 960
    _glow(sheet, (first, base - GLOW), (last, base), top)

    def place(celsius: float) -> float:
        return first + (last - first) * celsius / top

    words = []
    for number, (name, (low, high)) in enumerate(ranges.items()):
        y = 30 + 62 * number
        left, right = place(low), max(place(high), place(low) + 4)
        for x in (left, right):
            sheet.dashes((x, y + 20), (x, base - GLOW), dash=4)
        sheet.box((left, y - 20), (right, y + 20), fill=SHADE, ink=INK, width=2)
        both = [_span(low, high, "C"), _span(low, high, "F")]
        cold = left < WIDE / 3  # no room for words on its left
        beside, anchor = (right + 16, "lm") if cold else (left - 16, "rm")
        sheet.text(name, (beside, y - 12), size=20, anchor=anchor)
        sheet.text(", ".join(both), (beside, y + 12), size=18, anchor=anchor, ink=QUIET)
        words.append(f"{name} {both[0]}, {both[1]}")
    sheet.line([(first, base), (last, base)], width=3)
    sheet.text("°C", (first - 22, base + 26), size=19, anchor="rm")
    sheet.text("°F", (first - 22, base + 52), size=19, anchor="rm")
    for celsius in range(0, int(top) + 1, 200):
        x = place(celsius)
        sheet.line([(x, base - 10), (x, base + 10)], width=2)
        sheet.text(f"{celsius}", (x, base + 26), size=19, anchor="mm")
        sheet.text(f"{in_fahrenheit(celsius):.0f}", (x, base + 52), size=19, anchor="mm")
    note = (
        "The strip: how it glows in a darkened shop. Colours on a screen are illustrative."
    )
    sheet.text(note, (first, base + 98), size=18, anchor="lm", ink=QUIET)
    alt = (
        "One scale of temperature in °C and °F, with a strip that is black below red heat "
        f"and then red, orange and yellow; marked on it: {'; '.join(words)}."
    )
    return Scene(image=sheet.image, alt=alt, numbers=())


def _glow(
    sheet: Sheet, corner: tuple[int, int], opposite: tuple[int, int], top: float
) -> None:
    """Paint a strip in the colours of hot steel, 0 °C at its left end."""
    from PIL import Image  # noqa: PLC0415  (keeps imports quick)

    wide, high = opposite[0] - corner[0], opposite[1] - corner[1]
    row = to_srgb(seen(np.linspace(0, top, wide)))[None, :, :]
    strip = np.ascontiguousarray(np.repeat(row, high, axis=0))
    sheet.image.paste(Image.fromarray(strip), corner)


def _span(low: float, high: float, degrees: str) -> str:
    end = format_temperature(high, degrees)
    if low == high:
        return end
    return f"{format_temperature(low, degrees).split()[0]} to {end}"
