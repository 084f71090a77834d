"""Homework H3: dents, bevels and cores, after lessons 05 to 07."""

from dataclasses import replace

from kit.classroom.homework.designs import PLAIN_RICASSO
from kit.classroom.homework.judged import THREE_BARS
from kit.classroom.homework.paper import Homework
from kit.classroom.homework.tasks import Carry, Part
from kit.course.lesson import Given, ideas_of
from kit.course.lessons import bevels_ideas as bevels
from kit.course.lessons import press_ideas as pressing
from kit.course.lessons import san_mai_ideas as cores

_core = ideas_of("07")
HIGH_SIDE = _core(
    "HIGH_SIDE",
    "work out the higher line",
    cores.HIGHER.formula,
    "On which side has the core gone away from the bevel?",
)
HALVED_OFFSET = _core(
    "HALVED_OFFSET",
    "share the offset out between the two sides",
    lambda given: cores.line(given, -given["d"] / 2),
    "The core is one piece. If it moves 1 mm, how far does each of its faces move?",
)
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
    Part(
        number=1,
        question=(
            "A drill {D:mm} across, its point 118°, is sunk into a bar just as deep as "
            "its point is, through layers {t:mm} thick. How many whole layers does it "
            "go through?"
        ),
        pick=_dent,
        kind="count",
        right=pressing.WHOLE_RINGS,
        slips=(pressing.WHOLE_DIAMETER, pressing.MULTIPLIED_TAN, pressing.FULL_POINT_ANGLE),
        prompt="How deep is the point of a drill, if each side leans 59° from its axis?",
        shows="{} rings",
        working=pressing.rings_working,
        other=OTHER_DENT,
        exact=pressing.rings,
    ),
    Part(
        number=2,
        question="How far apart do the rings lie, seen from above as drilled?",
        pick=_dent,
        kind="length",
        right=pressing.SPACING,
        slips=(pressing.DIVIDED_TAN, pressing.SIN_FOR_TAN, pressing.THICKNESS_ONLY),
        prompt="One layer further down, how much nearer to the middle is the wall?",
        shows="rings {} apart",
        working=pressing.spacing_working,
        other=OTHER_DENT,
    ),
    Part(
        number=3,
        question=(
            "A blade of flat layers, {N} of them all alike, has a spine {S:mm} thick "
            "and flat bevels that leave an edge of {E:mm}. How many layers come out on "
            "one bevel? (One more or less does not matter.)"
        ),
        pick=_blade,
        kind="count, one off",
        right=bevels.WHOLE,
        slips=(bevels.WHOLE_BOTH, bevels.WHOLE_NO_EDGE, bevels.WHOLE_SPINE),
        prompt="How much does the wheel take off one side, there where it takes most?",
        shows="{} lines on one side",
        working=bevels.whole_lines_working,
        other=OTHER_BLADE,
    ),
    Part(
        number=4,
        question=(
            "The bevel of that blade is {H:mm} high. How far apart are the lines on it?"
        ),
        pick=_blade,
        kind="length",
        right=bevels.SPACING,
        slips=(LINES_OF_BOTH, bevels.AS_IN_BAR, NO_EDGE_LEFT),
        prompt="Along what length are how many lines shared out?",
        shows="lines {} apart",
        working=bevels.spacing_working,
        other=OTHER_BLADE,
        carry=Carry(3, _own_lines),
    ),
    Part(
        number=5,
        question=(
            "Another blade has the same spine, edge and height, and a core {c:mm} thick "
            "in its middle. How high above the edge is the line where the core comes "
            "out?"
        ),
        pick=_cored,
        kind="length",
        right=cores.LINE,
        slips=(cores.FULL_CORE, SHARP_EDGE, cores.FULL_SPINE, cores.EDGE_ABOVE_ONLY),
        prompt="Where along the bevel is the blade exactly as thick as the core?",
        shows="a line {} above the edge",
        working=cores.line_working,
        other=OTHER_CORE,
    ),
    Part(
        number=6,
        question=(
            "In that blade the core lies {d:mm} off centre. How high is the line on the "
            "side where it is lower?"
        ),
        pick=lambda values: {**_cored(values), "d": values["d"]},
        kind="length",
        right=cores.LOWER,
        slips=(HIGH_SIDE, cores.SAME, HALVED_OFFSET),
        prompt="How far up this bevel does 1 mm across take you?",
        shows="a line {} above the edge",
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
