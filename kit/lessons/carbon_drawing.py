"""Two profiles over six layers, the strips beneath, and time against thickness."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from kit import etch
from kit.lessons.carbon_ideas import NAMES
from kit.metal.evening import minutes_to_even
from kit.picture import ACCENT, GHOST, INK, QUIET, Sheet
from kit.trace import Face
from kit.units import Units, format_length

if TYPE_CHECKING:
    from kit.lessons.carbon import Job, Middle

WIDE, HIGH = 270, 190
CHARTS = ((52, 62), (390, 62))  # left, top
STRIP, STRIP_TOP = 46, 300
CLOCK = (740, 62, 220, 238)  # left, top, width, height
TIMES = ((1 / 60, "1 s"), (1, "1 min"), (60, "1 h"), (1440, "1 day"), (525_960, "1 year"))
THICK = (0.01, 0.1, 1.0)  # mm
LEAST = 0.05  # per cent that a chart spans at least


def draw(sheet: Sheet, job: Job, shown: Middle, units: Units) -> None:
    """Draw all of it."""
    for place, name in zip(CHARTS, ("C", job.other), strict=True):
        profile(sheet, place, shown, name, NAMES[name])
    edges = np.linspace(0, shown.edges[-1], len(next(iter(shown.before.values()))) + 1)
    _strip(sheet, CHARTS[0][0], edges, shown.before, "as stacked, etched")
    _strip(sheet, CHARTS[1][0], shown.edges, shown.after, "after the fire, etched")
    sheet.scale_bar((CHARTS[0][0], 396), shown.edges[-1] / WIDE, units)
    _clock(sheet, job, units)


def profile(
    sheet: Sheet, place: tuple[int, int], shown: Middle, element: str, title: str
) -> None:
    """Draw one element over the layers: dashed as stacked, solid after the fire."""
    left, top = place
    sheet.text(f"{title}, per cent", (left - 30, top - 46), size=18)
    before = shown.before.get(element, np.zeros(6))
    after = shown.after.get(element, np.zeros(len(shown.edges) - 1))
    low, high = float(before.min()), float(before.max())
    room = max(high - low, LEAST) * 0.2
    low, high = max(0.0, low - room), high + room + LEAST / 2

    def across(x: np.ndarray) -> np.ndarray:
        return left + WIDE * x / shown.edges[-1]

    def up(content: float) -> float:
        return top + HIGH * (high - content) / (high - low)

    sheet.box((left, top), (left + WIDE, top + HIGH), ink=QUIET)
    stairs = np.linspace(left, left + WIDE, len(before) + 1)
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
    sheet.text(words, (left, STRIP_TOP - 24), size=15, ink=QUIET)


def _clock(sheet: Sheet, job: Job, units: Units) -> None:
    """Draw time to even out against thickness, both in tenfold steps."""
    left, top, wide, high = CLOCK
    sheet.text("Time to even out", (left - 40, top - 46), size=18)
    shortest, longest = TIMES[0][0], 1e9

    def at(thickness: float, minutes: float) -> tuple[float, float]:
        share = np.log(minutes / shortest) / np.log(longest / shortest)
        place = np.log(thickness / THICK[0]) / np.log(2 / THICK[0])
        return left + wide * float(place), top + high * (1 - float(share))

    sheet.box((left, top), (left + wide, top + high), ink=QUIET)
    for minutes, words in TIMES:
        _, y = at(THICK[0], minutes)
        sheet.line([(left, y), (left + wide, y)], ink=GHOST)
        sheet.text(words, (left - 5, y), size=14, anchor="rm")
    for thickness in THICK:
        x, _ = at(thickness, 1)
        words = format_length(thickness, units) if units is not Units.MM else ""
        words = words or f"{thickness:g} mm"
        sheet.text(words, (x, top + high + 5), size=14, anchor="ma")
    sheet.text("layer", (left + wide, top + high + 24), size=14, ink=QUIET, anchor="ra")
    for name in ("C", job.other):
        ends = []
        for thickness in (THICK[0], 2.0):
            minutes = max(shortest, minutes_to_even(thickness, name, job.celsius))
            ends.append(at(thickness, minutes))
        sheet.line(ends, width=3)
        x, y = at(job.layer, max(shortest, minutes_to_even(job.layer, name, job.celsius)))
        sheet.box((x - 5, y - 5), (x + 5, y + 5), fill=ACCENT, ink=INK)
        sheet.text(name, (ends[1][0] - 4, ends[1][1] - 6), size=18, anchor="rb")
    if job.minutes >= shortest:
        _, y = at(job.layer, job.minutes)
        sheet.dashes((left, y), (left + wide, y), ink=ACCENT, width=2)
        place = (left + wide - 4, y - 4)
        sheet.text("time hot", place, size=14, ink=ACCENT, anchor="rb")
