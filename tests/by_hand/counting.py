"""Cards 1 to 3, by hand."""

import math

from tests.by_hand import ByHand

# One minute of arc at 300 mm (20/20 sight); how much wider a bevel shows layers on
# a blade 30 mm high, (4.0 - 0.4) / 2 = 1.8 mm a side.
EYE_BY_HAND = 300 * math.tan(math.radians(1 / 60))
BEVEL_BY_HAND = math.hypot(30, 1.8) / 1.8

CARDS = {
    1: ByHand(
        {
            "layers": 7 * 2**4,
            "bands": 6 * 2**4 + 1,
            "lines": 97 * 1.8 / 4.0,
            "back": 44 * 4.0 / 1.8,
        },
        ("112", "97", "44"),
    ),
    2: ByHand(
        {
            "layers": 2 * 2**10,
            "most": 2 * 2**19,
            "thin": 5 / 2**20,
            "atoms": 5 / 2**20 / 0.248e-6,
        },
        ("2,048",),
    ),
    3: ByHand(
        {
            "limit": math.floor(4 / EYE_BY_HAND * BEVEL_BY_HAND),
            "square": math.floor(4 / EYE_BY_HAND),
            "at_80": 0.05 * BEVEL_BY_HAND,
            "at_1000": 0.004 * BEVEL_BY_HAND,
            "eye": EYE_BY_HAND,
        },
        ("765", "45"),
    ),
}
