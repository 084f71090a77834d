"""Homework H3: dents, bevels and cores, after lessons 05 to 07."""

from dataclasses import replace

from kit.classroom.homework.designs import PLAIN_RICASSO
from kit.classroom.homework.judged import THREE_BARS
from kit.classroom.homework.paper import Homework
from kit.classroom.homework.tasks import Carry, Told
from kit.course.lesson import Given
from kit.course.lessons import bevels_ideas as bevels
from kit.course.lessons import press_ideas as pressing
from kit.course.lessons import san_mai_ideas as cores

TOLD = Told(__file__, "07")
HIGH_SIDE = TOLD.idea("HIGH_SIDE", cores.HIGHER.formula)
HALVED_OFFSET = TOLD.idea("HALVED_OFFSET", lambda given: cores.line(given, -given["d"] / 2))
# One code is one idea within a set, and lessons 06 and 07 share two.
LINES_OF_BOTH = replace(bevels.HALF_SPACING, code="LINES_OF_BOTH")
NO_EDGE_LEFT = replace(bevels.NO_EDGE, code="NO_EDGE_LEFT")
SHARP_EDGE = replace(cores.NO_EDGE, code="SHARP_EDGE")
OTHER_DENT = {"D": 20.0, "t": 0.35}
OTHER_BLADE = {"S": 8.0, "E": 1.0, "t": 0.25, "B": 60.0}
OTHER_CORE = {"S": 3.0, "e": 0.6, "c": 0.9, "H": 22.0, "d": 0.05}


def _dent(values: Given) -> Given:
    return {"D": values["D"], "t": values["t"]}


def _blade(values: Given) -> Given:
    spine = values["S"]
    return {"S": spine, "E": values["E"], "B": values["H"], "t": spine / values["N"]}


def _cored(values: Given) -> Given:
    same = {name: values[name] for name in ("S", "c", "H")}
    return {**same, "e": values["E"]}


def _own_lines(given: Given, own: float) -> Given:
    """Take part 3's lines as the student has them: as if of other layers."""
    return {**given, "t": bevels.depth(given) / own}


def _own_line(given: Given, own: float) -> Given:
    """Take part 5's line as the student has it: as if of another core."""
    return {**given, "c": 2 * own / cores.spread(given) + given["e"]}


def _low_working(given: Given) -> list[str]:
    return cores.line_working(given, -given["d"])


PARTS = (
    TOLD.part(
        1,
        pick=_dent,
        kind="count",
        right=pressing.WHOLE_RINGS,
        slips=(pressing.WHOLE_DIAMETER, pressing.MULTIPLIED_TAN, pressing.FULL_POINT_ANGLE),
        working=pressing.rings_working,
        other=OTHER_DENT,
        exact=pressing.rings,
    ),
    TOLD.part(
        2,
        pick=_dent,
        kind="length",
        right=pressing.SPACING,
        slips=(pressing.DIVIDED_TAN, pressing.SIN_FOR_TAN, pressing.THICKNESS_ONLY),
        working=pressing.spacing_working,
        other=OTHER_DENT,
    ),
    TOLD.part(
        3,
        pick=_blade,
        kind="count, one off",
        right=bevels.WHOLE,
        slips=(bevels.WHOLE_BOTH, bevels.WHOLE_NO_EDGE, bevels.WHOLE_SPINE),
        working=bevels.whole_lines_working,
        other=OTHER_BLADE,
    ),
    TOLD.part(
        4,
        pick=_blade,
        kind="length",
        right=bevels.SPACING,
        slips=(LINES_OF_BOTH, bevels.AS_IN_BAR, NO_EDGE_LEFT),
        working=bevels.spacing_working,
        other=OTHER_BLADE,
        carry=Carry(3, _own_lines),
    ),
    TOLD.part(
        5,
        pick=_cored,
        kind="length",
        right=cores.LINE,
        slips=(cores.FULL_CORE, SHARP_EDGE, cores.FULL_SPINE, cores.EDGE_ABOVE_ONLY),
        working=cores.line_working,
        other=OTHER_CORE,
    ),
    TOLD.part(
        6,
        pick=lambda values: {**_cored(values), "d": values["d"]},
        kind="length",
        right=cores.LOWER,
        slips=(HIGH_SIDE, cores.SAME, HALVED_OFFSET),
        working=_low_working,
        other=OTHER_CORE,
        carry=Carry(5, _own_line),
    ),
)

H3 = Homework(
    code="H3",
    title="Dents, bevels and cores",
    lessons=("05", "06", "07"),
    sizes={
        "D": (6, 7, 8, 9, 11, 12),
        "t": (0.18, 0.2, 0.22, 0.25, 0.28),
        "S": (3.2, 3.6, 4.0, 4.5, 5.0),
        "E": (0.4, 0.5, 0.6),
        "N": (48, 60, 72, 84, 96, 120),
        "H": (26, 28, 30, 32, 36),
        "c": (1.2, 1.4, 1.6, 1.8),
        "d": (0.1, 0.15, 0.2),
        "blade_spine": (3.5, 4.0, 4.5, 5.0),
        "blade_height": (25, 28, 32, 35),
    },
    parts=PARTS,
    design=PLAIN_RICASSO,
    judged=THREE_BARS,
)
