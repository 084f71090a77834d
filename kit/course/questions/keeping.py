"""Cards 23, 25 and 31 to 33: whether it holds together, and how it is kept."""

from functools import cache

from kit.basics.claim import Claim, Kind
from kit.course.lessons.san_mai import SanMaiLesson
from kit.course.lessons.san_mai_ideas import line
from kit.course.lessons.scene import FORGED, Scene
from kit.course.lessons.weld import AS_SURE, SURE, WeldLesson
from kit.course.lessons.weld_ideas import PIECES
from kit.course.questions import charts, sketches
from kit.course.questions.blades import sharpened
from kit.course.questions.card import Card, Measures, Values
from kit.course.questions.etched import MINUTES, step_after
from kit.metal.bite import BITE, GRAIN, GRAINS
from kit.metal.dangers import NICKEL
from kit.metal.hardening import TEMPERED, TEMPERING
from kit.metal.reported import BACK_AGAIN, MISSED, WELDED
from kit.section.welds import times
from kit.shop.work import welds_made

STRIP = 1.0  # mm above the edge that a stone touches; common practice, no source
WORN = 2.0  # mm of edge that are gone in the end


@cache
def _welds() -> Values:
    job = WeldLesson()
    made = welds_made(job.billet)
    return {
        "pieces": PIECES,
        "folds": job.folds,
        "stack": made - job.folds,
        "made": made,
        "planes": job.billet.layers - 1,
        "layers": job.billet.layers,
        "met": times(job.billet, job.flaw),
        "sure": 100 * SURE,
        "share": SURE,
        "all": 100 * job.chance,
    }


@cache
def _worn() -> Values:
    height = line(SanMaiLesson().given)
    return {"strip": STRIP, "worn": WORN, "line": height, "after": height - WORN}


CARE = Claim(
    says="Carbon steel is washed by hand, dried at once, oiled or waxed, kept out of "
    "leather; a stone touches a strip about 1 mm (0.04 in) high; scouring takes the "
    "pattern. No dishwasher: hours of wet, salt and knocks rust it, chip its edge "
    "and crack a handle.",
    kind=Kind.PRACTICE,
    told=(
        "Warm water",
        "[Ss]couring takes",
        "wet, salt and",
        "rusts less fares",
        "touches a strip|strip about",
        "wash it, dry it",
        "washed free of etchant",
        "left in leather",
        "not stored in leather",
        "gone after the first sharpening",
        "Care: common practice",
        "a stone touches",
    ),
)
RUSTING = Claim(
    says="Most patterned blades are carbon steel and rust: water, salt, acid and damp "
    "start it, oil or wax holds it off. Light rust comes off, pits stay; the grey "
    "film that food leaves is no rust.",
    kind=Kind.PRACTICE,
    told=(
        "are carbon steel",
        "Water, salt, acid juice",
        "Light rust comes off",
        "grey film",
        "Carbon steel rusts",
        "Sour food darkens",
        "It rusts(\\.|: keep)",
        "Rust is loose",
    ),
)
CHIPS = Claim(
    says="Dropped, a blade chips where it is thin or hard; one never tempered may snap.",
    kind=Kind.PRACTICE,
    told=("thin point or a hard edge chips",),
)
RUST = Claim(
    says="Rust is mostly FeO(OH), as dense as 4.28 g/cm³; iron has 7.874.",
    kind=Kind.MEMORY,
    source="a handbook's densities of goethite and iron",
    unit="g/cm³; g/mol",
    holds=("RUST_DENSITY", "IRON_DENSITY", "RUST_MASS", "IRON_MASS"),
    told=("times the room of the steel",),
)
RUST_DENSITY, IRON_DENSITY = 4.28, 7.874
RUST_MASS, IRON_MASS = 88.85, 55.85
OIL = Claim(
    says="A drop of oil is about a twentieth of a cubic centimetre.",
    kind=Kind.MEMORY,
    source="the chemist's rule of twenty drops, of water",
    unit="mm³",
    holds=("DROP",),
)
DROP = 50.0
LONG, HIGH = 200.0, 40.0  # mm of a kitchen blade; ours
WASHED = Claim(
    says="A dishwasher heats to about 70 °C.",
    kind=Kind.MEMORY,
    source="makers' sheets of dishwashers, without a page",
    unit="°C",
    holds=("WASH", "COOL"),
    told=("dishwasher's heat: from memory", "a dishwasher: up to"),
)
COOL, WASH = 50.0, 70.0


def _rusted() -> Values:
    rust, iron = RUST_MASS / RUST_DENSITY, IRON_MASS / IRON_DENSITY
    return {
        "rust": RUST_DENSITY,
        "iron": IRON_DENSITY,
        "rust_mass": RUST_MASS,
        "iron_mass": IRON_MASS,
        "rust_room": rust,
        "iron_room": iron,
        "swells": rust / iron,
    }


def _swollen(measures: Measures) -> Scene:
    swells = _rusted()["swells"]
    rows = {"steel": (1.0, "1"), "rust of that steel": (swells, f"about {swells:.1f}")}
    note = "By volume. Rust is loose besides, and holds water."
    return sketches.compared("Room for steel and for its rust", rows, note, measures)


def _oiled() -> Values:
    return {
        "drop": DROP / 1000,
        "long": LONG,
        "high": HIGH,
        "film": DROP / (2 * LONG * HIGH),
        "grain": GRAIN[400] / 1000,
        "step": step_after(MINUTES),
    }


def _film(measures: Measures) -> Scene:
    known = _oiled()
    rows = {
        "a film of one drop": known["film"],
        "step of the etch": known["step"],
        "a grain of P400": known["grain"],
    }
    told = {name: (value, measures.fine(value)) for name, value in rows.items()}
    told["a film of one drop"] = (known["film"], f"about {measures.rough(known['film'])}")
    note = "How deep the etch goes is illustrative."
    return sketches.compared("Oil, pattern and grit, how thick", told, note, measures)


def _washed() -> Values:
    return {"wash": WASH, "temper": TEMPERING[0], "margin": TEMPERING[0] - WASH}


def _machine(measures: Measures) -> Scene:
    ranges = {"dishwasher": (COOL, WASH), "tempering": TEMPERING}
    return charts.thermometer(ranges, 1000.0, measures)


CARDS = (
    Card(
        number=23,
        question="Can it come apart, or break when it falls?",
        belief="It is glued, so yes; or: a weld never fails.",
        answer="A sound forge weld is steel like the rest. One that did not take is a "
        "crack from the start: scale, cold metal or a trapped gap is usually why. After "
        "etching look for a black hairline that follows a layer. {pieces} pieces and "
        "{folds} folds are {made} welds at the anvil, but {planes} joints in the bar, for "
        "each fold lays the old ones on themselves. A bad one from the first stack is met "
        "{met} times. Dropped, it fares as any blade: a thin point or a hard edge chips, "
        "and one never tempered may snap (common practice, no source).",
        breath="Good welds hold; a missed one shows as a black hairline along a layer. "
        "A fall harms it as it would any blade.",
        name="All {made} welds good, if each is {sure:.0f} % sure",
        value="{all:.0f} %",
        working=(
            "welds made = ({pieces} - 1) in the stack + {folds} folds = {made}",
            "all good: {share} ^ {made} = {all:.0f} %",
            "joints in the bar: {layers} layers - 1 = {planes}",
            "one bad weld of the first stack, {folds} folds later: 2^{folds} = {met} times",
        ),
        values=_welds,
        by_hand={"made": 10 + 3, "planes": 11 * 8 - 1, "met": 2**3, "all": 100 * 0.99**13},
        shown=("88 %",),
        picture=lambda measures: WeldLesson.scene(units=measures.units, **measures.paper),
        found_by="come apart weld",
        keywords="delaminate delamination separate split, fall apart, came apart, is it "
        "a crack or normal, tiny dark line between layers, crack cracked cracking, weld "
        "fail failed, did not stick, open, flaw fault hole, peel off, layers loose, "
        "cracks between layers, glue hold, hammering the billet, what went wrong, break "
        "in use, broken tip, dropped, drop it on the floor, what happens if I drop it, "
        "falls down, chip chipped, fragile, how strong is the joint, bend, hit stone, "
        "dangerous safe, dangerous to use, accident, layers come loose, can it snap, snap "
        "in two, split when twisted, bubble blister, bad weld, holds together when used, "
        "tip broke, break off, crumble, burst, how safe, can it break, pry, if I hit "
        "something, can layers come off, as solid as a normal blade, could it separate, "
        "could it break in half, pry, drops on stone floor, shatter, fell off the table, "
        "can it crack, survive a fall, does it break easily, break easily, kid, come "
        "undone, fall on the ground, layers break apart, stable, glass, drop the knife, "
        "concrete tiles floor, weak spot, knock, throw it, split open, is it solid, lift "
        "off, how strong are the welds, can the weld fail, thin black crack between "
        "layers, does it break when I drop it, what if it falls, fall damage",
        mark="Counting is exact. How sure one weld is: illustrative, we found no source.",
        also="A blade with an open weld can break in use: it goes back to the maker, "
        "not into the kitchen.",
        claims=(FORGED, AS_SURE, WELDED, MISSED, CHIPS),
        lesson="02",
        part="weld",
    ),
    Card(
        number=25,
        question="Will it rust?",
        belief="Special steel does not rust.",
        answer="Most such blades are carbon steel and rust, dark and bright layers both. "
        "Rust takes about {swells:.1f} times the room of the steel it was, so it lifts and "
        "leaves pits. Water, salt, acid juice and a damp sheath start it; dry steel under "
        "a film of oil or wax waits. Light rust comes off with oil and a fine cloth, along "
        "the lines; pits stay. The grey film that lemon or onion leaves is no rust and "
        "does no harm.",
        breath="Yes, most are carbon steel: wash it, dry it at once, a drop of oil.",
        name="Room that rust takes, against the steel it was",
        value="× {swells:.1f}",
        working=(
            "rust, FeO(OH), mass over density: {rust_mass} / {rust} = {rust_room:.2f}",
            "the iron in it: {iron_mass} / {iron} = {iron_room:.2f}",
            "{rust_room:.2f} / {iron_room:.2f} = {swells:.2f}",
        ),
        values=_rusted,
        by_hand={"swells": (88.85 / 4.28) / (55.85 / 7.874)},
        shown=("2.9",),
        picture=_swollen,
        found_by="rust pits corrode",
        keywords="rusty corrosion, stain discolour, orange brown red black spots, water "
        "wet salt, lemon acid juice onion tomato fruit food, kitchen, patina oxidise "
        "oxidised, get rust off, remove rust, overnight one night, left in the sink, did "
        "something wrong, turns brown, went brown, grey film, sensitive, rain, leave it "
        "wet, does water hurt it, sweat blood, worry about rust, cut tomatoes lemons, "
        "black spots after lemon, acid food fruit, okay to cut, went dull grey, sea salt "
        "water, humid, bathroom, rust stains, stop it rusting, turn, dirty marks, blue "
        "colour, help my knife is rusty, my knife rusted, orange stuff on it, forgot it in "
        "the sink, rust if I don't oil it, go brown, cut lemons with it, what to do about "
        "rust, is it rust, brown stuff, new knife has spots, get rid of rust, spots after "
        "one night, rust quickly, easily, why is my knife brown, rusting, blotches, dark "
        "stains, wash without drying, air dry, does it tarnish, prevent, stop it from "
        "rusting, went black after cutting onions, how to prevent rust, turned black, "
        "changed colour after cutting, little brown dots, brown dots on my knife, at sea, "
        "specks speckles",
        claims=(RUST, RUSTING, CARE),
        lesson="09",
    ),
    Card(
        number=31,
        question="How do I clean and keep it, and which oil?",
        belief="Steel wool and metal polish bring it up best.",
        answer="Warm water, mild soap, a soft cloth; dry it at once; a thin film of oil, "
        "food-safe in a kitchen, or of wax. No soaking, and never left in leather for "
        "long. One drop on both sides of a kitchen blade is a film of about {film:rough}: "
        "a drop is enough. Scouring takes the pattern: a grain of P400 paper is "
        "{grain:fine} across, the step between the steels about {step:fine} "
        "(illustrative).",
        breath="Warm water, a soft cloth, dry at once, one drop of oil: scouring takes the "
        "pattern.",
        name="One drop, spread over both sides",
        value="about {film:rough}",
        working=(
            "a drop: {drop:.2f} cm³; a side: {long:length} × {high:length}",
            "{drop:.2f} cm³ / (2 sides) = {film:fine}",
        ),
        values=_oiled,
        by_hand={"film": 50 / (2 * 200 * 40), "grain": 0.035},
        shown=("0.003 mm",),
        picture=_film,
        found_by="clean keep oil",
        keywords="cleaning care caring look after, wash soap warm water wipe dry cloth "
        "towel sponge, which oil, mineral olive cooking oil, food safe eat, polish wax "
        "grease, store storage drawer winter, leather sheath, maintain maintenance treat "
        "treatment, take care, after cooking, after use, steel wool scrub, put away, "
        "protect, use oil on it, dirty, how to look after it, keep it in the case, use it "
        "for food, safe for food, what to do after use, lubricate, how often oil, not "
        "using it for long, treat it, cutting board, hang magnet strip, keep it nice, "
        "vegetable oil, dry it, how do you look after a knife like this, what kind of oil, "
        "oil it every time, do I need to oil it, taking care of the blade, how to clean, "
        "how to store, how do I wash it, what oil to put on, daily care, what should I not "
        "do, cleaning it, keep it in a drawer, oil for it, wipe it, good oil, which care, "
        "how to treat it, kept, wash and dry it properly, sunflower oil, keep it clean, "
        "rub with oil, best way to clean, what do I do with it after dinner, should it be "
        "oiled, after a meal, tips for care, nickel rash allergy, allergic, sensitive skin",
        claims=(CARE, GRAINS, OIL, BITE),
        also="A new blade is washed free of etchant and oil before it meets food.",
        dangers=(NICKEL,),
        lesson="09",
    ),
    Card(
        number=32,
        question="May it go in the dishwasher?",
        belief="What is washed by hand can be washed by a machine.",
        answer="No. Its heat does nothing to the steel: it is {margin:rise} below the "
        "coolest tempering. But hours of wet, salt and strong detergent rust carbon steel "
        "and strip oil and dark oxide; knocks chip the edge; a handle of wood "
        "swells and cracks. What rusts less fares no better at edge and handle (common "
        "practice, no source).",
        breath="No. The heat does no harm; hours of wet, salt and knocks do.",
        name="From a dishwasher's heat to the coolest tempering",
        value="{margin:rise}",
        working=(
            "a dishwasher: up to about {wash:heat} (from memory)",
            "the coolest tempering: {temper:heat} - {wash:heat} = {margin:rise}",
        ),
        values=_washed,
        by_hand={"margin": (350 - 32) / 1.8 - 70},
        shown=("107 °C",),
        picture=_machine,
        found_by="dishwasher machine wash",
        keywords="dish washer, washing machine, dishes plates cutlery, detergent tabs, "
        "safe, hot water soak rinse, put in the machine, wash up, survive the machine, in "
        "a dish washer, okay in the machine, clean in dishwasher, automatic, hand wash "
        "only, machine washable, dishwasher ok, wife put it in the dishwasher, went "
        "through the dishwasher, is it dishwasher safe, dishwasher proof, in the machine "
        "by mistake, may I wash it in the machine, always uses the dishwasher, put it in "
        "the dishwasher once, dishwashers",
        claims=(TEMPERED, WASHED, CARE),
        mark="A dishwasher's heat: from memory. Tempering: a data sheet of O1. Care: "
        "common practice, no source.",
        lesson="09",
    ),
    Card(
        number=33,
        question="Does sharpening spoil the pattern?",
        belief="Each sharpening grinds the pattern away.",
        answer="No. Sharpen it as any knife: that touches a strip about {strip:tenth} high "
        "and leaves the pattern alone. In years the edge climbs: when {worn:tenth} are "
        "gone, the line of this clad blade is {after:tenth} from the edge and not "
        "{line:tenth}. Whoever thins the sides as well grinds the pattern there, and it "
        "has to be etched again.",
        breath="No: a stone touches a strip as narrow as a shoelace. The pattern is above.",
        name="The line above the edge, {worn:tenth} of wear later",
        value="{line:tenth} → {after:tenth}",
        working=(
            "new: {line:tenth} above the edge (card 22)",
            "the line stays, the edge climbs by {worn:tenth}",
            "{line:tenth} - {worn:tenth} = {after:tenth}, if the sides are not thinned",
        ),
        values=_worn,
        by_hand={"after": (1.2 / 2 - 0.2) / 1.8 * 32 - 2.0},
        shown=("7.1 mm", "5.1 mm"),
        picture=lambda measures: sharpened(STRIP, WORN, measures),
        found_by="sharpening spoil pattern",
        keywords="resharpen sharpened, stone whetstone honing rod, pattern go away when I "
        "sharpen, lose, grind edge, years wear, becomes thinner smaller, how do I sharpen "
        "it, sharpener, on my stone, afraid scared to, sharpen often, spoil when "
        "sharpening, how do you sharpen damascus, special sharpening, sharpen it myself, "
        "grinding wheel, is sharpening different, sharpening steel, sharpen without "
        "hurting, design lose when sharpened, how often can I sharpen it, normal "
        "sharpener, sharpen without losing the pattern, what stone do I need, which stone, "
        "pattern go when you sharpen, can I sharpen it myself, does sharpening remove the "
        "pattern, sharpen it at home, after sharpening, pattern after sharpening, "
        "sharpening stones, grit, electric sharpener, wheel, wear away by sharpening, "
        "sharpen normally, take it to a knife sharpener, sharpen it without scratching the "
        "pattern, will the pattern be gone after sharpening, get it sharpened",
        mark="Geometry of a flat bevel. How high a strip a stone touches: common practice, "
        "no source.",
        claims=(FORGED, CARE, BACK_AGAIN),
        lesson="07",
    ),
)
