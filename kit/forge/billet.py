"""A billet: the bars it was stacked from and everything done to it since."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property, lru_cache
from math import prod
from numbers import Integral
from typing import Any

import numpy as np
from pydantic import Field, SerializeAsAny, field_validator, model_validator

from kit.basics.claim import Claim, Kind
from kit.basics.declare import Declared
from kit.basics.errors import KitError
from kit.forge import census
from kit.forge.stack import Source
from kit.forge.steps import (
    STEPS,
    CutAndStack,
    DrawOut,
    Fold,
    Layers,
    Points,
    Size,
    Step,
    Tally,
)
from kit.forge.unfolded import Unfolded

MOST_STEPS = 200  # ours
LEAST_LENGTH = 1.0  # mm
MOST_FOLDS = 20  # ours: they make a million layers of one
ATOM = Claim(
    says="No layer of steel is thinner than an atom of iron.",
    kind=Kind.PUBLISHED,
    source="Callister & Rethwisch, table of atomic radii: twice 0.124 nm",
    unit="mm",
    told=("atoms? of iron|iron atoms?|than an atom",),
    holds=("IRON_ATOM",),
)
IRON_ATOM = 0.248e-6


class Billet(Declared):
    """A stack of bars and the steps it went through, first to last; frozen.

    ``billet[:3]`` is the billet after its third step. Sizes are known at every
    stage, and any point of the finished bar can be followed back to the bar of the
    stack that it came from.

    Raises
    ------
    KitError
        If a step cannot be done to the bar it meets, or the layers would be
        thinner than an atom of iron.

    Examples
    --------
    >>> from kit.forge.stack import demo_stack
    >>> billet = fold_and_draw(Billet(source=demo_stack()), folds=5, thickness=6)
    >>> billet.layers, billet.bands
    (352, 321)
    >>> billet[:2].layers
    22
    """

    source: SerializeAsAny[Source] = Field(
        title="Source", description="a Stack or a Bundle"
    )
    steps: tuple[SerializeAsAny[Step], ...] = Field(
        default=(), title="Steps", description="steps one by one, like Fold(), RoundUp()"
    )

    @field_validator("source", mode="before")
    @classmethod
    def _stacked(cls, given: Any) -> Any:
        """Make a stack or a bundle of its own values, as a recipe holds them."""
        return Source.of_values(given) if isinstance(given, dict) else given

    @field_validator("steps", mode="before")
    @classmethod
    def _forged(cls, given: Any) -> Any:
        """Make steps of their values."""
        if not isinstance(given, (list, tuple)):
            return given
        if len(given) > MOST_STEPS:
            msg = f"A billet can have from 0 to {MOST_STEPS} steps. Given: {len(given)}."
            raise KitError(msg)
        return tuple(step_of(one) if isinstance(one, dict) else one for one in given)

    @model_validator(mode="after")
    def _possible(self) -> Billet:
        shortest = min(size.length for size in self.sizes)
        if shortest < LEAST_LENGTH:
            msg = (
                f"A bar must stay at least {LEAST_LENGTH:g} mm long. Given: steps leaving "
                f"{shortest:.3g} mm. Draw it out between folds."
            )
            raise KitError(msg)
        if self.layers * IRON_ATOM > self.across:
            msg = (
                f"{self.layers:,} layers in {self.across:g} mm would each be thinner than "
                f"one atom of iron (0.248 nm). Fold less often or leave the bar thicker: "
                f"at most {int(self.across / IRON_ATOM):,} layers fit."
            )
            raise KitError(msg)
        return self

    def then(self, *steps: Step) -> Billet:
        """Give the billet with more steps done to it; this one stays as it is."""
        return Billet(source=self.source, steps=self.steps + steps)

    def __getitem__(self, stages: slice) -> Billet:
        """Give the billet as it was after the first steps: ``billet[:3]``."""
        last = stages.stop if isinstance(stages, slice) else ""
        whole = last is None or (isinstance(last, Integral) and not isinstance(last, bool))
        if not whole or stages.start or stages.step:
            msg = f"Ask for a billet's first steps as billet[:3]. Given: {stages!r}."
            raise KitError(msg)
        return Billet(source=self.source, steps=self.steps[stages])

    def __len__(self) -> int:
        """Count the steps."""
        return len(self.steps)

    @cached_property
    def sizes(self) -> tuple[Size, ...]:
        """The size before the first step, and after each, mm."""
        source = self.source
        sizes = [Size(source.length, source.width, source.thickness)]
        for step in self.steps:
            sizes.append(_after(step, sizes[-1]))
        return tuple(sizes)

    @property
    def size(self) -> Size:
        """The size of the finished bar, mm."""
        return self.sizes[-1]

    def do(self, points: Points) -> Points:
        """Follow points of the stack into the finished bar (mm)."""
        for step, size in zip(self.steps, self.sizes, strict=False):
            points = step.do(points, size)
        return points

    def undo(self, points: Points) -> Points:
        """Follow points of the finished bar back into the stack (mm)."""
        for step, size in zip(self.steps[::-1], self.sizes[-2::-1], strict=True):
            points = step.undo(points, size)
        return points

    @cached_property
    def tallies(self) -> tuple[Tally, ...]:
        """Layers and bands before the first step, and after each."""
        tallies = [self.source.tally]
        for step, size in zip(self.steps, self.sizes, strict=False):
            tallies.append(step.tally(tallies[-1], size))
        return tuple(tallies)

    @property
    def tally(self) -> Tally:
        """Layers and bands of the finished bar."""
        return self.tallies[-1]

    @property
    def layers(self) -> int:
        """Pieces of steel through the thickness, as the trade counts."""
        return self.tally.layers

    @property
    def bands(self) -> int:
        """Stripes through the thickness: like steel that met like is one."""
        return self.tally.bands

    @property
    def across(self) -> float:
        """The distance that the layers fill, mm: thickness, or width if on edge."""
        return self.size.width if self.tally.rolled else self.size.thickness

    @property
    def mean_layer(self) -> float:
        """Thickness of a layer on average, mm (for layers that lie flat)."""
        return self.across / self.layers

    def census(self, start: Sequence[float], end: Sequence[float]) -> census.Census:
        """Count what a straight line through the finished bar meets, as it is there.

        For any bar, forged flat, twisted, dented, split or bundled: the line is followed
        back through every step. Where the layers lie flat `layers` and `bands` are the
        short cut that agrees with it.

        Parameters
        ----------
        start, end : (x, y, z)
            Two points, mm; what lies beside the bar does not count.

        Raises
        ------
        KitError
            A line beside the bar or of no length; more than a million layers.

        Examples
        --------
        >>> from kit import Grind, Stack
        >>> stack = Stack.alternate("1084", "15N20", pieces=9, thickness=3.0)
        >>> bar = Billet(source=stack).then(Fold(), Grind(top=4, ends=10))
        >>> found = bar.census((20, 0, -25), (20, 0, 25))
        >>> found.layers, found.bands, round(found.thinnest, 3), round(found.mean, 3)
        (17, 16, 2.0, 2.941)
        """
        return census.taken(self.follow, self.laid, self.size, (start, end), self.leaves)

    @cached_property
    def level(self) -> int:
        """How many of the first steps leave every layer flat and even."""
        for count, step in enumerate(self.steps):
            if step.keeps is not Layers.FLAT:
                return count
        return len(self.steps)

    @cached_property
    def unfolded(self) -> Unfolded:
        """The pile that all folds opened would make, for the billet of a stack."""
        before_fold, upside_down = None, False
        for step, tally in zip(self.steps, self.tallies, strict=False):
            if before_fold is None and step.turns_over(tally):
                upside_down = not upside_down
            if before_fold is None and step.folds_over and tally.opens:
                before_fold = tally.stacks
        return Unfolded(
            edges=self.source.edges,
            stacks=self.tally.stacks,
            before_fold=before_fold,
            upside_down=upside_down,
        )

    def follow(self, points: Points) -> census.Followed:
        """Tell which piece of steel lies at each point, and how high in its pile.

        Parameters
        ----------
        points : three arrays, mm
            In the finished bar. Any shape.
        """
        points, code, sign, shift = self.taken_apart(points)
        if self.source.bars_of_it():
            inner = self.source.follow(points)
            return inner._replace(piece=inner.piece + census.scattered(code))
        # Up to here the layers only lay flat: height in the bar is height in the pile.
        first = self.level
        flat, thickness = self.tallies[first].stacks, self.sizes[first].thickness
        height = points[2] * (flat / thickness) + flat / 2
        return census.Followed(code, np.zeros(code.shape, int), sign * height + shift)

    def taken_apart(self, points: Points) -> tuple[Points, np.ndarray, Any, Any]:
        """Undo the steps, down to where layers only lay flat or to the bars of a bundle.

        Parameters
        ----------
        points : three arrays, mm
            In the finished bar. Any shape.

        Returns
        -------
        points, piece, sign, shift
            Where they lay, mm; which piece of steel each is in (`census.Followed`); its
            height through the unfolded pile is ``sign * height + shift``, in stacks.
        """
        sign: np.ndarray | int = 1
        shift: np.ndarray | int = 0
        code, bars = np.zeros(points[0].shape, np.uint64), self.source.bars_of_it()
        first = 0 if bars else self.level
        for index in range(len(self) - 1, first - 1, -1):
            step, size, tally = self.steps[index], self.sizes[index], self.tallies[index]
            if step.turns_over(tally):
                shift, sign = shift + sign * tally.stacks, -sign
            if step.leaves > 1 and tally.opens and not bars:  # one pile, unfolded
                turned, lifted = step.leaf(points, size, tally.stacks)
                shift = shift + sign * lifted
                sign = sign * turned
            elif isinstance(piece := step.piece(points, size), np.ndarray):
                code = code * census.MIXER + piece.astype(np.uint64)
            points = step.undo(points, size)
        return points, code, sign, shift

    @property
    def laid(self) -> list[census.Laid]:
        """The stacks in it, as `follow` numbers them."""
        bars = self.source.bars_of_it()
        if bars:
            return [laid for bar in bars for laid in bar.laid]
        return [census.Laid(self.unfolded, self.source)]

    @property
    def leaves(self) -> int:
        """How many pieces lie in it, at most, that are not one unfolded pile's."""
        bars = self.source.bars_of_it()
        own = prod(step.leaves for step in self.steps[0 if bars else self.level :])
        return own * sum(bar.leaves for bar in bars) if bars else own


def step_of(values: dict) -> Step:
    """Make a step of its values, among them its name."""
    name = values.get("step")
    if not isinstance(name, str) or name not in STEPS:
        msg = f"There is no step called {str(name)[:30]!r}. Known: {', '.join(STEPS)}."
        raise KitError(msg)
    return STEPS[name](**values)


def fold_and_draw(
    billet: Billet, *, folds: int, thickness: float | None = None, pieces: int | None = None
) -> Billet:
    """Fold (or cut and stack), draw out to the old thickness, and so on.

    Parameters
    ----------
    billet : Billet
        What to start from.
    folds : int
        How many times, 0 to 20.
    thickness : float, optional
        Thickness of the finished bar, mm; left out, the thickness it had.
    pieces : int, optional
        Left out: hinge folds. Given: cut into so many pieces and stack.

    Raises
    ------
    KitError
        Folds that are no whole number from 0 to 20; layers thinner than an atom.
    """
    _check_folds(folds)
    join: Step = Fold() if pieces is None else CutAndStack(pieces=pieces)
    # to a picometre: sums of bars must not leave figures that no smith set
    cycle = (join, DrawOut(thickness=round(billet.size.thickness, 9)))
    last = () if thickness is None else (DrawOut(thickness=thickness),)
    return billet.then(*(cycle * folds), *last)


def _check_folds(folds: Any) -> None:
    whole = isinstance(folds, Integral) and not isinstance(folds, bool)
    if not whole or not 0 <= folds <= MOST_FOLDS:
        msg = (
            f"Folds must be a whole number from 0 to {MOST_FOLDS}. "
            f"Given: {str(folds)[:40]}."
        )
        raise KitError(msg)


@lru_cache(maxsize=4096, typed=True)  # a bar is made anew with every step; its past stays
def _after(step: Step, size: Size) -> Size:
    return step.size_after(size)
