"""A class drawn from a seed: honest work with slips, and every trouble that is known.

`python -m tests.drawn_class FOLDER` writes two hundred hand-ins of every set there, with a
roster and quiz sheets, to look at the instructor's page with.
"""

import random
import sys
from dataclasses import dataclass, field
from math import isfinite
from pathlib import Path

from kit.classroom.homework import drafts, hand_in, quiz
from kit.classroom.homework.hand_in import HandIn, Tier, Try
from kit.classroom.homework.paper import draw
from kit.classroom.homework.quiz_items import ITEMS, RIGHT
from kit.classroom.homework.sets import SETS

COURSE = "FORGE-A"
SHARED = "I think the bands only look as wide as the saw was slanted into them"
NOUNS = (
    "layers", "bands", "welds", "folds", "lines", "stripes",
    "pieces", "steels", "faces", "cuts", "bevels",
)  # fmt: skip
VERBS = (
    "show", "hide", "cross", "meet", "follow", "leave",
    "double", "halve", "split", "bend",
)  # fmt: skip
HOW = (
    "evenly", "slowly", "twice", "often", "never", "mostly",
    "clearly", "barely", "again",
)  # fmt: skip


@dataclass
class Drawn:
    """What is true of a drawn class: who is missing, who copied, and the others."""

    roster: list[str]
    missing: list[str]
    strange: str = "Somebody Else"
    copied: tuple[str, str] = ("", "")
    shared: list[str] = field(default_factory=list)
    ruled: str = ""
    practised: str = ""


def drawn_class(folder: Path, codes=("H1",), count=40, seed=20) -> Drawn:
    """Write a class's hand-ins: `count` of the roster's, ten more are missing."""
    roster = [f"Schülerin Ö. {number:03}" for number in range(count + 10)]
    drawn = Drawn(roster, roster[count:])
    drawn.copied, drawn.shared = (roster[3], roster[7]), roster[10:13]
    drawn.ruled, drawn.practised = roster[20], roster[25]
    for code in codes:
        made = {who: _honest(_chance(f"{seed}{code}{who}"), code, who)
                for who in [*roster[:count], drawn.strange]}  # fmt: skip
        answers = _right(code, drawn.copied[0])
        made[drawn.copied[0]] = made[drawn.copied[0]].model_copy(
            update={"answers": answers}
        )
        altered = answers[1].model_copy(update={"text": "17"})
        made[drawn.copied[1]] = made[drawn.copied[1]].model_copy(
            update={"answers": (answers[0], altered, *answers[2:])}
        )
        for who in drawn.shared:
            words = f"{made[who].words}. {SHARED}!"
            made[who] = made[who].model_copy(update={"words": words})
        for one in made.values():
            _write(folder, one)
        if code == "H1":
            wide = Try(order=1, part=5, text="5.221", measured=True)
            one = made[drawn.ruled].model_copy(update={"answers": (wide,)})
            _write(folder, one)
            for redraw in (1, 2, 3):
                _write(folder, _honest(_chance(redraw), code, drawn.practised, redraw))
    (folder / "broken.json").write_text('{"format": ')
    return drawn


def _write(folder: Path, one: HandIn) -> None:
    """Write a hand-in without waiting for the disk."""
    path = folder / drafts.hand_in_name(one)
    path.write_text(hand_in.to_json(one), "utf-8")


def _chance(seed: object) -> random.Random:
    return random.Random(str(seed))  # noqa: S311


def _right(code: str, who: str) -> tuple[Try, ...]:
    values = draw(SETS[code], COURSE, who).values
    return tuple(
        Try(order=at, part=part.number, text=_typed(part, part.answer(values)))
        for at, part in enumerate(SETS[code].parts, 1)
    )


def _typed(part, value: float) -> str:
    return f"{value:.0f}" if part.options or part.kind == "count" else f"{value:.6g}"


def _honest(chance: random.Random, code: str, who: str, redraw=0) -> HandIn:
    values = draw(SETS[code], COURSE, who, redraw).values
    tries = []
    for part in SETS[code].parts:
        slips = [
            one for one in part.slip_values(values).values() if isfinite(one) and one > 0
        ]
        while chance.random() < 0.35:  # a slip, the first ones more often
            tries.append((part, slips[min(len(slips) - 1, int(chance.expovariate(1)))]))
        if chance.random() < 0.1:
            tries.append(
                (part, part.answer(values) * chance.choice((0.8, 1.3, 2, 3.14159)))
            )
        if chance.random() < 0.8:
            tries.append((part, part.answer(values)))
    answers = []
    for part, value in tries:
        text = (
            str(min(max(round(value), 1), len(part.options)))
            if part.options
            else _typed(part, value)
        )
        answers.append(Try(order=len(answers) + 1, part=part.number, text=text))
    words = ". ".join(
        " ".join(
            chance.choice(kind)
            for kind in (NOUNS, VERBS, NOUNS, HOW, NOUNS, VERBS, NOUNS, HOW)
        )
        for _ in range(4)
    )
    claims = tuple(
        Tier(possible=chance.random() < 0.5, reason=chance.randrange(3))
        for _ in SETS[code].judged.claims
    )
    return HandIn(
        course=COURSE, set=code, student=who, redraw=redraw, answers=tuple(answers),
        design=SETS[code].design.example(values) if chance.random() < 0.7 else {},
        words=words, claims=claims,
    )  # fmt: skip


def quiz_sheets(folder: Path, roster: list[str], seed=20) -> None:
    """Write sheets before and after: nearly everybody learns something."""
    chance = _chance(seed)
    for when, share in (("before", 0.3), ("after", 0.7)):
        for who in roster:
            answers = tuple(_choice(chance, item, share) for item in ITEMS)
            quiz.keep(
                folder, quiz.Sheet(course=COURSE, student=who, when=when, answers=answers)
            )


def _choice(chance: random.Random, item, share: float) -> str:
    right = next(at for at, one in enumerate(item.options, 1) if one.code == RIGHT)
    at = right if chance.random() < share else chance.randint(1, len(item.options))
    return item.options[at - 1].words if item.given else str(at)


if __name__ == "__main__":
    place = Path(sys.argv[1])
    place.mkdir(parents=True, exist_ok=True)
    whole = drawn_class(place, tuple(SETS), 200)
    quiz_sheets(place, whole.roster[:200])
    (place / "roster.csv").write_text("student\n" + "\n".join(whole.roster), "utf-8")
