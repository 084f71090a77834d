"""Ways of thinking about what wanders in hot steel, right and wrong; the checks.

Given: layer, the thickness of a layer in mm; celsius; minutes. What a prediction expects
is a number: 1 if carbon evens out, plus 2 if nickel does.
"""

from dataclasses import replace

from kit.basics.claim import Claim, Kind
from kit.basics.typed import ABSOLUTE_ZERO
from kit.basics.units import in_three, rounded
from kit.course.lesson import Given
from kit.course.worded import Worded
from kit.metal.dangers import DANGERS
from kit.metal.diffusion import TABLE, diffusivity, spread
from kit.metal.evening import minutes_to_even
from kit.metal.pairs import pair

TOLD = Worded(__file__, "08")
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


BOTH = TOLD.idea("BOTH", lambda _given: CARBON + NICKEL)
NEITHER = TOLD.idea("NEITHER", lambda _given: 0)
ONLY_CARBON = TOLD.idea("ONLY_CARBON", lambda _given: CARBON)
ONLY_NICKEL = TOLD.idea("ONLY_NICKEL", lambda _given: NICKEL)
TIME = TOLD.idea("TIME", minutes)
LINEAR = TOLD.idea("LINEAR", _linear)
NICKEL_TIME = TOLD.idea("NICKEL_TIME", _nickel_minutes)
TIMES = TOLD.idea("TIMES", lambda given: given["times"] ** 2)
AS_MANY = TOLD.idea("AS_MANY", lambda given: given["times"])
CUBED = TOLD.idea("CUBED", lambda given: given["times"] ** 3)
COOLER = TOLD.idea("COOLER", minutes)
SAME_TIME = TOLD.idea("SAME_TIME", lambda given: minutes({**given, "celsius": 1150.0}))
A_LITTLE = TOLD.idea("A_LITTLE", _kelvin_only)

# Heats of our own: mm, °C, minutes.
HALF = {"layer": 0.5, "celsius": 1150.0, "minutes": 10.0}
COOL = {"layer": 0.25, "celsius": 1000.0, "minutes": 10.0}

THICKER = TOLD.check(
    "THICKER",
    given=HALF,
    right=TIME,
    slips=(LINEAR, NICKEL_TIME),
    kind="minutes",
    working=minutes_working,
    other={"layer": 1.0, "celsius": 1100.0, "minutes": 10.0},
)
SQUARE = TOLD.check(
    "SQUARE",
    given={"times": 4.0},
    right=TIMES,
    slips=(AS_MANY, CUBED),
    kind="ratio",
    working=times_working,
    other={"times": 3.0},
)
LOWER = TOLD.check(
    "LOWER",
    given=COOL,
    right=COOLER,
    slips=(SAME_TIME, A_LITTLE),
    kind="minutes",
    working=minutes_working,
    other={"layer": 0.25, "celsius": 1050.0, "minutes": 10.0},
)
