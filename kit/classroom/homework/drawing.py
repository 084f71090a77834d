"""A student's own values: drawn from the name, the same on every machine for ever.

SHA-256 (FIPS 180-4) of `course|set|student|redraw` is one large number; values are read
off it as digits, each in the base of its own short list of workshop sizes. Neither
Python's `hash()`, which changes from run to run, nor a random generator, whose stream
may change from version to version.
"""

import hashlib
import unicodedata
from collections.abc import Mapping, Sequence
from functools import lru_cache

from kit.basics.errors import KitError

MOST_LETTERS = 80  # of a name, ours
MOST_REDRAWS = 999  # papers a student can ask for
ATTEMPTS = 1000  # that each of them may take

Sizes = Mapping[str, Sequence[float]]


@lru_cache(maxsize=4096)
def normalised(student: str) -> str:
    """Bring a name to one spelling: case, kinds of letters and spaces do not count.

    Examples
    --------
    >>> normalised("  STUDENT   one ")
    'student one'
    """
    folded = unicodedata.normalize("NFKC", student).casefold()
    return " ".join(unicodedata.normalize("NFKC", folded).split())


def checked_name(what: str, name: object) -> str:
    """Give a course's or a student's name back as it was typed.

    Raises
    ------
    KitError
        If it is empty, longer than 80 letters, or has signs that cannot be printed.
    """
    if not isinstance(name, str) or len(name) > MOST_LETTERS:
        msg = f"{what} must be text of at most {MOST_LETTERS} letters."
        raise KitError(msg)
    if not normalised(name) or not all(map(_is_of_a_name, name.strip())):
        msg = f"{what} needs at least one letter or figure, and no line breaks or tabs."
        raise KitError(msg)
    return name


def _is_of_a_name(sign: str) -> bool:
    """Say whether a sign can be part of a name; some scripts join letters by a sign."""
    spaced = unicodedata.category(sign) == "Zs"
    return sign.isprintable() or spaced or sign in "\u200c\u200d"


def checked_course(course: object) -> str:
    """Give a course code, without spaces around it; `KitError` if it can be none."""
    name = checked_name("The course code", course)
    if "|" in name:
        msg = f"The course code cannot have a '|'. Given: {name[:40]!r}."
        raise KitError(msg)
    return name.strip()


def checked_redraw(redraw: object) -> int:
    """Give the number of a practice paper; `KitError` if it is none from 0 to 999."""
    whole = isinstance(redraw, int) and not isinstance(redraw, bool)
    if not whole or not 0 <= redraw <= MOST_REDRAWS:
        msg = f"A practice paper's number is a whole one from 0 to {MOST_REDRAWS}."
        raise KitError(msg)
    return redraw


def drawn(
    sizes: Sizes, course: str, code: str, student: str, redraw: int
) -> dict[str, float]:
    """Pick one value from each list.

    Parameters
    ----------
    sizes : mapping
        From a name to the workshop sizes it may have.
    course, code, student : str
        The set's code is such as "H1". Case and spaces do not count in a course's code
        or a student's name.
    redraw : int
        0 for the first.
    """
    text = f"{normalised(course).upper()}|{code}|{normalised(student)}|{redraw}"
    digest = hashlib.sha256(text.encode("utf-8", "surrogatepass")).digest()
    left = int.from_bytes(digest, "big")
    values = {}
    for name, choices in sizes.items():
        left, place = divmod(left, len(choices))
        values[name] = float(choices[place])
    return values
