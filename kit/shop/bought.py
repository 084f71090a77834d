"""Bars as they are bought: flat layers, twist, ladder or raindrop, of two steels."""

from __future__ import annotations

import math
from functools import lru_cache, partial

from kit.basics.claim import Claim, Kind
from kit.forge.billet import Billet
from kit.forge.stack import MOST_PIECES, Stack
from kit.forge.steps import CutAndStack, Dent, DrawOut, GrindRound, Groove, SquareUp, Twist

# How it is drawn; ours.
LENGTH = 176.0  # mm, or more
THINNEST = 0.01  # mm, of a bar in a stack: finer layers are drawn out
STEELS = ("1084", "15N20")
BOUGHT = ("flat layers", "twist", "ladder", "raindrop")
FLAT, TWIST, LADDER, RAINDROP = range(4)
AS_BOUGHT = Claim(
    says="Bars that are sold were twisted, grooved or dented about so.",
    kind=Kind.PRACTICE,
    unit="mm, parts of the bar, sides",
    holds=("_HOLLOWS", "DEEP", "_THICKER", "_SQUARER", "_TURN"),
)
_HOLLOWS = {
    LADDER: partial(Groove, way="cut and forged", across=8, spacing=14),
    RAINDROP: partial(Dent, way="cut and forged", across=8, spacing=12),
}
DEEP = 0.3  # of the bar that the hollows are cut into
_THICKER = 1.6  # times the finished bar: so thick is that one
_SQUARER = 1.25  # a twisted bar's side against that of a square of the finished section
_TURN = 1.6  # one turn in so many sides


@lru_cache(maxsize=8)
def bar(
    layers: int, bought: int, thickness: float, width: float, faces: str = "top"
) -> Billet:
    """Forge a bar of dark and bright layers in turn as it is bought.

    Parameters
    ----------
    layers : int
        Through its thickness, before it was twisted or hollowed.
    bought : int
        Index into `BOUGHT`.
    thickness, width : float
        Of the finished bar, mm.
    faces : str
        Into which hollows are cut; see `Hollows`.
    """
    if bought == TWIST:
        side = max(_SQUARER * math.sqrt(width * thickness), THINNEST * layers)
        billet = _stack(layers, side, side, LENGTH).then(
            GrindRound(), Twist(turn_length=_TURN * side), SquareUp()
        )
        return billet.then(DrawOut(thickness=thickness, width=width))
    if bought in _HOLLOWS:
        before = max(_THICKER * thickness, THINNEST * layers)
        hollows = _HOLLOWS[bought](depth=DEEP * before, faces=faces, thickness=thickness)
        return _stack(layers, before, width, LENGTH).then(hollows)
    before = max(thickness, THINNEST * layers)
    pieces = layers if layers <= MOST_PIECES else layers // 2
    flat = _stack(pieces, before, width, LENGTH * thickness / before)
    if pieces < layers:
        flat = flat.then(CutAndStack(pieces=2), DrawOut(thickness=before, width=width))
    return flat if before == thickness else flat.then(DrawOut(thickness=thickness))


def _stack(layers: int, thickness: float, width: float, length: float) -> Billet:
    stack = Stack.alternate(
        *STEELS,
        pieces=layers,
        thickness=thickness / layers,
        width=width,
        length=length,
    )
    return Billet(source=stack)
