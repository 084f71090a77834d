"""Forging steps, one a file. `STEPS` is the register that tests and recipes read."""

from kit.steps.base import Points, RoundSize, Size, Step
from kit.steps.blows import Blows
from kit.steps.draw import Draw
from kit.steps.fold import Fold
from kit.steps.grind import Grind, GrindRound
from kit.steps.press import Press
from kit.steps.restack import Restack
from kit.steps.split import Split
from kit.steps.tally import Layers, Pieces, Tally
from kit.steps.tile import Tile
from kit.steps.turn import Turn
from kit.steps.twist import Roll, RoundUp, SquareUp, Twist
from kit.steps.upset import Upset

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
