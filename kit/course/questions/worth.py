"""Cards 4, 9, 10, 24, 26, 35, 37 and 39 to 41: the word, its tales, and its worth."""

from functools import cache

from kit.basics.claim import Claim, Kind, beside
from kit.course.lessons.bevels import BevelsLesson
from kit.course.lessons.plan_drawing import grams_lost
from kit.course.lessons.scene import FORGED, Scene
from kit.course.lessons.skin_deep import THIN_SKIN
from kit.course.questions import charts, faces, sketches
from kit.course.questions.buying import together
from kit.course.questions.card import NO_SOURCE, Measures, Values, cards_of
from kit.course.questions.heat import NICKEL_BY_HAND, WELD_HEAT
from kit.course.questions.sketches import two_steels
from kit.forge.stack import DEMO_INNER, DEMO_OUTER
from kit.forge.steel_table import NOMINALS
from kit.forge.steels import steel
from kit.metal.contents import ATOMIC_WEIGHTS
from kit.metal.dangers import DUST, ETCHANT, FIRE, NICKEL
from kit.metal.diffusion import TABLE, diffusivity
from kit.metal.reported import AS_GOOD, MISSED, WALKS
from kit.shop import patterns
from kit.shop.patterns import NAMED
from kit.shop.plan import example
from kit.shop.work import SHOP_LOSSES

OXYGEN = 15.999  # IUPAC 2021
YEAR = 365.25 * 24 * 3600  # seconds
FAR = 1.0  # mm
FOLDS = 10

ORIGINS = (
    "blades that were made in the city",
    "blades that were sold there",
    "a smith who was called after it",
    "damask, the patterned cloth",
    "a word for water, for the look; linguists doubt it",
)
(
    WORD,
    FAME,
    BOUGHT_BARS,
    ORE,
    SWORDS,
    NO_GAIN,
    LAMINATE,
    CRUCIBLE,
    SKY,
    NO_CARBON,
    CHOICE,
    SKETCHED,
) = beside(__file__).values()


def _word(measures: Measures) -> Scene:
    drawn = "A watered face: folded, hammered by hand, ground"
    draw = sketches.bar(patterns.random())
    return sketches.listed("The word may come from:", ORIGINS, draw, drawn, measures)


def _ore() -> Values:
    iron = ATOMIC_WEIGHTS["Fe"]
    oxide = 2 * iron + 3 * OXYGEN
    return {"iron": iron, "oxygen": OXYGEN, "oxide": oxide, "ore": oxide / (2 * iron)}


def _smelted(measures: Measures) -> Scene:
    ore = _ore()["ore"]
    rows = {"iron": (1.0, "1"), "pure hematite for it": (ore, f"{ore:.2f}")}
    note = "By weight, at least: a small furnace takes several times that."
    return sketches.compared("From ore to iron", rows, note, measures)


@cache
def _walk() -> Values:
    speed = float(diffusivity("Ni", WELD_HEAT))
    return {
        "far": FAR,
        "heat": WELD_HEAT,
        "speed": 1e6 * speed * YEAR,
        "years": (FAR * 1e-3) ** 2 / speed / YEAR,
    }


def _sky(measures: Measures) -> Scene:
    lines = (
        "grown in ages of cooling, not welded",
        "forged, its bands are squashed and blurred",
        "next to no carbon: bright layers, not an edge",
    )
    drawn = "The crossed bands of an iron meteorite, a sketch"
    return sketches.listed("Iron from the sky:", lines, sketches.sky_iron, drawn, measures)


@cache
def _mixture() -> Values:
    dark, bright = steel(DEMO_OUTER.steel), steel(DEMO_INNER.steel)
    (_, many, thick), (_, few, thin) = DEMO_OUTER, DEMO_INNER
    mean = together()
    share = many * thick / (many * thick + few * thin)
    return {
        "many": many,
        "few": few,
        "thick": thick,
        "thin": thin,
        "dark": share,
        "bright": 1 - share,
        "carbon": mean["C"],
        "nickel": mean["Ni"],
        "dark_carbon": dark.nominal["C"],
        "bright_carbon": bright.nominal["C"],
        "dark_nickel": dark.nominal.get("Ni", 0.0),
        "bright_nickel": bright.nominal["Ni"],
    }


def _between(measures: Measures) -> Scene:
    known = _mixture()
    rows = [
        charts.Between(
            name.capitalize(), known[f"dark_{name}"], known[f"bright_{name}"], known[name]
        )
        for name in ("carbon", "nickel")
    ]
    return charts.between(rows, (DEMO_OUTER.steel, DEMO_INNER.steel), measures)


def _layer() -> Values:
    blade = BevelsLesson()
    return {"spine": blade.spine, "layers": blade.layers, "layer": blade.layer}


@cache
def _yield() -> Values:
    plan = example()
    nothing = dict.fromkeys(type(plan.losses).model_fields, 0)
    counts = {name: 1 for name in nothing if name.endswith("heats")}
    return {
        "stock": plan.grams_in,
        "bar": plan.grams_out,
        "lost": plan.grams_in - plan.grams_out,
        "yield": 100 * plan.share_out,
        "a_kilo": 1 / plan.share_out,
        "cut": plan.start_length,
        "ideal": plan.losing(**nothing | counts).exact_length,
        "hours": _time()["hours"],
        **_losses(),
    }


@cache
def _losses() -> Values:
    return grams_lost(example())


TIME = Claim(
    says="Ten minutes a heat, and the hours for all that comes after the fire, in our "
    "example.",
    kind=Kind.OURS,
    unit="minutes; hours",
    holds=("EACH", "AFTER"),
    told=(
        "small part|asks for .* heats|harder pattern",
        "[Ii]n our example|differ widely",
        "You pay for hours|Hours, first of all|hours are why",
    ),
)
EACH = 10.0
AFTER = {
    "clean, saw, stack": 2.0,
    "grind": 4.0,
    "harden and temper": 5.0,
    "sand and etch": 5.0,
    "handle, sheath": 6.0,
}


@cache
def _time() -> Values:
    heats = sum(stage.work.heats for stage in example().stages())
    fire, rest = heats * EACH / 60, sum(AFTER.values())
    return {"heats": heats, "each": EACH, "fire": fire, "rest": rest, "hours": fire + rest}


def _day(measures: Measures) -> Scene:
    hours = {"fire": _time()["fire"], **AFTER}
    rows = {name: (value, f"{value:.1f} h") for name, value in hours.items()}
    note = "Our example: time your own work and put your hours in."
    return sketches.compared("Hours for one blade", rows, note, measures)


def _four_patterns(measures: Measures) -> Scene:
    shown = ("random", "ladder", "raindrop", "medium twist")
    made = {name: patterns.pattern(name).forge() for name in shown}
    return sketches.patterns(made, measures)


def _stairs(measures: Measures) -> Scene:
    known = _yield()
    return charts.staircase(known["stock"], _losses(), known["bar"], measures)


card = cards_of(__file__)
CARDS = (
    card(
        4,
        values=_mixture,
        by_hand={"carbon": (12 * 0.84 + 5 * 0.75) / 17, "nickel": 5 / 17 * 2.0},
        picture=_between,
        dangers=(NICKEL,),
        claims=(steel("1084"), steel("15N20"), NO_GAIN, LAMINATE, AS_GOOD, NOMINALS),
    ),
    card(
        9,
        values=faces.left_below,
        # forged to 12 mm, 3.4 mm ground into the waves; then 0.2 mm more
        by_hand={"thick": 12 - 3.4, "left": 12 - 3.4 - 0.2, "skin": 0.05},
        picture=faces.solid_or_skin,
        dangers=(DUST, ETCHANT),
        claims=(FORGED, THIN_SKIN),
    ),
    card(
        10,
        values=_layer,
        by_hand={"layer": 4.0 / 80},
        picture=lambda measures: two_steels(BevelsLesson().layer, measures),
        claims=(CRUCIBLE, FAME, FORGED, SKETCHED),
    ),
    card(
        24,
        values=_yield,
        by_hand={"cut": 102, "ideal": 254 * 5 / (6 / 8 + 5 / 16) / 25.4},
        picture=_stairs,
        mark=NO_SOURCE,
        claims=(
            TIME,
            MISSED,
            SHOP_LOSSES,
            *map(steel, (DEMO_OUTER.steel, DEMO_INNER.steel)),
        ),
    ),
    card(
        26,
        working=tuple(f"{number}: {words}" for number, words in enumerate(ORIGINS, 1)),
        values=lambda: {"told": len(ORIGINS), "proven": 0},
        by_hand={"told": 5, "proven": 0},
        picture=_word,
        claims=(WORD, FAME),
    ),
    card(
        35,
        values=_time,
        # (2 + 2) heats for each of three rounds, 2 + 3 for the last: 17 of 10 minutes
        by_hand={"heats": 17, "hours": 17 / 6 + 22},
        picture=_day,
        claims=(TIME, MISSED),
    ),
    card(
        37,
        values=lambda: {"patterns": len(patterns.PATTERNS), "better": 0},
        by_hand={"patterns": 14, "better": 0},
        picture=_four_patterns,
        claims=(CHOICE, AS_GOOD, NAMED),
    ),
    card(
        39,
        values=_ore,
        by_hand={"ore": 159.687 / 111.69},
        picture=_smelted,
        claims=(ORE, BOUGHT_BARS),
    ),
    card(
        40,
        values=lambda: {"folds": FOLDS, "layers": 2**FOLDS},
        by_hand={"layers": 1024},
        picture=lambda measures: sketches.doubling(FOLDS, measures),
        claims=(SWORDS, NO_GAIN),
    ),
    card(
        41,
        values=_walk,
        by_hand={"years": 1e-6 / NICKEL_BY_HAND / (365.25 * 86400)},
        picture=_sky,
        claims=(SKY, NO_CARBON, TABLE["Ni"], WALKS),
        dangers=(FIRE, NICKEL),
    ),
)
