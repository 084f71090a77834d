"""At what temperatures a steel changes: Ac1, A3, Acm on heating, Ms in the quench.

All of it holds for plain and low-alloy steel, soaked until even. Formulas for stainless
steel are not here, and asking for one is refused. The straight-line formulas, so many
degrees for each per cent of an element, serve for Ac1 and A3; for Ms they stand here to
compare with, and why not to use.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from kit.basics.errors import KitError
from kit.metal.contents import low_alloy

ANDREWS = "Andrews, Journal of the Iron and Steel Institute 203 (1965) 721-727"


@dataclass(frozen=True, kw_only=True)
class Linear:
    """A formula that adds so many degrees for each per cent of an element."""

    start: float
    slopes: Mapping[str, float]
    source: str

    def __call__(self, contents: Mapping[str, float]) -> float:
        """Give the temperature in °C for weight per cent by element."""
        return self.start + sum(
            slope * contents.get(element, 0.0) for element, slope in self.slopes.items()
        )


AC1 = Linear(
    start=723,
    slopes={"Mn": -10.7, "Ni": -16.9, "Si": 29.1, "Cr": 16.9, "As": 290, "W": 6.38},
    source=ANDREWS,
)
# Without the root of carbon. Reprints lose a bracket's minus and print the signs of Cr,
# Cu, P, Al and Ti the wrong way round; pycalphad with an open steel file gives these.
A3 = Linear(
    start=910,
    slopes={"Ni": -15.2, "Si": 44.7, "V": 104, "Mo": 31.5, "W": 13.1}
    | {"Mn": -30, "Cr": -11, "Cu": -20, "P": 700, "Al": 400, "Ti": 400, "As": 120},
    source=ANDREWS,
)


MOST_CARBON_FOR_A3 = 0.6  # wt%, says Andrews


def ac1(contents: Mapping[str, float]) -> float:
    """Say where the steel begins to turn to austenite on slow heating, in °C.

    Andrews 1965; weight per cent by element, up to 5 beside carbon. Raises `KitError`
    for stainless steel.

    Examples
    --------
    >>> round(ac1({"C": 0.75, "Mn": 0.40, "Si": 0.25, "Ni": 2.0}))
    692
    """
    return AC1(low_alloy(contents))


def a3(contents: Mapping[str, float]) -> float:
    """Say where the last ferrite is gone on slow heating, in °C.

    Andrews 1965, the signs of its minor terms put right; weight per cent by element,
    carbon up to 0.6, the others up to 5 together. Raises `KitError` outside of that.

    Examples
    --------
    >>> round(a3({"C": 0.40, "Mn": 0.75, "Si": 0.20}))
    768
    """
    read = low_alloy(contents)
    carbon = read.get("C", 0.0)
    if carbon > MOST_CARBON_FOR_A3:
        msg = (
            f"The formula for A3 holds up to {MOST_CARBON_FOR_A3:g} % carbon; a steel "
            f"with more is judged by Ac1, and by Acm. Given: {carbon:g} %."
        )
        raise KitError(msg)
    return A3(read) - 203 * carbon**0.5
