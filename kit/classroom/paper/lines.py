"""Words as they will be printed: the typeface, how wide a line is, where it breaks."""

from functools import cache, lru_cache

from PIL import ImageFont

from kit.basics.letters import BOLD, FAMILY, REGULAR
from kit.basics.told import kept, plain
from kit.basics.typed import MM_PER_INCH

POINT = MM_PER_INCH / 72  # mm
BODY = 12  # points
FAMILIES = (FAMILY, "DejaVu Sans")  # the second comes with matplotlib
FINE = 120  # dots high a line is measured: at its own size it has whole dots
LEADING = 1.3  # of the letters' size, from line to line


@cache
def files(weight: str) -> list[str]:
    """Give the typeface's file, and after it one that has the rarer letters of a name."""
    from matplotlib.font_manager import FontProperties, findfont, fontManager  # noqa: PLC0415

    for file in (REGULAR, BOLD):
        fontManager.addfont(file)
    own = REGULAR if weight == "normal" else BOLD
    return [str(own), findfont(FontProperties(family=FAMILIES[1], weight=weight))]


@cache
def _own(*, bold: bool) -> tuple[ImageFont.FreeTypeFont, frozenset[str]]:
    """Give the typeface at `FINE` dots, and the signs that it has."""
    from matplotlib.font_manager import get_font  # noqa: PLC0415

    file = str(BOLD if bold else REGULAR)
    signs = frozenset(map(chr, get_font(file).get_charmap()))
    return ImageFont.truetype(file, FINE), signs


@lru_cache(maxsize=20_000)
def width_of(words: str, size: float = BODY, *, bold: bool = False) -> float:
    """Measure a line as it will be printed, mm; its size in points."""
    font, signs = _own(bold=bold)
    if signs.issuperset(words):  # fifty times as quick as to have it set
        return font.getlength(words) / FINE * size * POINT
    from matplotlib.font_manager import get_font  # noqa: PLC0415

    letters = get_font(files("bold" if bold else "normal"))
    letters.set_size(FINE, 72)
    letters.set_text(words, 0.0)
    return letters.get_width_height()[0] / 64 / FINE * size * POINT


def lines_of(words: str, width: float, size: float = BODY, *, bold: bool = False) -> list:
    """Break words into lines no wider than `width` mm; spaces that indent stay.

    No line ends between a number and its unit.
    """
    lines = []
    gap = 0.6 * size * POINT  # more than a space: a line is measured when it may be full
    for paragraph in kept(words).split("\n"):
        line, most = "", 0.0
        for part in paragraph.split(" "):
            word = plain(part)
            longer = f"{line} {word}" if line else word or " "
            most += gap + width_of(word, size, bold=bold)
            full = most > width and width_of(longer, size, bold=bold) > width
            if line.strip() and full:
                lines.append(line)
                line, most = word, gap + width_of(word, size, bold=bold)
            else:
                line = longer
        lines.append(line)
    return lines
