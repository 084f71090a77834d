"""Drawn at true size if it fits, otherwise at a round scale that is said beside it."""

from __future__ import annotations

from dataclasses import dataclass

from kit.classroom.paper.page import HAIR, Page, Place
from kit.forge.stack import Stack
from kit.forge.steels import steel
from kit.metal import etch
from kit.section.picture import to_srgb

SCALES = (1.0, 1 / 2, 1 / 4, 1 / 5, 1 / 10, 1 / 20, 1 / 50, 1 / 100)
LABEL = 3.7  # mm from label to label
MOST_LABELS = 17


def scale_for(wide: float, tall: float, room: Place) -> float:
    """Give the largest of `SCALES` at which something fits into a room, mm."""
    fits = [
        scale for scale in SCALES if wide * scale <= room[0] and tall * scale <= room[1]
    ]
    return fits[0] if fits else SCALES[-1]


def in_words(scale: float) -> str:
    """Say a scale.

    Examples
    --------
    >>> in_words(1), in_words(0.25)
    ('true size (1 : 1)', 'drawn smaller (1 : 4)')
    """
    return "true size (1 : 1)" if scale == 1 else f"drawn smaller (1 : {1 / scale:.0f})"


def grey_of(name: str) -> str:
    """Give the grey of an etched steel (illustrative), light enough to write on."""
    tone = int(to_srgb(etch.reflectance(steel(name))))
    light = 110 + tone * 145 // 255
    return f"#{light:02X}{light:02X}{light:02X}"


@dataclass(frozen=True)
class StackEnd:
    """The end of a stack, bars as they lie, each with its name and thickness."""

    stack: Stack
    words: list[str]  # of each bar, bottom first

    def draw(self, page: Page, at: Place, room: Place) -> float:
        """Draw it as large as true size allows; give its foot, mm down the page."""
        stack = self.stack
        scale = scale_for(stack.width, stack.thickness, room)
        wide, foot = stack.width * scale, at[1] + stack.thickness * scale
        lower, middles = foot, []
        for layer in stack.layers:
            tall = layer.thickness * scale
            lower -= tall
            fill = grey_of(layer.steel)
            page.box((at[0], lower), (wide, tall), fill=fill, width=HAIR)
            middles.append(lower + tall / 2)
        page.box(at, (wide, foot - at[1]))
        low = self._labels(page, at[0] + wide, middles) if self._few else foot
        says = f"{in_words(scale)}, from the end"
        return page.write(says, (at[0], max(foot, low) + 1), 60, size=8)

    @property
    def _few(self) -> bool:
        return len(self.words) <= MOST_LABELS

    def _labels(self, page: Page, x: float, middles: list[float]) -> float:
        """Write a label to each bar, spread out so that they do not touch."""
        count = len(middles)
        centre = (middles[0] + middles[-1]) / 2
        first = centre + LABEL * (count - 1) / 2
        top = first - LABEL * (count - 1)
        shift = max(0.0, min(middles) - LABEL / 2 - top)
        for number, (middle, words) in enumerate(zip(middles, self.words, strict=True)):
            y = first + shift - number * LABEL
            page.line((x, middle), (x + 6, y), (x + 8, y), width=HAIR)
            page.write(f"{number + 1:>2}  {words}", (x + 9, y - 1.6), 50, size=8)
        return first + shift + 1
