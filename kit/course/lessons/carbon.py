"""Lesson 08: carbon walks, nickel stands still."""

from __future__ import annotations

import math
from functools import cached_property
from typing import Any, ClassVar

import numpy as np

from kit.basics.declare import allowed_range, choice, quantity
from kit.basics.units import Units, format_length, format_temperature
from kit.course.lesson import Given, Question, Reason
from kit.course.lessons import carbon_ideas as ideas
from kit.course.lessons import drawing
from kit.course.lessons.base import Lesson
from kit.course.lessons.carbon_drawing import WORDS, Middle, draw_on, tile
from kit.course.lessons.carbon_ideas import ELEMENTS, NAMES
from kit.course.lessons.scene import Number, Scene
from kit.forge.billet import Billet
from kit.forge.stack import Layer, Stack
from kit.forge.steels import steel
from kit.forge.steps import DrawOut
from kit.forge.steps.base import Heat
from kit.metal.activity import carbon_by_activity
from kit.metal.cells import Cells, cells
from kit.metal.diffusion import DISAGREE, TABLE, spread
from kit.metal.evening import EVENED, minutes_to_even
from kit.metal.pairs import pair
from kit.metal.working_heat import too_hot
from kit.section.picture import Sheet

STEELS = (
    "1084", "15N20", "1095", "1075", "5160", "O1", "52100", "80CrV2", "1018", "nickel",
)  # fmt: skip
CALLED = tuple({"1018": "mild 1018"}.get(s, s) for s in STEELS)
SHOWN = 6
THINNEST = allowed_range(DrawOut.model_fields["thickness"])[0]  # of a bar, mm
NICKEL = "nickel"
DAY = 1440  # minutes
LAYERS = (
    *(0.02, 0.03, 0.04, 0.05, 0.06, 0.08, 0.1, 0.125, 0.15, 0.2, 0.25),
    *(0.3, 0.4, 0.5, 0.6, 0.8, 1.0, 1.25, 1.5, 2.0),
)


class CarbonLesson(Lesson):
    """Two steels in equal layers, and how long they are how hot."""

    key: ClassVar = "08"
    number: ClassVar = "08"
    title: ClassVar = "What the fire moves, and what it leaves"
    main: ClassVar = "minutes"
    look: ClassVar = ""
    cues: ClassVar = ("layer", "first", "second")

    layer: float = quantity(
        "Layer", "thickness of every layer", low=0.02, high=2, unit="mm", default=0.25,
        stops=LAYERS,
    )  # fmt: skip
    celsius: float = quantity(
        "Heat", "of the bar, right through", low=900, high=1250, unit="°C", default=1150,
        step=10,
    )  # fmt: skip
    minutes: float = quantity(
        "Time at heat", "all heats together", low=0, high=120, unit="min", default=10
    )
    first: int = choice("Steel A", CALLED)
    second: int = choice("Steel B", CALLED, default=1)
    element: int = choice("Beside carbon", [NAMES[name].lower() for name in ELEMENTS])
    activity: int = choice("Carbon levels by", ("per cent", "activity"))

    stations: ClassVar = {
        "1 Fire": ("layer", "celsius", "minutes"),
        "2 Steels": ("first", "second"),
        "3 View": ("element", "activity"),
    }
    fine: ClassVar = DISAGREE

    question: ClassVar = Question(
        ask=(
            "Layers of 1084 and 15N20, each 0.25 mm thick, are ten minutes at 1150 °C "
            "(2102 °F). The steels differ in carbon and in nickel. What has evened out "
            "between the layers?"
        ),
        given={"layer": 0.25, "celsius": 1150.0, "minutes": 10.0},
        tiles=(ideas.ONLY_CARBON, ideas.BOTH, ideas.NEITHER, ideas.ONLY_NICKEL),
        right=ideas.ONLY_CARBON,
        show=lambda expected: WORDS[round(expected)],
        draw=tile,
        observed=(
            "Carbon is level; it takes 3.7 minutes. Nickel stands as it was stacked: it "
            "got 0.0016 mm far and would take 54 days. The etch goes by nickel, so the "
            "pattern is still there."
        ),
        reasons=(
            Reason(
                "Carbon sits between the iron atoms; nickel must swap places with them.",
                True,
                "Yes. A small atom slips from gap to gap. A large one waits for an empty "
                "place beside it, some twenty thousand times as long.",
            ),
            Reason(
                "Nickel is held fast by the weld.",
                False,
                "The weld is no wall: carbon went straight through it.",
            ),
            Reason(
                "There is less carbon than nickel, so it was used up.",
                False,
                "None was used up. Add the carbon of all layers before and after.",
            ),
        ),
    )
    # the minutes pass
    film: ClassVar = tuple({"minutes": float(minute)} for minute in range(11))
    checks: ClassVar = (ideas.THICKER, ideas.SQUARE, ideas.LOWER)

    @property
    def names(self) -> tuple[str, str]:
        """The two grades."""
        return STEELS[self.first], STEELS[self.second]

    @property
    def other(self) -> str:
        """The element that is shown beside carbon."""
        return ELEMENTS[self.element]

    @property
    def _given(self) -> Given:
        """The values that the formulas know."""
        return self.model_dump(include={"layer", "celsius", "minutes"})

    @cached_property
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

    @cached_property
    def middle(self) -> Middle:
        """What is where in the six middle layers.

        Raises
        ------
        KitError
            A heat at which one of the steels would melt.
        """
        billet = self.billet
        found: Cells = carbon_by_activity(billet) if self.activity else cells(billet)
        edges = found.edges * billet.source.thickness - self.layer / 2
        inside = (edges[1:] > 1e-9) & (edges[:-1] < SHOWN * self.layer - 1e-9)
        kept = np.append(edges[:-1][inside], edges[1:][inside][-1])
        after = {name: part[inside] for name, part in found.contents.items()}
        before = {
            name: np.array([self._content(bar, name) for bar in (0, 1)] * (SHOWN // 2))
            for name in found.contents
        }
        return Middle(kept, before, after)

    def draw(self, units: Units, *, told: bool = True, **paper: Any) -> Scene:
        """Hold the layers hot; show what moved, its etch, and how long it takes."""
        del told
        sheet = Sheet(drawing.COLUMNS, drawing.ROWS, **paper)
        draw_on(sheet, self.middle, self.other, self._given, units)
        return Scene(
            image=sheet.image,
            alt=self._alt(units),
            numbers=self._numbers(units),
            says=self._says(),
        )

    def remark(self, changed: str, units: Units = Units.MM) -> str:
        """Say how far it is, in what time, and what two steels do together."""
        if self.first == self.second:
            return "The same steel twice: nothing to see here, and no contrast in the etch."
        if changed in {"first", "second"}:
            return together(*self.names)
        even = minutes_to_even(self.layer, "C", self.celsius)
        thick, heat = format_length(self.layer, units), format_temperature(self.celsius)
        far = format_length(spread(self.other, self.celsius, self.minutes), units)
        took, slower = time_words(even), "cooler, it walks more slowly"
        points = {
            "layer": (
                f"Layers of {thick}: even in {took}. Half as thick takes a quarter of it."
            ),
            "celsius": too_hot(self.celsius, self.names)
            or f"At {heat} carbon is even in {took}: {slower}.",
            "minutes": self._waited(even),
            "element": (
                f"{NAMES[self.other]} has moved {far}: it must wait for an empty place."
            ),
            "activity": ideas.ACTIVE if self.activity else ideas.PER_CENT,
        }
        return points.get(changed, "")

    def _waited(self, even: float) -> str:
        took, other = time_words(even), NAMES[self.other].lower()
        if not self.minutes:
            return "As stacked: nothing has moved yet."
        if self.minutes < even:
            return f"{self.minutes:g} minutes: carbon is on its way; even, it is in {took}."
        longer = minutes_to_even(self.layer, self.other, self.celsius)
        if self.minutes < longer:
            return (
                f"Carbon is even: that took {took}. For {other} it would be "
                f"{time_words(longer)}."
            )
        return (
            f"Carbon is even: that took {took}. So is {other}, after {time_words(longer)}."
        )

    def _says(self) -> str:
        """Say where the picture has nothing to show, or is not to be believed."""
        hot = too_hot(self.celsius, self.names)
        if hot or NICKEL in self.names:
            astray = ideas.ASTRAY if NICKEL in self.names else ""
            return " ".join(filter(None, (hot, astray)))
        if not any(self._content(bar, self.other) for bar in (0, 1)):
            none = NAMES[self.other].lower()
            return f"Neither steel's standard asks for {none}: none to see."
        if self.first == self.second:
            return "The same steel twice: nothing to see here, and no contrast in the etch."
        return self._waited(minutes_to_even(self.layer, "C", self.celsius))

    def _content(self, bar: int, element: str) -> float:
        return steel(self.names[bar]).nominal.get(element, 0.0)

    def _numbers(self, units: Units) -> tuple[Number, ...]:
        shown = ("C", self.other)
        contents = [[self._content(bar, name) for bar in (0, 1)] for name in shown]
        means = [sum(both) / 2 for both in contents]
        return (
            *(self._gets(name, units) for name in shown),
            *(self._even_in(name) for name in shown),
            Number(
                f"Mean C, {self.other}",
                f"{means[0]:.2f} %, {means[1]:.2f} %",
                [
                    "layers are equal: half of each steel",
                    f"C: ({contents[0][0]:g} + {contents[0][1]:g}) / 2 = {means[0]:.2f} %",
                ],
                tuple(map(steel, self.names)),
            ),
        )

    def _gets(self, element: str, units: Units) -> Number:
        far = format_length(spread(element, self.celsius, self.minutes), units)
        working = ideas.spread_working(element, self._given)
        return Number(f"{NAMES[element]} has moved", far, working, (TABLE[element],))

    def _even_in(self, element: str) -> Number:
        words = time_words(minutes_to_even(self.layer, element, self.celsius))
        working = ideas.minutes_working(self._given)
        if element != "C":
            working = [working[0], f"with D of {NAMES[element].lower()}", words]
        known = (EVENED, TABLE[element])
        return Number(f"{NAMES[element]} even in", words, working, known)

    def _alt(self, units: Units) -> str:
        one, other = self.names
        heat = format_temperature(self.celsius)
        shown = self.middle
        parts = [
            f"{NAMES[name].lower()} differs by {np.ptp(shown.before[name]):.2f} per cent "
            f"as stacked, by {shown.left(name):.2f} after the fire"
            for name in ("C", self.other)
            if name in shown.before
        ]
        return (
            f"Six layers of {one} and {other} in turn, each "
            f"{format_length(self.layer, units)} thick, {self.minutes:g} minutes at "
            f"{heat}. Two curves over the layers: {'; '.join(parts)}. Below them the "
            "layers as stacked and as they would etch now. On the right, time to even out "
            "against thickness of a layer, for both."
        )


def together(one: str, other: str) -> str:
    """Say what two steels do together: contrast, hardening, and what to mind first."""
    both = pair(one, other)
    contrast = both.contrasts[both.evens_out]
    mind = str(both.reasons[0]) if both.reasons else ""
    return f"{both}: contrast {contrast} (illustrative). {both.hardening.sentence} {mind}"


def time_words(minutes: float) -> str:
    """Write a time as people say it: seconds, minutes, hours, days, years.

    Examples
    --------
    >>> [time_words(some) for some in (0.6, 3.72, 200, 78000, 9e6)]
    ['36 s', '3.7 min', '3.3 h', '54 days', '17 years']
    """
    for size, least, name in (
        (365.25 * DAY, 2, "years"),
        (DAY, 2, "days"),
        (60, 2, "h"),
        (1, 1, "min"),
    ):
        if minutes >= least * size:
            number = minutes / size
            return f"{number:.1f} {name}" if number < 10 else f"{number:,.0f} {name}"
    return f"{60 * minutes:.0f} s"
