"""One part of a paper: what is asked, what is right, which slips are known, what helps."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import NamedTuple

from kit.basics.errors import KitError
from kit.basics.units import Units
from kit.classroom.homework.answers import Kind
from kit.course.check import MEASURED
from kit.course.lesson import Given, Idea

RIGHT, CARRIED, WRONG = "right", "carried", "wrong"
UNIT = "UNIT"
JOIN = "+"  # between the codes of a joint hint


class Carry(NamedTuple):
    """How an earlier answer comes into this part.

    Attributes
    ----------
    part : int
        The earlier part's number.
    into : callable
        From the given values and the student's earlier answer to the values as that
        student has them.
    """

    part: int
    into: Callable[[Given, float], Given]


class Own(NamedTuple):
    """A student's answer to an earlier part, in its unit, and whether it is right."""

    answer: float
    right: bool


class Found(NamedTuple):
    """What an answer was found to be.

    Attributes
    ----------
    outcome : str
        `RIGHT`, `CARRIED` or `WRONG`.
    answer : float
        As read, in the part's unit.
    ideas : tuple of Idea
        The slips that give this number; two where they coincide.
    unit : bool
        The figures are right and the unit is not.
    """

    outcome: str
    answer: float
    ideas: tuple[Idea, ...] = ()
    unit: bool = False

    @property
    def earns(self) -> bool:
        """Whether it earns the mark."""
        return self.outcome != WRONG

    @property
    def code(self) -> str:
        """The slip's code, "UNIT", or nothing; of two that coincide, both: "A+B"."""
        return UNIT if self.unit else JOIN.join(idea.code for idea in self.ideas)


@dataclass(frozen=True, kw_only=True)
class Part:
    """One part of a paper.

    Parameters
    ----------
    number : int
    ask : callable
        From the paper's values and `Units` to the sentence that asks.
    pick : callable
        From the paper's values to those that the ideas know.
    kind : Kind
    right : Idea
    slips : tuple of Idea
        Wrong ideas recognised by their number: the lessons' own wherever they have it.
    prompt : str
        Asked back at the first wrong try.
    shows : str
        The picture or number that an answer stands for: "bands {} wide".
    working : callable
        From picked values to the lines of the working.
    other : mapping
        Other picked values, for the worked example at the third try.
    carry : Carry, optional
    joint : tuple of pairs of codes
        Slips that may give one number and then share a hint.
    exact : callable, optional
        The count before it is rounded: never within 0.1 of a step on a drawn paper.
    options : tuple of str
        Of a choice: what the answers 1, 2, 3 … say.
    """

    number: int
    ask: Callable[[Given, Units], str]
    kind: Kind
    right: Idea
    slips: tuple[Idea, ...]
    prompt: str
    shows: str
    working: Callable[[Given], list[str]]
    other: Given
    pick: Callable[[Given], Given] = dict
    carry: Carry | None = None
    joint: tuple[frozenset[str], ...] = ()
    exact: Callable[[Given], float] | None = None
    options: tuple[str, ...] = ()

    def answer(self, values: Given) -> float:
        """Work the right answer out: for the key, and never for a student's page."""
        return worked(self.right, self.pick(values))

    def slip_values(self, values: Given) -> dict[str, float]:
        """Give what each slip leads to, by code; NaN where it leads nowhere."""
        given = self.pick(values)
        return {idea.code: worked(idea, given) for idea in self.slips}

    def tells_apart(self, values: Given) -> bool:
        """Say whether these values are fit to be asked.

        Every slip must differ from the right answer by more than twice the tolerance,
        and from the other slips but for joint hints; the worked example must not have
        this part's answer; a count must not lie near a step.
        """
        right, apart = self.answer(values), self.kind.apart
        if not math.isfinite(right) or self._on_a_step(values):
            return False
        example = worked(self.right, self.other)
        if not math.isfinite(example) or (not self.options and not apart(right, example)):
            return False
        slips = list(self.slip_values(values).items())
        if not all(apart(right, value) for _, value in slips):
            return False
        pairs = ((one, two) for at, one in enumerate(slips) for two in slips[:at])
        return all(
            apart(one[1], two[1]) or frozenset((one[0], two[0])) in self.joint
            for one, two in pairs
        )

    def judge(
        self,
        values: Given,
        answer: float,
        *,
        own: Own | None = None,
        measured: bool = False,
    ) -> Found:
        """Find out what an answer is.

        Parameters
        ----------
        values : mapping
            The paper's.
        answer : float
            In the part's unit, as `kind.value` reads it.
        own : Own, optional
            The student's answer to the part that this one follows on.
        measured : bool
            Read off a ruler: a length may be 5 % off, where no slip explains it.
        """
        given = self.pick(values)
        right = worked(self.right, given)
        if self.kind.close(answer, right):
            return Found(RIGHT, answer)
        carried = self._carried(given, own)
        for known in filter(None, (carried, given)):
            if self.kind.close(answer, worked(self.right, known)):
                return Found(RIGHT if own.right else CARRIED, answer)
            slips = tuple(
                idea
                for idea in self.slips
                if self.kind.close_slip(answer, worked(idea, known))
            )
            if slips:
                return Found(WRONG, answer, slips)
        if measured and self.kind.unit == "mm" and abs(answer / right - 1) <= MEASURED:
            return Found(RIGHT, answer)
        rights = [right] + ([worked(self.right, carried)] if carried else [])
        unit = any(self.kind.unit_slip(answer, value) for value in rights)
        return Found(WRONG, answer, unit=unit)

    def read(self, text: object, units: Units = Units.MM) -> float:
        """Read an answer in the part's unit; `KitError` if it is none."""
        answer = self.kind.value(text, units)
        if self.options and answer not in range(1, len(self.options) + 1):
            msg = f"Choose one of the numbers 1 to {len(self.options)}."
            raise KitError(msg)
        return answer

    def _carried(self, given: Given, own: Own | None) -> Given | None:
        """Give the values as a student has them who carries an earlier answer on."""
        if self.carry is None or own is None:
            return None
        try:
            return self.carry.into(given, own.answer)
        except (ArithmeticError, ValueError):  # an answer nothing follows from
            return None

    def _on_a_step(self, values: Given) -> bool:
        if self.exact is None:
            return False
        count = self.exact(self.pick(values))
        return abs(count - round(count)) < 0.1


def worked(idea: Idea, given: Given) -> float:
    """Give the number an idea leads to, or NaN where it leads nowhere."""
    return _worked(idea, tuple(given.items()))


@lru_cache(maxsize=20_000)  # a paper is drawn, then each of its answers is judged
def _worked(idea: Idea, given: tuple[tuple[str, float], ...]) -> float:
    try:
        return idea.value(dict(given))
    except (ArithmeticError, ValueError):  # a sine above one; a bar that can not be
        return math.nan


def again(idea: Idea, formula: Callable[[Given], float]) -> Idea:
    """Give a lesson's idea where another number is asked for: same name, code, hint."""
    return replace(idea, formula=formula)
