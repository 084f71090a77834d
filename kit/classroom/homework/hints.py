"""What is said to an answer: a question, then the idea's name, then a worked example."""

from __future__ import annotations

from typing import NamedTuple

from kit.basics.units import Units
from kit.classroom.homework.part import CARRIED, RIGHT, Found, Own, Part
from kit.course.check import faded
from kit.course.lesson import Given


class Marked(NamedTuple):
    """A found answer, and what to say about it. The words never hold the right answer."""

    found: Found
    words: str


def mark(
    part: Part,
    values: Given,
    text: object,
    *,
    tries: int = 1,
    units: Units = Units.MM,
    own: Own | None = None,
    measured: bool = False,
) -> Marked:
    """Mark an answer as it was typed, and say what helps at this try.

    Parameters
    ----------
    part : Part
    values : mapping
        The paper's.
    text : str or number
    tries : int
        Which try this is, from 1.
    units : Units
        What a bare length means.
    own, measured
        See `Part.judge`.

    Raises
    ------
    KitError
        With one sentence if the text is no such quantity: that is no try.
    """
    found = part.judge(values, part.read(text, units), own=own, measured=measured)
    return Marked(found, words(part, found, tries=tries, units=units))


def words(part: Part, found: Found, *, tries: int, units: Units = Units.MM) -> str:
    """Say what helps at this try."""
    if found.outcome == RIGHT:
        return "Right."
    if found.outcome == CARRIED:
        return (
            f"Method right, with the value carried over from part {part.carry.part}: "
            "the mark is yours. Look at that part again."
        )
    if tries <= 1:
        return f"Not yet. {part.prompt}"
    if tries == 2:
        return f"Not yet. {_named(part, found, units)}"
    example = "\n".join(faded(part.working(part.other), 1))
    return f"Not yet. The same with other numbers:\n{example}"


def _named(part: Part, found: Found, units: Units) -> str:
    """Name the recognised idea, and the picture or number that it gives."""
    if found.unit:
        return "The figures are right: look at the unit."
    shown = part.shows.format(_shown(part, found.answer, units))
    if not found.ideas:
        return f"That would be {shown}; none of the usual slips gives it. {part.prompt}"
    names = ", and also if you ".join(idea.name for idea in found.ideas)
    which = " Which was it?" if len(found.ideas) > 1 else ""
    hints = " ".join(idea.hint for idea in found.ideas)
    return f"That is what you get if you {names}: {shown}.{which} {hints}"


def _shown(part: Part, answer: float, units: Units) -> str:
    if part.options:
        return f"“{part.options[int(answer) - 1]}”"
    return part.kind.written(answer, units)
