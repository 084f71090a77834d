"""A bar before and after a step that is tried out, with marks where a law breaks."""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any, NamedTuple

import numpy as np
from PIL import Image

from kit.basics.units import Units, format_length
from kit.course.own_step import OwnStep, where_is
from kit.forge.billet import Billet
from kit.forge.steps import Points, Size, Step
from kit.metal import described, etch
from kit.section.picture import INK, Sheet
from kit.section.surface import Look, Moved, Plane
from kit.section.trace import Face, Surface, see, share_inside

COLUMNS, MARGIN = 1000, 16  # pixels
LONG, HIGH, END = 710, 84, 220  # pixels at most: along, across, and of the cut across
LINE, GAP, SIZE = 24, 12, 18  # a line of words, room above it, height of its letters
SCALE = (100, 60)  # of a scale bar, at most: of a cut along, and across
RING = 9  # radius of a mark
LEAST = 1e-3  # mm: what is flattened to nothing is drawn so thick

Place = tuple[float, float, float]


class Mark(NamedTuple):
    """Where a law breaks, in a few words; places in mm, before the step and after."""

    words: str
    before: Place
    after: Place


class After(NamedTuple):
    """How large a bar is after the step, and where its axis begins (mm)."""

    size: Size
    start: Place


class _Side(NamedTuple):
    """A bar on one side of the step."""

    name: str
    size: Size
    start: Place
    see: Callable[[Plane], Face]

    def of(self, mark: Mark) -> Place:
        """Give the place of a mark on this side, mm."""
        return mark.before if self.name == "Before" else mark.after


class _Cut(NamedTuple):
    """One way to look at a bar: axes to the right and up, and pixels at most."""

    name: str
    right: int
    up: int
    room: int
    high: int
    height: float = 0.0  # over the axis, in thicknesses
    whole: bool = True  # seen from end to end

    @property
    def along(self) -> bool:
        """Whether it runs along the bar; there are the marks."""
        return self.right == 0


CUTS = (
    _Cut("cut lengthwise", 0, 2, LONG, HIGH, whole=False),
    _Cut("ground down by a quarter", 0, 1, LONG, HIGH, height=0.25),
    _Cut("cut across", 1, 2, END, END),
)


def said(size: Size, units: Units) -> str:
    """Write a size (mm), with its unit once."""
    words = " × ".join(format_length(part, units) for part in size)
    return f"{words.replace(' mm', '')} mm" if units is Units.MM else words


def size_after(step: OwnStep | Step, bar: Billet) -> After:
    """Give the size after a step (mm); of one's own, what the moved skin fills."""
    if isinstance(step, Step):
        return After(step.size_after(bar.size), (0.0, 0.0, 0.0))
    moved = step.do(_skin(bar.size), bar.size)
    low, high = (np.array([edge(axis) for axis in moved]) for edge in (np.min, np.max))
    size = Size(*(max(LEAST, float(part)) for part in high - low))
    middle = (low + high) / 2
    return After(size, (float(low[0]), float(middle[1]), float(middle[2])))


def _skin(size: Size) -> Points:
    """Strew points over a bar's skin, corners among them."""
    along, round_ = np.linspace(0, size.length, 401), np.linspace(0, 2 * math.pi, 97)
    y, z = np.cos(round_), np.sin(round_)
    if not size.round:  # from the circle out to the square around it
        out = np.maximum(np.abs(y), np.abs(z))
        y, z = y / out, z / out
    x, y = np.meshgrid(along, y * (size.width / 2))
    _, z = np.meshgrid(along, z * (size.thickness / 2))
    return tuple(axis.ravel() for axis in (x, y, z))


@dataclass(frozen=True)
class _Carried(Moved):
    """A surface in the bar after one's own step, seen by what undo says was there."""

    surface: Plane
    start: Place
    step: OwnStep
    size: Size

    def look(self, first: int, last: int, dtype: type) -> Look:
        seen = self.surface.look(first, last, float)
        moved = (axis + at for axis, at in zip(seen.points, self.start, strict=True))
        x, y, z = self.step.came_from(tuple(moved))
        wide, thick = self.size.width / 2, self.size.thickness / 2
        if self.size.round:
            inside = (1 - np.hypot(y / wide, z / thick)) * thick
        else:
            inside = np.minimum(wide - np.abs(y), thick - np.abs(z))
        inside = np.minimum(inside, np.minimum(x, self.size.length - x))
        inside = np.where(np.isfinite(inside), inside, -1.0)
        cover = seen.cover * np.pad(share_inside(inside), 1, mode="edge")
        points = tuple(np.nan_to_num(axis).astype(dtype) for axis in (x, y, z))
        return Look(points, cover.astype(dtype), seen.light)


def drawn(
    step: OwnStep | Step,
    bar: Billet,
    after: After,
    marks: Sequence[Mark],
    units: Units,
    **paper: Any,
) -> tuple[Image.Image, str]:
    """Draw a bar before and after a step, each cut three ways, at one scale.

    Returns
    -------
    image, str
        The picture, and the same in words.
    """
    sides = _sides(step, bar, after)
    panels, rows = _laid_out(sides, marks)
    sheet = Sheet(COLUMNS, rows, **paper)
    shows: dict[str, list[str]] = {side.name: [] for side in sides}
    for side, cut, plane, at in panels:
        sheet.text(f"{side.name}, {cut.name}", (at[0], at[1] - LINE), size=SIZE)
        face = side.see(plane)
        sheet.steel(face, at, plane)
        most = SCALE[not cut.along]
        where = at[0] + cut.room - most, at[1] - 8
        sheet.scale_bar(where, plane.pixel, units, most=most)
        shows[side.name].append(f"{cut.name} it shows {described.of(face, plane.pixel)}")
        for number, mark in enumerate(marks if cut.along else ()):
            ring = _in_picture(side, plane, mark, at)
            _mark(sheet, ring, at[1] + plane.rows + number * LINE, mark.words)
    words = " ".join(
        f"{side.name}: {said(side.size, units)}; {'; '.join(shows[side.name])}."
        for side in sides
    )
    marked = "".join(
        f" Marked on both: {mark.words}, {where_is(mark.before, units)}." for mark in marks
    )
    return sheet.image, f"A bar before and after the step. {words}{marked}"


def _sides(step: OwnStep | Step, bar: Billet, after: After) -> tuple[_Side, _Side]:
    """Make both sides of the step ready to be seen."""
    tones = etch.tones(bar.source.steels)

    def trace(plane: Plane) -> Face:
        if isinstance(step, Step):
            return see(bar.then(step), plane, tones)
        carried: Surface = _Carried(plane, after.start, step, bar.size)
        return see(bar, carried, tones)

    return (
        _Side("Before", bar.size, (0.0, 0.0, 0.0), lambda plane: see(bar, plane, tones)),
        _Side("After", after.size, after.start, trace),
    )


def _laid_out(sides: Sequence[_Side], marks: Sequence[Mark]) -> tuple[list, int]:
    """Place three cuts of each side, at one scale a cut; the rows of pixels they need."""
    pixels = {
        cut: max(one for side in sides for one in _needs(cut, side, marks)) for cut in CUTS
    }
    panels, top = [], LINE + GAP
    for side in sides:
        down = top
        for cut in CUTS:
            plane = _plane(side, cut, pixels[cut], marks)
            if cut.along:
                panels.append((side, cut, plane, (MARGIN, down)))
                down += plane.rows + LINE * (len(marks) + 1) + GAP
            else:
                panels.append((side, cut, plane, (COLUMNS - MARGIN - END, top)))
                down = max(down, top + plane.rows + LINE + GAP)
        top = down
    return panels, top - LINE


def _needs(cut: _Cut, side: _Side, marks: Sequence[Mark]) -> tuple[float, float]:
    """Say how wide a pixel must be, mm: for what is across, and for what is along."""
    wide = side.size[cut.right]
    if cut.along and not cut.whole:
        along = [side.of(mark)[0] for mark in marks] or [0.0]
        wide = 1.3 * (max(along) - min(along))
    return side.size[cut.up] / cut.high, wide / (cut.room - 2)


def _plane(side: _Side, cut: _Cut, pixel: float, marks: Sequence[Mark]) -> Plane:
    """Cut a bar: all of it if it fits, or else what lies about the marks, or the middle."""
    size = side.size
    wide, tall = size[cut.right], size[cut.up]
    shown = min(wide, (cut.room - 2) * pixel)
    centre = [size.length / 2, 0.0, cut.height * size.thickness]
    if cut.along:
        along = [side.of(mark)[0] - side.start[0] for mark in marks] or [size.length / 2]
        middle = (min(along) + max(along)) / 2
        centre[0] = min(max(middle, shown / 2), size.length - shown / 2)
    ways = np.eye(3)
    return Plane(
        size=size, centre=tuple(centre),
        right=tuple(ways[cut.right]), up=tuple(ways[cut.up]),
        columns=math.ceil(shown / pixel) + 2, rows=math.ceil(tall / pixel) + 2, pixel=pixel,
    )  # fmt: skip


def _in_picture(
    side: _Side, plane: Plane, mark: Mark, at: tuple[int, int]
) -> tuple[float, float]:
    """Find a mark's column and row."""
    away = np.array(side.of(mark)) - side.start - plane.centre
    return (
        at[0] + plane.columns / 2 + float(away @ plane.right) / plane.pixel,
        at[1] + plane.rows / 2 - float(away @ plane.up) / plane.pixel,
    )


def _mark(sheet: Sheet, ring: tuple[float, float], below: float, words: str) -> None:
    """Ring a place, black on white, and lead from it to its words."""
    x, y = ring
    around = [
        (x + RING * math.cos(part), y + RING * math.sin(part))
        for part in np.linspace(0, 2 * math.pi, 25)
    ]
    middle = below + LINE / 2
    right = x < LONG / 2
    end = (x + (8 if right else -8), middle)
    lead = [(x, y + RING), (x, middle), end]
    for ink, width in ((sheet.page, 6), (INK, 2)):
        sheet.line(around, ink=ink, width=width)
        sheet.line(lead, ink=ink, width=width)
    sheet.text(
        words,
        (end[0] + (4 if right else -4), middle),
        size=SIZE,
        anchor="lm" if right else "rm",
    )
