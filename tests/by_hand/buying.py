"""Cards 27, 28, 29, 36 and 38, by hand."""

from tests.by_hand import ByHand

CARDS = {
    27: ByHand({"questions": 4}, ("4",)),
    28: ByHand({"chromium": 5 / 17 * 0.05, "least": 10.5}, ("0.015 %", "10.5 %")),
    # ASTM A255 at 0.70 % carbon, power by power
    29: ByHand(
        {
            "hard": 35.395
            + 6.990 * 0.7
            + 312.330 * 0.49
            - 821.744 * 0.343
            + 1015.479 * 0.2401
            - 538.346 * 0.16807,
        },
        ("65", "25"),
    ),
    36: ByHand({"carbon": 0.84 - 0.75, "nickel": 2.0}, ("0.09 %", "2 %")),
    # 96 = 3 × 2⁵
    38: ByHand({"ways": 6, "few": 4, "most": 5}, ("6",)),
}
