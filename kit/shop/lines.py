"""Lines laid side by side across a face, none of them outside a box around the steel."""

import math
from dataclasses import replace

import numpy as np

from kit.basics.errors import KitError
from kit.shop.photograph import Photograph, Point
from kit.shop.stripes import LEAST_LINE, Bands, along

Box = tuple[float, float, float, float]
SPREAD = 0.75  # of the room to either side; ours


def across(
    photo: Photograph,
    start: Point,
    end: Point,
    lines: int,
    box: Box | None = None,
    aside: float = math.inf,
) -> list[Bands]:
    """Count along several lines, side by side.

    Parameters
    ----------
    photo : Photograph
    start, end : (column, row)
        The middle line.
    lines : int
        How many, 2 … 30; spread over three quarters of what lies beside the line.
    box : (left, top, right, bottom), optional
        No line leaves it; left out, the whole picture.
    aside : float
        Pixels to either side, at most.

    Raises
    ------
    KitError
        If the line has no length, or is too short inside the box.
    """
    rows, columns = photo.light.shape
    if math.dist(start, end) < 1:
        msg = "A line needs two different ends."
        raise KitError(msg)
    walls = (0, 0, columns - 1, rows - 1)
    if box:
        walls = (*np.maximum(box[:2], 0), *np.minimum(box[2:], walls[2:]))
        start, end = _clipped(start, end, walls) or (start, start)
        if math.dist(start, end) < LEAST_LINE:
            msg = (
                f"A line must run at least {LEAST_LINE} pixels inside the box around the "
                f"steel. Given: {math.dist(start, end):.0f} pixels of it."
            )
            raise KitError(msg)
    length = math.dist(start, end)
    side = (-(end[1] - start[1]) / length, (end[0] - start[0]) / length)
    middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
    reach = [
        sign * min(SPREAD * _room(middle, (sign * side[0], sign * side[1]), walls), aside)
        for sign in (-1, 1)
    ]
    found = []
    asides = np.linspace(*reach, lines)
    asides[np.argmin(np.abs(asides))] = 0.0  # the line itself is always one of them
    for far in asides:
        moved = [(x + far * side[0], y + far * side[1]) for x, y in (start, end)]
        inside = _clipped(*moved, walls) if far else (start, end)
        if inside and math.dist(*inside) >= LEAST_LINE:
            found.append(replace(along(photo, *inside), aside=float(far)))
    return found


def _clipped(start: Point, end: Point, box: Box) -> tuple[Point, Point] | None:
    """Give the part of a line that lies in a box (Liang & Barsky, 1984)."""
    first, last = 0.0, 1.0
    for axis in (0, 1):
        step = end[axis] - start[axis]
        for sign, wall in ((-1, box[axis]), (1, box[axis + 2])):
            speed, room = sign * step, sign * (wall - start[axis])
            if speed > 0:
                last = min(last, room / speed)
            elif speed < 0:
                first = max(first, room / speed)
            elif room < 0:
                return None
    if first >= last:
        return None
    run = (end[0] - start[0], end[1] - start[1])
    one, other = (
        (start[0] + share * run[0], start[1] + share * run[1]) for share in (first, last)
    )
    return one, other


def _room(place: Point, step: Point, walls: Box) -> float:
    """Say how far a place inside some walls can move that way before it meets one."""
    rooms = [
        (walls[axis + 2 * (step[axis] > 0)] - place[axis]) / step[axis]
        for axis in (0, 1)
        if abs(step[axis]) > 1e-9
    ]
    return max(0.0, min(rooms))
