"""Cards 6, 7, 18 and 21, by hand."""

import math

from tests.by_hand import ByHand


def _lean_by_hand(height: float) -> float:
    """Lean of a line on a bar that turns once in 50 mm, degrees: tan = 2 pi h / p."""
    return math.degrees(math.atan(2 * math.pi * height / 50))


CARDS = {
    6: ByHand(
        {
            "before": 4 * 5.0 / 0.25,
            "after": 4 * 4.8 / 0.25,
            "angle_before": _lean_by_hand(5.0),
            "angle_after": _lean_by_hand(4.8),
        },
        ("80.0", "76.8"),
    ),
    7: ByHand(
        {
            "angle_8": _lean_by_hand(8),
            "angle_6": _lean_by_hand(6),
            "angle_4": _lean_by_hand(4),
            "angle_2": _lean_by_hand(2),
            "lines_8": 4 * 8 / 0.5,
            "lines_2": 4 * 2 / 0.5,
        },
        ("45.2°", "0.0°"),
    ),
    18: ByHand({"star": 50 / 2, "stars": 200 / 25}, ("8", "25.0 mm")),
    21: ByHand({"skin": _lean_by_hand(8), "half": _lean_by_hand(4), "apart": 0.5}, ("%",)),
}
