"""Forging steps, one a file. `STEPS` is the register that tests and recipes read."""

from kit.forge.steps.base import Points, RoundSize, Size, Step
from kit.forge.steps.blows import Blows
from kit.forge.steps.draw import Draw
from kit.forge.steps.fold import Fold
from kit.forge.steps.grind import Grind, GrindRound
from kit.forge.steps.press import Press
from kit.forge.steps.restack import Restack
from kit.forge.steps.split import Split
from kit.forge.steps.tally import Layers, Pieces, Tally
from kit.forge.steps.tile import Tile
from kit.forge.steps.turn import Turn
from kit.forge.steps.twist import Roll, RoundUp, SquareUp, Twist
from kit.forge.steps.upset import Upset

STEPS: dict[str, type[Step]] = {
    "draw": Draw,
    "fold": Fold,
    "restack": Restack,
    "blows": Blows,
    "turn": Turn,
    "round up": RoundUp,
    "grind": Grind,
    "grind round": GrindRound,
    "twist": Twist,
    "roll": Roll,
    "square up": SquareUp,
    "press": Press,
    "split": Split,
    "tile": Tile,
    "upset": Upset,
}

__all__ = [
    "STEPS",
    "Blows",
    "Draw",
    "Fold",
    "Grind",
    "GrindRound",
    "Layers",
    "Pieces",
    "Points",
    "Press",
    "Restack",
    "Roll",
    "RoundSize",
    "RoundUp",
    "Size",
    "Split",
    "SquareUp",
    "Step",
    "Tally",
    "Tile",
    "Turn",
    "Twist",
    "Upset",
]
