"""A question with a number for an answer: read, judged, and told of with reasons.

`Asked` is the one engine: a check of a lesson, a part of a homework paper and an item of
the quiz are each one of it. What is said goes by the cause that was found and not by how
often somebody tried: a known slip is named, and a wrong unit told, at the first try.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Any, NamedTuple

from kit.basics.errors import KitError
from kit.basics.told import in_units
from kit.basics.units import Units
from kit.course.answers import KINDS, MEASURED, Kind, faded, last_sum
from kit.course.lesson import BY_TRYING, MANY, Given, Idea

LANES = ("Look", "Measure", "Calculate")
RIGHT, CARRIED, WRONG = "right", "carried", "wrong"
UNIT = "UNIT"
JOIN = "+"  # between the codes of a joint hint
NOT_YET, NOT_THIS = "Not yet.", "Not this one."
STANDS = "You had it right before, and that stands."
EXAMPLE = "\nThe same with other numbers:\n"
EXAMPLE_FROM = 3  # the try that gets a worked example


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
        As read, in the question's unit.
    ideas : tuple of Idea
        The slips that give this number; two where they coincide.
    unit : bool
        The figures are right and the unit is not.
    measured : bool
        It was read off a ruler.
    """

    outcome: str
    answer: float
    ideas: tuple[Idea, ...] = ()
    unit: bool = False
    measured: bool = False

    @property
    def earns(self) -> bool:
        """Whether it earns the mark."""
        return self.outcome != WRONG

    @property
    def code(self) -> str:
        """The slip's code, "UNIT", or nothing; of two that coincide, both: "A+B"."""
        return UNIT if self.unit else JOIN.join(idea.code for idea in self.ideas)


class Verdict(NamedTuple):
    """A found answer, and what to say about it; of a wrong one never the right answer."""

    found: Found
    words: str

    @property
    def right(self) -> bool:
        """Whether it earns the mark."""
        return self.found.earns


@dataclass(frozen=True, kw_only=True)
class Asked:
    """What a question knows of its answer, whatever values it is asked with.

    Parameters
    ----------
    kind : str
        One of `kit.course.answers.KINDS`: "length" (mm inside), "angle" (degrees) …
    right : Idea
    slips : tuple of Idea
        Wrong ideas recognised by their number: the lessons' own wherever they have it.
    prompt : str
        The question asked back to a wrong answer that no idea explains.
    working : callable
        From given values to the lines of the working.
    other : mapping
        Other values, for the worked example from the third try on.
    shows : str
        The picture or number that an answer stands for: "bands {} wide"; or "".
    joint : tuple of pairs of codes
        Slips that may give one number and then share a hint.
    exact : callable, optional
        The count before it is rounded: never within 0.1 of a step.
    options : tuple of str
        Of a choice: what the answers 1, 2, 3 … say.
    tips : tuple of str
        How to go about it in each of the three `LANES`, or ().
    """

    kind: str
    right: Idea
    slips: tuple[Idea, ...]
    prompt: str
    working: Callable[[Given], list[str]]
    other: Given
    shows: str = ""
    joint: tuple[frozenset[str], ...] = ()
    exact: Callable[[Given], float] | None = None
    options: tuple[str, ...] = ()
    tips: tuple[str, ...] = ()

    @property
    def answers(self) -> Kind:
        """How its answers are read, written and compared."""
        return KINDS[self.kind]

    @property
    def is_length(self) -> bool:
        """Whether a length is asked for, that a ruler can give."""
        return self.answers.unit == "mm"

    def picked(self, values: Given) -> Given:
        """Give what the ideas know of the values; here all."""
        return values

    def carried(self, values: Given, own: Own | None) -> Given | None:
        """Give the values as somebody has them who carries an earlier answer on."""
        return None

    def answer(self, values: Given) -> float:
        """Work the right answer out: for the key, and never for a student's page."""
        return worked(self.right, self.picked(values))

    def slip_values(self, values: Given) -> dict[str, float]:
        """Give what each slip leads to, by code; NaN where it leads nowhere."""
        given = self.picked(values)
        return {idea.code: worked(idea, given) for idea in self.slips}

    def tells_apart(self, values: Given) -> bool:
        """Say whether these values are fit to be asked.

        Every slip must differ from the right answer by more than twice the tolerance,
        and from the other slips but for joint hints; the worked example must not have
        this answer; a count must not lie near a step.
        """
        right, apart = self.answer(values), self.answers.apart
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

    def _on_a_step(self, values: Given) -> bool:
        if self.exact is None:
            return False
        count = self.exact(self.picked(values))
        return abs(count - round(count)) < 0.1

    def read(self, text: object, units: Units = Units.MM) -> float:
        """Read an answer as it was typed; `KitError`, one sentence, if it is none."""
        answer = self.answers.value(text, units)
        if self.options and answer not in range(1, len(self.options) + 1):
            msg = f"Choose one of the numbers 1 to {len(self.options)}."
            raise KitError(msg)
        return answer

    def written(self, answer: float, units: Units = Units.MM) -> str:
        """Write an answer with its unit; of a choice, what it says."""
        if self.options:
            return f"“{self.options[int(answer) - 1]}”"
        return self.answers.written(answer, units)

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
            What the question gives.
        answer : float
            In the question's unit, as `read` gives it.
        own : Own, optional
            The student's answer to the part that this one follows on.
        measured : bool
            Read off a ruler: a length may be 5 % off, where no slip explains it.
        """
        kind, given = self.answers, self.picked(values)
        right = worked(self.right, given)
        if kind.is_answer(answer, right):
            return Found(RIGHT, answer)
        carried = self.carried(given, own)
        for known in filter(None, (carried, given)):
            if kind.is_answer(answer, worked(self.right, known)):
                return Found(RIGHT if own.right else CARRIED, answer)
            slips = [one for one in self.slips if kind.is_slip(answer, worked(one, known))]
            if slips:
                return Found(WRONG, answer, tuple(slips))
        if measured and self.is_length and abs(answer / right - 1) <= MEASURED:
            return Found(RIGHT, answer)
        rights = [right] + ([worked(self.right, carried)] if carried else [])
        unit = any(kind.is_in_wrong_unit(answer, value) for value in rights)
        return Found(WRONG, answer, unit=unit, measured=measured)

    def why(self, values: Given) -> str:
        """Say in one line why the right answer is right: the way, and its last sum.

        Of a choice the way alone: its working shows other makings.
        """
        way = self.right.name[0].upper() + self.right.name[1:]
        if self.options:
            return f"{way}."
        return f"{way}: {last_sum(self.working(self.picked(values)))}."

    def words(
        self,
        found: Found,
        values: Given,
        *,
        tries: int = 1,
        tried: int = 0,
        units: Units = Units.MM,
        stands: str = "",
    ) -> str:
        """Say what helps: by the cause, and from the third try on with an example.

        Parameters
        ----------
        found : Found
        values : mapping
            What the question gives.
        tries : int
            Which try this is, from 1.
        tried : int
            How many wrong choices were picked before.
        units : Units
            To write lengths in.
        stands : str
            What to say of a right answer that came before; then there is no example.
        """
        if found.outcome == RIGHT:
            how = f"{BY_TRYING} " if tried >= MANY else ""
            return in_units(f"Right. {how}{self.why(values)}", units)
        return in_units(self._words(found, tries, units, stands), units)

    def _words(self, found: Found, tries: int, units: Units, stands: str) -> str:
        """Say it with lengths as the question was written, in mm."""
        cause = self._cause(found, tries, units)
        if stands:
            return f"{NOT_THIS} {cause} {stands}"
        told = f"{NOT_YET} {cause}"
        if tries < EXAMPLE_FROM:
            return told
        if found.measured and self.tips:
            return f"{told} {self.tips[LANES.index('Measure')]}"
        example = "\n".join(faded(self.working(self.other), 1))
        return f"{told}{EXAMPLE}{example}"

    def _cause(self, found: Found, tries: int, units: Units) -> str:
        """Name the idea or the unit; else ask back."""
        read = self.written(found.answer, units)
        if found.unit:
            return f"The figures are right: look at the unit. It was read as {read}."
        shown = self.shows.format(read)
        if not found.ideas:
            seen = f"That would be {shown}. " if shown and tries > 1 else ""
            return f"{seen}{self.prompt}"
        names = ", and also if you ".join(idea.name for idea in found.ideas)
        which = " Which was it?" if len(found.ideas) > 1 else ""
        hints = " ".join(idea.hint for idea in found.ideas)
        seen = f" It gives {shown}." if shown and not self.options else ""
        return f"That is what you get if you {names}.{seen}{which} {hints}"

    def marked(
        self,
        values: Given,
        text: object,
        *,
        tries: int = 1,
        tried: int = 0,
        units: Units = Units.MM,
        stands: str = "",
        **how: Any,
    ) -> Verdict:
        """Mark an answer as it was typed, and say what helps.

        Parameters
        ----------
        values : mapping
            What the question gives.
        text : str or number
            "4.73", "0.186 in", "3/16 in", "19.5°", "288" …
        tries, tried, stands
            See `words`.
        units : Units
            What a bare length means.
        how
            `own` and `measured` of `judge`.

        Raises
        ------
        KitError
            With one sentence if the text is no such quantity: that is no try.
        """
        found = self.judge(values, self.read(text, units), **how)
        told = self.words(
            found, values, tries=tries, tried=tried, units=units, stands=stands
        )
        return Verdict(found, told)


@dataclass(frozen=True, kw_only=True)
class Check(Asked):
    """A question that a lesson asks, always with the same values.

    Parameters
    ----------
    ask : str
    given : mapping
        Its values.
    """

    ask: str
    given: Given

    def offers(self, units: Units = Units.MM) -> list[str]:
        """Give four answers to pick from, in order of size; one of them is right."""
        ideas = (self.right, *self.slips[:3])
        values = sorted(worked(idea, self.given) for idea in ideas)
        return [self.written(value, units) for value in values]

    def mark(self, text: object, **how: Any) -> Verdict:
        """Mark an answer as it was typed; see `Asked.marked`."""
        return self.marked(self.given, text, **how)


def worked(idea: Idea, given: Given) -> float:
    """Give the number an idea leads to, or NaN where it leads nowhere."""
    return _worked(idea, tuple(given.items()))


@lru_cache(maxsize=20_000)  # a paper is drawn, then each of its answers is judged
def _worked(idea: Idea, given: tuple[tuple[str, float], ...]) -> float:
    try:
        return idea.value(dict(given))
    except (ArithmeticError, ValueError):  # a sine above one; a bar that cannot be
        return math.nan


def again(idea: Idea, formula: Callable[[Given], float]) -> Idea:
    """Give a lesson's idea where another number is asked for: same name, code, hint."""
    return replace(idea, formula=formula)
