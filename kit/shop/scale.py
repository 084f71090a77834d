"""What turns places on a photograph into millimetres on the steel, and how far off it is.

Two marks a known length apart give a scale, not the tilt. A bank card's corners give both,
so nothing has to be turned square on: places are, wherever they were pointed at.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Any

import numpy as np

from kit.basics.claim import Claim, Kind
from kit.basics.errors import KitError
from kit.shop.photograph import Point

CARD_SIZE = Claim(
    says="A bank card has the size of its standard, so it gives a photograph its scale.",
    kind=Kind.PUBLISHED,
    source="ISO/IEC 7810:2019, format ID-1",
    unit="mm",
    holds=("BANK_CARD",),
)
BANK_CARD = (85.60, 53.98)

ERRORS = Claim(
    says="A mark set with the loupe is off by about a pixel, across and down; a photograph "
    "held square on by hand may be tilted by 20 degrees; no lens is wider than a phone's.",
    kind=Kind.OURS,
    unit="pixels (standard deviation); degrees; pictures' longer sides from lens to steel",
    holds=("MARK", "TILT", "NEAREST"),
)
MARK = 1.0
TILT = 20.0
NEAREST = 0.72  # 26 mm of focal length for 36 mm of picture
CARD_MADE = Claim(
    says="A bank card is 0.76 mm thick and as large as its name says within 0.15 %.",
    kind=Kind.MEMORY,
    source="ISO/IEC 7810, thickness and tolerances of format ID-1",
    unit="mm; share",
    holds=("CARD_THICK", "CARD_WITHIN"),
)
CARD_THICK = 0.76
CARD_WITHIN = 0.0015
NORMAL = Claim(
    says="Of 100 normal errors 95 are smaller than 1.96 standard deviations.",
    kind=Kind.DERIVED,
    source="the normal distribution, its 97.5 % point",
    unit="standard deviations",
    holds=("SURE",),
)
SURE = 1.96


@dataclass(frozen=True)
class Scale:
    """Places pointed at on a photograph, and what is known of them.

    Parameters
    ----------
    marks : tuple of (column, row)
        Two, or the four corners of a bank card, clockwise from its upper left.
    mm : float, optional
        Between the two.

    Raises
    ------
    KitError
        If the marks lie on each other, the length is none, or the corners are no
        four-sided figure.
    """

    marks: tuple[Point, ...]
    mm: float = math.nan

    def __post_init__(self) -> None:
        if not self.card:
            apart = math.dist(*self.marks)
            if not (math.isfinite(self.mm) and self.mm > 0 and apart >= 1):
                msg = (
                    "A scale needs two places at least one pixel apart and the millimetres "
                    f"between them. Given: {apart:.1f} pixels, {self.mm:g} mm."
                )
                raise KitError(msg)
        elif min(math.dist(*pair) for pair in self._sides) < 20:
            msg = "A card's sides must be at least 20 pixels long in the picture."
            raise KitError(msg)
        _ = self._matrix

    @property
    def card(self) -> bool:
        """Whether it rests on a card's corners, not on two marks."""
        return len(self.marks) == 4

    @property
    def _sides(self) -> Iterable[tuple[Point, Point]]:
        return zip(self.marks, self.marks[1:] + self.marks[:1], strict=True)

    @cached_property
    def _matrix(self) -> np.ndarray:
        if not self.card:
            return np.diag([self.mm / math.dist(*self.marks)] * 2 + [1])
        wide, high = BANK_CARD
        ground = [(0, 0), (wide, 0), (wide, high), (0, high)]
        matrix = np.linalg.inv(projection(ground, list(self.marks)))
        return matrix / (matrix[2] @ (*np.mean(self.marks, axis=0), 1))

    @property
    def pixel(self) -> float:
        """Width of a pixel, mm: on the whole of the marks."""
        known = self.mm if not self.card else 2 * sum(BANK_CARD)
        shown = sum(math.dist(*pair) for pair in self._sides)
        return known / (shown if self.card else math.dist(*self.marks))

    def ground(self, places: np.ndarray) -> np.ndarray:
        """Give places (column, row) in mm on the face.

        Raises
        ------
        KitError
            If one lies where a picture so tilted shows no face.
        """
        if np.min(places @ self._matrix[2, :2] + self._matrix[2, 2]) < 0.05:
            msg = (
                "The picture is tilted too steeply to be measured there. Photograph the "
                "face from above, and give the corners clockwise from the upper left."
            )
            raise KitError(msg)
        return np.stack(mapped(self._matrix, (places[:, 0], places[:, 1])), axis=1)

    def turned(self, place: Point, degrees: float) -> float:
        """Give a direction at a place as it is on the face.

        Parameters
        ----------
        place : (column, row)
        degrees : float
            In the picture, -90 … 90, rising to the right; so is what is given back,
            against the upper side of the card.
        """
        x, y = math.cos(math.radians(degrees)), -math.sin(math.radians(degrees))
        one, other = self.ground(np.array([place, (place[0] + x, place[1] + y)]))
        found = math.degrees(math.atan2(one[1] - other[1], other[0] - one[0]))
        return (found + 90) % 180 - 90

    def moved(self) -> Iterator[Scale]:
        """Give the scales that there would be if one mark were one pixel elsewhere."""
        for number, (x, y) in enumerate(self.marks):
            for place in ((x + MARK, y), (x, y + MARK)):
                marks = (*self.marks[:number], place, *self.marks[number + 1 :])
                yield replace(self, marks=marks)

    def lifted(self, longer: int) -> float:
        """Say how much nearer to the lens a card's face is than the steel it lies on.

        As a share; half the most that it can be, so that it is off by as much again.

        Parameters
        ----------
        longer : int
            Of the picture's sides, pixels.
        """
        if not self.card:
            return 0.0
        return CARD_THICK / (NEAREST * longer * self.pixel) / 2

    def off(self, longer: int) -> float:
        """Give the scale's own error as a share, 95 %: marks, card, the card's height."""
        made = CARD_WITHIN if self.card else 0.0
        return math.hypot(self.clicked, made, self.lifted(longer))

    @property
    def clicked(self) -> float:
        """What the marks may put a length off by, as a share, 95 cases of 100."""
        if not self.card:
            return SURE * MARK * math.sqrt(2) / math.dist(*self.marks)
        middle = np.mean(self.marks, axis=0)
        return (
            SURE * MARK / math.sqrt(sum(math.dist(one, middle) ** 2 for one in self.marks))
        )

    def tilted(self, start: Point, end: Point, longer: int) -> float:
        """Give what a tilt that two marks do not show may do to a line, as a share.

        Lengths shrink across the axis of a tilt, and with how far they are away: none of
        that matters to a line that runs where the marks are.
        """
        (a, b), (c, d) = self.marks
        turn = math.atan2(end[1] - start[1], end[0] - start[0]) - math.atan2(d - b, c - a)
        aside = math.hypot(start[0] + end[0] - a - c, start[1] + end[1] - b - d) / 2
        tilt = math.radians(TILT)
        shrunk = (1 - math.cos(tilt)) * abs(math.sin(turn))
        return shrunk + math.tan(tilt) * aside / (NEAREST * longer)


def projection(ground: list[Point], picture: list[Point]) -> np.ndarray:
    """Find the 3 × 3 matrix that takes four places to four others.

    Hartley & Zisserman, Multiple View Geometry, 2nd ed., section 4.1: eight equations.
    """
    rows, right = [], []
    for (x, y), (u, v) in zip(ground, picture, strict=True):
        rows += [[x, y, 1, 0, 0, 0, -u * x, -u * y], [0, 0, 0, x, y, 1, -v * x, -v * y]]
        right += [u, v]
    turns = [_turn(picture, index) for index in range(4)]
    if min(turns) <= 0:
        msg = (
            "The four corners must make a four-sided figure without a dent, clockwise from "
            f"its upper left. Given: {[(round(x), round(y)) for x, y in picture]}."
        )
        raise KitError(msg)
    return np.append(np.linalg.solve(np.array(rows, float), right), 1).reshape(3, 3)


def _turn(points: list[Point], index: int) -> float:
    (a, b), (c, d), (e, f) = (points[(index + step) % 4] for step in range(3))
    return (c - a) * (f - d) - (d - b) * (e - c)


def mapped(matrix: np.ndarray, point: tuple[Any, Any]) -> tuple[Any, Any]:
    """Take a place, or arrays of places, to where they are in the other picture."""
    x, y, w = (row[0] * point[0] + row[1] * point[1] + row[2] for row in matrix)
    return x / w, y / w
