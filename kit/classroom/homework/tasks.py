"""The tasks of a homework paper: numbered parts, and a design with many right answers.

A part is asked with a student's own values and may follow on others. A design is judged on
what it really gives.
"""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from string import ascii_lowercase
from typing import Any, NamedTuple

from pydantic.fields import FieldInfo

from kit.basics.declare import Declared
from kit.basics.errors import KitError
from kit.basics.told import said
from kit.basics.units import Units
from kit.course.answers import Words, filled
from kit.course.check import CARRIED, Asked, Found, Own
from kit.course.lesson import Given, Idea
from kit.course.lessons.briefs import Judged
from kit.course.worded import Worded
from kit.metal.still import Still

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


class Told(Worded):
    """A paper's ideas and parts, with the words that stand beside its module."""

    def part(self, number: int, **made: Any) -> Part:
        """Give a part, told under its number, made of what else a `Part` has."""
        return Part(number=number, **self.words[str(number)], **made)


NAMED = re.compile(r"(\d+) ([^,]+)")  # "0 flat layers, 1 twist": names, not numbers


@dataclass(frozen=True, kw_only=True)
class Design:
    """A design task.

    Parameters
    ----------
    title : str
    brief : str or callable
        What is wanted, for `kit.course.answers.filled`.
    choices : type
        A `Declared`: one field a control, with its name, unit and range.
    simulate : callable
        From the paper's values, choices and `Units` to `Judged`.
    drawn : callable
        From the same as `simulate` to a picture of what was made.
    example : callable
        From the paper's values to one design of many that meet the brief: for the key.
    fixed : mapping
        What the brief names beside the paper's values, the same on every paper.
    """

    title: str
    brief: Words
    choices: type[Declared]
    simulate: Callable[[Given, Any, Units], Judged]
    drawn: Callable[[Given, Any, Units], Still]
    example: Callable[[Given], Mapping[str, float]]
    fixed: Given = field(default_factory=dict)

    def ask(self, values: Given, units: Units = Units.MM) -> str:
        """Give the brief, with a paper's values, in units."""
        return filled(self.brief, {**self.fixed, **values}, units)

    def one(self, values: Given, units: Units = Units.MM) -> str:
        """Write the design of `example` out, choice by choice."""
        fields = self.choices.model_fields
        return "; ".join(
            f"{fields[key].title.lower()} {_shown(fields[key], value, units)}"
            for key, value in self.example(values).items()
        )

    def judge(
        self, values: Given, chosen: Mapping[str, float], units: Units = Units.MM
    ) -> Judged:
        """Make what was chosen, measure it, and say what became of the brief.

        What cannot be forged, and what is out of its range, fails with the reason.
        """
        if not chosen:
            return Judged(False, "Nothing is chosen yet.")
        try:
            return self.simulate(values, self.choices(**chosen), units)
        except KitError as refused:
            return Judged(False, str(refused))

    def picture(
        self, values: Given, chosen: Mapping[str, float], units: Units = Units.MM
    ) -> Still | None:
        """Show what was chosen, as it was made; nothing, if it cannot be made."""
        try:
            return self.drawn(values, self.choices(**chosen), units)
        except KitError:
            return None


def _shown(about: FieldInfo, value: float, units: Units) -> str:
    names = dict(NAMED.findall(about.description or ""))
    if len(names) > 1 and f"{value:g}" in names:
        return names[f"{value:g}"]
    unit = (about.json_schema_extra or {}).get("unit", "")
    return said(value, units) if unit == "mm" else f"{value:g} {unit}".rstrip()
