"""A design task: many right answers, each judged on what it really gives."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

from pydantic.fields import FieldInfo

from kit.basics.declare import Declared
from kit.basics.errors import KitError
from kit.basics.told import said
from kit.basics.units import Units
from kit.course.answers import Words, filled
from kit.course.lesson import Given
from kit.course.lessons.briefs import Judged

MOST_FIELDS = 40
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
    example : callable
        From the paper's values to one design of many that meet the brief: for the key.
    fixed : mapping
        What the brief names beside the paper's values, the same on every paper.
    """

    title: str
    brief: Words
    choices: type[Declared]
    simulate: Callable[[Given, Any, Units], Judged]
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


def _shown(about: FieldInfo, value: float, units: Units) -> str:
    names = dict(NAMED.findall(about.description or ""))
    if len(names) > 1 and f"{value:g}" in names:
        return names[f"{value:g}"]
    unit = (about.json_schema_extra or {}).get("unit", "")
    return said(value, units) if unit == "mm" else f"{value:g} {unit}".rstrip()
