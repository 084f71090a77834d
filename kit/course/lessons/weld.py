"""Lesson 02, a weld that did not take: made once at the anvil, met again and again.

Given: n pieces in the stack, or n bad welds; k folds.
"""

from functools import cached_property
from typing import Any, ClassVar

import numpy as np
from PIL import Image

from kit.basics.claim import Claim, Kind
from kit.basics.declare import choice, quantity
from kit.basics.errors import KitError
from kit.basics.told import counted
from kit.basics.units import Units, format_length
from kit.course.lesson import Given
from kit.course.lessons import fold_ideas
from kit.course.lessons import weld_drawing as drawing
from kit.course.lessons.base import Lesson
from kit.course.lessons.scene import Number, Panel, Part, Scene
from kit.course.worded import Worded
from kit.forge.billet import Billet, fold_and_draw
from kit.forge.flaw import Flaw
from kit.forge.stack import demo_stack
from kit.section.picture import LAYERS, Sheet
from kit.shop.work import all_sound, welds_made

PIECES = len(demo_stack().layers)

TOLD = Worded(__file__, "02", pieces=PIECES)

STAYS_ONE = TOLD.idea("STAYS_ONE", lambda given: given["n"])
ONE_A_FOLD = TOLD.idea("ONE_A_FOLD", lambda given: given["n"] + given["k"])
TWO_A_FOLD = TOLD.idea("TWO_A_FOLD", lambda given: 2 * given["k"])
OF_THE_FOLDS = TOLD.idea("OF_THE_FOLDS", lambda given: 2 ** given["k"] - 1)

MADE = TOLD.idea("MADE", lambda given: given["n"] - 1 + given["k"])
PIECES_COUNTED = TOLD.idea("PIECES_COUNTED", lambda given: given["n"] + given["k"])
FOLDS_LEFT_OUT = TOLD.idea("FOLDS_LEFT_OUT", lambda given: given["n"] - 1)
PLANES_COUNTED = TOLD.idea("PLANES_COUNTED", lambda given: given["n"] * 2 ** given["k"] - 1)


def _lines_working(given: Given) -> list[str]:
    k = int(given["k"])
    counts = ", ".join(str(2**fold) for fold in range(k + 1))
    return [f"one line; after each fold twice as many: {counts}", f"= 2^{k} = {2**k}"]


def made_working(given: Given) -> list[str]:
    """Work out the welds that a smith makes."""
    n, k = int(given["n"]), int(given["k"])
    return [
        "welds = (pieces - 1) in the stack, and one a fold",
        f"= ({n} - 1) + {k}",
        f"= {n - 1 + k}",
    ]


HAIR_LINES = TOLD.check(
    "HAIR_LINES",
    given={"n": 1, "k": 5},
    right=fold_ideas.LAYERS,
    slips=(STAYS_ONE, ONE_A_FOLD, TWO_A_FOLD, fold_ideas.ONE_FOLD_SHORT, OF_THE_FOLDS),
    kind="count",
    working=_lines_working,
    other={"n": 1, "k": 3},
)

WELDS_MADE = TOLD.check(
    "WELDS_MADE",
    given={"n": 9, "k": 4},
    right=MADE,
    slips=(PIECES_COUNTED, FOLDS_LEFT_OUT, PLANES_COUNTED),
    kind="count",
    working=made_working,
    other={"n": 5, "k": 2},
)


COLUMNS, ROWS = 1000, 520  # pixels
STACK = demo_stack()
THICKNESS = 12.0  # of the finished bar, mm
MOST_FOLDS = 6
FIRST = PIECES - 1  # welds made in the first stack

PATCHES = ("from end to end", "a short patch", "a short patch where the next fold goes")
WHOLE, SHORT, ASTRIDE = range(3)
LONG, WIDE = 5.0, 10.0  # mm, of a short patch
# Folding lays the far half on the near one and drawing doubles the length: of all
# places along the bar only two thirds stays where it is. A patch there is in the middle
# of no fold until it has grown to a third of the bar.
PLACE = {SHORT: 2 / 3, ASTRIDE: 1 / 2}

AS_SURE = Claim(
    says="How sure a weld is, and how far a missed one opens, we guess.",
    kind=Kind.OURS,
    source="illustrative: no measured opening was found, nor how often a weld fails",
    unit="mm in the finished bar; part of all welds",
    holds=("OPENING", "SURE"),
    told=("[Hh]ow sure (a|one) weld is", "as wide as it is guessed"),
)
OPENING = 0.05  # mm in the finished bar, or half a layer where layers are finer
SURE = 0.99
LOOKS = 500  # places along the bar where open leaves are looked for
SAME = 1e-6  # mm
ASKED = {"n": 1, "k": 3}  # bad welds, and folds


def tile(lines: float) -> tuple[Image.Image, str]:
    """Draw the sawn end that somebody who expects this many hairlines expects."""
    job = WeldLesson(folds=ASKED["k"])
    expected = round(lines)
    met = job.met  # where they really lie, if they are as many
    if expected != len(met):
        met = tuple(THICKNESS * (at + 0.5) / expected for at in range(expected))
    alt = f"The sawn end of a folded bar: {counted(expected, 'hairline')}."
    return drawing.expected_end(job.billet, met), alt


class WeldLesson(Lesson):
    """A folded bar, one of its welds open, and where it is sawn.

    `weld` counts the welds in the order in which they are made: 1 to `FIRST` in the
    stack, from the bottom, then one for each fold.
    """

    key: ClassVar = "weld"
    number: ClassVar = "02"
    title: ClassVar = "A weld that did not take"
    main: ClassVar = "folds"
    phone: ClassVar = (Part(0, 0, 530, 378),)  # with the loupe: a line leads to it
    look: ClassVar = LAYERS
    cues: ClassVar = ("weld", "patch", "position", "folds")

    folds: int = quantity(
        "Times folded", "each fold: lay the bar on itself, weld, draw out again", low=0,
        high=MOST_FOLDS, default=3,
    )  # fmt: skip
    weld: int = quantity(
        "The bad weld, in the order made",
        f"1 to {FIRST} in the stack, from the bottom; then one a fold",
        low=1, high=FIRST + MOST_FOLDS, default=4,
    )  # fmt: skip
    patch: int = choice("It stayed open", PATCHES)
    position: float = quantity(
        "Where the bar is sawn", "share of its length", low=0, high=100, unit="%",
        default=50,
    )  # fmt: skip

    question: ClassVar = TOLD.question(
        given=ASKED,
        tiles=(ONE_A_FOLD, fold_ideas.LAYERS, STAYS_ONE, TWO_A_FOLD),
        right=fold_ideas.LAYERS,
        show=lambda lines: counted(round(lines), "hairline"),
        draw=tile,
    )
    film: ClassVar = tuple({"folds": folds} for folds in range(ASKED["k"] + 1))
    checks: ClassVar = (HAIR_LINES, WELDS_MADE)
    gives: ClassVar = ("weld",)

    def check(self, units: Units) -> None:
        """Refuse a weld that was never made."""
        # a weld is counted, in any units
        if self.weld > FIRST + self.folds:
            made = FIRST + self.folds
            msg = (
                f"After {times(self.folds)} there are {made} welds, so the bad weld must "
                f"be from 1 to {made}. Given: {self.weld}."
            )
            raise KitError(msg)

    @cached_property
    def billet(self) -> Billet:
        """The demo's bars, folded, drawn to 12 mm."""
        return fold_and_draw(Billet(source=STACK), folds=self.folds, thickness=THICKNESS)

    @property
    def fold(self) -> int:
        """Which fold made the bad weld; 0 for the stack."""
        return max(0, self.weld - FIRST)

    @property
    def later(self) -> int:
        """How many folds came after the bad weld."""
        return self.folds - self.fold

    @cached_property
    def flaw(self) -> Flaw:
        """The open patch."""
        return self._flaw(self.patch)

    @cached_property
    def copies(self) -> tuple[float, ...]:
        """Where the bad weld lies in the bar, mm from below: once in every leaf."""
        return drawing.heights(self.billet, self._flaw(WHOLE), self.billet.size.length / 2)

    @cached_property
    def met(self) -> tuple[float, ...]:
        """Where the sawn end shows the gap, mm from below."""
        length = self.billet.size.length
        # a hair inside the bar, so that sawing off nothing shows its end
        spot = min(max(self.position / 100 * length, SAME), length - SAME)
        return drawing.heights(self.billet, self.flaw, spot)

    @cached_property
    def open(self) -> tuple[bool, ...]:
        """Which of the copies are open anywhere along the bar."""
        along = (np.arange(LOOKS) + 0.5) / LOOKS * self.billet.size.length
        return tuple(
            bool(copy.any())
            for copy in drawing.lies(self.billet, self.flaw, self.copies, along)
        )

    @property
    def stretched(self) -> float:
        """Length of a short patch, drawn out with the bar, mm."""
        return LONG * 2**self.later * STACK.thickness / THICKNESS

    def _flaw(self, patch: int) -> Flaw:
        self.check(Units.MM)
        # in the list of steps each fold is followed by drawing out
        step = max(0, 2 * self.fold - 1)
        interface = 1 if self.fold else self.weld
        opening = min(OPENING, self.billet.mean_layer / 2)
        whole = Flaw.whole(self.billet, step=step, interface=interface)
        whole = whole.model_copy(update={"opening": opening})
        if patch == WHOLE:
            return whole
        middle = PLACE[patch] * whole.long
        spot = {"x": middle, "y": drawing.ASIDE, "long": LONG, "wide": WIDE}
        return whole.model_copy(update=spot)

    @property
    def chance(self) -> float:
        """The chance that all welds took, if each is 99 % sure."""
        return all_sound(self.billet, SURE)

    def draw(self, units: Units, *, told: bool = True, **paper: Any) -> Scene:
        """Show the sawn end, a loupe on it, all the welds, and where the gap lies."""
        # told or not: until then it is not folded, or sawn below the question
        sheet = Sheet(COLUMNS, ROWS, **paper)
        panels = (drawing.sawn_end(sheet, self, units), drawing.loupe(sheet, self, units))
        drawing.chart(sheet, FIRST, self.folds, self.weld, self.open)
        drawing.seen_through(sheet, self, units)
        return Scene(
            image=sheet.image,
            alt=lambda: self._alt(panels[0], units),
            numbers=self._numbers(units),
            says="Count the wedges: one weld was missed, once.",
            panels=panels,
        )

    def remark(self, changed: str, units: Units = Units.MM) -> str:
        """Say what doubled, what did not, and what one clean end proves."""
        if self.patch != WHOLE:
            return self._short(changed)
        if changed == "position":
            return (
                f"Sawn at {self.position:g} %: open from end to end, it shows wherever "
                "you saw."
            )
        if self.fold:
            return self._of_a_fold()
        if not self.folds:
            return "Not folded: what was missed once is met once."
        met = _times(len(self.copies))
        return (
            f"Missed once at the anvil, met {met} in the bar: each fold laid it on itself."
        )

    def _of_a_fold(self) -> str:
        after = "only later folds doubled it" if self.later else "no fold came after it"
        met = _times(len(self.copies))
        return (
            f"The weld of fold {self.fold} is met {met}: {after}. There dark steel lies on "
            "dark, so the line hardly shows."
        )

    def _short(self, changed: str) -> str:
        through, many = sum(self.open), len(self.copies)
        if changed == "position" and not self.met:
            return "This end is clean, and the bar is not. One good end proves nothing."
        if changed == "position":
            return "Here the saw meets the gap. It follows a layer, and it ends."
        if through > 1:
            long = "Drawn out so often, the patch grew so long that a fold went through it"
            why = "A fold went through the patch" if self.patch == ASTRIDE else long
            return f"{why}: now it lies in {through} of {many} places."
        if many > 1:
            return (
                f"A short patch is not doubled: it stays in 1 of {many} places, only "
                "longer with every drawing. Move the saw: where does it show?"
            )
        return "A short patch. Move the saw: where does it show?"

    def _numbers(self, units: Units) -> tuple[Number, ...]:
        made, planes, folds = welds_made(self.billet), self.billet.layers - 1, self.folds
        first, own = FIRST * 2**folds, 2**folds - 1
        return (
            Number(
                "Welds made at the anvil",
                f"{made}",
                made_working({"n": PIECES, "k": self.folds}),
            ),
            Number(
                "Weld planes in the bar",
                f"{planes}",
                [
                    f"of the stack, doubled by each fold: {FIRST} × 2^{folds} = {first}",
                    f"of the folds themselves: 2^{folds} - 1 = {own}",
                    f"together: {first} + {own} = {planes}",
                ],
            ),
            Number("The bad one, on this end", self._met(), self._met_working()),
            Number("The open patch in the bar", *self._patch(units)),
            Number(
                f"All good, if each is {SURE:.0%} sure (illustrative)".replace("%", " %"),
                f"{100 * self.chance:.0f} %",
                [
                    f"{SURE:g} × {SURE:g} × … for all {made} welds",
                    f"= {SURE:g}^{made}",
                    f"= {self.chance:.4f}",
                ],
                (AS_SURE,),
            ),
        )

    def _met(self) -> str:
        met = len(self.met)
        return "not met" if not met else f"{met} lines" if met > 1 else "1 line"

    def _met_working(self) -> list[str]:
        where = f"in fold {self.fold}" if self.fold else "in the first stack"
        lines = [f"weld {self.weld} was made {where}; {times(self.later)} came after it"]
        if self.patch == WHOLE:
            doubled = f"2^{self.later} = {len(self.copies)}"
            lines.append(f"open from end to end, so doubled by each: {doubled}")
        else:
            lines.append("a short patch is not doubled: it stays in the leaf it lies in,")
            lines.append("unless a fold or a cut goes through it")
        return [*lines, f"counted on this end: {len(self.met)}"]

    def _patch(self, units: Units) -> tuple[str, list[str]]:
        where = f"in {sum(self.open)} of {len(self.copies)} places"
        if self.patch == WHOLE:
            length = format_length(self.billet.size.length, units)
            return f"{length}, {where}", ["open from end to end: as long as the bar"]
        drawn = format_length(self.stretched, units)
        working = [
            f"{LONG:g} mm at the weld, twice as long after each later fold, then drawn out",
            f"= {LONG:g} mm × 2^{self.later} × {STACK.thickness:g} mm / {THICKNESS:g} mm",
            f"= {format_length(self.stretched, Units.MM)} of line, {where}",
        ]
        return f"{drawn}, {where}", working

    def _name(self) -> str:
        if self.fold:
            return f"weld {self.weld}, that of fold {self.fold},"
        return f"weld {self.weld} of the first stack"

    def _alt(self, sawn: Panel, units: Units) -> str:
        thick = format_length(THICKNESS, units)
        opened, many = sum(self.open), len(self.copies)
        how = "from end to end" if self.patch == WHOLE else "in a short patch"
        end = "shows no hairline"
        if self.met:
            lines = "hairlines, each" if len(self.met) > 1 else "hairline,"
            end = f"shows {len(self.met)} black {lines} along a layer and marked by a wedge"
        return (
            f"A bar {thick} thick of {PIECES} pieces and {times(self.folds)}, sawn "
            f"at {self.position:g} percent of its length; {self._name()} is open {how}. "
            f"The sawn end {end}, in {sawn.shows}; beside it a part of it, "
            f"{drawing.MAGNIFIED} times larger. A chart of all {welds_made(self.billet)} "
            "welds has a cell for each time a weld lies in the bar; of weld "
            f"{self.weld} black, open: {opened} of {many}. Below, the whole bar seen "
            "through from its side, with the gap and the saw."
        )


def times(folds: int) -> str:
    """Write how often the bar was folded."""
    return {0: "no fold", 1: "1 fold"}.get(folds, f"{folds} folds")


def _times(count: int) -> str:
    return {1: "once", 2: "twice"}.get(count, f"{count} times")
