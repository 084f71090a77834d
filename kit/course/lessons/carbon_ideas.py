"""Ways of thinking about what wanders in hot steel, right and wrong; the checks.

Given: layer, the thickness of a layer in mm; celsius; minutes. What a prediction expects
is a number: 1 if carbon evens out, plus 2 if nickel does.
"""

from dataclasses import replace

from kit.basics.claim import Claim, Kind
from kit.basics.typed import ABSOLUTE_ZERO
from kit.basics.units import in_three, rounded
from kit.course.check import Check
from kit.course.lesson import Given, ideas_of
from kit.metal.dangers import DANGERS
from kit.metal.diffusion import TABLE, diffusivity, spread
from kit.metal.evening import minutes_to_even
from kit.metal.pairs import pair

_idea = ideas_of("08")
ELEMENTS = tuple(name for name in TABLE if name in ("Ni", "Mn", "Cr"))
# From memory: nickel takes up a few tenths of a per cent of carbon at forging heat.
ASTRAY = (
    "In a sheet of nickel carbon has numbers of its own: it holds less of it. The carbon "
    "curve is drawn as in steel; believe its middle, not its height in the nickel."
)
SAME_STEEL = (
    "The same steel twice: nothing to see here, and in the etch faint weld lines at most."
)
NOT_YET = "Carbon is not even yet; this holds once it is."
# An electronvolt is 96.485 kJ/mol (SI); in iron the barrier is 148, see `diffusion.TABLE`.
HOLDS_LESS = Claim(
    says="Nickel holds less carbon than hot steel, so a sheet of it slows carbon down.",
    kind=Kind.MEMORY,
    source="the diagram of nickel and carbon, without a page",
    told=("it holds less of it", "nickel sheet slows carbon", "nickel holds less of it"),
)
NO_WALL = Claim(
    says="Carbon slips through nickel as it does through iron: 149 to 165 kJ/mol hold it "
    "back there.",
    kind=Kind.PUBLISHED,
    source="Siegel & Hamilton, Physical Review B 68 (2003) 094105, its abstract: measured "
    "barriers of 1.54 to 1.71 eV",
    seen=True,
    unit="kJ/mol",
    told=(
        "[Nn]ickel foil (is|as)",
        "through the foil",
        "weld is no wall",
        "slips through nickel",
    ),
)
ACTIVE = (
    "Carbon evens out its activity, not its per cent: a small step stays where silicon or "
    "nickel differs."
)
PER_CENT = "By per cent carbon ends level, whatever else is in the two steels."
NAMES = {"C": "Carbon", "Ni": "Nickel", "Cr": "Chromium", "Mn": "Manganese"}
CARBON, NICKEL = 1, 2  # what evens out: sums of these


def together(one: str, other: str, carbon: float, *, even: bool = True) -> str:
    """Say what two steels do together: contrast, hardening, and what to mind first.

    Hardening is told of evened carbon, per cent of the whole stack; where it is not even
    yet, that is said. What the page's caution tells in full is only named.
    """
    both = replace(pair(one, other), carbon=carbon)
    contrast = both.contrasts[both.evens_out]
    mind, named = (str(both.reasons[0]) if both.reasons else ""), ""
    if both.reasons and both.reasons[0].says in map(str, DANGERS.values()):
        mind, named = "", f"; only with care: {both.reasons[0].name}, see Caution"
    yet = "" if even or not both.evens_out else NOT_YET
    shows = f"{both}: contrast {contrast} (illustrative){named}."
    return " ".join(filter(None, (shows, yet, both.hardening.sentence, mind)))


def minutes(given: Given) -> float:
    """Give the time until carbon is 95 % even between equal layers, minutes."""
    return minutes_to_even(given["layer"], "C", given["celsius"])


def minutes_working(given: Given) -> list[str]:
    """Work the time out, line by line."""
    speed = float(diffusivity("C", given["celsius"]))
    return [
        "time = 3.0 × layer² / (π² × D), until one part in twenty is left",
        f"a layer of {given['layer']:g} mm, in metres: {in_three(given['layer'] / 1000)}",
        f"D of carbon at {given['celsius']:g} °C = {speed:.2e} m²/s",
        f"= 3.0 × ({in_three(given['layer'] / 1000)} m)² / (9.87 × {speed:.2e} m²/s)",
        f"= {60 * minutes(given):,.0f} s = {in_three(minutes(given))} min",
    ]


def spread_working(element: str, given: Given) -> list[str]:
    """Work out how far an element gets, line by line."""
    speed = float(diffusivity(element, given["celsius"]))
    return [
        "spread = √(D × time)",
        f"= √({speed:.2e} m²/s × {rounded(60 * given['minutes'])} s)",
        f"= {in_three(1000 * spread(element, given['celsius'], given['minutes']))} µm",
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
    return minutes(hot) * (1150 - ABSOLUTE_ZERO) / (given["celsius"] - ABSOLUTE_ZERO)


def _nickel_minutes(given: Given) -> float:
    return minutes_to_even(given["layer"], "Ni", given["celsius"])


BOTH = _idea(
    "BOTH",
    "expect everything to mix, as in a melt",
    lambda _given: CARBON + NICKEL,
    "Nothing melts. What must an atom do to get to the next place?",
)
NEITHER = _idea(
    "NEITHER",
    "expect a solid to keep everything in its place",
    lambda _given: 0,
    "At welding heat the smallest atoms slip through. Which are they?",
)
ONLY_CARBON = _idea("ONLY_CARBON", "let the small atoms walk", lambda _given: CARBON)
ONLY_NICKEL = _idea(
    "ONLY_NICKEL",
    "take carbon for what makes the pattern, so that it must stay",
    lambda _given: NICKEL,
    "Which of the two sits between the iron atoms, and which must swap with one?",
)
TIME = _idea("TIME", "go with the square of the layer", minutes)
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
TIMES = _idea("TIMES", "square it", lambda given: given["times"] ** 2)
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
COOLER = _idea("COOLER", "use the figure for that heat", minutes)
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

# Heats of our own: mm, °C, minutes.
HALF = {"layer": 0.5, "celsius": 1150.0, "minutes": 10.0}
COOL = {"layer": 0.25, "celsius": 1000.0, "minutes": 10.0}

THICKER = Check(
    ask=(
        "Two steels are laid in turn, every layer 0.5 mm thick, and are at 1150 °C "
        "(2102 °F). After how many minutes is carbon 95 % even?"
    ),
    given=HALF,
    right=TIME,
    slips=(LINEAR, NICKEL_TIME),
    kind="minutes",
    prompt="It was 3.7 minutes for half as thick a layer. How much farther is the way now?",
    working=minutes_working,
    other={"layer": 1.0, "celsius": 1100.0, "minutes": 10.0},
    tips=(
        "Set the layer to 0.5 mm and read how long carbon takes. Then choose.",
        "Set 0.5 mm, then try times until carbon is even. An answer within 2 % counts.",
        "Time goes with the square of the layer. An answer within 2 % counts.",
    ),
)
SQUARE = Check(
    ask=(
        "Two stacks are laid alike, but in one every layer is four times as thick. How "
        "many times as long does its carbon take to be even?"
    ),
    given={"times": 4.0},
    right=TIMES,
    slips=(AS_MANY, CUBED),
    kind="ratio",
    prompt="Twice as thick takes four times as long. And twice that?",
    working=times_working,
    other={"times": 3.0},
    tips=(
        "Set a layer, read the minutes, set one four times as thick. Then choose.",
        "Set 0.25 mm, then 1 mm: read both times and divide. Within 2 % counts.",
        "It goes with the square.",
    ),
)
LOWER = Check(
    ask=(
        "Two steels are laid in turn, every layer 0.25 mm thick, but are at 1000 °C "
        "(1832 °F). After how many minutes is carbon 95 % even?"
    ),
    given=COOL,
    right=COOLER,
    slips=(SAME_TIME, A_LITTLE),
    kind="minutes",
    prompt="Cooler atoms push less often. Is it a little slower, or much slower?",
    working=minutes_working,
    other={"layer": 0.25, "celsius": 1050.0, "minutes": 10.0},
    tips=(
        "Set the heat to 1000 °C and read how long carbon takes. Then choose.",
        "Set 1000 °C, then try times, to a tenth, until it is even. Within 2 % counts.",
        "D = 2.3e-5 m²/s × exp(-148,000 / (8.314 × kelvin)). An answer within 2 % counts.",
    ),
)
