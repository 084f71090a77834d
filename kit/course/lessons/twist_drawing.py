"""A bar ground along its length: drawn as a solid, from above, at depths, and measured."""

import math
from functools import lru_cache

import numpy as np

from kit.basics.units import Units, format_length
from kit.course.lessons.scene import Panel, keep
from kit.forge.billet import Billet
from kit.forge.bundle import Bundle
from kit.forge.steps import SquareUp
from kit.forge.steps.base import RoundSize
from kit.metal import etch
from kit.section.block import Block
from kit.section.picture import ACCENT, QUIET, Sheet
from kit.section.surface import Plane, fitting, told_place
from kit.section.trace import Face

FILM_FACES = 5  # ours
SHOWN = 120.0  # mm of the bar


def solid(sheet: Sheet, billet: Billet, height: float, units: Units) -> Panel:
    """Draw the bar with its ground face on top, mm above the axis."""
    middle = billet.size.length / 2
    span = (middle - SHOWN / 2, middle + SHOWN / 2)
    block = Block.fitted(billet.size, 520, 190, cut=_ground(billet, height), span=span)
    sheet.text("The twisted bar, ground flat on top", (20, 6), size=18)
    panel = Panel.laid(sheet, billet, block, (10, 30))
    sheet.scale_bar((24, 212), block.pixel, units, most=90)
    return panel


def _ground(billet: Billet, height: float) -> tuple | None:
    """Cut along the bar at a height; None while nothing is off."""
    if height > billet.size.thickness / 2 - 1e-6:
        return None
    return (0.0, 0.0, 1.0), told_place((0.0, 0.0, height))


def from_above(
    billet: Billet, height: float, columns: int, rows: int, pixel: float
) -> Block:
    """Look down on the bar, ground flat at a height above its axis; height, pixel in mm."""
    middle, half = billet.size.length / 2, columns * pixel / 2 + 2
    return Block(
        size=billet.size,
        cut=_ground(billet, height),
        span=told_place((max(0.0, middle - half), min(billet.size.length, middle + half))),
        turned=0.0,
        raised=89.99,
        columns=columns,
        rows=rows,
        pixel=pixel,
    )


def face(sheet: Sheet, billet: Billet, height: float, units: Units) -> Panel:
    """Draw the bar from straight above, larger, ground at a height above its axis, mm."""
    columns, rows = 440, 176
    pixel = fitting(100 / columns, billet.size.width * 1.06 / rows)
    above = from_above(billet, height, columns, rows, pixel)
    at = (548, 34)
    sheet.text("From above: the ground face", (548, 6), size=18)
    sheet.scale_bar((at[0] + 4, 234), pixel, units, most=120)
    return Panel.laid(sheet, billet, above, at)


@lru_cache(maxsize=8)
def _at_depths(billet: Billet) -> list[tuple[float, Face, Plane]]:
    """See the bar ground to five depths; kept, since grinding on does not change it."""
    half, rows = billet.size.thickness / 2, 28
    pixel = max(100 / 340, billet.size.width / rows)
    found = []
    for index in range(FILM_FACES):
        depth = half * index / (FILM_FACES - 1)
        above = from_above(billet, half - depth, 340, rows, pixel)
        found.append((depth, etch.seen(billet, above), above))
    return found


def depths(sheet: Sheet, billet: Billet, height: float, units: Units) -> None:
    """Draw the bar from above, ground to five depths; mark the one at this height, mm."""
    corner = 548, 258
    keep(sheet, corner, (452, 31 * FILM_FACES), _strips, billet, units)
    half = billet.size.thickness / 2
    for index, (depth, face_, _) in enumerate(_at_depths(billet)):
        if abs(half - depth - height) <= half / (FILM_FACES - 1) / 2:
            inside = corner[0] + np.flatnonzero((face_.cover > 0.5).any(axis=0))
            top = corner[1] + 31 * index
            sheet.box(
                (inside[0] - 3, top - 2), (inside[-1] + 3, top + 29), ink=ACCENT, width=2
            )


def _strips(sheet: Sheet, billet: Billet, units: Units) -> None:
    for index, (depth, face_, above) in enumerate(_at_depths(billet)):
        sheet.steel(face_, (0, 31 * index), above)
        words = format_length(depth, units) + (" off" if index == 0 else "")
        sheet.text(words, (352, 31 * index + 14), size=16, anchor="lm")


def sections(sheet: Sheet, billet: Billet, turn: float) -> None:
    """Draw the slices: the end grain turning; length of a turn in mm."""
    sheet.text("Slices, an eighth of a turn apart", (20, 248), size=16)
    keep(sheet, (20, 276), (516, 128), _slices, billet, turn)


def _slices(sheet: Sheet, billet: Billet, turn: float) -> None:
    """Draw five slices an eighth of a turn apart."""
    side = 96
    pixel = max(billet.size.width, billet.size.thickness) * 1.04 / side
    for index, words in enumerate(("0°", "45°", "90°", "135°", "180°")):
        centre = (billet.size.length / 2 + index * turn / 8, 0.0, 0.0)
        plane = Plane.facing(billet, "end", centre, (side, side), pixel)
        sheet.steel(etch.seen(billet, plane), (104 * index, 0), plane)
        sheet.text(words, (104 * index + side / 2, 104), size=15, anchor="ma", ink=QUIET)


@lru_cache(maxsize=4)  # alt text, numbers and remark tell the same
def line_angle(billet: Billet, height: float) -> float:
    """Measure how much the metal leans on the middle line of a ground face, degrees.

    Two specks that lay one behind the other along the untwisted bar are followed
    through all steps; a bundle is measured in its first bar.
    """
    chain, start = _undone(billet, height)
    ends = []
    for along in (-1e-3, 1e-3):
        point = (start[0] + along, start[1], start[2])
        for part in reversed(chain):
            point = part.do(point)
        ends.append(point)
    run, aside = (float(ends[1][axis][0] - ends[0][axis][0]) for axis in (0, 1))
    return math.degrees(math.atan2(abs(aside), abs(run)))


def round_height(billet: Billet, height: float) -> float:
    """Find how far from the axis the face's middle lay in the round bar, mm."""
    _, start = _undone(billet, height)
    return float(np.hypot(start[1], start[2])[0])


def widened(across: float, height: float) -> float:
    """Find how many times as wide squaring up makes a round bar at a height above its axis.

    Parameters
    ----------
    across : float
        Diameter of the round bar, mm.
    height : float
        From its axis, mm, as in the round bar.
    """
    y = np.array([-1e-3, 1e-3])
    size = RoundSize(1.0, across, across)
    _, moved, _ = SquareUp().do((0 * y, y, 0 * y + height), size)
    return float(np.ptp(moved) / np.ptp(y))


def _undone(billet: Billet, height: float) -> tuple[list[Billet], tuple]:
    """Follow the face's middle back to the stack; give the bars it went through, too."""
    middle = tuple(np.array([part]) for part in (billet.size.length / 2, 0.0, height))
    chain = [billet]
    if isinstance(billet.source, Bundle):
        middle = (middle[0], np.array([_middle_line(billet)]), middle[2])
        chain.append(billet.source.bars[0])
    start = middle
    for part in chain:
        start = part.undo(start)
        if part is not chain[-1]:
            start = part.source.own(0, start)
    return chain, start


def _middle_line(billet: Billet) -> float:
    """Give how far aside the middle of the (first) bar lies, mm."""
    return -billet.size.width / 4 if isinstance(billet.source, Bundle) else 0.0


def lines_a_turn(billet: Billet, height: float, turn: float) -> int:
    """Count the lines that the middle of the face crosses in one turn; both in mm."""
    aside, low = _middle_line(billet), (billet.size.length - turn) / 2
    # a hair inside the skin
    start, end = ((x, aside, height * (1 - 1e-9)) for x in (low, low + turn))
    return billet.census(start, end).bands - 1


def along(billet: Billet, height: float, *, columns: int, rows: int, pixel: float) -> Plane:
    """Look down on a face ground along the bar, mm above its axis; pixel in mm."""
    middle = _middle_line(billet) if rows == 1 else 0.0
    centre = (billet.size.length / 2, middle, height)
    return Plane.facing(billet, "face", centre, (columns, rows), pixel)


def face_away(billet: Billet, height: float) -> float:
    """Say what share of the bar goes when its face is ground to a height, 0 … 1."""
    share = min(height / (billet.size.thickness / 2), 1.0)
    if billet.size.round:  # a segment of a circle, or of an oval
        return (math.acos(share) - share * math.sqrt(1 - share * share)) / math.pi
    return (1 - share) / 2
