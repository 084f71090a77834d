"""Lesson 08: carbon walks, nickel stands still."""

from collections.abc import Mapping
from functools import cached_property
from typing import Any, ClassVar

import numpy as np

from kit.basics.declare import choice, quantity
from kit.basics.told import counted, format_time
from kit.basics.units import Units, format_length, format_temperature, or_under, rounded
from kit.course.lesson import Given
from kit.course.lessons import carbon_ideas as ideas
from kit.course.lessons import carbon_stack, drawing
from kit.course.lessons.base import Lesson
from kit.course.lessons.carbon_drawing import WORDS, Middle, draw_on, tile
from kit.course.lessons.carbon_ideas import ELEMENTS, NAMES
from kit.course.lessons.carbon_stack import Laid
from kit.course.lessons.scene import Number, Part, Scene
from kit.forge.billet import Billet
from kit.forge.steels import steel
from kit.forge.steps import DrawOut
from kit.forge.steps.base import Heat
from kit.metal.activity import activity_factor, carbon_by_activity
from kit.metal.cells import Cells, cells
from kit.metal.diffusion import DISAGREE, TABLE, spread
from kit.metal.evening import EVENED, contents_of, minutes_to_even
from kit.metal.working_heat import too_hot
from kit.section.picture import Sheet

STEELS = (
    "1084", "15N20", "1095", "1075", "5160", "O1", "52100", "80CrV2", "1018", "nickel",
)  # fmt: skip
CALLED = tuple({"1018": "mild 1018"}.get(s, s) for s in STEELS)
LETTERS = "ABC"  # of the steels, as their controls are named
HAIR = 1e-9  # mm
LAYERS = (
    *(0.02, 0.03, 0.04, 0.05, 0.06, 0.08, 0.1, 0.125, 0.15, 0.2, 0.25),
    *(0.3, 0.4, 0.5, 0.6, 0.8, 1.0, 1.25, 1.5, 2.0),
)


class CarbonLesson(Lesson):
    """Two metals or three, how they are laid, and how long they are how hot."""

    key: ClassVar = "08"
    title: ClassVar = "What the fire moves, and what it leaves"
    main: ClassVar = "minutes"
    phone: ClassVar = (Part(0, 0, 668, 412),)
    look: ClassVar = ""
    cues: ClassVar = ("layer", "first", "second", "laid", "third")

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
    third: int = choice("Steel C", ("none", *CALLED))
    laid: int = choice("Laid", carbon_stack.LAID)
    element: int = choice("Beside carbon", [NAMES[name].lower() for name in ELEMENTS])
    activity: int = choice("Carbon levels by", ("per cent", "activity"))

    stations: ClassVar = {
        "1 Fire": ("layer", "celsius", "minutes"),
        "2 Steels": ("first", "second"),
        "3 Stack": ("laid", "third"),
        "4 View": ("element", "activity"),
    }
    fine: ClassVar = DISAGREE
    shuts: ClassVar = {
        "It was not hot yet: no carbon has walked.": (
            lambda job: not job.minutes, "activity"
        ),
        "What is in these metals pushes carbon alike.": (
            lambda job: len({activity_factor(steel(m).nominal) for m in job.metals}) == 1,
            "activity"),
    }  # fmt: skip

    question: ClassVar = ideas.TOLD.question(
        given={"layer": 0.25, "celsius": 1150.0, "minutes": 10.0},
        tiles=(ideas.ONLY_CARBON, ideas.BOTH, ideas.NEITHER, ideas.ONLY_NICKEL),
        right=ideas.ONLY_CARBON,
        show=lambda expected: WORDS[round(expected)],
        draw=tile,
    )
    # the minutes pass
    film: ClassVar = tuple({"minutes": float(minute)} for minute in range(11))
    checks: ClassVar = (ideas.THICKER, ideas.SQUARE, ideas.LOWER)

    @property
    def names(self) -> tuple[str, str]:
        """The first two grades."""
        return STEELS[self.first], STEELS[self.second]

    @cached_property
    def pile(self) -> Laid:
        """How the metals are laid, and what of it is shown."""
        return carbon_stack.laid(self._turns, self.laid, self.layer)

    @property
    def _turns(self) -> tuple[str, ...]:
        third = (STEELS[self.third - 1],) if self.third else ()
        return (*self.names, *third)

    @property
    def metals(self) -> tuple[str, ...]:
        """All that lies in the stack, each once."""
        return tuple(dict.fromkeys(self.pile.unit.steels))

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
        """The stack, held hot; nothing is forged meanwhile."""
        stack = self.pile.stack
        heat = Heat(celsius=self.celsius, minutes=self.minutes)
        return Billet(source=stack).then(DrawOut(thickness=stack.thickness, heat=heat))

    @cached_property
    def middle(self) -> Middle:
        """What is where in the layers that are shown.

        Raises
        ------
        KitError
            A heat at which one of the steels would melt.
        """
        billet, pile = self.billet, self.pile
        found: Cells = carbon_by_activity(billet) if self.activity else cells(billet)
        edges = found.edges * billet.source.thickness - pile.start
        inside = (edges[1:] > HAIR) & (edges[:-1] < pile.span - HAIR)
        kept = np.append(edges[:-1][inside], edges[1:][inside][-1])
        after = {name: part[inside] for name, part in found.contents.items()}
        before = {
            name: np.array([_content(bar, name) for bar in pile.steels])
            for name in found.contents
        }
        turns = dict(
            zip(self._turns[::-1], LETTERS[len(self._turns) - 1 :: -1], strict=True)
        )
        letters = tuple(turns.get(name, "Ni") for name in pile.steels)
        return Middle(kept, pile.bounds, letters, before, after)

    @cached_property
    def even_in(self) -> Mapping[str, float]:
        """The times until carbon, and what is beside it, is 95 % even here, minutes."""
        return {
            name: self.pile.minutes_even(name, self.celsius, self.layer)
            for name in dict.fromkeys(("C", self.other))
        }

    def draw(self, units: Units, *, told: bool = True, **paper: Any) -> Scene:
        """Hold the layers hot; show what moved, its etch, and how long it takes."""
        sheet = Sheet(drawing.COLUMNS, drawing.ROWS, **paper)
        draw_on(sheet, self.middle, self.even_in, self._given, units)
        return Scene(
            image=sheet.image,
            alt=lambda: self._alt(units),
            numbers=self._numbers(units),
            says=self._says(),
        )

    def remark(self, changed: str, units: Units = Units.MM) -> str:
        """Say how far it is, in what time, and what two steels do together.

        A heat that is too hot for one of the metals is told whatever was moved.
        """
        words, hot = self._point(changed, units), too_hot(self.celsius, self.metals)
        return " ".join(filter(None, (words, hot))) if words else ""

    def _point(self, changed: str, units: Units) -> str:
        if len(self.metals) == 1:
            return ideas.SAME_STEEL
        even = self.even_in["C"]
        if changed in {"first", "second"} or (changed == "third" and self.third):
            beside = self._turns[1:] if changed == "third" else self.names
            return ideas.together(*beside, self._means[0], even=even <= self.minutes)
        thick, heat = format_length(self.layer, units), format_temperature(self.celsius)
        far, foil = (
            format_length(spread(name, self.celsius, self.minutes), units)
            for name in (self.other, "Ni")
        )
        took, slower = format_time(even), "cooler, it walks more slowly"
        points = {
            "layer": (
                f"Layers of {thick}: even in {took}. Half as thick takes a quarter of it."
            ),
            "third": "No third metal: A and B alone.",
            "laid": self._laid(even, foil),
            "celsius": f"At {heat} carbon is even in {took}: {slower}.",
            "minutes": self._waited(even),
            "element": (
                f"{NAMES[self.other]} has moved {far}: it must wait for an empty place."
            ),
            "activity": ideas.ACTIVE if self.activity else ideas.PER_CENT,
        }
        return points.get(changed, "")

    def _laid(self, even: float, far: str) -> str:
        """Say what a way of laying the metals changes."""
        took = format_time(even)
        plain = format_time(minutes_to_even(self.layer, "C", self.celsius))
        if self.laid == carbon_stack.CORE:
            core = self.middle.core
            return (
                f"A core eight times as thick: even in {took}, where thin layers take "
                f"{plain}. Its middle holds {core:.2f} % carbon now."
            )
        if self.laid == carbon_stack.FOIL:
            return (
                f"Nickel foil is a line, no wall: carbon is even in {took}, through the "
                f"foil. The foil's nickel got {far} far."
            )
        if self.third:
            return (
                f"A, B, C, B: from A to C it is twice as far. Even in {took}, not {plain}."
            )
        return f"In turn, all as thick: carbon is even in {took}."

    def _waited(self, even: float) -> str:
        took, other = format_time(even), NAMES[self.other].lower()
        if not self.minutes:
            return "As stacked: nothing has moved yet."
        if self.minutes < even:
            hot = counted(self.minutes, "minute")
            return f"{hot}: carbon is on its way; even, it is in {took}."
        if not any(_content(name, self.other) for name in self.metals):
            return f"Carbon is even: that took {took}. There is no {other} to see."
        longer = self.even_in[self.other]
        if self.minutes < longer:
            return (
                f"Carbon is even: that took {took}. For {other} it would be "
                f"{format_time(longer)}."
            )
        return (
            f"Carbon is even: that took {took}. So is {other}, after {format_time(longer)}."
        )

    def _says(self) -> str:
        """Say where the picture has nothing to show, or is not to be believed."""
        hot = too_hot(self.celsius, self.metals)
        sheet = carbon_stack.NICKEL in self.metals
        if hot or sheet:
            return " ".join(filter(None, (hot, ideas.ASTRAY * sheet)))
        if len(self.metals) == 1:
            return ideas.SAME_STEEL
        return self._waited(self.even_in["C"])

    @property
    def _means(self) -> list[float]:
        """Per cent of carbon, and of what is beside it, in the whole stack."""
        shares, shown = np.diff(self.pile.unit.edges), ("C", self.other)
        return [float(shares @ contents_of(self.pile.unit, name)) for name in shown]

    def _numbers(self, units: Units) -> tuple[Number, ...]:
        shown = ("C", self.other)
        unit = self.pile.unit
        shares = np.diff(unit.edges)
        means = [rounded(mean, 2) for mean in self._means]
        share = {
            name: shares[[one == name for one in unit.steels]].sum() for name in self.metals
        }
        summed = " + ".join(
            f"{part:.3g} × {_content(name, 'C'):g}" for name, part in share.items()
        )
        return (
            *(self._gets(name, units) for name in shown),
            *(self._even_in(name) for name in shown),
            Number(
                f"Mean C, {self.other}",
                f"{means[0]} %, {means[1]} %",
                ["each metal by its share of the thickness", f"C: {summed} = {means[0]} %"],
                tuple(map(steel, self.metals)),
            ),
        )

    def _gets(self, element: str, units: Units) -> Number:
        far = spread(element, self.celsius, self.minutes)
        far = or_under(format_length(far, units), far, units)
        working = ideas.spread_working(element, self._given)
        return Number(f"{NAMES[element]} has moved", far, working, (TABLE[element],))

    def _even_in(self, element: str) -> Number:
        even = self.even_in[element]
        plain = minutes_to_even(self.layer, element, self.celsius)
        words, working = format_time(even), ideas.minutes_working(self._given)
        if element != "C":
            working = [working[0], f"with D of {NAMES[element].lower()}", words]
        if even != plain:
            working = [
                f"equal layers of two metals: {format_time(plain)}",
                f"as these are laid, {even / plain:.3g} times that: {words}",
                "until one part in twenty of the greatest difference is left",
            ]
        known = (EVENED, TABLE[element])
        return Number(f"{NAMES[element]} even in", words, working, known)

    def _alt(self, units: Units) -> str:
        heat = format_temperature(self.celsius)
        lies = carbon_stack.lies(self._turns, self.laid, self.layer, units)
        shown = self.middle
        parts = [
            f"{NAMES[name].lower()} differs by {np.ptp(shown.before[name]):.2f} per cent "
            f"as stacked, by {shown.left(name):.2f} after the fire"
            for name in ("C", self.other)
            if name in shown.before
        ]
        return (
            f"{lies}, {counted(self.minutes, 'minute')} at {heat}. Two curves over the "
            f"layers: {'; '.join(parts)}. Below them the layers as stacked and as they "
            "would etch now. On the right, time to even out against thickness of a layer, "
            "for both."
        )


def _content(name: str, element: str) -> float:
    return steel(name).nominal.get(element, 0.0)
