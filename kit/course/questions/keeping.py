"""Cards 23 and 25: whether it holds together, and how it is kept."""

from __future__ import annotations

from functools import cache

from kit.basics.claim import Claim, Kind
from kit.course.lessons.san_mai import SanMaiLesson
from kit.course.lessons.san_mai_ideas import line
from kit.course.lessons.scene import FORGED, Scene
from kit.course.lessons.weld import AS_SURE, PIECES, SURE, WeldLesson
from kit.course.questions.blades import sharpened
from kit.course.questions.card import Card, Measures, Values
from kit.metal.dangers import NICKEL
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


def _open(measures: Measures) -> Scene:
    return WeldLesson.scene(units=measures.units, **measures.paper)


@cache
def _worn() -> Values:
    height = line(SanMaiLesson().given)
    return {"strip": STRIP, "worn": WORN, "line": height, "after": height - WORN}


def _sharpened(measures: Measures) -> Scene:
    return sharpened(STRIP, WORN, measures)


CARE = Claim(
    says="How a blade is dried, oiled and kept, and how high a strip a stone touches.",
    kind=Kind.PRACTICE,
)

CARDS = (
    Card(
        number=23,
        question="Can it come apart?",
        belief="It is glued, so yes; or: a weld never fails.",
        answer="A sound forge weld is steel like the rest. One that did not take is a "
        "crack from the start: scale, cold metal or a trapped gap is usually why. After "
        "etching look for a black hairline that follows a layer. {pieces} pieces and "
        "{folds} folds are {made} welds at the anvil, but {planes} joints in the bar, for "
        "each fold lays the old ones on themselves. A bad one from the first stack is met "
        "{met} times.",
        breath="Good welds do not. A missed one shows as a black hairline along a layer.",
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
        picture=_open,
        found_by="come apart weld",
        keywords="delaminate split crack weld fail break open flaw peel layers glue hold",
        mark="Counting is exact. How sure one weld is: our guess, for we found no source.",
        also="A blade with an open weld can break in use: it goes back to the maker, "
        "not into the kitchen.",
        claims=(FORGED, AS_SURE),
        lesson="02",
    ),
    Card(
        number=25,
        question="Will it rust, how do I keep it, may I cut food with it and sharpen it?",
        belief="Special steel does not stain; and sharpening spoils the pattern.",
        answer="Most such blades are carbon steel and rust. Wash and dry it at once, keep "
        "a film of food-safe oil or wax on it, no dishwasher, not stored in its leather. "
        "Acid food darkens it, which does no harm. Sharpen it as any knife: that touches "
        "a strip about {strip:tenth} high and leaves the pattern alone. In years the edge "
        "climbs: when {worn:tenth} are gone, the line of this clad blade is {after:tenth} "
        "from the edge and not {line:tenth}. Stainless pairs exist and behave otherwise.",
        breath="Treat it like a cast-iron pan: wash it, dry it, a drop of oil.",
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
        picture=_sharpened,
        found_by="rust food sharpen",
        keywords="care stain stainless oil wash dishwasher kitchen food acid lemon nickel "
        "allergy sharpen stone leather store patina clean dry wear",
        mark="Geometry of a flat bevel. Care, and how high a strip a stone touches: common "
        "practice, no source.",
        dangers=(NICKEL,),
        also="A new blade is washed free of etchant and oil before it meets food.",
        claims=(FORGED, CARE),
        lesson="07",
    ),
)
