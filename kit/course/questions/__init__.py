"""The questions that visitors and students ask, each as a card that can be searched.

The room to the right of the lessons: a card's picture is a lesson's scene, or a drawing of
its own, and its number is worked out by the kit for the lessons' own examples.
"""

from __future__ import annotations

from kit.course.questions import (
    carbon,
    counting,
    etched,
    heat,
    inside,
    keeping,
    search,
    shaped,
    worth,
)
from kit.course.questions.card import Card, Measures, Told, drawn

__all__ = ["CARDS", "Card", "Measures", "Told", "drawn", "find", "suggest"]

_GROUPS = (counting, worth, carbon, inside, shaped, etched, heat, keeping)
CARDS = tuple(
    sorted(
        (card for group in _GROUPS for card in group.CARDS), key=lambda card: card.number
    )
)


def find(words: str) -> list[Card]:
    """Find the cards that hold every word, best first; without a word, all of them.

    Capitals, accents and signs do not matter; a word may be cut short.

    Examples
    --------
    >>> [card.number for card in find("FAKE spine")]
    [9]
    >>> len(find("")), find("zebra crossing")
    (25, [])
    """
    return search.find(words, CARDS)


def suggest(words: str) -> str:
    """Say in one sentence that nothing was found, and what to try instead.

    Examples
    --------
    >>> suggest("damscus")
    'No question holds “damscus”: try damascus, or fewer words.'
    """
    return search.suggest(words, CARDS)
