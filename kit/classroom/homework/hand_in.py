"""A hand-in: what a student did, one small file of it, and nothing of the machine.

The reader trusts nothing: size, types, lengths and ranges are checked before anything is
used, and no text of a hand-in is ever run. Right or wrong is not in the file: marks are
worked out again from the answers.
"""

import hashlib
import json
from pathlib import Path
from typing import Annotated, Any, Literal

from pydantic import AfterValidator, Field, StrictBool, StrictInt, field_validator

from kit.basics import files
from kit.basics.declare import Declared, quantity
from kit.basics.errors import KitError
from kit.basics.typed import LONGEST_TEXT
from kit.basics.units import Units
from kit.classroom import kit_version
from kit.classroom.homework.paper import (
    MOST_LETTERS,
    MOST_REDRAWS,
    checked_course,
    checked_name,
    normalised,
)

MOST_TRIES, MOST_WORDS, MOST_ROWS, MOST_CHOICES = 320, 4000, 20, 40  # ours
LARGEST = 1e9  # of a number in a design


def _text(title: str, most: int, default: Any = "") -> Any:
    said = f"text of at most {most} letters"
    return Field(default, title=title, description=said, max_length=most)


def _named(name: str) -> str:
    return checked_name("The student's name", name)


Course = Annotated[
    str, _text("The course", MOST_LETTERS, ...), AfterValidator(checked_course)
]
Student = Annotated[
    str, _text("The student's name", MOST_LETTERS, ...), AfterValidator(_named)
]


class Try(Declared):
    """One answer, as it was typed.

    Attributes
    ----------
    order : int
        Which answer of the whole paper it was, from 1. No clock time is kept.
    part : int
    text : str
    unit : str
        What a bare length meant: "mm" or "in".
    measured : bool
        Read off a ruler.
    """

    order: StrictInt = quantity("Order", "of the answer", low=1, high=MOST_TRIES)
    part: StrictInt = quantity("Part", "of the paper", low=1, high=20)
    text: str = _text("An answer", LONGEST_TEXT, ...)
    unit: Literal["mm", "in"] = "mm"
    measured: StrictBool = False

    @property
    def units(self) -> Units:
        """What a bare length meant."""
        return Units.MM if self.unit == "mm" else Units.INCH_DECIMAL


class Row(Declared):
    """One line of the capstone's sheet: predicted against measured, and why they differ."""

    what: str = _text("What was measured", 80, ...)
    predicted: str = _text("Predicted", 40)
    measured: str = _text("Measured", 40)
    why: str = _text("Why they differ", 600)


class Tier(Declared):
    """The answer to a claim: the verdict, and which of three reasons; None: not yet."""

    possible: StrictBool | None = None
    reason: StrictInt | None = quantity(
        "Reason", "which of the three", low=0, high=2, default=None
    )

    @property
    def whole(self) -> bool:
        """Whether both are ticked."""
        return self.possible is not None and self.reason is not None


class HandIn(Declared):
    """What a student hands in.

    Attributes
    ----------
    course, set, student, redraw
        Which paper; the student's name as it was typed.
    answers : tuple of Try
    design : dict
        What was chosen in the design task.
    words : str
        The judged task's answer.
    claims : tuple of Tier
    ratings : tuple of int or None
        How the student rates the own answer, 0 to 2 for each line of the rubric, None
        for a line not rated yet; or (), while the model answers are shut.
    sheet : tuple of Row
    kit : str
        The kit's version.
    """

    course: Course
    set: str = _text("The set", 8, ...)
    student: Student
    redraw: StrictInt = quantity(
        "Practice paper", "its number", low=0, high=MOST_REDRAWS, default=0
    )
    answers: tuple[Try, ...] = Field(
        (), title="Answers", description=f"at most {MOST_TRIES}", max_length=MOST_TRIES
    )
    design: dict[
        Annotated[str, Field(max_length=40)],
        Annotated[float, Field(strict=True, ge=-LARGEST, le=LARGEST)],
    ] = Field(
        default_factory=dict,
        title="The design",
        description=f"at most {MOST_CHOICES} named numbers",
        max_length=MOST_CHOICES,
    )
    words: str = _text("The written answer", MOST_WORDS)
    claims: tuple[Tier, ...] = Field(
        (), title="Claims", description="at most 3 answers", max_length=3
    )
    ratings: tuple[Annotated[StrictInt, Field(ge=0, le=2)] | None, ...] = Field(
        (), title="Ratings", description="three numbers from 0 to 2", max_length=3
    )
    sheet: tuple[Row, ...] = Field(
        (), title="The sheet", description=f"at most {MOST_ROWS} rows", max_length=MOST_ROWS
    )
    kit: str = _text("The kit's version", 40, "")

    @field_validator("answers")
    @classmethod
    def _in_order(cls, answers: tuple[Try, ...]) -> tuple[Try, ...]:
        if [one.order for one in answers] != list(range(1, len(answers) + 1)):
            msg = "The answers of a hand-in must be numbered 1, 2, 3 … in order."
            raise KitError(msg)
        return answers

    @property
    def who(self) -> str:
        """The student, in one spelling."""
        return normalised(self.student)

    @property
    def practice(self) -> bool:
        """Whether it is of a practice paper, which is never counted."""
        return self.redraw > 0

    @property
    def written(self) -> str:
        """A check sum of what a person is to read; "" if there is nothing."""
        if not (self.words.strip() or self.claims):
            return ""
        ticked = [(claim.possible, claim.reason) for claim in self.claims]
        text = f"{self.words.strip()}|{ticked}"
        return hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()[:8]


FORMAT = "pattern-welding homework"
QUIZ = "pattern-welding quiz"  # the other kind of file that a class hands in
VERSION = 1  # of the file
WHAT = "a hand-in"


def to_json(done: HandIn) -> str:
    """Write a hand-in as text, always the same for the same hand-in."""
    values = {"format": FORMAT, "version": VERSION, **done.model_dump(mode="json")}
    values["kit"] = values["kit"] or kit_version()
    return json.dumps(values, indent=1, ensure_ascii=False, allow_nan=False) + "\n"


def write(done: HandIn, path: Path) -> Path:
    """Write a hand-in: whole, or not at all; `KitError` if it cannot be written."""
    return files.write(path, to_json(done))


def from_json(text: str, course: str | None = None) -> HandIn:
    """Read a hand-in from text.

    Parameters
    ----------
    text : str
    course : str, optional
        Given, a hand-in of another course is refused.

    Raises
    ------
    KitError
        In one sentence, whatever is wrong with it.
    """
    values = files.values(text, WHAT, FORMAT, VERSION)
    done = HandIn.model_validate_json(json.dumps(values), strict=True)
    check_course(done.course, course)
    return done


def check_course(given: str, course: str | None) -> None:
    """Refuse what is of another course, if one was named."""
    if course is not None and normalised(given) != normalised(course):
        msg = f"That is of another course. Given: {given[:40]!r}."
        raise KitError(msg)


def read(path: Path, course: str | None = None) -> HandIn:
    """Read a hand-in from a file; as `from_json`."""
    return from_json(files.text(path, WHAT), course)
