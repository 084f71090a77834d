"""Cards 1 to 3: how many layers, how many folds, and whether more is better."""

import math
from functools import cache

from kit.course.lessons.bevels import BevelsLesson
from kit.course.lessons.fold import FoldLesson
from kit.course.lessons.scene import FORGED, Scene
from kit.course.questions.blades import finer_and_finer
from kit.course.questions.card import Card, Measures, Values
from kit.forge.billet import ATOM, IRON_ATOM
from kit.metal.eye import EYE_300, ONE_MINUTE
from kit.metal.reported import COUNTED, MISSED
from kit.shop.work import SHOP_LOSSES

PIECES, FOLDS = 7, 4  # as in lesson 02
THICK = 5.0  # mm, of the bar that is folded again and again
FEW, SOME, MANY, TOO_MANY = LAYERS = (20, 80, 320, 1000)
# By hand: one minute of arc at 300 mm (20/20 sight); how much wider a bevel shows layers on
# a blade 30 mm high, (4.0 - 0.4) / 2 = 1.8 mm a side.
EYE_BY_HAND = 300 * math.tan(math.radians(1 / 60))
BEVEL_BY_HAND = math.hypot(30, 1.8) / 1.8


@cache
def _counted() -> Values:
    blade = BevelsLesson()
    bar = FoldLesson(pieces=PIECES, folds=FOLDS, thickness=blade.spine).billet
    lines = blade.grind.crossed(blade.spine / bar.bands).lines
    return {
        "pieces": PIECES,
        "folds": FOLDS,
        "layers": bar.layers,
        "bands": bar.bands,
        "joints": bar.layers - bar.bands,
        "spine": blade.spine,
        "depth": blade.depth,
        "lines": lines,
        "back": round(lines) * blade.spine / blade.depth,
    }


def _end_grain(measures: Measures) -> Scene:
    thick = BevelsLesson().spine
    return FoldLesson.scene(
        pieces=PIECES, folds=FOLDS, join=0, thickness=thick,
        units=measures.units, **measures.paper,
    )  # fmt: skip


@cache
def _doubled() -> Values:
    ten, nineteen = (
        FoldLesson(pieces=2, folds=k, thickness=THICK).billet for k in (10, 19)
    )
    return {
        "pieces": 2,
        "folds": 10,
        "layers": ten.layers,
        "often": 19,
        "most": nineteen.layers,
        "thick": THICK,
        "thin": nineteen.mean_layer,
        "atom": IRON_ATOM,
        "atoms": nineteen.mean_layer / IRON_ATOM,
    }


def _ten_folds(measures: Measures) -> Scene:
    return FoldLesson.scene(
        pieces=2, folds=10, join=0, thickness=THICK,
        units=measures.units, **measures.paper,
    )  # fmt: skip


@cache
def _fine() -> Values:
    blades = {layers: BevelsLesson(layers=layers) for layers in LAYERS}
    blade, spread = blades[SOME], blades[SOME].crossed.spread
    spacing = {
        f"at_{layers}": blades[layers].crossed.spacing for layers in (FEW, SOME, TOO_MANY)
    }
    return spacing | {
        "few": FEW,
        "some": SOME,
        "too_many": TOO_MANY,
        "eye": EYE_300,
        "away": 300.0,
        "spine": blade.spine,
        "lean": math.degrees(math.atan(blade.depth / blade.height)),
        "spread": spread,
        "limit": math.floor(blade.spine * spread / EYE_300),
        "met": blade.spine / EYE_300,
        "square": math.floor(blade.spine / EYE_300),
    }


CARDS = (
    Card(
        number=1,
        question="How many layers are in it?",
        belief="The count is a mark of quality, like the carats of a ring, and each layer "
        "that was counted can be seen.",
        answer="Smiths count pieces of steel and double the count at each fold: {pieces} "
        "pieces and {folds} folds are {layers:count} layers. There are fewer stripes, "
        "for a fold lays like on like, and two layers of one steel look like one but for a "
        "faint weld line: {bands:count}. And a bevel goes through only a part of the "
        "blade, so about {lines:count} of them come out on each side. With a blade in "
        "hand, go backwards: {lines:count} lines on one bevel × spine {spine:length} / "
        "{depth:length} ground off that side = {back:count} stripes. All this is for "
        "flat layers.",
        breath="Our example, {pieces} pieces folded {folds} times, has {layers:count} "
        "layers, {bands:count} stripes, and about {lines:count} of those on one bevel.",
        name="Layers, stripes, lines on one bevel",
        value="{layers:count}, {bands:count}, {lines:count}",
        working=(
            "layers = pieces × 2 for each fold = {pieces} × 2^{folds} = {layers:count}",
            (
                "stripes = layers - places where like met like = {layers:count} - "
                "{joints:count} = {bands:count}"
            ),
            "on one bevel = stripes × (spine - edge) / 2 / spine",
            "= {bands:count} × {depth:fine} / {spine:fine} = {lines:.2f}",
        ),
        values=_counted,
        by_hand={
            "layers": 7 * 2**4,
            "bands": 6 * 2**4 + 1,
            "lines": 97 * 1.8 / 4.0,
            "back": 44 * 4.0 / 1.8,
        },
        shown=("112", "97", "44"),
        picture=_end_grain,
        found_by="many layers count",
        keywords="count number of layers, layer count, how many sheets plates strips "
        "pieces are stacked, stripes bands lines, sum total amount, a lot of layers, "
        "thickness of one layer, calculate work out, plies leaves slices, how many times "
        "layered, put on top of each other, what do I see here on one side, how thick is a "
        "layer and how many, number stamped on it, layered, made up of, what does the "
        "number of layers mean, seller says so many layers, I count only, how many can I "
        "see, made of many sheets, can you count them, layers am I looking at, real number "
        "of layers, is that a lot of layers, is the layer count written somewhere, layers "
        "would that be, does it say how many",
        mark="Plain counting, exact for hinge folds and flat layers.",
        claims=(FORGED, COUNTED),
        lesson="02",
    ),
    Card(
        number=2,
        question="Do you fold it hundreds of times?",
        belief="A fold adds a few layers, so hundreds of layers need hundreds of folds.",
        answer="A fold doubles what is there. {pieces} bars folded {folds} times are "
        "{layers:count} layers. Folded {often} times they would be {most:count}, and in a "
        "bar of {thick:length} each would be {thin:length} thick: {atoms:count} atoms of "
        "iron. Every fold also costs a heat, and steel. A handful of folds is usual "
        "(common practice, no source).",
        breath="Folding doubles. {pieces} bars and {folds} folds are {layers:count} layers "
        "already.",
        name="Layers after {folds} folds",
        value="{layers:count}",
        working=(
            "layers = pieces × 2 for each fold",
            "{folds} folds: {pieces} × 2^{folds} = {layers:count}",
            "{often} folds: {pieces} × 2^{often} = {most:count}",
            "one layer then: {thick:length} / {most:count} = {thin:length}",
            "in atoms of iron, {atom:length} across: {atoms:.0f}",
        ),
        values=_doubled,
        by_hand={
            "layers": 2 * 2**10,
            "most": 2 * 2**19,
            "thin": 5 / 2**20,
            "atoms": 5 / 2**20 / 0.248e-6,
        },
        shown=("2,048",),
        picture=_ten_folds,
        found_by="fold hundreds times",
        keywords="times you fold it, how often, folding folded, number of folds, hundred "
        "thousand million, doubling double multiply, bend it over on itself in half, over "
        "and over, again and again, repeat, hammer flat, like dough, sword, adds layers, "
        "turn over, after ten folds, ten twenty times, hit and fold, folding process, "
        "double each time, all day, how often did the smith fold it, keep folding, do you "
        "need to fold it a lot, fold to get lots of layers, folds for so many layers, fold "
        "a piece of paper, how many folds, fold every time, thousand folds needed, why "
        "fold it at all, what is folding good for, like folding pastry, hundred times, "
        "such a thing, how many folds until a thousand layers, fold to get so many layers, "
        "bent it over a hundred times",
        mark="Plain counting. Size of an iron atom: handbook table of atomic radii.",
        claims=(FORGED, ATOM, COUNTED, SHOP_LOSSES),
        lesson="02",
    ),
    Card(
        number=3,
        question="Are more layers better?",
        belief="The more layers, the better the steel.",
        answer="More layers are finer, that is all. On our example's bevel {few} layers "
        "make lines {at_20:fine} apart, and {some} make lines {at_80:fine} apart. At "
        "{too_many:count} they are {at_1000:fine} apart, which is finer than a good eye "
        "can resolve at {away:length}: the face looks even grey. Each weld more is also "
        "one more chance of a flaw, and one more heat that burns steel away.",
        breath="More is finer, not better. Beyond about {limit:round} layers our "
        "example's bevel looks plain grey.",
        name="Most layers an eye can resolve",
        value="{limit:count} on our bevel, {square:count} on its spine",
        working=(
            "a good eye resolves one minute of arc: {eye:fine} at {away:length}",
            (
                "the bevel leans {lean:.2f}° and shows a layer 1 / sin({lean:.2f}°) = "
                "{spread:.1f} times as wide"
            ),
            (
                "bevel: spine × spread / eye = {spine:fine} × {spread:.1f} / {eye:fine} = "
                "{limit:count}"
            ),
            "spine: {spine:fine} / {eye:fine} = {met:.1f} ({square:count} whole layers)",
        ),
        values=_fine,
        by_hand={
            "limit": math.floor(4 / EYE_BY_HAND * BEVEL_BY_HAND),
            "square": math.floor(4 / EYE_BY_HAND),
            "at_80": 0.05 * BEVEL_BY_HAND,
            "at_1000": 0.004 * BEVEL_BY_HAND,
            "eye": EYE_BY_HAND,
        },
        shown=("765", "45"),
        picture=lambda measures: finer_and_finer(LAYERS, measures),
        found_by="more layers better",
        keywords="more layers better, too many layers, how many is enough, fewer or many, "
        "higher layer count, twice double the layers, maximum limit ideal optimum, finer "
        "fine grey, best number, cuts better with more, quality good, hundred thousand, "
        "eye can see, does the number matter, difference, mine has only few layers, most "
        "layers, compare, layer count best for a knife, high number means high quality, "
        "low count, increase, ideal number of layers, more lines, finer lines, is it too "
        "much, is this bad, weaker with fewer, bolder lines, does it get better, more you "
        "put in, is more always better, thinner layers, cheap with few layers, expensive "
        "with many, optimal number of layers for cutting, my friend has more layers, mine "
        "is the better one, better with fewer",
        mark="Eye limit: one minute of arc (20/20 sight), good light, black on white. "
        "Etched lines are softer.",
        claims=(FORGED, ONE_MINUTE, MISSED, SHOP_LOSSES),
        lesson="06",
    ),
)
