"""Words stand beside the code that needs them: `fold_ideas.py` has `fold_ideas.txt`.

    # what a reader of this file should know
    [LAYER_COUNT]
    ask: Nine pieces are stacked and folded five times. How many layers?
    tips:
      * Set 9 pieces and 5 folds in the picture above,
        then choose.
      * Fold a strip of paper five times.

Under a name in brackets is all that is told of one thing, a line each, or more lines, set
in; where the first begins with a star, it is a list. What is worked out stays in the code.
"""

from collections.abc import Callable, Mapping
from configparser import ConfigParser
from pathlib import Path
from typing import Any

from kit.course.check import Check
from kit.course.lesson import Given, Idea, Question, Reason

STAR = "* "
Words = dict[str, str | tuple[str, ...]]


def words_beside(module: str, **filled_in: object) -> dict[str, Words]:
    """Read the words that stand beside a module, by their names.

    Parameters
    ----------
    module : str
        Its `__file__`.
    **filled_in
        What the names in braces stand for; without any, braces are left as they are.
    """
    path = Path(module).with_suffix(".txt")
    held = ConfigParser(
        delimiters=":",
        comment_prefixes="#",
        interpolation=None,
        empty_lines_in_values=False,
    )
    held.optionxform = str
    held.read_string(path.read_text("utf-8"), path.name)

    def read(written: str) -> str | tuple[str, ...]:
        text = written.format(**filled_in) if filled_in else written
        parts = [part.replace("\n", " ") for part in f"\n{text.strip()}".split(f"\n{STAR}")]
        return parts[0].strip() if len(parts) == 1 else tuple(parts[1:])

    return {
        name: {key: read(told) for key, told in held[name].items()}
        for name in held.sections()
    }


class Worded:
    """A lesson's ideas, checks and questions, with the words that stand beside its module.

    Parameters
    ----------
    module : str
        Its `__file__`.
    lesson : str
        Where its ideas are taught: "01".
    **filled_in
        See `words_beside`.
    """

    def __init__(self, module: str, lesson: str, **filled_in: object) -> None:
        self.lesson = lesson
        self.words = words_beside(module, **filled_in)

    def idea(self, name: str, formula: Callable[[Given], float]) -> Idea:
        """Give the idea of a name, which is its code where no other is told.

        A right one needs no hint; one of another lesson tells of which.
        """
        usual = {"code": name, "hint": "", "lesson": self.lesson}
        told: Mapping[str, Any] = {**usual, **self.words[name]}
        return Idea(formula=formula, **told)

    def check(self, name: str, **made: Any) -> Check:
        """Give the check of a name, made of what else a `Check` has."""
        return Check(**self.words[name], **made)

    def question(self, **made: Any) -> Question:
        """Give the prediction, under QUESTION, made of what else a `Question` has.

        Of its reasons each is followed by what is said to who gives it; the first is right.
        """
        told = dict(self.words["QUESTION"])
        reasons, answers = told["reasons"][::2], told["reasons"][1::2]
        told["reasons"] = tuple(
            Reason(reason, reason == reasons[0], answer)
            for reason, answer in zip(reasons, answers, strict=True)
        )
        return Question(**told, **made)
