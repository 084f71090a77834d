"""Cards 5, 12 and 15, by hand."""

import math

from tests.by_hand import ByHand

# By hand, m²/s at 1150 °C: Callister & Rethwisch, 9th ed., Table 5.2, carbon in austenite;
# Honeycombe & Bhadeshia, Steels (from memory), nickel.
CARBON_BY_HAND = 2.3e-5 * math.exp(-148e3 / 8.314 / (1150 + 273.15))

NICKEL_BY_HAND = 7.7e-5 * math.exp(-280e3 / 8.314 / (1150 + 273.15))


def _even_by_hand(layer: float, speed: float = CARBON_BY_HAND) -> float:
    """Minutes until the slowest wave between layers (mm) is a twentieth."""
    return math.log(20) * (layer * 1e-3) ** 2 / (math.pi**2 * speed) / 60


def _reach_by_hand(speed: float) -> float:
    """√(D t) for ten minutes, mm."""
    return 1e3 * math.sqrt(speed * 600)


CARDS = {
    5: ByHand(
        {
            "minutes_0": _even_by_hand(1),
            "minutes_1": _even_by_hand(0.25),
            "seconds_2": 60 * _even_by_hand(0.1),
        },
        ("59 min", "3.7 min", "36 s"),
    ),
    12: ByHand(
        {"difference": 2.0 - 0.0, "blur": _reach_by_hand(NICKEL_BY_HAND)},
        ("2 %", "0.002 mm"),
    ),
    15: ByHand(
        {
            "carbon": _reach_by_hand(CARBON_BY_HAND),
            "nickel": _reach_by_hand(NICKEL_BY_HAND),
            "seconds": 60 * _even_by_hand(0.15),
            "hours": _even_by_hand(0.15, NICKEL_BY_HAND) / 60,
        },
        ("0.226 mm", "0.002 mm"),
    ),
}
