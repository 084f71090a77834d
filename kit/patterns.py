"""The patterns a working smith names, each as a recipe that can be forged and cut.

How they are made is common practice, no source, unless a recipe says otherwise. Names
are the trade's common ones; none belongs to one maker.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from kit.billet import Billet, fold_and_draw
from kit.bundle import Bundle
from kit.errors import KitError
from kit.stack import Layer, Stack
from kit.steps import (
    Blows,
    Draw,
    Grind,
    Press,
    Roll,
    RoundUp,
    Split,
    SquareUp,
    Tile,
    Turn,
    Twist,
)
from kit.surface import Plane

COMMON = "common practice, no source"


@dataclass(frozen=True, kw_only=True)
class Pattern:
    """A named pattern.

    Parameters
    ----------
    name : str
        As the trade calls it.
    forge : callable
        Makes the billet; its top face (or its end, see `shown`) shows the pattern.
    note : str
        How it comes about, in a sentence or two.
    shown : str
        "face", "end", or "side": cut lengthwise through the middle.
    source : str
        Where the recipe is from.
    """

    name: str
    forge: Callable[[], Billet]
    note: str
    shown: str = "face"
    source: str = COMMON


def _stack(pieces: int, *, width: float = 40.0, length: float = 150.0) -> Billet:
    """Stack 1/8 in bars of 1084 and 1/16 in bars of 15N20, as the class does."""
    stack = Stack.alternate(
        "1084",
        "15N20",
        pieces=pieces,
        thickness=(3.175, 1.5875),
        length=length,
        width=width,
    )
    return Billet(source=stack)


def _wavy(folds: int = 3, *, thickness: float = 12.0, depth: float = 2.5) -> Billet:
    """Stack thirteen bars, fold by hand: the layers are never quite level."""
    billet = _stack(13)
    for fold in range(folds):
        billet = billet.then(Blows(depth=depth, spacing=28, seed=11 + fold))
        billet = fold_and_draw(billet, folds=1)
    return billet.then(Blows(depth=depth, spacing=28, seed=31), Draw(thickness=thickness))


def _ground(billet: Billet, off: float) -> Billet:
    return billet.then(Grind(top=off))


def _random() -> Billet:
    return _ground(_wavy(), 3.4)


def _ladder() -> Billet:
    rungs = Press(tool="groove", across=7, depth=3, spacing=12, faces="top")
    return _ground(_wavy(2, depth=0.5).then(rungs), 0.4)


def _raindrop() -> Billet:
    drops = Press(tool="ball", across=8, depth=3, spacing=11, faces="top")
    return _ground(_wavy(2, depth=0.5).then(drops), 0.4)


def _square(pieces: int = 17, side: float = 16.0) -> Billet:
    stack = Stack.alternate(
        "1084", "15N20", pieces=pieces, thickness=side / pieces, length=150, width=side
    )
    return Billet(source=stack)


def _twisted(turns_an_inch: float, off: float, hand: str = "right") -> Billet:
    twist = Twist(turn_length=25.4 / turns_an_inch, hand=hand)
    billet = _square().then(RoundUp(), twist, SquareUp())
    return _ground(billet, off) if off else billet


def _composite() -> Billet:
    hands = ("right", "left", "right", "left")
    bars = tuple(_twisted(0.6, 0, hand) for hand in hands)
    return _ground(Billet(source=Bundle(bars=bars)), 3.0)


def _star() -> Billet:
    billet = _twisted(1.0, 0)
    return _ground(billet, billet.size.thickness / 2)


def _chevron() -> Billet:
    """Set a folded stack on the diagonal, and lay it beside its mirror image."""
    slanted = _square(25).then(RoundUp(), Roll(degrees=45), SquareUp())
    mirrored = _square(25).then(RoundUp(), Roll(degrees=-45), SquareUp())
    pair = Billet(source=Bundle(bars=(slanted, mirrored)))
    return pair.then(Turn(), Draw(thickness=pair.size.width))


def _feather() -> Billet:
    stack = fold_and_draw(_stack(13, width=60.0), folds=1)
    block = stack.then(Draw(thickness=60, width=60))
    return block.then(Split(drag=22, reach=9), Draw(thickness=45, width=40))


def _mosaic() -> Billet:
    block = _stack(13, width=31.75, length=400).then(Draw(thickness=30, width=30))
    bent = block.then(Split(drag=8, reach=5))
    side = (bent.size.width * bent.size.thickness) ** 0.5
    return bent.then(Draw(thickness=side, width=side), Tile(), Draw(thickness=36, width=36))


def _clad(core: float, cladding: float, steel: str) -> Stack:
    layers = tuple(
        Layer(steel=name, thickness=thickness)
        for name, thickness in ((steel, cladding), ("1095", core), (steel, cladding))
    )
    return Stack(layers=layers, length=150, width=40)


def _san_mai() -> Billet:
    return Billet(source=_clad(3.6, 4.2, "15N20")).then(Draw(thickness=4))


def _patterned_san_mai() -> Billet:
    side = _wavy(0).then(Draw(thickness=8, width=40))
    core = Billet(
        source=Stack(
            layers=(Layer(steel="1095", thickness=2.5),) * 2,
            length=side.size.length,
            width=40,
        )
    )
    return Billet(source=Bundle(bars=(side, core, side), laid="stacked")).then(
        Draw(thickness=12)
    )


def _wavy_core() -> Billet:
    grooves = Press(
        tool="groove", across=14, depth=2.5, spacing=15, way="press", faces="staggered"
    )
    return Billet(source=_clad(2.4, 4.8, "15N20")).then(grooves, Draw(thickness=4))


PATTERNS: tuple[Pattern, ...] = (
    Pattern(
        name="random",
        forge=_random,
        note="Folded and hammered by hand, ground: the contour lines of uneven blows.",
    ),
    Pattern(
        name="ladder",
        forge=_ladder,
        note="Grooves cut across the bar, forged flat: each rung is a map of a groove.",
    ),
    Pattern(
        name="raindrop",
        forge=_raindrop,
        note="Hollows cut into the face, forged flat: rings are contour lines.",
    ),
    Pattern(
        name="low twist",
        forge=lambda: _twisted(0.5, 2.0),
        note="Half a turn to the inch, a little ground off.",
    ),
    Pattern(
        name="medium twist",
        forge=lambda: _twisted(1.5, 3.0),
        note="One and a half turns to the inch, ground towards the middle.",
    ),
    Pattern(
        name="tight twist",
        forge=lambda: _twisted(3.0, 4.0),
        note="Three turns to the inch, near the limit of hot torsion.",
    ),
    Pattern(
        name="multi-bar composite",
        forge=_composite,
        note="Four bars of opposite twist, side by side: chevrons on every seam.",
    ),
    Pattern(
        name="star",
        forge=_star,
        note="A twisted bar ground to its axis: a star every half turn.",
    ),
    Pattern(
        name="feather",
        forge=_feather,
        shown="end",
        note="A block split by a wedge that drags the layers down. The shape is a toy.",
    ),
    Pattern(
        name="four-way mosaic",
        forge=_mosaic,
        shown="end",
        note="Four pieces of one bar, each a quarter turn further.",
    ),
    Pattern(
        name="chevron",
        forge=_chevron,
        shown="end",
        note="Two bars on the diagonal, mirror images, side by side.",
    ),
    Pattern(
        name="san mai, plain",
        forge=_san_mai,
        shown="end",
        note="A core of carbon steel between two plain sides.",
    ),
    Pattern(
        name="san mai, patterned sides",
        forge=_patterned_san_mai,
        shown="end",
        note="A plain core between two layered sides.",
    ),
    Pattern(
        name="wavy core",
        forge=_wavy_core,
        shown="side",
        note="San mai pressed with staggered grooves, so that the core waves.",
    ),
)


def shown_at(billet: Billet, shown: str, columns: int, rows: int) -> Plane:
    """Look at the face, the end or the lengthwise cut of a billet, as large as fits."""
    length, width, thickness = billet.size
    across, up, centre, breadth, height = {
        "face": ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), thickness / 2 - 1e-3, 90.0, width),
        "end": ((0.0, 1.0, 0.0), (0.0, 0.0, 1.0), 0.0, width, thickness),
        "side": ((1.0, 0.0, 0.0), (0.0, 0.0, 1.0), 0.0, 90.0, thickness),
    }[shown]
    return Plane(
        size=billet.size,
        centre=(length * 0.4, 0.0, centre),
        right=across,
        up=up,
        columns=columns,
        rows=rows,
        pixel=1.05 * max(breadth / columns, height / rows),
    )


def pattern(name: str) -> Pattern:
    """Find a pattern by its name, however it is spelt with capitals or spaces.

    Raises
    ------
    KitError
        If there is none of that name.
    """
    key = " ".join(str(name).lower().split())
    for known in PATTERNS:
        if known.name == key:
            return known
    names = ", ".join(known.name for known in PATTERNS)
    msg = f"I know no pattern called '{str(name)[:40]}'. Known: {names}."
    raise KitError(msg)
