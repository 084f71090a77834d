"""What a composition may be, before a formula is asked about it; the mean of a stack."""

from collections.abc import Iterable, Mapping
from math import fsum, isfinite
from types import MappingProxyType

from kit.basics.claim import Claim, Kind
from kit.basics.errors import KitError
from kit.forge.steels import Grade

WEIGHTS = Claim(
    says="Every element has its atomic weight.",
    kind=Kind.PUBLISHED,
    source="IUPAC 2021, Pure and Applied Chemistry 94 (2022) 573-600, Table 3, abridged",
    unit="g/mol",
    holds=("ATOMIC_WEIGHTS",),
)
ATOMIC_WEIGHTS = MappingProxyType(
    {
        "C": 12.011,
        "Si": 28.085,
        "P": 30.974,
        "V": 50.942,
        "Cr": 51.996,
        "Mn": 54.938,
        "Fe": 55.845,
        "Ni": 58.693,
        "Mo": 95.95,
        "W": 183.84,
    }
)

KNOWN = (*ATOMIC_WEIGHTS, "S", "Cu", "Al", "Ti", "As")

LOW = Claim(
    says="Up to 5 % beside carbon and iron a steel is called low-alloy.",
    kind=Kind.PRACTICE,
    unit="per cent; L6, the richest on the rack, has 3.5",
    holds=("LOW_ALLOY",),
    told=("hold for plain and low-alloy",),
)
LOW_ALLOY = 5.0

RUSTLESS = Claim(
    says="From 10.5 % chromium a steel is called stainless.",
    kind=Kind.PUBLISHED,
    source="EN 10088-1",
    unit="per cent",
    holds=("STAINLESS",),
    told=("is called stainless from", "stainless from"),
)
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


def mean_composition(parts: Iterable[tuple[Grade, float]]) -> dict[str, float]:
    """Find what a stack would be, melted together or soaked until even.

    Parameters
    ----------
    parts : iterable of (Grade, float)
        Each bar's steel and thickness in mm (above 0); all of one length and width.

    Returns
    -------
    dict
        Weight per cent of each element; iron is the balance. A balance of masses,
        so a bar counts by thickness times density.

    Raises
    ------
    KitError
        If there is no bar, or one without thickness.

    Examples
    --------
    >>> from kit.forge.steels import steel
    >>> bars = [(steel("1084"), 3.175)] * 6 + [(steel("15N20"), 1.5875)] * 5
    >>> mean = mean_composition(bars)
    >>> round(mean["C"], 3), round(mean["Ni"], 2)
    (0.814, 0.59)
    """
    sums: dict[str, float] = {}
    total = 0.0
    for grade, thickness in parts:
        if not (isfinite(thickness) and thickness > 0):
            msg = f"A bar must be thicker than 0 mm. Given: {thickness} mm of {grade}."
            raise KitError(msg)
        mass = thickness * grade.density
        total += mass
        for element, percent in grade.contents:
            sums[element] = sums.get(element, 0.0) + mass * percent
    if total == 0:
        msg = "A mean needs at least one bar. Given: none."
        raise KitError(msg)
    return {element: weight / total for element, weight in sums.items()}


def _number(element: object, part: object) -> float:
    try:
        number = float(part)
    except (TypeError, ValueError):
        number = float("nan")
    if not (isfinite(number) and number >= 0):
        msg = f"A content must be a number from 0 to 100 %. Given: {part!s:.20} % "
        raise KitError(msg + f"{element!s:.20}.")
    return number
