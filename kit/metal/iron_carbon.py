"""The iron–carbon diagram below the melt: its lines, and what slow cooling leaves.

The lines are for iron and carbon alone. They were computed with the package pycalphad
from the open file cfe_broshe.tdb that its wheel carries in ``tests/databases``; the
tests compute them again.
"""

from dataclasses import dataclass

import numpy as np

from kit.basics.errors import KitError

# Callister & Rethwisch, Materials Science and Engineering, 9th ed., ch. 9 (Fe-Fe3C).
EUTECTOID_CARBON = 0.76  # wt%
EUTECTOID_TEMPERATURE = 727.0  # °C
FERRITE_CARBON = 0.022  # wt%: the most that iron holds below the eutectoid
CEMENTITE_CARBON = 6.70  # wt%: iron carbide, Fe3C

# wt% carbon and the °C above which all is austenite: A3 up to the eutectoid, Acm after.
_UPPER_LINE = np.array(
    [
        (0.02, 902.0),
        (0.05, 888.6),
        (0.10, 869.0),
        (0.20, 836.4),
        (0.30, 809.8),
        (0.40, 787.1),
        (0.50, 767.5),
        (0.60, 750.5),
        (0.70, 735.2),
        (EUTECTOID_CARBON, EUTECTOID_TEMPERATURE),
        (0.80, 742.1),
        (0.84, 758.1),
        (0.90, 781.5),
        (0.95, 800.6),
        (1.00, 819.4),
        (1.10, 855.7),
        (1.20, 890.8),
        (1.30, 924.7),
        (1.50, 989.3),
    ]
)
LEAST_CARBON, MOST_CARBON = _UPPER_LINE[[0, -1], 0]


@dataclass(frozen=True, kw_only=True)
class SlowCooled:
    """What iron and carbon become when cooled slowly to just below 727 °C (1341 °F).

    All are parts of the mass, 0 to 1. ``ferrite`` and ``cementite`` are everything of
    each; ``pearlite`` is their fine mixture, ``early_ferrite`` and ``early_cementite``
    what formed before it.
    """

    ferrite: float
    cementite: float
    pearlite: float
    early_ferrite: float
    early_cementite: float


def slow_cooled(carbon: float) -> SlowCooled:
    """Say how much ferrite, carbide and pearlite a slowly cooled steel holds.

    The lever rule: Callister & Rethwisch, 9th ed., section 9.19.

    Parameters
    ----------
    carbon : float
        Weight per cent, 0.022 to 6.70.

    Raises
    ------
    KitError
        Outside of that range.

    Examples
    --------
    >>> steel = slow_cooled(0.35)
    >>> round(steel.pearlite, 2), round(steel.early_ferrite, 2)
    (0.44, 0.56)
    """
    _within(carbon, FERRITE_CARBON, CEMENTITE_CARBON)
    cementite = (carbon - FERRITE_CARBON) / (CEMENTITE_CARBON - FERRITE_CARBON)
    if carbon <= EUTECTOID_CARBON:
        pearlite = (carbon - FERRITE_CARBON) / (EUTECTOID_CARBON - FERRITE_CARBON)
    else:
        pearlite = (CEMENTITE_CARBON - carbon) / (CEMENTITE_CARBON - EUTECTOID_CARBON)
    early = 1 - pearlite
    return SlowCooled(
        ferrite=1 - cementite,
        cementite=cementite,
        pearlite=pearlite,
        early_ferrite=early if carbon <= EUTECTOID_CARBON else 0.0,
        early_cementite=early if carbon > EUTECTOID_CARBON else 0.0,
    )


def upper_line(carbon: float) -> float:
    """Say above which temperature iron with this much carbon is all austenite.

    Parameters
    ----------
    carbon : float
        Weight per cent, 0.02 to 1.5.

    Returns
    -------
    float
        °C: A3 up to 0.76 % carbon, Acm above. Within 2 °C of the computed diagram.

    Raises
    ------
    KitError
        Outside of that range.

    Examples
    --------
    >>> upper_line(0.4), upper_line(0.95)
    (787.1, 800.6)
    """
    _within(carbon, LEAST_CARBON, MOST_CARBON)
    return float(np.interp(carbon, *_UPPER_LINE.T))


def carbon_in_austenite(temperature: float) -> float:
    """Say how much carbon austenite holds beside carbide: the Acm line read sideways.

    Parameters
    ----------
    temperature : float
        °C, 727 to 989 (1341 to 1812 °F).

    Returns
    -------
    float
        Weight per cent, for iron and carbon alone.

    Raises
    ------
    KitError
        Outside of that range.

    Examples
    --------
    >>> round(carbon_in_austenite(790), 2)
    0.92
    """
    line = _UPPER_LINE[_UPPER_LINE[:, 0] >= EUTECTOID_CARBON]
    least, most = line[[0, -1], 1]
    if not least <= temperature <= most:
        msg = (
            "Austenite beside carbide is known from 727 to 989 °C (1341 to 1812 °F). "
            f"Given: {temperature:g} °C ({temperature * 1.8 + 32:.0f} °F)."
        )
        raise KitError(msg)
    return float(np.interp(temperature, line[:, 1], line[:, 0]))


def _within(carbon: float, least: float, most: float) -> None:
    if not least <= carbon <= most:
        msg = f"Carbon must be {least:g} to {most:g} % here. Given: {carbon:g} %."
        raise KitError(msg)
