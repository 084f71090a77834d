"""Where a student's draft and hand-in are kept: one plain folder, small files, no more.

The folder is `pattern-welding homework` in the user's home, or what the environment
variable ``KIT_HOMEWORK`` names. A draft's file is named by a checksum of course and
student, so that no name, however strange, makes a path.
"""

import hashlib
import os
import re
import unicodedata
from contextlib import suppress
from pathlib import Path

from kit.basics.errors import KitError
from kit.classroom.homework import hand_in
from kit.classroom.homework.hand_in import MOST_TRIES, MOST_WORDS, HandIn
from kit.classroom.homework.paper import Paper, normalised

VARIABLE = "KIT_HOMEWORK"
FOLDER = "pattern-welding homework"
MOST_LETTERS = 30  # of a name in a file's name, ours


def folder() -> Path:
    """Give the folder; it need not be there yet."""
    named = os.environ.get(VARIABLE)
    return Path(named) if named else Path.home() / FOLDER


def mark_of(course: str, student: str) -> str:
    """Give eight letters and figures that stand for a student of a course.

    Examples
    --------
    >>> mark_of("FORGE-A", " student  ONE") == mark_of("FORGE-A", "Student One")
    True
    """
    text = f"{normalised(course)}|{normalised(student)}"
    return hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()[:8]


def hand_in_name(done: HandIn) -> str:
    """Name a hand-in so that a folder of them can be told apart, on any machine.

    One of a practice paper has "practice" in its name.

    Examples
    --------
    >>> hand_in_name(HandIn(course="A", set="H1", student="../Student One"))[:15]
    'H1 student-one '
    """
    bare = unicodedata.normalize("NFKD", normalised(done.student))  # ä is a and two dots
    bare = "".join(sign for sign in bare if not unicodedata.combining(sign))
    plain = re.sub(r"[^a-z0-9]+", "-", bare).strip("-")
    who = plain[:MOST_LETTERS].strip("-")
    code = re.sub(r"[^A-Za-z0-9]", "", done.set)[:8]
    practice = f"practice {done.redraw}" if done.practice else ""
    parts = [code, who, practice, mark_of(done.course, done.student)]
    return " ".join(part for part in parts if part) + ".json"


def handed_in(where: Path, paper: Paper) -> list[HandIn]:
    """Give what lies in a folder as handed in of a student's own paper, not of practice."""
    bare = HandIn(course=paper.course, set=paper.homework.code, student=paper.student)
    found = []
    for path in where.glob(f"{Path(hand_in_name(bare)).stem}*.json"):
        with suppress(KitError):  # of a stranger, or broken
            found.append(hand_in.read(path, paper.course))
    own = bare.set, bare.who, 0
    return [one for one in found if (one.set, one.who, one.redraw) == own]


def draft_path(where: Path, code: str, course: str, student: str, redraw: int) -> Path:
    """Give the path of a student's draft of one paper."""
    fresh = f" fresh {redraw}" if redraw else ""
    return where / f"{code} {mark_of(course, student)}{fresh}.draft"


class Draft:
    """The draft of one paper, kept whole; other windows may work on it, too.

    Parameters
    ----------
    where : Path
        The folder.
    paper : Paper
    """

    def __init__(self, where: Path, paper: Paper) -> None:
        code, redraw = paper.homework.code, paper.redraw
        self.where, self.paper = where, paper
        self.path = draft_path(where, code, paper.course, paper.student, redraw)
        self._last: HandIn | None = None

    def load(self) -> HandIn | None:
        """Give what was kept, or None.

        Raises
        ------
        KitError
            If there is one that cannot be read: it is put aside under another name.
        """
        self._last = None
        if not os.path.lexists(self.path):
            return None
        try:
            found = self._read()
        except KitError as refused:
            aside = unused(self.path.with_name(f"{self.path.stem} unread.draft"))
            self.path.rename(aside)
            msg = f"Your draft cannot be read; it stays as '{aside.name}'. {refused}"
            raise KitError(msg) from None
        self._last = found
        return found

    def save(self, done: HandIn) -> HandIn:
        """Keep a draft: whole, or the one before stays.

        Returns
        -------
        HandIn
            What is kept now: with the answers of another window, if it wrote any since.

        Raises
        ------
        KitError
            If it cannot be written, in one sentence.
        """
        made(self.where)
        there = self._read() if os.path.lexists(self.path) else None
        if there is not None and not same(there, self._last):
            done = merged(self._last, there, done)
        hand_in.write(done, self.path)
        self._last = done
        return done

    def _read(self) -> HandIn:
        found = hand_in.read(self.path, self.paper.course)
        wanted = self.paper.homework.code, self.paper.redraw
        if (found.set, found.redraw) != wanted:
            msg = f"It is of another paper: {found.set}, practice paper {found.redraw}."
            raise KitError(msg)
        return found


def same(one: HandIn, other: HandIn | None) -> bool:
    """Say whether two drafts hold the same, whichever kit wrote them."""
    return other is not None and one.model_copy(update={"kit": other.kit}) == other


def merged(before: HandIn | None, there: HandIn, here: HandIn) -> HandIn:
    """Put together what two windows made of one draft: nothing of either is lost.

    Parameters
    ----------
    before : HandIn or None
        What both began with.
    there, here : HandIn
        What the other window kept, and what this one has.
    """
    begun = len(before.answers) if before else 0
    tries = [*there.answers, *here.answers[begun:]][:MOST_TRIES]
    values = {
        name: getattr(there if _untouched(name, before, here) else here, name)
        for name in ("design", "claims", "ratings", "sheet")
    }
    words = here.words
    if _untouched("words", before, here):
        words = there.words
    elif not _untouched("words", before, there) and there.words != here.words:
        words = f"{there.words}\n\n{here.words}"[:MOST_WORDS]
    fixed = next((one for one in (there, here) if one.ratings), None)
    if fixed:  # the model answers are open there: what was handed in stays
        words, values["claims"] = fixed.words, fixed.claims
    answers = tuple(
        one.model_copy(update={"order": order}) for order, one in enumerate(tries, 1)
    )
    return here.model_copy(update={**values, "words": words, "answers": answers})


def _untouched(name: str, before: HandIn | None, now: HandIn) -> bool:
    begun = (
        getattr(before, name)
        if before
        else HandIn.model_fields[name].get_default(call_default_factory=True)
    )
    return getattr(now, name) == begun


def keep(where: Path, done: HandIn) -> Path:
    """Write a hand-in into the folder: over an older one only if it goes on from that.

    Otherwise it gets a name with a number, and the older one stays.

    Raises
    ------
    KitError
        If it cannot be written, in one sentence.
    """
    made(where)
    path = where / hand_in_name(done)
    if os.path.lexists(path) and not _goes_on(path, done):
        path = unused(path)
    return hand_in.write(done, path)


def _goes_on(path: Path, done: HandIn) -> bool:
    """Say whether a hand-in has all answers of the one that lies there, and more.

    Whom the model answers are open to, who has rated the own one, hands in the same words.
    """
    try:
        older = hand_in.read(path, done.course)
    except KitError:
        return False
    same_words = not older.ratings or older.written == done.written
    return same_words and older.answers == done.answers[: len(older.answers)]


def unused(path: Path) -> Path:
    """Give a name that nothing has: the file's own, or with a number."""
    number, free = 1, path
    while os.path.lexists(free):
        number += 1
        free = path.with_name(f"{path.stem} {number}{path.suffix}")
    return free


def made(where: Path) -> Path:
    """Make the folder if it is not there; `KitError` in one sentence if it cannot be."""
    try:
        where.mkdir(parents=True, exist_ok=True)
    except OSError:
        msg = (
            f"The folder '{str(where)[-60:]}' cannot be made, so nothing is kept there. "
            "Save your hand-in by its link."
        )
        raise KitError(msg) from None
    return where
