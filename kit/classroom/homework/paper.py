"""A set of homework, and one student's paper drawn from it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from kit.basics.errors import KitError
from kit.basics.units import Units
from kit.classroom.homework.drawing import (
    ATTEMPTS,
    checked_course,
    checked_name,
    checked_redraw,
    drawn,
)
from kit.classroom.homework.judged import Judge
from kit.classroom.homework.tasks import Design, Part
from kit.course.lesson import Given


@dataclass(frozen=True, kw_only=True)
class Homework:
    """One of the five sets.

    Parameters
    ----------
    code, title : str
        "H1", and what it is called.
    lessons : tuple of str
        After which it is given: "01".
    sizes : mapping
        The short list of workshop sizes for each value.
    parts : tuple of Part
        With a number for an answer, or a choice; one mark each.
    design : Design
        Judged by simulation; one mark.
    judged : Judge
        Read by a person; one mark.
    sheet : str
        Of the capstone: what to do at the forge, and how the sheet is marked; or "".
    """

    code: str
    title: str
    lessons: tuple[str, ...]
    sizes: Mapping[str, Sequence[float]]
    parts: tuple[Part, ...]
    design: Design
    judged: Judge
    sheet: str = ""

    @property
    def marks(self) -> int:
        """The most that can be earned."""
        return len(self.parts) + 2

    def part(self, number: int) -> Part:
        """Give a part by its number, from 1; `KitError` if there is none."""
        if not isinstance(number, int) or not 1 <= number <= len(self.parts):
            msg = (
                f"{self.code} has parts 1 to {len(self.parts)}. Given: {str(number)[:20]}."
            )
            raise KitError(msg)
        return self.parts[number - 1]

    def fit(self, values: Given) -> bool:
        """Say whether every slip of every part can be told from the right answer."""
        return all(part.tells_apart(values) for part in self.parts)


@dataclass(frozen=True, kw_only=True)
class Paper:
    """One student's paper.

    Parameters
    ----------
    homework : Homework
    course, student : str
        As typed.
    redraw : int
        0, or the number of a practice paper that was asked for.
    values : mapping
        What is given in its questions, by name.
    attempts : int
        How many drawings were thrown away because two answers lay too close.
    """

    homework: Homework
    course: str
    student: str
    redraw: int
    values: Mapping[str, float]
    attempts: int

    def questions(self, units: Units = Units.MM) -> list[str]:
        """Give the sentence that asks, part by part."""
        return [part.ask(self.values, units) for part in self.homework.parts]


def draw(homework: Homework, course: str, student: str, redraw: int = 0) -> Paper:
    """Draw a student's paper: the same for the same name on every machine.

    It is drawn again until every recognised slip of it differs from the right answer by
    more than twice the tolerance.

    Parameters
    ----------
    homework : Homework
        One of `kit.classroom.homework.sets.SETS`.
    course : str
        The course's code; for a marked exam a secret one.
    student : str
        Name or number. Case and spaces do not count.
    redraw : int
        For a practice paper, 1, 2 …

    Raises
    ------
    KitError
        If a name, code or number can be none.
    """
    course = checked_course(course)
    checked_name("The student's name", student)
    redraw = checked_redraw(redraw)
    for attempt in range(ATTEMPTS):
        number = redraw * ATTEMPTS + attempt
        values = drawn(homework.sizes, course, homework.code, student, number)
        if homework.fit(values):
            return Paper(
                homework=homework,
                course=course,
                student=student,
                redraw=redraw,
                values=values,
                attempts=attempt,
            )
    msg = f"No paper of {homework.code} could be drawn for {student[:40]!r}."
    raise KitError(msg)
