"""How hard a quench can make a steel: carbon alone decides.

As-quenched martensite is as hard as its carbon makes it, whatever else is in the steel:
Grange, Hribal & Porter, Metallurgical Transactions A 8 (1977) 1775-1785. Other elements
decide how slow the quench may be. In thin layers that were long hot the carbon that counts
is the mean of the stack.

Leaves out: tempering, which takes hardness away again; a quench too slow for the section.
"""

from dataclasses import dataclass

from kit.basics.errors import KitError

SOURCE = "ASTM A255, initial hardness and 50 % martensite against carbon, 0.10 to 0.70 %"

LEAST_CARBON, MOST_CARBON = 0.10, 0.70  # wt%, the range of ASTM A255

# HRC for powers 0 to 5 of the carbon content, as in SOURCE.
_ALL_MARTENSITE = (35.395, 6.990, 312.330, -821.744, 1015.479, -538.346)
_HALF_MARTENSITE = (22.974, 6.214, 356.364, -1091.488, 1464.880, -750.441)

CAPPED = (
    "More than 0.7 % carbon adds no hardness in the quench: it stays in carbide, or keeps "
    "soft austenite from turning. Such a steel wears longer, it is not harder."
)

# Carbon from which a quenched steel will hold a cutting edge, where it reaches 60 HRC.
# Common practice, no source.
EDGE_CARBON = 0.5


@dataclass(frozen=True, kw_only=True)
class Quenched:
    """Hardness straight from the quench, in HRC.

    ``all_martensite`` if the quench was fast enough, ``half_martensite`` if only half of
    the steel turned. ``capped`` if the steel has more carbon than counts.
    """

    all_martensite: float
    half_martensite: float
    capped: bool


def as_quenched(carbon: float) -> Quenched:
    """Say how hard a steel can be straight from the quench.

    Parameters
    ----------
    carbon : float
        Weight per cent in the austenite, 0.10 to 2. Above 0.70 it counts as 0.70, for
        the reason in `CAPPED`.

    Returns
    -------
    Quenched
        By ASTM A255. Its curve is highest at 0.66 % carbon, by 0.3 HRC: that means nothing.

    Raises
    ------
    KitError
        Below 0.10 % there is next to nothing to harden; above 2 % it is cast iron.

    Examples
    --------
    >>> as_quenched(0.4).all_martensite, as_quenched(0.4).half_martensite
    (56.1, 42.4)
    >>> as_quenched(0.95).capped
    True
    """
    if not LEAST_CARBON <= carbon <= 2:
        msg = (
            f"Hardness from the quench is known from {LEAST_CARBON:.2f} to 2 % carbon. "
            f"Given: {carbon:g} %."
        )
        raise KitError(msg)
    counts = min(carbon, MOST_CARBON)
    return Quenched(
        all_martensite=_sum_of_powers(_ALL_MARTENSITE, counts),
        half_martensite=_sum_of_powers(_HALF_MARTENSITE, counts),
        capped=carbon > MOST_CARBON,
    )


def _sum_of_powers(factors: tuple[float, ...], carbon: float) -> float:
    return sum(factor * carbon**power for power, factor in enumerate(factors))
