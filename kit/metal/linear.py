"""The straight-line formulas: so many degrees for each per cent of an element.

For Ac1 and A3 they serve; for Ms they stand here to compare with, and why not to use.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

ANDREWS = "Andrews, Journal of the Iron and Steel Institute 203 (1965) 721-727"
STEVEN_HAYNES = (
    "Steven & Haynes, Journal of the Iron and Steel Institute 183 (1956) 349-359"
)


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


# To compare with only; `WHY_NOT_LINEAR` says why.
MS_COMPARISONS: Mapping[str, Linear] = MappingProxyType(
    {
        "Andrews 1965": Linear(
            start=539,
            slopes={"C": -423, "Mn": -30.4, "Ni": -17.7, "Cr": -12.1, "Mo": -7.5},
            source=ANDREWS,
        ),
        "Steven & Haynes 1956": Linear(
            start=561,
            slopes={"C": -474, "Mn": -33, "Ni": -17, "Cr": -17, "Mo": -21},
            source=STEVEN_HAYNES,
        ),
    }
)
WHY_NOT_LINEAR = (
    "The straight-line formulas of 1956 and 1965 were fitted to steels with less carbon "
    "than a blade: on 37 measured plain steels of 0.7 to 1.1 % carbon they read 79 and "
    "55 °C (142 and 99 °F) too low."
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
