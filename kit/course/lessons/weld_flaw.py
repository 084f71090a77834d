"""Lesson 02, a weld that did not take: made once at the anvil, met again and again."""

from __future__ import annotations

from functools import cached_property
from typing import ClassVar

import numpy as np

from kit.basics.declare import choice, quantity
from kit.basics.errors import KitError
from kit.basics.units import Units
from kit.course.lessons.job import Job as Base
from kit.forge.billet import Billet, fold_and_draw
from kit.forge.flaw import Flaw, inside_patch, since
from kit.forge.stack import demo_stack
from kit.section.welds import all_sound, crossings

STACK = demo_stack()
PIECES = len(STACK.layers)
THICKNESS = 12.0  # of the finished bar, mm
MOST_FOLDS = 6
FIRST = PIECES - 1  # welds made in the first stack

PATCHES = (
    "from end to end",
    "a short patch",
    "a short patch where the next fold goes",
)
WHOLE, SHORT, ASTRIDE = range(3)
LONG, WIDE, ASIDE = 5.0, 10.0, 3.0  # mm, of a short patch; its middle from the axis
# Folding lays the far half on the near one and drawing doubles the length: of all
# places along the bar only two thirds stays where it is. A patch there is in the middle
# of no fold until it has grown to a third of the bar.
PLACE = {SHORT: 2 / 3, ASTRIDE: 1 / 2}

# Illustrative: no measured opening of a missed weld was found, nor how sure a weld is.
OPENING = 0.05  # mm in the finished bar, or half a layer where layers are finer
SURE = 0.99
LOOKS = 500  # places along the bar where open leaves are looked for
SAME = 1e-6  # mm


class Job(Base):
    """A folded bar, one of its welds open, and where it is sawn.

    `weld` counts the welds in the order in which they are made: 1 to `FIRST` in the
    stack, from the bottom, then one for each fold. `patch` is an index into `PATCHES`.
    `position` is per cent of the finished bar's length.
    """

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

    gives: ClassVar = ("weld",)

    def check(self, units: Units) -> None:
        """Refuse a weld that was never made."""
        del units  # a weld is counted
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
        return self._heights(self._flaw(WHOLE), self.billet.size.length / 2)

    @cached_property
    def met(self) -> tuple[float, ...]:
        """Where the sawn end shows the gap, mm from below."""
        length = self.billet.size.length
        # a hair inside the bar, so that sawing off nothing shows its end
        spot = min(max(self.position / 100 * length, SAME), length - SAME)
        return self._heights(self.flaw, spot)

    @cached_property
    def open(self) -> tuple[bool, ...]:
        """Which of the copies are open anywhere along the bar."""
        along = (np.arange(LOOKS) + 0.5) / LOOKS * self.billet.size.length
        return tuple(bool(copy.any()) for copy in self.lies(along))

    def lies(self, along: np.ndarray) -> np.ndarray:
        """Tell where each copy is open: (copies, places), places mm along the bar."""
        later = since(self.billet, self.flaw)
        heights = np.array(self.copies) - self.billet.size.thickness / 2
        x, z = np.meshgrid(along, heights)
        before = later.undo((x, np.full_like(x, ASIDE), z))
        return np.minimum(*inside_patch(later, self.flaw, before)) >= 0

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
        spot = {"x": middle, "y": ASIDE, "long": LONG, "wide": WIDE}
        return whole.model_copy(update=spot)

    def _heights(self, flaw: Flaw, x: float) -> tuple[float, ...]:
        half = self.billet.size.thickness / 2
        return tuple(crossings(self.billet, flaw, (x, ASIDE, -half), (x, ASIDE, half)))

    @property
    def chance(self) -> float:
        """The chance that all welds took, if each is 99 % sure."""
        return all_sound(self.billet, SURE)


def times(folds: int) -> str:
    """Write how often the bar was folded."""
    return {0: "no fold", 1: "1 fold"}.get(folds, f"{folds} folds")
