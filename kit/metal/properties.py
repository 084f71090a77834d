"""How far steels expand, and the strain when two bars shrink unequally.

All figures are for room temperature. Steels of one family differ by nothing that matters.

Leaves out: yielding; that steel expands more per degree when hot; the swelling when it
turns to martensite, larger than most of what is computed here.
"""

from kit.basics.claim import Claim, Kind
from kit.basics.errors import KitError
from kit.basics.units import both
from kit.forge.steels import Grade

EXPANDS = Claim(
    says="A steel expands by some twelve millionths a degree, 18-8 stainless by half as "
    "much again.",
    kind=Kind.PUBLISHED,
    source="Callister & Rethwisch, Materials Science and Engineering, Table B.6, of the "
    "steel named beside; iron Table 19.1; of those 1025, 316, iron and nickel were read",
    unit="millionths per °C; published ones of one steel differ by about 1",
    within="near room temperature; used up to 430 °C (806 °F)",
    holds=("_EXPANSIONS", "_BY_NAME"),
    spread=(0.92, 1.08),
    told=("hot bar is a little longer", "would shrink by"),
)
# °C. Above it the coefficients at room temperature are too far off to use; ours.
HOTTEST = 430.0


# Millionths per °C: Callister & Rethwisch, Materials Science and Engineering, Table B.6, of
# the steel named beside; iron Table 19.1. Published ones of one steel differ by about 1.
_EXPANSIONS = (
    (11.7, ("1018",)),  # 1020
    (11.3, ("1075", "1080", "1084", "1095", "W1", "W2")),  # 1040
    (12.3, ("5160", "52100", "15N20", "80CrV2", "L6", "O1")),  # 4140, 4340
    (17.2, ("304",)),
    (16.0, ("316",)),
    (10.2, ("420", "440C")),  # 440A
    (13.3, ("nickel",)),  # UNS N02200
    (11.8, ("wrought iron",)),  # iron
)
_BY_NAME = {name: expansion for expansion, names in _EXPANSIONS for name in names}


def expansion(grade: Grade) -> float:
    """Look up how far a grade expands at room temperature, millionths per °C.

    Raises `KitError` for a grade that is not on the rack.
    """
    if grade.name not in _BY_NAME:
        msg = f"I have no expansion of {grade.name[:40]!r}, only of "
        raise KitError(msg + ", ".join(_BY_NAME) + ".")
    return _BY_NAME[grade.name]


def mismatch(first: Grade, second: Grade) -> float:
    """Say by how much more the second expands than the first, millionths per °C.

    Below about 1.5 it means nothing: published coefficients differ by as much.
    """
    return expansion(second) - expansion(first)


def cooling_strain(
    first: Grade, second: Grade, cooled_from: float, cooled_to: float = 20.0
) -> float:
    """Say by how much more the second would shrink than the first, were both free.

    Parameters
    ----------
    first, second : Grade
    cooled_from, cooled_to : float
        °C, -196 to 430 each.

    Returns
    -------
    float
        mm per mm; negative if the second shrinks less. Between carbon and austenitic
        steel too much by a tenth from 200 °C, by a quarter from 430 °C: the gap narrows.

    Raises
    ------
    KitError
        Outside of those temperatures.

    Examples
    --------
    >>> from kit.forge.steels import steel
    >>> round(cooling_strain(steel("1084"), steel("304"), 430) * 1000, 1)
    2.4
    """
    return mismatch(first, second) * 1e-6 * _drop(cooled_from, cooled_to)


def _drop(cooled_from: float, cooled_to: float) -> float:
    for heat in (cooled_from, cooled_to):
        if not -196 <= heat <= HOTTEST:
            msg = f"Shrinking is computed from {both(-196)} to {both(HOTTEST)}. "
            raise KitError(msg + f"Given: {heat:g} °C ({heat * 1.8 + 32:g} °F).")
    return cooled_from - cooled_to
