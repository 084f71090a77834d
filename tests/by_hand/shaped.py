"""Cards 8, 19, 20, 22 and 30, by hand."""

import math

from tests.by_hand import ByHand

# A blade 30 mm high, (4.0 - 0.4) / 2 = 1.8 mm a side.
BEVEL_BY_HAND = math.hypot(30, 1.8) / 1.8


def _line_by_hand(towards: float = 0.0) -> float:
    """Height of a clad blade's line: core 1.2, spine 4.0, edge 0.4, bevel 32 mm high."""
    return (1.2 / 2 + towards - 0.2) / 1.8 * 32


CARDS = {
    8: ByHand(
        {
            "spread": BEVEL_BY_HAND,
            "spacing": 0.05 * BEVEL_BY_HAND,
            "steep": 0.05 / math.sin(math.pi / 4),
        },
        ("16.7", "0.05 mm", "0.835 mm"),
    ),
    19: ByHand(
        {
            "deep": 3 / math.tan(math.radians(59)),
            "rings": 6.009,
            "spacing": 0.3 * math.tan(math.radians(59)),
        },
        ("6", "0.5 mm"),
    ),
    20: ByHand(
        {
            "left_0": 6.009,
            "left_1": 6.009 * (1 - 0.9 / 6),
            "left_2": 6.009 * (1 - 1.8 / 6),
        },
        ("6", "5", "4"),
    ),
    22: ByHand(
        {
            "line": _line_by_hand(),
            "high": _line_by_hand(0.3),
            "low": _line_by_hand(-0.3),
            "most": 1.2 / 2 - 0.4 / 2,
        },
        ("7.1 mm",),
    ),
    # tan 15°, 20°
    30: ByHand(
        {"thin": 2 * (2 - math.sqrt(3)), "thick": 2 * 0.363970}, ("0.536 mm", "0.728 mm")
    ),
}
