"""Small lengths, long times and greys as people write them."""

from __future__ import annotations

import numpy as np

from kit.basics.units import Units, format_length
from kit.metal.colour import colour_difference, lightness

MINUTES_A_DAY = 1440


def thin(mm: float, units: Units) -> str:
    """Write a small depth in millimetres, or in decimal inches, throughout.

    Examples
    --------
    >>> thin(0.05, Units.MM), thin(0.05, Units.INCH_FRACTION)
    ('0.05 mm', '0.0020 in')
    """
    if units is Units.MM:
        return f"{round(mm, 4):g} mm"
    return format_length(mm, Units.INCH_DECIMAL)


def time_words(minutes: float) -> str:
    """Write a time as people say it: seconds, minutes, hours, days, years.

    Examples
    --------
    >>> [time_words(some) for some in (0.6, 3.72, 200, 78000, 9e6)]
    ['36 s', '3.7 min', '3.3 h', '54 days', '17 years']
    """
    for size, least, name in (
        (365.25 * MINUTES_A_DAY, 2, "years"),
        (MINUTES_A_DAY, 2, "days"),
        (60, 2, "h"),
        (1, 1, "min"),
    ):
        if minutes >= least * size:
            number = minutes / size
            return f"{number:.1f} {name}" if number < 10 else f"{number:,.0f} {name}"
    return f"{60 * minutes:.0f} s"


def how_unlike(one: float, other: float) -> str:
    """Say how light two greys look, and how different (CIE 1976 L*, CIEDE2000)."""
    levels = [float(lightness(tone)) for tone in (one, other)]
    labs = [np.array([level, 0.0, 0.0]) for level in levels]
    apart = float(colour_difference(*labs))
    return f"lightness L* {levels[0]:.0f} and {levels[1]:.0f}, ΔE00 = {apart:.0f}"
