"""A lesson on paper: two sides for the student, the answers apart, a copy for the wall."""

import re

from kit.basics.claim import Claim, claims_told, marks
from kit.basics.errors import KitError
from kit.basics.units import Units
from kit.classroom.paper.kinds import ALL, Asked, Kind
from kit.classroom.paper.page import BODY, HAIR, LIVE, POINT, QUIET, Page
from kit.classroom.plans import sections, table
from kit.course.answers import faded
from kit.course.check import Check
from kit.course.lesson import Question
from kit.course.lessons.base import Lesson
from kit.course.map import ASKING
from kit.metal.dangers import LEARN

LESSONS = tuple(ASKING)
TILE = 44.0  # mm wide
LEAST, GAP = 8.0, 4.0  # mm: room to work in, at least, and below it
LETTERS = "ABCD"
QUESTION, SENTENCE = 30, 24  # points: read from two metres and more
NUMBERS = range(90, 10, -2)  # points: the largest that fits
CAUTION = f"Caution. {LEARN}"


def lesson(number: str) -> type[Lesson]:
    """Find a lesson that asks something by its number.

    Raises
    ------
    KitError
        If there is none.
    """
    if number not in ASKING:
        known = ", ".join(ASKING)
        msg = f"There is no handout of lesson {number[:10]!r}. There are: {known}."
        raise KitError(msg)
    return ASKING[number]


def lessons(asked: Asked) -> list[type[Lesson]]:
    """Give the lesson that is asked for, or all; refuse as `lesson`."""
    return [lesson(one) for one in (LESSONS if asked.lesson == ALL else [asked.lesson])]


def rests(*given: type[Lesson]) -> str:
    """Say how the numbers of lessons are known."""
    claims = (claim for one in given for claim in one.claims())
    return f"How the numbers are known: {marks(claims)}."


def of_words(claims: list[Claim]) -> str:
    """Say how the sentences of a sheet are known, if they tell anything."""
    return f" Its words: {marks(claims)}." if claims else ""


def tells(given: type[Lesson]) -> list[Claim]:
    """Give the claims that the sentences of a lesson's handout and answers tell."""
    question, checks = given.question, given.checks
    said = [question.ask, question.observed, *(idea.name for idea in question.tiles)]
    for one in checks:
        said += [one.ask, *one.working(one.given), *(slip.name for slip in one.slips)]
    return claims_told("\n".join(said))


def handout(asked: Asked) -> list[Page]:
    """Give every student's two sides first, the answers apart at the end."""
    given = lessons(asked)
    sides = [side(one, asked) for one in given for side in (_front, _back)]
    for page, one in zip(sides, (one for one in given for _ in range(2)), strict=True):
        page.of = f"Lesson {one.number}, {one.title}"
    return [*sides, *(_answers(one, asked) for one in given)]


def _answers(given: type[Lesson], asked: Asked) -> Page:
    """Give the answer sheet: the right tile, each check with its working, each slip."""
    page = asked.page(f"Answers to lesson {given.number}")
    page.of = page.title
    page.write(given.title, size=10)
    page.write(rests(given), size=9)
    question = given.question
    right = question.tiles.index(question.right)
    told = question.show(question.values()[right])
    page.write(f"Prediction: {LETTERS[right]}, {told}.", bold=True)
    for place, idea in enumerate(question.tiles):
        if place != right:
            page.write(f"{LETTERS[place]}: chosen by those who {idea.name}.", size=10)
    page.write(question.observed, size=10)
    page.y += 3
    for place, check in enumerate(given.checks, 1):
        page.write(f"{place}.  {value_of(check)}", bold=True)
        for line in check.working(check.given):
            page.write(f"    {line}", size=10)
        for slip in check.slips:
            value = value_of(check, slip.value(check.given))
            page.write(f"    {value}: got by those who {slip.name}.", size=9, ink=QUIET)
        page.y += 2
    claims = tells(given)
    if claims:
        page.write("How do you know?", size=10, bold=True)
    for claim in claims:
        page.write(f"{claim.says} {claim.how}", size=9)
    page.foot("Each wrong answer is one idea, not carelessness. Keep this sheet apart.")
    return page


def _front(given: type[Lesson], asked: Asked) -> Page:
    page = asked.page(f"{given.number}  {given.title}")
    page.write("Name:                                              Date:", size=BODY)
    page.y += 4
    page.write("Predict", bold=True)
    page.write(given.question.ask)
    page.y = choices(page, given.question, page.y + 3) + 16
    page.write("How sure?   [  ] guess    [  ] fairly sure    [  ] sure", size=BODY)
    page.y += 3
    page.write("Or sketch what you expect. Afterwards: what was there, and why?", bold=True)
    page.box((0, page.y + 1), (LIVE[0], LIVE[1] - page.y - 6))
    page.foot("Look only after you have chosen: that is what makes it stick.")
    return page


def choices(page: Page, asked: Question, top: float) -> float:
    """Lay what can be chosen in a row, each with a box to tick; give the pictures' foot."""
    foot = top
    for place, value in enumerate(asked.values()):
        left = place * (LIVE[0] - TILE) / 3
        image, _ = asked.draw(value)
        below = page.picture(image, (left, top), TILE)
        page.box((left, top), (TILE, below - top))
        page.box((left, below + 2), (4, 4))
        words = f"{LETTERS[place]}  {asked.show(value)}"
        page.write(words, at=(left + 6, below + 2), size=10, width=TILE - 6)
        foot = max(foot, below)
    return foot


def _back(given: type[Lesson], asked: Asked) -> Page:
    page = asked.page(f"{given.number}  The numbers")  # nothing on it is measured
    words = of_words(tells(given))
    page.write(f"{rests(given)}{words and words + ' See the answers.'}", size=9)
    if given.checks:
        first = given.checks[0]
        lines = first.working(first.other)
        page.write("To begin with (other numbers; the last line is yours):", bold=True)
        for line in faded(lines, 1):
            page.write(f"    {line}", size=10)
        page.y += 3
    checks = [f"{place}.  {check.ask}" for place, check in enumerate(given.checks, 1)]
    answer = "Answer, with its unit:  " + "_" * 30
    tall = sum(page.tall(one, size=11) + page.tall(answer, size=11) for one in checks)
    foot = LIVE[1] - page.tall(CAUTION, size=8) - GAP
    spare = (foot - page.y - tall) / max(1, len(checks)) - GAP
    for one in checks:
        page.write(one, size=11)
        if spare > LEAST:  # room for the working
            page.box((0, page.y + 1), (LIVE[0], spare - 4), width=HAIR, ink=QUIET)
            page.y += spare
        page.write(answer, size=11)
        page.y += GAP
    if page.y > foot + 1e-6:
        msg = f"The handout of lesson {given.number} does not fit on its page."
        raise KitError(msg)
    page.write(CAUTION, at=(0, foot + GAP), size=8)
    return page


def value_of(check: Check, value: float | None = None) -> str:
    """Write an answer with its unit, thousands with a comma: on paper it is only read."""
    found = check.right.value(check.given) if value is None else value
    return re.sub(r"^\d{5,}\b", lambda whole: f"{int(whole[0]):,}", check.written(found))


def wall_copy(asked: Asked) -> list[Page]:
    """Give the wall copy of one lesson, or of all."""
    return [_on_the_wall(one, asked) for one in lessons(asked)]


def _on_the_wall(given: type[Lesson], asked: Asked) -> Page:
    page, predicted = asked.page(f"Lesson {given.number}"), given.question
    page.of = f"{page.title}, {given.title}"
    page.y = page.write(question(given.number), (0, 16), size=QUESTION, bold=True) + 4
    page.y = page.picture(picture(given.number, asked.units), (0, page.y), LIVE[0]) + 8
    first = f"{predicted.observed.split('. ', maxsplit=1)[0].rstrip('.')}."
    page.y = page.write(first, (0, page.y), size=SENTENCE)
    value = number_in(predicted.show(predicted.right.value(predicted.given)), first)
    size = next(s for s in NUMBERS if page.wide(value, s, bold=True) < LIVE[0] - 10)
    tall = size * POINT
    left = (LIVE[0] - page.wide(value, size, bold=True)) / 2
    page.write(value, (left, (page.y + LIVE[1] - tall) / 2), size=size, bold=True)
    page.foot(
        f"{given.title}. {rests(given)}{of_words(claims_told(first))} Tones illustrative."
    )
    return page


def number_in(shown: str, sentence: str) -> str:
    """Give what a tile shows if there is a number in it, otherwise the sentence's.

    Examples
    --------
    >>> number_in("only carbon", "Carbon is level; it takes 3.7 minutes.")
    '3.7 minutes'
    """
    found = re.search(r"\d[\d.,]* ?[^\s.,;:]*", sentence)
    return shown if re.search(r"\d", shown) or not found else found.group()


def question(number: str) -> str:
    """Give the short question that a lesson answers, from the map in lesson 00."""
    rows = table(sections("00")["The lessons"])
    return next(row[2] for row in rows if row[0] == number)


def picture(number: str, units: Units = Units.MM) -> object:
    """Draw a lesson's own picture, on white, after the move that answers its question."""
    return ASKING[number].scene(**ASKING[number].film[-1], units=units, sunlit=True).image


PRINTS = (
    Kind("handout", "a lesson's two sides, and its answers apart", handout, "lesson"),
    Kind("wall", "a lesson for the wall, large", wall_copy, "lesson"),
)
