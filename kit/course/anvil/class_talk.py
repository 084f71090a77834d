"""The talk that comes with the kit: the Alder Lane class's two bars, and its plans.

The bars and what is said at them are recipes beside this file, such as anybody can save.
How long each part takes is the kit's own guess, from no source: time yours.
"""

from functools import cache
from pathlib import Path
from typing import NamedTuple

from kit.shop.recipes.recipe import Recipe, load

FILES = ("class_bar.json", "class_second_bar.json")


@cache
def class_talks() -> tuple[Recipe, ...]:
    """Give the class's bar and its second bar, each with its talk."""
    return tuple(load(Path(__file__).with_name(name)) for name in FILES)


class Part(NamedTuple):
    """A part of a plan: when it begins, in seconds, what is said and done, the clay.

    Attributes
    ----------
    at : int
    does, clay : str
        On the screen, and on the table beside it.
    """

    at: int
    does: str
    clay: str

    @property
    def time(self) -> str:
        """Its beginning, as a clock shows it."""
        return f"{self.at // 60}:{self.at % 60:02d}"


class Plan(NamedTuple):
    """How to give the talk in the time there is, in seconds."""

    name: str
    lasts: int
    parts: tuple[Part, ...]


def plans() -> tuple[Plan, ...]:
    """Give the talk in two minutes, and in 45; its numbers are those of the bars."""
    first, second = class_talks()
    bar = first.billet
    stacked = bar.tallies[0].layers
    folds = sum(step.step == "fold" for step in bar.steps)
    pieces = len(second.billet.source.bars)
    two = (
        Part(0, "Show the stack, and ask how many layers one fold makes.", "Hand it over."),
        Part(20, "Let them guess, then fold.", "Roll, fold, press."),
        Part(
            45, f"Go to {bar.layers} layers: where is the pattern?", "Show the plain face."
        ),
        Part(70, "Cut on the slant. Say nothing: let them look.", "Draw the wire through."),
        Part(100, "Say the one sentence: a pattern is where a cut meets the layers.", ""),
        Part(110, "Take their question, and give them a card.", "They keep a slice."),
    )
    long = (
        Part(0, "Show a cut bar. Everybody writes down how it was made.", "Nothing yet."),
        Part(
            4, f"Stack {stacked} bars, and tell why they differ.", "Pairs lay their slabs."
        ),
        Part(9, f"Fold {folds} times, and count after each.", "Fold along, and count too."),
        Part(
            16, "Dent and flatten. Vote first: dots, rings or stripes?", "Scoop, and roll."
        ),
        Part(22, "Cut on the slant; then move the angle, and guess the width.", "Wire."),
        Part(28, "Second bar: twist it. Ask what is inside.", "Two ropes, one each way."),
        Part(34, f"Lay {pieces} pieces together, and grind deeper.", "Lay, press, slice."),
        Part(40, "Each tells a neighbour why the lines lean.", "Compare the slices."),
        Part(43, "Ask one question to take home. Clear the tables.", "Sort the clay."),
    )
    slow = tuple(part._replace(at=60 * part.at) for part in long)
    return (
        Plan("In two minutes, the first bar", 120, two),
        Plan("In 45 minutes, both bars", 45 * 60, slow),
    )
