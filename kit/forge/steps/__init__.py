"""Forging steps, one a file. `STEPS` is the register that tests and recipes read."""

from kit.forge.steps.base import Points, RoundSize, Size, Step
from kit.forge.steps.cut_and_stack import CutAndStack
from kit.forge.steps.draw_out import DrawOut
from kit.forge.steps.fold import Fold
from kit.forge.steps.four_way import FourWay
from kit.forge.steps.grind import Grind, GrindRound
from kit.forge.steps.hammer import Hammer
from kit.forge.steps.press import Press
from kit.forge.steps.quarter_turn import QuarterTurn
from kit.forge.steps.split import Split
from kit.forge.steps.tally import Layers, Pieces, Tally
from kit.forge.steps.twist import RoundUp, SetOnTheBias, SquareUp, Twist
from kit.forge.steps.upset import Upset

STEPS: dict[str, type[Step]] = {
    "draw out": DrawOut,
    "fold": Fold,
    "cut and stack": CutAndStack,
    "hammer unevenly": Hammer,
    "quarter turn": QuarterTurn,
    "round up": RoundUp,
    "grind": Grind,
    "grind round": GrindRound,
    "twist": Twist,
    "set on the bias": SetOnTheBias,
    "square up": SquareUp,
    "press": Press,
    "split": Split,
    "four-way": FourWay,
    "upset": Upset,
}

__all__ = [
    "STEPS",
    "CutAndStack",
    "DrawOut",
    "Fold",
    "FourWay",
    "Grind",
    "GrindRound",
    "Hammer",
    "Layers",
    "Pieces",
    "Points",
    "Press",
    "QuarterTurn",
    "RoundSize",
    "RoundUp",
    "SetOnTheBias",
    "Size",
    "Split",
    "SquareUp",
    "Step",
    "Tally",
    "Twist",
    "Upset",
]
