"""A twisted bar, ground to its axis: stripes outside, stars inside. As lesson 04."""

import math
from typing import Any

from kit.classroom.show.piece import (
    STOPS,
    TILE,
    Picture,
    Piece,
    Voice,
    from_above,
    ground,
    phrase,
    taken_off,
)
from kit.course.lesson import Idea
from kit.course.lessons.twist import TwistLesson, bar
from kit.course.lessons.twist_ideas import ANGLE, angle

# Coarse, so that it reads from three metres: nine layers in a thick bar.
ACROSS, TURN = 20.0, 42.0
BAR: dict[str, Any] = {
    "across": ACROSS,
    "layer": ACROSS / 9,
    "stack": 0,
    "turn": TURN,
    "hand": 0,
}
LONG = 1.5 * TURN  # mm in the picture
ASKED = STOPS // 2


def twist_piece() -> Piece:
    """Twist a bar and grind it deeper and deeper, to its axis."""
    lesson = TwistLesson.question
    given = {"d": ACROSS, "p": TURN, "q": ACROSS / 4}
    return Piece(
        name=phrase("Twisted bar"),
        question=phrase("Twisted bar, ground halfway to centre: which face?"),
        slider=phrase("Grind it to the mark"),
        stops=tuple(_stop(ACROSS / 2 * stop / (STOPS - 1)) for stop in range(STOPS)),
        asked=ASKED,
        tiles=tuple(_tile(idea, given) for idea in lesson.tiles),
        right=lesson.tiles.index(lesson.right),
        why=phrase(
            "Nearer the middle the steel moved less for the same turn, down to stars on "
            "the axis."
        ),
        number=lambda _voice: f"{ANGLE.value(given):.0f}°",
        counts=lambda voice: voice(
            "the lines' angle to the bar halfway to its middle; at the skin {lean}°",
            lean=f"{angle(ACROSS / 2, TURN):.0f}",
        ),
    )


def _shape(voice: Voice, lean: float) -> str:
    if lean < 1:
        return voice("a row of stars")
    return voice("lines leaning {lean} degrees", lean=f"{lean:.0f}")


def _stop(off: float) -> Picture:
    billet = bar(**BAR)
    lean = angle(ACROSS / 2 - off, TURN)

    def alt(voice: Voice) -> str:
        return voice(
            "A twisted bar {across} across, from above, {ground}: {shape}.",
            across=voice.length(ACROSS),
            ground=ground(voice, off),
            shape=_shape(voice, lean),
        )

    surface = from_above(billet, ACROSS / 2 - off, long=LONG)
    return Picture(billet=billet, surface=surface, says=taken_off(off, "The skin"), alt=alt)


def _tile(idea: Idea, given: dict[str, float]) -> Picture:
    """Draw the face that somebody with this idea expects, as lesson 04 does."""
    lean = idea.value(given)
    turn = TURN
    height = math.tan(math.radians(lean)) * turn / (2 * math.pi)
    if height > ACROSS / 2 + 1e-6:  # steeper than its skin: a tighter twist
        turn, height = turn / 2, ACROSS / 2
    billet = bar(**{**BAR, "turn": turn})
    return Picture(
        billet=billet,
        surface=from_above(billet, height, size=TILE, long=LONG),
        alt=lambda voice: voice("A long face with {shape}.", shape=_shape(voice, lean)),
    )
