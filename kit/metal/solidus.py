"""Between which temperatures a steel is austenite and solid, by its carbon.

Below, part of it is ferrite or carbide, and figures for austenite do not hold. Above, its
grain boundaries melt. The solidus is calculated, at rest and for iron and carbon alone:
how far the models reach, and never advice on how hot to go (see `kit.metal.working_heat`).

Leaves out: what other elements do. Two per cent of nickel lower the start of austenite by
some 55 °C (computed with an open database of steels); most alloying lowers the solidus by
some tens of degrees (from memory). Real steel burns earlier, at dirt and segregations.
"""

from __future__ import annotations

import math
from types import MappingProxyType

import numpy as np

from kit.basics.errors import KitError
from kit.basics.units import format_temperature
from kit.forge.steels import Grade
from kit.metal.iron_carbon import LEAST_CARBON as LEAST_ON_LINE
from kit.metal.iron_carbon import MOST_CARBON as MOST_ON_LINE
from kit.metal.iron_carbon import upper_line

# Weight per cent of carbon and °C. Computed with the Fe-C description `cfe_broshe.tdb`
# that the package pycalphad carries for its tests; tests/test_solidus.py computes them
# again. Between 0 and 0.2 % the first figure is kept: the true one is higher.
SOLIDUS = (
    (0.20, 1489.0),
    (0.60, 1418.0),
    (0.75, 1392.0),
    (0.84, 1376.0),
    (0.95, 1356.0),
    (1.00, 1348.0),
    (1.20, 1312.0),
    (1.50, 1257.0),
)
MOST_CARBON = 2.1  # weight per cent: above, it is cast iron
# Grades that carbon alone says nothing of: where melting starts on data sheets, °C (from
# memory).
OTHERS = MappingProxyType({"nickel": 1435.0, "304": 1400.0, "316": 1375.0})


def solidus(carbon: float) -> float:
    """Give the temperature at which a plain carbon steel is calculated to start melting.

    Parameters
    ----------
    carbon : float
        Weight per cent, 0 to 2.1. Below 0.2 the value at 0.2 is given, which is safe;
        above 1.5 the last stretch of the table is drawn on.

    Returns
    -------
    float
        °C.

    Raises
    ------
    KitError
        For a content that no steel has.

    Examples
    --------
    >>> solidus(0.95)
    1356.0
    """
    _check(carbon)
    contents, lines = zip(*SOLIDUS, strict=True)
    if carbon <= contents[-1]:
        return float(np.interp(carbon, contents, lines))
    slope = (lines[-1] - lines[-2]) / (contents[-1] - contents[-2])
    return lines[-1] + slope * (carbon - contents[-1])


def austenite_from(carbon: float) -> float:
    """Give the temperature above which a plain carbon steel is all austenite, °C.

    Parameters and errors as for `solidus`. It is `iron_carbon.upper_line`, which goes from
    0.02 to 1.5 %; outside, its value at the nearer end.

    Examples
    --------
    >>> austenite_from(0.76), austenite_from(0.95)
    (727.0, 800.6)
    """
    _check(carbon)
    return upper_line(min(max(carbon, LEAST_ON_LINE), MOST_ON_LINE))


def check_heat(celsius: float, grade: Grade) -> None:
    """Refuse °C at which a steel would melt, or is not all austenite.

    That is how far the models reach; how hot a steel may be worked is another thing.

    Raises
    ------
    KitError
        One sentence that names the steel.
    """
    carbon = grade.nominal.get("C", 0.0)
    most = OTHERS.get(grade.name, solidus(carbon))
    if not celsius < most:
        msg = f"{grade} would not stay solid. Calculated: begins to melt at {both(most)}. "
        raise KitError(msg + f"Given: {both(celsius)}.")
    least = austenite_from(carbon)
    if grade.name not in OTHERS and celsius < least:
        msg = (
            f"{grade} is too cold for this: only from {both(least)} up is it all "
            f"austenite, in which the figures hold. Given: {both(celsius)}."
        )
        raise KitError(msg)


def both(celsius: float) -> str:
    """Write a temperature in both scales, for a sentence.

    Examples
    --------
    >>> both(1356)
    '1356 °C (2473 °F)'
    """
    return f"{format_temperature(celsius)} ({format_temperature(celsius, 'F')})"


def _check(carbon: float) -> None:
    if not (math.isfinite(carbon) and 0 <= carbon <= MOST_CARBON):
        msg = f"Carbon in steel must be from 0 to {MOST_CARBON} %. Given: {carbon}."
        raise KitError(msg)
