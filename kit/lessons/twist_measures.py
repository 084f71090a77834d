"""What can be measured on the face of a twisted bar: lean and number of its lines."""

from __future__ import annotations

import math

import numpy as np

from kit.billet import Billet
from kit.bundle import Bundle
from kit.surface import Plane
from kit.trace import see


def line_angle(billet: Billet, height: float) -> float:
    """Measure how much the metal leans on the middle line of a ground face, degrees.

    Two specks that lay one behind the other along the untwisted bar are followed
    through all steps; a bundle is measured in its first bar.
    """
    middle = tuple(np.array([part]) for part in (billet.size.length / 2, 0.0, height))
    chain = [billet]
    if isinstance(billet.source, Bundle):
        first = billet.source.bars[0]
        # the middle line of the first bar
        middle = (middle[0], np.array([-billet.size.width / 4]), middle[2])
        chain.append(first)
    start = middle
    for part in chain:
        start = part.undo(start)
        if part is not chain[-1]:
            start = part.source.own(0, start)
    ends = []
    for along in (-1e-3, 1e-3):
        point = (start[0] + along, start[1], start[2])
        for part in reversed(chain):
            point = part.do(point)
        ends.append(point)
    run, aside = (float(ends[1][axis][0] - ends[0][axis][0]) for axis in (0, 1))
    return math.degrees(math.atan2(abs(aside), abs(run)))


def lines_a_turn(billet: Billet, height: float, turn: float) -> float:
    """Count the lines that the middle of the face crosses in one turn, on the picture."""
    pixel = turn / 4000
    plane = along(billet, height, columns=4000, rows=1, pixel=pixel)
    tone = see(
        billet, plane, dict.fromkeys(billet.source.steels, 0.0) | _black_white(billet)
    )
    return float(np.count_nonzero(np.diff(tone.tone[0] > 0.5)))


def _black_white(billet: Billet) -> dict[str, float]:
    names = sorted(set(billet.source.steels))
    return {name: float(index) for index, name in enumerate(names)}


def along(billet: Billet, height: float, *, columns: int, rows: int, pixel: float) -> Plane:
    """Look down on a face ground along the bar, at a height above its axis."""
    middle = (
        -billet.size.width / 4 if isinstance(billet.source, Bundle) and rows == 1 else 0.0
    )
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
