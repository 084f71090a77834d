"""Homework H5, the capstone: plan, predict, check; after lessons 10 and 11."""

from __future__ import annotations

from kit.basics.units import Units
from kit.classroom.homework import h5_ideas as ideas
from kit.classroom.homework.designs_heat import FOUR_BRIEFS
from kit.classroom.homework.judged import HANDOUT, SHEET
from kit.classroom.homework.paper import Homework
from kit.classroom.homework.part import Carry, Part
from kit.course.answers import said
from kit.course.lesson import Given
from kit.course.lessons import plan_ideas, reading_ideas
from kit.course.lessons.plan import Job

PLANNED = tuple(Job().given)
OTHER = {**Job().given, "length": 150.0, "cycles": 1.0, "draw_to": 12.0}
OTHER_FACE = {"s": 30.0, "a": 25.0, "q": 1.0}


def _plan(values: Given) -> Given:
    return {**Job().given, **{name: values[name] for name in PLANNED if name in values}}


def _own_start(given: Given, own: float) -> Given:
    """Cut to the length of part 1 as the student has it."""
    return {**given, "start": own}


def _ask_start(values: Given, units: Units) -> str:
    given = _plan(values)
    mm = {name: said(given[name], units) for name in given if given[name]}
    return (
        f"{given['pieces_a']:.0f} bars of 1084, {mm['thick_a']} thick, and "
        f"{given['pieces_b']:.0f} of 15N20, {mm['thick_b']}, all {mm['width']} wide, are "
        f"welded. {given['cycles']:.0f} times the bar is drawn to {mm['draw_to']}, cropped "
        f"{mm['crop']} at each end, cleaned up {mm['clean_up']} a face, sawn in two "
        f"({mm['kerf']}), stacked and welded. At last it is drawn out, cropped and ground "
        f"{mm['grind']} off each side, to {mm['length']} × {mm['width']} × "
        f"{mm['thickness']}. Scale, a face and heat: {mm['weld_scale']} in each of 2 "
        f"welding heats, {mm['forge_scale']} in each of 2 forging heats, 3 at the last "
        "drawing. How long must the pieces be cut? (Plan it in lesson 10; 3 % is near "
        "enough.)"
    )


def _ask_sawn(values: Given, _units: Units) -> str:
    return (
        f"Cut list: how much of the 1084 is used up by the {values['pieces_a']:.0f} pieces "
        "and their saw cuts, one for each piece? (Half a per cent is near enough.)"
    )


def _ask_grams(_values: Given, _units: Units) -> str:
    return "What do all the pieces weigh before the first heat? (Steel: 7.85 g/cm³.)"


def _ask_kept(_values: Given, _units: Units) -> str:
    return "How much of that gets into the finished bar, in per cent?"


def _ask_face(values: Given, units: Units) -> str:
    spacing, off = said(values["s"], units), said(values["q"], units)
    return (
        f"A test piece of that steel was twisted. Its face has stars {spacing} apart, "
        f"counted in either shade, and lines at {values['a']:g}° on its middle. At what "
        f"angle will they lie when {off} more is ground off?"
    )


def _ask_decide(values: Given, units: Units) -> str:
    one, other = (ideas.made(name, units) for name in ideas.PAIRS[round(values["pair"])])
    return (
        "A blade shows a pattern on its sides and, as it is, no line on its spine. Two "
        f"makings are left: {one}; or {other}. What do you say?"
    )


PARTS = (
    Part(
        number=1,
        ask=_ask_start,
        pick=_plan,
        kind="length, 3 %",
        right=plan_ideas.BACKWARDS,
        slips=(
            plan_ideas.NO_LOSS,
            plan_ideas.TENTH,
            plan_ideas.ONCE,
            ideas.CROP_ONE_END,
            ideas.GRIND_ONE_SIDE,
        ),
        prompt="Go backwards from the bar: what does each step take, and how often?",
        shows="pieces {} long",
        working=plan_ideas.length_working,
        other=OTHER,
    ),
    Part(
        number=2,
        ask=_ask_sawn,
        pick=_plan,
        kind="length, 0.5 %",
        right=ideas.SAWN,
        slips=(ideas.KERF_FORGOTTEN,),
        prompt="What does the saw turn to dust?",
        shows="{} of stock",
        working=ideas.sawn_working,
        other=OTHER,
        carry=Carry(1, _own_start),
    ),
    Part(
        number=3,
        ask=_ask_grams,
        pick=_plan,
        kind="grams",
        right=ideas.GRAMS,
        slips=(ideas.AREA_NOT_VOLUME, ideas.INCH_MM, ideas.BAR_WEIGHED),
        prompt="What is the volume of the stack on the bench?",
        shows="a stack of {}",
        working=ideas.grams_working,
        other=OTHER,
        carry=Carry(1, _own_start),
    ),
    Part(
        number=4,
        ask=_ask_kept,
        pick=_plan,
        kind="share, 3 %",
        right=ideas.YIELD,
        slips=(ideas.LOST_NOT_KEPT, ideas.UPSIDE_DOWN, ideas.YIELD_OF_AREA),
        prompt="What comes out, and what went in?",
        shows="a yield of {}",
        working=ideas.kept_working,
        other=OTHER,
        carry=Carry(1, _own_start),
    ),
    Part(
        number=5,
        ask=_ask_face,
        pick=lambda values: {name: values[name] for name in ("s", "a", "q")},
        kind="angle",
        right=reading_ideas.DEEPER,
        slips=(reading_ideas.SAME_LEAN, reading_ideas.DEPTH_FOR_HEIGHT),
        prompt="How high above the axis does the face lie, before and after?",
        shows="lines at {}",
        working=reading_ideas.deeper_working,
        other=OTHER_FACE,
    ),
    Part(
        number=6,
        ask=_ask_decide,
        pick=lambda values: {"pair": values["pair"]},
        kind="count",
        right=ideas.DECIDED,
        slips=(
            ideas.TRUSTS_SIDES,
            ideas.SPINE_ALONE,
            ideas.OTHER_TEST,
            ideas.BEVEL_TEST,
            ideas.MAGNET_TEST,
        ),
        prompt="Say for each of the two makings what a test would show. Which differs?",
        shows="{}",
        working=ideas.decided_working,
        other={"pair": 0.0},
        options=ideas.OPTIONS,
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
