"""Cards 4, 9, 10, 24, 35 and 37: is it better and real, why so dear, how long."""

from functools import cache

from kit.basics.claim import Claim, Kind
from kit.course.lessons.bevels import BevelsLesson
from kit.course.lessons.plan_drawing import grams_lost
from kit.course.lessons.scene import FORGED, Scene
from kit.course.lessons.skin_deep import THIN_SKIN
from kit.course.questions import charts, faces, sketches
from kit.course.questions.buying import together
from kit.course.questions.card import NO_SOURCE, Card, Measures, Values
from kit.course.questions.sketches import two_steels
from kit.course.questions.word import CRUCIBLE, FAME, LAMINATE, NO_GAIN
from kit.forge.stack import DEMO_INNER, DEMO_OUTER
from kit.forge.steel_table import NOMINALS
from kit.forge.steels import steel
from kit.metal.dangers import DUST, ETCHANT, NICKEL
from kit.metal.reported import AS_GOOD, MISSED
from kit.shop import patterns
from kit.shop.patterns import NAMED
from kit.shop.plan import example
from kit.shop.work import SHOP_LOSSES


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
CHOICE = Claim(
    says="Beginners do well with random or a low twist; ladders and raindrops fade when "
    "ground.",
    kind=Kind.PRACTICE,
    told=("is there to be looked at|wants to be ground deep|None is better steel",),
)


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


SKETCHED = Claim(
    says="How crucible steel is drawn is a sketch.",
    kind=Kind.OURS,
    source="illustrative in every measure",
    told=("a sketch of crucible steel", "a sketch, illustrative"),
)

CARDS = (
    Card(
        number=4,
        question="Is it better steel than a normal blade?",
        belief="Several steels welded together become something stronger than any of them.",
        answer="It is as good as its steels, welds and heat treatment. What it is made of "
        "lies between its parts: {many} bars of 1084 and {few} of 15N20 average "
        "{carbon:.3f} % carbon and {nickel:.3f} % nickel, an ordinary steel. In thin "
        "layers that have evened out we found no gain. Researchers tested samples of "
        "old-style iron, steel and pattern-welded stock: no significant gain for swords "
        "(Archaeometry, 2015, doi 10.1111/arcm.12114). Thick unlike layers can differ: one "
        "laminate of seven took a harder blow across its layers than either part (doi "
        "10.3989/revmetalm.2001.v37.i2.452).",
        breath="Not stronger: as good as what is in it, and better looking.",
        name="Carbon and nickel of the whole",
        value="{carbon:.3f} % and {nickel:.3f} %",
        working=(
            (
                "{many} bars of {thick:length} and {few} of {thin:length}: shares "
                "{dark:.3f} and {bright:.3f}"
            ),
            (
                "carbon: {dark:.3f} × {dark_carbon} % + {bright:.3f} × {bright_carbon} % = "
                "{carbon:.3f} %"
            ),
            (
                "nickel: {dark:.3f} × {dark_nickel:g} % + {bright:.3f} × {bright_nickel:g} "
                "% = {nickel:.3f} %"
            ),
        ),
        values=_mixture,
        by_hand={"carbon": (12 * 0.84 + 5 * 0.75) / 17, "nickel": 5 / 17 * 2.0},
        shown=("0.814 %", "0.588 %"),
        picture=_between,
        dangers=(NICKEL,),
        found_by="better normal stronger",
        keywords="better than a normal ordinary regular plain everyday kitchen knife, "
        "superior outperform perform performance, just for looks, only beauty decoration "
        "show, paying for looks, advantage benefit point of it, compare difference to "
        "one single mono steel, does twisting or folding make it stronger, cuts better "
        "sharper, best quality strength, worth having, factory supermarket shop knife, "
        "why use damascus, lasts longer, gimmick, professionals prefer, difference to "
        "stainless, advantages over plain steel, reason to does it do anything, "
        "functional or only pretty, tougher than usual steel, harder steel, cuts longer "
        "than others, worth it, cook with it, stronger than stainless, why is damascus "
        "so good, hype true, my old knife can or can't, do more, real advantage in the "
        "kitchen, modern steel, better than other knives, would a cook chef notice a "
        "difference",
        mark="A balance of masses. Contents are nominal values inside the ranges of the "
        "standards.",
        claims=(steel("1084"), steel("15N20"), NO_GAIN, LAMINATE, AS_GOOD, NOMINALS),
        lesson="02",
    ),
    Card(
        number=9,
        question="Is this one fake?",
        belief="One look, or one test, decides it; usually: look at the spine.",
        answer="No single sign decides. Ask whether the pattern obeys the solid: do lines "
        "run round the corners on to the next face, do both sides agree with what layers "
        "allow, does it change in a lawful way when a little is ground off? A mark on the "
        "surface may repeat or stop at corners, and goes. A plain spine proves nothing: "
        "layers can be too fine to see there, or only the sides were etched, or the blade "
        "is clad. Nor does it say anything about how well a blade was made. At a table, "
        "explain what to look for and judge nobody's goods.",
        breath="I would not go by one sign. Does the pattern run round the corners, and "
        "stay when a little is ground off?",
        name="Patterned steel left of the bars drawn, {off:fine} ground off",
        value="{left:fine} if welded, none if only on the face",
        working=(
            "welded: as deep as the bar is thick, {thick:fine} - {off:fine} = {left:fine}",
            "only on the face: {skin:fine} deep, less than {off:fine}: nothing is left",
        ),
        values=faces.left_below,
        # forged to 12 mm, 3.4 mm ground into the waves; then 0.2 mm more
        by_hand={"thick": 12 - 3.4, "left": 12 - 3.4 - 0.2, "skin": 0.05},
        shown=("8.4 mm", "none"),
        picture=faces.solid_or_skin,
        found_by="fake real test",
        keywords="genuine authentic original, forged, cheat cheated, spot recognise detect "
        "check test, laser etched printed on plain steel, proof prove sure certain, tell "
        "real from fake, seen online market photo, cheap copy, signs look for, spine, "
        "handmade, how do I know, find out if real, honest, believe, easy simple test, not "
        "genuine, printer, how to find out, expert tell, made in a factory, sure it's "
        "real, authenticity certificate, lying, someone just etch a pattern on a normal "
        "knife, check whether real thing, recognise a fake, look real, verify, does real "
        "damascus have, say if it's real, got it from a man on the street, look at mine, "
        "authentic, how can I tell if mine is fake",
        mark="Plain arithmetic on the two bars drawn. How deep a mark on the surface goes "
        "is illustrative.",
        dangers=(DUST, ETCHANT),
        also="Grind and etch only what is yours to spoil.",
        claims=(FORGED, THIN_SKIN),
        lesson="06",
        part="four blades",
    ),
    Card(
        number=10,
        question="Is it real Damascus?",
        belief="The word means one thing.",
        answer="Two steels share the name, both of them old, and their patterns have "
        "unlike causes. Crucible steel, also called wootz, is one melt in which small "
        "carbides gather in bands; etched, they show as a watery pattern. Pattern-welded "
        "steel is what this kit is about: bars welded in layers. Neither is the false one. "
        "Say which you mean, and all is well.",
        breath="Two different steels share that name. This one is welded layers.",
        name="One welded layer in the drawing",
        value="{layer:fine}",
        working=(
            "{spine:length} of spine / {layers} layers = {layer:fine}",
            "bands of carbides: not worked out; this kit has no model of crucible steel",
        ),
        values=_layer,
        by_hand={"layer": 4.0 / 80},
        shown=("0.05 mm",),
        picture=lambda measures: two_steels(BevelsLesson().layer, measures),
        found_by="real damascus wootz",
        keywords="wootz crucible bulat, true genuine original damascus, old historic "
        "legendary famous swords, crusaders crusades sultan, syria persia persian india "
        "indian arab east, lost secret art recipe, rediscovered, modern damascus today, "
        "difference between damascus and pattern welded, not real damascus, legend, proper "
        "name, other kind, steel of the orient, how did they make it, nobody can make it "
        "today, old and modern, two kinds of damascus, proper damascus, the one they had, "
        "from the middle east, what is the difference between, real old damascus, what is "
        "wootz, lost art, does true damascus still exist, steel from india, still made "
        "like in the old days, knights sword, legendary steel that cut silk, museum "
        "sword, watery lines, same as in the museum, secret lost",
        mark="The right-hand drawing is a sketch, illustrative in every measure.",
        claims=(CRUCIBLE, FAME, FORGED, SKETCHED),
        lesson="02",
    ),
    Card(
        number=24,
        question="Why does it cost so much?",
        belief="Steel is cheap, so a blade should be.",
        answer="You pay for hours first: in our example about {hours:.0f} for one blade "
        "(card 35). Then for fuel, belts and risk: a weld that did not take costs the "
        "whole bar. Steel comes last, and much of it goes: with the shop losses that the "
        "kit begins with, {stock:.0f} g of bars become {bar:.0f} g of clean bar, the rest "
        "is scale, crops, saw dust and grit. Pieces have to be cut {cut:length} long where "
        "a sum without losses says {ideal:length}.",
        breath="Hours, first of all. And more than half of the steel ends up on the floor.",
        name="What is left of the steel",
        value="{yield:.0f} %",
        working=(
            (
                "stock {stock:.0f} g - scale {scale:.0f} g - crops {crops:.0f} g - "
                "clean-up {clean-up:.0f} g - saw cuts {saw cuts:.0f} g - final grind "
                "{final grind:.0f} g"
            ),
            "= {bar:.0f} g",
            (
                "{bar:.0f} g / {stock:.0f} g = {yield:.0f} %: {a_kilo:.2f} times as much "
                "stock as bar"
            ),
        ),
        values=_yield,
        by_hand={"cut": 102, "ideal": 254 * 5 / (6 / 8 + 5 / 16) / 25.4},
        shown=("46 %",),
        picture=_stairs,
        found_by="cost price expensive",
        keywords="price prices expensive money, why so much, how much is it, worth the "
        "money, pay, what does it cost, for a knife, cheaper, afford, waste loss yield, "
        "hours work labour, stock charge for one, knife like that, a lot of money, too "
        "expensive, where does the price come from, what am I paying for, cost to make, "
        "more than a normal knife costs, lot of money, such a lot for a small knife, what "
        "makes it so pricey, that's a lot, why is damascus so expensive, why are handmade "
        "knives expensive, justify the price, how much did it cost you, cost of a blade, "
        "could you make it cheaper, how come so much, cheaper one, reduce the price, make "
        "it cost less",
        mark=NO_SOURCE,
        claims=(
            TIME,
            MISSED,
            SHOP_LOSSES,
            *map(steel, (DEMO_OUTER.steel, DEMO_INNER.steel)),
        ),
        lesson="10",
    ),
    Card(
        number=35,
        question="How long did it take you?",
        belief="An afternoon: hot steel is soft.",
        answer="The fire is the small part. The bar of this kit asks for {heats:count} "
        "heats; at {each:count} minutes each that is {fire:.1f} hours. Then it is cleaned, "
        "ground to shape, hardened and tempered, sanded, etched and hafted: in our example "
        "{hours:.0f} hours in all. A harder pattern, or a weld that did not take, doubles "
        "that. Makers differ widely, so put your own hours in.",
        breath="In our example about {hours:.0f} hours, and only {fire:.0f} of them at the "
        "fire.",
        name="Hours for one blade, in our example",
        value="{hours:.0f} hours",
        working=(
            "fire: {heats:count} heats × {each:count} min = {fire:.1f} h",
            "the rest, added up: {rest:.0f} h; together {hours:.1f} h",
        ),
        values=_time,
        # (2 + 2) heats for each of three rounds, 2 + 3 for the last: 17 of 10 minutes
        by_hand={"heats": 17, "hours": 17 / 6 + 22},
        shown=("25 hours",),
        picture=_day,
        found_by="long take hours",
        keywords="time hours days weeks months, takes took needed, work duration, many "
        "hours of work, spend spent making, effort you, one knife, how fast quick, start "
        "to finish, finished, project, how much time does it need, one blade need, make "
        "one in a day, time from bar to knife, all in all, how many days does it take, how "
        "long did you need, how long have you worked on this, time to make one, takes to "
        "make a knife, how long is the work, made in a day, years, how many hours are in "
        "this knife, to forge a knife, long does it take to forge, is it a lot of work",
        claims=(TIME, MISSED),
        lesson="10",
    ),
    Card(
        number=37,
        question="Which pattern is best?",
        belief="The rarer the pattern, the better the blade.",
        answer="None: a pattern is there to be looked at, and a blade is as good as its "
        "steels, welds and heat treatment. The kit forges {patterns:count} that the trade "
        "names. Choose by what you can forge and by what the shape shows: a twist wants to "
        "be ground deep, ladders and raindrops fade when ground, a mosaic shows on the "
        "end. To begin with: random, or a low twist (common practice, no source).",
        breath="None is better steel. Take what you like to look at and what your grind "
        "leaves standing.",
        name="Patterns that the kit forges, and better ones among them",
        value="{patterns:count}, {better:count}",
        working=(
            "{patterns:count} named by the trade",
            "better steel for its pattern: {better:count}",
        ),
        values=lambda: {"patterns": len(patterns.PATTERNS), "better": 0},
        by_hand={"patterns": 14, "better": 0},
        shown=("14, 0",),
        picture=_four_patterns,
        found_by="pattern best favourite",
        keywords="nicest favourite, choose look, twist raindrop ladder feather mosaic "
        "random, kinds types sorts of patterns, how many patterns are there, what patterns "
        "exist, recommend, popular classic, easiest simple hardest difficult pattern, "
        "easiest for beginner, suits a chef hunting kitchen knife, fits, hardest pattern "
        "to make, different patterns, most beautiful, most expensive pattern, names of "
        "patterns, how many different, nicest pattern you can make, types of damascus "
        "pattern, pattern you like the most, prettiest pattern, what other patterns, which "
        "pattern should I take, which pattern looks best, different kinds of pattern, most "
        "popular pattern, your favourite pattern, which is prettiest, what other patterns "
        "can be made, think is best, other designs, which pattern do people like",
        claims=(CHOICE, AS_GOOD, NAMED),
        lesson="05",
    ),
)
