"""Charts for the cards: mixtures, losses, heats, where steel melts, how elements walk."""

import itertools
import math
from collections.abc import Mapping, Sequence
from typing import NamedTuple

import numpy as np
from PIL import Image

from kit.basics.units import format_temperature, in_fahrenheit
from kit.course.lessons.scene import Scene
from kit.course.questions.card import Measures
from kit.metal.colour import seen
from kit.metal.frame import Frame
from kit.metal.transformation import solidus
from kit.section.picture import ACCENT, INK, QUIET, SUNLIT_PAGE, Sheet, to_srgb

WIDE = 1000  # pixels
STAIRS = "#B9B3A6"
SHADE = "#DDD3BF"
GLOW = 34  # rows of the strip that glows
ROUNDINGS = 1e-6  # per cent


class Between(NamedTuple):
    """A property of two steels and of the two together, per cent."""

    name: str
    first: float
    second: float
    both: float


def between(rows: Sequence[Between], names: tuple[str, str], measures: Measures) -> Scene:
    """Draw each property as a scale with the two steels at its ends."""
    sheet = Sheet(WIDE, 110 * len(rows) + 60, **measures.paper)
    sheet.text("What the welded whole is: always between its steels", (20, 8), size=20)
    words = []
    for number, row in enumerate(rows):
        y = 96 + 110 * number
        ends = sorted(zip((row.first, row.second), names, strict=True))
        low, high = ends[0][0], ends[1][0]
        frame = Frame(sheet=sheet, corner=(190, y), opposite=(940, y), across=(low, high))
        sheet.text(row.name, (20, y), size=20, anchor="lm")
        frame.curve((low, high), (0, 0), width=3)
        for (value, name), anchor in zip(ends, ("la", "ra"), strict=True):
            x = frame.x(value)
            sheet.line([(x, y - 14), (x, y + 14)], width=3)
            sheet.text(f"{name}: {value:.3g} %", (x, y + 18), size=18, anchor=anchor)
        x = frame.x(row.both)
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
    sheet = Sheet(WIDE, 430, **measures.paper)
    sheet.text("Where the steel goes, grams", (20, 8), size=20)
    columns = len(losses) + 2
    frame = Frame(
        sheet=sheet, corner=(20, 66), opposite=(980, 372), across=(0, columns),
        up=(0, start),
    )  # fmt: skip
    gap = 14 * columns / 960  # of a column

    def column(number: int, low: float, high: float, name: str, fill: str) -> None:
        frame.box((number, number + 1 - gap), (low, high), fill=fill, ink=INK, width=2)
        x, foot = frame.at(number + (1 - gap) / 2, 0)
        sheet.text(name, (x, foot + 10), size=19, anchor="ma")
        told = f"{high - low:.0f}" if fill == INK else f"- {high - low:.0f}"
        sheet.text(told, (x, frame.y(high) - 6), size=20, anchor="ms")

    column(0, 0, start, "stock", INK)
    left_over = start
    for number, (name, lost) in enumerate(losses.items(), 1):
        ends = number - gap, number + 1 - gap
        sheet.dashes(*(frame.at(end, left_over) for end in ends))
        column(number, left_over - lost, left_over, name, STAIRS)
        left_over -= lost
    column(columns - 1, 0, end, "bar", INK)
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
    sheet = Sheet(WIDE, 62 * len(ranges) + 216, **measures.paper)
    base = 62 * len(ranges) + 90
    frame = Frame(
        sheet=sheet, corner=(70, base - GLOW), opposite=(960, base), across=(0.0, top)
    )
    _glow(frame)
    words = []
    for number, (name, (low, high)) in enumerate(ranges.items()):
        y = 30 + 62 * number
        left, right = frame.x(low), max(frame.x(high), frame.x(low) + 4)
        for x in (left, right):
            sheet.dashes((x, y + 20), (x, base - GLOW), dash=4)
        sheet.box((left, y - 20), (right, y + 20), fill=SHADE, ink=INK, width=2)
        both = [_span(low, high, "C"), _span(low, high, "F")]
        cold = left < WIDE / 3  # no room for words on its left
        beside, anchor = (right + 16, "lm") if cold else (left - 16, "rm")
        sheet.text(name, (beside, y - 12), size=20, anchor=anchor)
        sheet.text(", ".join(both), (beside, y + 12), size=18, anchor=anchor, ink=QUIET)
        words.append(f"{name} {both[0]}, {both[1]}")
    frame.curve(frame.across, (0, 0), width=3)
    sheet.text("°C", (48, base + 26), size=19, anchor="rm")
    sheet.text("°F", (48, base + 52), size=19, anchor="rm")
    for celsius in range(0, int(top) + 1, 200):
        x = frame.x(celsius)
        sheet.line([(x, base - 10), (x, base + 10)], width=2)
        sheet.text(f"{celsius}", (x, base + 26), size=19, anchor="mm")
        sheet.text(f"{in_fahrenheit(celsius):.0f}", (x, base + 52), size=19, anchor="mm")
    note = (
        "The strip: how it glows in a darkened shop. Colours on a screen are illustrative."
    )
    sheet.text(note, (70, base + 98), size=18, anchor="lm", ink=QUIET)
    alt = (
        "One scale of temperature in °C and °F, with a strip that is black below red heat "
        f"and then red, orange and yellow; marked on it: {'; '.join(words)}."
    )
    return Scene(image=sheet.image, alt=alt, numbers=())


def _glow(frame: Frame) -> None:
    """Paint a frame in the colours of hot steel, as its left and right side say."""
    (left, top), (right, low) = frame.corner, frame.opposite
    row = to_srgb(seen(np.linspace(*frame.across, right - left)))[None, :, :]
    strip = np.ascontiguousarray(np.repeat(row, low - top, axis=0))
    frame.sheet.image.paste(Image.fromarray(strip), frame.corner)


def _span(low: float, high: float, degrees: str) -> str:
    end = format_temperature(high, degrees)
    if low == high:
        return end
    return f"{format_temperature(low, degrees).split()[0]} to {end}"


def melting(
    band: tuple[float, float], carbon: Mapping[str, float], measures: Measures
) -> Scene:
    """Draw where plain steel begins to melt, the welding heats, and some steels."""
    sheet = Sheet(WIDE, 470, **measures.paper)
    frame = Frame(
        sheet=sheet, corner=(110, 24), opposite=(970, 400), across=(0.2, 1.5),
        up=(1000.0, 1550.0),
    )  # fmt: skip
    frame.box(up=band, fill=SHADE, ink=None)
    contents = np.linspace(0.2, 1.5, 131)
    melts = [solidus(float(content)) for content in contents]
    frame.curve(contents, melts, ink=INK, width=4)
    frame.box()
    frame.scale_left(
        range(1000, 1600, 100),
        lambda celsius: format_temperature(celsius, measures.degrees),
    )
    frame.scale_below((0.2, 0.4, 0.6, 0.8, 1.0, 1.2, 1.4), "{:.1f}".format)
    sheet.text("carbon, per cent", (540, 440), size=18, anchor="ma")
    _margins(frame, band[1], carbon)
    names = (
        (1.48, 1450.0, "calculated: above this line it begins to melt", "rm"),
        (0.22, sum(band) / 2, "welding heats", "lm"),
    )
    for content, celsius, words, anchor in names:
        sheet.text(words, frame.at(content, celsius), size=20, anchor=anchor)
    each = ", ".join(
        f"{name} with {content:g} percent carbon is calculated to begin to melt at "
        f"{format_temperature(solidus(content), measures.degrees)}"
        for name, content in carbon.items()
    )
    ends = [format_temperature(end, measures.degrees) for end in band]
    alt = (
        "A diagram: carbon to the right, temperature up. A line falls from the upper left "
        f"to the lower right: where melting is calculated to begin. Below it a band, the "
        f"welding heats from {ends[0]} to {ends[1]}. {each}."
    )
    return Scene(image=sheet.image, alt=alt, numbers=())


def _margins(frame: Frame, hottest: float, carbon: Mapping[str, float]) -> None:
    """Mark how far each steel is from melting at the hottest weld."""
    for number, (name, content) in enumerate(carbon.items()):
        melts = solidus(content)
        frame.curve((content, content), (melts, hottest), ink=ACCENT, width=3)
        x, y = frame.at(content, melts)
        frame.sheet.box((x - 5, y - 5), (x + 5, y + 5), fill=ACCENT, ink=None)
        aside, anchor = (6, "ls") if number else (-2, "rs")  # two may stand close
        frame.sheet.text(name, (x + aside, y - 12), size=18, ink=ACCENT, anchor=anchor)


class Walk(NamedTuple):
    """Content through a few layers before and after a heat; mm, per cent."""

    name: str
    heights: np.ndarray
    before: np.ndarray
    after: np.ndarray


def walks(pair: Sequence[Walk], heat: str, measures: Measures) -> Scene:
    """Draw two contents through layers, before and after a heat."""
    sheet = Sheet(WIDE, 400, **measures.paper)
    words = []
    for number, walk in enumerate(pair):
        left = 90 + 490 * number
        low, high = float(walk.before.min()), float(walk.before.max())
        spare = 0.15 * (high - low)
        frame = Frame(
            sheet=sheet, corner=(left, 44), opposite=(left + 390, 310),
            across=(float(walk.heights[0]), float(walk.heights[-1])),
            up=(low - spare, high + spare),
        )  # fmt: skip
        frame.box(fill=SUNLIT_PAGE)
        sheet.text(walk.name, (left, 12), size=20)
        _before(frame, walk)
        frame.curve(walk.heights, walk.after, ink=ACCENT, width=4)
        frame.scale_left(_round_steps(*frame.up))
        pixel = np.ptp(frame.across) / 390
        sheet.scale_bar((left + 6, 348), float(pixel), measures.units, most=200)
        kept = 100 * np.ptp(walk.after) / np.ptp(walk.before)
        words.append(f"{walk.name}: {kept:.0f} percent of the difference is left")
    sheet.dashes((90, 382), (140, 382), width=2)
    sheet.text("before", (150, 382), size=19, anchor="lm")
    sheet.line([(250, 382), (300, 382)], ink=ACCENT, width=4)
    sheet.text(f"after {heat}", (310, 382), size=19, anchor="lm", ink=ACCENT)
    alt = (
        "Curves of content through some layers: before, square steps; after "
        f"{heat}. {'; '.join(words)}."
    )
    return Scene(image=sheet.image, alt=alt, numbers=())


def _before(frame: Frame, walk: Walk) -> None:
    """Draw square steps as dashes."""
    pairs = zip(walk.heights, walk.before, strict=True)
    places = [frame.at(float(x), float(y)) for x, y in pairs]
    ends = [0, *(np.flatnonzero(np.abs(np.diff(walk.before)) > ROUNDINGS) + 1), len(places)]
    for first, last in itertools.pairwise(ends):
        frame.sheet.dashes(places[first], places[last - 1], width=2)
        if last < len(places):
            frame.sheet.dashes(places[last - 1], places[last], width=2)


def _round_steps(low: float, high: float) -> list[float]:
    """Give round numbers in a range, at most five."""
    steps = (0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1.0)
    step = next(step for step in steps if (high - low) / step <= 5)
    first, last = math.ceil(low / step - 1e-9), math.floor(high / step + 1e-9)
    return [round(step * number, 3) for number in range(first, last + 1)]
