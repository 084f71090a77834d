"""Sanding papers by their P number: how large their grain is.

Median grain, FEPA 43-1 and ISO 6344-3; of P220 by sieve. Seen on printed charts of the
papers; the standards themselves were not.
"""

from types import MappingProxyType
from typing import Literal

Grit = Literal[220, 240, 280, 320, 360, 400, 500, 600, 800, 1000, 1200, 1500, 2000]

GRAIN = MappingProxyType(
    {
        220: 68.0,
        240: 58.5,
        280: 52.2,
        320: 46.2,
        360: 40.5,
        400: 35.0,
        500: 30.2,
        600: 25.8,
        800: 21.8,
        1000: 18.3,
        1200: 15.3,
        1500: 12.6,
        2000: 10.3,
    }
)  # µm
