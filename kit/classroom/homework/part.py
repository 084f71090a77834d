"""One part of a homework paper: asked with a student's own values, following on others."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from string import ascii_lowercase
from typing import NamedTuple

from kit.basics.units import Units
from kit.course.answers import Words, filled
from kit.course.check import CARRIED, Asked, Found, Own
from kit.course.lesson import Given, Idea

OR = " or "  # between tags of slips that give one number
WRONG_UNIT = "unit"


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


@dataclass(frozen=True, kw_only=True)
class Part(Asked):
    """One part of a paper.

    Parameters
    ----------
    number : int
    question : str or callable
        The sentence that asks, for `kit.course.answers.filled`.
    pick : callable
        From the paper's values to those that the ideas know.
    carry : Carry, optional
    """

    number: int
    question: Words
    pick: Callable[[Given], Given] = dict
    carry: Carry | None = None

    def ask(self, values: Given, units: Units = Units.MM) -> str:
        """Ask, with a paper's values, in units."""
        return filled(self.question, {**self.picked(values), **values}, units)

    def tag(self, idea: Idea) -> str:
        """Give a slip's short name, for tables with a legend: "2c", the third of part 2."""
        return f"{self.number}{ascii_lowercase[self.slips.index(idea)]}"

    def tags(self, found: Found) -> str:
        """Give the tags of what an answer was found to be; "" of what nothing explains."""
        return WRONG_UNIT if found.unit else OR.join(map(self.tag, found.ideas))

    def picked(self, values: Given) -> Given:
        """Give what the ideas know of the paper's values."""
        return self.pick(values)

    def carried(self, values: Given, own: Own | None) -> Given | None:
        """Give the values as a student has them who carries an earlier answer on."""
        if self.carry is None or own is None:
            return None
        try:
            return self.carry.into(values, own.answer)
        except (ArithmeticError, ValueError):  # an answer nothing follows from
            return None

    def words(self, found: Found, values: Given, **how: object) -> str:
        """Say what helps; of a method that is right with a carried value, so."""
        if found.outcome == CARRIED:
            return (
                f"Method right, with the value carried over from part {self.carry.part}: "
                "the mark is yours. Look at that part again."
            )
        return super().words(found, values, **how)
