"""Cards 5, 12 and 15: carbon walks, nickel stands still."""

import math
from functools import cache

import numpy as np

from kit.basics.claim import Claim, Kind
from kit.course.lessons.scene import Scene
from kit.course.questions import faces
from kit.course.questions.card import Measures, Values, cards_of
from kit.course.questions.charts import Walk, walks
from kit.forge.stack import Layer, Stack
from kit.forge.steels import steel
from kit.metal.activity import ALLOY_PUSHES
from kit.metal.dangers import FIRE, NICKEL
from kit.metal.diffusion import DISAGREE, TABLE, diffusivity, spread
from kit.metal.etch import TONES
from kit.metal.evening import EVEN, EVENED, content_at, minutes_to_even
from kit.metal.reported import STIFF, WALKS
from kit.metal.soak import Soak, evened

HEAT, MINUTES = 1150.0, 10.0  # °C, as in lesson 08
LAYERS = (1.0, 0.25, 0.1)  # mm
HARD, SOFT = "1095", "1018"
DARK, BRIGHT, WITHOUT = "1084", "15N20", "1075"
LOOKED_AT = Claim(
    says="A section of a welded billet, W2 and a 3.5 % nickel steel in layers of 0.15 mm "
    "(0.006 in), shows carbon evened out and nickel in its place.",
    kind=Kind.PUBLISHED,
    source="'Microstructural analysis of a welded Damascus knife blade billet', a paper; "
    "journal, year and page are not on the copy",
    seen=True,
    unit="mm",
    holds=("PUBLISHED",),
    told=("published section", "Its author found"),
)
PUBLISHED = 0.15
# By hand, m²/s at 1150 °C: Callister & Rethwisch, 9th ed., Table 5.2, carbon in austenite;
# Honeycombe & Bhadeshia, Steels (from memory), nickel.
CARBON_BY_HAND = 2.3e-5 * math.exp(-148e3 / 8.314 / (1150 + 273.15))
NICKEL_BY_HAND = 7.7e-5 * math.exp(-280e3 / 8.314 / (1150 + 273.15))


def _even_by_hand(layer: float, speed: float = CARBON_BY_HAND) -> float:
    """Minutes until the slowest wave between layers (mm) is a twentieth."""
    return math.log(20) * (layer * 1e-3) ** 2 / (math.pi**2 * speed) / 60


def _reach_by_hand(speed: float) -> float:
    """√(D t) for ten minutes, mm."""
    return 1e3 * math.sqrt(speed * 600)


def _speed(element: str) -> float:
    """Give a diffusivity in mm² a minute."""
    return 60e6 * float(diffusivity(element, HEAT))


@cache
def _shared() -> Values:
    values = {"heat": HEAT, "slow": -math.log(EVEN), "speed": _speed("C")}
    for number, layer in enumerate(LAYERS):
        values[f"layer_{number}"] = layer
        values[f"minutes_{number}"] = minutes_to_even(layer, "C", HEAT)
        values[f"seconds_{number}"] = 60 * values[f"minutes_{number}"]
    return values


def _walk(name: str, steels: tuple[str, str], layer: float, element: str,
          minutes: float) -> Walk:  # fmt: skip
    """Follow an element through six layers; the outer halves stand for many more."""
    halves = (1, 2, 2, 2, 2, 2, 1)
    bars = [
        Layer(steel=steels[number % 2], thickness=half * layer / 2)
        for number, half in enumerate(halves)
    ]
    stack = Stack(layers=bars)
    heights = np.linspace(0, 1, 721)
    heat = evened(element, [Soak(HEAT, minutes, stack.thickness)])
    cold = evened(element, [])
    before, after = (content_at(stack, element, even, heights) for even in (cold, heat))
    return Walk(name, heights * stack.thickness, before, after)


def _thin_and_thick(measures: Measures) -> Scene:
    minutes = minutes_to_even(LAYERS[1], "C", HEAT)
    pair = [
        _walk(f"Carbon, %, layers of {measures.fine(layer)}", (HARD, SOFT), layer, "C",
              minutes)
        for layer in (LAYERS[1], LAYERS[0])
    ]  # fmt: skip
    return walks(pair, f"{minutes:.1f} min at {measures.write(HEAT, 'heat')}", measures)


@cache
def _apart() -> Values:
    carbon, nickel = (spread(element, HEAT, MINUTES) for element in ("C", "Ni"))
    return {
        "heat": HEAT,
        "minutes": MINUTES,
        "carbon": carbon,
        "nickel": nickel,
        "carbon_speed": _speed("C"),
        "nickel_speed": _speed("Ni"),
        "times": carbon / nickel,
        "layer": PUBLISHED,
        "seconds": 60 * minutes_to_even(PUBLISHED, "C", HEAT),
        "hours": minutes_to_even(PUBLISHED, "Ni", HEAT) / 60,
    }


def _two_walks(measures: Measures) -> Scene:
    pair = [
        _walk(f"{name}, %", (DARK, BRIGHT), LAYERS[1], element, MINUTES)
        for name, element in (("Carbon", "C"), ("Nickel", "Ni"))
    ]
    return walks(pair, f"{MINUTES:g} min at {measures.write(HEAT, 'heat')}", measures)


@cache
def _bright() -> Values:
    dark, bright = (steel(name).nominal.get("Ni", 0.0) for name in (DARK, BRIGHT))
    return {
        "heat": HEAT,
        "minutes": MINUTES,
        "dark": dark,
        "bright": bright,
        "difference": bright - dark,
        "blur": spread("Ni", HEAT, MINUTES),
        "layer": LAYERS[1],
        "share": 100 * spread("Ni", HEAT, MINUTES) / LAYERS[1],
    }


card = cards_of(__file__)
CARDS = (
    card(
        5,
        values=_shared,
        by_hand={
            "minutes_0": _even_by_hand(1),
            "minutes_1": _even_by_hand(0.25),
            "seconds_2": 60 * _even_by_hand(0.1),
        },
        picture=_thin_and_thick,
        dangers=(FIRE,),
        claims=(EVENED, TABLE["C"], WALKS, STIFF),
    ),
    card(
        12,
        values=_bright,
        by_hand={"difference": 2.0 - 0.0, "blur": _reach_by_hand(NICKEL_BY_HAND)},
        picture=lambda measures: faces.swapped((DARK, BRIGHT), WITHOUT, measures),
        mark=DISAGREE + " How bright each steel looks is illustrative.",
        dangers=(FIRE, NICKEL),
        claims=(TABLE["Ni"], WALKS, TONES),
    ),
    card(
        15,
        values=_apart,
        by_hand={
            "carbon": _reach_by_hand(CARBON_BY_HAND),
            "nickel": _reach_by_hand(NICKEL_BY_HAND),
            "seconds": 60 * _even_by_hand(0.15),
            "hours": _even_by_hand(0.15, NICKEL_BY_HAND) / 60,
        },
        picture=_two_walks,
        mark=f"{DISAGREE} {LOOKED_AT.says}",
        dangers=(FIRE,),
        claims=(TABLE["C"], TABLE["Ni"], WALKS, LOOKED_AT, TONES, ALLOY_PUSHES),
    ),
)
