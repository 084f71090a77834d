"""What a maker says to strangers at one picture of a bar's history."""

from collections.abc import Iterable
from typing import Any, Literal

from pydantic import Field, field_validator

from kit.basics.declare import Declared, quantity
from kit.basics.errors import KitError

MOST_CUES = 60  # pictures in a talk
MOST_LETTERS = 200  # of a question, a sentence, a clay cue
BEATS = ("ask", "say", "clay")  # in the order in which they are said
LAST = 250  # stage of a history, more than any has
Kind = Literal["end", "side", "face", "slant", "bevel", "solid"]


def one_line(words: str) -> str:
    """Keep one line of signs that can be printed.

    Examples
    --------
    >>> one_line("how many" + chr(10) + " layers?")
    'how many layers?'
    """
    return " ".join("".join(s if s.isprintable() else " " for s in words).split())


def _words(title: str) -> Any:
    return Field(
        "",
        title=title,
        description=f"at most {MOST_LETTERS} letters",
        max_length=MOST_LETTERS,
    )


class Looked(Declared):
    """How a bar was looked at."""

    kind: Kind = "end"
    ground: float = quantity(
        "Ground down", "how deep below the top the face lies", low=0, high=250, unit="mm",
        default=0,
    )  # fmt: skip
    angle: float = quantity(
        "Angle", "between the cut and the bar's length", low=2, high=90, unit="°",
        default=20,
    )  # fmt: skip
    bevel: float = quantity(
        "Bevel", "between the ground face and the flat of the bar", low=2, high=90,
        unit="°", default=12,
    )  # fmt: skip


class Cue(Declared):
    """What is said at a stage of a history: a question, its answer, what the clay does.

    Parameters
    ----------
    stage : int
        0 the stack, then one for each act that is done.
    ask, say : str
        The question, and the sentence after the guess; up to 200 letters.
    clay : str
        What to do next with the clay on the table; up to 200 letters.
    look : Looked
        How the bar is shown then.
    """

    stage: int = quantity("Stage", "of the history, 0 the stack", low=0, high=LAST)
    ask: str = _words("Question")
    say: str = _words("Sentence")
    clay: str = _words("Clay cue")
    look: Looked = Field(
        default_factory=Looked, title="Look", description="how it is shown"
    )

    @field_validator(*BEATS)
    @classmethod
    def _plain(cls, words: str) -> str:
        return one_line(words)

    @field_validator("look", mode="before")
    @classmethod
    def _seen(cls, given: Any) -> Any:
        return Looked(**given) if isinstance(given, dict) else given

    @property
    def said(self) -> dict[str, str]:
        """What is said, by its kind, in order."""
        return {kind: getattr(self, kind) for kind in BEATS}

    @property
    def empty(self) -> bool:
        """Whether nothing is said."""
        return not any(self.said.values())


def in_order(cues: Iterable[Cue]) -> tuple[Cue, ...]:
    """Give the cues of a talk by their stage, without those that say nothing.

    Raises
    ------
    KitError
        If two are for one stage, or there are more than 60.
    """
    told = sorted((cue for cue in cues if not cue.empty), key=lambda cue: cue.stage)
    if len({cue.stage for cue in told}) < len(told):
        msg = "A talk has one question and one sentence for a stage, not two."
        raise KitError(msg)
    if len(told) > MOST_CUES:
        msg = f"A talk can have at most {MOST_CUES} pictures. Given: {len(told)}."
        raise KitError(msg)
    return tuple(told)
