"""One student at one paper: answers as they come, hints, marks so far."""

from collections.abc import Iterable, Mapping
from typing import Any, NamedTuple

from kit.basics.errors import KitError
from kit.basics.units import Units
from kit.classroom.homework.hand_in import MOST_TRIES, HandIn, Try
from kit.classroom.homework.judged import RUBRIC
from kit.classroom.homework.paper import Paper
from kit.course.check import RIGHT, Found, Own, Verdict
from kit.course.lessons.briefs import Judged

MOST_KEPT = MOST_TRIES - 20  # room is left for a right answer to each part
KEPT = "You had it right before, and its mark is kept."
FULL = (
    f"(A paper keeps {MOST_KEPT} answers, and this one is not kept any more; a right one "
    "still is.)"
)


class Result(NamedTuple):
    """How a part stands.

    Attributes
    ----------
    found : Found
        The answer that earned the mark, or else the last one.
    tries : int
        How many it took, up to that answer.
    text : str
        That answer, as it was typed.
    """

    found: Found
    tries: int
    text: str

    @property
    def mark(self) -> int:
        """1 for a right answer and for a right method with a carried value."""
        return int(self.found.earns)


class Progress:
    """Answers to one paper in the order they came; also used to mark them again.

    Attributes
    ----------
    results : dict of int to Result
        By part; parts not answered are missing.
    """

    def __init__(self, paper: Paper) -> None:
        self.paper = paper
        self.results: dict[int, Result] = {}
        self._last: dict[int, Own] = {}
        self._tries: dict[int, int] = {}

    def judge(
        self, number: int, text: object, *, units: Units = Units.MM, measured: bool = False
    ) -> Result:
        """Say how an answer to a part would stand; nothing is changed.

        Raises
        ------
        KitError
            If there is no such part, or the text is no answer to it: that is no try.
        """
        part = self.paper.homework.part(number)
        own = self._last.get(part.carry.part) if part.carry else None
        answer = part.read(text, units)
        found = part.judge(self.paper.values, answer, own=own, measured=measured)
        return Result(found, self._tries.get(number, 0) + 1, str(text))

    def keep(self, number: int, taken: Result) -> None:
        """Count an answer that was judged."""
        self._tries[number] = taken.tries
        self._last[number] = Own(taken.found.answer, taken.found.outcome == RIGHT)
        before = self.results.get(number)
        if before is None or _better(taken.found, before.found):
            self.results[number] = taken

    def take(self, number: int, text: object, **how: Any) -> Result:
        """Judge an answer and count it; as `judge`."""
        taken = self.judge(number, text, **how)
        self.keep(number, taken)
        return taken

    def earns(self, number: int, taken: Result) -> bool:
        """Say whether an answer earns a mark that its part has not yet."""
        before = self.results.get(number)
        return bool(taken.mark) and not (before and before.mark)

    @property
    def score(self) -> int:
        """Marks for the numbered parts."""
        return sum(result.mark for result in self.results.values())


def _better(new: Found, old: Found) -> bool:
    """Say whether an answer takes another's place: a mark once earned is kept."""
    return old.outcome != RIGHT and (new.earns or not old.earns)


class Sitting:
    """A student's work on a paper, for a page to drive.

    Parameters
    ----------
    paper : Paper
    units : Units
        What a bare length means; may be changed at any time.

    Attributes
    ----------
    tries : list of Try
        The answers that could be read, in order; the first `MOST_KEPT`, and of those that
        came later what earned a mark. Marks are those of these answers alone.
    """

    def __init__(self, paper: Paper, units: Units = Units.MM) -> None:
        self.paper = paper
        self.units = units
        self.tries: list[Try] = []
        self.design: dict[str, float] = {}
        self.designed: Judged | None = None
        self._progress = Progress(paper)

    def answer(self, number: int, text: object, *, measured: bool = False) -> Verdict:
        """Answer a part; get the verdict and what helps next.

        Parameters
        ----------
        number : int
            The part's, from 1.
        text : str or number
            "704", "0.25 mm", "3/16 in", "400 °F", "6,39" …
        measured : bool
            Read off a ruler.

        Raises
        ------
        KitError
            As `Progress.judge`.
        """
        part = self.paper.homework.part(number)
        taken = self._progress.judge(number, text, units=self.units, measured=measured)
        before = self.results.get(number)
        stands = KEPT if before and before.mark else ""
        picked = {one.text for one in self.tries if part.options and one.part == number}
        said = part.words(
            taken.found,
            self.paper.values,
            tries=taken.tries,
            tried=0 if stands else len(picked - {str(text)}),
            units=self.units,
            stands=stands,
        )
        if len(self.tries) >= MOST_KEPT and not self._progress.earns(number, taken):
            return Verdict(taken.found, f"{said} {FULL}")
        one = Try(
            order=len(self.tries) + 1,
            part=number,
            text=str(text),
            unit=self.units.unit,
            measured=measured,
        )
        self.tries.append(one)
        self._progress.keep(number, taken)
        return Verdict(taken.found, said)

    def restore(self, tries: Iterable[Try]) -> None:
        """Answer everything again as it was kept; what this kit cannot read stays, too."""
        units = self.units
        for one in tries:
            self.units = one.units
            try:
                self.answer(one.part, one.text, measured=one.measured)
            except KitError:  # of a draft that another kit wrote
                order = len(self.tries) + 1
                self.tries.append(one.model_copy(update={"order": order}))
        self.units = units

    def make(self, chosen: Mapping[str, float]) -> Judged:
        """Hand a design to the forge: what became of it, and why. It may be made again."""
        self.design = dict(chosen)
        design = self.paper.homework.design
        self.designed = design.judge(self.paper.values, chosen, self.units)
        return self.designed

    @property
    def results(self) -> dict[int, Result]:
        """How each part stands."""
        return self._progress.results

    @property
    def score(self) -> int:
        """Marks so far, without the task that a person reads."""
        passed = self.designed is not None and self.designed.passed
        return self._progress.score + int(passed)

    @property
    def most(self) -> int:
        """The most that can be earned, the task that a person reads with it."""
        return self.paper.homework.marks

    def hand_in(self, **written: Any) -> HandIn:
        """Put everything into one small record.

        Parameters
        ----------
        written
            `words`, `claims`, `ratings`, `sheet` of `HandIn`.

        Raises
        ------
        KitError
            If one of them is too long or out of range.
        """
        return HandIn(
            course=self.paper.course,
            set=self.paper.homework.code,
            student=self.paper.student,
            redraw=self.paper.redraw,
            answers=tuple(self.tries),
            design=self.design,
            **written,
        )


PRACTICE = "practice, never counted"


def left_out(sitting: Sitting, done: HandIn) -> str:
    """Say which parts, and what of design, words and claims, a hand-in has not."""
    task = sitting.paper.homework
    missing = []
    parts = [str(part.number) for part in task.parts if part.number not in sitting.results]
    if parts:
        missing.append(f"part {', '.join(parts)}")
    if sitting.designed is None:
        missing.append("the design")
    if not done.words.strip():
        missing.append("the answer in your own words")
    whole = sum(claim.whole for claim in done.claims)
    claims = len(task.judged.claims)
    if whole < claims:
        missing.append(f"{claims - whole} of {claims} claims (both ticks)")
    rated = sum(rating is not None for rating in done.ratings)
    if done.words.strip() and rated < len(RUBRIC):
        lines = f"{rated} of {len(RUBRIC)} lines"
        missing.append(f"what you yourself think of your words ({lines} chosen)")
    told = ["Everything is answered."]
    if missing:
        told = [f"Not in it yet: {'; '.join(missing)}. You may go on and hand in again."]
    if done.words.strip() and not (done.ratings or done.practice):
        told.append(
            "Press Compare with three answers, above, to say what you think of your words."
        )
    if sitting.designed is not None and not sitting.designed.passed:
        told.append("The design does not meet its brief yet.")
    return " ".join(told)
