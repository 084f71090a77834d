"""The questions that visitors and students ask, each as a card that can be searched.

The room to the right of the lessons: a card's picture is a lesson's scene, or a drawing of
its own, and its number is worked out by the kit for the lessons' own examples. A module in
this folder that has `CARDS` is found by itself.
"""

import importlib
import math
import pkgutil
import re
import unicodedata
from collections import Counter
from collections.abc import Iterable
from functools import cache, lru_cache
from itertools import pairwise
from pathlib import Path
from textwrap import shorten

from kit.course.questions.by_ear import apart, beginning, sound
from kit.course.questions.card import Card, Measures, Told, drawn

__all__ = [
    "CARDS",
    "LONGEST",
    "Card",
    "Measures",
    "Told",
    "drawn",
    "find",
    "nearest",
    "said",
    "suggest",
]

LONGEST = 200  # signs of a search that are read
MOST_SAID = 60  # and of them that are said again
# Small words say nothing; alone they are looked for like any other.
_SMALL = """
a about also am an and any are as at be been being but by can cant could couldnt d did
didnt do does doesn doesnt don done dont get gets getting go goes going got had happen
happened happens has hasnt have havent having he her him here his hows i id if im in is
isn isnt it its ive just let ll m may me might mine my no not of on one ones or our ours
please re really s shall she should shouldn so some somebody someone something such t than
that thats the their them then there these they theyre thing things this those to us ve
very was wasnt we were whats wheres whether while whose will would wont wouldnt yes you
your youre yours
"""
SMALL = frozenset(_SMALL.split())
# Small words that point at the work, and the names of it: who asks so asks about it.
_POINTING = "it its one ones that thats these they them theyre this those"
POINTING = frozenset(_POINTING.split())
_NAMES = "damascus knife blade steel pattern layer bar billet sword"
# What every card is about, and what people say about anything, tells little.
_FAINT = """
damascus knife blade steel pattern many much number use
able actually after again ago all almost always another anything ask away back bad
because before believe best better big bit buy call come day different down else even
ever every everything few find first for friend from give good great guy help how
idea into keep kind know last later less like little long look lot make maybe mean more
most must near nearly need never new nice normal now off often old only other out over
own part people put question quite right said same saw say see seem since soon sort
still stuff sure take tell think though through time today too try two type under up
usual want way well what when where which who why with without wonder work wrong year
yet
"""
# Words that people use for one another, or for the lack of it, and forms with no stem in
# common.
_ALIKE = """
make made create produce built, buy bought purchase, wear wore worn, grind ground,
break broke broken snap shatter, tell told, hold held, keep kept, take took taken,
come came, sell sold, know known knew, fall fell fallen, bend bent, stick stuck, see seen,
saw sawn, draw drew drawn, lose lost vanish disappear gone missing, steel metal,
pattern design picture image motif, knife knives blade, line stripe streak,
wave wavy swirl squiggle squiggly, bright shiny silver silvery gleam shine, dark black,
money euro dollar buck cash quid, expensive dear pricey costly, cheap inexpensive bargain,
fake counterfeit imitation replica phony, cheat scam fraud swindle,
join connect bond attach, crack gap fissure, beautiful pretty lovely,
strong strength tough durable robust sturdy weak weakness flimsy feeble,
old ancient historic historical medieval,
begin start beginner novice newcomer newbie, wet damp moist,
ruin spoil damage destroy harm hurt wreck, same identical equal, middle centre center,
choose choice pick select, smith blacksmith bladesmith craftsman,
restore repair mend renew refresh fix, colour color, grey gray, circle ring,
space universe cosmos, market online internet shop web, hour day week month weekend,
afraid scared worried, permanent forever
"""
ENDING = re.compile(r"(?:ings?|est|ed|ers?|e?s|ly|e)$")
STEM = 3  # letters of a stem, at least
SHORT = 2  # and of a word cut short
# How much a word weighs by where it stands: question, keywords; belief, answer, breath.
WEIGHTS = (2.0, 1.0, 0.1, 0.1, 0.1)
HALF = 1.0  # standing so often on a card tells half of what ever so often tells
PAIR = 0.5  # of it, for two words side by side, too
OF_FAINT = 0.5  # of what another word as rare tells
LEAST = 0.5  # of it, at least, for a word cut short
ENOUGH = 0.33  # of what was asked must stand on a card that answers
ENOUGH_ELSEWHERE = 0.65  # of it, where the question points at nothing of ours
STORY = 8.0  # so much is asked at most: the rest of a long story goes unanswered
BESIDE = 0.3  # of the best card's score: less is not listed
NAMED = 3  # cards that touch what was asked are named, where none answers
# Words of every day that stand on no card, ours: they are not misspelt ones of ours.
EVERYDAY = frozenset((Path(__file__).parent / "everyday.txt").read_text("utf-8").split())
OFTEN_SAID = SMALL.union(_FAINT.split())
ENDINGS = ("s", "es", "ed", "ing")
APART = (0.0, 0.0, 0.0, 0.5, 0.5, 1.0, 1.0, 1.0, 1.5)  # at most, by signs of the sound
SPELT = 0.3  # of how far the spellings lie apart, beside the sounds
COMMON = 0.1  # how far a word that is ten times as common may lie behind, by 2.3
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
        little of what was asked stands on any card; more must, if it neither points at
        the work ("it", "this") nor names it ("knife", "layers").

    Examples
    --------
    >>> [card.number for card in find("FAKE spine")][0]
    9
    >>> len(find("")) == len(CARDS), find("zebra")
    (True, [])
    """
    plain = _asked(words)
    # words alone, with no small ones between, are looked up and ask nothing
    ours = POINTING.intersection(plain) or any(
        NAMES & {*_meant(one)} for one in _stems(plain)
    )
    return _best(words, ENOUGH if ours or SMALL.isdisjoint(plain) else ENOUGH_ELSEWHERE)


def nearest(words: str) -> list[Card]:
    """Give the few cards that touch a question which none answers, nearest first.

    Examples
    --------
    >>> nearest("zebra"), nearest("a bronze bell")[0] in CARDS
    ([], True)
    """
    return _best(words, 0.0)[:NAMED]


def _best(words: str, enough: float) -> list[Card]:
    asked = list(dict.fromkeys(_stems(_asked(words))))  # sums in one order: ties stay
    if not asked:
        return list(CARDS)
    scores = {card.number: _score(card, asked) for card in CARDS}
    best = max(scores.values())
    wanted = min(STORY, sum(_rarity(term) for term in asked))
    least = max(BESIDE * best, enough * wanted)
    found = [card for card in CARDS if scores[card.number] > least]
    return sorted(found, key=lambda card: (-scores[card.number], card.number))


def said(words: str) -> str:
    """Say again what was asked, in whole words and not at length.

    Examples
    --------
    >>> said("  is it  real ")
    'is it real'
    """
    return shorten(words[:LONGEST], MOST_SAID, placeholder=" …")


def suggest(words: str) -> str:
    """Say that no card answers, and what to do instead.

    Examples
    --------
    >>> suggest("zebra")
    'No card answers “zebra”: try layers or fake or rust or temperature, or fewer words.'
    """
    if near := nearest(words):
        listed = "The nearest is listed" if len(near) == 1 else "The nearest are listed"
        return f"No card answers “{said(words)}”. {listed}; none is open."
    return f"No card answers “{said(words)}”: try {' or '.join(TRY)}, or fewer words."


def _bare(word: str) -> str:
    """Take endings off: "layered" and "layers" are one word, "start" is not "stars"."""
    for _ in range(2):
        bare = re.sub(r"([bdfglmnprt])\1$", r"\1", ENDING.sub("", word))
        word = bare if len(bare) >= STEM else word
    return word


_GROUPS = [[_bare(word) for word in group.split()] for group in _ALIKE.split(",")]
ALIKE = {word: group[0] for group in _GROUPS for word in group}
FAINT, NAMES = (
    frozenset(ALIKE.get(_bare(word), _bare(word)) for word in words.split())
    for words in (_FAINT, _NAMES)
)


def _asked(text: str) -> list[str]:
    """Read what was typed: a word that is none is taken for the one that it sounds like.

    Only the last may be cut short, for who types on has ended the others: then it is taken
    for none but a small word.
    """
    words = words_of(text[:LONGEST])
    return [_heard(word, last=place == len(words)) for place, word in enumerate(words, 1)]


@cache
def _spelt_right() -> Counter[str]:
    """Count how often each word stands on the cards; and what else people say."""
    told = [word for card in CARDS for text in card.texts for word in words_of(text)]
    return Counter([*told, *SMALL, *_FAINT.split(), *words_of(_ALIKE), *EVERYDAY])


@cache
def _sounding() -> dict[str, list[tuple[str, str]]]:
    """Sort the words by how their sound begins."""
    begun: dict[str, list[tuple[str, str]]] = {}
    for word in _spelt_right():
        begun.setdefault(beginning(sound(word)), []).append((word, sound(word)))
    return begun


def _is_word(word: str) -> bool:
    """Tell whether a word is one, or one with an ending, that need not be misspelt."""
    known, bare = _spelt_right(), _bare(word)
    if word in known or any(word + ending in known for ending in ENDINGS):
        return True
    return bare != word and (bare in _known() or bare in ALIKE or bare in EVERYDAY)


@lru_cache(maxsize=512)
def _heard(word: str, *, last: bool) -> str:
    """Give the word that one sounds like, if any; a common one before a rare."""
    if not word.isalpha() or len(word) < SHORT or _is_word(word):
        return word
    cut = last and any(one.startswith(word) for one in _spelt_right())
    heard = sound(word)
    most = 0.0 if cut else APART[min(len(heard), len(APART) - 1)]
    costs = {word: math.inf}
    for one, its in _sounding().get(beginning(heard), ()):
        if cut and one not in OFTEN_SAID:
            continue
        far = apart(heard, its, most)
        spelt = apart(word, one, most if far > most else math.inf)
        if min(far, spelt) <= most:
            costs[one] = far + SPELT * spelt - COMMON * math.log(_spelt_right()[one])
    return min(costs, key=costs.__getitem__)


def _terms(text: str) -> list[str]:
    """Give the stems of the words that tell, and of each two that stand side by side."""
    return _stems(words_of(text))


def _stems(words: list[str]) -> list[str]:
    kept = [_bare(word) for word in words if word not in SMALL] or words
    stems = [ALIKE.get(word, word) for word in kept]
    return [*stems, *(" ".join(pair) for pair in pairwise(stems))]


@cache
def _read(card: Card) -> Counter[str]:
    """Weigh the terms of a card by where, and how often, they stand there."""
    held: Counter[str] = Counter()
    for weight, text in zip(WEIGHTS, card.texts, strict=True):
        for phrase in text.split(","):
            for term in _terms(phrase):
                held[term] += weight
    return held


@cache
def _known() -> Counter[str]:
    """Count the cards that hold each term; one in prose only counts little."""
    known: Counter[str] = Counter()
    for card in CARDS:
        known.update({term: min(1, weight) for term, weight in _read(card).items()})
    return known


@lru_cache(maxsize=512)
def _meant(term: str) -> dict[str, float]:
    """Give the cards' terms that a typed one may mean, and how near each is."""
    known = _known()
    if known[term] >= 1 or " " in term or len(term) < SHORT or term.isdecimal():
        return {term: 1.0}
    longer = [word for word in known if word.startswith(term) and " " not in word]
    return {word: LEAST + (1 - LEAST) * len(term) / len(word) for word in longer}


def _rarity(term: str) -> float:
    """Weigh a term: the fewer cards hold what it means, the more it tells."""
    held = max((_known()[word] for word in _meant(term)), default=0)
    if not held and (" " in term or term.isdecimal()):
        return 0.0
    told = math.log(1 + len(CARDS) / max(held, 1))
    faint = OF_FAINT if FAINT.issuperset(term.split()) else 1.0
    return told * faint * (PAIR if " " in term else 1.0)


def _score(card: Card, asked: Iterable[str]) -> float:
    """Add up what was asked and stands on a card."""
    held, total = _read(card), 0.0
    for term in asked:
        there = [
            near * held[word] / (held[word] + HALF) for word, near in _meant(term).items()
        ]
        total += max(there, default=0) * _rarity(term)
    return total


def _found() -> tuple[Card, ...]:
    modules = (f"{__name__}.{found.name}" for found in pkgutil.iter_modules(__path__))
    groups = (getattr(importlib.import_module(name), "CARDS", ()) for name in modules)
    return tuple(
        sorted((one for group in groups for one in group), key=lambda card: card.number)
    )


CARDS = _found()
