"""The class at a glance: who, which part, which slip; who is missing, what to repeat."""

import math
import re
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple

from kit.basics.told import counted
from kit.basics.typed import MM_PER_INCH
from kit.classroom.homework.marking import Marks
from kit.classroom.homework.paper import Homework, normalised
from kit.classroom.homework.sets import homework
from kit.classroom.homework.tasks import OR, WRONG_UNIT
from kit.classroom.plans import vote
from kit.course.check import CARRIED, RIGHT
from kit.course.lesson import Idea
from kit.course.map import lesson_of

YES, NO, TO_READ, UNKNOWN = "✓", "–", "to read", "?"
NOT_MET = "not met"
LEGEND = (
    "✓ right; ✓ 2nd: at the second try; carried: the method is right with an earlier "
    "slip's value; 2c: a recognised slip, told below and in the key; unit: the unit is "
    "mistaken; ?: no slip explains it; –: nothing; Design: whether it meets its brief, "
    "and if not, why, below; "
    "Written: how the written answer was rated, of 6."
)
LARGE = 10  # students: in a class as large, what only one gave is counted, not listed
FACTORS = {
    "× 2": 2,
    "× 4": 4,
    "× 8": 8,
    "× 10": 10,
    "× 100": 100,
    "× 1000": 1000,
    "× π": math.pi,
    "× 2π": 2 * math.pi,
    "× √2": math.sqrt(2),
    "× 1.8": 1.8,
    "× 25.4": MM_PER_INCH,
    "× 180/π": 180 / math.pi,
}
WHOLE = {name: factor for name, factor in FACTORS.items() if factor == int(factor)}
NEAR_COUNT = 3  # ours: a count that is off by no more is told by how many
_TAG = re.compile(r"\b\d[a-z]\b")
NEAR = 0.01  # so close to a known factor counts as that
BIN = 0.02  # others are put together that differ by no more than this


class Table(NamedTuple):
    """A class table for one set, ready to be shown or printed.

    Attributes
    ----------
    head : list of str
        With a last column "Set aside" if anything was.
    rows : list of list of str
        A student each, then "right first time" and "commonest slip".
    reteach : list of str
        The slips, commonest first, with lesson and vote.
    named : list of str
        What the other slips in the table are.
    clusters : list of str
        Wrong answers that no slip explains, together by their ratio to the right one.
    designs : list of str
        What came of each design that does not meet its brief, and what is asked.
    """

    head: list[str]
    rows: list[list[str]]
    reteach: list[str]
    named: list[str]
    clusters: list[str]
    designs: list[str]


def class_table(marks: Iterable[Marks], code: str, aside: Iterable[Marks] = ()) -> Table:
    """Make the table of one set.

    Parameters
    ----------
    marks : iterable of Marks
        As `marking.mark_folder` gives them; other sets are left out.
    code : str
        "H1" …
    aside : iterable of Marks
        What does not count: it is told of beside what does.

    Raises
    ------
    KitError
        If there is no such set.
    """
    task = homework(code)
    here = [one for one in marks if one.done.set == code]
    parts = [part.number for part in task.parts]
    rows = [_row(one, parts) for one in here]
    if here:
        rows += [_first_time(here, parts), _commonest(here, parts)]
    told = reteach(here, task)
    named = _named(rows, told, task)
    head = ["Student", *map(str, parts), "Design", "Written", "Score"]
    others = _others(aside, code)
    if others:
        head.append("Set aside")
        whose = [others.get(one.done.who, "") for one in here]
        whose += [""] * (len(rows) - len(here))
        rows = [[*row, other] for row, other in zip(rows, whose, strict=True)]
    missed = [one for one in here if _design(one) == NOT_MET]
    designs = [f"{one.done.student}: {one.design.reason}" for one in missed]
    return Table(head, rows, told, named, clusters(here, task), designs)


def _others(aside: Iterable[Marks], code: str) -> dict[str, str]:
    """Say by student what was set aside: marks, and on which paper."""
    told: dict[str, list[str]] = {}
    for one in aside:
        if one.done.set == code:
            told.setdefault(one.done.who, []).append(one.stands)
    return {who: "; ".join(some) for who, some in told.items()}


def cell(one: Marks, number: int) -> str:
    """Say how a part stands: ✓, ✓ 2nd, carried, a slip's tag, unit, ? or –."""
    result = one.results.get(number)
    if result is None:
        return NO
    if result.found.outcome == CARRIED:
        return "carried"
    if result.found.outcome == RIGHT:
        return YES if result.tries == 1 else f"{YES} {_nth(result.tries)}"
    return one.paper.homework.part(number).tags(result.found) or UNKNOWN


def _nth(number: int) -> str:
    last, tens = number % 10, number % 100 // 10
    ending = {1: "st", 2: "nd", 3: "rd"}.get(last, "th") if tens != 1 else "th"
    return f"{number}{ending}"


def _row(one: Marks, parts: Sequence[int]) -> list[str]:
    read = f"{sum(one.read)}/6" if one.read else TO_READ if one.done.written else NO
    return [
        one.done.student,
        *(cell(one, number) for number in parts),
        _design(one),
        read,
        f"{one.score:.3g}/{one.most}",
    ]


def _design(one: Marks) -> str:
    if one.design.passed:
        return YES
    return NOT_MET if one.done.design else NO


def _first_time(here: Sequence[Marks], parts: Sequence[int]) -> list[str]:
    """Give the share of the class that had each part right at the first try."""
    shares = [
        _share(sum(cell(one, number) == YES for one in here), len(here)) for number in parts
    ]
    design = _share(sum(one.design.passed for one in here), len(here))
    return ["right first time", *shares, design, "", ""]


def _commonest(here: Sequence[Marks], parts: Sequence[int]) -> list[str]:
    cells = []
    for number in parts:
        found = _slips(here, number).most_common(1)
        cells.append(f"{found[0][0]} {_share(found[0][1], len(here))}" if found else "")
    return ["commonest slip", *cells, "", "", ""]


def _slips(here: Sequence[Marks], number: int) -> Counter[str]:
    """Count the students that a slip got: at any try, one who found out later, too."""
    counted: Counter[str] = Counter()
    for one in here:
        part = one.paper.homework.part(number)
        tags = {part.tags(found) for found in one.wrong.get(number, ())} - {""}
        counted.update(sorted(tags))
    return counted


def _share(some: int, whole: int) -> str:
    """Give a share of a class; one student is none.

    Examples
    --------
    >>> _share(1, 1), _share(1, 4)
    ('1 of 1', '25 %')
    """
    if whole == 1:
        return f"{some} of {whole}"
    return f"{100 * some / whole:.0f} %"


def reteach(here: Sequence[Marks], task: Homework) -> list[str]:
    """Say what to teach again, commonest first: by cause, not by score."""
    found: Counter[tuple[int, str]] = Counter()
    for part in task.parts:
        for tags, count in _slips(here, part.number).items():
            found[part.number, tags] += count
    ideas = _ideas(task)
    lines: list[str] = []
    known: set[str] = set()
    for (number, tags), count in found.most_common():
        if count < _least(here):
            continue
        if tags == WRONG_UNIT:
            told = f"they mistake the unit of part {number}. Say units with the number."
        else:
            some = [ideas[tag] for tag in tags.split(OR)]
            named = ", or ".join(dict.fromkeys(idea.name for idea in some))
            numbers = dict.fromkeys(idea.lesson for idea in some)
            where = " ".join(_where(number, known) for number in numbers)
            told = f"they {named} ({tags}). {where}"
        lines.append(f"{_share(count, len(here))}: {told}")
    return lines


def _ideas(task: Homework) -> dict[str, Idea]:
    """Give the ideas of a set by their tags."""
    return {part.tag(idea): idea for part in task.parts for idea in part.slips}


def _named(rows: Sequence[Sequence[str]], told: Sequence[str], task: Homework) -> list[str]:
    """Say what those tags in a table stand for that are not told of already."""
    met = {tag for row in rows for cell in row[1:] for tag in _TAG.findall(cell)}
    known = {tag for line in told for tag in _TAG.findall(line.partition("). ")[0])}
    ideas = _ideas(task)
    return [f"{tag}: they {ideas[tag].name}." for tag in sorted(met - known)]


def _least(here: Sequence[Marks]) -> int:
    return 2 if len(here) >= LARGE else 1


def _where(number: str, known: set[str]) -> str:
    """Name a lesson and, the first time, what a class votes on in it."""
    if number in known:
        return f"Lesson {number}, as above."
    known.add(number)
    return f"Lesson {number}, {lesson_of(number).title}; its vote: “{vote(number)}”"


def clusters(here: Sequence[Marks], task: Homework) -> list[str]:
    """Put wrong answers that no slip explains together by their ratio to the right one."""
    lines, single = [], 0
    for part in task.parts:
        if part.options:
            continue
        grouped: Counter[str] = Counter()
        name = count_name if part.kind == "count" else ratio_name
        for one in here:
            right = part.answer(one.paper.values)
            for found in one.wrong.get(part.number, ()):
                if not found.code:
                    grouped[name(found.answer, right)] += 1
        lines += [
            f"Part {part.number}, {how}: {counted(count, 'answer')}"
            for how, count in grouped.most_common()
            if count >= _least(here)
        ]
        single += sum(count < _least(here) for count in grouped.values())
    if single:
        lines.append(f"{single} more, each given once.")
    return lines


def count_name(answer: float, right: float) -> str:
    """Name what a count is of the right one: so many too many, or so many times.

    Examples
    --------
    >>> count_name(6, 5), count_name(3, 5), count_name(1280, 640)
    ('1 too many', '2 too few', '× 2')
    """
    off = answer - right
    if abs(off) <= NEAR_COUNT:
        return f"{abs(off):g} too {'many' if off > 0 else 'few'}"
    return ratio_name(answer, right, WHOLE)


def ratio_name(answer: float, right: float, factors: Mapping[str, float] = FACTORS) -> str:
    """Name what an answer is of the right one.

    Examples
    --------
    >>> ratio_name(62.8, 20), ratio_name(5, 20), ratio_name(13, 20)
    ('× π', '/ 4', '× 0.65')
    """
    if answer == 0 or right == 0 or (answer < 0) != (right < 0):
        return "nothing, or of the other sign"
    ratio = answer / right
    for name, factor in factors.items():
        if abs(ratio / factor - 1) <= NEAR:
            return name
        if abs(ratio * factor - 1) <= NEAR:
            return name.replace("×", "/", 1)
    step = math.log1p(BIN)
    return f"× {math.exp(round(math.log(ratio) / step) * step):.3g}"


def missing(
    marks: Iterable[Marks], code: str, students: Iterable[str]
) -> tuple[list, list]:
    """Give who of a roster handed in nothing of a set, and who is not on the roster.

    Returns
    -------
    gone, strange : list of str
    """
    on_it = {normalised(name): name for name in students}
    there = {one.done.who: one.done.student for one in marks if one.done.set == code}
    gone = [name for who, name in on_it.items() if who not in there]
    return gone, [name for who, name in there.items() if who not in on_it]
