"""The patterns a working smith names, each with how it is forged.

How they are made is common practice, no source. Names
are the trade's common ones; none belongs to one maker.

What stays unlike steel: layers keep their sharp edge where no heat is told; all hollows
of one tool are round, or straight; a twisted bar's lines have one slope wherever it is
equally hot; welds show no line of their own, and pieces meet along a plane but for what is
hammered later; a core between claddings has no nicks and no cold shuts; and nothing is
scratched, stained or bitten unevenly but by the light and grain of `kit.section.finish`.
"""

from collections.abc import Callable
from dataclasses import dataclass

from kit.basics.claim import Claim, Kind
from kit.basics.errors import KitError
from kit.basics.typed import MM_PER_INCH
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
    Step,
    Twist,
)

NAMED = Claim(
    says="A pattern that the trade names is forged so, or about so.",
    kind=Kind.PRACTICE,
    unit="parts of a hundred of the depth or the turn, by which a hand is off; ours",
    holds=("BY_HAND", "UNEVEN", "TURNS"),
    told=(
        "pushes or cuts hollows",
        "Makers disagree",
        "that the trade names",
        "folded-in rims",
        "between two plain sides",
        "the core waves",
        "named by the trade",
        "How the bars in the picture were made",
    ),
)
GUESSED = Claim(
    says="How far a hand strays, and how the layers of a split bar curve, we guess.",
    kind=Kind.OURS,
    source="illustrative: no measured ones were found",
    told=(
        "hand strays",
        "curve is illustrative",
        "beside a wedge was found",
    ),
)
STRAYS = "How far a hand strays is illustrative."
TURNS = {"low twist": 0.5, "medium twist": 1.5, "tight twist": 3.0}  # turns an inch
UNEVEN = 12  # per cent of its turns that a hand's twist is off: illustrative
# Hollows of a wheel or a burr; how far a hand's depth is off is illustrative.
BY_HAND = {"way": "cut and forged", "faces": "top", "differ": 25}


@dataclass(frozen=True)
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
        "face", "end", "side" (cut lengthwise through the middle), or "split": the end,
        laid down so that its height runs from left to right.
    """

    name: str
    forge: Callable[[], Billet]
    note: str
    shown: str = "face"


PATTERNS: list[Pattern] = []


def named(name: str, note: str, shown: str = "face") -> Callable:
    """Enter a forging among the patterns, under the trade's name for it."""

    def enter(forge: Callable[[], Billet]) -> Callable[[], Billet]:
        PATTERNS.append(Pattern(name, forge, note, shown))
        return forge

    return enter


def stack(*, width: float = 40.0, length: float = 150.0) -> Billet:
    """Lay the demo's bars on each other; width and length in mm."""
    return Billet(source=demo_stack(length=length, width=width))


def wavy(folds: int = 3, *, thickness: float = 12.0, depth: float = 3.0) -> Billet:
    """Stack the demo's bars, fold by hand: layers are never quite level; depth in mm."""
    billet = folded(stack(), folds, depth=depth, spacing=28, seed=11)
    return billet.then(blows(depth, 28, 31), DrawOut(thickness=thickness))


def folded(
    billet: Billet, folds: int, *, depth: float, spacing: float, seed: int
) -> Billet:
    """Fold by hand, each time after hammering; depth and spacing of the blows in mm."""
    for fold in range(folds):
        billet = fold_and_draw(billet.then(blows(depth, spacing, seed + fold)), folds=1)
    return billet


def blows(depth: float, spacing: float, seed: int) -> Hammer:
    """Hammer as a hand does, in waves long and short; depth and spacing in mm."""
    return Hammer(depth=depth, spacing=spacing, seed=seed, waves=7)


def forged_ground() -> Billet:
    """Fold by hand and grind into the waves: the ground that drops and rungs lie on."""
    return ground(wavy(thickness=16), 4.0)


def ground(billet: Billet, off: float) -> Billet:
    """Grind the top."""
    return billet.then(Grind(top=off))


def square(pieces: int = 17) -> Billet:
    """Stack a square bar of even layers, 16 mm thick."""
    stack = Stack.alternate(
        "1084", "15N20", pieces=pieces, thickness=16 / pieces, length=150, width=16
    )
    return Billet(source=stack)


def twisted(
    turns_an_inch: float, off: float, hand: str = "right", *first: Step, **by_hand: float
) -> Billet:
    """Twist a square bar, evenly if no more is said, and grind some off its top.

    What is done `first` is done to the square bar.
    """
    turn = MM_PER_INCH / turns_an_inch
    twist = Twist(turn_length=turn, hand=hand, **by_hand)
    billet = square().then(*first, RoundUp(), twist, SquareUp())
    return ground(billet, off) if off else billet


def twisted_by_hand(turns_an_inch: float, off: float, seed: int, *first: Step) -> Billet:
    """Twist it as a hand does: unevenly, and no axis stays quite in the middle."""
    bar = twisted(turns_an_inch, 0, "right", *first, uneven=UNEVEN, seed=seed)
    return ground(bar.then(blows(0.6, 45, seed)), off)


def clad(core: float, cladding: float, steel: str) -> Stack:
    """Stack a core between two sides."""
    layers = tuple(
        Layer(steel=name, thickness=thickness)
        for name, thickness in ((steel, cladding), ("1095", core), (steel, cladding))
    )
    return Stack(layers=layers, length=150, width=40)


@named("random", "Folded and hammered by hand, ground: the contour lines of uneven blows.")
def random() -> Billet:
    """Fold by hand and grind into the waves."""
    return ground(wavy(4, depth=4), 3.4)


@named(
    "ladder",
    "Grooves ground across the bar by hand, forged flat: each rung is a map of a groove. "
    + STRAYS,
)
def ladder() -> Billet:
    """Groove across with a round wheel, forge flat, grind the skin off."""
    rungs = Groove(**BY_HAND, across=8, depth=3, spacing=12, shoulder=3, wander=1, seed=2)
    return ground(forged_ground().then(rungs), 0.5)


@named(
    "raindrop",
    "Hollows large and small cut into the face by hand, forged flat: rings are contour "
    f"lines. {STRAYS}",
)
def raindrop() -> Billet:
    """Sink hollows with two burrs, forge flat, grind the skin off."""
    large = Dent(**BY_HAND, across=8, depth=3, spacing=12, shoulder=2, wander=2, seed=2)
    small = Dent(
        **BY_HAND, across=5, depth=1.5, spacing=17, shoulder=1.4, wander=3.5, seed=5
    )
    return ground(forged_ground().then(large, small), 0.4)


@named("low twist", f"Half a turn to the inch, a little ground off. {STRAYS}")
def low_twist() -> Billet:
    """Twist half a turn to the inch, and grind 2 mm off."""
    return twisted_by_hand(TURNS["low twist"], 2.0, seed=1)


@named(
    "medium twist", f"One and a half turns to the inch, ground towards the middle. {STRAYS}"
)
def medium_twist() -> Billet:
    """Twist one and a half turns to the inch, and grind 3 mm off."""
    return twisted_by_hand(TURNS["medium twist"], 3.0, seed=2)


@named("tight twist", f"Three turns to the inch, near the limit of hot torsion. {STRAYS}")
def tight_twist() -> Billet:
    """Twist three turns to the inch, and grind 4 mm off."""
    return twisted_by_hand(TURNS["tight twist"], 4.0, seed=3)


@named(
    "multi-bar composite",
    f"Four bars of opposite twist, side by side: chevrons on every seam. {STRAYS}",
)
def composite() -> Billet:
    """Lay four bars of opposite twist side by side."""
    hands = ("right", "left", "right", "left")
    bars = tuple(
        twisted(0.6, 0, hand, uneven=UNEVEN, seed=seed)
        for seed, hand in enumerate(hands, 4)
    )
    return ground(Billet(source=Bundle(bars=bars)).then(blows(0.6, 45, 3)), 3.0)


@named("star", f"A twisted bar ground to its axis: a star every half turn. {STRAYS}")
def star() -> Billet:
    """Forge a bar square by hand, its layers never level; twist, grind to the axis."""
    axis = twisted(1.0, 0).size.thickness / 2
    return twisted_by_hand(1.0, round(axis, 9), 8, blows(0.8, 14, 3))


@named(
    "feather",
    "A tall block split by a wedge, the layers dragged along: barbs on a quill. "
    "The curve is illustrative.",
    shown="split",
)
def feather() -> Billet:
    """Split a tall block, and draw it out along the split: there the blade will lie."""
    block = folded(stack(width=60.0, length=300.0), 3, depth=3, spacing=40, seed=41)[:-1]
    wedge = Split(drag=34, reach=4, uneven=25, wander=1.5, seed=2)
    return block.then(
        DrawOut(thickness=90, width=60), wedge, DrawOut(thickness=130, width=40)
    )


@named(
    "four-way mosaic",
    f"Four pieces of one bar, each a quarter turn further. {STRAYS}",
    shown="end",
)
def mosaic() -> Billet:
    """Drag the layers, lay four pieces together, hammer from all four sides."""
    block = stack(width=31.75, length=400).then(DrawOut(thickness=29, width=29))
    bent = block.then(blows(0.8, 25, 9), Split(drag=8, reach=5, wander=0.6, seed=9))
    side = (bent.size.width * bent.size.thickness) ** 0.5 // 0.01 / 100
    return bent.then(
        DrawOut(thickness=side, width=side),
        FourWay(),
        blows(1.2, 25, 21),
        QuarterTurn(),
        blows(1.2, 25, 22),
        DrawOut(thickness=36, width=36),
    )


@named(
    "chevron",
    f"Two bars on the diagonal, mirror images, side by side. {STRAYS}",
    shown="end",
)
def chevron() -> Billet:
    """Set a folded stack on the diagonal, and lay it beside its mirror image."""
    bars = [square(25).then(blows(0.4, 20, seed), RoundUp()) for seed in (12, 13)]
    bars = [
        bar.then(SetOnTheBias(degrees=turned), SquareUp())
        for bar, turned in zip(bars, (45, -45), strict=True)
    ]
    pair = Billet(source=Bundle(bars=tuple(bars)))
    return pair.then(QuarterTurn(), DrawOut(thickness=round(pair.size.width, 9)))


@named(
    "san mai, plain",
    "A core of carbon steel between two plain sides. The line between is sharp: nickel "
    f"hardly wanders in a weld, and both have much carbon. {STRAYS}",
    shown="end",
)
def san_mai() -> Billet:
    """Put a core between two plain sides."""
    bar = Billet(source=clad(3.6, 4.2, "15N20")).then(blows(0.9, 26, 6))
    return bar.then(DrawOut(thickness=4))


@named(
    "san mai, patterned sides",
    f"A plain core between two layered sides. {STRAYS}",
    shown="end",
)
def patterned_san_mai() -> Billet:
    """Put a plain core between two layered sides."""
    side = wavy(1, depth=5).then(DrawOut(thickness=8, width=40))
    core = Billet(
        source=Stack(
            layers=(Layer(steel="1095", thickness=2.5),) * 2,
            length=round(side.size.length, 2),
            width=40,
        )
    )
    bar = Billet(source=Bundle(bars=(side, core, side), laid="stacked"))
    return bar.then(blows(0.8, 24, 7), DrawOut(thickness=12))


@named(
    "wavy core",
    f"San mai pressed between staggered round dies by hand: the core waves. {STRAYS}",
    shown="side",
)
def wavy_core() -> Billet:
    """Press san mai from both sides in turn."""
    dies = Groove(
        way="pressed and ground", across=9, depth=2.8, spacing=14,
        shoulder=4.5, wander=1.5, differ=20, seed=3,
    )  # fmt: skip
    return Billet(source=clad(2.4, 4.8, "15N20")).then(dies, DrawOut(thickness=4))


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
    names = "; ".join(known.name for known in PATTERNS)  # some have commas
    msg = f"I know no pattern called '{str(name)[:40]}'. Known: {names}."
    raise KitError(msg)
