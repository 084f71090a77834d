"""A photograph on the sheet, with what was clicked on it and what was found."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

import numpy as np
from PIL import Image

from kit.basics.errors import KitError
from kit.basics.told import counted
from kit.basics.units import Units, format_length
from kit.course.lessons import drawing
from kit.section.picture import ACCENT, LETTERS, Sheet, to_srgb
from kit.shop.photograph import BANK_CARD, Photograph, Point
from kit.shop.stereology import band_width, line_angle, true_spacing
from kit.shop.stripes import across, along

WIDE, HIGH = 980, 392  # of the sheet, at most
LINES = 5


@dataclass(frozen=True)
class Measured:
    """A photograph and the places that somebody has pointed at (column, row)."""

    photo: Photograph
    marks: tuple[Point, ...] = field(default=())

    @property
    def shrunk(self) -> float:
        """Pixels of the sheet for one of the photograph."""
        rows, columns = self.photo.light.shape
        return min(WIDE / columns, HIGH / rows)

    def at(self, across_: float, down: float) -> Point | None:
        """Find the place in the photograph under a place on the sheet (0 … 1)."""
        column = (across_ * drawing.COLUMNS - 10) / self.shrunk
        row = (down * drawing.ROWS - 10) / self.shrunk
        rows, columns = self.photo.light.shape
        inside = 0 <= column < columns and 0 <= row < rows
        return (column, row) if inside else None

    def marked(self, place: Point, most: int) -> Measured:
        """Add a mark; after `most` of them begin anew."""
        kept = () if len(self.marks) >= most else self.marks
        return replace(self, marks=(*kept, place))

    def scaled(self, mm: float) -> Measured:
        """Set the scale by the two marks."""
        if len(self.marks) != 2:
            msg = f"A scale needs two marks on the picture. Given: {len(self.marks)}."
            raise KitError(msg)
        return Measured(self.photo.scaled(*self.marks, mm))

    def square_on(self) -> Measured:
        """Turn the picture square on by four marks on the corners of a bank card."""
        if len(self.marks) != 4:
            msg = f"A card needs four marks, on its corners. Given: {len(self.marks)}."
            raise KitError(msg)
        return Measured(self.photo.square_on(list(self.marks), BANK_CARD))

    def drawn(self, *, sunlit: bool = False, letters: int = LETTERS) -> Image.Image:
        """Draw the photograph with its marks."""
        sheet = Sheet(drawing.COLUMNS, drawing.ROWS, sunlit=sunlit, letters=letters)
        light = Image.fromarray(np.asarray(self.photo.light, np.float32))
        rows, columns = self.photo.light.shape
        size = max(1, round(columns * self.shrunk)), max(1, round(rows * self.shrunk))
        # light is averaged, not grey levels: bands too fine for the sheet keep their tone
        grey = Image.fromarray(to_srgb(np.asarray(light.resize(size))))
        sheet.image.paste(grey.convert("RGB"), (10, 10))
        places = [(10 + x * self.shrunk, 10 + y * self.shrunk) for x, y in self.marks]
        for number, (x, y) in enumerate(places, 1):
            sheet.line([(x - 12, y), (x + 12, y)], ink="#FFFFFF", width=5)
            sheet.line([(x, y - 12), (x, y + 12)], ink="#FFFFFF", width=5)
            sheet.line([(x - 12, y), (x + 12, y)], ink=ACCENT, width=3)
            sheet.line([(x, y - 12), (x, y + 12)], ink=ACCENT, width=3)
            sheet.text(str(number), (x + 10, y + 4), size=20, ink=ACCENT)
        if len(places) == 2:
            sheet.dashes(*places, ink=ACCENT, width=3)
        return sheet.image

    def alt(self, units: Units) -> str:
        """Put the picture into words."""
        rows, columns = self.photo.light.shape
        scale = "no scale yet"
        if self.photo.pixel:
            scale = f"{format_length(columns * self.photo.pixel, units)} wide"
        return (
            f"A photograph of {columns} by {rows} pixels, {scale}, with "
            f"{len(self.marks)} marks."
        )

    def found(self, angle: float | None, units: Units) -> str:
        """Say what was counted between two marks, how sure; the cut in degrees."""
        if len(self.marks) != 2:
            msg = f"A line needs two marks on the picture. Given: {len(self.marks)}."
            raise KitError(msg)
        middle = along(self.photo, *self.marks)
        told = [middle.doubt or f"{counted(middle.count, 'band')} between the marks."]
        if self.photo.pixel and not middle.doubt:
            width = band_width(across(self.photo, *self.marks, LINES))
            mean, within = (format_length(part, units) for part in width[:2])
            told.append(f"A band is {mean} wide, within {within} in 95 cases of 100.")
            if angle is not None:
                true = format_length(true_spacing(width.mean, angle), units)
                told.append(f"Cut at {angle:g}°, a layer is {true} thick.")
        elif not middle.doubt:
            told.append(f"A band is {middle.width:.1f} pixels wide: set a scale for mm.")
        return " ".join([*told, self._lean()])

    def _lean(self) -> str:
        (x1, y1), (x2, y2) = self.marks
        rows, columns = self.photo.light.shape
        x, y = (x1 + x2) / 2, (y1 + y2) / 2
        radius = min(x, y, columns - 1 - x, rows - 1 - y, 150)
        try:
            lean = line_angle(self.photo, (x, y), radius)
        except KitError:
            return ""
        return f"The lines lean {lean.degrees:+.0f}° there, rising to the right."
