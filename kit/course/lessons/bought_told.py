"""A bar you bought, in words: how thick to buy it for the blade that is wanted.

Grinding, scale and the bevel take the blade down towards the bar's middle plane: a bar
too thin has no spine in it, and the thicker it is, the deeper lies the edge below the
pattern that was seen on its face.
"""

from __future__ import annotations

import math
from typing import Any

from kit.basics.told import counted, one_way
from kit.basics.units import MM_PER_INCH, Units, format_length
from kit.shop.bought import FLAT, LADDER, RAINDROP, TWIST

MOST = 12.0  # mm: the thickest bar on the slider
PARTS = {LADDER: "rung", RAINDROP: "drop"}
# What fewer than one layer can draw: a line around it, and no band.
AT_MOST = {LADDER: "a stripe", RAINDROP: "a spot"}
UNKNOWN = "How deep a pattern goes, no face tells."


def advice(job: Any, units: Units) -> str:
    """Say between what thicknesses to buy, what this one keeps, and what is not known.

    Parameters
    ----------
    job : BoughtLesson
    units : Units
    """
    return one_way(lambda units: f"{_range(job, units)} {UNKNOWN}", units)


def bounds(job: Any, units: Units) -> tuple[float, float]:
    """Give the thinnest and the thickest bar to buy, mm, as one would ask for it.

    In tenths of a millimetre or 1/32 in, both rounded so that they keep what they say.
    """
    step = 0.1 if units is Units.MM else MM_PER_INCH / 32
    least = math.ceil(round(job.least / step, 6)) * step
    most = job.most
    return least, most if math.isinf(most) else math.floor(round(most / step, 6)) * step


def _range(job: Any, units: Units) -> str:
    least, most = bounds(job, units)
    low, here = format_length(least, units), format_length(job.thickness, units)
    if most < least and job.bought == FLAT:
        return f"Buy {low} or more for the spine: so little bevel meets no layer."
    if most < least:
        high, part = format_length(job.most, units), PARTS[job.bought]
        return (
            f"No bar has both: the spine needs {low}, above {high} a {part} is at most "
            f"{AT_MOST[job.bought]}."
        )
    high = "or more" if most > MOST else f"to {format_length(most, units)}"
    return f"Buy {low} {high}: at {here} {_here(job, units)}."


def _here(job: Any, units: Units) -> str:
    """Say what the chosen bar gives."""
    if job.thickness < job.least - 1e-9:
        return f"only {format_length(job.back, units)} is left for the spine"
    left = job.left
    if job.bought == TWIST:
        return "the twist is there at the edge, for it runs to the middle"
    if job.bought == FLAT:
        met = counted(round(left), "layer") if left >= 1 else "no layer"
        return f"a bevel meets {met}"
    part = PARTS[job.bought]
    if left < 1:
        return f"a {part} is at most {AT_MOST[job.bought]} at the edge"
    return f"the edge keeps {left:.1f} of a {part}'s {job.shown:g} layers"
