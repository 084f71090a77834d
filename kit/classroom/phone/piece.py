"""A lesson as a piece of the player: its question, its control stop by stop, why, checks.

All of it is the lesson's own: a new lesson has its page by itself.
"""

import io
import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from PIL import Image

from kit.basics.claim import Claim, claims_told, legend
from kit.basics.declare import allowed_range
from kit.basics.files import address_of
from kit.basics.told import in_units
from kit.basics.units import Units, format_away, format_length
from kit.classroom.phone.judging import judging
from kit.course.lesson import BY_TRYING, MANY, Prediction, Question
from kit.course.lessons.base import Lesson
from kit.course.lessons.scene import Part, Scene
from kit.course.questions import CARDS, Card, Measures
from kit.section.picture import BIG_LETTERS, PAGE, seen_as

STOPS = 60  # of a control, at least; a count has as many as it has values
ROUND = (1, 2, 2.5, 4, 5, 8)  # what a step between stops may be, times a power of ten
CHECKS = 2  # of a lesson that a page asks
# Pixels of a picture at most: on a page 328 wide its words are then 11.4 high.
WIDEST = 660
BELOW = "face below"  # a question with these words points at the picture below it
BELIEVED = "Many think:"  # stands in the template
GAP = 12  # pixels between parts
QUALITY = (50, 36, 24)  # of a WebP, tried one after another
Progress = Callable[[float], None]


@dataclass(frozen=True)
class Drawn:
    """A picture as it is drawn, with what is said of it."""

    image: Image.Image
    alt: str
    says: str
    at: str = ""  # where the control stands
    claims: tuple[Claim, ...] = ()  # of its numbers

    def told(self, quality: int) -> dict[str, str]:
        """Give it as the player needs it."""
        out = io.BytesIO()
        self.image.save(out, "WEBP", quality=quality, method=2)
        return {
            "says": self.says,
            "alt": self.alt,
            "at": self.at,
            "seen": address_of(out.getvalue(), "image/webp"),
        }


@dataclass(frozen=True)
class LessonPiece:
    """A lesson, and the pictures that were drawn of it.

    Parameters
    ----------
    lesson : type of Lesson
    units : Units
    tiles, stops : tuple of Drawn
    before : Drawn
        What may be seen before the prediction: it gives nothing away.
    asked, start : int
        The stop that the question is about, and where the control begins.
    """

    lesson: type[Lesson]
    units: Units
    tiles: tuple[Drawn, ...]
    stops: tuple[Drawn, ...]
    before: Drawn
    asked: int
    start: int

    def told(self, quality: int) -> dict[str, Any]:
        """Give all that the player is told of it, pictures of some quality in it."""
        question = self.lesson.question
        told = {
            "number": self.lesson.number,
            "name": self.lesson.title,
            "control": self.lesson.model_fields[self.lesson.main].title,
            "slider": "",  # what it does stands on the page
            "stops": [one.told(quality) for one in self.stops],
            "asked": self.asked,
            "start": self.start,
            "fine": in_units(self.lesson.fine, self.units),
            "known": legend(claim for stop in self.stops for claim in stop.claims),
            "byTrying": [MANY, BY_TRYING],
            "checks": [judging(one, self.units) for one in self.lesson.checks[:CHECKS]],
            "cards": [card_told(card, self.units) for card in cards_of(self.lesson)],
            "question": in_units(question.ask, self.units),
            "before": self.before.told(quality) if BELOW in question.ask else None,
            "tiles": [one.told(quality) for one in self.tiles],
            "right": question.tiles.index(question.right),
            "verdicts": [in_units(words, self.units) for words in verdicts(question)],
            "reasons": [
                [
                    in_units(one.words, self.units),
                    one.right,
                    in_units(one.answer, self.units),
                ]
                for one in question.reasons
            ],
        }
        rests = claims_told("\n".join((*texts(told), BELIEVED)))
        lines = ([claim.says, claim.how] for claim in rests)
        told["rests"] = [[in_units(words, self.units) for words in line] for line in lines]
        return told


def piece_of(
    lesson: type[Lesson],
    units: Units = Units.MM,
    progress: Progress | None = None,
    values: Sequence[float] | None = None,
) -> LessonPiece:
    """Draw a lesson's tiles, and its picture at every stop of its main control.

    Parameters
    ----------
    lesson : type of Lesson
        It has a question, a main control, and a film that moves it.
    units : Units
    progress : callable, optional
        Told the share that is done, 0 … 1.
    values : sequence of float, optional
        Of its control, where not all of `stops_of` are wanted.
    """
    question, states = lesson.question, lesson.states()
    start, asked = (state[lesson.main] for state in (states[0], states[-1]))
    values = list(values or stops_of(lesson))
    if start > asked:  # what is asked about lies always further on
        values.reverse()
    drawn = []
    for done, value in enumerate(values, 1):
        drawn.append(_stop(lesson, {**states[-1], lesson.main: value}, units))
        if progress:
            progress(done / len(values))
    tiles = []
    for value in question.values():
        image, alt = question.draw(value)
        words = (in_units(told, units) for told in (alt, question.show(value)))
        tiles.append(Drawn(image, *words))
    return LessonPiece(
        lesson,
        units,
        tuple(tiles),
        tuple(drawn),
        before=_stop(lesson, states[0], units),
        asked=values.index(asked),
        start=values.index(start),
    )


def stops_of(lesson: type[Lesson]) -> list[float]:
    """Give the values that a page shows: those at round steps, and the question's own.

    Where a value does not go together with the others, it gives way, as on the bench.

    Examples
    --------
    >>> from kit.course.map import lesson_of
    >>> stops = stops_of(lesson_of("04"))
    >>> len(stops), stops[:3], stops[-1]
    (81, [0.0, 0.1, 0.2], 8.0)
    """
    key, (first, *_, last) = lesson.main, lesson.states()
    fields = lesson.model_fields[key]
    low, high = (
        getattr(lesson.fitted({**last, key: end}, Units.MM)[0], key)
        for end in allowed_range(fields)
    )
    if fields.annotation is int:
        return list(range(low, high + 1))
    step = _step(high - low)
    count = math.floor((high - low) / step + 1e-9)
    values = {round(low + step * at, 6) for at in range(count + 1)}
    return sorted({*values, low, high, first[key], last[key]})


def _step(wide: float) -> float:
    """Give the round step that leaves the fewest stops, but enough of them."""
    steps = (part * 10.0**power for power in range(3, -5, -1) for part in reversed(ROUND))
    return next(step for step in steps if wide / step >= STOPS - 1e-9)


def _stop(lesson: type[Lesson], state: dict[str, Any], units: Units) -> Drawn:
    """Draw one state, and say of it what the bench says when the control comes there."""
    job, key = lesson.asked(state, units), lesson.main
    scene = job.as_seen(units, letters=BIG_LETTERS, look=lesson.look)
    says = job.remarked(key, units) or scene.says or scene.alt
    at = written(lesson, state[key], units)
    drawn, alt = cut_out(scene, lesson.phone), scene.alt + seen_as(scene.image)
    claims = tuple(claim for number in scene.numbers for claim in number.claims)
    return Drawn(drawn, alt, says, at, claims)


def written(lesson: type[Lesson], value: float, units: Units) -> str:
    """Write a value of the main control with its unit."""
    declared = lesson.model_fields[lesson.main].json_schema_extra or {}
    unit = declared.get("unit", "")
    if unit == "mm":
        return (format_away if declared.get("away") else format_length)(value, units)
    gap = "" if unit in ("", "°") else " "
    return f"{value:g}{gap}{unit}"


def cut_out(scene: Scene, parts: tuple[Part, ...]) -> Image.Image:
    """Give the parts of a picture that a telephone shows, one below the other."""
    whole = scene.image
    cut = [
        whole.crop(part[:4]).resize(_size(part), Image.Resampling.LANCZOS)
        for part in parts or (Part(0, 0, WIDEST, whole.height),)
    ]
    wide = max(part.width for part in cut)
    high = sum(part.height + GAP for part in cut) - GAP
    sheet, top = Image.new("RGB", (wide, high), PAGE), 0
    for part in cut:
        sheet.paste(part, (0, top))
        top += part.height + GAP
    return sheet


def _size(part: Part) -> tuple[int, int]:
    wide, high = part.right - part.left, part.low - part.top
    return round(wide * part.scale), round(high * part.scale)


def verdicts(question: Question) -> Iterator[str]:
    """Say of each tile, once it was seen, what it means to have chosen it."""
    for at, idea in enumerate(question.tiles):
        if idea is question.right:
            yield question.observed
        else:
            prediction = Prediction(question)
            prediction.choose(at)
            yield prediction.observe()


def cards_of(lesson: type[Lesson]) -> list[Card]:
    """Give the cards that a lesson's talk is made of; each belongs to one page alone."""
    return [card for card in CARDS if (card.part or card.lesson) == lesson.key]


def card_told(card: Card, units: Units) -> dict[str, Any]:
    """Give a card for a page: what is asked, believed and true, and its number."""
    told = card.told(Measures(units=units))
    return {
        "question": told.question,
        "breath": told.breath,
        "belief": told.belief,
        "answer": told.answer,
        "number": [told.number.name, told.number.value],
        "known": legend(card.claims),
        "mark": told.mark,
        "cautions": card.cautions,
    }


def texts(told: Any) -> Iterator[str]:
    """Give every text in what a page is told, but the address of a picture."""
    if isinstance(told, str):
        yield "" if told.startswith("data:") else told
    elif isinstance(told, (dict, list, tuple)):
        for one in told.values() if isinstance(told, dict) else told:
            yield from texts(one)
