"""Count by looking: a line drawn across a scene's picture, followed through the bar.

The picture shows points of the solid (`Panel`). As far as those under the line lie on one
straight line in the bar, too, `Billet.census` follows it. Over an edge of the bar, round
its skin or beside it they do not; then the longest straight part counts, and is told.
"""

from collections import Counter
from functools import cached_property
from math import ceil
from typing import NamedTuple

import numpy as np

from kit.basics.errors import KitError
from kit.basics.told import counted, listed
from kit.basics.units import Units, format_length
from kit.course.lessons.scene import Panel, Scene
from kit.forge.census import Census
from kit.forge.steps import Size
from kit.section.block import Block

Line = tuple[float, float, float, float]  # from x, y to x, y: shares of the picture

DIAGRAM = (
    "No line can be counted in this picture: it is a diagram, or what its steel is made of "
    "is for you to find out."
)
NO_STEEL = "No steel lies under this line. Draw it across a face of the bar."
ROUNDED = (
    "The steel is rounded under this line, and a straight one would run inside it. Draw "
    "it along the bar, or on a flat face."
)
BESIDE_STEEL = "of steel under this line"
BENT = 1e-6  # of a pixel: more is no straight line
SKIN = 0.25  # pixel: as far as the drawn edge of the steel may lie from the true one
ROUND_EDGE = 6  # places: so near to an edge of the bar, pixels show both of its faces
NEAR, TINY = 1e-3, 1e-30
SLACK = 3.0  # pixels of the line beside the steel that need no words
BESIDE = 7.0  # pixels by which an offered line stands out of the steel
ASIDE = 0.46  # of a face: a line just in its middle might run along a weld
MOST_TICKS, LEAST_GAP = 120, 4.0  # and pixels between them


class Stretch(NamedTuple):
    """The part of a drawn line that is straight in the steel of one panel.

    Attributes
    ----------
    place : int
        Of the panel in its scene.
    low, high : float
        Where it begins and ends, 0 … 1 along the drawn line.
    start, end : array (3,)
        In the bar, mm; where it leaves the steel, a hair beyond.
    cut : (bool, bool)
        Whether it begins, and ends, within the steel, so that a layer is cut short.
    why : str
        What the rest of the line does, or nothing.
    """

    place: int
    low: float
    high: float
    start: np.ndarray
    end: np.ndarray
    cut: tuple[bool, bool]
    why: str


class Counted(NamedTuple):
    """What is told of a line.

    Attributes
    ----------
    says, short : str
        One sentence, and what stands beside the line.
    stretch : Stretch
        Which part was counted.
    census : Census
    ticks : tuple of float
        Where a layer ends, 0 … 1 along the drawn line; none if they stand too close.
    """

    says: str
    short: str
    stretch: Stretch
    census: Census
    ticks: tuple[float, ...]


class Under(NamedTuple):
    """What lies under a line at places of it, of one panel.

    Attributes
    ----------
    points : array (3, n)
        Of the bar, mm.
    cover : array (n,)
        Share of steel, 0 … 1.
    inside, near : array of bool (n,)
        Whether the place is on the panel, or at most a pixel beside it.
    straight : array of bool (n,)
        Whether steel goes straight on there.
    """

    points: np.ndarray
    cover: np.ndarray
    inside: np.ndarray
    near: np.ndarray
    straight: np.ndarray

    @property
    def steel(self) -> np.ndarray:
        """Whether more than half of the place is steel, on the panel."""
        return self.inside & (self.cover > 0.5)


class Seen:
    """One panel, looked at as a whole, once."""

    def __init__(self, panel: Panel) -> None:
        self.panel = panel

    @cached_property
    def _all(self) -> np.ndarray:
        """x, y, z and cover (4, rows + 2, columns + 2): a pixel more on every side."""
        look = self.panel.surface.look(-1, self.panel.surface.rows + 1, float)
        return np.stack([*look.points, look.cover])

    def under(self, column: np.ndarray, row: np.ndarray) -> Under:
        """Give what lies at places of the panel, in pixels and parts of them."""
        rows, columns = self.panel.surface.rows, self.panel.surface.columns
        across_, down_ = np.abs(column - (columns - 1) / 2), np.abs(row - (rows - 1) / 2)
        inside = (across_ <= columns / 2) & (down_ <= rows / 2)
        near = (across_ <= columns / 2 + 1) & (down_ <= rows / 2 + 1)
        if not inside.any():
            nothing = np.zeros(len(column))
            return Under(np.zeros((3, len(column))), nothing, inside, near, inside)
        left = np.clip(np.floor(column).astype(int) + 1, 0, columns)
        top = np.clip(np.floor(row).astype(int) + 1, 0, rows)
        across, down = column + 1 - left, row + 1 - top
        upper, lower = (
            self._all[:, at, left] * (1 - across) + self._all[:, at, left + 1] * across
            for at in (top, top + 1)
        )
        *points, cover = upper * (1 - down) + lower * down
        points = np.array(points)
        straight = inside & (cover > 0.5)
        bend = np.abs(np.diff(points, 2)).max(axis=0, initial=0)
        straight[1:-1] &= bend <= BENT * self.panel.surface.pixel
        return Under(points, cover, inside, near, straight)


class Lines:
    """The faces of a scene, ready to have lines drawn on them.

    Parameters
    ----------
    scene : Scene
    """

    def __init__(self, scene: Scene) -> None:
        self.scene = scene
        self._seen = [Seen(panel) for panel in scene.panels]

    def count(self, line: Line, units: Units) -> Counted:
        """Count what the bar has along a line drawn on its picture.

        Parameters
        ----------
        line : (x, y, x, y)
            From where to where, shares 0 … 1 of the picture.
        units : Units

        Raises
        ------
        KitError
            One sentence, if nothing can be counted there.
        """
        if not self._seen:
            raise KitError(DIAGRAM)
        start, end = (np.array(self.scene.pixel(*part)) for part in (line[:2], line[2:]))
        found = [self._stretch(place, start, end) for place in range(len(self._seen))]
        found = [part for part in found if part is not None]
        if not found:
            raise KitError(self.scene.worded(NO_STEEL))
        best = max(found, key=lambda part: part.high - part.low)
        if best.high <= best.low:
            raise KitError(self.scene.worded(ROUNDED))
        census = self._seen[best.place].panel.billet.census(best.start, best.end)
        census = census._replace(steels=tuple(map(self.scene.called, census.steels)))
        return Counted(
            says=self.scene.worded(_sentence(best, census, units)),
            short=_short(best, census, units),
            stretch=best,
            census=census,
            ticks=_ticks(best, census, float(np.hypot(*(end - start)))),
        )

    def offered(self) -> Line:
        """Give a line to begin with: straight across a face, where most layers are met.

        Raises
        ------
        KitError
            If the picture is a diagram.
        """
        if not self._seen:
            raise KitError(DIAGRAM)
        flat_first = sorted(
            self._seen, key=lambda seen: isinstance(seen.panel.surface, Block)
        )
        offers = [line for seen in flat_first for line in self._across(seen.panel)]
        best, most = offers[0], 0
        for line in offers:
            try:
                counted = self.count(line, Units.MM)
            except KitError:
                continue  # the next may be better; if none is, the first says why
            if counted.census.layers > most:
                best, most = self._trimmed(line, counted.stretch), counted.census.layers
        return best

    def face(self, place: int) -> tuple:
        """Say which face a panel is: while this stays, a line on it may stay, too."""
        panel = self._seen[place].panel
        return place, panel.corner, type(panel.surface)

    def shows(self, face: tuple) -> bool:
        """Tell whether such a face is in this scene, too."""
        return any(face == self.face(place) for place in range(len(self._seen)))

    def _across(self, panel: Panel) -> list[Line]:
        (left, top), surface = panel.corner, panel.surface
        wide, high = self.scene.image.size
        right, low = left + surface.columns, top + surface.rows
        x, y = left + ASIDE * surface.columns, top + ASIDE * surface.rows
        return [
            (x / wide, top / high, x / wide, low / high),
            (left / wide, y / high, right / wide, y / high),
        ]

    def _trimmed(self, line: Line, part: Stretch) -> Line:
        start, end = np.array(line[:2]), np.array(line[2:])
        way = end - start
        more = BESIDE / np.hypot(*(way * self.scene.image.size))
        ends = [start + way * share for share in (part.low - more, part.high + more)]
        return tuple(float(value) for value in np.clip(np.concatenate(ends), 0, 1))

    def _stretch(self, place: int, start: np.ndarray, end: np.ndarray) -> Stretch | None:
        """Find the longest straight part on a panel; empty if rounded, None if no steel."""
        seen = self._seen[place]
        count = max(2, ceil(float(np.abs(end - start).max())) + 1)
        share = np.linspace(0, 1, count)
        column, row = (a + (b - a) * share for a, b in zip(start, end, strict=True))
        under = seen.under(*seen.panel.own(column, row))
        if not under.steel.any():
            return None
        first, last = _longest(under.straight)
        if last <= first:
            nowhere = under.points[:, 0]
            return Stretch(place, 0, 0, nowhere, nowhere, (True, True), "")
        way = (under.points[:, last] - under.points[:, first]) / (last - first)
        ends = [_end(under, first, -1, -way), _end(under, last, 1, way)]
        size = seen.panel.billet.size
        ways = (-way, way)
        cut = [not _leaves(size, end, out) for end, out in zip(ends, ways, strict=True)]
        low, high = (min(max(end.place / (count - 1), 0.0), 1.0) for end in ends)
        why = "of this line on one face" if any(end.over for end in ends) else BESIDE_STEEL
        if max(low, 1 - high) * (count - 1) <= SLACK:
            why = ""
        return Stretch(place, low, high, *(end.point for end in ends), tuple(cut), why)


class End(NamedTuple):
    """Where a straight run of places under a line ends.

    `place` is counted in places along the line; `point` lies in the bar. `edge`: the
    steel ends there; `over`: it goes on round an edge of the bar.
    """

    place: float
    point: np.ndarray
    edge: bool = False
    over: bool = False


def _end(under: Under, here: int, step: int, way: np.ndarray) -> End:
    """Find where a run ends whose last place is `here`; `way` is mm from place to place."""
    point, beyond = under.points[:, here], here + step
    if not 0 <= beyond < len(under.cover) or not under.near[beyond]:
        return End(here, point)
    if under.cover[beyond] <= 0.5:  # the steel's edge is where its cover is half
        inner, outer = under.cover[[here, beyond]]
        more = (inner - 0.5) / (inner - outer)
        return End(here + step * more, point + (more + SKIN) * way, edge=True)
    if not under.inside[beyond]:
        return End(here, point)
    # the straight run beyond the edge meets this one on the edge
    other = here + step * ROUND_EDGE
    more = 0.0
    if 0 <= other + step < len(under.cover) and under.straight[[other, other + step]].all():
        turned = under.points[:, other + step] - under.points[:, other]
        apart = point - under.points[:, other] + ROUND_EDGE * turned
        more = -(apart @ (way - turned)) / max((way - turned) @ (way - turned), TINY)
        more = more if 0 <= more <= ROUND_EDGE else 0.0
    return End(here + step * more, point + more * way, over=True)


def _leaves(size: Size, end: End, out: np.ndarray) -> bool:
    """Tell whether no layer is cut short there: the steel ends, or the bar's own skin."""
    middle = np.array([size.length / 2, 0, 0])
    on_skin = np.abs(end.point - middle) >= np.array(size) / 2 * (1 - NEAR)
    outward = out * (end.point - middle) > NEAR * np.linalg.norm(out) * np.array(size) / 2
    return end.edge or (end.over and bool((on_skin & outward).any()))


def _longest(good: np.ndarray) -> tuple[int, int]:
    """Give the first and last place of the longest run; (0, -1) if there is none."""
    edges = np.flatnonzero(np.diff(np.concatenate([[0], good.astype(int), [0]])))
    if not len(edges):
        return 0, -1
    runs = edges.reshape(-1, 2)
    first, past = runs[np.argmax(runs[:, 1] - runs[:, 0])]
    return int(first), int(past) - 1


def _ticks(part: Stretch, census: Census, pixels: float) -> tuple[float, ...]:
    share = census.borders / census.borders[-1]
    apart = float(np.diff(share).min()) * (part.high - part.low) * pixels
    if census.layers > MOST_TICKS or apart < LEAST_GAP:
        return ()
    return tuple(float(part.low + (part.high - part.low) * place) for place in share[1:-1])


def _sentence(part: Stretch, census: Census, units: Units) -> str:
    long = format_length(float(census.borders[-1]), units)
    line = f"this {long} line"
    if part.why:
        line = f"the {long} {part.why}"
    if census.layers == 1:
        return f"Along {line}: one layer, of {census.steels[0]}."
    steels = [f"{many:,} of {name}" for name, many in Counter(census.steels).most_common()]
    bands = counted(census.bands, "band")
    return (
        f"Along {line}: {census.layers:,} layers in {bands}, {listed(steels)}"
        f"{_thick(part, census, units)}."
    )


def _whole(part: Stretch, census: Census) -> np.ndarray:
    """Give the thickness of each layer that the line crosses whole, along it, mm."""
    thick = np.diff(census.borders)
    return thick[int(part.cut[0]) : len(thick) - int(part.cut[1])]


def _thick(part: Stretch, census: Census, units: Units) -> str:
    """Say how thick the layers are; where the line ends within one, of the others."""
    whole = _whole(part, census)
    if not len(whole):
        return ""
    mean, thinnest = (
        format_length(float(value), units) for value in (whole.mean(), whole.min())
    )
    if len(whole) == 1:
        return f"; the one crossed whole is {mean}"
    which = f"; the {len(whole):,} crossed whole:" if len(whole) < census.layers else ","
    return f"{which} mean {mean}, thinnest {thinnest}"


def _short(part: Stretch, census: Census, units: Units) -> str:
    whole = _whole(part, census)
    if census.layers == 1:
        return f"1 layer of {census.steels[0]}"
    mean = f", mean {format_length(float(whole.mean()), units)}" if len(whole) else ""
    return f"{census.layers:,} layers{mean}"
