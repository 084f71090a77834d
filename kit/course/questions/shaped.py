"""Cards 8, 19, 20, 22 and 30: what bevels, hollows and claddings make of layers."""

import math
from functools import cache

from kit.course.lessons.bevels import BevelsLesson
from kit.course.lessons.press import PressLesson
from kit.course.lessons.press_ideas import EVENLY, HALF_POINT, POINTED
from kit.course.lessons.san_mai import SanMaiLesson
from kit.course.lessons.san_mai_ideas import line, permissible
from kit.course.lessons.scene import FORGED
from kit.course.questions import sketches
from kit.course.questions.blades import bar_and_blade
from kit.course.questions.card import Values, cards_of
from kit.metal.dangers import DUST, FIRE, GRINDER, NICKEL, PRESS, SCALE
from kit.metal.evening import EVENED
from kit.metal.eye import ONE_MINUTE
from kit.metal.reported import AS_GOOD, DARKER
from kit.shop.bought import AS_BOUGHT, RAINDROP
from kit.shop.patterns import NAMED

PLUNGE = 45.0  # degrees
GROUND = (0.0, 0.9, 1.8)  # mm off the raindrop bar
OFF_CENTRE = 0.3  # mm, of a core
BEVEL_BY_HAND = (
    math.hypot(30, 1.8) / 1.8
)  # a blade 30 mm high, (4.0 - 0.4) / 2 = 1.8 a side


def _line_by_hand(towards: float = 0.0) -> float:
    """Height of a clad blade's line: core 1.2, spine 4.0, edge 0.4, bevel 32 mm high."""
    return (1.2 / 2 + towards - 0.2) / 1.8 * 32


@cache
def _spread() -> Values:
    blade = BevelsLesson()
    _, spacing, spread = blade.crossed
    return {
        "layers": blade.layers,
        "spine": blade.spine,
        "layer": blade.layer,
        "depth": blade.depth,
        "height": blade.height,
        "spacing": spacing,
        "spread": spread,
        "lean": math.degrees(math.atan(blade.depth / blade.height)),
        "plunge": PLUNGE,
        "steep": blade.layer / math.sin(math.radians(PLUNGE)),
    }


@cache
def _rings() -> Values:
    job = PressLesson()
    return {
        "across": job.across,
        "radius": job.across / 2,
        "deep": job.deep,
        "layer": job.layer,
        "rings": job.rings,
        "half_point": math.degrees(HALF_POINT),
        "point": 2 * math.degrees(HALF_POINT),
        "spacing": job.across / 2 / job.rings,
    }


@cache
def _rings_left() -> Values:
    jobs = [PressLesson(ground=ground) for ground in GROUND]
    values = {"bar": jobs[0].billet.size.thickness, "rings": jobs[0].rings}
    for number, job in enumerate(jobs):
        values[f"off_{number}"] = job.ground
        values[f"left_{number}"] = job.left
    return values


@cache
def _core() -> Values:
    given = SanMaiLesson().given
    return {
        "core": given["c"],
        "spine": given["S"],
        "edge": given["e"],
        "height": given["H"],
        "half_core": given["c"] / 2,
        "half_edge": given["e"] / 2,
        "depth": (given["S"] - given["e"]) / 2,
        "line": line(given),
        "off": OFF_CENTRE,
        "high": line(given, OFF_CENTRE),
        "low": line(given, -OFF_CENTRE),
        "most": permissible(given),
    }


KEEN, STOUT, BEHIND = 15.0, 20.0, 1.0  # degrees a side, mm; ours


def _edges() -> Values:
    thin, thick = (2 * BEHIND * math.tan(math.radians(angle)) for angle in (KEEN, STOUT))
    return {"keen": KEEN, "stout": STOUT, "up": BEHIND, "thin": thin, "thick": thick}


card = cards_of(__file__)
CARDS = (
    card(
        8,
        values=_spread,
        by_hand={
            "spread": BEVEL_BY_HAND,
            "spacing": 0.05 * BEVEL_BY_HAND,
            "steep": 0.05 / math.sin(math.pi / 4),
        },
        picture=lambda measures: BevelsLesson.scene(units=measures.units, **measures.paper),
        claims=(FORGED, ONE_MINUTE),
    ),
    card(
        19,
        values=_rings,
        by_hand={
            "deep": 3 / math.tan(math.radians(59)),
            "rings": 6.009,
            "spacing": 0.3 * math.tan(math.radians(59)),
        },
        picture=lambda measures: PressLesson.scene(units=measures.units, **measures.paper),
        dangers=(FIRE, PRESS, SCALE, GRINDER),
        claims=(FORGED, NAMED, POINTED),
    ),
    card(
        20,
        values=_rings_left,
        by_hand={
            "left_0": 6.009,
            "left_1": 6.009 * (1 - 0.9 / 6),
            "left_2": 6.009 * (1 - 1.8 / 6),
        },
        picture=lambda measures: bar_and_blade(RAINDROP, measures),
        dangers=(GRINDER, DUST, NICKEL),
        claims=(FORGED, AS_BOUGHT, EVENLY),
    ),
    card(
        22,
        values=_core,
        by_hand={
            "line": _line_by_hand(),
            "high": _line_by_hand(0.3),
            "low": _line_by_hand(-0.3),
            "most": 1.2 / 2 - 0.4 / 2,
        },
        picture=lambda measures: SanMaiLesson.scene(units=measures.units, **measures.paper),
        claims=(FORGED, DARKER),
    ),
    card(
        30,
        values=_edges,
        by_hand={"thin": 2 * (2 - math.sqrt(3)), "thick": 2 * 0.363970},  # tan 15°, 20°
        picture=lambda measures: sketches.edges((KEEN, STOUT), BEHIND, measures),
        claims=(FORGED, AS_GOOD, EVENED),
    ),
)
