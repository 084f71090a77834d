"""Lesson 08: carbon walks, nickel stands still."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from kit.basics.declare import allowed_range, quantity
from kit.basics.units import Units, format_length, format_temperature
from kit.course.lesson import Given
from kit.course.lessons import drawing
from kit.course.lessons.carbon_ideas import (
    ACTIVE,
    ASTRAY,
    ELEMENTS,
    NAMES,
    minutes_working,
    spread_working,
)
from kit.course.lessons.job import Job as Base
from kit.course.lessons.scene import Number, Scene
from kit.course.lessons.written import time_words
from kit.forge.billet import Billet
from kit.forge.stack import Layer, Stack
from kit.forge.steels import steel
from kit.forge.steps import DrawOut
from kit.forge.steps.heat import Heat
from kit.metal import etch
from kit.metal.activity import carbon_by_activity
from kit.metal.cells import Cells, cells
from kit.metal.diffusion import spread
from kit.metal.evening import minutes_to_even
from kit.metal.pairs import pair
from kit.metal.working_heat import too_hot
from kit.section.picture import ACCENT, GHOST, INK, QUIET, Sheet
from kit.section.trace import Face

STEELS = (
    "1084", "15N20", "1095", "1075", "5160", "O1", "52100", "80CrV2", "1018", "nickel 200",
)  # fmt: skip
SHOWN = 6
THINNEST = allowed_range(DrawOut.model_fields["thickness"])[0]  # of a bar, mm
NICKEL = "nickel 200"
WIDE, HIGH = 270, 190
CHARTS = ((52, 62), (390, 62))  # left, top
STRIP, STRIP_TOP = 46, 300
CLOCK = (740, 62, 220, 238)  # left, top, width, height
TIMES = ((1 / 60, "1 s"), (1, "1 min"), (60, "1 h"), (1440, "1 day"), (525_960, "1 year"))
THICK = (0.01, 0.1, 1.0)  # mm
LEAST = 0.05  # per cent that a chart spans at least


class Job(Base):
    """Two steels in equal layers, and how long they are how hot."""

    first: int = quantity(
        "Steel A", "place in the list", low=0, high=len(STEELS) - 1, default=0
    )
    second: int = quantity(
        "Steel B", "place in the list", low=0, high=len(STEELS) - 1, default=1
    )
    layer: float = quantity(
        "Layer", "thickness of every layer", low=0.02, high=2, unit="mm", default=0.25
    )
    celsius: float = quantity(
        "Heat", "of the bar, right through", low=900, high=1250, unit="°C", default=1150
    )
    minutes: float = quantity(
        "Time hot", "all heats together", low=0, high=120, unit="min", default=10
    )
    element: int = quantity(
        "Beside carbon", "place in the list", low=0, high=len(ELEMENTS) - 1, default=0
    )
    activity: int = quantity(
        "Carbon evens out", "0 by per cent, 1 by activity", low=0, high=1, default=0
    )

    @property
    def names(self) -> tuple[str, str]:
        """The two grades."""
        return STEELS[self.first], STEELS[self.second]

    @property
    def other(self) -> str:
        """The element that is shown beside carbon."""
        return ELEMENTS[self.element]

    @property
    def given(self) -> Given:
        """The values that the formulas know."""
        return {"layer": self.layer, "celsius": self.celsius, "minutes": self.minutes}

    @property
    def billet(self) -> Billet:
        """Equal layers in turn, held hot; nothing is forged meanwhile.

        The outermost are half as thick: mirrored at the ends, layers go on for ever.
        """
        bars = [Layer(steel=name, thickness=self.layer) for name in self.names]
        end = Layer(steel=self.names[1], thickness=self.layer / 2)
        pairs = max(SHOWN // 2, math.ceil(THINNEST / self.layer / 2))
        layers = [end, *bars * pairs, bars[0], end]
        stack = Stack(layers=layers, length=100, width=30)
        heat = Heat(celsius=self.celsius, minutes=self.minutes)
        return Billet(source=stack).then(DrawOut(thickness=stack.thickness, heat=heat))


@dataclass(frozen=True)
class Middle:
    """Six layers from the middle of the stack: before, and after the fire.

    Attributes
    ----------
    edges : array (n + 1,)
        mm, from the left.
    before, after : dict of str to array
        Contents, weight per cent: of each layer (6,), of each cell (n,).
    """

    edges: np.ndarray
    before: dict[str, np.ndarray]
    after: dict[str, np.ndarray]


def middle(job: Job) -> Middle:
    """Work out what is where in the six middle layers.

    Raises
    ------
    KitError
        A heat at which one of the steels would melt.
    """
    billet = job.billet
    found: Cells = carbon_by_activity(billet) if job.activity else cells(billet)
    edges = found.edges * billet.source.thickness - job.layer / 2
    inside = (edges[1:] > 1e-9) & (edges[:-1] < SHOWN * job.layer - 1e-9)
    kept = np.append(edges[:-1][inside], edges[1:][inside][-1])
    after = {name: part[inside] for name, part in found.contents.items()}
    grades = [steel(name) for name in job.names]
    before = {
        name: np.array([grade.nominal.get(name, 0.0) for grade in grades] * (SHOWN // 2))
        for name in found.contents
    }
    return Middle(kept, before, after)


def scene(*, units: Units = Units.MM, sunlit: bool = False, **settings: float) -> Scene:
    """Hold the layers hot; show what moved, how it would etch, and how long it takes.

    `settings` are those of `Job`; what is left out stands as it is there.
    """
    job = Job.asked(settings, units)
    shown = middle(job)
    sheet = Sheet(drawing.COLUMNS, drawing.ROWS, sunlit=sunlit)
    _draw(sheet, job, shown, units)
    alt, numbers = _alt(job, shown, units), _numbers(job, units)
    return Scene(image=sheet.image, alt=alt, numbers=numbers, says=_says(job))


def _says(job: Job) -> str:
    """Say where the picture has nothing to show, or is not to be believed."""
    hot = too_hot(job.celsius, job.names)
    if hot or NICKEL in job.names:
        return " ".join(filter(None, (hot, ASTRAY * (NICKEL in job.names))))
    if not any(_content(job, bar, job.other) for bar in (0, 1)):
        return f"Neither steel's standard asks for {NAMES[job.other].lower()}: none to see."
    return ""


def left(shown: Middle, element: str) -> float:
    """Say what is left of the greatest difference of an element, weight per cent."""
    return float(np.ptp(shown.after[element])) if element in shown.after else 0.0


def _numbers(job: Job, units: Units) -> tuple[Number, ...]:
    rows = []
    for name in ("C", job.other):
        far = spread(name, job.celsius, job.minutes)
        rows.append(
            Number(
                f"{NAMES[name]} gets",
                format_length(far, units),
                spread_working(name, job.given),
            )
        )
    for name in ("C", job.other):
        even = minutes_to_even(job.layer, name, job.celsius)
        working = minutes_working(job.given)
        if name != "C":
            working = [working[0], f"with D of {NAMES[name].lower()}", time_words(even)]
        rows.append(Number(f"{NAMES[name]} even in", time_words(even), working))
    one, other = (_content(job, bar, "C") for bar in (0, 1))
    means = [_mean(job, name) for name in ("C", job.other)]
    rows.append(
        Number(
            f"Mean C, {job.other}",
            f"{means[0]:.2f} %, {means[1]:.2f} %",
            [
                "layers are equal: half of each steel",
                f"C: ({one:g} + {other:g}) / 2 = {means[0]:.2f} %",
            ],
        )
    )
    return tuple(rows)


def _content(job: Job, bar: int, element: str) -> float:
    return steel(job.names[bar]).nominal.get(element, 0.0)


def _mean(job: Job, element: str) -> float:
    return (_content(job, 0, element) + _content(job, 1, element)) / 2


def _alt(job: Job, shown: Middle, units: Units) -> str:
    one, other = job.names
    heat = format_temperature(job.celsius)
    parts = [
        f"{NAMES[name].lower()} differs by {np.ptp(shown.before[name]):.2f} per cent as "
        f"stacked, by {left(shown, name):.2f} after the fire"
        for name in ("C", job.other)
        if name in shown.before
    ]
    return (
        f"Six layers of {one} and {other} in turn, each {format_length(job.layer, units)} "
        f"thick, {job.minutes:g} minutes at {heat}. Two curves over the layers: "
        f"{'; '.join(parts)}. Below them the layers as stacked and as they would etch now. "
        f"On the right, time to even out against thickness of a layer, for both."
    )


def remark(changed: str, state: dict[str, float]) -> str:
    """Say what a change of one control did, where that is the point of it."""
    job = Job(**state)
    if job.first == job.second:
        return "The same steel twice: nothing to see here, and no contrast in the etch."
    if changed in {"first", "second"}:
        return together(*job.names)
    points = {
        "activity": (job.activity, ACTIVE),
        "layer": (True, "Time goes with the square: half the layer, a quarter of it."),
        "celsius": (True, too_hot(job.celsius, job.names)),
        "minutes": (not job.minutes, "As stacked: nothing has moved yet."),
    }
    holds, words = points.get(changed, (False, ""))
    return words if holds else ""


def together(one: str, other: str) -> str:
    """Say what two steels do together: contrast, hardening, and what to mind first."""
    both = pair(one, other)
    contrast = both.contrasts[both.evens_out]
    mind = str(both.reasons[0]) if both.reasons else ""
    return f"{both}: contrast {contrast} (illustrative). {both.hardening.sentence} {mind}"


def _draw(sheet: Sheet, job: Job, shown: Middle, units: Units) -> None:
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
