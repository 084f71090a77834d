"""Cards 26, 39, 40 and 41: the word, the ore, the sagas and the sky."""

from functools import cache

from kit.basics.claim import Claim, Kind
from kit.course.lessons.scene import Scene
from kit.course.questions import sketches
from kit.course.questions.carbon import HEAT, NICKEL_BY_HAND
from kit.course.questions.card import Card, Measures, Values
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


CARDS = (
    Card(
        number=26,
        question="Where does the word damascus come from?",
        belief="From the city in which it was invented.",
        answer="That is disputed, and none of what is told is confirmed: blades made in "
        "the city, or sold there; a smith called after it; damask, the patterned cloth; a "
        "word for water, which linguists doubt. The old blades of that fame were mostly "
        "crucible steel, another thing with another cause. Today the trade calls welded "
        "layers damascus as well. Whoever wants to be understood says pattern-welded.",
        breath="Its origin is disputed: perhaps the city, a smith's name, a cloth, or a "
        "word for water. Today it mostly means welded layers.",
        name="Explanations that are told, and proven ones",
        value="{told:count}, {proven:count}",
        working=tuple(f"{number}: {words}" for number, words in enumerate(ORIGINS, 1)),
        values=lambda: {"told": len(ORIGINS), "proven": 0},
        by_hand={"told": 5, "proven": 0},
        shown=("5, 0",),
        picture=_word,
        found_by="word origin called",
        keywords="name named called, why is it called damascus, why do you call it, term "
        "meaning mean etymology, damask damas, syria city town, history story, come from, "
        "where from, who invented it, which country, how old is it, invented discovered, "
        "arabic, language, what has damascus to do with it, who was the inventor, "
        "originally from syria, word, origin of damascus, where does the name, is it a "
        "place, capital, who found it, birthplace, which people made it first, what's the "
        "word about, what does damascus mean, does it come from syria, place or a person, "
        "what is damascus named after, who called it that, where did it start, where was "
        "it made first, why damascus, name of the city, history of the word, middle east, "
        "origin of damascus steel, first made, is it from there, who made the first, "
        "called damascus because, word come from, where is damascus, is there a reason "
        "it's called that, reason for the name, called like that, named like that",
        claims=(WORD, FAME),
        lesson="01",
    ),
    Card(
        number=39,
        question="Did you make the steel yourself?",
        belief="A smith begins with ore.",
        answer="Mostly not: bars are bought, as a baker buys flour, for a mill knows what "
        "is in them. What is made at the fire is the bar of layers. Some do smelt their "
        "own: iron takes {ore:.2f} times its weight in pure hematite, the red ore; in a "
        "small furnace several times that, with much charcoal, and what comes out must be "
        "folded clean (common practice, no source). Ask which bars were bought, and what "
        "was done to them.",
        breath="The bars are bought, as a baker buys flour. I made the layers.",
        name="Pure hematite for its weight in iron",
        value="× {ore:.2f}",
        working=(
            "hematite, 2 iron and 3 oxygen: 2 × {iron} + 3 × {oxygen} = {oxide:.2f}",
            "{oxide:.2f} / (2 × {iron}) = {ore:.2f}",
        ),
        values=_ore,
        by_hand={"ore": 159.687 / 111.69},
        shown=("1.43",),
        picture=_smelted,
        found_by="make steel yourself",
        keywords="own steel, smelt smelting ore iron sand, bloom bloomery tamahagane "
        "furnace mine, raw material, from scratch, buy bars, where do you get the steel, "
        "get your steel from, iron out of the ground dig, shop mill factory, recycled "
        "scrap, self made, cast, do you melt your own iron, where is the steel from, steel "
        "come from, where from, do you make the metal, iron ore yourself, who makes the "
        "steel, do you buy it, bought or made, melt it yourself, country, started with, do "
        "you buy the steel or make it, where does the iron come from, make the metal or "
        "buy it, do you use iron ore, make your own steel, did you make the steel, where "
        "do you buy steel, origin of the steel, your own iron, smelted, steel bought "
        "ready, who makes it, what is the raw material, produce steel, steel works, get "
        "the steel from a shop, smelt it yourself from ore, where did you get the steel, "
        "ready steel",
        claims=(ORE, BOUGHT_BARS),
        lesson="10",
    ),
    Card(
        number=40,
        question="A thousand folds, as with old swords and in sagas?",
        belief="Old swords were folded a thousand times and cut through anything.",
        answer="Tales count layers and call them folds: {folds:count} folds make "
        "{layers:count} layers of one bar, and a thousand would leave nothing to forge. "
        "Folding cleaned and evened iron that was full of slag; steel from a mill needs it "
        "for the pattern only. Old pattern-welded swords had twisted bars of few layers, "
        "with edges of steel (from memory). Tests of such stock found no significant gain "
        "(Archaeometry, 2015, doi 10.1111/arcm.12114). Sagas praise the look.",
        breath="Tales count layers and call them folds. {folds:count} folds make "
        "{layers:count} layers already, and they cleaned dirty iron.",
        name="Layers of one bar after {folds:count} folds",
        value="{layers:count}",
        working=(
            "each fold doubles: 2 × 2 × 2 …, {folds:count} times",
            "2^{folds:count} = {layers:count}",
        ),
        values=lambda: {"folds": FOLDS, "layers": 2**FOLDS},
        by_hand={"layers": 1024},
        shown=("1,024",),
        picture=lambda measures: sketches.doubling(FOLDS, measures),
        found_by="thousand swords sagas",
        keywords="japanese japan katana samurai ninja, viking vikings, sword saga legend "
        "myth true, history knights middle ages, 1000 million folds times, old celtic "
        "roman, film movies, cut through anything rock stone, folded a thousand times, "
        "magic, is it true, hero, why did the samurai fold, japanese swords, katanas "
        "folded, what the vikings said, old swords, ancient swords, how were swords made "
        "then, silk scarf, could cut everything, stronger than today, king arthur, lord, "
        "is the story true, famous sword, sharper, did the vikings have this, million "
        "layers japanese, were old swords made like this, samurai sword layers, how good "
        "were old swords, japanese sword steel, swords in the past, did they fold swords, "
        "sword of the vikings, how did people make swords, medieval sword, swords from the "
        "sagas, legend says, ninja sword, real sword folded, warriors, long ago, how many "
        "folds has a katana, were viking swords damascus too, viking sword made, swords of "
        "the samurai",
        claims=(SWORDS, NO_GAIN),
        lesson="02",
    ),
    Card(
        number=41,
        question="Is there meteorite in it?",
        belief="Iron from the sky makes the pattern, and a blade of great strength.",
        answer="Only if somebody says so and shows where it came from. An iron meteorite "
        "is iron and nickel, its crossed bands grown in millions of years of cooling. At "
        "{heat:heat} nickel needs about {years:.0f} years to walk {far:fine}: no fire "
        "makes such bands, and forging squashes them. It holds next to no "
        "carbon, so nothing makes it hard: it serves as bright layers, not as the edge.",
        breath="Only if somebody shows where it came from. It gives nickel and a story, "
        "not strength.",
        name="For nickel to walk {far:fine} at welding heat",
        value="about {years:.0f} years",
        working=(
            "time = way² / D, D of nickel at {heat:heat}",
            "({far:g} mm)² / ({speed:.3f} mm² a year) = {years:.1f} years",
        ),
        values=_walk,
        by_hand={"years": 1e-6 / NICKEL_BY_HAND / (365.25 * 86400)},
        shown=("8 years",),
        picture=_sky,
        found_by="meteorite sky iron",
        keywords="meteor space, star stone asteroid heaven, shooting star, fell from the "
        "sky, cosmic, iron from space, widmanstatten, moon, contain, comes from space, "
        "nickel iron, forge a meteorite into it, from a meteor, can you use meteorite, "
        "meteorite knife, made of meteorite, dagger pharaoh, space rock, alien, special "
        "metal, found, iron from the sky, meteor iron in it, make a blade out of a "
        "meteorite, can you put a meteorite in, star metal, meteorite iron, star iron, "
        "from outer space, real meteorite, something from space, stone from the sky, came "
        "down, meteorite inside like they say, space metal, meteor steel, has it got "
        "meteorite",
        claims=(SKY, NO_CARBON, TABLE["Ni"], WALKS),
        dangers=(FIRE, NICKEL),
        lesson="08",
    ),
)
