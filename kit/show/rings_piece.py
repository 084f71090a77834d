"""A bar drilled and forged flat again: rings, one a layer. As lesson 05."""

from __future__ import annotations

from kit.billet import Billet
from kit.lesson import Idea
from kit.lessons import press_questions
from kit.lessons.press_ideas import left
from kit.show.draw import COLUMNS, ROWS, TILE
from kit.show.piece import STOPS, Picture, Piece
from kit.stack import Layer, Stack
from kit.steps import Press
from kit.steps.tool import drill_depth
from kit.surface import Plane
from kit.units import Units, format_length

# Coarse, so that it reads from three metres: a wide drill, and six layers in its hole
# as in the lesson.
ACROSS, SPACING, THICK, WIDTH = 16.0, 20.0, 18.0, 40.0
LAYER = drill_depth(ACROSS) / 6
LENGTH = 10 * SPACING
# Every stop takes two layers, so that the bar between the rings is always the same
# steel: a picture that turned from black to white would flash.
STEP = 2 * LAYER / THICK  # of the level bar
LONG = 90.0  # mm in the picture


def rings_piece() -> Piece:
    """Make the piece."""
    lesson = press_questions.question()
    given = {"D": ACROSS, "t": LAYER}
    bar = _drilled(LAYER)
    tiles = [_tile(idea, given, lesson.show) for idea in lesson.tiles]
    rings = lesson.right.value(given)
    return Piece(
        name="Raindrops",
        lines=("A hole makes rings", "Deeper, fewer", "Touch to grind"),
        question="Hole through six layers, forged flat: what rings?",
        slider="Grind it down",
        stops=tuple(_stop(bar, STEP * stop, rings) for stop in range(STOPS)),
        asked=0,
        tiles=tuple(tiles),
        right=lesson.tiles.index(lesson.right),
        why=(
            f"The drill went through {rings:.0f} layers; forged flat again, each comes up "
            "as one ring."
        ),
        number=lambda _units: f"{rings:.0f} rings",
        counts=lambda _units: "at the face; half of them are left halfway through",
    )


def _drilled(layer: float) -> Billet:
    """Stack, drill and forge flat; the face is halfway through a layer, as in 05."""
    heights = [layer / 2]
    while sum(heights) + layer < THICK:
        heights.append(layer)
    heights.append(THICK - sum(heights))
    bars = [
        Layer(steel=("1084", "15N20")[number % 2], thickness=height)
        for number, height in enumerate(heights)
    ]
    stack = Stack(layers=bars[::-1], length=LENGTH, width=WIDTH)
    drill = Press(tool="drill point", across=ACROSS, spacing=SPACING, faces="top")
    return Billet(source=stack).then(drill)


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

    def says(units: Units) -> str:
        return f"{format_length(off, units)} off" if off else "The face"

    def alt(units: Units) -> str:
        ground = f"with {format_length(off, units)} ground off" if off else "not ground"
        return (
            f"A bar drilled with points {format_length(ACROSS, units)} across and forged "
            f"flat, from above, {ground}: about {there:.1f} rings round every hole."
        )

    return Picture(billet=bar, surface=_face(bar, off, (COLUMNS, ROWS)), says=says, alt=alt)


def _tile(idea: Idea, given: dict[str, float], show: object) -> Picture:
    """Draw the face that somebody who expects so many rings expects, as lesson 05 does."""
    count = round(idea.value(given))
    bar = _drilled(drill_depth(ACROSS) / count)
    return Picture(
        billet=bar,
        surface=_face(bar, 0.0, TILE),
        says=lambda _units: show(count),
        alt=lambda _units: f"A face with round figures, {show(count)} in each.",
    )
