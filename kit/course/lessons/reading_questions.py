"""What lesson 11 asks: the prediction, the checks, and the move that answers."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from kit.course.check import Check
from kit.course.lesson import Given, Question, Reason
from kit.course.lessons.reading import ACROSS, LEAN, TURN, Job, bar
from kit.course.lessons.reading_ideas import (
    CANNOT_TELL,
    DEEPER,
    DEPTH_FOR_HEIGHT,
    EVERY_STAR,
    HALF_SHADE,
    HEIGHT_COMPLEMENT,
    HEIGHT_HALF,
    HEIGHT_NO_PI,
    IN_PROPORTION,
    ONE_SHADE,
    QUARTER_TURN,
    SAME_LEAN,
    STAR_IS_TURN,
    deeper_working,
    height_working,
)
from kit.course.lessons.reading_ideas import HEIGHT as HEIGHT_IDEA
from kit.course.lessons.reading_ideas import (
    TURN as TURN_IDEA,
)
from kit.course.lessons.twist_drawing import from_above
from kit.metal import etch
from kit.section.picture import QUIET, Sheet
from kit.section.trace import see

if TYPE_CHECKING:
    from PIL import Image

TILE = (200, 150)


def tile(turn: float) -> tuple[Image.Image, str]:
    """Draw the round bar, before it was ground, that somebody with this idea sees."""
    sheet = Sheet(*TILE)
    if not turn:
        sheet.text("?", (TILE[0] / 2, TILE[1] / 2), size=90, anchor="mm", ink=QUIET)
        return sheet.image, "A question mark: it can not be told."
    billet = bar(ACROSS, turn)
    above = from_above(billet, billet.size.thickness / 2, *TILE, pixel=90 / TILE[0])
    sheet.steel(see(billet, above, etch.tones(billet.source.steels)), (0, 0))
    return sheet.image, f"A round bar, not ground yet, twisted one turn in {turn:.0f} mm."


def question() -> Question:
    """Ask for the turn of the bar on the bench."""
    return Question(
        ask=(
            "On the face below, ground on a twisted bar, the stars stand 22 mm apart, and "
            "between two of them the lines lean 38°. Nobody remembers how it was made. How "
            "long is one turn of the twist?"
        ),
        given={"s": TURN / 2, "a": LEAN},
        tiles=(STAR_IS_TURN, TURN_IDEA, QUARTER_TURN, CANNOT_TELL),
        right=TURN_IDEA,
        show=lambda turn: f"one turn in {turn:g} mm" if turn else "can not be told",
        draw=tile,
        observed=(
            "From star to star is half a turn, so one turn is 44 mm. Now find the bar: "
            "Guess, until your face is the one on the bench."
        ),
        reasons=(
            Reason(
                "Layers lie flat twice in one turn, so there are two stars a turn.",
                True,
                "Yes. After half a turn they lie upside down, which looks the same.",
            ),
            Reason(
                "The smith turned the bar twice as far as it looks.",
                False,
                "The bar turned once in 44 mm, everywhere alike. Count the flat places.",
            ),
            Reason(
                "Grinding doubled the number of stars.",
                False,
                "Grinding shows what lies there. At every depth they stand 22 mm apart.",
            ),
        ),
    )


_FIRST: dict[str, Any] = {key: field.default for key, field in Job.model_fields.items()}
_LAST = {"start": 22.0, "end": 44.0, "lean": LEAN}
# The move that answers: ruler and protractor are laid on; the guess is left to be made.
FILM = [
    {
        **_FIRST,
        **{
            key: round(_FIRST[key] + (last - _FIRST[key]) * part / 13, 2)
            for key, last in _LAST.items()
        },
    }
    for part in range(14)
]

HEIGHT_CHECK = Check(
    ask=(
        "On another face stars stand 18 mm apart and the lines between lean 42°. How high "
        "above the axis does the face lie?"
    ),
    given={"s": 18.0, "a": 42.0},
    right=HEIGHT_IDEA,
    slips=(HEIGHT_HALF, HEIGHT_NO_PI, HEIGHT_COMPLEMENT),
    kind="length",
    prompt="What is one turn there? And what is once round at the height you look for?",
    working=height_working,
    other={"s": 25.0, "a": 30.0},
    tips=(
        "Set the ruler to 18 mm and the protractor to 42° above and read the numbers.",
        "Draw a triangle: once round is as high as 36 mm are long, times tan 42°.",
        "tan(angle) = 2 pi × height / turn. Two per cent is near enough.",
    ),
)

DEEPER_CHECK = Check(
    ask=(
        "The face on the bench, stars 22 mm apart and 38°, is ground 1.5 mm deeper. At "
        "what angle are its lines then?"
    ),
    given={"s": 22.0, "a": 38.0, "q": 1.5},
    right=DEEPER,
    slips=(SAME_LEAN, IN_PROPORTION, DEPTH_FOR_HEIGHT),
    kind="angle",
    prompt="How high above the axis did it lie before, and how high does it lie now?",
    working=deeper_working,
    other={"s": 30.0, "a": 45.0, "q": 2.0},
    tips=(
        "Grind both deeper above, by 1.5 mm, and lay the protractor on the lines.",
        "Use a protractor on the middle line, half-way between two stars.",
        "First the height, then less 1.5 mm, then the angle again.",
    ),
)


def _shade_working(given: Given) -> list[str]:
    return [
        "in an even stack, a little off the axis, the next star has the other shade",
        "so two of one shade are two stars, one whole turn, apart",
        f"one turn = {given['s']:g} mm",
    ]


SHADE_CHECK = Check(
    ask=(
        "A bar was stacked from an even number of layers and ground to a little off its "
        "axis. Its bright stars stand 60 mm apart, a dark one midway between. How long is "
        "one turn?"
    ),
    given={"s": 60.0},
    right=ONE_SHADE,
    slips=(EVERY_STAR, HALF_SHADE),
    kind="length",
    prompt="How many stars, of either shade, are there in one turn?",
    working=_shade_working,
    other={"s": 35.0},
    tips=(
        "Lesson 04 has an even stack: set it, grind to just off the axis, and look.",
        "Count every star against the scale, whatever its shade.",
        "Two stars a turn, of either shade.",
    ),
)
