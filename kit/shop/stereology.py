"""From counts to numbers: mean intercept, true spacing, how sure.

Sources: Underwood, Quantitative Stereology (1970). The interval of a few counts is
Student's t, 95 %; only the table of its multipliers is taken from ASTM E562-02, Table 1.
(That standard is of volume fractions, not of widths.)
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from kit.basics.errors import KitError
from kit.shop.stripes import Bands

# Student's t for 95 %, two-sided, by number of counts: ASTM E562-02, Table 1.
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

    @property
    def relative(self) -> float:
        """Half of the interval in per cent of the mean."""
        return 100 * self.within / self.mean

    def times(self, factor: float) -> Estimate:
        """Give the estimate of a multiple."""
        return Estimate(self.mean * factor, self.within * abs(factor), self.count)


def estimate(counts: Sequence[float]) -> Estimate:
    """Take the mean of at least two counts with its interval: Student's t, 95 %.

    Raises
    ------
    KitError
        With fewer than two.

    Examples
    --------
    >>> some = estimate([25, 30, 20, 35, 25])
    >>> some.mean, round(some.within, 2), round(some.relative)
    (27.0, 7.08, 26)
    """
    number = len(counts)
    if number < 2:
        msg = f"How sure a mean is can be said from two counts on. Given: {number}."
        raise KitError(msg)
    mean = sum(counts) / number
    spread = math.sqrt(sum((one - mean) ** 2 for one in counts) / (number - 1))
    student = STUDENT[number - 2] if number - 2 < len(STUDENT) else 1.96
    return Estimate(mean, student * spread / math.sqrt(number), number)


def band_width(lines: Sequence[Bands]) -> Estimate:
    """Mean width of a band over several lines, mm (the mean intercept).

    Raises
    ------
    KitError
        Without a scale, or if fewer than two lines could be counted.
    """
    sure = [line for line in lines if not line.doubt]
    if len(sure) < 2:
        why = next((line.doubt for line in lines if line.doubt), "There are too few lines.")
        raise KitError(why)
    if sure[0].pixel is None:
        msg = "Set a scale first: two places on the picture and the millimetres between."
        raise KitError(msg)
    return estimate([line.spacing for line in sure])


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
