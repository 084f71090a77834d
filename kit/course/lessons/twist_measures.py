"""What can be measured on the face of a twisted bar: lean and number of its lines."""

from __future__ import annotations

import math

import numpy as np

from kit.forge.billet import Billet
from kit.forge.bundle import Bundle
from kit.forge.steps import SquareUp
from kit.forge.steps.base import RoundSize
from kit.section.surface import Plane


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
    """Count the lines that the middle of the face crosses in one turn."""
    aside, low = _middle_line(billet), (billet.size.length - turn) / 2
    # a hair inside the skin
    start, end = ((x, aside, height * (1 - 1e-9)) for x in (low, low + turn))
    return billet.census(start, end).bands - 1


def along(billet: Billet, height: float, *, columns: int, rows: int, pixel: float) -> Plane:
    """Look down on a face ground along the bar, at a height above its axis."""
    middle = _middle_line(billet) if rows == 1 else 0.0
    return Plane(
        size=billet.size,
        centre=(billet.size.length / 2, middle, height),
        right=(1.0, 0.0, 0.0),
        up=(0.0, 1.0, 0.0),
        columns=columns,
        rows=rows,
        pixel=pixel,
    )


def face_away(billet: Billet, height: float) -> float:
    """Say what share of the bar goes when its face is ground to a height, 0 … 1."""
    share = min(height / (billet.size.thickness / 2), 1.0)
    if billet.size.round:  # a segment of a circle, or of an oval
        return (math.acos(share) - share * math.sqrt(1 - share * share)) / math.pi
    return (1 - share) / 2
