"""What lesson 08 draws: contents over six layers, their etch, and the clock."""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from PIL import Image

from kit.basics.units import Units, format_length
from kit.course.lesson import Given
from kit.course.lessons.carbon_ideas import CARBON, NAMES, NICKEL
from kit.metal import etch
from kit.section.picture import ACCENT, GHOST, INK, QUIET, Sheet
from kit.section.trace import Face

WIDE, HIGH = 270, 190  # pixels
CHARTS = ((52, 62), (390, 62))  # left, top
STRIP, STRIP_TOP = 46, 300
CLOCK = (740, 62, 220, 238)  # left, top, width, height
MARKS = ((1 / 60, "1 s"), (1, "1 min"), (60, "1 h"), (1440, "1 day"), (525_960, "1 year"))
THICK = (0.01, 0.1, 1.0)  # mm
LEAST = 0.05  # per cent that a chart spans at least
WORDS = {0: "neither", CARBON: "only carbon", NICKEL: "only nickel", 3: "both even"}
TILES = (12, 108), 80, 38, 84  # left of each, width, top, height


@dataclass(frozen=True)
class Middle:
    """Layers from the middle of the stack: before, and after the fire.

    Attributes
    ----------
    edges, bounds : array (n + 1,), (m + 1,)
        Of cells and of layers, mm, from the left.
    letters : tuple of str
        Of each layer, which metal it is.
    before, after : dict of str to array
        Contents, weight per cent: of each layer (m,), of each cell (n,).
    """

    edges: np.ndarray
    bounds: np.ndarray
    letters: tuple[str, ...]
    before: dict[str, np.ndarray]
    after: dict[str, np.ndarray]

    def left(self, element: str) -> float:
        """Say what is left of the greatest difference of an element, weight per cent."""
        return float(np.ptp(self.after[element])) if element in self.after else 0.0

    @property
    def core(self) -> float:
        """Carbon in the middle of the middle layer, weight per cent."""
        middle = np.searchsorted(self.edges, self.bounds[-1] / 2)
        return float(self.after["C"][min(middle, len(self.edges) - 2)])


def draw_on(
    sheet: Sheet, shown: Middle, even: Mapping[str, float], given: Given, units: Units
) -> None:
    """Draw contents as stacked and after the fire, their etch, and time to even out.

    `even` tells of carbon and of one element more in how many minutes they are even.
    """
    for place, name in zip(CHARTS, even, strict=True):
        _profile(sheet, place, shown, name)
    _strip(sheet, CHARTS[0][0], shown.bounds, shown.before, "as stacked, etched")
    _strip(sheet, CHARTS[1][0], shown.edges, shown.after, "after the fire, etched")
    sheet.scale_bar((CHARTS[1][0], 396), shown.edges[-1] / WIDE, units)
    _names(sheet, shown)
    _clock(sheet, even, given, units)


def _profile(sheet: Sheet, place: tuple[int, int], shown: Middle, element: str) -> None:
    """Draw one element over the layers: dashed as stacked, solid after the fire."""
    left, top = place
    sheet.text(f"{NAMES[element]}, per cent", (left - 30, top - 46), size=18)
    before = shown.before.get(element, np.zeros(len(shown.letters)))
    after = shown.after.get(element, np.zeros(len(shown.edges) - 1)).round(6)
    low, high = float(before.min()), float(before.max())
    room = max(high - low, LEAST) * 0.2
    low, high = max(0.0, low - room), high + room + LEAST / 2

    def across(x: np.ndarray) -> np.ndarray:
        return left + WIDE * x / shown.edges[-1]

    def up(content: float) -> float:
        return top + HIGH * (high - content) / (high - low)

    sheet.box((left, top), (left + WIDE, top + HIGH), ink=QUIET)
    stairs = across(shown.bounds)
    for number, content in enumerate(before):
        ends = [(stairs[number + part], up(content)) for part in (0, 1)]
        sheet.dashes(*ends, ink=ACCENT, width=2)
        if number:
            sheet.line([(stairs[number], top), (stairs[number], top + HIGH)], ink=GHOST)
    places = across(shown.edges)
    steps = [
        (x, up(content))
        for first, last, content in zip(places, places[1:], after, strict=False)
        for x in (first, last)
    ]
    sheet.line(steps, width=3)
    for content in dict.fromkeys((before.min(), before.max())):
        sheet.text(f"{content:.2f}", (left - 5, up(content)), size=15, anchor="rm")


def _strip(
    sheet: Sheet, left: int, edges: np.ndarray, contents: dict[str, np.ndarray], words: str
) -> None:
    """Draw the layers as they would etch."""
    tones = etch.tone_of(contents)
    sums = np.concatenate([[0.0], np.cumsum(tones * np.diff(edges))])
    stops = np.linspace(edges[0], edges[-1], WIDE + 1)
    row = np.diff(np.interp(stops, edges, sums)) / np.diff(stops)
    tone = np.tile(row, (STRIP, 1))
    sheet.steel(Face(tone, np.ones_like(tone), np.ones_like(tone)), (left, STRIP_TOP))
    sheet.box((left, STRIP_TOP), (left + WIDE, STRIP_TOP + STRIP), ink=INK)
    sheet.above((left, STRIP_TOP), words)


def _names(sheet: Sheet, shown: Middle) -> None:
    """Write below the stacked strip what each layer is, where there is room."""
    each = WIDE / shown.edges[-1]
    for number, letter in enumerate(shown.letters):
        low, high = (CHARTS[0][0] + each * shown.bounds[number + end] for end in (0, 1))
        place = (low + high) / 2, STRIP_TOP + STRIP + 4
        sheet.text(letter, place, size=14, ink=QUIET, anchor="ma", gives_way=True)


def _clock(sheet: Sheet, even: Mapping[str, float], given: Given, units: Units) -> None:
    """Draw time to even out against thickness, both in tenfold steps."""
    left, top, wide, high = CLOCK
    layer, hot = given["layer"], given["minutes"]
    sheet.text("Time to even out", (left - 40, top - 46), size=18)
    shortest, longest = MARKS[0][0], 1e9

    def at(thickness: float, minutes: float) -> tuple[float, float]:
        share = np.log(minutes / shortest) / np.log(longest / shortest)
        place = np.log(thickness / THICK[0]) / np.log(2 / THICK[0])
        return left + wide * float(place), top + high * (1 - float(share))

    sheet.box((left, top), (left + wide, top + high), ink=QUIET)
    for minutes, words in MARKS:
        _, y = at(THICK[0], minutes)
        sheet.line([(left, y), (left + wide, y)], ink=GHOST)
        sheet.text(words, (left - 5, y), size=14, anchor="rm")
    for thickness in THICK:
        x, _ = at(thickness, 1)
        words = format_length(thickness, units) if units is not Units.MM else ""
        words = words or f"{thickness:g} mm"
        sheet.text(words, (x, top + high + 10), anchor="ma", gives_way=True)
    sheet.text(
        "layer", (left + wide, top + high + 10 + sheet.row), size=14, ink=QUIET, anchor="ra"
    )
    for name, took in even.items():
        ends = [  # all layers twice as thick: four times the time
            at(thick, max(shortest, took * (thick / layer) ** 2))
            for thick in (THICK[0], 2.0)
        ]
        sheet.line(ends, width=3)
        x, y = at(layer, max(shortest, took))
        sheet.box((x - 5, y - 5), (x + 5, y + 5), fill=ACCENT, ink=INK)
        sheet.text(name, (ends[1][0] - 4, ends[1][1] - 6), size=18, anchor="rb")
    if hot >= shortest:
        met, y = at(layer * (hot / even["C"]) ** 0.5, hot)
        _time_at_heat(sheet, (met - left) / wide, y)


def _time_at_heat(sheet: Sheet, met: float, y: float) -> None:
    """Dash the time at heat, and name it where no curve runs.

    Carbon's meets the dashes early, in the middle or late: `met` of their length.
    """
    left, _, wide, _ = CLOCK
    sheet.dashes((left, y), (left + wide, y), ink=ACCENT, width=2)
    place, anchor = (left + 4, y + 2), "la"
    if met < 0.5:
        place, anchor = (left + wide - 4, y + 2), "ra"
    elif met < 0.75:
        place, anchor = (left + 4, y - 2), "lb"
    sheet.text("time at heat", place, size=14, ink=ACCENT, anchor=anchor)


def tile(expected: float) -> tuple[Image.Image, str]:
    """Draw the two profiles that somebody with this idea expects after the fire."""
    sheet = Sheet(200, 150)
    lefts, wide, top, high = TILES
    for left, bit, name in zip(lefts, (CARBON, NICKEL), ("carbon", "nickel"), strict=True):
        even = bool(round(expected) & bit)
        sheet.box((left, top), (left + wide, top + high), ink=QUIET)
        sheet.text(name, (left, top - 24), size=16)
        level = (top + 18, top + high - 18)
        stairs = [
            (left + wide * (layer + part) / 4, level[layer % 2])
            for layer in range(4)
            for part in (0, 1)
        ]
        for number in range(0, 8, 2):
            sheet.dashes(stairs[number], stairs[number + 1], ink=ACCENT)
        middle = top + high / 2
        flat = [(left, middle), (left + wide, middle)]
        sheet.line(flat if even else stairs, ink=INK, width=3)
    words = WORDS[round(expected)]
    return sheet.image, f"Carbon and nickel over four layers after the fire: {words}."
