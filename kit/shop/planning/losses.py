"""What a shop loses on the way: scale, ground welds, crops, saw cuts, the last grind.

The values given when nothing else is said are placeholders (common practice, no
source): weigh your own billets and put your own in, see shop.py.
"""

from __future__ import annotations

from kit.basics.declare import Declared, quantity

PLACEHOLDER = (
    "The losses are placeholders (common practice, no source). Weigh a billet of your own "
    "before and after each heat and put your losses in."
)


class Losses(Declared):
    """What every operation takes away. Lengths in mm.

    Scale is lost from all six faces at every heat, before the bar is drawn out.
    """

    weld_scale: float = quantity(
        "Scale, welding heat", "per face and heat", low=0, high=0.3, unit="mm", default=0.08
    )
    weld_heats: int = quantity(
        "Heats for a weld", "to set it and to finish it", low=1, high=6, default=2
    )
    forge_scale: float = quantity(
        "Scale, forging heat",
        "per face and heat",
        low=0,
        high=0.15,
        unit="mm",
        default=0.03,
    )
    forge_heats: int = quantity(
        "Heats to draw out", "each time before stacking", low=1, high=12, default=2
    )
    last_heats: int = quantity(
        "Heats for the last drawing", "to the finished thickness", low=1, high=12, default=3
    )
    clean_up: float = quantity(
        "Clean-up",
        "ground off each face before it is stacked",
        low=0,
        high=1,
        unit="mm",
        default=0.25,
    )
    crop: float = quantity(
        "Crop", "cut off each end before stacking", low=0, high=20, unit="mm", default=6
    )
    kerf: float = quantity(
        "Saw cut", "width of every cut", low=0, high=4, unit="mm", default=2
    )
    grind: float = quantity(
        "Final grind", "off each side of the bar", low=0, high=2, unit="mm", default=0.5
    )


NO_LOSSES = Losses(weld_scale=0, forge_scale=0, clean_up=0, crop=0, kerf=0, grind=0)
