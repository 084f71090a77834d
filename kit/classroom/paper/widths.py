"""How wide words are when they are printed, and where their lines break."""

from __future__ import annotations

from functools import lru_cache

from matplotlib.font_manager import FontProperties, findfont, get_font

POINT = 25.4 / 72  # mm
BODY = 12  # points
LEADING = 1.3  # of the letters' size, from line to line


@lru_cache(maxsize=20_000)
def width_of(words: str, size: float = BODY, *, bold: bool = False) -> float:
    """Measure a line as it will be printed, mm; its size in points."""
    weight = "bold" if bold else "normal"
    font = get_font(findfont(FontProperties(family="DejaVu Sans", weight=weight)))
    font.set_size(size, 72)
    font.set_text(words, 0.0)
    return font.get_width_height()[0] / 64 * POINT


def lines_of(words: str, width: float, size: float = BODY, *, bold: bool = False) -> list:
    """Break words into lines no wider than `width` mm; spaces that indent stay."""
    lines = []
    for paragraph in words.split("\n"):
        line = ""
        for word in paragraph.split(" "):
            longer = f"{line} {word}" if line else word or " "
            if line.strip() and width_of(longer, size, bold=bold) > width:
                lines.append(line)
                line = word
            else:
                line = longer
        lines.append(line)
    return lines


def height_of(words: str, width: float, size: float = BODY, *, bold: bool = False) -> float:
    """Give how much room words take down the page, mm."""
    return len(lines_of(words, width, size, bold=bold)) * LEADING * size * POINT
