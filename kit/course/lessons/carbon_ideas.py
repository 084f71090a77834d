"""Ways of thinking about what wanders in hot steel, right and wrong.

Given: layer, the thickness of a layer in mm; celsius; minutes. What a prediction expects
is a number: 1 if carbon evens out, plus 2 if nickel does.
"""

from __future__ import annotations

from kit.course.lesson import Given, ideas_of
from kit.metal.diffusion import TABLE, diffusivity, spread
from kit.metal.evening import minutes_to_even

_idea = ideas_of("08")
# From memory: nickel takes up a few tenths of a per cent of carbon at forging heat.
ASTRAY = (
    "In a sheet of nickel carbon has numbers of its own: it holds less of it. The carbon "
    "curve is drawn as in steel; believe its middle, not its height in the nickel."
)
ACTIVE = (
    "Carbon evens out its activity, not its per cent: a small step stays where silicon or "
    "nickel differs."
)
NAMES = {"C": "Carbon", "Ni": "Nickel", "Cr": "Chromium", "Mn": "Manganese"}
CARBON, NICKEL = 1, 2  # what evens out: sums of these


def minutes(given: Given) -> float:
    """Give the time until carbon is 95 % even between equal layers, minutes."""
    return minutes_to_even(given["layer"], "C", given["celsius"])


def minutes_working(given: Given) -> list[str]:
    """Work the time out, line by line."""
    speed = float(diffusivity("C", given["celsius"]))
    return [
        "time = 3.0 × layer² / (π² × D), until one part in twenty is left",
        f"D of carbon at {given['celsius']:g} °C = {speed:.2e} m²/s",
        f"= 3.0 × ({given['layer']:g} mm)² / (9.87 × {speed:.2e} m²/s)",
        f"= {60 * minutes(given):.0f} s = {minutes(given):.3g} min",
    ]


def spread_working(element: str, given: Given) -> list[str]:
    """Work out how far an element gets, line by line."""
    speed = float(diffusivity(element, given["celsius"]))
    return [
        "spread = √(D × time)",
        f"= √({speed:.2e} m²/s × {60 * given['minutes']:.0f} s)",
        f"= {1000 * spread(element, given['celsius'], given['minutes']):.3g} µm",
    ]


def times_working(given: Given) -> list[str]:
    """Work out how many times as long a thicker layer takes."""
    times = given["times"]
    return [
        "the way is so many times as long, and wandering goes with the root of time",
        f"time: {times:g} × {times:g} = {times**2:g} times",
    ]


def _linear(given: Given) -> float:
    return minutes({**given, "layer": 0.25}) * given["layer"] / 0.25


def _kelvin_only(given: Given) -> float:
    hot = {**given, "celsius": 1150.0}
    return minutes(hot) * (1150 + 273.15) / (given["celsius"] + 273.15)


def _nickel_minutes(given: Given) -> float:
    return minutes_to_even(given["layer"], "Ni", given["celsius"])


BOTH = _idea(
    "BOTH",
    "expect everything to mix, as in a melt",
    lambda _given: CARBON + NICKEL,
    "Nothing melts. What must an atom do to get to the next place?",
    "What is still different after welding?",
)
NEITHER = _idea(
    "NEITHER",
    "expect a solid to keep everything in its place",
    lambda _given: 0,
    "At welding heat the smallest atoms slip through. Which are they?",
    "What is still different after welding?",
)
ONLY_CARBON = _idea("ONLY_CARBON", "let the small atoms walk", lambda _given: CARBON, "")
ONLY_NICKEL = _idea(
    "ONLY_NICKEL",
    "take carbon for what makes the pattern, so that it must stay",
    lambda _given: NICKEL,
    "Which of the two sits between the iron atoms, and which must swap with one?",
    "What is still different after welding?",
)
TIME = _idea("TIME", "go with the square of the layer", minutes, "")
LINEAR = _idea(
    "LINEAR",
    "double the time for twice the layer",
    _linear,
    "A wanderer who turns at random takes four times as long for twice the way.",
)
NICKEL_TIME = _idea(
    "NICKEL_TIME",
    "take the time of nickel",
    _nickel_minutes,
    "That is how long the bright lines would take to fade.",
)
TIMES = _idea("TIMES", "square it", lambda given: given["times"] ** 2, "")
AS_MANY = _idea(
    "AS_MANY",
    "take as many times the time as the layer is thick",
    lambda given: given["times"],
    "Set the thickness, then twice that, and read the minutes.",
)
CUBED = _idea(
    "CUBED",
    "multiply once too often",
    lambda given: given["times"] ** 3,
    "Only the way across the layer counts, and it counts twice.",
)
COOLER = _idea("COOLER", "use the figure for that heat", minutes, "")
SAME_TIME = _idea(
    "SAME_TIME",
    "take the same time at any heat",
    lambda given: minutes({**given, "celsius": 1150.0}),
    "Set the temperature lower and read the minutes.",
)
A_LITTLE = _idea(
    "A_LITTLE",
    "slow it down as the temperature falls, by a tenth",
    _kelvin_only,
    "An atom needs a push to get through, and pushes get rare much faster than that.",
)
ELEMENTS = tuple(name for name in TABLE if name in ("Ni", "Mn", "Cr"))
