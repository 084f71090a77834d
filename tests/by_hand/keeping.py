"""Cards 23, 25 and 31 to 33, by hand."""

from tests.by_hand import ByHand

CARDS = {
    23: ByHand(
        {"made": 10 + 3, "planes": 11 * 8 - 1, "met": 2**3, "all": 100 * 0.99**13},
        ("88 %",),
    ),
    25: ByHand({"swells": (88.85 / 4.28) / (55.85 / 7.874)}, ("2.9",)),
    31: ByHand({"film": 50 / (2 * 200 * 40), "grain": 0.035}, ("0.003 mm",)),
    32: ByHand({"margin": (350 - 32) / 1.8 - 70}, ("107 °C",)),
    33: ByHand({"after": (1.2 / 2 - 0.2) / 1.8 * 32 - 2.0}, ("7.1 mm", "5.1 mm")),
}
