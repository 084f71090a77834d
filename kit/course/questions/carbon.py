"""Cards 5, 12 and 15: carbon walks, nickel stands still."""

import math
from functools import cache

import numpy as np

from kit.basics.claim import Claim, Kind
from kit.course.lessons.scene import Scene
from kit.course.questions import faces
from kit.course.questions.card import Card, Measures, Values
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


CARDS = (
    Card(
        number=5,
        question="Hard layers for sharpness and soft layers for flexibility?",
        belief="Each layer keeps its own nature, and the edge becomes a fine saw.",
        answer="At welding heat carbon moves. Between thin layers it evens out in minutes, "
        "so in a matched pair all layers, hardened and tempered, are much alike. How "
        "stiff a blade is comes from its thickness, not from soft layers. And where "
        "layers lie flat they run along the edge, so there is nothing to take turns "
        "there. Layers that stay thick, a few of iron against steel, or a sheet of nickel "
        "between, really can differ.",
        breath="By the time it is welded and drawn out, the carbon has been shared.",
        name="Carbon 95 % even at {heat:heat}",
        value="{layer_0:fine}: {minutes_0:.0f} min; {layer_1:fine}: {minutes_1:.1f} min; "
        "{layer_2:fine}: {seconds_2:.0f} s",
        working=(
            "time = {slow:.1f} × layer² / (pi² × D)",
            "D of carbon at {heat:heat}: {speed:.4f} mm² a minute",
            (
                "layers of {layer_0:fine}: {slow:.1f} × ({layer_0:g} mm)² / (9.87 × "
                "{speed:.4f} mm²) = {minutes_0:.0f} min"
            ),
            "a quarter of the layer, a sixteenth of the time: {minutes_1:.1f} min",
            "{layer_2:fine}: {seconds_2:.0f} s",
        ),
        values=_shared,
        by_hand={
            "minutes_0": _even_by_hand(1),
            "minutes_1": _even_by_hand(0.25),
            "seconds_2": 60 * _even_by_hand(0.1),
        },
        shown=("59 min", "3.7 min", "36 s"),
        picture=_thin_and_thick,
        found_by="hard soft flexibility",
        keywords="hard and soft layers alternating, flexible flexibility bend bendy spring "
        "springy elastic, best of both worlds, tough and sharp at once, brittle, one keeps "
        "an edge, one keeps it from breaking, dark layers cut, saw micro serrated teeth, "
        "why two different steels, combine mix two kinds, iron and steel, property "
        "properties, purpose reason for two, each layer does its job, strong, which is the "
        "hard one, which part is soft, absorbs shock, soft inside, hard outside, do the "
        "layers make it flexible, both together, role of each, soft one bends hard one "
        "cuts, why mix soft steel in, hard steel cuts, tiny teeth, flexible and hard at "
        "the same time, does it flex, sandwich of hard and soft, softer metal, rubber, two "
        "different metals for strength, both hard, elasticity, which part is hard and "
        "which is soft, dark or bright the hard one, soft layers wear down so you get a "
        "saw edge, bend without breaking, because of the layers, is it soft or hard layers",
        mark="Carbon's figures: Callister & Rethwisch, Materials Science and Engineering, "
        "9th ed., Table 5.2. Flat layers, all of one thickness.",
        dangers=(FIRE,),
        claims=(EVENED, TABLE["C"], WALKS, STIFF),
        lesson="08",
    ),
    Card(
        number=12,
        question="Why is one steel bright?",
        belief="The bright one is harder, or purer, or chromed.",
        answer="Mostly because of nickel: 15N20 holds about {bright:g} %. It slows the "
        "acid and does not take the dark oxide. It has little to do with hardness: put in "
        "a steel without nickel that hardens and tempers as well, and most of the contrast "
        "is gone. The fire does not wash nickel out: {minutes:g} minutes at {heat:heat} "
        "blur its edge by only about {blur:rough}.",
        breath="That is nickel. The acid bites it less.",
        name="Nickel difference after welding",
        value="{difference:g} %, blurred by about {blur:rough}",
        working=(
            "{bright:g} % in the bright steel - {dark:g} % in the dark one",
            "blur = √(D × time), D of nickel, {minutes:g} min at {heat:heat}",
            "= {blur:fine}, or {share:.1f} % of a layer of {layer:fine}",
        ),
        values=_bright,
        by_hand={"difference": 2.0 - 0.0, "blur": _reach_by_hand(NICKEL_BY_HAND)},
        shown=("2 %", "0.002 mm"),
        picture=lambda measures: faces.swapped((DARK, BRIGHT), WITHOUT, measures),
        found_by="bright nickel steel",
        keywords="bright lines, dark grey, contrast colour shades tones, why two colours, "
        "which two steels are used, materials, what is it made of, composition "
        "ingredients, nickel chrome 15n20 l6 1084 1095 1075 5160 o1 grade, difference "
        "between dark and bright, light and dark, stays bright, dark and bright stripes, "
        "what gives the colour, white, black and white, what makes the light stripes "
        "light, what are the dark lines, different colours, chemical elements, what does "
        "nickel do, reason for the shine, why are some lines darker than others, one layer "
        "shines more, is the black steel different, shiny bits, what steel is the bright "
        "one, dark steel, bright steel, white stripes, grey, what colour, where does the "
        "colour come from, different metal, two colours, why is it shiny, why so bright, "
        "silver lines, does it contain silver nickel, copper, why doesn't it go dark, one "
        "stays white, what are the two steels called, what's in it, which is the white "
        "one, which metals did you put together, metals did you combine, what did you mix",
        mark=DISAGREE + " How bright each steel looks is illustrative.",
        dangers=(FIRE, NICKEL),
        claims=(TABLE["Ni"], WALKS, TONES),
        lesson="08",
    ),
    Card(
        number=15,
        question="Doesn't the carbon mix and make it all the same?",
        belief="If carbon moves, the pattern must go.",
        answer="You are right about carbon, and it does not matter. Nickel, manganese and "
        "chromium hardly move, and they are what the etch tells apart. In {minutes:g} "
        "minutes at {heat:heat} carbon gets {carbon:fine} far and nickel about "
        "{nickel:rough}, over a hundred times less. (Strictly, carbon evens out in what it "
        "feels and not in per cent, so a small difference stays where the alloy differs.)",
        breath="Carbon walks. Nickel stands still.",
        name="How far they get in {minutes:g} min",
        value="carbon {carbon:fine}, nickel about {nickel:rough}",
        working=(
            "reach = √(D × time), {minutes:g} min at {heat:heat}",
            "carbon: √({carbon_speed:.4f} mm² a minute × {minutes:g}) = {carbon:fine}",
            "nickel: √({nickel_speed:.2e} mm² a minute × {minutes:g}) = {nickel:fine}",
            (
                "to even out layers of {layer:fine}: carbon {seconds:.0f} s, nickel "
                "{hours:.0f} h"
            ),
        ),
        values=_apart,
        by_hand={
            "carbon": _reach_by_hand(CARBON_BY_HAND),
            "nickel": _reach_by_hand(NICKEL_BY_HAND),
            "seconds": 60 * _even_by_hand(0.15),
            "hours": _even_by_hand(0.15, NICKEL_BY_HAND) / 60,
        },
        shown=("0.226 mm", "0.002 mm"),
        picture=_two_walks,
        found_by="carbon mix same",
        keywords="carbon diffusion migrate move wander spread, even uniform homogeneous, "
        "one mixed steel in the end, everything the same, all alike, nickel, blend, "
        "heating so often, why is there still a pattern, pattern not lost in the fire, "
        "heat lost, still different after many heats, moves about, blend when hot for so "
        "long, mix into one metal, become one uniform steel, atoms, after so long in the "
        "fire, why can you still see two steels, average, carbon content, lose carbon, "
        "spreads out, isn't it all one steel then, turn into one, if carbon goes "
        "everywhere, heat it so many times, layers disappear when heated, mixing of the "
        "steels, wouldn't it all mix, spread evenly, atoms move, same carbon everywhere, "
        "dissolve, lose the layers, carbon wander from one layer to the other, heat it "
        "long enough, pattern go away in the heat, long heating, heated for long",
        mark=f"{DISAGREE} {LOOKED_AT.says}",
        dangers=(FIRE,),
        claims=(TABLE["C"], TABLE["Ni"], WALKS, LOOKED_AT, TONES, ALLOY_PUSHES),
        lesson="08",
    ),
)
