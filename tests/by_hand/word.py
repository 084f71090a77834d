"""Cards 26, 39, 40 and 41, by hand."""

from tests.by_hand import ByHand
from tests.by_hand.carbon import NICKEL_BY_HAND

CARDS = {
    26: ByHand({"told": 5, "proven": 0}, ("5, 0",)),
    39: ByHand({"ore": 159.687 / 111.69}, ("1.43",)),
    40: ByHand({"layers": 1024}, ("1,024",)),
    41: ByHand({"years": 1e-6 / NICKEL_BY_HAND / (365.25 * 86400)}, ("8 years",)),
}
