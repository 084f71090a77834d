"""A bar drilled and forged flat again: rings, one a layer. As lesson 05."""

from __future__ import annotations

from typing import TYPE_CHECKING

from kit.classroom.show.piece import (
    COLUMNS,
    ROWS,
    STOPS,
    TILE,
    Picture,
    Piece,
    ground,
    phrase,
    taken_off,
)
from kit.course.lesson import Idea
from kit.course.lessons.press import PressLesson
from kit.course.lessons.press_drawing import layered
from kit.course.lessons.press_ideas import left
from kit.forge.billet import Billet
from kit.forge.steps import Drill
from kit.forge.steps.drill import drill_depth
from kit.section.surface import Plane

if TYPE_CHECKING:
    from kit.classroom.show.piece import Voice

# Coarse, so that it reads from three metres: a wide drill, and six layers in its hole
# as in the lesson.
ACROSS, SPACING, THICK = 16.0, 20.0, 18.0
LAYER = drill_depth(ACROSS) / 6
LENGTH = 10 * SPACING
# Every stop takes two layers, so that the bar between the rings is always the same
# steel: a picture that turned from black to white would flash.
STEP = 2 * LAYER / THICK  # of the level bar
LONG = 90.0  # mm in the picture


def rings_piece() -> Piece:
    """Drill a bar, forge it flat and grind it deeper and deeper."""
    lesson = PressLesson.question
    given = {"D": ACROSS, "t": LAYER}
    bar = _drilled(LAYER)
    rings = lesson.right.value(given)
    return Piece(
        name=phrase("Raindrops"),
        lines=(
            phrase("A hole makes rings"),
            phrase("Deeper, fewer"),
            phrase("Touch to grind"),
        ),
        question=phrase("Drilled, then forged flat: which face will show?"),
        slider=phrase("Grind it down"),
        stops=tuple(_stop(bar, STEP * stop, rings) for stop in range(STOPS)),
        asked=0,
        tiles=tuple(_tile(idea, given) for idea in lesson.tiles),
        right=lesson.tiles.index(lesson.right),
        why=lambda voice: voice(
            "The drill went through {rings} layers; forged flat again, each comes up as "
            "one ring.",
            rings=f"{rings:.0f}",
        ),
        number=lambda voice: voice("{rings} rings", rings=round(rings)),
        counts=phrase("at the face; half of them are left halfway through"),
    )


def _counted(voice: Voice, rings: int) -> str:
    """Count dark ones too: at a glance only the bright are seen."""
    if rings == 1:
        return voice("1 ring")
    return voice("{rings} rings, dark and bright", rings=rings)


def _drilled(layer: float) -> Billet:
    """Stack, drill and forge flat; the face is halfway through a layer, as in 05."""
    drill = Drill(way="cut and forged", across=ACROSS, spacing=SPACING, faces="top")
    return Billet(source=layered(THICK, layer, LENGTH)).then(drill)


def _face(bar: Billet, off: float, size: tuple[int, int]) -> Plane:
    return Plane(
        size=bar.size,
        centre=(4.5 * SPACING, 0.0, bar.size.thickness / 2 - off),
        right=(1.0, 0.0, 0.0),
        up=(0.0, 1.0, 0.0),
        columns=size[0],
        rows=size[1],
        pixel=LONG / size[0],
    )


def _stop(bar: Billet, share: float, rings: float) -> Picture:
    off = share * bar.size.thickness
    there = left({"d": rings, "q": share, "T": 1.0})

    def alt(voice: Voice) -> str:
        return voice(
            "A bar drilled with points {across} across and forged flat, from above, "
            "{ground}: about {rings} rings round every hole.",
            across=voice.length(ACROSS),
            ground=ground(voice, off),
            rings=voice.number(there, 1),
        )

    return Picture(
        billet=bar,
        surface=_face(bar, off, (COLUMNS, ROWS)),
        says=taken_off(off, "The face"),
        alt=alt,
    )


def _tile(idea: Idea, given: dict[str, float]) -> Picture:
    """Draw the face that somebody who expects so many rings expects, as lesson 05 does."""
    count = round(idea.value(given))
    bar = _drilled(drill_depth(ACROSS) / count)
    return Picture(
        billet=bar,
        surface=_face(bar, 0.0, TILE),
        says=lambda voice: _counted(voice, count),
        alt=lambda voice: voice(
            "A face with round figures, {rings} in each.", rings=_counted(voice, count)
        ),
    )
