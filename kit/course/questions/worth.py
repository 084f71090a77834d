"""Cards 4, 9, 10 and 24: whether it is better and real, and why it is so dear."""

from __future__ import annotations

from functools import cache

from kit.basics.claim import Claim, Kind
from kit.course.lessons.bevels import BevelsLesson
from kit.course.lessons.scene import FORGED, Scene
from kit.course.lessons.skin_deep import THIN_SKIN
from kit.course.questions import charts, faces
from kit.course.questions.card import NO_SOURCE, Card, Measures, Values
from kit.course.questions.cartoons import two_steels
from kit.course.questions.inside import deeper
from kit.forge.stack import DEMO_INNER, DEMO_OUTER
from kit.forge.steels import steel
from kit.metal.contents import mean_composition
from kit.metal.dangers import DUST, ETCHANT, NICKEL
from kit.shop.plan import example
from kit.shop.work import SHOP_LOSSES


@cache
def _mixture() -> Values:
    dark, bright = steel(DEMO_OUTER.steel), steel(DEMO_INNER.steel)
    (_, many, thick), (_, few, thin) = DEMO_OUTER, DEMO_INNER
    mean = mean_composition([(dark, thick)] * many + [(bright, thin)] * few)
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


def _two_steels(measures: Measures) -> Scene:
    return two_steels(BevelsLesson().layer, measures)


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
        **_losses(),
    }


@cache
def _losses() -> Values:
    lost: dict[str, float] = {}
    for stage in example().stages():
        gone = stage.grams_before - stage.grams_after
        if stage.work.reason != "moved, not lost":
            lost[stage.work.reason] = lost.get(stage.work.reason, 0.0) + gone
    return lost


def _stairs(measures: Measures) -> Scene:
    known = _yield()
    return charts.staircase(known["stock"], _losses(), known["bar"], measures)


SKETCHED = Claim(
    says="Crucible steel is another thing with another cause; how it is drawn is a sketch.",
    kind=Kind.OURS,
    source="illustrative in every measure",
)

CARDS = (
    Card(
        number=4,
        question="Is it better steel than a normal blade?",
        belief="Several steels welded together become something stronger than any of them.",
        answer="It is as good as its steels, welds and heat treatment. What it is made of "
        "lies between its parts: {many} bars of 1084 and {few} of 15N20 average "
        "{carbon:.3f} % carbon and {nickel:.2f} % nickel, an ordinary steel. In thin "
        "layers that have evened out we found no gain. Researchers tested samples of "
        "old-style iron, steel and pattern-welded stock: no significant gain for swords "
        "(Archaeometry, 2015, doi 10.1111/arcm.12114). Thick unlike layers can differ: one "
        "laminate of seven took a harder blow across its layers than either part (doi "
        "10.3989/revmetalm.2001.v37.i2.452).",
        breath="Not stronger: as good as what is in it, and better looking.",
        name="Carbon and nickel of the whole",
        value="{carbon:.3f} % and {nickel:.2f} %",
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
                "% = {nickel:.2f} %"
            ),
        ),
        values=_mixture,
        by_hand={"carbon": (12 * 0.84 + 5 * 0.75) / 17, "nickel": 5 / 17 * 2.0},
        shown=("0.814 %", "0.59 %"),
        picture=_between,
        dangers=(NICKEL,),
        found_by="better normal stronger",
        keywords="stronger tougher sharp quality super best compare strength normal mono",
        mark="A balance of masses. Contents are nominal values inside the ranges of the "
        "standards.",
        claims=(steel("1084"), steel("15N20")),
        lesson="02",
    ),
    Card(
        number=9,
        question="Is this one fake?",
        belief="One look, or one test, decides it; usually: look at the spine.",
        answer="No single sign decides. Ask whether the pattern obeys the solid: do lines "
        "run round the corners on to the next face, do both sides agree with what layers "
        "allow, does it change in a lawful way when a little is ground off? A mark on the "
        "surface repeats, stops at corners, and goes. A plain spine proves nothing: layers "
        "can be too fine to see there, or only the sides were etched, or the blade is "
        "clad. Nor does it say anything about how well a blade was made. At a table, "
        "explain what to look for and judge nobody's goods.",
        breath="I would not go by one sign. Does the pattern run round the corners, and "
        "stay when a little is ground off?",
        name="Lines in a turn after {off:fine} is ground off a twist",
        value="{after:.0f} if welded, none if only on the face",
        working=(
            "welded: 4 × height above the axis / layer",
            "before {before:.0f}; after: 4 × {low:fine} / {layer:fine} = {after:.1f}",
            "only on the face, and thinner than {off:fine}: nothing is left",
        ),
        values=deeper,
        by_hand={"before": 80, "after": 4 * 4.8 / 0.25},
        shown=("77", "none"),
        picture=faces.solid_or_skin,
        found_by="fake real test",
        keywords="real genuine forged etched laser printed cheap copy test spine proof "
        "original counterfeit imitation",
        mark="Geometry of a twisted bar. How deep a mark on the surface goes is "
        "illustrative.",
        dangers=(DUST, ETCHANT),
        also="Grind and etch only what is yours to spoil.",
        claims=(FORGED, THIN_SKIN),
        lesson="06",
    ),
    Card(
        number=10,
        question="Is it real Damascus?",
        belief="The word means one thing.",
        answer="Two steels share the name, both of them old. Crucible steel, also called "
        "wootz, is one melt in which small carbides gather in bands; etched, they show as "
        "a watery pattern. Pattern-welded steel is what this kit is about: bars welded in "
        "layers. Neither is the false one. Say which you mean, and all is well.",
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
        picture=_two_steels,
        found_by="real damascus wootz",
        keywords="damascus wootz crucible bulat watered pattern welded true genuine name "
        "history syria india",
        mark="The right-hand drawing is a sketch, illustrative in every measure.",
        claims=(SKETCHED,),
        lesson="02",
    ),
    Card(
        number=24,
        question="Why does it cost so much?",
        belief="Steel is cheap, so a blade should be.",
        answer="You pay for time, fuel, risk and loss. With the shop losses that the kit "
        "begins with, {stock:.0f} g of bars become {bar:.0f} g of clean bar before any "
        "blade is ground: the rest is scale, crops, saw dust and grit. Pieces have to be "
        "cut {cut:length} long where a sum without losses says {ideal:length}.",
        breath="More than half of the steel ends up on the floor. And then the blade is "
        "ground from what is left.",
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
        keywords="price expensive dear money worth cheap waste loss yield hours work stock",
        mark=NO_SOURCE,
        claims=(SHOP_LOSSES,),
        lesson="10",
    ),
)
