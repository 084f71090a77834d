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
from kit.classroom.homework.tasks import Carry, Told
from kit.course.lesson import Given
from kit.course.lessons import four_blades_table as blades
from kit.course.lessons import plan_ideas as planning
from kit.course.lessons import reading_ideas as reading
from kit.shop.plan import Plan

TOLD = Told(__file__, "10")
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


CROP_ONE_END = TOLD.idea("CROP_ONE_END", _losing(0.5, "crop"))
GRIND_ONE_SIDE = TOLD.idea("GRIND_ONE_SIDE", _losing(0.5, "grind"))
SAWN = TOLD.idea("SAWN", sawn)
KERF_FORGOTTEN = TOLD.idea("KERF_FORGOTTEN", lambda given: given["pieces_a"] * start(given))
GRAMS = TOLD.idea("GRAMS", grams_in)
AREA_NOT_VOLUME = TOLD.idea(
    "AREA_NOT_VOLUME", lambda given: grams_in(given) / plan(given).stack_thickness
)
INCH_MM = TOLD.idea("INCH_MM", lambda given: grams_in(given) / MM_PER_INCH**3)
BAR_WEIGHED = TOLD.idea("BAR_WEIGHED", lambda given: grams_in(given) * kept(given) / 100)
YIELD = TOLD.idea("YIELD", kept)
LOST_NOT_KEPT = TOLD.idea("LOST_NOT_KEPT", lambda given: 100 - kept(given))
UPSIDE_DOWN = TOLD.idea("UPSIDE_DOWN", lambda given: 1e4 / kept(given))
YIELD_OF_AREA = TOLD.idea(
    "YIELD_OF_AREA", lambda given: 100 * given["thickness"] / plan(given).stack_thickness
)
DECIDED = TOLD.idea("DECIDED", lambda given: float(deciding(PAIRS[round(given["pair"])])))
TRUSTS_SIDES = TOLD.idea("TRUSTS_SIDES", lambda _given: SIDES)
SPINE_ALONE = TOLD.idea("SPINE_ALONE", lambda _given: FAKE)
OTHER_TEST = TOLD.idea(
    "OTHER_TEST", lambda given: SPINE_AGAIN + DEEPER - DECIDED.value(given)
)
BEVEL_TEST = TOLD.idea("BEVEL_TEST", lambda _given: BEVEL)
MAGNET_TEST = TOLD.idea("MAGNET_TEST", lambda _given: MAGNET)


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
    TOLD.part(
        1,
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
        working=planning.length_working,
        other=OTHER,
    ),
    TOLD.part(
        2,
        pick=_plan,
        kind="length, 0.5 %",
        right=SAWN,
        slips=(KERF_FORGOTTEN,),
        working=sawn_working,
        other=OTHER,
        carry=Carry(1, _own_start),
    ),
    TOLD.part(
        3,
        pick=_plan,
        kind="grams",
        right=GRAMS,
        slips=(AREA_NOT_VOLUME, INCH_MM, BAR_WEIGHED),
        working=grams_working,
        other=OTHER,
        carry=Carry(1, _own_start),
    ),
    TOLD.part(
        4,
        pick=_plan,
        kind="share, 3 %",
        right=YIELD,
        slips=(LOST_NOT_KEPT, UPSIDE_DOWN, YIELD_OF_AREA),
        working=kept_working,
        other=OTHER,
        carry=Carry(1, _own_start),
    ),
    TOLD.part(
        5,
        pick=lambda values: {name: values[name] for name in ("s", "a", "q")},
        kind="angle",
        right=reading.DEEPER,
        slips=(reading.SAME_LEAN, reading.DEPTH_FOR_HEIGHT),
        working=reading.deeper_working,
        other=OTHER_FACE,
    ),
    TOLD.part(
        6,
        question=_decide,
        pick=lambda values: {"pair": values["pair"]},
        kind="count",
        right=DECIDED,
        slips=(TRUSTS_SIDES, SPINE_ALONE, OTHER_TEST, BEVEL_TEST, MAGNET_TEST),
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
