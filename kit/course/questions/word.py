"""Cards 26, 39, 40 and 41: the word, the ore, the sagas and the sky."""

from functools import cache

from kit.basics.claim import Claim, Kind
from kit.course.lessons.scene import Scene
from kit.course.questions import sketches
from kit.course.questions.carbon import HEAT, NICKEL_BY_HAND
from kit.course.questions.card import Measures, Values, cards_of
from kit.metal.contents import ATOMIC_WEIGHTS
from kit.metal.dangers import FIRE, NICKEL
from kit.metal.diffusion import TABLE, diffusivity
from kit.metal.reported import WALKS
from kit.shop import patterns

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
WORD = Claim(
    says="Where the word damascus comes from is disputed: the city, a smith's name, cloth "
    "and a word for water are told, and none is confirmed.",
    kind=Kind.PUBLISHED,
    source="Feuerbach, JOM 58 (May 2006), as quoted to the American Dialect Society's "
    "list, April 2013",
    seen=True,
    told=("disputed", "sold there", "called after it"),
)
FAME = Claim(
    says="The old blades famed under that name were mostly crucible steel, also called "
    "wootz; today the trade calls welded layers damascus as well.",
    kind=Kind.MEMORY,
    source="books on crucible steel, without a page; the trade's use: common practice",
    told=(
        "blades of that fame",
        "trade calls welded layers",
        "it mostly means welded",
        "share the name",
    ),
)
BOUGHT_BARS = Claim(
    says="Most smiths buy their bars, for a mill knows what is in them. Who smelts needs "
    "several times as much ore and much charcoal, and folds what comes out clean.",
    kind=Kind.PRACTICE,
    told=("bars are bought", "made at the fire is the bar", "in a small furnace"),
)
ORE = Claim(
    says="Hematite, the red ore, is two parts iron to three of oxygen by atoms.",
    kind=Kind.DERIVED,
    source="formula of hematite with atomic weights of IUPAC 2021",
    told=("hematite",),
)
SWORDS = Claim(
    says="Old pattern-welded swords had twisted bars of few layers and steel edges; "
    "folding cleaned bloomery iron of slag. Sagas praise their look, and tales call layers "
    "folds.",
    kind=Kind.MEMORY,
    source="archaeologists' reports of blades cut up, without a page",
    told=(
        "Old pattern-welded swords",
        "Folding cleaned",
        "Sagas praise",
        "cleaned dirty iron",
        "Tales count layers",
    ),
)
NO_GAIN = Claim(
    says="Wrought iron, phosphoric iron, steel and pattern-welded samples were tested: "
    "pattern-welding has no significant positive effect on swords.",
    kind=Kind.PUBLISHED,
    source="Archaeometry 2015, doi 10.1111/arcm.12114, abstract",
    seen=True,
    told=("no significant gain",),
)
LAMINATE = Claim(
    says="A rolled laminate of seven layers, hard and mild, took a harder Charpy blow "
    "across its layers than either of its steels.",
    kind=Kind.PUBLISHED,
    source="Revista de Metalurgia 37 (2001) 130, doi 10.3989/revmetalm.2001.v37.i2.452, "
    "abstract",
    seen=True,
    told=("one laminate of seven",),
)
CRUCIBLE = Claim(
    says="The pattern of old crucible steel is bands of small carbides, which began with "
    "traces of other elements in the ingot.",
    kind=Kind.PUBLISHED,
    source="'The key role of impurities in ancient Damascus steel blades', an article, "
    "abstract",
    seen=True,
    told=("Crucible steel, also",),
)
SKY = Claim(
    says="An iron meteorite is iron and nickel; its crossed bands grew in millions of "
    "years of cooling.",
    kind=Kind.PUBLISHED,
    source="American Museum of Natural History, hall of meteorites, page on iron crystals",
    seen=True,
    told=("iron meteorite is iron", "no fire makes such"),
)
NO_CARBON = Claim(
    says="An iron meteorite holds next to no carbon, and its bands are lost in forging.",
    kind=Kind.MEMORY,
    source="textbooks on meteorites, without a page",
    told=("next to no carbon", "a story, not strength", "no carbon: bright layers"),
)


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
    speed = float(diffusivity("Ni", HEAT))
    return {
        "far": FAR,
        "heat": HEAT,
        "speed": 1e6 * speed * YEAR,
        "years": (FAR * 1e-3) ** 2 / speed / YEAR,
    }


def _sky(measures: Measures) -> Scene:
    lines = (
        "grown in ages of cooling, not welded",
        "forged, its bands are squashed and blurred",
        "no carbon: bright layers, not an edge",
    )
    drawn = "The crossed bands of an iron meteorite, a sketch"
    return sketches.listed("Iron from the sky:", lines, sketches.sky_iron, drawn, measures)


card = cards_of(__file__)
CARDS = (
    card(
        26,
        working=tuple(f"{number}: {words}" for number, words in enumerate(ORIGINS, 1)),
        values=lambda: {"told": len(ORIGINS), "proven": 0},
        by_hand={"told": 5, "proven": 0},
        picture=_word,
        claims=(WORD, FAME),
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
