"""Cards 14, 16 and 17: what happens in the fire."""

import math
from functools import cache

from kit.basics.units import difference_in_fahrenheit, in_fahrenheit
from kit.course.lessons.scene import Scene
from kit.course.questions import charts
from kit.course.questions.card import NO_SOURCE, Measures, Values, cards_of
from kit.course.questions.sketches import soap_and_lid
from kit.forge.steels import steel
from kit.metal.dangers import FIRE, FLUX, MONOXIDE, NICKEL, OIL, PLATED, UNTEMPERED
from kit.metal.hardening import SOURCE as WINDOW_SOURCE
from kit.metal.hardening import TEMPER_SOURCE, TEMPERED, TEMPERING, WINDOW
from kit.metal.pairs import pair
from kit.metal.reported import COLOURS, FLUXED, WELDED
from kit.metal.transformation import MELTING, solidus
from kit.metal.working_heat import SCALE, TOO_HOT, hottest, limit_of, scale_loss
from kit.shop.work import HEAT, HEATS, SHOP_LOSSES, Losses

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
