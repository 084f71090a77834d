"""Check yourself: a question with a number for an answer, marked with reasons."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import NamedTuple

from kit.basics.units import Units, parse_angle, parse_count, parse_length, parse_minutes
from kit.course.lesson import Given, Idea

LANES = ("Look", "Measure", "Calculate")
MEASURED = 0.05  # a ruler's tolerance
CALCULATED = 0.02
DEGREES = 0.5
UNIT_FACTORS = (25.4, 1000.0)
BLANK = "…  (your turn: what comes here, and why?)"


class Verdict(NamedTuple):
    """What a check answers.

    Attributes
    ----------
    right : bool
    words : str
        To show. Never the answer itself.
    code : str
        The idea recognised, or "".
    """

    right: bool
    words: str
    code: str = ""


@dataclass(frozen=True, kw_only=True)
class Check:
    """A question with a number for an answer, marked with reasons.

    Parameters
    ----------
    ask : str
    given : mapping
    right : Idea
    slips : tuple of Idea
        Wrong ideas recognised by their number.
    kind : str
        "length" (mm inside), "angle" (degrees), "minutes" or "count".
    prompt : str
        The question asked back after a first wrong answer that no idea explains.
    working : callable
        From given values to the lines of the working.
    other : mapping
        Other values, for the worked example shown at the third try.
    tips : (str, str, str)
        How to go about it in each of the three `LANES`.
    """

    ask: str
    given: Given
    right: Idea
    slips: tuple[Idea, ...]
    kind: str
    prompt: str
    working: Callable[[Given], list[str]]
    other: Given
    tips: tuple[str, str, str]

    def offers(self) -> list[str]:
        """Give four answers to pick from, in order of size; one of them is right."""
        ideas = (self.right, *self.slips[:3])
        values = sorted(idea.value(self.given) for idea in ideas)
        return [self.written(value) for value in values]

    def written(self, value: float, figures: int = 3) -> str:
        """Write an answer with its unit; lengths and times to so many figures."""
        unit = {"length": " mm", "angle": "°", "minutes": " min", "count": ""}[self.kind]
        shown = {"angle": ".1f", "count": ".0f"}.get(self.kind, f".{figures}g")
        return f"{value:{shown}}{unit}"

    def mark(
        self,
        text: str,
        *,
        tries: int = 1,
        units: Units = Units.MM,
        measured: bool = False,
    ) -> Verdict:
        """Mark an answer as it was typed.

        Parameters
        ----------
        text : str
            "4.73", "0.186 in", "3/16 in", "19.5°", "288" …
        tries : int
            Which try this is, from 1.
        units : Units
            What a bare number means.
        measured : bool
            Read off a ruler: ± 5 % instead of ± 2 %.

        Raises
        ------
        KitError
            If the text is no such quantity.
        """
        answer = self.read(text, units)
        if self._close(answer, self.right.value(self.given), measured=measured):
            return Verdict(True, "Right.")
        for idea in self.slips:
            if self._close(answer, idea.value(self.given), measured=False):
                words = f"Not yet. That is what you get if you {idea.name}. {idea.hint}"
                return Verdict(False, words, idea.code)
        if self._unit_slip(answer):
            words = "Not yet, but the figures are right: look at the unit."
            return Verdict(False, words, "UNIT")
        if tries < 3:
            return Verdict(False, f"Not yet. {self.prompt}")
        if measured:
            return Verdict(False, f"Not yet. {self.tips[1]}")
        example = "\n".join(faded(self.working(self.other), 1))
        return Verdict(False, f"Not yet. The same with other numbers:\n{example}")

    def read(self, text: str, units: Units) -> float:
        """Read an answer of this kind as it was typed."""
        if self.kind == "length":
            return parse_length(text, unit=units.unit)
        readers = {"angle": parse_angle, "minutes": parse_minutes, "count": parse_count}
        return readers[self.kind](text)

    def _close(self, answer: float, value: float, *, measured: bool) -> bool:
        if self.kind == "count":
            return answer == value
        if self.kind == "angle":
            return abs(answer - value) <= DEGREES
        return abs(answer - value) <= (MEASURED if measured else CALCULATED) * value

    def _unit_slip(self, answer: float) -> bool:
        if self.kind != "length":
            return False
        value = self.right.value(self.given)
        return any(
            self._close(answer, value * factor, measured=False)
            or self._close(answer, value / factor, measured=False)
            for factor in UNIT_FACTORS
        )


def faded(lines: list[str], blanks: int) -> list[str]:
    """Leave the last lines of a working for the reader to fill in."""
    if not blanks:
        return lines
    kept = lines[: max(1, len(lines) - blanks)]
    return kept + [BLANK] * (len(lines) - len(kept))
