"""How the named patterns are forged. Common practice, no source (see patterns.py)."""

from __future__ import annotations

from kit.forge.billet import Billet, fold_and_draw
from kit.forge.bundle import Bundle
from kit.forge.stack import Layer, Stack, demo_stack
from kit.forge.steps import (
    Dent,
    DrawOut,
    FourWay,
    Grind,
    Groove,
    Hammer,
    QuarterTurn,
    RoundUp,
    SetOnTheBias,
    Split,
    SquareUp,
    Twist,
)


def stack(*, width: float = 40.0, length: float = 150.0) -> Billet:
    """Lay the demo's bars on each other."""
    return Billet(source=demo_stack(length=length, width=width))


def wavy(folds: int = 3, *, thickness: float = 12.0, depth: float = 2.5) -> Billet:
    """Stack the demo's bars, fold by hand: the layers are never quite level."""
    billet = stack()
    for fold in range(folds):
        billet = billet.then(Hammer(depth=depth, spacing=28, seed=11 + fold))
        billet = fold_and_draw(billet, folds=1)
    return billet.then(
        Hammer(depth=depth, spacing=28, seed=31), DrawOut(thickness=thickness)
    )


def ground(billet: Billet, off: float) -> Billet:
    """Grind the top."""
    return billet.then(Grind(top=off))


def random() -> Billet:
    """Fold by hand and grind into the waves."""
    return ground(wavy(), 3.4)


def ladder() -> Billet:
    """Groove across, forge flat, grind the skin off."""
    rungs = Groove(way="cut and forged", across=7, depth=3, spacing=12, faces="top")
    return ground(wavy(2, depth=0.5).then(rungs), 0.4)


def raindrop() -> Billet:
    """Sink hollows, forge flat, grind the skin off."""
    drops = Dent(way="cut and forged", across=8, depth=3, spacing=11, faces="top")
    return ground(wavy(2, depth=0.5).then(drops), 0.4)


def square(pieces: int = 17, side: float = 16.0) -> Billet:
    """Stack a square bar of even layers."""
    stack = Stack.alternate(
        "1084", "15N20", pieces=pieces, thickness=side / pieces, length=150, width=side
    )
    return Billet(source=stack)


def twisted(turns_an_inch: float, off: float, hand: str = "right") -> Billet:
    """Twist a square bar, and grind some off its top."""
    twist = Twist(turn_length=25.4 / turns_an_inch, hand=hand)
    billet = square().then(RoundUp(), twist, SquareUp())
    return ground(billet, off) if off else billet


def composite() -> Billet:
    """Lay four bars of opposite twist side by side."""
    hands = ("right", "left", "right", "left")
    bars = tuple(twisted(0.6, 0, hand) for hand in hands)
    return ground(Billet(source=Bundle(bars=bars)), 3.0)


def star() -> Billet:
    """Twist, and grind to the axis."""
    billet = twisted(1.0, 0)
    return ground(billet, round(billet.size.thickness / 2, 9))


def chevron() -> Billet:
    """Set a folded stack on the diagonal, and lay it beside its mirror image."""
    slanted = square(25).then(RoundUp(), SetOnTheBias(degrees=45), SquareUp())
    mirrored = square(25).then(RoundUp(), SetOnTheBias(degrees=-45), SquareUp())
    pair = Billet(source=Bundle(bars=(slanted, mirrored)))
    return pair.then(QuarterTurn(), DrawOut(thickness=round(pair.size.width, 9)))


def feather() -> Billet:
    """Split a tall block, and draw it out along the split: there the blade will lie."""
    folded = fold_and_draw(stack(width=60.0, length=300.0), folds=3)
    block = folded.then(DrawOut(thickness=90, width=60))
    return block.then(Split(drag=34, reach=4), DrawOut(thickness=130, width=40))


def mosaic() -> Billet:
    """Drag the layers, and lay four pieces together."""
    block = stack(width=31.75, length=400).then(DrawOut(thickness=30, width=30))
    bent = block.then(Split(drag=8, reach=5))
    side = round((bent.size.width * bent.size.thickness) ** 0.5, 2)
    return bent.then(
        DrawOut(thickness=side, width=side), FourWay(), DrawOut(thickness=36, width=36)
    )


def clad(core: float, cladding: float, steel: str) -> Stack:
    """Stack a core between two sides."""
    layers = tuple(
        Layer(steel=name, thickness=thickness)
        for name, thickness in ((steel, cladding), ("1095", core), (steel, cladding))
    )
    return Stack(layers=layers, length=150, width=40)


def san_mai() -> Billet:
    """Put a core between two plain sides."""
    return Billet(source=clad(3.6, 4.2, "15N20")).then(DrawOut(thickness=4))


def patterned_san_mai() -> Billet:
    """Put a plain core between two layered sides."""
    side = wavy(0).then(DrawOut(thickness=8, width=40))
    core = Billet(
        source=Stack(
            layers=(Layer(steel="1095", thickness=2.5),) * 2,
            length=round(side.size.length, 2),
            width=40,
        )
    )
    return Billet(source=Bundle(bars=(side, core, side), laid="stacked")).then(
        DrawOut(thickness=12)
    )


def wavy_core() -> Billet:
    """Press san mai from both sides in turn."""
    grooves = Groove(way="pressed and ground", across=14, depth=2.5, spacing=15)
    return Billet(source=clad(2.4, 4.8, "15N20")).then(grooves, DrawOut(thickness=4))
