"""Cards 14, 16 and 17: what happens in the fire."""

import math
from functools import cache

from kit.basics.units import difference_in_fahrenheit, in_fahrenheit
from kit.course.lessons.scene import Scene
from kit.course.questions import charts
from kit.course.questions.card import NO_SOURCE, Card, Measures, Values
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


CARDS = (
    Card(
        number=14,
        question="Do the two steels melt together?",
        belief="They run into one another like two kinds of chocolate.",
        answer="Nothing melts. A forge weld is made solid: two clean faces, hot and soft, "
        "are squeezed so close that they become one piece, without air between. "
        "Calculated: with {carbon} % carbon steel begins to melt at {melts:heat}, "
        "{margin:rise} above a weld at {weld:heat}; with more carbon less is left, "
        "{rich_margin:rise} at {rich} % and {richest_margin:rise} at {richest} %. That is "
        "no room to use: real steel burns earlier. {limit:heat} is the working limit of "
        "this pair, and sparks are already too hot.",
        breath="Nothing melts. Clean, hot and squeezed, they become one.",
        name="From the weld to where melting is calculated to start",
        value="{margin:rise}",
        working=(
            "calculated: {carbon} % carbon begins to melt at {melts:heat}",
            "from the weld to melting: {melts:heat} - {weld:heat} = {margin:rise}",
            "{rich} % melts: {rich_melts:heat} - {weld:heat} = {rich_margin:rise}",
            "{richest} % melts: {richest_melts:heat} - {weld:heat} = {richest_margin:rise}",
        ),
        values=_margin,
        by_hand={
            "melts": _melting_by_hand(0.84),
            "rich_melts": _melting_by_hand(1.2),
            "richest_melts": _melting_by_hand(1.5),
        },
        shown=("226 °C",),
        picture=_diagram,
        found_by="melt together steels",
        keywords="melted molten liquid, fuse fused mix mixed blend alloy, weld welded, "
        "join, hold stick together, glued together, what keeps the layers together, one "
        "piece or two, one solid lump, still two metals, melting point, burn sparks, "
        "become one, inside each other, how do you get them to stick, separate still, how "
        "does forge welding work, two pieces of steel become one, without melting, "
        "hammered together, stuck by pressure, how is it joined, electric, seam, merge, "
        "inseparable, how can metal stick to metal, stick just from hammering, melt into "
        "each other, need to melt it to join, are the layers glued, solid metal, pressure, "
        "hammer them together, joined by heat, welding machine, what holds the layers, one "
        "block, fire weld, does it melt, stays solid, do they become one, really one "
        "piece, simply molten together, connect the layers, how do they stay together, "
        "what joins them",
        mark="Iron and carbon alone, computed from an open description of the Fe-C "
        "diagram; other elements lower the start of melting. Welding heats: common "
        "practice, no source.",
        dangers=(FIRE, NICKEL),
        claims=(MELTING, HEATS, WELDED, limit_of(steel("1084")), TOO_HOT),
        lesson="02",
    ),
    Card(
        number=16,
        question="What is the flux for? Is it glue?",
        belief="It is a glue, or a solder.",
        answer="It is a cleaner and a cover. It melts over the hot steel, keeps the air "
        "off, takes up the scale that is there, and is squeezed out when the pieces close. "
        "None of it should stay. Stacks that are clean, tight and shut to the air are "
        "welded without it. Scale is steel burnt away: bare, in air at {weld:heat}, "
        "{minutes:g} minutes take {bare:fine} off each face. The kit's planner begins with "
        "{each:fine} a heat, {face:fine} for one weld.",
        breath="It is soap and a lid, not glue.",
        name="Steel burnt off each face for one weld",
        value="{face:fine}",
        working=(
            "{each:fine} per face and heat, at about {weld:heat}",
            "{heats} heats for a weld: {heats} × {each:fine} = {face:fine}",
            "off the thickness, both faces: 2 × {face:fine} = {both:fine}",
            "to compare: bare, in air, {minutes:g} min at {weld:heat}: {bare:fine}",
        ),
        values=_burnt,
        by_hand={"face": 2 * 0.08, "both": 4 * 0.08, "bare": BARE_BY_HAND},
        shown=("0.16 mm",),
        picture=soap_and_lid,
        found_by="flux glue borax",
        keywords="borax powder sand white stuff sprinkle pour throw, put on the hot "
        "glowing steel, solder, scale clean cleaner dirt oxide air oxygen, without flux, "
        "need flux, crystals salt sugar, bubbling foam glass, before welding, looks like "
        "sugar, what do you put on, keep the air away, chemical, liquid glass, always need "
        "it, sticky, wash off, powder on hot steel, does it work without, what does borax "
        "do, what is the sand powder for, kind of glue, white stuff on hot steel, why "
        "sprinkle, stuff you throw on, what for, do you need it, between steel, does it "
        "burn, soap, why powder, washing powder, sprinkle salt on it, weld without borax, "
        "what do you sprinkle, can you do without",
        mark=f"{NO_SOURCE} For bare iron: the law of scale in air, its constant from "
        "memory.",
        dangers=(FIRE, FLUX, PLATED),
        claims=(FLUXED, SCALE, SHOP_LOSSES),
        lesson="10",
    ),
    Card(
        number=17,
        question="How hot is that?",
        belief="White hot; and the two scales of temperature are easily mixed up.",
        answer="Welding about {cool:heat} to {hot:heat}; forging about {forge_low:heat} to "
        "{forge_high:heat}; hardening of a simple pair, by formula, {harden_low:heat} "
        "to {harden_high:heat}, and then at once tempering, {temper_low:heat} to "
        "{temper_high:heat}. Data sheets go first. Sparks are already too hot. Colours "
        "depend on the light in the room. And a step of {step:.0f} °C is {step_f:.0f} °F, "
        "not {slip:.0f}: 32 is added to a temperature, never to a difference.",
        breath="For a weld about {weld:.0f} degrees Celsius, about {aloud:.0f} Fahrenheit.",
        name="A welding heat",
        value="{weld:.0f} °C = {weld_f:.0f} °F",
        working=(
            "°F = 1.8 × °C + 32",
            "1.8 × {weld:.0f} + 32 = {weld_f:.0f}",
            "a difference: 1.8 × {step:.0f} = {step_f:.0f}",
        ),
        values=_heats,
        by_hand={"weld_f": 1150 * 9 / 5 + 32, "step_f": 25 * 9 / 5, "slip": 77},
        shown=("1150 °C", "2102 °F"),
        picture=_scale,
        found_by="hot temperature fahrenheit",
        keywords="temperature degrees celsius fahrenheit, fire forge furnace oven heat, "
        "how warm, what colour yellow orange white red, glow glowing, welding temperature "
        "heat, temper harden, hot enough for layers to stick, must the fire be, hottest, "
        "hammer hammering forging heat, gas coal charcoal, burn, what heat, how many "
        "degrees, white hot, yellow heat, what temperature do the layers join, too hot, "
        "too cold, minimum maximum, thermometer, know when hot enough, hot is the steel, "
        "by eye, how hot is the fire in there, is orange hot enough, how hot must it be "
        "before you can weld, temperature of the forge, how hot do you heat it, "
        "temperature needed, how many degrees is that, hot steel, heat of the fire, "
        "burning hot, how do you know the temperature, white heat, glowing red, what "
        "temperature, how much heat, is it enough, heat to weld the stack, 900 1000 1100 "
        "1200 1300 degrees, at what heat do the pieces stick, right now, heat to stick, "
        "normal fire special fire, barbecue bbq grill campfire, "
        "blow torch kitchen stove, can I do it at home in a fire",
        mark="The conversion is exact. Welding up to 1150 °C: "
        f"{limit_of(steel('1084')).source}. Hardening: {WINDOW_SOURCE}. "
        f"{TEMPER_SOURCE[0].upper()}{TEMPER_SOURCE[1:]}. The rest: "
        f"{NO_SOURCE[0].lower()}{NO_SOURCE[1:]}",
        dangers=(FIRE, MONOXIDE, OIL, UNTEMPERED),
        claims=(limit_of(steel("1084")), HEATS, TOO_HOT, WINDOW, TEMPERED, COLOURS),
        lesson="03",
    ),
)
