"""The patterns a working smith names, each as a recipe that can be forged and cut.

How they are made is common practice, no source, unless a recipe says otherwise. Names
are the trade's common ones; none belongs to one maker.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from kit.basics.errors import KitError
from kit.forge import pattern_recipes as recipes
from kit.forge.billet import Billet

COMMON = "common practice, no source"


@dataclass(frozen=True)
class Pattern:
    """A named pattern.

    Parameters
    ----------
    name : str
        As the trade calls it.
    forge : callable
        Makes the billet; its top face (or its end, see `shown`) shows the pattern.
    note : str
        How it comes about, in a sentence or two.
    shown : str
        "face", "end", "side" (cut lengthwise through the middle), or "split": the end,
        laid down so that its height runs from left to right.
    source : str
        Where the recipe is from.
    """

    name: str
    forge: Callable[[], Billet]
    note: str
    shown: str = "face"
    source: str = COMMON


PATTERNS: tuple[Pattern, ...] = (
    Pattern(
        "random",
        recipes.random,
        "Folded and hammered by hand, ground: the contour lines of uneven blows.",
    ),
    Pattern(
        "ladder",
        recipes.ladder,
        "Grooves cut across the bar, forged flat: each rung is a map of a groove.",
    ),
    Pattern(
        "raindrop",
        recipes.raindrop,
        "Hollows cut into the face, forged flat: rings are contour lines.",
    ),
    Pattern(
        "low twist",
        lambda: recipes.twisted(0.5, 2.0),
        "Half a turn to the inch, a little ground off.",
    ),
    Pattern(
        "medium twist",
        lambda: recipes.twisted(1.5, 3.0),
        "One and a half turns to the inch, ground towards the middle.",
    ),
    Pattern(
        "tight twist",
        lambda: recipes.twisted(3.0, 4.0),
        "Three turns to the inch, near the limit of hot torsion.",
    ),
    Pattern(
        "multi-bar composite",
        recipes.composite,
        "Four bars of opposite twist, side by side: chevrons on every seam.",
    ),
    Pattern(
        "star",
        recipes.star,
        "A twisted bar ground to its axis: a star every half turn.",
    ),
    Pattern(
        "feather",
        recipes.feather,
        "A tall block split by a wedge, the layers dragged along: barbs on a quill. "
        "The curve is illustrative.",
        "split",
    ),
    Pattern(
        "four-way mosaic",
        recipes.mosaic,
        "Four pieces of one bar, each a quarter turn further.",
        "end",
    ),
    Pattern(
        "chevron",
        recipes.chevron,
        "Two bars on the diagonal, mirror images, side by side.",
        "end",
    ),
    Pattern(
        "san mai, plain",
        recipes.san_mai,
        "A core of carbon steel between two plain sides.",
        "end",
    ),
    Pattern(
        "san mai, patterned sides",
        recipes.patterned_san_mai,
        "A plain core between two layered sides.",
        "end",
    ),
    Pattern(
        "wavy core",
        recipes.wavy_core,
        "San mai pressed with staggered grooves, so that the core waves.",
        "side",
    ),
)


def pattern(name: str) -> Pattern:
    """Find a pattern by its name, however it is spelt with capitals or spaces.

    Raises
    ------
    KitError
        If there is none of that name.
    """
    key = " ".join(str(name).lower().split())
    for known in PATTERNS:
        if known.name == key:
            return known
    names = "; ".join(known.name for known in PATTERNS)  # some have commas
    msg = f"I know no pattern called '{str(name)[:40]}'. Known: {names}."
    raise KitError(msg)
