"""The numbers of the question cards again, worked out without the kit.

One file for each of `kit/course/questions`: plain arithmetic, or a handbook's formula with
its source beside it, by the card's number. `tests/test_questions.py` compares the two.
"""

from collections.abc import Mapping
from importlib import import_module
from pkgutil import iter_modules
from typing import NamedTuple


class ByHand(NamedTuple):
    """What a card must come to: some of its values, and what is read in its number."""

    values: Mapping[str, float]
    shown: tuple[str, ...]  # in mm and °C


BY_HAND: dict[int, ByHand] = {}
for _one in iter_modules(__path__):
    BY_HAND |= import_module(f"{__name__}.{_one.name}").CARDS
