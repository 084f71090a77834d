"""Cards 27, 28, 29, 36 and 38: what a buyer asks, and what a pattern does not tell."""

from functools import cache

from kit.basics.claim import Claim, Kind
from kit.course.lessons.scene import FORGED, Scene
from kit.course.questions import faces, sketches
from kit.course.questions.card import Card, Measures, Values
from kit.forge.billet import Billet
from kit.forge.stack import DEMO_INNER, DEMO_OUTER, Stack
from kit.forge.steels import steel
from kit.metal.contents import RUSTLESS, STAINLESS, mean_composition
from kit.metal.dangers import FUME, NICKEL, PLATED, UNKNOWN
from kit.metal.etch import TONES
from kit.metal.hardening import QUENCHED, as_quenched
from kit.metal.reported import AS_GOOD
from kit.shop import patterns

DARK, BRIGHT = DEMO_OUTER.steel, DEMO_INNER.steel
ASK = (
    "Which steels, by name or number?",
    "Who hardened and tempered it?",
    "How hard is it?",
    "May it come back?",
)
SOFT = 25.0  # HRC
STRIPES = 97

UNHARDENED = Claim(
    says="Blade steel that was forged and slowly cooled, never hardened, has about 25 HRC.",
    kind=Kind.MEMORY,
    source="handbooks of heat treatment, without a page",
    unit="HRC",
    holds=("SOFT",),
    told=("never hardened",),
)
USUAL_HARM = Claim(
    says="Very cheap patterned blades mostly have real layers; the usual harm is steel "
    "that nobody names, poorly hardened or never.",
    kind=Kind.PRACTICE,
    told=("layers of very cheap", "usual harm", "Layers are easy", "low price by itself"),
)
STAINS = Claim(
    says="Chromium makes a steel stainless, a little nickel does not. Stainless layers "
    "exist, welded with all oxygen kept out, each hardened and tempered by its own data "
    "sheet; they stain, too, only later.",
    kind=Kind.PRACTICE,
    told=(
        "so little of it stops no rust",
        "Stainless layers exist",
        "They stain, too",
        "It stains, though less",
    ),
)
NORMALISED = Claim(
    says="Makers normalise before the quench: heat through, cool in air, for even grain. "
    "A file bites soft steel and slips on hard.",
    kind=Kind.PRACTICE,
    told=("makers normalise", "file bites soft"),
)
FIRST_PAIR = Claim(
    says="A pair for a first billet hardens from one heat and differs in nickel; most "
    "begin with 1084 and 15N20, without stainless steel or nickel sheet.",
    kind=Kind.PRACTICE,
    told=("from one heat", "in a first billet", "one heat and one temper"),
)


def _cheap(measures: Measures) -> Scene:
    drawn = "A ladder pattern: real layers, and not a word of their steel"
    draw = sketches.bar(patterns.ladder())
    return sketches.listed("What a buyer may ask:", ASK, draw, drawn, measures)


@cache
def together() -> dict[str, float]:
    """Give the contents of the two steels together, per cent."""
    return mean_composition(
        (steel(layer.steel), layer.count * layer.thickness)
        for layer in (DEMO_OUTER, DEMO_INNER)
    )


def _chromium() -> Values:
    return {
        "chromium": together()["Cr"],
        "least": STAINLESS,
        "bright": steel(BRIGHT).nominal["Cr"],
    }


def _stainless(measures: Measures) -> Scene:
    rows = {f"{DARK} and {BRIGHT}": together()["Cr"]}
    rows |= {"called stainless from": STAINLESS}
    rows |= {name: steel(name).nominal["Cr"] for name in ("420", "440C", "304")}
    told = {name: (value, f"{round(value, 3):g} %") for name, value in rows.items()}
    note = "Nominal contents inside the ranges of the standards."
    return sketches.compared("Chromium, per cent", told, note, measures)


def hardness(carbon: float) -> Values:
    """Give how hard a steel of some per cent of carbon is, quenched and never, HRC."""
    return {"carbon": carbon, "hard": as_quenched(carbon), "soft": SOFT}


@cache
def _hardness() -> Values:
    return hardness(together()["C"])


def _alike(measures: Measures) -> Scene:
    billet = faces.bar(0.5, 44.0)
    shown = faces.face(billet, 3.0)
    words = (
        f"Hardened: up to {_hardness()['hard']:.0f} HRC before it is tempered",
        f"Never hardened: about {SOFT:.0f} HRC",
    )
    note = "One face drawn twice: layers look alike, soft and hard."
    sheet = faces.twice(billet, [(told, *shown) for told in words], note, measures)
    return Scene(image=sheet.image, alt=f"{note} {'; '.join(words)}.", numbers=())


def _pair() -> Values:
    dark, bright = steel(DARK).nominal, steel(BRIGHT).nominal
    return {
        "carbon": dark["C"] - bright["C"],
        "nickel": bright["Ni"] - dark.get("Ni", 0.0),
        "dark_carbon": dark["C"],
        "bright_carbon": bright["C"],
        "bright_nickel": bright["Ni"],
    }


def forgings(stripes: int) -> list[tuple[int, int]]:
    """Give all pieces and folds on a hinge that end in so many stripes.

    Examples
    --------
    >>> forgings(5)
    [(5, 0), (3, 1), (2, 2)]
    """
    joints = stripes - 1
    return [
        (joints // 2**folds + 1, folds)
        for folds in range(stripes)
        if joints % 2**folds == 0 and joints >= 2**folds
    ]


def _ways() -> Values:
    found = forgings(STRIPES)
    return {
        "stripes": STRIPES,
        "ways": len(found),
        "many": found[0][0],
        "few": found[-1][0],
        "most": found[-1][1],
    }


def _six(measures: Measures) -> Scene:
    lines = [f"{pieces} pieces, folds: {folds}" for pieces, folds in forgings(STRIPES)]
    drawn = f"A bar of {STRIPES} stripes, seen from a corner"
    pile = Stack.alternate(DARK, BRIGHT, pieces=STRIPES, thickness=0.3, length=90, width=40)
    draw = sketches.bar(Billet(source=pile))
    title = f"{STRIPES} stripes may come from"
    return sketches.listed(title, lines, draw, drawn, measures)


CARDS = (
    Card(
        number=27,
        question="It was very cheap. Is it any good?",
        belief="Cheap means that the pattern is printed on; or a pattern proves a blade "
        "good.",
        answer="The layers of very cheap blades and bars are mostly real. The usual harm "
        "is another: steel that nobody names, poorly hardened or never, and a pattern does "
        "not show that. So ask: which steels are in it, who hardened and tempered it, how "
        "hard is it, and may it come back? Who made or sells it can answer, or can say "
        "that they do not know. A low price by itself proves nothing (common practice, no "
        "source).",
        breath="Layers are easy, heat treatment is not. Ask which steels, who hardened it, "
        "how hard it is, and whether it may come back.",
        name="Questions that a buyer may ask",
        value="{questions:count}",
        working=tuple(f"{number}: {words}" for number, words in enumerate(ASK, 1)),
        values=lambda: {"questions": len(ASK)},
        by_hand={"questions": 4},
        shown=("4",),
        picture=_cheap,
        found_by="cheap good money",
        keywords="cheap knife, low price, little money, for so little, too good to be "
        "true, quality junk rubbish, shop fair holiday, imported, buy, should I buy it, "
        "should I take it, found one, seen one online, is it okay, ask seller return trust "
        "warranty, gift present, good deal, worth buying, low cost, discount sale, decent, "
        "cheap one, cheap damascus, got a cheap one, dollar knife, so cheap, why is this "
        "one so cheap, worth anything, as a present, from the internet, bad quality, waste "
        "of money, can it be good, second hand, tourist, flea, are cheap ones bad, mine "
        "was only, any good, set for so few euros, can I trust it, cheap set, bought for "
        "very little, online shop, buy one online, quality for the price, so low, under "
        "hundred, cheap knives, should I worry, is a cheap one ok, is cheap damascus real, "
        "bad deal, will it be good, would you buy one, knives for few dollars, is a cheap "
        "knife worth the money, what about the cheap ones, dollars online, why are some "
        "knives so cheap",
        claims=(USUAL_HARM,),
        lesson="11",
    ),
    Card(
        number=28,
        question="Is it stainless?",
        belief="What is bright does not rust.",
        answer="Mostly not. A steel is called stainless from {least:g} % of chromium; the "
        "two of this kit together hold next to none, {chromium:.2g} %. The bright lines "
        "are nickel, and so little of it stops no rust. Stainless layers exist: two "
        "stainless steels, or stainless sides on a core, welded with all oxygen kept out, "
        "hardened and tempered by their own data sheets. They stain, too, only later. Ask "
        "for the names of the steels.",
        breath="Mostly not: the bright lines are nickel, not chromium. Stainless layers "
        "exist; ask for the names of the steels.",
        name="Chromium in it, and from where steel is called stainless",
        value="{chromium:.2g} % and {least:g} %",
        working=(
            "{bright:g} % in the bright steel, 5 of its 17 parts: {chromium:.2g} %",
            "stainless from {least:g} %",
        ),
        values=_chromium,
        by_hand={"chromium": 5 / 17 * 0.05, "least": 10.5},
        shown=("0.015 %", "10.5 %"),
        picture=_stainless,
        found_by="stainless chromium inox",
        keywords="inox rustproof rustfree rust free, chrome, 304 316 440c 420, nonrusting "
        "never rusts, does not rust, cladding, stainless damascus, carbon steel or "
        "stainless, corrosion resistant, which kind of steel, magnet magnetic, does the "
        "steel contain chrome, chrome in it, made from stainless steels, can you make "
        "stainless, normal steel or stainless, is it rust proof, magnet sticks, alloyed, "
        "can damascus be stainless, stainless or will it rust, is it rust free, does it "
        "have chromium, stainless layers, is damascus stainless steel, made of stainless, "
        "carbon or stainless, is there stainless damascus, stainless or carbon, does it "
        "rust or is it stainless, what about chromium, rusting or stainless",
        claims=(RUSTLESS, STAINS, TONES, steel(DARK), steel(BRIGHT)),
        dangers=(NICKEL, FUME),
        lesson="08",
    ),
    Card(
        number=29,
        question="Was it hardened and tempered, and does the pattern tell?",
        belief="A blade with a pattern was surely hardened.",
        answer="The pattern does not tell: layers show in soft steel as in hard. Straight "
        "from the quench this pair reaches {hard:.0f} HRC at most, and tempering takes a "
        "little of it; never hardened it stays at about {soft:.0f} (from memory), and its "
        "edge rolls over. Before the quench makers normalise: heat it through and let it "
        "cool in air, which evens its grain (common practice, no source). A file bites "
        "soft steel and slips on hard, but it scratches. Ask who hardened it, or have its "
        "hardness measured.",
        breath="The pattern does not tell. Ask who hardened and tempered it, and how hard "
        "it is.",
        name="Hardness from the quench, and never hardened",
        value="{hard:.0f} and about {soft:.0f} HRC",
        working=(
            "{carbon:.2f} % carbon counts as 0.70 %: {hard:.1f} HRC (ASTM A255)",
            "never hardened: about {soft:.0f} HRC",
        ),
        values=_hardness,
        # ASTM A255 at 0.70 % carbon, power by power
        by_hand={
            "hard": 35.395
            + 6.990 * 0.7
            + 312.330 * 0.49
            - 821.744 * 0.343
            + 1015.479 * 0.2401
            - 538.346 * 0.16807,
        },
        shown=("65", "25"),
        picture=_alike,
        found_by="hardened tempered hardness",
        keywords="hrc rockwell, heat treatment treated, quench quenched, quench in oil "
        "water, temper soft file hard, how hard is it, how hard is the blade, see from the "
        "pattern, tell from the pattern, was it done properly, annealed normalised, does "
        "it show, measure, cooled cool down, cold, is it hardened, was it hardened, is it "
        "hard or soft, heat treatment done right, hardened properly, harden it, how do you "
        "harden, tempered, too soft, bends and stays bent, hardening, file skates, hard "
        "enough, red hot into oil, hardened or not, hardened blade, hardness test, has "
        "this been hardened, how do you harden it, is my blade hard enough, hard or soft "
        "steel, how can I tell whether it was hardened, does pattern mean hardened, how is "
        "it hardened, hardness of the blade, hrc number, tested hardness, is it tempered, "
        "heat treated, how hard, was this heat treated, soft blade, what hardness, hard "
        "steel, soft or did you harden it, harden in oil, what hrc has it, is it soft or "
        "hard, is the blade soft, hard blade",
        claims=(QUENCHED, UNHARDENED, AS_GOOD, NORMALISED),
        lesson="11",
    ),
    Card(
        number=36,
        question="Which steels should I choose?",
        belief="Any two that look different; old files and springs cost nothing.",
        answer="A pair that hardens from one heat and etches apart. Most begin with 1084 "
        "and 15N20: their carbon is {carbon:.2f} % apart, so one heat and one temper suit "
        "both, and their nickel {nickel:g} %, so one etches dark and the other bright. "
        "Lesson 08 has the table of all pairs. Buy bars new, with a name on the paper: "
        "scrap may be anything. No stainless and no nickel sheet in a first billet.",
        breath="Two that harden from one heat, one with nickel and one without: they weld, "
        "they harden, and they show.",
        name="How far the two are apart",
        value="carbon {carbon:.2f} %, nickel {nickel:g} %",
        working=(
            "carbon: {dark_carbon} % - {bright_carbon} % = {carbon:.2f} %: near",
            "nickel: {bright_nickel:g} % - 0 % = {nickel:g} %: far",
        ),
        values=_pair,
        by_hand={"carbon": 0.84 - 0.75, "nickel": 2.0},
        shown=("0.09 %", "2 %"),
        picture=lambda measures: faces.swapped((DARK, BRIGHT), "1095", measures),
        found_by="steels choose first",
        keywords="choice first billet, begin, combination pair, recommend material alloys, "
        "1084 15n20, use best steel, buy for my first, what should I buy, need to buy, "
        "shopping list, go well together, try damascus myself, start making damascus, "
        "learn, scrap old files springs chain, what do you use, cheap steel to practise, "
        "hobby, best two steels, steels for a beginner, can I use rebar, old saw blade "
        "files bearing chain, what metals, what to start with, which metals go together, "
        "do it at home, tools, first damascus, suitable, compatible, what should I use, "
        "mixing, which steels do I get, try it at home, what steel do you use, where "
        "should a beginner start, go well together, which metals to use, two steels, what "
        "do I need to start, steels for my first, mix which steels, what steels work "
        "together, which two steels, steel to use, home made, combine which steels, good "
        "pair, make my own damascus, bicycle chain, suggestions, advice for beginners, "
        "steel combination, old leaf springs and files, will that do, which combination, "
        "can I take old steel",
        claims=(FIRST_PAIR,),
        dangers=(NICKEL, FUME, PLATED, UNKNOWN),
        lesson="08",
    ),
    Card(
        number=38,
        question="Can one know how it was made?",
        belief="Who knows the trade reads every step off the blade.",
        answer="A part of it. A face tells how lines lean, how far they are apart and "
        "whether they run round a corner; a square cut tells more. But unlike ways lead to "
        "one face: {stripes:count} stripes come from {many:count} pieces never folded as "
        "well as from {few:count} pieces folded {most:count} times, {ways:count} forgings "
        "in all. How hot, with whose hands, how it was hardened and tempered: no face "
        "tells that. Say what the lines allow, and ask the maker.",
        breath="A part of it: the lines allow some ways and rule out others. The rest only "
        "the maker knows.",
        name="Forgings that end in {stripes:count} stripes",
        value="{ways:count}",
        working=(
            "stripes = (pieces - 1) × 2^folds + 1, on a hinge",
            "{many:count} pieces, no fold, to {few:count} with {most:count}: {ways:count}",
        ),
        values=_ways,
        by_hand={"ways": 6, "few": 4, "most": 5},  # 96 = 3 × 2⁵
        shown=("6",),
        picture=_six,
        found_by="know made method",
        keywords="tell how, see how it was made, read recognise identify guess, steps "
        "trace history, forged method way technique process, by looking, from the finished "
        "blade, from the pattern, expert can see, find out figure out work out, how the "
        "smith did it, what the smith did, reconstruct, backwards, secret, how was this "
        "one made, read the recipe from the blade, from the lines, can you see what was "
        "done, is it possible to tell, see if it was twisted folded, look at it and know, "
        "machine or by hand, power hammer, story of the blade, work backwards, see from "
        "the blade what the smith did, how did they make my knife, is there a way to find "
        "out, how my knife was forged, copy this one just by looking, read the pattern, "
        "know what was done, how was my knife made, see how many folds, tell how it was "
        "forged, can you tell by looking, guess how, reading a blade, what did he do, "
        "understand how it was made, look at the lines and tell, what was done to get this "
        "pattern, tell from this photo how it's made, from a photo, recognise how it was "
        "forged, how they did it, read the layers like a book, another smith work out, "
        "understand from the layers",
        claims=(FORGED, AS_GOOD),
        mark="Plain counting, exact for hinge folds.",
        lesson="11",
    ),
)
