"""Dents in the faces of a bar, and how metal moves when they come or go.

One map serves both ways. It takes a bar with dents to the same metal as a flat bar:
every column of metal between the two faces is squeezed or stretched as a whole, and
moves aside so that its volume stays. Cutting hollows and forging the bar flat is this
map; pressing dents into a flat bar is its undoing.
"""

import math
from collections.abc import Callable
from dataclasses import astuple, dataclass
from functools import cached_property, lru_cache
from typing import NamedTuple

import numpy as np

from kit.forge.steps.base import Points
from kit.forge.steps.by_hand import chance
from kit.forge.steps.marks import Line, Mark, Summed

ROWS = math.sqrt(3) / 2  # between rows of a triangular grid, in spacings
NEWTON_TURNS = 30  # at most; a few are enough
# ours: turns drawn, and how far on in them other rows and the other face are
TURNS, OTHER_ROW, OTHER_FACE = 1024, 97, 1012
ROW_PLACES = 1024  # ours: of a row, solved for a picture; between two it is straight
LINES = 4000  # over half of the bar, to add up the volume of its hollows


@lru_cache(maxsize=16)
def _turns(seed: int, many: int, kind: np.dtype) -> tuple[np.ndarray, np.ndarray]:
    """Shuffle so many marks again and again: whose turn it is, and how often each was.

    Each comes once in every round, so no sum runs off: how often is told as what it was
    above its share, up to the middle of the mark whose turn it is.
    """
    draw = chance(seed)
    rounds = [sorted(range(many), key=lambda _: draw()) for _ in range(TURNS // many)]
    place, lie = np.arange(many)[:, None], np.argsort(rounds)[:, None]
    more = (np.sign(place - lie) + 1) / 2 - (place + 0.5) / many
    return np.ravel(rounds), more.reshape(-1, many).T.astype(kind)


class Cut(NamedTuple):
    """Lines along the bar, `beside` the middle of a row: its marks there, and their mean.

    `lines` are those of the marks, `chord` is their mean depth summed up, mm².
    """

    beside: np.ndarray
    lines: list[Line]
    chord: np.ndarray | float


class Depth(NamedTuple):
    """How deep the dents of both faces are at some places.

    Attributes
    ----------
    total : array
        Of both faces together, mm.
    middle : array
        How far the middle between the faces is above the bar's, mm.
    summed : array
        `total`, summed up from the middle of the nearest dent, mm².
    """

    total: np.ndarray
    middle: np.ndarray
    summed: np.ndarray


@dataclass(frozen=True)
class Dents:
    """Marks on one or both faces, in a triangular grid or in a ladder.

    Parameters
    ----------
    marks : tuple of Mark
        One, or as many as a tool leaves that is sunk now less deep, now deeper, the
        deepest last: each comes once in every round of them along the bar, in shuffled
        turns.
    spacing : float
        From mark to mark along the bar, mm; the first is half of it from the end.
    faces : str
        "top", "bottom", "opposite" (both, mark above mark) or "staggered" (both, those
        below half a spacing further).
    seed : int
        Another number, other turns.
    """

    marks: tuple[Mark, ...]
    spacing: float
    faces: str
    seed: int = 0

    @property
    def in_rows(self) -> bool:
        """Whether many lie beside each other across the bar."""
        return self.marks[0].rows

    @cached_property
    def each(self) -> float:
        """Volume of one hollow, the mean of them, mm³."""
        return sum(mark.volume for mark in self.marks) / len(self.marks)

    @property
    def sides(self) -> int:
        """How many faces have marks."""
        return 1 if self.faces in ("top", "bottom") else 2

    @property
    def deepest(self) -> float:
        """The most that both faces together are dented at one place, mm."""
        if self.faces == "opposite":
            return 2 * self.marks[-1].depth
        if self.faces == "staggered":
            between = self.marks[-1].line(np.zeros(1)).at(np.array([self.spacing / 4]))
            return max(self.marks[-1].depth, 2 * float(between[0][0]))
        return self.marks[-1].depth

    def mean(self, width: float) -> float:
        """Depth of the dents spread evenly over a bar, mm."""
        summed, _ = self._summed(*self._row(np.array(width / 2)))
        return float(summed) / (width / 2)

    def faces_met(self, length: float, width: float) -> tuple[bool, bool]:
        """Tell whether top and bottom of a bar, so long and wide in mm, have a hollow."""
        radius = self.marks[-1].radius
        beside = self.in_rows and ROWS * self.spacing - radius < width / 2
        # the nearest hollow is half a spacing from the end, or half over it
        inside = self.spacing / 2 < length + radius
        top = self.faces != "bottom" and (inside or beside)
        bottom = self.faces != "top" and (inside or beside or self.faces == "staggered")
        return top, bottom

    def volume(self, length: float, width: float) -> float:
        """Volume of all hollows on a bar, mm³: those that hang over its end in part.

        Line by line along the bar the sum is exact; the lines are added up.
        """
        y = (np.arange(LINES) + 0.5) * (width / 2 / LINES)
        row, beside = self._row(y)
        cut = self._cut(beside)
        start, end = (np.full(LINES, place) for place in (0.0, float(length)))
        ends = [self._since_first(cut, place, row) for place in (start, end)]
        return float(np.mean(ends[1] - ends[0])) * width

    def _since_first(self, cut: Cut, x: np.ndarray, row: np.ndarray | int) -> np.ndarray:
        """Sum the depth along each line up to x, from the middle of its first mark."""
        along, mark = self._nearest(x, row)
        number = mark - row * OTHER_ROW
        return self._depth(cut, along, mark).summed + number * cut.chord * self.sides

    def flatten(self, points: Points, dented: float, flat: float) -> Points:
        """Move points of a bar `dented` mm thick to the bar `flat` mm thick."""
        x, y, z = points
        row, beside = self._row(y)
        cut = self._cut(beside)
        along, mark = self._nearest(x, row)
        depth = self._depth(cut, along, mark)
        mean = cut.chord * (self.sides / self.spacing)
        aside = (mean * along - depth.summed) / (dented - mean)
        return (
            x + aside,
            (y * dented - self._summed(row, beside)[0]) / flat if self.in_rows else y,
            (z - depth.middle) * (flat / (dented - depth.total)),
        )

    def unflatten(self, points: Points, dented: float, flat: float) -> Points:
        """Move points of the flat bar back to the dented one."""
        x, y, z = points
        y = self._unspread(y, dented, flat)
        row, beside = self._row(y)
        cut = self._cut(beside)
        along, mark = self._nearest(x, row)
        mean = cut.chord * (self.sides / self.spacing)
        goal = along * (dented - mean)

        def miss(new: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
            depth = self._depth(cut, new, mark)
            return dented * new - depth.summed - goal, dented - depth.total

        new = self._found(along, miss)
        depth = self._depth(cut, new, mark)
        return x + (new - along), y, z * ((dented - depth.total) / flat) + depth.middle

    def _row(self, y: np.ndarray) -> tuple[np.ndarray | int, np.ndarray]:
        """Find the nearest row of marks: its number, and how far beside it y lies."""
        if not self.in_rows:
            return 0, y
        pitch = ROWS * self.spacing
        row = np.rint(y / pitch)
        return row, y - row * pitch

    def _nearest(self, x: np.ndarray, row: np.ndarray | int) -> tuple:
        """Find the nearest mark of a row: how far along from it x lies, and its lot."""
        place = x / self.spacing - 0.5
        place -= row * 0.5  # odd rows are shifted
        number = np.rint(place)
        place -= number
        place *= self.spacing
        number += row * OTHER_ROW
        return place, number

    def _cut(self, beside: np.ndarray) -> Cut:
        lines = [mark.line(beside) for mark in self.marks]
        return Cut(beside, lines, sum(line.chord for line in lines) / len(lines))

    def _depth(self, cut: Cut, along: np.ndarray, mark: np.ndarray) -> Depth:
        depth, summed = self._of_face(cut, along, mark, 0)
        if self.faces == "top":
            return Depth(depth, depth * -0.5, summed)
        if self.faces == "bottom":
            return Depth(depth, depth * 0.5, summed)
        if self.faces == "opposite":
            return Depth(depth + depth, np.zeros_like(depth), summed + summed)
        below, more = self._of_face(cut, along, mark, 0.5)
        return Depth(depth + below, (below - depth) * 0.5, summed + more)

    def _of_face(
        self, cut: Cut, along: np.ndarray, mark: np.ndarray, later: float
    ) -> Summed:
        """Give what marks of one face are deep that lie so many spacings further along."""
        alike = len(self.marks) == 1
        if alike and not later:
            return cut.lines[0].at(along)
        place = along - later * self.spacing
        further = np.rint(place * (1 / self.spacing))
        place -= further * self.spacing
        if alike:
            depth, summed = cut.lines[0].at(place)
        else:
            number = (mark + further).astype(np.int32)
            number += int(later * OTHER_FACE)
            number &= TURNS - 1
            turn, more = _turns(self.seed, len(self.marks), along.dtype)
            sizes = np.array([astuple(one) for one in self.marks], along.dtype).T
            struck = type(self.marks[0])(*sizes.take(turn.take(number), axis=1))
            depth, summed = struck.line(cut.beside).at(place)
            for line, often in zip(cut.lines, more, strict=True):
                summed += often.take(number) * line.chord
        return depth, summed + (further + later) * cut.chord

    def _summed(self, row: np.ndarray | int, beside: np.ndarray) -> tuple:
        """Sum the mean depth of the rows up from the bar's middle line, mm²; its slope."""
        share = self.sides / self.spacing
        parts = [mark.across(beside) for mark in self.marks]
        summed, chord = (sum(part) / len(parts) for part in zip(*parts, strict=True))
        return (summed + row * self.each) * share, chord * share

    def _unspread(self, y: np.ndarray, dented: float, flat: float) -> np.ndarray:
        """Move back what was spread across the bar; a picture's many points by a table."""
        if not self.in_rows:
            return y
        goal = y * flat
        if goal.dtype != np.float32 or goal.size < ROW_PLACES:
            return self._unspread_to(y, goal, dented)
        edge, table, steps = _row_table(self, dented)
        goal *= 0.5 / edge
        row = np.rint(goal)
        goal -= row - 0.5
        goal *= ROW_PLACES
        place = goal.astype(np.int32)
        goal -= place
        goal *= steps.take(place, mode="clip")
        goal += table.take(place, mode="clip")
        row *= ROWS * self.spacing
        goal += row
        return goal

    def _unspread_to(
        self, start: np.ndarray, goal: np.ndarray, dented: float
    ) -> np.ndarray:
        def miss(new: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
            summed, chord = self._summed(*self._row(new))
            return dented * new - summed - goal, dented - chord

        return self._found(start, miss)

    def _found(self, start: np.ndarray, miss: Callable[[np.ndarray], tuple]) -> np.ndarray:
        """Find where nothing is missed, by Newton's rule: the error squares each turn."""
        single = start.dtype == np.float32
        enough = self.spacing * (3e-4 if single else 1e-8)
        new = start
        for _ in range(NEWTON_TURNS):
            missed, slope = miss(new)
            missed /= slope
            new = new - missed
            if np.max(np.abs(missed), initial=0) < enough:
                break
        return new


@lru_cache(maxsize=32)
def _row_table(dents: Dents, dented: float) -> tuple[float, np.ndarray, np.ndarray]:
    """Solve one row, all rows spread alike: its edge, places in it, steps to the next."""
    half = ROWS * dents.spacing / 2
    edge = half * dented - dents.each / 2 * dents.sides / dents.spacing
    share = np.linspace(-1, 1, ROW_PLACES + 1)
    table = dents._unspread_to(share * half, share * edge, dented)  # noqa: SLF001
    return edge, *(part.astype(np.float32) for part in (table, np.diff(table)))
