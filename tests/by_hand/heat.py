"""Cards 14, 16 and 17, by hand."""

import math

from tests.by_hand import ByHand

# Scale in air, five minutes at 1150 °C: oxygen, g/cm², by the constant that Chen &
# Yuen (2003) quote (from memory); as FeO, less a twentieth of iron; steel of 7.85 g/cm³.
OXYGEN_BY_HAND = math.sqrt(6.1 * math.exp(-169.5e3 / 8.314 / (1150 + 273.15)) * 300)
BARE_BY_HAND = 10 * OXYGEN_BY_HAND * 0.95 * 55.845 / 15.999 / 7.85


def _melting_by_hand(carbon: float) -> float:
    """Read a straight solidus off the Fe-C diagram, °C.

    From 0.17 % at 1493 °C to 2.14 % at 1147 °C: Callister & Rethwisch, Fe-C diagram.
    """
    return 1493 - (1493 - 1147) * (carbon - 0.17) / (2.14 - 0.17)


CARDS = {
    14: ByHand(
        {
            "melts": _melting_by_hand(0.84),
            "rich_melts": _melting_by_hand(1.2),
            "richest_melts": _melting_by_hand(1.5),
        },
        ("226 °C",),
    ),
    16: ByHand({"face": 2 * 0.08, "both": 4 * 0.08, "bare": BARE_BY_HAND}, ("0.16 mm",)),
    17: ByHand(
        {"weld_f": 1150 * 9 / 5 + 32, "step_f": 25 * 9 / 5, "slip": 77},
        ("1150 °C", "2102 °F"),
    ),
}
