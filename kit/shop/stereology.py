"""What is measured on a face: which way lines run, how often they come, how sure.

Sources: Underwood, Quantitative Stereology (1970). The interval of a few counts is
Student's t, 95 %; only the table of its multipliers is taken from ASTM E562-02, Table 1.
(That standard is of volume fractions, not of widths.)
"""

import math
from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from kit.basics.claim import Claim, Kind
from kit.basics.errors import KitError
from kit.shop.photograph import Photograph, Point, strip
from kit.shop.scale import SURE

# What counts as order; ours.
LEAST_ORDER = 0.1  # of lines all one way: below, they run in every direction
LOST = 3  # pixels at each edge of a patch, of which no slope is known
ROWS = 128  # of a patch that are looked at together
LEAST_LIKENESS = 0.3  # of one figure to the next: below, it does not come again


class Direction(NamedTuple):
    """How lines run.

    Attributes
    ----------
    degrees : float
        Of the lines against the picture's rows, -90 … 90, rising to the right is above 0.
    order : float
        0 in all directions, 1 all one way.
    """

    degrees: float
    order: float


def line_angle(photo: Photograph, centre: Point, radius: float) -> Direction:
    """Find how the lines in a round patch run.

    By the mean direction of the slopes of light, doubled so that opposite slopes agree
    (structure tensor: Jähne, Digital Image Processing, 5th ed., section 13.3).

    Raises
    ------
    KitError
        If the patch is smaller than 5 pixels, leaves the picture, or shows no lines.
    """
    rows, columns = photo.light.shape
    x, y = centre
    inside = radius <= x <= columns - 1 - radius and radius <= y <= rows - 1 - radius
    if radius < 5 or not inside:
        msg = (
            "The patch to measure an angle in must be at least 5 pixels in radius and lie "
            f"in the picture of {columns} × {rows}. Given: {radius:.0f} pixels round "
            f"({x:.0f}, {y:.0f})."
        )
        raise KitError(msg)
    squares = product = energy = 0.0
    down_to = math.floor(y + radius)
    for top in range(math.ceil(y - radius), down_to - 2 * LOST, ROWS):
        bottom = min(top + ROWS + 2 * LOST, down_to + 1)
        right, down, weight = _weighed(photo.light, (top, bottom), centre, radius)
        squares += float((weight * (right**2 - down**2)).sum())
        product += float((weight * right * down).sum())
        energy += float((weight * (right**2 + down**2)).sum())
    order = 2 * math.hypot(squares / 2, product) / energy if energy > 0 else 0.0
    if order < LEAST_ORDER:
        msg = "I cannot decide: the lines in that patch run in every direction."
        raise KitError(msg)
    slope = 0.5 * math.atan2(2 * product, squares)  # of the light; rows count downwards
    degrees = 90 - math.degrees(slope)
    return Direction((degrees + 90) % 180 - 90, order)


def _weighed(
    light: np.ndarray, rows: tuple[int, int], centre: Point, radius: float
) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Give the slopes of some rows of a round patch, and what each counts for."""
    left, right = math.ceil(centre[0] - radius), math.floor(centre[0] + radius) + 1
    slopes = _slopes(light[slice(*rows), left:right].astype(float))
    column = (np.arange(left + LOST, right - LOST) - centre[0]) / radius
    row = (np.arange(rows[0] + LOST, rows[1] - LOST) - centre[1]) / radius
    return *slopes, np.maximum(1 - column**2 - row[:, None] ** 2, 0)


def _slopes(patch: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Give the slope of light to the right and down, without the patch's edge.

    With Scharr's filter, whose error of direction is least (Jähne, section 12.4).
    """
    for _ in range(2):  # against grain, two pixels each way
        patch = ((patch[:-2] + 2 * patch[1:-1] + patch[2:]) / 4).T
        patch = ((patch[:-2] + 2 * patch[1:-1] + patch[2:]) / 4).T
    wide = (3 * patch[:-2] + 10 * patch[1:-1] + 3 * patch[2:]) / 16
    tall = (3 * patch[:, :-2] + 10 * patch[:, 1:-1] + 3 * patch[:, 2:]) / 16
    return (wide[:, 2:] - wide[:, :-2]) / 2, (tall[2:] - tall[:-2]) / 2


def repeat(photo: Photograph, start: Point, end: Point) -> float:
    """Find how often a figure, a star for one, comes again along a line, pixels.

    By the first great maximum of the likeness of the line with itself, moved along
    (autocorrelation). Stars of either shade count, if they look alike.

    Raises
    ------
    KitError
        If nothing comes again at least three times.
    """
    length = math.dist(start, end)
    if length < 30:
        msg = f"A line to look for repeats must be at least 30 pixels. Given: {length:.0f}."
        raise KitError(msg)
    light = strip(photo, start, end, 1).mean(axis=0)
    size = light.size
    run = np.linspace(0, 1, size)
    light = light - np.polyval(np.polyfit(run, light, 2), run)
    power = np.abs(np.fft.rfft(light, 2 * size)) ** 2
    likeness = np.fft.irfft(power)[: size // 2]
    likeness /= np.arange(size, size - size // 2, -1)  # fewer and fewer overlap
    likeness /= max(likeness[0], 1e-12)
    down = np.flatnonzero(likeness < 0)
    peaks = [
        place
        for place in range(int(down[0]) if down.size else size, likeness.size - 1)
        if likeness[place - 1] < likeness[place] >= likeness[place + 1]
    ]
    best = max((likeness[place] for place in peaks), default=0.0)
    if best < LEAST_LIKENESS:
        msg = "I cannot decide: nothing along that line comes again."
        raise KitError(msg)
    first = next(place for place in peaks if likeness[place] >= 0.8 * best)
    before, peak, after = likeness[first - 1 : first + 2]
    shift = 0.5 * (before - after) / (before - 2 * peak + after)
    return (first + shift) * length / (size - 1)


STUDENTS = Claim(
    says="How sure a mean of a few counts is, Student's t tells: 95 %, two-sided.",
    kind=Kind.PUBLISHED,
    source="ASTM E562-02, Table 1",
    seen=True,
    unit="by number of counts less one",
    holds=("STUDENT",),
)
STUDENT = (
    *(12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228),
    *(2.201, 2.179, 2.160, 2.145, 2.131, 2.120, 2.110, 2.101, 2.093, 2.086),
    *(2.080, 2.074, 2.069, 2.064, 2.060, 2.056, 2.052, 2.048, 2.045),
)


class Estimate(NamedTuple):
    """A mean of several counts, and how far off it may be.

    Attributes
    ----------
    mean : float
    within : float
        Half of the interval that holds the truth in 95 cases of 100, if the lines were
        laid without choosing.
    count : int
        How many counts it rests on.
    """

    mean: float
    within: float
    count: int


def estimate(counts: Sequence[float]) -> Estimate:
    """Take the mean of at least two counts with its interval: Student's t, 95 %.

    Raises
    ------
    KitError
        With fewer than two.

    Examples
    --------
    >>> some = estimate([25, 30, 20, 35, 25])
    >>> some.mean, round(some.within, 2)
    (27.0, 7.08)
    """
    number = len(counts)
    if number < 2:
        msg = f"How sure a mean is can be said from two counts on. Given: {number}."
        raise KitError(msg)
    mean = sum(counts) / number
    spread = math.sqrt(sum((one - mean) ** 2 for one in counts) / (number - 1))
    student = STUDENT[number - 2] if number - 2 < len(STUDENT) else SURE
    return Estimate(mean, student * spread / math.sqrt(number), number)


def true_spacing(apparent: float, angle: float) -> float:
    """Layer thickness from the width of its band on a face.

    Parameters
    ----------
    apparent : float
        Across the bands, on the face, any unit.
    angle : float
        Between the face and the layers, degrees, above 0 … 90.

    Raises
    ------
    KitError
        An angle out of its range.
    """
    if not 0 < angle <= 90:
        msg = (
            "The angle between face and layers must be above 0 and at most 90 degrees. "
            f"Given: {angle:g}."
        )
        raise KitError(msg)
    return apparent * math.sin(math.radians(angle))
