"""Cards 1 to 3: how many layers, how many folds, and whether more is better."""

import math
from functools import cache

from kit.course.lessons.bevels import BevelsLesson
from kit.course.lessons.fold import FoldLesson
from kit.course.lessons.scene import FORGED, Scene
from kit.course.questions.card import Measures, Values, cards_of
from kit.course.questions.faces import finer_and_finer
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


card = cards_of(__file__)
CARDS = (
    card(
        1,
        values=_counted,
        by_hand={
            "layers": 7 * 2**4,
            "bands": 6 * 2**4 + 1,
            "lines": 97 * 1.8 / 4.0,
            "back": 44 * 4.0 / 1.8,
        },
        picture=_end_grain,
        claims=(FORGED, COUNTED),
    ),
    card(
        2,
        values=_doubled,
        by_hand={
            "layers": 2 * 2**10,
            "most": 2 * 2**19,
            "thin": 5 / 2**20,
            "atoms": 5 / 2**20 / 0.248e-6,
        },
        picture=_ten_folds,
        claims=(FORGED, ATOM, COUNTED, SHOP_LOSSES),
    ),
    card(
        3,
        values=_fine,
        by_hand={
            "limit": math.floor(4 / EYE_BY_HAND * BEVEL_BY_HAND),
            "square": math.floor(4 / EYE_BY_HAND),
            "at_80": 0.05 * BEVEL_BY_HAND,
            "at_1000": 0.004 * BEVEL_BY_HAND,
            "eye": EYE_BY_HAND,
        },
        picture=lambda measures: finer_and_finer(LAYERS, measures),
        claims=(FORGED, ONE_MINUTE, MISSED, SHOP_LOSSES),
    ),
)
