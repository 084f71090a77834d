"""Words written by ear: how a spelling sounds, and how far two sounds lie apart.

The rules of spelling are those that every English reading book has (from memory); what an
exchange costs is ours, and is tried in `tests/asked/by_ear.txt`.
"""

import math
import re
from functools import cache

# One sound, many spellings; read in this order. Capitals are sounds of several letters.
_SPELT = tuple(
    (re.compile(spelt), sound)
    for spelt, sound in (
        (r"^on(?=e$|ce$)", "wun"),
        (r"^(?:kn|gn|pn)", "n"),
        (r"^wr", "r"),
        (r"^who", "ho"),
        (r"wh", "w"),
        (r"mb$", "m"),
        (r"(?<=[cw])ould|(?<=^sh)ould", "ud"),
        (r"(?<=[fs])t(?=en|le)", ""),
        (r"ch(?=[lr])", "k"),
        (r"(?:ough|augh|eigh|igh)(?=t)", "o"),
        (r"ough$|ew$", "u"),
        (r"ph|gh$", "f"),
        (r"igh", "i"),
        (r"[st]ion$", "Sun"),
        (r"t?ch|sh", "S"),
        (r"th", "T"),
        (r"dge|dj|j", "J"),
        (r"g(?=e)", "J"),
        (r"ck|qu?", "k"),
        (r"sc(?=[eiy])|c(?=[eiy])|z", "s"),
        (r"c", "k"),
        (r"x", "ks"),
        (r"ture?(?=[ds]?$)", "Sa"),
        (r"^(.*[aeiouy].+)(?:[eaou]r|u?re|our)(?=s?$)", r"\1a"),
        (r"e(?=s$|d$)", ""),
        (r"(?<=[a-zST])e$", ""),
        (r"([a-zJST])\1", r"\1"),
        (r"[aeiouy]+w?(?=[^aeiouy]|$)", lambda found: _VOWELS[found[0][0]]),
    )
)
# "Seat" and "sit", "tool" and "tall": vowels are heard apart least of all.
_VOWELS = {"a": "a", "e": "i", "i": "i", "y": "i", "o": "o", "u": "o"}
_LIGHT = frozenset("aio")  # they cost half
_HEARD_ALIKE = frozenset(
    frozenset(two) for two in ("bp", "dt", "gk", "fv", "sS", "mn", "JS", "gJ", "tT", "fT")
)


@cache
def sound(word: str) -> str:
    """Spell a word as it sounds, roughly.

    Examples
    --------
    >>> sound("knife") == sound("nife"), sound("reel") == sound("real")
    (True, True)
    """
    for spelt, heard in _SPELT:
        word = spelt.sub(heard, word)
    return word


def _costs(sign: str, before: str) -> float:
    """Price a sign that one of two words has too many."""
    return 0.5 if sign in _LIGHT or (sign == "r" and before in _LIGHT) else 1.0


def beginning(heard: str) -> str:
    """Give the first sign of a sound; with which vowel a word begins is heard badly."""
    return heard[:1] if heard[:1] not in _LIGHT else "a"


def apart(one: str, other: str, most: float = math.inf) -> float:
    """Say how far two spellings, or two sounds, lie apart: a sign is 1, a vowel less.

    Parameters
    ----------
    one, other : str
        What is compared.
    most : float
        Farther than this need not be told: then anything above it is given.

    Examples
    --------
    >>> apart("ecth", "etch", 2), apart("rosd", "rost", 2), apart("bil", "bol", 2)
    (0.5, 0.5, 0.5)
    """
    above: list[float] = []
    row = [0.0]
    for place, sign in enumerate(other):
        row.append(row[-1] + _costs(sign, other[place - 1 : place]))
    for down, sign in enumerate(one):
        last, before = row, one[down - 1 : down]
        row = [last[0] + _costs(sign, before)]
        for along, its in enumerate(other):
            changed = _changed(sign, its)
            beside = other[along - 1 : along]
            least = min(
                last[along] + changed,
                last[along + 1] + _costs(sign, before),
                row[along] + _costs(its, beside),
            )
            if sign == beside and its == before and sign != its:
                least = min(least, above[along - 1] + 0.5)
            row.append(least)
        if min(row) > most:
            return min(row)
        above = last
    return row[-1]


def _changed(one: str, other: str) -> float:
    if one == other:
        return 0.0
    return 0.5 if {one, other} <= _LIGHT or frozenset((one, other)) in _HEARD_ALIKE else 1.0
