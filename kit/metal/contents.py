"""What a composition may be, before a formula is asked about it."""

from collections.abc import Mapping
from math import fsum, isfinite

from kit.basics.errors import KitError
from kit.forge.steels import ATOMIC_WEIGHTS

KNOWN = (*ATOMIC_WEIGHTS, "S", "Cu", "Al", "Ti", "As")

# Per cent of elements beside carbon and iron up to which a steel is called low-alloy.
# Common practice, no source. L6, the richest on the rack, has 3.5 %.
LOW_ALLOY = 5.0

# Per cent of chromium from which a steel is stainless: EN 10088-1.
STAINLESS = 10.5


def checked(contents: Mapping[str, float]) -> dict[str, float]:
    """Read a composition, refusing what no metal can be.

    Parameters
    ----------
    contents : mapping
        Weight per cent by element, each 0 or more, 100 together at most; iron is the
        balance. `Grade.nominal` is such a mapping.

    Returns
    -------
    dict
        The same without iron.

    Raises
    ------
    KitError
        If an element is unknown, a content is no number or below 0, or they add up
        to more than 100 %.

    Examples
    --------
    >>> checked({"C": 0.84, "Mn": 0.75, "Fe": 98.41})
    {'C': 0.84, 'Mn': 0.75}
    """
    read = {str(element): _number(element, part) for element, part in contents.items()}
    unknown = [element for element in read if element not in KNOWN]
    if unknown:
        msg = f"I do not know {unknown[0][:20]!r} as an element of steel, only "
        raise KitError(msg + ", ".join(KNOWN) + ".")
    total = fsum(read.values())
    if total > 100 + 1e-9:
        msg = f"The contents must be 100 % together at most. Given: {total:g} %."
        raise KitError(msg)
    read.pop("Fe", None)
    return read


def beside_carbon(contents: Mapping[str, float]) -> float:
    """Add up all elements but carbon and iron, weight per cent.

    Examples
    --------
    >>> beside_carbon({"C": 0.84, "Mn": 0.75, "Si": 0.20})
    0.95
    """
    read = checked(contents)
    return fsum(part for element, part in read.items() if element != "C")


def low_alloy(contents: Mapping[str, float]) -> dict[str, float]:
    """Read a composition as `checked` does, refusing stainless steel and nickel.

    Raises
    ------
    KitError
        As `checked`; and if there is more than 5 % of elements beside carbon.
    """
    read = checked(contents)
    beside = beside_carbon(read)
    if beside > LOW_ALLOY:
        msg = (
            f"The formulas hold for plain and low-alloy steel, up to {LOW_ALLOY:g} % of "
            f"elements beside carbon, not for stainless steel or nickel. "
            f"Given: {beside:.1f} %."
        )
        raise KitError(msg)
    return read


def _number(element: object, part: object) -> float:
    try:
        number = float(part)
    except (TypeError, ValueError):
        number = float("nan")
    if not (isfinite(number) and number >= 0):
        msg = f"A content must be a number from 0 to 100 %. Given: {part!s:.20} % "
        raise KitError(msg + f"{element!s:.20}.")
    return number
