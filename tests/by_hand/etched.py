"""Cards 11, 13 and 34, by hand."""

from tests.by_hand import ByHand

CARDS = {
    11: ByHand({"step": (0.8e-3 - 0.3e-3) * 10, "micrometres": 5}, ("0.005 mm",)),
    13: ByHand({"micrometres": 0.8 * 10, "share": 100 * 8 / 50}, ("8 µm",)),
    34: ByHand({"carbon": 0.84, "soft": 25}, ("65 HRC",)),
}
