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


@dataclass(frozen=True, kw_only=True)
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
        name="random",
        forge=recipes.random,
        note="Folded and hammered by hand, ground: the contour lines of uneven blows.",
    ),
    Pattern(
        name="ladder",
        forge=recipes.ladder,
        note="Grooves cut across the bar, forged flat: each rung is a map of a groove.",
    ),
    Pattern(
        name="raindrop",
        forge=recipes.raindrop,
        note="Hollows cut into the face, forged flat: rings are contour lines.",
    ),
    Pattern(
        name="low twist",
        forge=lambda: recipes.twisted(0.5, 2.0),
        note="Half a turn to the inch, a little ground off.",
    ),
    Pattern(
        name="medium twist",
        forge=lambda: recipes.twisted(1.5, 3.0),
        note="One and a half turns to the inch, ground towards the middle.",
    ),
    Pattern(
        name="tight twist",
        forge=lambda: recipes.twisted(3.0, 4.0),
        note="Three turns to the inch, near the limit of hot torsion.",
    ),
    Pattern(
        name="multi-bar composite",
        forge=recipes.composite,
        note="Four bars of opposite twist, side by side: chevrons on every seam.",
    ),
    Pattern(
        name="star",
        forge=recipes.star,
        note="A twisted bar ground to its axis: a star every half turn.",
    ),
    Pattern(
        name="feather",
        forge=recipes.feather,
        shown="split",
        note="A tall block split by a wedge, the layers dragged along: barbs on a quill. "
        "The curve is illustrative.",
    ),
    Pattern(
        name="four-way mosaic",
        forge=recipes.mosaic,
        shown="end",
        note="Four pieces of one bar, each a quarter turn further.",
    ),
    Pattern(
        name="chevron",
        forge=recipes.chevron,
        shown="end",
        note="Two bars on the diagonal, mirror images, side by side.",
    ),
    Pattern(
        name="san mai, plain",
        forge=recipes.san_mai,
        shown="end",
        note="A core of carbon steel between two plain sides.",
    ),
    Pattern(
        name="san mai, patterned sides",
        forge=recipes.patterned_san_mai,
        shown="end",
        note="A plain core between two layered sides.",
    ),
    Pattern(
        name="wavy core",
        forge=recipes.wavy_core,
        shown="side",
        note="San mai pressed with staggered grooves, so that the core waves.",
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
