"""Pages for the wall: a lesson's question, its picture, one sentence, one number."""

from __future__ import annotations

import re

from kit.basics.units import Units
from kit.classroom.paper.handout import LESSONS, lesson, rests
from kit.classroom.paper.kinds import ALL, Asked, Kind
from kit.classroom.paper.page import LIVE, POINT, Page
from kit.classroom.plans import sections, table
from kit.course.lessons.base import Lesson
from kit.course.map import ASKING

QUESTION, SENTENCE, WORDS = 30, 24, 18  # points: read from two metres and more
NUMBERS = range(90, 10, -2)  # points: the largest that fits


def wall_copy(asked: Asked) -> list[Page]:
    """Give the wall copy of one lesson, or of all."""
    numbers = LESSONS if asked.lesson == ALL else [asked.lesson]
    return [_page(lesson(one), asked) for one in numbers]


def _page(given: type[Lesson], asked: Asked) -> Page:
    page, predicted = asked.page(f"Lesson {given.number}"), given.question
    page.y = page.write(question(given.number), (0, 16), size=QUESTION, bold=True) + 4
    page.y = page.picture(picture(given.number, asked.units), (0, page.y), LIVE[0]) + 8
    first = f"{predicted.observed.split('. ', maxsplit=1)[0].rstrip('.')}."
    page.y = page.write(first, (0, page.y), size=SENTENCE)
    value = number_in(predicted.show(predicted.right.value(predicted.given)), first)
    size = next(s for s in NUMBERS if page.wide(value, s, bold=True) < LIVE[0] - 10)
    tall = size * POINT
    left = (LIVE[0] - page.wide(value, size, bold=True)) / 2
    page.write(value, (left, (page.y + LIVE[1] - tall) / 2), size=size, bold=True)
    page.foot(f"{given.title}. {rests(given)} Tones illustrative.")
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


PRINTS = (Kind("wall", "a lesson for the wall, large", wall_copy, "lesson"),)
