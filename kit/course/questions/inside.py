"""Cards 6, 7, 18 and 21: the pattern goes through the steel and changes with depth."""

import math
from functools import cache

from kit.course.lessons import twist
from kit.course.lessons.scene import FORGED, Scene
from kit.course.lessons.twist_drawing import line_angle
from kit.course.questions import faces
from kit.course.questions.card import Measures, Values, cards_of
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
        18,
        values=_stars,
        by_hand={"star": 50 / 2, "stars": 200 / 25},
        picture=lambda measures: _twisted(ACROSS / 2, measures),
        claims=(FORGED,),
    ),
    card(
        21,
        values=_slices,
        by_hand={"skin": _lean_by_hand(8), "half": _lean_by_hand(4), "apart": 0.5},
        picture=_two_slices,
        claims=(FORGED,),
    ),
)
