"""A plain stack, sawn flatter and flatter: the bands grow wide. As lesson 01."""

import math

from kit.classroom.show.piece import COLUMNS, ROWS, TILE, Picture, Piece, Voice, phrase
from kit.course.lesson import Idea
from kit.course.lessons.cut import SPREAD, CutLesson, block
from kit.forge.billet import Billet
from kit.section.surface import Plane, cut

# °, so that each picture differs from the last.
ANGLES = (90, 75, 60, 50, 42, 35, 28, 22, 17)
ASKED = 5  # 35°: there the four ideas lie farthest apart for the eye
LAYER = 4.0
LAYERS = 37
LONG = 110.0  # mm in the picture
# The picture's middle, aside of the block's, so that no band lies on it for ever.
ASIDE = 7.0


def cut_piece() -> Piece:
    """Saw a plain stack flatter and flatter; one of the cuts is asked for."""
    given = {"t": LAYER, "a": float(ANGLES[ASKED])}
    lesson = CutLesson.question
    billet = block(layers=LAYERS, thickness=LAYER)
    return Piece(
        name=phrase("Plain stack"),
        question=lambda voice: voice(
            "Stack sawn at {angle}°: which face?", angle=ANGLES[ASKED]
        ),
        slider=phrase("Lean the saw to the mark"),
        stops=tuple(_stop(billet, angle) for angle in ANGLES),
        asked=ASKED,
        tiles=tuple(_tile(idea, given) for idea in lesson.tiles),
        right=lesson.tiles.index(lesson.right),
        why=phrase(
            "On a slant the saw travels further to cross the same layer, so each band "
            "looks wider."
        ),
        number=lambda voice: voice.length(SPREAD.value(given)),
        counts=lambda voice: voice(
            "one band, sawn at {angle}°; sawn square it was {layer}",
            angle=ANGLES[ASKED],
            layer=voice.length(LAYER),
        ),
    )


def _face(billet: Billet, angle: float, size: tuple[int, int]) -> Plane:
    """Saw at an angle; the picture runs along the saw's way through the layers."""
    plane = cut(billet.size, angle=angle)
    along = plane.up
    return Plane(
        size=billet.size,
        centre=tuple(
            middle + ASIDE * step for middle, step in zip(plane.centre, along, strict=True)
        ),
        right=along,
        up=(0.0, 1.0, 0.0),
        columns=size[0],
        rows=size[1],
        pixel=LONG / size[0],
    )


def _stop(billet: Billet, angle: float) -> Picture:
    width = SPREAD.value({"t": LAYER, "a": float(angle)})

    def alt(voice: Voice) -> str:
        return voice(
            "The face of a stack of layers {layer} thick, sawn at {angle} degrees to "
            "them: dark and bright bands {width} wide.",
            layer=voice.length(LAYER),
            angle=angle,
            width=voice.length(width),
        )

    def says(voice: Voice) -> str:
        return voice("Square, 90°") if angle == 90 else voice("At {angle}°", angle=angle)

    surface = _face(billet, angle, (COLUMNS, ROWS))
    return Picture(billet=billet, surface=surface, says=says, alt=alt)


def _tile(idea: Idea, given: dict[str, float]) -> Picture:
    """Draw the face that somebody with this idea of the band width expects."""
    width = idea.value(given)
    billet = block(layers=max(2, math.ceil(1.3 * LONG / width)), thickness=width)

    return Picture(
        billet=billet,
        surface=_face(billet, 90, TILE),
        alt=lambda voice: voice(
            "A cut face with dark and bright bands {width} wide.", width=voice.length(width)
        ),
    )
