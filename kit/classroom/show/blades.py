"""The blades that are seen at rest: of steel that is not asked about next.

A bevel cuts into every depth of its bar, so a blade of the bar that a question is about
would show the answer.
"""

from __future__ import annotations

from collections.abc import Sequence

from kit.classroom.show.piece import RAINDROPS, TWISTED, Picture, phrase
from kit.forge.billet import Billet
from kit.forge.stack import Stack
from kit.forge.steps import Dent, DrawOut, GrindRound, SquareUp, Step, Twist
from kit.forge.steps.hollows import Hollows
from kit.section.blade import Blade
from kit.section.grind import BladeGrind
from kit.section.outline import Outline
from kit.shop.bought import STEELS

# Few layers, wide dents, a slow twist: patterns that read from three metres. All ours, mm.
WIDE, HIGH = 1200, 400  # pixels, at most
THICK, WIDTH = 5.0, 50.0
SHAPE = BladeGrind(
    outline=Outline(family="drop", length=150, height=42, point=45),
    spine=THICK,
    edge=0.4,
    plunge=0.1,  # the bevel begins at the heel
)
DENTED = Dent(way="cut and forged", across=13, spacing=16, depth=2.6, thickness=THICK)
TURNED = (
    GrindRound(), Twist(turn_length=40), SquareUp(), DrawOut(thickness=THICK, width=WIDTH),
)  # fmt: skip


def blade(name: str) -> Picture:
    """Grind the blade of that name."""
    billet = _forged(24, 8.0, WIDTH, [DENTED])
    if name == TWISTED:
        billet = _forged(13, 20.0, 20.0, TURNED)
    return Picture(
        billet=billet,
        surface=Blade.fitted(SHAPE, billet.size, WIDE, HIGH),
        alt=phrase("A blade of damascus steel: dark and bright lines all over it."),
    )


def other_than(billet: Billet) -> str:
    """Name the blade that shows nothing of a bar."""
    hollowed = any(isinstance(step, Hollows) for step in billet.steps)
    return TWISTED if hollowed else RAINDROPS


def _forged(pieces: int, thick: float, width: float, steps: Sequence[Step]) -> Billet:
    stack = Stack.alternate(
        *STEELS, pieces=pieces, thickness=thick / pieces, width=width, length=190
    )
    return Billet(source=stack).then(*steps)
