"""A photograph on the sheet, with what was pointed at on it and what was counted."""

from __future__ import annotations

import io
import math
from collections.abc import Mapping
from dataclasses import dataclass, field, replace

import numpy as np
from PIL import Image

from kit.basics.errors import KitError
from kit.basics.told import counted
from kit.basics.units import Units, format_length
from kit.forge.billet import Billet
from kit.forge.stack import Stack
from kit.metal import etch
from kit.section.picture import ACCENT, LETTERS, Sheet, to_srgb
from kit.section.surface import cut
from kit.shop.measuring import Width, band_width, boxed
from kit.shop.photograph import Photograph, Point
from kit.shop.scale import Scale
from kit.shop.stereology import line_angle
from kit.shop.stripes import Box

WIDE, HIGH, MARGIN = 980, 510, 10  # of the photograph on the sheet, at most; around it
LINE, SCALE, CARD, BOX = "line", "scale", "card", "box"  # what marks are for
MARKS = {LINE: 2, SCALE: 2, CARD: 4, BOX: 2}
NEEDS = {
    LINE: "A line needs two marks on the picture",
    SCALE: "A scale needs two marks on the picture",
    CARD: "A card needs four marks, on its corners",
    BOX: "A box needs two marks, on opposite corners",
}
SAWN = 20.0  # degrees, between the layers and the example's face
TICK = 7  # pixels of the sheet to either side of a line, where an edge was found
WHITE, OTHER = "#FFFFFF", "#B3261E"


def example() -> Photograph:
    """Make a picture to begin with: layers of 1.6 mm sawn at 20°, without a scale."""
    stack = Stack.alternate("1084", "15N20", pieces=25, thickness=1.6, length=200, width=40)
    billet = Billet(source=stack)
    high = billet.size.thickness / math.sin(math.radians(SAWN))
    face = cut(billet.size, angle=SAWN, columns=320, rows=900, pixel=high / 900)
    light = etch.seen(billet, face).tone
    return Photograph(np.rot90(light).astype(np.float32))


@dataclass(frozen=True)
class Measured:
    """A photograph and the places that somebody has pointed at (column, row).

    Parameters
    ----------
    photo : Photograph
    marks : mapping
        From what they are for to the places.
    scale : Scale, optional
        The one that was set last.
    width : Width, optional
        What was counted, until anything changes.
    """

    photo: Photograph
    marks: Mapping[str, tuple[Point, ...]] = field(default_factory=dict)
    scale: Scale | None = None
    width: Width | None = None

    @property
    def shrunk(self) -> float:
        """Pixels of the sheet for one of the photograph."""
        rows, columns = self.photo.light.shape
        return min(WIDE / columns, HIGH / rows)

    @property
    def size(self) -> tuple[int, int]:
        """Columns and rows of the photograph on the sheet."""
        rows, columns = self.photo.light.shape
        return max(1, round(columns * self.shrunk)), max(1, round(rows * self.shrunk))

    @property
    def sheet(self) -> tuple[int, int]:
        """Columns and rows of the sheet."""
        return WIDE + 2 * MARGIN, self.size[1] + 2 * MARGIN

    @property
    def lies(self) -> list[float]:
        """Left, top, right and low edge of the photograph, as shares of the sheet."""
        (wide, high), (across, down) = self.size, self.sheet
        return [
            MARGIN / across,
            MARGIN / down,
            (MARGIN + wide) / across,
            (MARGIN + high) / down,
        ]

    def at(self, across_: float, down: float) -> Point | None:
        """Find the place in the photograph under a place on the sheet (0 … 1)."""
        column = (across_ * self.sheet[0] - MARGIN) / self.shrunk
        row = (down * self.sheet[1] - MARGIN) / self.shrunk
        rows, columns = self.photo.light.shape
        inside = 0 <= column < columns and 0 <= row < rows
        return (column, row) if inside else None

    def given(self, kind: str) -> tuple[Point, ...]:
        """Give the marks for one thing."""
        return self.marks.get(kind, ())

    def marked(self, kind: str, place: Point) -> Measured:
        """Add a mark; after the last of its kind they begin anew."""
        kept = () if self.full(kind) else self.given(kind)
        return replace(self, marks={**self.marks, kind: (*kept, place)}, width=None)

    def without(self, kind: str) -> Measured:
        """Take the marks for one thing off; a scale goes with its own."""
        marks = {name: places for name, places in self.marks.items() if name != kind}
        own = self.scale and self.scale.marks == self.given(kind)
        return Measured(self.photo, marks, None if own else self.scale)

    def scaled(self, mm: float) -> Measured:
        """Set the scale by two marks."""
        return replace(self, scale=Scale(self.needed(SCALE), mm), width=None)

    def carded(self) -> Measured:
        """Set scale and tilt by four marks on the corners of a bank card."""
        return replace(self, scale=Scale(self.needed(CARD)), width=None)

    def counted(self) -> Measured:
        """Count bands along a line between two marks, and beside it inside the box."""
        start, end = self.needed(LINE)
        width = band_width(self.photo, start, end, scale=self.scale, box=self.box)
        return replace(self, width=width)

    @property
    def box(self) -> Box | None:
        """Around the steel, if both its corners are marked."""
        return boxed(*self.given(BOX)) if self.full(BOX) else None

    @property
    def named(self) -> list[tuple[float, float, str]]:
        """Give every mark that was set: column, row, and its number among its kind."""
        every = (enumerate(places, 1) for places in self.marks.values())
        return [(x, y, str(number)) for places in every for number, (x, y) in places]

    def full(self, kind: str) -> bool:
        """Say whether all marks for one thing are set."""
        return len(self.given(kind)) == MARKS[kind]

    def needed(self, kind: str) -> tuple[Point, ...]:
        """Give the marks for one thing.

        Raises
        ------
        KitError
            If some are not set yet.
        """
        if not self.full(kind):
            msg = f"{NEEDS[kind]}. Given: {len(self.given(kind))}."
            raise KitError(msg)
        return self.given(kind)

    def close(self) -> bytes:
        """Give all its pixels, for a loupe."""
        out = io.BytesIO()
        Image.fromarray(to_srgb(self.photo.light)).save(out, "JPEG", quality=92)
        return out.getvalue()

    def drawn(
        self, kind: str, *, sunlit: bool = False, letters: int = LETTERS
    ) -> Image.Image:
        """Draw the photograph, what was counted where it was, and the marks for one thing.

        Box, card and scale stay in sight while marks are set for something else.
        """
        sheet = Sheet(*self.sheet, sunlit=sunlit, letters=letters)
        light = Image.fromarray(np.asarray(self.photo.light, np.float32))
        # light is averaged, not grey levels: bands too fine for the sheet keep their tone
        grey = Image.fromarray(to_srgb(np.asarray(light.resize(self.size))))
        sheet.image.paste(grey.convert("RGB"), (MARGIN, MARGIN))
        if self.box:
            left, top, right, low = self.box
            self._path(sheet, [(left, top), (right, top), (right, low), (left, low)])
        if self.full(CARD):
            self._path(sheet, list(self.given(CARD)))
        if self.full(SCALE):
            sheet.dashes(*self._places(self.given(SCALE)), ink=ACCENT, width=3)
        self._counted(sheet)
        for number, place in enumerate(self._places(self.given(kind)), 1):
            _cross(sheet, place, str(number))
        return sheet.image

    def _places(self, marks: tuple[Point, ...]) -> list[Point]:
        return [(MARGIN + x * self.shrunk, MARGIN + y * self.shrunk) for x, y in marks]

    def _path(self, sheet: Sheet, corners: list[Point]) -> None:
        places = self._places((*corners, corners[0]))
        sheet.line(places, ink=WHITE, width=4)
        sheet.line(places, ink=ACCENT, width=2)

    def _counted(self, sheet: Sheet) -> None:
        """Draw every line where it ran, with a tick at every edge it found."""
        if self.width is None:
            if self.full(LINE):
                sheet.dashes(*self._places(self.given(LINE)), ink=ACCENT, width=3)
            return
        for line in self.width.lines:
            run = self._places((line.start, line.end))
            sheet.line(run, ink=WHITE, width=4)
            trusted = self.width.refused or line in self.width.trusted
            sheet.line(run, ink=ACCENT if trusted else OTHER, width=2)
            across = (line.end[0] - line.start[0]) / line.length * TICK
            down = (line.end[1] - line.start[1]) / line.length * TICK
            for number, (x, y) in enumerate(self._places(tuple(line.places))):
                tick = [(x - down, y + across), (x + down, y - across)]
                sheet.line(tick, ink=WHITE, width=5)
                sheet.line(tick, ink=(ACCENT, OTHER)[number % 2], width=3)

    def alt(self, units: Units) -> str:
        """Put the picture into words."""
        rows, columns = self.photo.light.shape
        scale = "no scale yet"
        if self.scale:
            wide = format_length(columns * self.scale.pixel, units)
            by = "a bank card" if self.scale.card else "two marks"
            scale = f"about {wide} wide by {by}"
        marks = sum(map(len, self.marks.values()))
        size = f"{columns} by {rows} pixels"
        told = [f"A photograph of {size}, {scale}, with {counted(marks, 'mark')}."]
        if self.box:
            left, top, right, low = (round(part) for part in self.box)
            told.append(f"A box from ({left}, {top}) to ({right}, {low}) pixels.")
        if self.width is not None:
            edges = counted(len(self.width.middle.edges), "edge")
            lines = counted(len(self.width.lines), "line")
            told.append(f"{lines} drawn across it, {edges} marked on the middle one.")
        return " ".join(told)

    def found(self, angle: float | None, units: Units) -> str:
        """Say what was counted between two marks, how sure; the cut in degrees."""
        told = self.width.told(units.fine, angle) if self.width else []
        return " ".join([*told, self._lean()])

    def _lean(self) -> str:
        (x1, y1), (x2, y2) = self.given(LINE)
        rows, columns = self.photo.light.shape
        x, y = (x1 + x2) / 2, (y1 + y2) / 2
        radius = min(x, y, columns - 1 - x, rows - 1 - y, 150)
        try:
            lean = line_angle(self.photo, (x, y), radius)
        except KitError:
            return ""
        return f"The lines lean {lean.degrees:+.0f}° there, rising to the right."


def _cross(sheet: Sheet, place: Point, name: str) -> None:
    x, y = place
    for ink, width in ((WHITE, 5), (ACCENT, 3)):
        sheet.line([(x - 12, y), (x + 12, y)], ink=ink, width=width)
        sheet.line([(x, y - 12), (x, y + 12)], ink=ink, width=width)
    left, top = min(x + 8, sheet.image.width - 30), min(y + 8, sheet.image.height - 30)
    right, low = left + 20, top + 24
    sheet.shape([(left, top), (right, top), (right, low), (left, low)], fill=WHITE)
    sheet.text(name, (left + 10, top), size=20, anchor="ma", ink=ACCENT)
