"""Diagrams for the cards: when steel melts, and how far its elements walk."""

from __future__ import annotations

import itertools
import math
from collections.abc import Mapping, Sequence
from typing import NamedTuple

import numpy as np

from kit.basics.units import format_temperature
from kit.course.lessons.scene import Scene
from kit.course.questions.card import Measures
from kit.metal.solidus import solidus
from kit.section.picture import ACCENT, INK, SUNLIT_PAGE, Sheet

WIDE = 1000
ROUNDINGS = 1e-6  # per cent
SHADE = "#DDD3BF"


class Frame(NamedTuple):
    """A field to draw curves in: pixels, and what its sides mean."""

    left: int
    top: int
    right: int
    low: int
    across: tuple[float, float]
    up: tuple[float, float]

    def at(self, x: float, y: float) -> tuple[float, float]:
        """Give the place of a point."""
        (start, end), (least, most) = self.across, self.up
        return (
            self.left + (self.right - self.left) * (x - start) / (end - start),
            self.low - (self.low - self.top) * (y - least) / (most - least),
        )

    def curve(self, sheet: Sheet, xs: np.ndarray, ys: np.ndarray, **more: object) -> None:
        """Draw a line through points."""
        places = [self.at(float(x), float(y)) for x, y in zip(xs, ys, strict=True)]
        sheet.line(places, **more)


def melting(
    band: tuple[float, float], carbon: Mapping[str, float], measures: Measures
) -> Scene:
    """Draw where plain steel begins to melt, the welding heats, and some steels."""
    sheet = Sheet(WIDE, 470, sunlit=measures.sunlit)
    frame = Frame(110, 24, 970, 400, (0.2, 1.5), (1000.0, 1550.0))
    left, top = frame.at(0.2, band[1])
    right, low = frame.at(1.5, band[0])
    sheet.box((left, top), (right, low), fill=SHADE, ink=None)
    contents = np.linspace(0.2, 1.5, 131)
    melts = [solidus(float(content)) for content in contents]
    frame.curve(sheet, contents, np.array(melts), ink=INK, width=4)
    _axes(sheet, frame, measures)
    _margins(sheet, frame, band[1], carbon)
    names = (
        (0.9, 1450.0, "calculated: above this line it begins to melt"),
        (0.22, sum(band) / 2, "welding heats"),
    )
    for content, celsius, words in names:
        sheet.text(words, frame.at(content, celsius), size=20, anchor="lm")
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


def _axes(sheet: Sheet, frame: Frame, measures: Measures) -> None:
    """Frame the field and write temperatures and contents beside it."""
    sheet.box((110, 24), (970, 400))
    for celsius in range(1000, 1600, 100):
        _, y = frame.at(0.2, celsius)
        sheet.line([(104, y), (110, y)], width=2)
        words = format_temperature(celsius, measures.degrees)
        sheet.text(words, (98, y), size=18, anchor="rm")
    for percent in (0.2, 0.4, 0.6, 0.8, 1.0, 1.2, 1.4):
        x, y = frame.at(percent, 1000.0)
        sheet.line([(x, y), (x, y + 6)], width=2)
        sheet.text(f"{percent:.1f}", (x, y + 12), size=18, anchor="ma")
    sheet.text("carbon, per cent", (540, 440), size=18, anchor="ma")


def _margins(
    sheet: Sheet, frame: Frame, hottest: float, carbon: Mapping[str, float]
) -> None:
    """Mark how far each steel is from melting at the hottest weld."""
    for number, (name, content) in enumerate(carbon.items()):
        x, y = frame.at(content, solidus(content))
        _, low = frame.at(content, hottest)
        sheet.line([(x, y), (x, low)], ink=ACCENT, width=3)
        sheet.box((x - 5, y - 5), (x + 5, y + 5), fill=ACCENT, ink=None)
        aside, anchor = (6, "ls") if number else (-2, "rs")  # two may stand close
        sheet.text(name, (x + aside, y - 12), size=18, ink=ACCENT, anchor=anchor)


class Walk(NamedTuple):
    """Content through a few layers before and after a heat; mm, per cent."""

    name: str
    heights: np.ndarray
    before: np.ndarray
    after: np.ndarray


def walks(pair: Sequence[Walk], heat: str, measures: Measures) -> Scene:
    """Draw two contents through layers, before and after a heat."""
    sheet = Sheet(WIDE, 400, sunlit=measures.sunlit)
    words = []
    for number, walk in enumerate(pair):
        left = 90 + 490 * number
        frame = _frame(walk, left)
        sheet.box((left, frame.top), (frame.right, frame.low), fill=SUNLIT_PAGE)
        sheet.text(walk.name, (left, 12), size=20)
        _before(sheet, frame, walk)
        frame.curve(sheet, walk.heights, walk.after, ink=ACCENT, width=4)
        for value in _round_steps(*frame.up):
            y = frame.at(frame.across[0], value)[1]
            sheet.line([(left - 6, y), (left, y)], width=2)
            sheet.text(f"{value:g}", (left - 10, y), size=18, anchor="rm")
        pixel = np.ptp(frame.across) / (frame.right - left)
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


def _frame(walk: Walk, left: int) -> Frame:
    low, high = float(walk.before.min()), float(walk.before.max())
    spare = 0.15 * (high - low)
    across = float(walk.heights[0]), float(walk.heights[-1])
    return Frame(left, 44, left + 390, 310, across, (low - spare, high + spare))


def _before(sheet: Sheet, frame: Frame, walk: Walk) -> None:
    """Draw square steps as dashes."""
    pairs = zip(walk.heights, walk.before, strict=True)
    places = [frame.at(float(x), float(y)) for x, y in pairs]
    ends = [0, *(np.flatnonzero(np.abs(np.diff(walk.before)) > ROUNDINGS) + 1), len(places)]
    for first, last in itertools.pairwise(ends):
        sheet.dashes(places[first], places[last - 1], width=2)
        if last < len(places):
            sheet.dashes(places[last - 1], places[last], width=2)


def _round_steps(low: float, high: float) -> list[float]:
    """Give round numbers in a range, at most five."""
    steps = (0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1.0)
    step = next(step for step in steps if (high - low) / step <= 5)
    first, last = math.ceil(low / step - 1e-9), math.floor(high / step + 1e-9)
    return [round(step * number, 3) for number in range(first, last + 1)]
