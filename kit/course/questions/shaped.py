"""Cards 6 to 8, 18 to 22 and 30: a pattern goes right through; what shapes make of it."""

import math
from functools import cache

from kit.course.lessons import twist
from kit.course.lessons.bevels import BevelsLesson
from kit.course.lessons.press import PressLesson
from kit.course.lessons.press_ideas import EVENLY, HALF_POINT, POINTED
from kit.course.lessons.san_mai import SanMaiLesson
from kit.course.lessons.san_mai_ideas import line, permissible
from kit.course.lessons.scene import FORGED, Scene
from kit.course.lessons.twist_drawing import line_angle
from kit.course.questions import faces, sketches
from kit.course.questions.card import Measures, Values, cards_of
from kit.course.questions.faces import bar_and_blade
from kit.metal.dangers import DUST, ETCHANT, FIRE, GRINDER, NICKEL, PRESS, SCALE
from kit.metal.etch import TONES
from kit.metal.evening import EVENED
from kit.metal.eye import ONE_MINUTE
from kit.metal.reported import AS_GOOD, BACK_AGAIN, DARKER
from kit.shop.bought import AS_BOUGHT, RAINDROP
from kit.shop.patterns import NAMED

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
        6,
        values=deeper,
        by_hand={
            "before": 4 * 5.0 / 0.25,
            "after": 4 * 4.8 / 0.25,
            "angle_before": _lean_by_hand(5.0),
            "angle_after": _lean_by_hand(4.8),
        },
        picture=_back_again,
        dangers=(DUST, ETCHANT),
        claims=(FORGED, TONES, BACK_AGAIN),
    ),
    card(
        7,
        values=_depths,
        by_hand={
            "angle_8": _lean_by_hand(8),
            "angle_6": _lean_by_hand(6),
            "angle_4": _lean_by_hand(4),
            "angle_2": _lean_by_hand(2),
            "lines_8": 4 * 8 / 0.5,
            "lines_2": 4 * 2 / 0.5,
        },
        picture=lambda measures: _twisted(ACROSS / 4, measures),
        claims=(FORGED,),
    ),
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
        18,
        values=_stars,
        by_hand={"star": 50 / 2, "stars": 200 / 25},
        picture=lambda measures: _twisted(ACROSS / 2, measures),
        claims=(FORGED,),
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
        21,
        values=_slices,
        by_hand={"skin": _lean_by_hand(8), "half": _lean_by_hand(4), "apart": 0.5},
        picture=_two_slices,
        claims=(FORGED,),
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
