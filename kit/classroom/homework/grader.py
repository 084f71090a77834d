"""The same checks for a test cell of a grading system: a number, or an error.

Two habits of such systems are served. One runs a cell and takes its last value as partial
credit: `points`. The other runs a cell and looks whether it raises: `check`. Both draw the
student's paper from course and name inside the notebook, so that every student has other
values although the notebook is the same. Neither can hide its formulae.

Examples
--------
>>> points("H1", "FORGE-A", "Student One", {4: "5", 5: "abc"})
1
>>> check("H1", "FORGE-A", "Student One", 4, "5")[:48]
'Right. Count doublings until the goal is reached'
"""

from collections.abc import Mapping
from contextlib import suppress

from kit.basics.errors import KitError
from kit.classroom.homework.paper import draw
from kit.classroom.homework.sets import homework
from kit.classroom.homework.sitting import Progress, Sitting


def points(code: str, course: str, student: str, answers: Mapping[int, object]) -> int:
    """Count the marks for numbered parts; what cannot be read earns none.

    Parameters
    ----------
    code, course, student : str
        As on the paper.
    answers : mapping
        From a part's number to the answer, as text or number.

    Raises
    ------
    KitError
        If course, student or set can be none: that is the notebook's fault.
    """
    progress = Progress(draw(homework(code), course, student))
    for number in sorted(answers):
        with suppress(KitError):
            progress.take(number, answers[number])
    return progress.score


def check(
    code: str, course: str, student: str, part: int, answer: object, **earlier: object
) -> str:
    """Say that an answer is right; raise an `AssertionError` with the reason if not.

    Parameters
    ----------
    part : int
    answer : object
        Text or number.
    **earlier
        Answers to earlier parts that this one follows on, as ``part1="704"``.
    """
    sitting = Sitting(draw(homework(code), course, student))
    for name, given in earlier.items():
        sitting.answer(int(name.removeprefix("part")), given)
    marked = sitting.answer(part, answer)
    if not marked.right:
        raise AssertionError(marked.words)
    return marked.words
