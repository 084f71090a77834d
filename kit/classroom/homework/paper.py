"""A set of homework, and one student's paper drawn from it.

Its values are the student's own, the same on every machine for ever. SHA-256 (FIPS 180-4)
of `course|set|student|redraw` is one large number; values are read off it as digits, each
in the base of its own short list of workshop sizes. Neither Python's `hash()`, which
changes from run to run, nor a random generator, whose stream may change from version to
version.
"""

import hashlib
import unicodedata
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache

from kit.basics.errors import KitError
from kit.basics.units import Units
from kit.classroom.homework.judged import Judge
from kit.classroom.homework.tasks import Design, Part
from kit.course.lesson import Given

MOST_LETTERS = 80  # of a name, ours
MOST_REDRAWS = 999  # papers a student can ask for
ATTEMPTS = 1000  # that each of them may take

Sizes = Mapping[str, Sequence[float]]


@lru_cache(maxsize=4096)
def normalised(student: str) -> str:
    """Bring a name to one spelling: case, kinds of letters and spaces do not count.

    Examples
    --------
    >>> normalised("  STUDENT   one ")
    'student one'
    """
    folded = unicodedata.normalize("NFKC", student).casefold()
    return " ".join(unicodedata.normalize("NFKC", folded).split())


def checked_name(what: str, name: object) -> str:
    """Give a course's or a student's name back as it was typed.

    Raises
    ------
    KitError
        If it is empty, longer than 80 letters, or has signs that cannot be printed.
    """
    if not isinstance(name, str) or len(name) > MOST_LETTERS:
        msg = f"{what} must be text of at most {MOST_LETTERS} letters."
        raise KitError(msg)
    if not normalised(name) or not all(map(_is_of_a_name, name.strip())):
        msg = f"{what} needs at least one letter or figure, and no line breaks or tabs."
        raise KitError(msg)
    return name


def _is_of_a_name(sign: str) -> bool:
    """Say whether a sign can be part of a name; some scripts join letters by a sign."""
    spaced = unicodedata.category(sign) == "Zs"
    return sign.isprintable() or spaced or sign in "\u200c\u200d"


def checked_course(course: object) -> str:
    """Give a course code, without spaces around it; `KitError` if it can be none."""
    name = checked_name("The course code", course)
    if "|" in name:
        msg = f"The course code cannot have a '|'. Given: {name[:40]!r}."
        raise KitError(msg)
    return name.strip()


def checked_redraw(redraw: object) -> int:
    """Give the number of a practice paper; `KitError` if it is none from 0 to 999."""
    whole = isinstance(redraw, int) and not isinstance(redraw, bool)
    if not whole or not 0 <= redraw <= MOST_REDRAWS:
        msg = f"A practice paper's number is a whole one from 0 to {MOST_REDRAWS}."
        raise KitError(msg)
    return redraw


def drawn(
    sizes: Sizes, course: str, code: str, student: str, redraw: int
) -> dict[str, float]:
    """Pick one value from each list.

    Parameters
    ----------
    sizes : mapping
        From a name to the workshop sizes it may have.
    course, code, student : str
        The set's code is such as "H1". Case and spaces do not count in a course's code
        or a student's name.
    redraw : int
        0 for the first.
    """
    text = f"{normalised(course).upper()}|{code}|{normalised(student)}|{redraw}"
    digest = hashlib.sha256(text.encode("utf-8", "surrogatepass")).digest()
    left = int.from_bytes(digest, "big")
    values = {}
    for name, choices in sizes.items():
        left, place = divmod(left, len(choices))
        values[name] = float(choices[place])
    return values


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
