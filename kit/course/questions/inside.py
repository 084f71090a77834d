"""Cards 6, 7, 18 and 21: the pattern goes through the steel and changes with depth."""

import math
from functools import cache

from kit.course.lessons import twist
from kit.course.lessons.scene import FORGED, Scene
from kit.course.lessons.twist_drawing import line_angle
from kit.course.questions import faces
from kit.course.questions.card import Card, Measures, Values
from kit.metal.dangers import DUST, ETCHANT
from kit.metal.etch import TONES
from kit.metal.reported import BACK_AGAIN

TURN = 50.0  # mm, of the bar that all these cards twist
ACROSS = 16.0  # mm, its diameter
LAYER, FINE_LAYER = 0.5, 0.25  # mm
HIGH, OFF = 5.0, 0.2  # mm: a face above the axis, and what is ground off it
SLICES = (4.0, 3.5)  # mm above the axis: the faces of two blades


def _lean_by_hand(height: float) -> float:
    """Lean of a line on a bar that turns once in 50 mm, degrees: tan = 2 pi h / p."""
    return math.degrees(math.atan(2 * math.pi * height / 50))


def _lines(height: float, layer: float) -> float:
    """Count the lines in a turn: each layer between -h and +h is crossed twice."""
    return 4 * height / layer


@cache
def deeper() -> Values:
    """Count the lines of a twist before and after a little is ground off."""
    bar = faces.bar(FINE_LAYER, TURN)
    return {
        "layer": FINE_LAYER,
        "turn": TURN,
        "high": HIGH,
        "low": HIGH - OFF,
        "off": OFF,
        "before": _lines(HIGH, FINE_LAYER),
        "after": _lines(HIGH - OFF, FINE_LAYER),
        "angle_before": line_angle(bar, HIGH),
        "angle_after": line_angle(bar, HIGH - OFF),
    }


def _back_again(measures: Measures) -> Scene:
    bar = faces.bar(FINE_LAYER, TURN)
    return faces.polished_away(bar, HIGH, HIGH - OFF, measures)


@cache
def _depths() -> Values:
    bar = faces.bar(LAYER, TURN)
    values = {"turn": TURN, "across": ACROSS, "skin": ACROSS / 2, "layer": LAYER}
    for height in (8, 6, 4, 2, 0):
        values[f"angle_{height}"] = line_angle(bar, float(height))
        values[f"lines_{height}"] = _lines(height, LAYER)
    return values


def _twisted(ground: float, measures: Measures) -> Scene:
    return twist.TwistLesson.scene(
        across=ACROSS, layer=LAYER, stack=1, turn=TURN, hand=0, drawn=1, neighbour=0,
        ground=ground, units=measures.units,
        **measures.paper,
    )  # fmt: skip


@cache
def _stars() -> Values:
    star = TURN / 2
    length = twist.LENGTH
    return {
        "turn": TURN,
        "star": star,
        "length": length,
        "stars": math.floor(length / star + 1e-9),
    }


@cache
def _slices() -> Values:
    high, low = SLICES
    bar = faces.bar(LAYER, TURN)
    share = 100 * faces.changed(bar, high, low).mean()
    return {
        "high": high,
        "low": low,
        "apart": high - low,
        "turn": TURN,
        "layer": LAYER,
        "share": float(share),
        "looked": faces.STRIP[0] * faces.STRIP[1],
        "skin": line_angle(bar, ACROSS / 2),
        "half": line_angle(bar, ACROSS / 4),
    }


def _two_slices(measures: Measures) -> Scene:
    return faces.two_slices(faces.bar(LAYER, TURN), *SLICES, measures)


CARDS = (
    Card(
        number=6,
        question="Is the pattern painted, printed or engraved?",
        belief="A pattern is decoration, so somebody must have put it on the surface.",
        answer="It is where the surface cuts the layers, as a saw cut through plywood "
        "shows the plies. Polish it away, etch again and it is back, but not quite the "
        "same, because now you look a little deeper: {off:fine} off our twisted bar turns "
        "{before:count} lines in a turn into {after:count}, and {angle_before:angle} "
        "into {angle_after:angle}.",
        breath="It is like the edge of plywood: the pattern is the layers themselves.",
        name="Lines in a turn, {off:fine} deeper",
        value="{before:.1f} → {after:.1f}",
        working=(
            "in a turn the middle of the face crosses every layer between -h and +h twice",
            "lines = 4 × height above the axis / layer",
            "before: 4 × {high:fine} / {layer:fine} = {before:.1f}",
            "after: 4 × {low:fine} / {layer:fine} = {after:.1f}",
        ),
        values=deeper,
        by_hand={
            "before": 4 * 5.0 / 0.25,
            "after": 4 * 4.8 / 0.25,
            "angle_before": _lean_by_hand(5.0),
            "angle_after": _lean_by_hand(4.8),
        },
        shown=("80.0", "76.8"),
        picture=_back_again,
        found_by="painted printed engraved",
        keywords="paint print laser engraving drawn drawing stamped burned in, only on the "
        "surface on top, put on afterwards, decoration coating sticker stencil, real or "
        "artificial pattern, how did the pattern get there, how does it come about, what "
        "makes the pattern, where do the lines come from, why are there lines, waves in "
        "the knife, polish sand scratch it away, come back, grain like wood, ink colour "
        "tattoo, carved cut in, where does the pattern come from, scratched in with a "
        "machine, on the metal, only a picture, tool, how is the pattern made, what causes "
        "it, how do you get the pattern in, natural, stained, painted on, wood grain look, "
        "wavy lines, why are there wavy lines, on it or in it, where are the waves from, "
        "scrape off, fingernail, wipe off, erase, who drew it, just paint, why does it "
        "look like wood, fake look, can I feel it, in the steel or on the steel, sticker "
        "film foil, tattooed, computer machine made, how do the patterns appear, wavy "
        "pattern, what is this pattern, why does it look like that, swirls waves in steel, "
        "photo transfer, what are those squiggly lines, engraved by hand, pattern onto the "
        "blade, what are these lines, is it engraved",
        mark="Geometry of a round twisted bar. How dark each steel looks is illustrative.",
        dangers=(DUST, ETCHANT),
        claims=(FORGED, TONES, BACK_AGAIN),
        lesson="01",
        part="skin deep",
    ),
    Card(
        number=7,
        question="Is the pattern the same all the way through?",
        belief="It goes straight in, like the lettering through a stick of candy.",
        answer="Only where layers run straight in. In a twisted bar the steel near the "
        "axis has moved less for the same turn, so the lines lie flatter the deeper you "
        "grind: {angle_8:angle} at the skin, {angle_4:angle} halfway in, and on the axis "
        "there are stars. Hollows pressed into a face fade with depth.",
        breath="Stripes outside, stars inside. Watch what a little grinding does.",
        name="Lean of the lines, skin to axis",
        value="{angle_8:angle} → {angle_0:angle}",
        working=(
            "tan(lean) = 2 pi × height above the axis / length of a turn",
            "skin, {skin:length}: 2 pi × {skin:fine} / {turn:fine}: {angle_8:angle}",
            (
                "a quarter in: {angle_6:angle}; halfway: {angle_4:angle}; three quarters: "
                "{angle_2:angle}; axis: {angle_0:angle}"
            ),
            (
                "lines in a turn: {lines_8:count}, {lines_6:count}, {lines_4:count}, "
                "{lines_2:count}, {lines_0:count}"
            ),
        ),
        values=_depths,
        by_hand={
            "angle_8": _lean_by_hand(8),
            "angle_6": _lean_by_hand(6),
            "angle_4": _lean_by_hand(4),
            "angle_2": _lean_by_hand(2),
            "lines_8": 4 * 8 / 0.5,
            "lines_2": 4 * 2 / 0.5,
        },
        shown=("45.2°", "0.0°"),
        picture=lambda measures: _twisted(ACROSS / 4, measures),
        found_by="same way through",
        keywords="deep deeper depth, inside, in the middle, right through the whole "
        "thickness, solid core, under underneath below the surface, only outside skin, "
        "grind deeper, different picture inside, change changes, cut open through the "
        "middle in half, sawn, cross section, both sides other side, look inside, still "
        "there below, goes down to the core, thin coat coating, how deep does it go, see "
        "layers when it breaks, all the way, whole blade, into the steel, when ground, if "
        "you sand it down, what do you see if you cut it, saw it in two, only skin deep, "
        "whats under it, inside the blade, just on the outside, deeper layer, whole knife, "
        "all the way to the middle, core of the blade, break it in half and look, thick is "
        "the pattern, if I file a bit off, other pattern below, stays the same, filed off "
        "half of it, skin deep, would I find the same pattern inside, if the tip breaks, "
        "pattern only on the skin, pattern left if I sand it a lot, sand it down a lot, "
        "keep sanding, does it continue inside",
        mark="Geometry of a round bar twisted evenly.",
        claims=(FORGED,),
        lesson="04",
    ),
    Card(
        number=18,
        question="Why are there stars in a twisted bar?",
        belief="Stars are stamped in, or are cut from the ends.",
        answer="Grind a twisted bar down to its axis and you look at its end grain, laid "
        "out along the bar. Twice in a turn the layers lie flat there: that is a star. In "
        "between they stand on edge. With an odd number of layers all stars are alike. "
        "With an even number a weld runs along the axis: on the axis each star is half "
        "dark, half bright, and the next is its mirror image; a little off it dark and "
        "bright stars take turns.",
        breath="You look down the middle of a rope. Each half turn makes one star.",
        name="Stars in {length:length} of bar",
        value="{stars:count}, one every {star:length}",
        working=(
            "one star every half turn: {turn:length} / 2 = {star:length}",
            "{length:length} / {star:length} = {stars:count}",
        ),
        values=_stars,
        by_hand={"star": 50 / 2, "stars": 200 / 25},
        shown=("8", "25.0 mm"),
        picture=lambda measures: _twisted(ACROSS / 2, measures),
        found_by="stars twisted rope",
        keywords="star twist twisted twisting twisty, rope, pattern turn turned, middle "
        "axis, crosses x flower, spiral screw corkscrew, star shapes, star pattern, how do "
        "you make stars, how are stars formed, wring, candy cane, zigzag, wind wound, "
        "twisted one, how many times do you twist, bar is twisted, swirly, round star in "
        "the middle, wound up, sun rays, tight, twist pattern made, braided plait, why "
        "stars, do you cut them out, little stars in it, how is the star done, get a twist "
        "in, how do you twist it, pattern like stars, why twist the bar, twisted steel, "
        "twirl, shapes like stars, crosses in the bar, turns of the twist, row of stars "
        "along this one, what happens when you twist the bar, stars along the blade",
        mark="Geometry of a round bar twisted evenly. A real twist is never quite even.",
        claims=(FORGED,),
        lesson="04",
    ),
    Card(
        number=21,
        question="Why do two blades from one bar differ? Can you make me the same again?",
        belief="A pattern is like a print: it can be run off again.",
        answer="The kind of pattern repeats, and so do its numbers. No line repeats, "
        "because a hair more grinding moves them all. These two faces lie {apart:fine} "
        "apart in one bar, and {share:percent} of what you see is the other steel. Further "
        "in even the lean changes: {skin:angle} at the skin, {half:angle} halfway to the "
        "axis.",
        breath="Same recipe, different slice. Close I can do, the same I cannot.",
        name="Face that changed, {apart:fine} deeper",
        value="{share:percent}",
        working=(
            "both faces are looked at in the same {looked:count} places",
            "height above the axis: {high:fine} and {low:fine}",
            "another steel is there in {share:.1f} of every 100 places",
        ),
        values=_slices,
        by_hand={"skin": _lean_by_hand(8), "half": _lean_by_hand(4), "apart": 0.5},
        shown=("%",),
        picture=_two_slices,
        found_by="differ bar again",
        keywords="pair matching match set, copy repeat reproduce duplicate, again same, "
        "exactly the same, another second one just like it, order commission, unique one "
        "of a kind, different from each other, each every knife different, two alike, two "
        "the same, twins, never the same twice, same as my friend, in the world, "
        "fingerprint, steak set, make it again exactly, lost mine, left side different "
        "from right side, two sides differ, both sides alike, replacement, same pattern "
        "twice, matching knives, why is mine different, is every one unique, individual, "
        "fork, two the same for me and my brother, two identical ones, do all your knives "
        "look different, no two are alike, both the same, make two, exact copy, another "
        "like this, same one again, wedding, same knife twice, are they all different, "
        "every one looks different, can you copy it exactly, from the same bar, sister, "
        "why doesn't mine look like the one on the photo, same knife for my friend, looks "
        "different from the picture, photo, another knife like mine",
        mark="Counted on the picture: a round bar, one turn in {turn:length}, layers of "
        "{layer:fine}.",
        claims=(FORGED,),
        lesson="04",
    ),
)
