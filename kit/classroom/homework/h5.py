"""Homework H5, the capstone: plan, predict, check; after lessons 10 and 11.

Given: what lesson 10's formulas know, see `kit.course.lessons.plan_ideas`; `start`, the
length the student cuts to, where that is known; `pair`, which two makings are left.
"""

from collections.abc import Callable
from functools import lru_cache

from kit.basics.told import said
from kit.basics.typed import MM_PER_INCH
from kit.basics.units import Units, in_three, rounded
from kit.classroom.homework.designs import FOUR_BRIEFS
from kit.classroom.homework.judged import HANDOUT, SHEET
from kit.classroom.homework.paper import Homework
from kit.classroom.homework.tasks import Carry, Part
from kit.course.lesson import Given, ideas_of
from kit.course.lessons import four_blades_table as blades
from kit.course.lessons import plan_ideas as planning
from kit.course.lessons import reading_ideas as reading
from kit.shop.plan import Plan

_planned, _read = ideas_of("10"), ideas_of("11")
PAIRS = (("A", "C"), ("B", "C"))
SEEN_FROM = 300.0  # mm
SIDES, FAKE, SPINE_AGAIN, DEEPER, BEVEL, MAGNET = range(1, 7)
OPTIONS = (
    "genuine: its sides show a pattern",
    "fake: its spine shows none",
    "cannot say: etch the spine again",
    "cannot say: grind 0.2 mm (0.008 in) off the side and etch again",
    "cannot say: look low on the bevel",
    "cannot say: try a magnet",
)
_TESTS = {
    SPINE_AGAIN: blades.SPINE_AGAIN,
    DEEPER: blades.DEEPER,
    BEVEL: blades.BEVEL,
    MAGNET: blades.MAGNET,
}


def made(name: str, units: Units) -> str:
    """Say how one of lesson 11's blades was made."""
    blade = blades.bar("C").source
    layer = said(blades.THICK / blade.tally.layers, units)
    return {
        "A": "a twisted bar all through, its spine polished after the etch",
        "B": "plain steel with a pattern on its sides only, which comes again every "
        f"{said(blades.REPEAT, units)}",
        "C": f"flat layers with pressed grooves, all through, {layer} each at the spine",
    }[name]


def start(given: Given) -> float:
    """Give the length of every piece: the student's own, or the right one, mm."""
    own = given.get("start")
    return float(plan(given).start_length) if own is None else own


def plan(given: Given) -> Plan:
    """Give the plan of some given values; `start` and `pair` do not change it."""
    return _plan_of(tuple((name, given[name]) for name in planning.GIVEN))


@lru_cache(maxsize=256)  # four parts of a paper ask for the same plan
def _plan_of(given: tuple[tuple[str, float], ...]) -> Plan:
    return planning.plan_of(dict(given))


def sawn(given: Given) -> float:
    """Give the length of outer stock that is used up, saw cuts with it, mm."""
    return given["pieces_a"] * (start(given) + given["kerf"])


def grams_in(given: Given) -> float:
    """Weigh the pieces as cut, grams."""
    planned = plan(given)
    section = given["width"] * planned.stack_thickness
    return start(given) * section * planned.density / 1000


def kept(given: Given) -> float:
    """Give the yield, per cent: the bar wanted, of the pieces as cut."""
    wanted = given["length"] * given["width"] * given["thickness"]
    thick = plan(given).stack_thickness
    return 100 * wanted / (start(given) * given["width"] * thick)


@lru_cache(maxsize=4)
def deciding(pair: tuple[str, str]) -> int:
    """Find the one option whose test tells two makings apart, by looking at both."""
    (only,) = (
        option
        for option, test in _TESTS.items()
        if pair in blades.told_apart(test, SEEN_FROM)
    )
    return only


def sawn_working(given: Given) -> list[str]:
    """Work the stock out that the outer pieces use up."""
    count, each = given["pieces_a"], start(given)
    return [
        "every piece costs its length and one saw cut",
        f"{count:g} × ({each:g} + {given['kerf']:g}) mm",
        f"= {rounded(sawn(given))} mm",
    ]


def grams_working(given: Given) -> list[str]:
    """Work the weight of the pieces out."""
    thick = plan(given).stack_thickness
    return [
        "weight = length × width × thickness of the stack × density",
        f"= {start(given):g} × {given['width']:g} × {thick:.4g} mm³ × 0.00785 g/mm³",
        f"= {rounded(grams_in(given))} g",
    ]


def kept_working(given: Given) -> list[str]:
    """Work the yield out."""
    thick, wanted = plan(given).stack_thickness, given["thickness"]
    return [
        "yield = volume of the bar / volume of the pieces",
        f"= {given['length']:g} × {wanted:g} / ({start(given):g} × {thick:.4g})",
        f"= {in_three(kept(given))} %",
    ]


def decided_working(_given: Given) -> list[str]:
    """Show how to compare makings, on two that are not asked about."""
    return [
        "plain steel with a printed skin, or layered sides on a plain core?",
        "both show a pattern on the side; low on the bevel one is plain, the other not",
        "so the test is:",
    ]


def _losing(share: float, kind: str) -> Callable[[Given], float]:
    def length(given: Given) -> float:
        return planning.plan_of({**given, kind: share * given[kind]}).exact_length

    return length


CROP_ONE_END = _planned(
    "CROP_ONE_END",
    "crop one end only",
    _losing(0.5, "crop"),
    "A bar has two ends, and both get ragged.",
)
GRIND_ONE_SIDE = _planned(
    "GRIND_ONE_SIDE",
    "grind one side only",
    _losing(0.5, "grind"),
    "A bar has two faces, and the last grind takes some off each.",
)
SAWN = _planned("RIGHT", "pay a saw cut with every piece", sawn)
KERF_FORGOTTEN = _planned(
    "KERF_FORGOTTEN",
    "forget the width of the saw cuts",
    lambda given: given["pieces_a"] * start(given),
    "What becomes of the steel where the saw went through?",
)
GRAMS = _planned("RIGHT", "weigh the whole stack", grams_in)
AREA_NOT_VOLUME = _planned(
    "AREA_NOT_VOLUME",
    "take an area for the volume",
    lambda given: grams_in(given) / plan(given).stack_thickness,
    "Length times width is a face. How thick is the stack?",
)
INCH_MM = _planned(
    "INCH_MM",
    "put inches where millimetres belong",
    lambda given: grams_in(given) / MM_PER_INCH**3,
    "One cubic inch is 16,387 mm³. Which does the density ask for?",
)
BAR_WEIGHED = _planned(
    "BAR_WEIGHED",
    "weigh the bar that comes out, as if nothing were lost",
    lambda given: grams_in(given) * kept(given) / 100,
    "How much goes into the fire, not how much comes out?",
)
YIELD = _planned("RIGHT", "divide what comes out by what goes in", kept)
LOST_NOT_KEPT = _planned(
    "LOST_NOT_KEPT",
    "give what is lost",
    lambda given: 100 - kept(given),
    "Yield is what you get.",
)
UPSIDE_DOWN = _planned(
    "UPSIDE_DOWN",
    "divide what goes in by what comes out",
    lambda given: 1e4 / kept(given),
    "Can more come out than goes in?",
)
YIELD_OF_AREA = _planned(
    "SECTIONS_ALONE",
    "compare the sections and leave the lengths out",
    lambda given: 100 * given["thickness"] / plan(given).stack_thickness,
    "The bar is much longer than the pieces. Does that not count?",
)
DECIDED = _read(
    "RIGHT",
    "ask for the test that the two makings answer differently",
    lambda given: float(deciding(PAIRS[round(given["pair"])])),
)
TRUSTS_SIDES = _read(
    "TRUSTS_SIDES",
    "trust the sides",
    lambda _given: SIDES,
    "What would a print show there?",
)
SPINE_ALONE = _read(
    "SPINE_ALONE",
    "judge by the spine as it is",
    lambda _given: FAKE,
    "Name two honest reasons why a spine shows no lines.",
)
OTHER_TEST = _read(
    "OTHER_TEST",
    "choose a test that both makings answer alike",
    lambda given: SPINE_AGAIN + DEEPER - DECIDED.value(given),
    "Say for each of the two what that test would show.",
)
BEVEL_TEST = _read(
    "BEVEL_TEST",
    "look for a core that neither of the two has",
    lambda _given: BEVEL,
    "For what making is the bevel the test?",
)
MAGNET_TEST = _read(
    "MAGNET",
    "ask the magnet",
    lambda _given: MAGNET,
    "Which of these steels does a magnet not pull at?",
)


OTHER = {**planning.GIVEN, "length": 150.0, "cycles": 1.0, "draw_to": 12.0}
OTHER_FACE = {"s": 30.0, "a": 25.0, "q": 1.0}  # mm, °; for a worked example


def _plan(values: Given) -> Given:
    given = {**planning.GIVEN, "stock_width": values["width"]}  # the bars are as wide
    return {**given, **{name: values[name] for name in given if name in values}}


def _own_start(given: Given, own: float) -> Given:
    """Cut to the length of part 1 as the student has it."""
    return {**given, "start": own}


def _decide(values: Given, units: Units) -> str:
    one, other = (made(name, units) for name in PAIRS[round(values["pair"])])
    return (
        "A blade shows a pattern on its sides and, as it is, no line on its spine. Two "
        f"makings are left: {one}; or {other}. What do you say?"
    )


PARTS = (
    Part(
        number=1,
        question=(
            "{pieces_a} bars of 1084, {thick_a:mm} thick, and {pieces_b} of 15N20, "
            "{thick_b:mm}, all {width:mm} wide, are welded. {cycles} times the bar is "
            "drawn to {draw_to:mm}, cropped {crop:mm} at each end, cleaned up "
            "{clean_up:mm} a face, sawn in two ({kerf:mm}), stacked and welded. At "
            "last it is drawn out, cropped and ground {grind:mm} off each side, to "
            "{length:mm} × {width:mm} × {thickness:mm}. Scale, a face and heat: "
            "{weld_scale:mm} in each of 2 welding heats, {forge_scale:mm} in each of 2 "
            "forging heats, 3 at the last drawing. How long must the pieces be cut? "
            "(Plan it in lesson 10; 3 % is near enough.)"
        ),
        pick=_plan,
        kind="length, 3 %",
        right=planning.BACKWARDS,
        slips=(
            planning.NO_LOSS,
            planning.TENTH,
            planning.ONCE,
            CROP_ONE_END,
            GRIND_ONE_SIDE,
        ),
        prompt="Go backwards from the bar: what does each step take, and how often?",
        shows="pieces {} long",
        working=planning.length_working,
        other=OTHER,
    ),
    Part(
        number=2,
        question=(
            "Cut list: how much of the 1084 is used up by the {pieces_a} pieces and "
            "their saw cuts, one for each piece? (Half a per cent is near enough.)"
        ),
        pick=_plan,
        kind="length, 0.5 %",
        right=SAWN,
        slips=(KERF_FORGOTTEN,),
        prompt="What does the saw turn to dust?",
        shows="{} of stock",
        working=sawn_working,
        other=OTHER,
        carry=Carry(1, _own_start),
    ),
    Part(
        number=3,
        question="What do all the pieces weigh before the first heat? (Steel: 7.85 g/cm³.)",
        pick=_plan,
        kind="grams",
        right=GRAMS,
        slips=(AREA_NOT_VOLUME, INCH_MM, BAR_WEIGHED),
        prompt="What is the volume of the stack on the bench?",
        shows="a stack of {}",
        working=grams_working,
        other=OTHER,
        carry=Carry(1, _own_start),
    ),
    Part(
        number=4,
        question="How much of that gets into the finished bar, in per cent?",
        pick=_plan,
        kind="share, 3 %",
        right=YIELD,
        slips=(LOST_NOT_KEPT, UPSIDE_DOWN, YIELD_OF_AREA),
        prompt="What comes out, and what went in?",
        shows="a yield of {}",
        working=kept_working,
        other=OTHER,
        carry=Carry(1, _own_start),
    ),
    Part(
        number=5,
        question=(
            "A test piece of that steel was twisted. Its face has stars {s:mm} apart, "
            "counted in either shade, and lines at {a}° on its middle. At what angle "
            "will they lie when {q:mm} more is ground off?"
        ),
        pick=lambda values: {name: values[name] for name in ("s", "a", "q")},
        kind="angle",
        right=reading.DEEPER,
        slips=(reading.SAME_LEAN, reading.DEPTH_FOR_HEIGHT),
        prompt="How high above the axis does the face lie, before and after?",
        shows="lines at {}",
        working=reading.deeper_working,
        other=OTHER_FACE,
    ),
    Part(
        number=6,
        question=_decide,
        pick=lambda values: {"pair": values["pair"]},
        kind="count",
        right=DECIDED,
        slips=(TRUSTS_SIDES, SPINE_ALONE, OTHER_TEST, BEVEL_TEST, MAGNET_TEST),
        prompt="Say for each of the two makings what a test would show. Which differs?",
        shows="{}",
        working=decided_working,
        other={"pair": 0.0},
        options=OPTIONS,
    ),
)

H5 = Homework(
    code="H5",
    title="Plan, predict, check",
    lessons=("10", "11"),
    sizes={
        "pieces_a": (6, 7, 8),
        "pieces_b": (5, 6),
        "thick_a": (3.0, 3.5, 4.0),
        "thick_b": (1.5, 2.0),
        "length": (220, 240, 260, 280, 300),
        "width": (32, 36, 40),
        "thickness": (4.5, 5.0, 6.0),
        "cycles": (2, 3),
        "crop": (6, 8, 10),
        "kerf": (2.0, 2.5, 3.0),
        "grind": (0.6, 0.8, 1.0),
        "s": (10, 11, 12, 14, 16),
        "a": (30, 33, 36, 40, 44),
        "q": (0.3,),
        "pair": (0, 1),
    },
    parts=PARTS,
    design=FOUR_BRIEFS,
    judged=HANDOUT,
    sheet=SHEET,
)
