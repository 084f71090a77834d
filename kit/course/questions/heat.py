"""Cards 5, 12 and 14 to 17: carbon walks, nickel stays; what happens in the fire."""

import math
from functools import cache

import numpy as np

from kit.basics.claim import Claim, Kind
from kit.basics.units import difference_in_fahrenheit, in_fahrenheit
from kit.course.lessons.scene import Scene
from kit.course.questions import charts, faces
from kit.course.questions.card import NO_SOURCE, Measures, Values, cards_of
from kit.course.questions.charts import Walk, walks
from kit.course.questions.sketches import soap_and_lid
from kit.forge.stack import Layer, Stack
from kit.forge.steels import steel
from kit.metal.activity import ALLOY_PUSHES
from kit.metal.dangers import FIRE, FLUX, MONOXIDE, NICKEL, OIL, PLATED, UNTEMPERED
from kit.metal.diffusion import DISAGREE, TABLE, diffusivity, spread
from kit.metal.etch import TONES
from kit.metal.evening import EVEN, EVENED, content_at, minutes_to_even
from kit.metal.hardening import SOURCE as WINDOW_SOURCE
from kit.metal.hardening import TEMPER_SOURCE, TEMPERED, TEMPERING, WINDOW
from kit.metal.pairs import pair
from kit.metal.reported import COLOURS, FLUXED, STIFF, WALKS, WELDED
from kit.metal.soak import Soak, evened
from kit.metal.transformation import MELTING, solidus
from kit.metal.working_heat import SCALE, TOO_HOT, hottest, limit_of, scale_loss
from kit.shop.work import HEAT, HEATS, SHOP_LOSSES, Losses

WELD_HEAT, MINUTES = 1150.0, 10.0  # °C, as in lesson 08
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
    return 60e6 * float(diffusivity(element, WELD_HEAT))


@cache
def _shared() -> Values:
    values = {"heat": WELD_HEAT, "slow": -math.log(EVEN), "speed": _speed("C")}
    for number, layer in enumerate(LAYERS):
        values[f"layer_{number}"] = layer
        values[f"minutes_{number}"] = minutes_to_even(layer, "C", WELD_HEAT)
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
    heat = evened(element, [Soak(WELD_HEAT, minutes, stack.thickness)])
    cold = evened(element, [])
    before, after = (content_at(stack, element, even, heights) for even in (cold, heat))
    return Walk(name, heights * stack.thickness, before, after)


def _thin_and_thick(measures: Measures) -> Scene:
    minutes = minutes_to_even(LAYERS[1], "C", WELD_HEAT)
    pair = [
        _walk(f"Carbon, %, layers of {measures.fine(layer)}", (HARD, SOFT), layer, "C",
              minutes)
        for layer in (LAYERS[1], LAYERS[0])
    ]  # fmt: skip
    return walks(
        pair, f"{minutes:.1f} min at {measures.write(WELD_HEAT, 'heat')}", measures
    )


@cache
def _apart() -> Values:
    carbon, nickel = (spread(element, WELD_HEAT, MINUTES) for element in ("C", "Ni"))
    return {
        "heat": WELD_HEAT,
        "minutes": MINUTES,
        "carbon": carbon,
        "nickel": nickel,
        "carbon_speed": _speed("C"),
        "nickel_speed": _speed("Ni"),
        "times": carbon / nickel,
        "layer": PUBLISHED,
        "seconds": 60 * minutes_to_even(PUBLISHED, "C", WELD_HEAT),
        "hours": minutes_to_even(PUBLISHED, "Ni", WELD_HEAT) / 60,
    }


def _two_walks(measures: Measures) -> Scene:
    pair = [
        _walk(f"{name}, %", (DARK, BRIGHT), LAYERS[1], element, MINUTES)
        for name, element in (("Carbon", "C"), ("Nickel", "Ni"))
    ]
    return walks(pair, f"{MINUTES:g} min at {measures.write(WELD_HEAT, 'heat')}", measures)


@cache
def _bright() -> Values:
    dark, bright = (steel(name).nominal.get("Ni", 0.0) for name in (DARK, BRIGHT))
    return {
        "heat": WELD_HEAT,
        "minutes": MINUTES,
        "dark": dark,
        "bright": bright,
        "difference": bright - dark,
        "blur": spread("Ni", WELD_HEAT, MINUTES),
        "layer": LAYERS[1],
        "share": 100 * spread("Ni", WELD_HEAT, MINUTES) / LAYERS[1],
    }


PAIR = ("1084", "15N20")
# °C, common practice, no source; no hotter than the working limit. Data sheets go first.
WELDING, FORGING = (1100.0, hottest(PAIR)), (900.0, 1100.0)
RICHER = (1.2, 1.5)  # per cent of carbon
STEP = 25.0  # °C
BARE_MINUTES = 5.0  # in the fire without flux
# By hand: scale in air, five minutes at 1150 °C: oxygen, g/cm², by the constant that Chen &
# Yuen (2003) quote (from memory); as FeO, less a twentieth of iron; steel of 7.85 g/cm³.
OXYGEN_BY_HAND = math.sqrt(6.1 * math.exp(-169.5e3 / 8.314 / (1150 + 273.15)) * 300)
BARE_BY_HAND = 10 * OXYGEN_BY_HAND * 0.95 * 55.845 / 15.999 / 7.85


def _melting_by_hand(carbon: float) -> float:
    """Read a straight solidus off the Fe-C diagram, °C.

    From 0.17 % at 1493 °C to 2.14 % at 1147 °C: Callister & Rethwisch, Fe-C diagram.
    """
    return 1493 - (1493 - 1147) * (carbon - 0.17) / (2.14 - 0.17)


@cache
def _margin() -> Values:
    carbon = steel("1084").nominal["C"]
    rich, richest = RICHER
    return {
        "weld": HEAT["weld"],
        "limit": hottest(PAIR),
        "carbon": carbon,
        "rich": rich,
        "richest": richest,
        "melts": solidus(carbon),
        "rich_melts": solidus(rich),
        "richest_melts": solidus(richest),
        "margin": solidus(carbon) - HEAT["weld"],
        "rich_margin": solidus(rich) - HEAT["weld"],
        "richest_margin": solidus(richest) - HEAT["weld"],
    }


def _diagram(measures: Measures) -> Scene:
    steels = {name: steel(name).nominal["C"] for name in ("15N20", "1084")}
    rich = {f"{carbon:g} %": carbon for carbon in RICHER[:1]}
    return charts.melting(WELDING, {**steels, **rich}, measures)


@cache
def _burnt() -> Values:
    lost = Losses()
    return {
        "each": lost.weld_scale,
        "heats": lost.weld_heats,
        "face": lost.weld_scale * lost.weld_heats,
        "both": 2 * lost.weld_scale * lost.weld_heats,
        "bare": scale_loss(HEAT["weld"], BARE_MINUTES),
        "minutes": BARE_MINUTES,
        "weld": HEAT["weld"],
    }


@cache
def _heats() -> Values:
    weld, hardening = HEAT["weld"], pair(*PAIR).hardening.heats
    return {
        "weld": weld,
        "weld_f": in_fahrenheit(weld),
        "aloud": round(in_fahrenheit(weld), -1),  # nobody holds a fire to one degree
        "cool": WELDING[0],
        "hot": WELDING[1],
        "forge_low": FORGING[0],
        "forge_high": FORGING[1],
        "harden_low": hardening[0],
        "harden_high": hardening[1],
        "temper_low": TEMPERING[0],
        "temper_high": TEMPERING[1],
        "step": STEP,
        "step_f": difference_in_fahrenheit(STEP),
        "slip": in_fahrenheit(STEP),
    }


def _scale(measures: Measures) -> Scene:
    ranges = {
        "welding": WELDING,
        "forging": FORGING,
        "hardening": pair(*PAIR).hardening.heats,
        "tempering": TEMPERING,
    }
    return charts.thermometer(ranges, 1400.0, measures)


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
        14,
        values=_margin,
        by_hand={
            "melts": _melting_by_hand(0.84),
            "rich_melts": _melting_by_hand(1.2),
            "richest_melts": _melting_by_hand(1.5),
        },
        picture=_diagram,
        dangers=(FIRE, NICKEL),
        claims=(MELTING, HEATS, WELDED, limit_of(steel("1084")), TOO_HOT),
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
    card(
        16,
        values=_burnt,
        by_hand={"face": 2 * 0.08, "both": 4 * 0.08, "bare": BARE_BY_HAND},
        picture=soap_and_lid,
        mark=f"{NO_SOURCE} For bare iron: the law of scale in air, its constant from "
        "memory.",
        dangers=(FIRE, FLUX, PLATED),
        claims=(FLUXED, SCALE, SHOP_LOSSES),
    ),
    card(
        17,
        values=_heats,
        by_hand={"weld_f": 1150 * 9 / 5 + 32, "step_f": 25 * 9 / 5, "slip": 77},
        picture=_scale,
        mark="The conversion is exact. Welding up to 1150 °C: "
        f"{limit_of(steel('1084')).source}. Hardening: {WINDOW_SOURCE}. "
        f"{TEMPER_SOURCE[0].upper()}{TEMPER_SOURCE[1:]}. The rest: "
        f"{NO_SOURCE[0].lower()}{NO_SOURCE[1:]}",
        dangers=(FIRE, MONOXIDE, OIL, UNTEMPERED),
        claims=(limit_of(steel("1084")), HEATS, TOO_HOT, WINDOW, TEMPERED, COLOURS),
    ),
)
