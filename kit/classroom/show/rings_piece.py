"""A bar drilled, forged flat and ground: rings, fewer and fewer. As lesson 05."""

from kit.classroom.show.piece import (
    COLUMNS,
    ROWS,
    STOPS,
    TILE,
    Picture,
    Piece,
    Voice,
    ground,
    phrase,
    taken_off,
)
from kit.course.lessons.press_drawing import layered
from kit.course.lessons.press_ideas import HALF_BAR, LEFT, ONE_RING, UNCHANGED, left
from kit.forge.billet import Billet
from kit.forge.steps import Drill
from kit.forge.steps.drill import drill_depth
from kit.section.surface import Plane

# Coarse, so that it reads from three metres: a wide drill, and six layers in its hole
# as in the lesson; in the whole bar four times as many.
ACROSS, SPACING, RINGS, LAYERS = 16.0, 20.0, 6, 24
LAYER = drill_depth(ACROSS) / RINGS
LENGTH = 10 * SPACING
# Every stop takes two layers, so that the bar between the rings is always the same
# steel: a picture that turned from black to white would flash.
STEP = 2 / LAYERS  # of the level bar
ASKED = 6  # halfway through
IDEAS = (UNCHANGED, LEFT, ONE_RING, HALF_BAR)
LONG = 90.0  # mm in the picture


def rings_piece() -> Piece:
    """Drill a bar, forge it flat and grind it deeper and deeper."""
    given = {"d": RINGS, "q": STEP * ASKED, "T": 1.0}
    bar = _drilled()
    there = round(LEFT.value(given))
    return Piece(
        name=phrase("Raindrops"),
        question=phrase("Drilled bar, ground halfway through: which face?"),
        slider=phrase("Grind it to the mark"),
        stops=tuple(_stop(bar, STEP * stop) for stop in range(STOPS)),
        asked=ASKED,
        tiles=tuple(_tile(bar, round(idea.value(given))) for idea in IDEAS),
        right=IDEAS.index(LEFT),
        why=lambda voice: voice(
            "The drill went through {rings} layers: as many rings. In this model "
            "they grow evenly fewer below.",
            rings=RINGS,
        ),
        number=lambda voice: voice("{rings} rings", rings=there),
        counts=lambda voice: voice(
            "dark and bright, left halfway through; {rings} at the face", rings=RINGS
        ),
    )


def _counted(voice: Voice, rings: int) -> str:
    if rings < 2:
        return voice("1 ring") if rings else voice("no ring")
    return voice("{rings} rings", rings=rings)


def _drilled() -> Billet:
    """Stack, drill and forge flat; the face is halfway through a layer, as in 05."""
    drill = Drill(way="cut and forged", across=ACROSS, spacing=SPACING, faces="top")
    return Billet(source=layered(LAYERS * LAYER, LAYER, LENGTH)).then(drill)


def _face(bar: Billet, off: float, size: tuple[int, int]) -> Plane:
    centre = (4.5 * SPACING, 0.0, bar.size.thickness / 2 - off)
    return Plane.facing(bar, "face", centre, size, LONG / size[0])


def _stop(bar: Billet, share: float) -> Picture:
    off = share * bar.size.thickness
    there = left({"d": RINGS, "q": share, "T": 1.0})

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


def _tile(bar: Billet, rings: int) -> Picture:
    """Draw the face that somebody who expects so many rings expects: as deep as it is."""
    off = bar.size.thickness * (1 - rings / RINGS)
    return Picture(
        billet=bar,
        surface=_face(bar, off, TILE),
        alt=lambda voice: voice(
            "A face with round figures, {rings} in each.", rings=_counted(voice, rings)
        ),
    )
