"""The questions that visitors and students ask, each as a card that can be searched.

The room to the right of the lessons: a card's picture is a lesson's scene, or a drawing of
its own, and its number is worked out by the kit for the lessons' own examples. A module in
this folder that has `CARDS` is found by itself.
"""

from __future__ import annotations

import importlib
import math
import pkgutil
import re
import unicodedata
from collections import Counter
from collections.abc import Sequence
from difflib import SequenceMatcher, get_close_matches
from functools import lru_cache
from itertools import takewhile

from kit.course.questions.card import Card, Measures, Told, drawn

__all__ = ["CARDS", "LONGEST", "Card", "Measures", "Told", "drawn", "find", "suggest"]

LONGEST = 200  # signs of a search that are read
MOST_WORDS = 12
# Small words say nothing; alone they are looked for like any other.
_SMALL = """
a about also am an and any are as at be been but by can cant could d did do does doesn
doesnt don dont for from get go got had has have he her how hows i id if im in is isn isnt
it its ive just like ll m me my no not of on one or our please re really s she should so
some t than that thats the their them there they theyre this to was we were what whats
when where wheres which who why will with wont would yes you your youre
"""
SMALL = frozenset(_SMALL.split())
# What every card is about, or many questions hold, tells little of which one is meant.
_FAINT = """
damascus knife knives blade blades steel pattern many much number use used using
"""
FAINT = frozenset(_FAINT.split())
OF_FAINT = 0.3  # of what a word tells that half of the cards hold, about
# Verbs whose forms have no stem in common.
_FORMS = """
made make, bought buy, worn wear, wore wear, ground grind, broke break, broken break,
told tell, held hold, kept keep, took take, taken take, came come, lost lose, sold sell,
known know
"""
FORMS = dict(pair.split() for pair in _FORMS.split(","))
# How much a word weighs by where it stands: question, keywords, belief, answer, breath.
WEIGHTS = (6.0, 4.0, 1.5, 1.0, 1.5)
AGAIN = 0.02  # of that, for standing in other places too
FULLER = 0.05  # and for filling the question: this, by its number of words
# How near a word as typed is to one of a card.
SAME, KIN, LEAST = 1.0, 0.97, 0.5  # the last: of one cut short, or misspelt
# Two words with one stem: "layered" finds "layers", but "start" not "stars".
VERBS = frozenset(("e", "ing"))  # "fade" and "fading"
STEM, SHORT = 4, 2  # letters, at least
ENDINGS = frozenset(("", "d", "e", "ed", "en", "er", "es", "ing", "ly", "s", "y"))
NEAR = 0.8  # of the letters of a misspelt word, see difflib
ENOUGH = 1 / 4  # of the telling words must stand on a card
BESIDE = 0.15  # of the best card's score: less is not listed
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
    """Find the cards that answer a question, best first; without a word, all of them.

    Parameters
    ----------
    words : str
        As typed; only the first 200 signs are read. Capitals, accents and signs do not
        matter; a word may be cut short or misspelt, and not every word must be found.

    Returns
    -------
    list of Card
        Rare words count most, and words of the question and the keywords. Empty if too
        little of what was asked stands on any card.

    Examples
    --------
    >>> [card.number for card in find("FAKE spine")][0]
    9
    >>> len(find("")) == len(CARDS), find("zebra")
    (True, [])
    """
    asked = _asked(words)
    if not asked:
        return list(CARDS)
    scores = {card.number: _score(card, asked) for card in CARDS}
    best = max(scores.values())
    found = [card for card in CARDS if scores[card.number] > BESIDE * best]
    return sorted(found, key=lambda card: (-scores[card.number], card.number))


def suggest(words: str) -> str:
    """Say in one sentence that nothing was found, and what to try instead.

    Examples
    --------
    >>> suggest("zebra")
    'No card answers “zebra”: try layers or fake or rust or temperature, or fewer words.'
    """
    shown = " ".join(words[:LONGEST].split())
    shown = shown if len(shown) <= 40 else shown[:40] + "…"
    return f"No card answers “{shown}”: try {' or '.join(TRY)}, or fewer words."


def _asked(words: str) -> list[str]:
    asked = words_of(words[:LONGEST])[:MOST_WORDS]
    kept = [word for word in asked if word not in SMALL] or asked
    return [FORMS.get(word, word) for word in kept]


@lru_cache(maxsize=64)
def _read(card: Card) -> tuple[frozenset[str], ...]:
    return tuple(
        frozenset(FORMS.get(word, word) for word in words_of(text)) for text in card.texts
    )


@lru_cache(maxsize=1)
def _known() -> Counter[str]:
    """Count the cards that hold each word."""
    return Counter(
        word for card in CARDS for word in frozenset().union(*_read(card)) - SMALL
    )


@lru_cache(maxsize=512)
def _meant(asked: str) -> dict[str, float]:
    """Give the cards' words that a typed one may mean, and how near each is."""
    known = _known()
    near = {word: how for word in known if (how := _nearness(asked, word))}
    if not near and len(asked) >= STEM:
        close = get_close_matches(asked, known, n=3, cutoff=NEAR)
        alike = {word: SequenceMatcher(None, asked, word).ratio() for word in close}
        near = {word: LEAST + (1 - LEAST) * share for word, share in alike.items()}
    return near


def _nearness(asked: str, known: str) -> float:
    """Tell how alike two words are: "rus" and "rusty", "layered" and "layers"."""
    if asked == known:
        return SAME
    pairs = zip(asked, known, strict=False)
    shared = sum(1 for _ in takewhile(lambda pair: pair[0] == pair[1], pairs))
    rests = {asked[shared:], known[shared:]}
    if (shared >= STEM and rests <= ENDINGS) or (shared == STEM - 1 and rests == VERBS):
        return KIN
    if len(asked) < SHORT or asked.isdecimal() or not known.startswith(asked):
        return 0.0
    return LEAST + (1 - LEAST) * len(asked) / len(known)


def _rarity(asked: str) -> float:
    """Weigh a word: the fewer cards hold what it means, the more it tells."""
    meant = _meant(asked)
    if FAINT & {asked, *meant}:
        return OF_FAINT
    held = max((_known()[word] for word in meant), default=0)
    return math.log(1 + len(CARDS) / max(held, 1))


def _score(card: Card, asked: Sequence[str]) -> float:
    """Add up what was asked and stands on a card; 0 if that is too little."""
    total, met = 0.0, 0
    telling = [word for word in asked if not (word in FAINT or word.isdecimal())] or asked
    for word in asked:
        meant = _meant(word)
        places = [
            weight * max((how for known, how in meant.items() if known in text), default=0)
            for weight, text in zip(WEIGHTS, _read(card), strict=True)
        ]
        told = max(places) + AGAIN * sum(places)
        total += told * _rarity(word)
        met += told > 0 and word in telling
    if met < ENOUGH * len(telling):
        return 0.0
    return total * (1 + FULLER / max(1, len(_read(card)[0] - SMALL)))


def _found() -> tuple[Card, ...]:
    modules = (f"{__name__}.{found.name}" for found in pkgutil.iter_modules(__path__))
    groups = (getattr(importlib.import_module(name), "CARDS", ()) for name in modules)
    return tuple(
        sorted((one for group in groups for one in group), key=lambda card: card.number)
    )


CARDS = _found()
