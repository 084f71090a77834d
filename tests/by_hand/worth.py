"""Cards 4, 9, 10, 24, 35 and 37, by hand."""

from tests.by_hand import ByHand

CARDS = {
    4: ByHand(
        {"carbon": (12 * 0.84 + 5 * 0.75) / 17, "nickel": 5 / 17 * 2.0},
        ("0.814 %", "0.588 %"),
    ),
    9: ByHand({"before": 80, "after": 4 * 4.8 / 0.25}, ("77", "none")),
    10: ByHand({"layer": 4.0 / 80}, ("0.05 mm",)),
    24: ByHand({"cut": 102, "ideal": 254 * 5 / (6 / 8 + 5 / 16) / 25.4}, ("46 %",)),
    # (2 + 2) heats for each of three rounds, 2 + 3 for the last: 17 of 10 minutes
    35: ByHand({"heats": 17, "hours": 17 / 6 + 22}, ("25 hours",)),
    37: ByHand({"patterns": 14, "better": 0}, ("14, 0",)),
}
