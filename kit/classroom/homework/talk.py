"""What to talk about with whom: reasons for a talk, and none of them a proof."""

import re
from collections import Counter, defaultdict
from collections.abc import Iterable, Sequence
from itertools import combinations

from kit.basics.errors import KitError
from kit.basics.told import counted
from kit.basics.typed import MM_PER_INCH
from kit.basics.units import Units
from kit.classroom.homework.marking import Marked, Marks

NO_PROOF = "Reasons for a talk, and no proof."
MODEL = "the kit's model answer"
LEAST_PARTS = 3  # so many same answers to other values are no accident, ours
LEAST_WORDS = 8  # of a sentence: shorter ones two people may well write, ours
MOST_NAMES = 8  # ours: more are counted
FINEST = (0.1, MM_PER_INCH / 64)  # mm that a ruler can show, ours
NEAR = 0.0005 * MM_PER_INCH  # mm, of a fraction rounded to thousandths: 0.203 in is 13/64
_SENTENCE = re.compile(r"[.!?;\n]+")
_WORD = re.compile(r"\w+")


def talk(marked: Marked) -> list[str]:
    """Say what to talk about with whom, in a line each; also who practised."""
    by_set = defaultdict(list)
    for one in marked.marks:
        by_set[one.done.set].append(one)
    lines = []
    for code, here in sorted(by_set.items()):
        told = [*_same_answers(here), *_same_words(here), *_ruler(here)]
        lines += [f"{code}: {line}" for line in told]
    return lines + _practised(one for one in marked.aside if one.done.practice)


def _same_answers(here: Sequence[Marks]) -> list[str]:
    """Find answers that are another's, word for word, where other values were given."""
    given: dict[tuple[int, str], list[int]] = defaultdict(list)
    for place, one in enumerate(here):
        last = {answer.part: answer.text.strip() for answer in one.done.answers}
        for number, text in last.items():
            given[number, text].append(place)
    same: Counter[tuple[int, int]] = Counter()
    for (number, text), places in given.items():
        for one, other in combinations(places, 2):
            if text and _asked_otherwise(here[one], here[other], number):
                same[one, other] += 1
    pairs = [pair for pair, count in same.items() if count >= LEAST_PARTS]
    lines = []
    for group in _joined(pairs):
        parts = max(same[pair] for pair in pairs if pair[0] in group)
        lines.append(
            f"{named(here[at].done.student for at in sorted(group))} gave the same answers "
            f"to {parts} parts, though their papers have different values."
        )
    return lines


def _asked_otherwise(one: Marks, other: Marks, number: int) -> bool:
    """Say whether a part has another right answer on the other paper."""
    try:
        part = one.paper.homework.part(number)
    except KitError:
        return False
    right, its = (part.answer(given.paper.values) for given in (one, other))
    return part.answers.apart(right, its)


def _joined(pairs: Iterable[tuple[int, int]]) -> list[set[int]]:
    """Put pairs that share somebody together."""
    groups: list[set[int]] = []
    for pair in pairs:
        met = [group for group in groups if group & set(pair)]
        groups = [group for group in groups if group not in met]
        groups.append(set(pair).union(*met))
    return groups


def _same_words(here: Sequence[Marks]) -> list[str]:
    """Find whole sentences that several wrote, or that stand in a model answer."""
    wrote: dict[str, set[str]] = defaultdict(set)
    for one in here:
        judged, values = one.paper.homework.judged, one.paper.values
        for model in judged.models(values, Units.MM)[1:]:
            for sentence in sentences(model):
                wrote[sentence].add(MODEL)
        for sentence in sentences(one.done.words):
            wrote[sentence].add(one.done.student)
    found: dict[frozenset[str], str] = {}
    for sentence, who in wrote.items():
        group = frozenset(who)
        if len(who) > 1 and len(sentence) > len(found.get(group, "")):
            found[group] = sentence
    return [
        f"{named(sorted(group))} share a sentence: “{_cut(sentence)}”."
        for group, sentence in sorted(found.items(), key=lambda one: -len(one[0]))
    ]


def sentences(text: str) -> list[str]:
    """Give the sentences that are long enough to be somebody's own, without signs.

    Examples
    --------
    >>> sentences("No. The bands are twice as wide, as they are CUT on a slant!")
    ['the bands are twice as wide as they are cut on a slant']
    """
    parts = (_WORD.findall(part.casefold()) for part in _SENTENCE.split(text))
    return [" ".join(words) for words in parts if len(words) >= LEAST_WORDS]


def _cut(words: str) -> str:
    told = words if len(words) <= 60 else f"{words[:60].rsplit(' ', 1)[0]} …"
    return told[0].upper() + told[1:]


def _ruler(here: Sequence[Marks]) -> list[str]:
    """Find lengths said to be read off a ruler that are finer than a ruler shows."""
    who: dict[str, list[str]] = defaultdict(list)
    for one in here:
        last = {answer.part: answer for answer in one.done.answers if answer.measured}
        for number, answer in last.items():
            try:
                part = one.paper.homework.part(number)
                length = part.read(answer.text, answer.units)
            except KitError:
                continue
            if part.is_length and finer_than_a_ruler(length):
                who[one.done.student].append(f"{answer.text.strip()[:20]} (part {number})")
    return [
        f"{named((student,))}: said to be read off a ruler, and finer than one shows: "
        f"{', '.join(texts)}."
        for student, texts in who.items()
    ]


def finer_than_a_ruler(length: float) -> bool:
    """Say whether a length in mm lies on no line of a ruler, in mm or in inches.

    Examples
    --------
    >>> finer_than_a_ruler(5.2), finer_than_a_ruler(25.4 * 3 / 16), finer_than_a_ruler(5.23)
    (False, False, True)
    """
    near = ((0.001, FINEST[0]), (NEAR, FINEST[1]))
    return all(abs(length - round(length / step) * step) > off for off, step in near)


def _practised(practice: Iterable[Marks]) -> list[str]:
    """Say who practised, on how many papers; it is set aside and never counted."""
    papers: dict[tuple[str, str], list[Marks]] = defaultdict(list)
    for one in practice:
        papers[one.done.set, one.done.who].append(one)
    lines = []
    for (code, _who), some in sorted(papers.items()):
        told = ", ".join(one.stands.removeprefix("practice ") for one in some[:MOST_NAMES])
        lines.append(
            f"{code}: {named((some[0].done.student,))} practised, never counted: "
            f"{counted(len(some), 'paper')} ({told})."
        )
    return lines


def named(students: Iterable[str]) -> str:
    """Name students; of many the first, and how many more."""
    names = list(students)
    told = ", ".join(repr(name) if name != MODEL else name for name in names[:MOST_NAMES])
    more = len(names) - MOST_NAMES
    return f"{told} and {more} more" if more > 0 else told
