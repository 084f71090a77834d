"""Forging steps, one a file. `STEPS` is the register that tests and recipes read."""

from kit.steps.base import Layers, Points, Size, Step, Tally
from kit.steps.blows import Blows
from kit.steps.draw import Draw
from kit.steps.fold import Fold
from kit.steps.restack import Restack
from kit.steps.turn import Turn

STEPS: dict[str, type[Step]] = {
    "draw": Draw,
    "fold": Fold,
    "restack": Restack,
    "blows": Blows,
    "turn": Turn,
}

__all__ = [
    "STEPS",
    "Blows",
    "Draw",
    "Fold",
    "Layers",
    "Points",
    "Restack",
    "Size",
    "Step",
    "Tally",
    "Turn",
]
