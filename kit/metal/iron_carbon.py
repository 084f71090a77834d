"""The iron–carbon diagram below the melt: above what all is austenite.

The line is for iron and carbon alone. It was computed with the package pycalphad
from the open file cfe_broshe.tdb that its wheel carries in ``tests/databases``; the
tests compute it again.
"""

import numpy as np

from kit.basics.errors import KitError

# Callister & Rethwisch, Materials Science and Engineering, 9th ed., ch. 9 (Fe-Fe3C).
EUTECTOID_CARBON = 0.76  # wt%
EUTECTOID_TEMPERATURE = 727.0  # °C

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


def _within(carbon: float, least: float, most: float) -> None:
    if not least <= carbon <= most:
        msg = f"Carbon must be {least:g} to {most:g} % here. Given: {carbon:g} %."
        raise KitError(msg)
