"""Find cards by words: capitals and accents do not matter, every word must be there."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Sequence
from difflib import get_close_matches
from functools import lru_cache
from itertools import takewhile

from kit.course.questions.card import Card

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


def find(words: str, cards: Sequence[Card]) -> list[Card]:
    """Find the cards that hold every word, best first; without a word, all of them.

    Parameters
    ----------
    words : str
        As typed; only the first 200 signs are read.
    cards : sequence of Card

    Returns
    -------
    list of Card
        Where a word stands in the question counts most, then keywords, belief, answer.
    """
    asked = _asked(words)
    scores = {card.number: _score(card, asked) for card in cards}
    found = [card for card in cards if scores[card.number] is not None]
    return sorted(found, key=lambda card: (-scores[card.number], card.number))


def suggest(words: str, cards: Sequence[Card]) -> str:
    """Say in one sentence that nothing was found, and what to try."""
    known = sorted({word for card in cards for text in _read(card) for word in text})
    near = [
        found
        for word in _asked(words)
        if word not in known
        for found in get_close_matches(word, known, n=1, cutoff=0.75)
    ]
    shown = " ".join(words[:LONGEST].split())
    shown = shown if len(shown) <= 40 else shown[:40] + "…"
    return f"No question holds “{shown}”: try {' or '.join(near or TRY)}, or fewer words."


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
