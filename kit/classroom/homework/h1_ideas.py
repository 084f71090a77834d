"""Ways of thinking in set H1 that the lessons do not ask about.

Given: n pieces, k folds, T, the thickness of the forged bar in mm.
"""

from __future__ import annotations

from kit.course.lesson import Given, ideas_of
from kit.course.lessons.fold_ideas import LAYERS, bands, fewest_folds

_idea = ideas_of("02")


def layer(given: Given) -> float:
    """Give the mean layer of the bar, counted in pieces, µm."""
    return 1000 * given["T"] / LAYERS.value(given)


def bands_working(given: Given) -> list[str]:
    """Work the bands out: at every fold one pair of like faces becomes one band."""
    n, k = int(given["n"]), int(given["k"])
    welds = 2**k - 1
    return [
        f"pieces = {n} × 2^{k} = {n * 2**k:,}",
        f"places where like meets like: 1 + 2 + 4 … = 2^{k} - 1 = {welds:,}",
        f"bands = {n * 2**k:,} - {welds:,}",
        f"= {bands(given):,.0f}",
    ]


def layer_working(given: Given) -> list[str]:
    """Work the mean layer out, in µm."""
    count = LAYERS.value(given)
    return [
        "layer = thickness of the bar / layers",
        f"= {given['T']:g} mm × 1000 / {count:,.0f}",
        f"= {layer(given):.3g} µm",
    ]


def folds_working(given: Given) -> list[str]:
    """Double until the goal is reached."""
    n, goal = int(given["n"]), int(given["goal"])
    counts = [n * 2**k for k in range(int(fewest_folds(given)) + 1)]
    return [
        f"double {n} until there are at least {goal}",
        " → ".join(f"{count:,}" for count in counts),
        f"folds: {len(counts) - 1}",
    ]


LAYER = _idea("RIGHT", "share the bar out among its layers", layer, "")
UNIT_MM = _idea(
    "UNIT_MM",
    "give millimetres where micrometres are asked for",
    lambda given: layer(given) / 1000,
    "How many micrometres are there in a millimetre?",
)
USED_N0 = _idea(
    "USED_N0",
    "share the bar out among the pieces of the first stack",
    lambda given: 1000 * given["T"] / given["n"],
    "How many layers does the bar have when the folding is done?",
)
USED_BANDS = _idea(
    "USED_BANDS",
    "share the bar out among the bands that can be seen",
    lambda given: 1000 * given["T"] / bands(given),
    "Some bands are two pieces thick. Which count is asked for?",
)
MULTIPLIED = _idea(
    "BAR_MULTIPLIED",
    "multiply the bar by its layers",
    lambda given: given["T"] * LAYERS.value(given),
    "Is a layer thicker or thinner than the bar it lies in?",
)
