"""The questions that visitors and students ask, each as a card that can be searched.

The room to the right of the lessons: a card's picture is a lesson's scene, or a drawing of
its own, and its number is worked out by the kit for the lessons' own examples. A module in
this folder that has `CARDS` is found by itself.
"""

from __future__ import annotations

import importlib
import pkgutil
import re
import unicodedata
from difflib import get_close_matches
from functools import lru_cache
from itertools import takewhile

from kit.course.questions.card import Card, Measures, Told, drawn

__all__ = ["CARDS", "LONGEST", "Card", "Measures", "Told", "drawn", "find", "suggest"]

LONGEST = 200  # signs of a search that are read
MOST_WORDS = 12
# Small words say nothing; alone they are looked for like any other.
_SMALL = """
a about an and are as at be but can do does for from has have how i in is it its me my of
on or so s than that the their there this to was what when where which who why will with
you your t
"""
SMALL = frozenset(_SMALL.split())
WEIGHTS = (16, 8, 4, 2, 1)  # question, keywords, belief, answer, breath
WHOLE = 2  # times as much: the word as it stands, not only its beginning
# Two words with one stem: "layered" finds "layers", but "start" not "stars".
STEM = 4  # letters, at least
ENDINGS = frozenset(("", "d", "e", "ed", "en", "er", "es", "ing", "ly", "s", "y"))
TRY = ("layers", "fake", "rust", "temperature")


def words_of(text: str) -> list[str]:
    """Cut a text into plain words: no capitals, accents, or other signs.

    Examples
    --------
    >>> words_of("Véry HOT — 1200°, isn't it?")
    ['very', 'hot', '1200', 'isn', 't', 'it']
    """
    plain = unicodedata.normalize("NFKD", text)
    bare = "".join(sign for sign in plain if not unicodedata.combining(sign))
    return re.findall(r"[^\W_]+", bare.casefold())


def find(words: str) -> list[Card]:
    """Find the cards that hold every word, best first; without a word, all of them.

    Parameters
    ----------
    words : str
        As typed; only the first 200 signs are read. Capitals, accents and signs do not
        matter; a word may be cut short.

    Returns
    -------
    list of Card
        Where a word stands in the question counts most, then keywords, belief, answer.

    Examples
    --------
    >>> [card.number for card in find("FAKE spine")]
    [9]
    >>> len(find("")) == len(CARDS), find("zebra crossing")
    (True, [])
    """
    asked = _asked(words)
    scores = {card.number: _score(card, asked) for card in CARDS}
    found = [card for card in CARDS if scores[card.number] is not None]
    return sorted(found, key=lambda card: (-scores[card.number], card.number))


def suggest(words: str) -> str:
    """Say in one sentence that nothing was found, and what to try instead.

    Examples
    --------
    >>> suggest("damscus")
    'No card mentions “damscus”: try damascus, or fewer words.'
    """
    known = sorted({word for card in CARDS for text in _read(card) for word in text})
    near = [
        found
        for word in _asked(words)
        if word not in known
        for found in get_close_matches(word, known, n=1, cutoff=0.75)
    ]
    shown = " ".join(words[:LONGEST].split())
    shown = shown if len(shown) <= 40 else shown[:40] + "…"
    return f"No card mentions “{shown}”: try {' or '.join(near or TRY)}, or fewer words."


def _asked(words: str) -> list[str]:
    asked = words_of(words[:LONGEST])[:MOST_WORDS]
    return [word for word in asked if word not in SMALL] or asked


@lru_cache(maxsize=64)
def _read(card: Card) -> tuple[tuple[str, ...], ...]:
    return tuple(tuple(words_of(text)) for text in card.texts)


def _score(card: Card, asked: list[str]) -> int | None:
    """Add up where the words stand; None if one is missing."""
    best = [max(_places(card, word), default=0) for word in asked]
    return None if 0 in best else sum(best)


def _places(card: Card, word: str) -> list[int]:
    return [
        weight * (WHOLE if word in text else 1)
        for weight, text in zip(WEIGHTS, _read(card), strict=True)
        if any(_alike(word, known) for known in text)
    ]


def _alike(asked: str, known: str) -> bool:
    """Tell whether two words begin alike: "rus" and "rusty", "layered" and "layers"."""
    if known.startswith(asked):
        return True
    pairs = zip(asked, known, strict=False)
    shared = sum(1 for _ in takewhile(lambda pair: pair[0] == pair[1], pairs))
    return shared >= STEM and {asked[shared:], known[shared:]} <= ENDINGS


def _found() -> tuple[Card, ...]:
    modules = (f"{__name__}.{found.name}" for found in pkgutil.iter_modules(__path__))
    groups = (getattr(importlib.import_module(name), "CARDS", ()) for name in modules)
    return tuple(
        sorted((one for group in groups for one in group), key=lambda card: card.number)
    )


CARDS = _found()
